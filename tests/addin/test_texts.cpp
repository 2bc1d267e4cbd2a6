// SPDX-License-Identifier: MPL-2.0
// A translator's file as it is read.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "addin/text/texts.hpp"

namespace drysheet {
namespace {

class TranslatorsFile : public testing::Test {
  protected:
    TranslatorsFile() { create_directories(folder_); }
    ~TranslatorsFile() override { remove_all(folder_); }
    Texts read(std::string_view content) {
        const auto path = folder_ / "xx.tsv";
        std::ofstream(path) << content;
        const std::u8string utf8 = path.u8string();
        return Texts(std::string(utf8.begin(), utf8.end()));
    }

  private:
    // as a user of that name has it, and each case its own
    const std::filesystem::path folder_ = std::filesystem::path(testing::TempDir()) / u8"Jürgen Łoś" /
                                          testing::UnitTest::GetInstance()->current_test_info()->name();
};

TEST_F(TranslatorsFile, KeyTabText) {
    const Texts texts = read("# a note\n\nDRYBASIS\tFeuchte der Trockenmasse\nWETBASIS\t\n");
    EXPECT_EQ(texts.language(), "xx");
    EXPECT_EQ(texts.lines().size(), 2U);
    EXPECT_EQ(texts.of("DRYBASIS", "in English"), "Feuchte der Trockenmasse");
    EXPECT_EQ(texts.text("DRYBASIS", "in English"), "Feuchte der Trockenmasse");
    EXPECT_EQ(texts.of("WETBASIS", "in English"), std::nullopt);  // no text yet
    EXPECT_EQ(texts.text("WETBASIS", "in English"), "in English");
    EXPECT_EQ(texts.of("NOSUCH", "in English"), std::nullopt);
    EXPECT_EQ(Texts().of("NOSUCH", "in English"), "in English");
}

TEST_F(TranslatorsFile, RefusesWhatIsNoLine) {
    EXPECT_THROW(read("DRYBASIS Feuchte\n"), std::runtime_error);
    EXPECT_THROW(read("DRYBASIS\tFeuchte\nDRYBASIS\tFeuchte\n"), std::runtime_error);
    EXPECT_THROW(Texts("/no/such/file.tsv"), std::runtime_error);
}

}  // namespace
}  // namespace drysheet

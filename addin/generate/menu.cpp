// SPDX-License-Identifier: MPL-2.0
// The menu's entries in the office's configuration.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "addin/generate/described.hpp"
#include "addin/workbook/blocks.hpp"
#include "addin/workbook/trial.hpp"

namespace drysheet {
namespace {

using Entry = std::pair<std::string, std::string>;  // key and English label

const Entry kMenu{"menu.drying", "Drying"};
const Entry kExamples{"menu.examples", "Open an Example"};
const Entry kForms{"menu.forms", "Use a Blank Form"};
const Entry kPatterns{"menu.patterns", "Put Formulas Here"};
const Entry kTrial{"menu.trial", "Add a Trial Sheet"};
const Entry kTrials{"menu.trials", "Put Trials Side by Side"};
const Entry kCell{"menu.cell", "About This Cell"};
const Entry kSure{"menu.sure", "How Sure Is This Cell"};
const Entry kWorking{"menu.working", "Working as Cells"};
const Entry kReview{"menu.review", "Review This Workbook"};
const Entry kReviewFolder{"menu.review-folder", "Review a Folder"};
const Entry kAdopt{"menu.adopt", "Use the Suggestions"};
const Entry kClass{"menu.class", "Class"};
const Entry kHandOut{"menu.hand-out", "Hand Out"};
const Entry kCollect{"menu.collect", "Collect"};
const Entry kReference{"menu.reference", "All Functions"};
const Entry kAbout{"menu.about", "About Drysheet"};

std::string title_of(const std::string& workbook) {
    std::ifstream in(workbook);
    const std::string text(std::istreambuf_iterator<char>(in), {});
    constexpr std::string_view open = "<dc:title>", close = "</dc:title>";
    const auto from = text.find(open), to = text.find(close);
    if (from == std::string::npos || to == std::string::npos)
        throw std::runtime_error(workbook + " has no title (File > Properties > Description)");
    return text.substr(from + open.size(), to - from - open.size());
}

std::string name_of(const std::string& workbook) { return std::filesystem::path(workbook).stem().string(); }

std::vector<Entry> example_entries(const std::vector<std::string>& examples) {
    std::vector<Entry> entries{
        {"example.lab-notebook", "Bench drying notebook"}};  // written when it is opened
    for (const auto& workbook : examples)
        entries.emplace_back("example." + name_of(workbook), title_of(workbook));
    return entries;
}

std::vector<Entry> pattern_entries() {
    std::vector<Entry> entries;
    for (const Pattern& pattern : patterns()) entries.push_back(labels(pattern).front());
    return entries;
}

class Writer {
  public:
    explicit Writer(const std::vector<Texts>& languages) : languages_(languages) {}

    /// An entry; its place in the menu is the order of the nodes' names.
    void entry(const Entry& entry, const std::string& command, const std::string& submenu = {}) {
        xml_ += "<node oor:name=\"m" + std::to_string(100 + count_++) + "\" oor:op=\"replace\">\n";
        if (entry.first.empty()) {
            xml_ += "<prop oor:name=\"URL\"><value>private:separator</value></prop>\n</node>\n";
            return;
        }
        title(entry);
        if (!command.empty())
            xml_ += "<prop oor:name=\"URL\"><value>org.drysheet.menu:" + command + "</value></prop>\n";
        xml_ += "<prop oor:name=\"Target\"><value>_self</value></prop>\n";
        if (!submenu.empty()) xml_ += "<node oor:name=\"Submenu\">\n" + submenu + "</node>\n";
        xml_ += "</node>\n";
    }
    void title(const Entry& entry) {
        xml_ += property("Title", languages_,
                         [&](const Texts& texts) { return texts.of(entry.first, entry.second); });
    }
    std::string take() { return std::exchange(xml_, {}); }

  private:
    const std::vector<Texts>& languages_;
    std::string xml_;
    int count_ = 0;
};

// Entries whose key is KIND.NAME and whose command is COMMAND-NAME.
std::string submenu(const std::string& command, const std::vector<Entry>& entries,
                    const std::vector<Texts>& languages) {
    Writer writer(languages);
    for (const Entry& entry : entries)
        writer.entry(entry, command + entry.first.substr(entry.first.find('.') + 1));
    return writer.take();
}

// The review stands in the Tools menu too, where such checks are looked for: behind the Detective.
std::string tools_menu_xcu(const std::vector<Texts>& languages) {
    Writer writer(languages);
    writer.entry(kReview, "review");
    return R"(<node oor:name="OfficeMenuBarMerging">
<node oor:name="org.drysheet.addin" oor:op="replace">
<node oor:name="review" oor:op="replace">
<prop oor:name="MergePoint"><value>.uno:ToolsMenu\.uno:AuditMenu</value></prop>
<prop oor:name="MergeCommand"><value>AddAfter</value></prop>
<prop oor:name="MergeFallback"><value>Ignore</value></prop>
<prop oor:name="MergeContext"><value>com.sun.star.sheet.SpreadsheetDocument</value></prop>
<node oor:name="MenuItems">
)" + writer.take() +
           "</node>\n</node>\n</node>\n</node>\n";
}

}  // namespace

std::vector<Entry> menu_keys(const std::vector<std::string>& examples) {
    std::vector<Entry> keys{kMenu,  kTrial,   kTrials,  kForms,     kExamples,     kPatterns,
                            kCell,  kSure,    kWorking, kReview,    kReviewFolder, kAdopt,
                            kClass, kHandOut, kCollect, kReference, kAbout};
    for (Entry& example : example_entries(examples)) keys.push_back(std::move(example));
    for (const Pattern& pattern : patterns())
        for (Entry& label : labels(pattern)) keys.push_back(std::move(label));
    for (const std::string& words : trial_words()) keys.emplace_back(words, words);
    return keys;
}

std::string menu_xcu(const std::vector<Texts>& languages, const std::vector<std::string>& examples) {
    Writer writer(languages);
    writer.title(kMenu);
    const std::string head = writer.take();
    writer.entry(kTrial, "trial");
    writer.entry(kTrials, "trials");
    std::vector<Entry> all = example_entries(examples);
    writer.entry(kExamples, {}, submenu("example-", all, languages));
    std::erase_if(all,
                  [](const Entry& entry) { return entry.first == "example.lessons"; });  // without inputs
    writer.entry(kForms, {}, submenu("form-", all, languages));
    writer.entry(kPatterns, {}, submenu("put-", pattern_entries(), languages));
    writer.entry(kCell, "cell");
    writer.entry(kSure, "sure");
    writer.entry(kReview, "review");
    writer.entry(kReviewFolder, "review-folder");
    writer.entry(kAdopt, "adopt");
    writer.entry(kClass, {}, submenu({}, {kHandOut, kCollect}, languages));
    writer.entry({}, {});
    writer.entry(kReference, "reference");
    writer.entry(kAbout, "about");
    return R"(<?xml version="1.0" encoding="UTF-8"?>
<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="Addons" oor:package="org.openoffice.Office">
<node oor:name="AddonUI">
<node oor:name="OfficeMenuBar">
<node oor:name="org.drysheet.addin" oor:op="replace">
<prop oor:name="Context"><value>com.sun.star.sheet.SpreadsheetDocument</value></prop>
<prop oor:name="Target"><value>_self</value></prop>
)" + head + "<node oor:name=\"Submenu\">\n" +
           writer.take() + "</node>\n</node>\n</node>\n" + tools_menu_xcu(languages) +
           "</node>\n</oor:component-data>\n";
}

}  // namespace drysheet

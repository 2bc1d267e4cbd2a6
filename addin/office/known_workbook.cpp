// SPDX-License-Identifier: MPL-2.0
#include "addin/office/known_workbook.hpp"

#include <algorithm>
#include <atomic>
#include <com/sun/star/awt/XCallback.hpp>
#include <com/sun/star/awt/XRequestCallback.hpp>
#include <com/sun/star/sheet/XCellRangeAddressable.hpp>
#include <com/sun/star/sheet/XSheetCellRanges.hpp>
#include <cppuhelper/implbase1.hxx>
#include <mutex>
#include <rtl/ref.hxx>
#include <thread>

#include "addin/office/judge.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/about_cell.hpp"

namespace drysheet {
namespace {

constexpr std::size_t kSmall = 400;  // formulas that are judged while a person moves to the next cell

/// Called by the office in its own turn.
class Turn final : public cppu::WeakImplHelper1<awt::XCallback> {
  public:
    explicit Turn(std::function<void()> run) : run_(std::move(run)) {}
    void SAL_CALL notify(const Any&) override {
        const std::function<void()> run = run_;  // it may be taken away meanwhile
        if (run) run();
    }
    void forget() { run_ = nullptr; }

  private:
    std::function<void()> run_;
};

std::size_t formulas_in(const workbook::Picture& picture) {
    std::size_t count = 0;
    for (const workbook::Sheet& sheet : picture.sheets)
        count += static_cast<std::size_t>(
            std::ranges::count_if(sheet.cells, [](const auto& at) { return at.second.formula.has_value(); }));
    return count;
}

}  // namespace

class KnownWorkbook::Work {
  public:
    Work(workbook::Picture picture, const Reference<awt::XRequestCallback>& turns,
         std::function<void(std::shared_ptr<const workbook::Reviewed>)> done)
        : turn_(new Turn([this, done = std::move(done)] { done(made_); })),
          thread_([this, turns, picture = std::move(picture)]() mutable {
              struct Ended {};
              try {
                  made_ = std::make_shared<const workbook::Reviewed>(std::move(picture), [this](double) {
                      if (end_) throw Ended();
                  });
                  turns->addCallback(turn_.get(), Any());
              } catch (const Ended&) {
              } catch (const std::exception&) {
              } catch (const uno::Exception&) {
              }
          }) {}
    ~Work() {
        turn_->forget();
        end_ = true;
        thread_.join();
    }
    Work(const Work&) = delete;
    Work& operator=(const Work&) = delete;

  private:
    std::atomic<bool> end_ = false;
    std::shared_ptr<const workbook::Reviewed> made_;
    rtl::Reference<Turn> turn_;
    std::thread thread_;
};

KnownWorkbook::KnownWorkbook(Reference<frame::XModel> document, Reference<uno::XComponentContext> context,
                             std::function<void()> judged)
    : document_(document), context_(context), judged_(std::move(judged)) {}

KnownWorkbook::~KnownWorkbook() = default;

void KnownWorkbook::read_again() {
    outdated_ = false;
    workbook::Picture picture = picture_to_judge(document_, context_);
    if (!judged_ || formulas_in(picture) <= kSmall) {
        known_ = std::make_shared<const workbook::Reviewed>(std::move(picture));
        return;
    }
    const Reference<awt::XRequestCallback> turns(
        context_->getServiceManager()->createInstanceWithContext("com.sun.star.awt.AsyncCallback", context_),
        uno::UNO_QUERY_THROW);
    work_ = std::make_unique<Work>(std::move(picture), turns,
                                   [this](std::shared_ptr<const workbook::Reviewed> made) {
                                       known_ = std::move(made);
                                       work_.reset();
                                       judged_();
                                   });
}

std::string KnownWorkbook::about(const workbook::Place& place, const Texts& texts) {
    if (outdated_ && !work_) read_again();
    if (!known_) return texts.word("The workbook is being read.") + "\n";
    return workbook::about_cell(*known_, place, texts) +
           (work_ ? "\n" + texts.word("The workbook has changed; it is being read again.") + "\n"
                  : std::string());
}

std::optional<workbook::Place> selected_cell(const Reference<frame::XModel>& document) {
    const Reference<uno::XInterface> selected = document->getCurrentSelection();
    table::CellRangeAddress area;
    if (const Reference<sheet::XCellRangeAddressable> one(selected, UNO_QUERY); one.is()) {
        area = one->getRangeAddress();
    } else {
        const Reference<sheet::XSheetCellRanges> several(selected, UNO_QUERY);
        if (!several.is()) return std::nullopt;
        const auto areas = several->getRangeAddresses();
        if (areas.getLength() == 0) return std::nullopt;
        area = areas[areas.getLength() - 1];
    }
    return workbook::Place{area.Sheet, area.StartRow, area.StartColumn};
}

}  // namespace drysheet

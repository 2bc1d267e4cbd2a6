#include "addin/office/judge.hpp"

#include "addin/office/review_sheet.hpp"
#include "addin/office/take_picture.hpp"

namespace drysheet {

using namespace com::sun::star;
using uno::Reference;
using uno::UNO_QUERY_THROW;

namespace {

// Stands in until there is a judge: every formula is one that was not judged.
workbook::Review none_judged(const workbook::Picture& picture) {
    workbook::Review review;
    for (std::size_t sheet = 0; sheet < picture.sheets.size(); ++sheet)
        for (const auto& [at, cell] : picture.sheets[sheet].cells)
            if (cell.formula) {
                workbook::Finding finding;
                finding.cell = {static_cast<int>(sheet), at.first, at.second};
                review.findings.push_back(finding);
            }
    review.count.at(static_cast<std::size_t>(workbook::Verdict::not_judged)) = review.findings.size();
    return review;
}

}  // namespace

Judged judge(const Reference<frame::XModel>& document, const Reference<uno::XComponentContext>& context,
             const std::function<void(double)>& alive) {
    Judged judged{take_picture(document, context), {}};
    const Document sheets(document, UNO_QUERY_THROW);
    for (std::size_t i = 0; i < judged.picture.sheets.size(); ++i)
        if (named_range(sheet_at(sheets, static_cast<sal_Int32>(i)), kReviewName).is())
            judged.picture.sheets[i].cells.clear();
    alive(0.2);
    judged.review = none_judged(judged.picture);
    alive(1);
    return judged;
}

}  // namespace drysheet

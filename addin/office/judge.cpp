#include "addin/office/judge.hpp"

#include "addin/office/review_sheet.hpp"
#include "addin/office/take_picture.hpp"
#include "addin/workbook/review.hpp"

namespace drysheet {

using namespace com::sun::star;
using uno::Reference;
using uno::UNO_QUERY_THROW;

Judged judge(const Reference<frame::XModel>& document, const Reference<uno::XComponentContext>& context,
             const std::function<void(double)>& alive) {
    Judged judged{take_picture(document, context), {}};
    const Document sheets(document, UNO_QUERY_THROW);
    for (std::size_t i = 0; i < judged.picture.sheets.size(); ++i)
        if (named_range(sheet_at(sheets, static_cast<sal_Int32>(i)), kReviewName).is())
            judged.picture.sheets[i].cells.clear();
    alive(0.2);
    judged.review = workbook::review(judged.picture, [&](double done) { alive(0.2 + 0.8 * done); });
    return judged;
}

}  // namespace drysheet

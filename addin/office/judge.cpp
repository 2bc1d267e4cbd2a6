// SPDX-License-Identifier: MPL-2.0
#include "addin/office/judge.hpp"

#include "addin/office/review_sheet.hpp"
#include "addin/office/take_picture.hpp"
#include "addin/office/uno.hpp"
#include "addin/workbook/review.hpp"

namespace drysheet {

workbook::Picture picture_to_judge(const Reference<frame::XModel>& document,
                                   const Reference<uno::XComponentContext>& context) {
    workbook::Picture picture = take_picture(document, context);
    const Document sheets(document, UNO_QUERY_THROW);
    for (std::size_t i = 0; i < picture.sheets.size(); ++i)
        for (const char* name : {kReviewName, kFolderName})
            if (named_range(sheet_at(sheets, static_cast<sal_Int32>(i)), name).is())
                picture.sheets[i].cells.clear();
    return picture;
}

Judged judge(const Reference<frame::XModel>& document, const Reference<uno::XComponentContext>& context,
             const std::function<void(double)>& alive) {
    Judged judged{picture_to_judge(document, context), {}};
    alive(0.2);
    judged.review = workbook::review(judged.picture, [&](double done) { alive(0.2 + 0.8 * done); });
    return judged;
}

}  // namespace drysheet

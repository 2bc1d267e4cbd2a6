// SPDX-License-Identifier: MPL-2.0
// The one Calc component: cells in, cells out. It knows the office and no science.
#include <com/sun/star/lang/IllegalArgumentException.hpp>
#include <com/sun/star/sheet/NoConvergenceException.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/implbase2.hxx>
#include <org/drysheet/XSheetFunctions.hpp>

#include "addin/call/call.hpp"
#include "addin/call/lookup.hpp"
#include "addin/office/cells.hpp"
#include "addin/office/locale.hpp"
#include "addin/office/service.hpp"

namespace drysheet {
namespace {

using com::sun::star::lang::IllegalArgumentException;
using com::sun::star::sheet::NoConvergenceException;
using com::sun::star::uno::XComponentContext;

class SheetFunctions final
    : public Service<cppu::WeakImplHelper2<org::drysheet::XSheetFunctions, lang::XServiceInfo>> {
  public:
    explicit SheetFunctions(const Reference<XComponentContext>& context)
        : Service("org.drysheet.SheetFunctions", "dry"), reading_(reading_of(context)) {}

#include "glue.inc"

  private:
    static void add(std::vector<Input>& inputs, const Any& argument) {
        inputs.push_back(input_from(argument));
    }
    static void add(std::vector<Input>& inputs, const Sequence<Any>& more) {
        for (sal_Int32 i = 0; i < more.getLength(); ++i) inputs.push_back(input_from(more[i]));
    }

    template <class... Arguments>
    Any call(std::size_t index, const Arguments&... arguments) {
        try {
            std::vector<Input> inputs;
            inputs.reserve(sizeof...(arguments));
            (add(inputs, arguments), ...);
            while (!inputs.empty() && inputs.back().form == Input::Form::missing) inputs.pop_back();
            return any_from(evaluate(functions()[index], inputs, reading_));
        } catch (const Refusal& refusal) {
            const OUString sentence = ustring_from(refusal.what());
            if (refusal.reason() == Refusal::Reason::no_solution)
                throw NoConvergenceException(sentence, static_cast<cppu::OWeakObject*>(this));
            throw IllegalArgumentException(sentence, static_cast<cppu::OWeakObject*>(this), 0);
        } catch (const std::exception& fault) {  // what an interface does not declare ends the office
            throw IllegalArgumentException(ustring_from(fault.what()), static_cast<cppu::OWeakObject*>(this),
                                           0);
        }
    }

    const Reading reading_;
};

}  // namespace
}  // namespace drysheet

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface* SAL_CALL
drysheet_sheet_functions(com::sun::star::uno::XComponentContext* context,
                         const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return drysheet::made<drysheet::SheetFunctions>(context);
}

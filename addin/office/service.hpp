// SPDX-License-Identifier: MPL-2.0
// What the office makes by name (addin/extension/drysheet.components.in).
#pragma once

#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/supportsservice.hxx>
#include <cppuhelper/weak.hxx>

#include "addin/office/uno.hpp"

namespace drysheet {

/// A class with two names: its own, and that of the service that it gives. Base has its interfaces,
/// XServiceInfo among them.
template <class Base>
class Service : public Base {
  public:
    Service(const char* name, const char* service)
        : name_(OUString::createFromAscii(name)), service_(OUString::createFromAscii(service)) {}

    OUString SAL_CALL getImplementationName() override { return name_; }
    sal_Bool SAL_CALL supportsService(const OUString& name) override {
        return cppu::supportsService(this, name);
    }
    Sequence<OUString> SAL_CALL getSupportedServiceNames() override { return {&service_, 1}; }

  private:
    const OUString name_, service_;
};

/// For the office's entry of that class: one that was made for it.
template <class Made>
uno::XInterface* made(uno::XComponentContext* context) {
    return cppu::acquire(static_cast<cppu::OWeakObject*>(new Made(context)));
}

}  // namespace drysheet

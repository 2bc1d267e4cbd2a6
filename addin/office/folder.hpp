// SPDX-License-Identifier: MPL-2.0
// A folder of workbooks: asked for, listed, each opened to be read.
#pragma once

#include <com/sun/star/ucb/XSimpleFileAccess.hpp>
#include <string>
#include <vector>

#include "addin/office/request.hpp"

namespace drysheet {

/// What stands behind the last "/", as a person reads it.
std::string name_in(const rtl::OUString& url);

/// The argument Folder, or what the office's picker gives; no slash at its end. Throws NotDone.
rtl::OUString asked_folder(const Request& request, const std::string& title);

/// Every workbook of it, in the order of their names. Throws NotDone where there is no such folder, or none
/// in it.
std::vector<rtl::OUString> workbooks_in(
    const com::sun::star::uno::Reference<com::sun::star::ucb::XSimpleFileAccess>& files,
    const rtl::OUString& folder, const Texts& texts);

/// The first of "FOLDER what", "FOLDER what 2" … beside the folder that no file with one of the endings has.
rtl::OUString free_beside(const com::sun::star::uno::Reference<com::sun::star::ucb::XSimpleFileAccess>& files,
                          const rtl::OUString& folder, const char* what,
                          std::initializer_list<const char*> endings);

/// Throws std::runtime_error.
void write_file(const rtl::OUString& url, const std::string& text);

/// A workbook that is closed at the end of its life.
class Opened {
  public:
    /// Opened to be read only, without a window, macros or links brought up to date.
    Opened(const Request& request, const rtl::OUString& file);
    explicit Opened(const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& model)
        : model_(model) {}
    ~Opened();
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    const com::sun::star::uno::Reference<com::sun::star::frame::XModel>& model() const { return model_; }

  private:
    com::sun::star::uno::Reference<com::sun::star::frame::XModel> model_;
};

}  // namespace drysheet

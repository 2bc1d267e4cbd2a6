// What went wrong in a student's answer: DRY.MARK.
#pragma once

#include <string>

#include "addin/functions/function.hpp"

namespace drysheet {

/// A text that begins with one of: no answer yet · right · right, but rounded early · wrong basis · the other
/// share · percent for fraction · fraction for percent · wrong unit · inverted · wrong sign · wrong. Numbers
/// are compared as they stand, texts after conversion to the usual unit; `tolerance` is relative.
std::string mark(const Input& answer, const Input& expected, double tolerance, const Reading& reading);

/// Its entry.
Function mark_entry();

}  // namespace drysheet

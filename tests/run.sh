#!/usr/bin/env bash
# SPDX-License-Identifier: MPL-2.0
# The whole gate on a fresh Debian 12, in one command:
#     bash tests/run.sh
# Installs what is missing, checks the formatting, builds with clang under clang-tidy and the address and
# undefined-behaviour sanitizers and runs there the tests that need no office, runs the thread test under the thread
# sanitizer, then builds with g++ and runs all tests, those in a headless Calc among them. What is built already is not
# built again.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
source "$root/cmake/install_missing.sh"
cd "$root"
cores=$(nproc)

install_missing use test

say "Formatting"
find core addin tests '(' -name '*.cpp' -o -name '*.hpp' ')' -print0 | xargs -0 clang-format-14 --dry-run --Werror

say "Build with clang, clang-tidy and sanitizers"
cmake --preset sanitize >/dev/null
cmake --build --preset sanitize

say "Tests under the sanitizers"
ctest --preset sanitize -j "$cores"

say "Several threads under the thread sanitizer"
cmake --preset threads >/dev/null
cmake --build --preset threads
ctest --preset threads

say "Build with g++"
cmake --preset dev >/dev/null
cmake --build --preset dev

say "All tests, those in a headless Calc included"
ctest --preset dev -j "$cores"

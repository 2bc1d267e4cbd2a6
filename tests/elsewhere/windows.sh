#!/usr/bin/env bash
# SPDX-License-Identifier: MPL-2.0
# All but addin/office for 64-bit Windows, by mingw-w64, and its tests under wine, outside the gate:
#     bash tests/elsewhere/windows.sh [OPTION FOR CMAKE ...]
# Left out: addin/office, which wants the compiler of the office on Windows, and the tests that ask the compiler or the
# system here (Kinds.must_not_compile, Core.for_others). What was found is in FIGURES.md beside this file.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
source "$root/cmake/install_missing.sh"
cd "$root"
install_missing use windows

say "Building GoogleTest"
build=$root/build-windows
prefix=$build/prefix
options=(-G Ninja --toolchain "$root/cmake/mingw.cmake" -DCMAKE_BUILD_TYPE=Release -DCMAKE_PREFIX_PATH="$prefix")
mkdir -p "$prefix/include"
ln -sfn /usr/include/boost "$prefix/include/boost"  # none of the headers beside it
cmake -S /usr/src/googletest -B "$build/googletest" "${options[@]}" -DBUILD_GMOCK=OFF -DCMAKE_INSTALL_PREFIX="$prefix"
cmake --build "$build/googletest" --target install

say "Building the tests"
cmake -S . -B "$build/drysheet" "${options[@]}" -DBoost_NO_BOOST_CMAKE=ON -DBoost_INCLUDE_DIR="$prefix/include" \
    -DEigen3_DIR=/usr/share/eigen3/cmake -DDRYSHEET_OFFICE=OFF -DDRYSHEET_JOINED=ON "$@"
cmake --build "$build/drysheet" --target all_tests drysheet_catalogue

say "Tests under wine"
export WINEDEBUG=-all WINEPREFIX=$build/wine LC_ALL=C.UTF-8
ctest --test-dir "$build/drysheet" --verbose --tests-regex '^(Tests|Written)'

#!/usr/bin/env bash
# Core, text, functions, call and workbook for 64-bit Windows, and their tests under wine, outside the gate:
#     bash tests/elsewhere/windows.sh
# Built with mingw-w64; the office's part (addin/office) wants the compiler of the office on Windows and is not built.
# What was found is in FIGURES.md beside this file.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
source "$root/cmake/install_missing.sh"
cd "$root"
packages=(g++-mingw-w64-x86-64-posix wine64 googletest)
dpkg-query -W "${packages[@]}" >/dev/null 2>&1 ||
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${packages[@]}"; }

say "Building with mingw-w64"
# Boost's headers from this system, under a root that holds none of its other headers; GoogleTest built for Windows.
prefix=$root/build-windows/prefix
windows=(-G Ninja --toolchain "$root/cmake/mingw.cmake" -DCMAKE_BUILD_TYPE=Release -DCMAKE_PREFIX_PATH="$prefix")
mkdir -p "$prefix/include" "$prefix/lib/cmake/Boost"
ln -sfn /usr/include/boost "$prefix/include/boost"
cat >"$prefix/lib/cmake/Boost/BoostConfig.cmake" <<END
set(Boost_FOUND TRUE)
add_library(Boost::headers INTERFACE IMPORTED)
set_target_properties(Boost::headers PROPERTIES INTERFACE_INCLUDE_DIRECTORIES "$prefix/include")
END
echo 'set(PACKAGE_VERSION_COMPATIBLE TRUE)' >"$prefix/lib/cmake/Boost/BoostConfigVersion.cmake"
cmake -S /usr/src/googletest -B build-windows/googletest "${windows[@]}" -DBUILD_GMOCK=OFF -DCMAKE_INSTALL_PREFIX="$prefix"
cmake --build build-windows/googletest --target install
cmake -S . -B build-windows/drysheet "${windows[@]}" -DEigen3_DIR=/usr/share/eigen3/cmake -DDRYSHEET_OFFICE=OFF -DDRYSHEET_JOINED=ON "$@"
cmake --build build-windows/drysheet --target all_tests

say "Tests under wine"
wine64=$(command -v wine64 || echo /usr/lib/wine/wine64)
WINEDEBUG=-all WINEPREFIX=$root/build-windows/wine "$wine64" build-windows/drysheet/tests/all_tests.exe

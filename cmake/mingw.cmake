# SPDX-License-Identifier: MPL-2.0
# Toolchain: 64-bit Windows by mingw-w64, programs run by wine. See tests/elsewhere/windows.sh.
set(CMAKE_SYSTEM_NAME Windows)
set(CMAKE_SYSTEM_PROCESSOR x86_64)
set(CMAKE_C_COMPILER x86_64-w64-mingw32-gcc-posix)
set(CMAKE_CXX_COMPILER x86_64-w64-mingw32-g++-posix)
set(CMAKE_CXX_FLAGS_INIT -Wa,-mbig-obj)
set(CMAKE_EXE_LINKER_FLAGS_INIT -static)
set(CMAKE_FIND_ROOT_PATH /usr/x86_64-w64-mingw32)
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
find_program(CMAKE_CROSSCOMPILING_EMULATOR wine64 HINTS /usr/lib/wine)  # Debian's wine64 is not in the PATH

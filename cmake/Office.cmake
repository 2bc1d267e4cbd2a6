# SPDX-License-Identifier: MPL-2.0
# The component and the extension package. Left out, with a message, where the office's development kit is missing.
set(DRYSHEET_OFFICE_HOME /usr/lib/libreoffice CACHE PATH "Where the office is installed")
find_path(DRYSHEET_OFFICE_INCLUDE sal/types.h PATHS /usr/include/libreoffice ${DRYSHEET_OFFICE_HOME}/sdk/include NO_DEFAULT_PATH)
find_program(DRYSHEET_UNOIDL_WRITE unoidl-write HINTS ${DRYSHEET_OFFICE_HOME}/sdk/bin)
find_program(DRYSHEET_CPPUMAKER cppumaker HINTS ${DRYSHEET_OFFICE_HOME}/sdk/bin)
find_library(DRYSHEET_CPPU NAMES uno_cppu icppu HINTS ${DRYSHEET_OFFICE_HOME}/program ${DRYSHEET_OFFICE_HOME}/sdk/lib)
find_library(DRYSHEET_CPPUHELPER NAMES uno_cppuhelpergcc3 icppuhelper HINTS ${DRYSHEET_OFFICE_HOME}/program ${DRYSHEET_OFFICE_HOME}/sdk/lib)
find_library(DRYSHEET_SAL NAMES uno_sal isal HINTS ${DRYSHEET_OFFICE_HOME}/program ${DRYSHEET_OFFICE_HOME}/sdk/lib)

if(NOT (DRYSHEET_OFFICE_INCLUDE AND DRYSHEET_UNOIDL_WRITE AND DRYSHEET_CPPUMAKER AND DRYSHEET_CPPU AND DRYSHEET_CPPUHELPER AND DRYSHEET_SAL))
    set(message "The LibreOffice SDK was not found (Debian: libreoffice-dev): core, catalogue and boundary are built, the .oxt is not.")
    if(DRYSHEET_OFFICE STREQUAL "ON")
        message(FATAL_ERROR "${message}")
    endif()
    message(STATUS "${message}")
    return()
endif()

set(office_rdb ${DRYSHEET_OFFICE_HOME}/program/types.rdb)
set(offapi_rdb ${DRYSHEET_OFFICE_HOME}/program/types/offapi.rdb)
set(generated ${CMAKE_CURRENT_BINARY_DIR}/generated)
set(oxt_root ${CMAKE_CURRENT_BINARY_DIR}/oxt)
# linux_x86_64, windows_x86_64, macosx_aarch64: the office's names, in small letters only
string(TOLOWER ${CMAKE_SYSTEM_NAME}_${CMAKE_SYSTEM_PROCESSOR} platform)
foreach(pair darwin=macosx amd64=x86_64 arm64=aarch64)
    string(REGEX MATCH "(.*)=(.*)" pair ${pair})
    string(REPLACE ${CMAKE_MATCH_1} ${CMAKE_MATCH_2} platform ${platform})
endforeach()
set(idl ${PROJECT_SOURCE_DIR}/idl/XSheetFunctions.idl)
file(MAKE_DIRECTORY ${generated} ${oxt_root})

# The office's own headers, once.
add_custom_command(OUTPUT ${generated}/office.stamp
    COMMAND ${DRYSHEET_CPPUMAKER} -Gc -O${generated}/office ${office_rdb} ${offapi_rdb}
    COMMAND ${CMAKE_COMMAND} -E touch ${generated}/office.stamp
    VERBATIM COMMENT "Writing the office's interface headers")
add_custom_command(OUTPUT ${oxt_root}/drysheet.rdb ${generated}/idl.stamp
    COMMAND ${DRYSHEET_UNOIDL_WRITE} ${office_rdb} ${offapi_rdb} ${idl} ${oxt_root}/drysheet.rdb
    COMMAND ${DRYSHEET_CPPUMAKER} -Gc -O${generated}/own -Torg.drysheet.XSheetFunctions ${oxt_root}/drysheet.rdb -X${office_rdb} -X${offapi_rdb}
    COMMAND ${CMAKE_COMMAND} -E touch ${generated}/idl.stamp
    DEPENDS ${idl} VERBATIM COMMENT "Writing our interface's type library and header")
add_custom_command(OUTPUT ${generated}/glue.inc
    COMMAND drysheet_catalogue glue > ${generated}/glue.inc
    DEPENDS drysheet_catalogue VERBATIM COMMENT "Writing the glue from the catalogue")
add_custom_target(drysheet_generated DEPENDS ${generated}/office.stamp ${generated}/idl.stamp ${generated}/glue.inc)

add_library(drysheet_uno MODULE
    office/about.cpp
    office/about_cell.cpp
    office/adopt.cpp
    office/cells.cpp
    office/class_desk.cpp
    office/component.cpp
    office/example.cpp
    office/folder.cpp
    office/hidden_copy.cpp
    office/insert.cpp
    office/judge.cpp
    office/known_workbook.cpp
    office/lay_out.cpp
    office/locale.cpp
    office/long_work.cpp
    office/menu.cpp
    office/panel.cpp
    office/request.cpp
    office/review.cpp
    office/review_folder.cpp
    office/review_sheet.cpp
    office/said.cpp
    office/sheets.cpp
    office/sure.cpp
    office/sure_sheet.cpp
    office/take_picture.cpp
    office/trial.cpp
    office/working_cells.cpp
)
add_dependencies(drysheet_uno drysheet_generated)
drysheet_precompile(drysheet_uno <addin/functions/function.hpp> <addin/office/uno.hpp> <addin/workbook/picture.hpp>)
if(DRYSHEET_SANITIZE)  # nothing runs it there
    target_compile_options(drysheet_uno PRIVATE -O0 -g0 -fno-sanitize=all)
endif()
set_target_properties(drysheet_uno PROPERTIES PREFIX "" OUTPUT_NAME drysheet.uno LIBRARY_OUTPUT_DIRECTORY ${oxt_root}/${platform})
target_include_directories(drysheet_uno PRIVATE ${generated})
target_include_directories(drysheet_uno SYSTEM PRIVATE ${generated}/own ${generated}/office ${DRYSHEET_OFFICE_INCLUDE})
# as the kit's settings.mk has them; nothing but Linux was tried
if(WIN32)
    target_compile_definitions(drysheet_uno PRIVATE WIN32 WNT CPPU_ENV=mscx)
else()
    target_compile_definitions(drysheet_uno PRIVATE UNX $<IF:$<BOOL:${APPLE}>,MACOSX,LINUX> CPPU_ENV=gcc3)
endif()
target_compile_definitions(drysheet_uno PRIVATE DRYSHEET_VERSION="${PROJECT_VERSION}")
target_link_libraries(drysheet_uno PRIVATE drysheet_workbook drysheet_warnings ${DRYSHEET_CPPUHELPER} ${DRYSHEET_CPPU} ${DRYSHEET_SAL})

# What is packed: as it stands, with the version put in, or written from the catalogue. A workbook added to
# example-sheets/ is in the menu by itself.
set(package ${CMAKE_CURRENT_SOURCE_DIR}/extension)
file(GLOB examples CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/example-sheets/*.fods)
configure_file(${package}/about.txt.in ${oxt_root}/about.txt @ONLY)
set(packed about.txt)
foreach(file ${package}/ProtocolHandler.xcu ${package}/Factories.xcu ${package}/Sidebar.xcu ${package}/Jobs.xcu ${package}/icon.png ${package}/deck.png
             ${PROJECT_SOURCE_DIR}/CHANGELOG.md ${PROJECT_SOURCE_DIR}/LICENSE ${PROJECT_SOURCE_DIR}/NOTICE ${DRYSHEET_TEXTS} ${examples})
    cmake_path(GET file FILENAME name)
    if(file MATCHES "fods$")
        set(name examples/${name})
    elseif(file MATCHES "tsv$")
        set(name texts/${name})
    endif()
    configure_file(${file} ${oxt_root}/${name} COPYONLY)
    list(APPEND packed ${name})
endforeach()
add_custom_command(OUTPUT ${oxt_root}/CalcAddIns.xcu ${oxt_root}/Addons.xcu ${oxt_root}/help/functions.html
    COMMAND drysheet_catalogue xcu ${DRYSHEET_TEXTS} > ${oxt_root}/CalcAddIns.xcu
    COMMAND drysheet_catalogue menu ${DRYSHEET_TEXTS} ${examples} > ${oxt_root}/Addons.xcu
    COMMAND ${CMAKE_COMMAND} -E make_directory ${oxt_root}/help
    COMMAND drysheet_catalogue page > ${oxt_root}/help/functions.html
    DEPENDS drysheet_catalogue ${DRYSHEET_TEXTS} ${examples}
    VERBATIM COMMENT "Writing registration, menu and help page from the catalogue")
# The examples in each language; the lessons are written from their exercises.
foreach(texts ${DRYSHEET_TEXTS})
    cmake_path(GET texts STEM language)
    foreach(example ${examples})
        cmake_path(GET example FILENAME name)
        set(file examples/${language}/${name})
        set(task example ${texts} ${example})
        if(name STREQUAL "lessons.fods")
            set(task lessons ${texts})
        endif()
        add_custom_command(OUTPUT ${oxt_root}/${file}
            COMMAND ${CMAKE_COMMAND} -E make_directory ${oxt_root}/examples/${language}
            COMMAND drysheet_catalogue ${task} > ${oxt_root}/${file}
            DEPENDS drysheet_catalogue ${texts} ${example} VERBATIM COMMENT "Writing ${file}")
        list(APPEND packed ${file})
    endforeach()
endforeach()
list(APPEND packed CalcAddIns.xcu Addons.xcu help/functions.html drysheet.rdb)
list(TRANSFORM packed PREPEND ${oxt_root}/ OUTPUT_VARIABLE packed_files)
# Another system's library put into its folder here is packed beside this one's.
file(GLOB libraries RELATIVE ${oxt_root} CONFIGURE_DEPENDS ${oxt_root}/*/drysheet.uno.*)
list(FILTER libraries EXCLUDE REGEX ^${platform}/)
list(PREPEND libraries ${platform}/$<TARGET_FILE_NAME:drysheet_uno>)
list(TRANSFORM libraries PREPEND ${oxt_root}/ OUTPUT_VARIABLE library_files)
set(oxt ${PROJECT_BINARY_DIR}/drysheet.oxt)
add_custom_command(OUTPUT ${oxt}
    COMMAND ${CMAKE_COMMAND} -DSTAGED=${oxt_root} "-DPACKED=${packed}" "-DLIBRARIES=${libraries}" -DVERSION=${PROJECT_VERSION} -DOXT=${oxt}
            -P ${PROJECT_SOURCE_DIR}/cmake/pack.cmake
    DEPENDS drysheet_uno ${packed_files} ${library_files} ${PROJECT_SOURCE_DIR}/cmake/pack.cmake
            ${package}/drysheet.components.in ${package}/description.xml.in ${package}/META-INF/manifest.xml.in
    VERBATIM COMMENT "Packing drysheet.oxt")
add_custom_target(drysheet_oxt ALL DEPENDS ${oxt})

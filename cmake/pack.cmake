# SPDX-License-Identifier: MPL-2.0
# Packs an .oxt from what is staged: the files PACKED and the LIBRARIES, each declared for its platform alone, so that an
# office reads only its own:
#     cmake -DSTAGED=FOLDER "-DPACKED=FILE;…" "-DLIBRARIES=PLATFORM/FILE;…" -DVERSION=… -DOXT=FILE -P cmake/pack.cmake
set(package ${CMAKE_CURRENT_LIST_DIR}/../addin/extension)
foreach(library ${LIBRARIES})
    cmake_path(GET library PARENT_PATH platform)
    cmake_path(GET library FILENAME library)
    set(environment gcc3)
    if(platform MATCHES "^windows")
        set(environment mscx)
    endif()
    configure_file(${package}/drysheet.components.in ${STAGED}/${platform}/drysheet.components @ONLY)
    string(APPEND components " <manifest:file-entry manifest:media-type=\"application/vnd.sun.star.uno-components;platform=${platform}\""
                             " manifest:full-path=\"${platform}/drysheet.components\"/>\n")
    list(APPEND platforms ${platform})
    list(APPEND PACKED ${platform}/${library} ${platform}/drysheet.components)
endforeach()
list(JOIN platforms "," platforms)
configure_file(${package}/META-INF/manifest.xml.in ${STAGED}/META-INF/manifest.xml @ONLY)
configure_file(${package}/description.xml.in ${STAGED}/description.xml @ONLY)
file(REMOVE ${OXT})
execute_process(COMMAND ${CMAKE_COMMAND} -E tar cf ${OXT} --format=zip META-INF/manifest.xml description.xml ${PACKED}
                WORKING_DIRECTORY ${STAGED} COMMAND_ERROR_IS_FATAL ANY)

# SPDX-License-Identifier: MPL-2.0
# Installs the core into a folder of its own, outside the build tree, and builds and runs there what knows no more of
# it than find_package(drysheet).
execute_process(COMMAND mktemp -d OUTPUT_VARIABLE place OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
file(COPY ${SOURCE}/CMakeLists.txt ${SOURCE}/main.cpp DESTINATION ${place}/consumer)
foreach(step "--install;${BUILD};--prefix;${place}/prefix;--component;core"
             "-S;${place}/consumer;-B;${place}/build;-DCMAKE_PREFIX_PATH=${place}/prefix;-DCMAKE_CXX_COMPILER=${COMPILER}"
             "--build;${place}/build")
    execute_process(COMMAND ${CMAKE_COMMAND} ${step} RESULT_VARIABLE failed)
    if(failed)
        file(REMOVE_RECURSE ${place})
        message(FATAL_ERROR "failed: cmake ${step}")
    endif()
endforeach()
execute_process(COMMAND ${place}/build/consumer RESULT_VARIABLE failed)
file(REMOVE_RECURSE ${place})
if(failed)
    message(FATAL_ERROR "the consumer's sums are wrong")
endif()

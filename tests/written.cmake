# SPDX-License-Identifier: MPL-2.0
# What the catalogue writes now must be what is committed in FILE.
execute_process(COMMAND ${CATALOGUE} ${TASK} COMMAND diff -u --strip-trailing-cr ${FILE} - COMMAND_ERROR_IS_FATAL ANY)

#!/usr/bin/env bash
# SPDX-License-Identifier: MPL-2.0
# From a fresh Debian 12 to recalculated example workbooks, in one command:
#     bash example-sheets/run.sh
# Installs what is missing, builds the add-in and installs it (for this user; as root for everyone), recalculates every
# workbook of this folder in a headless Calc, prints its key results and leaves a PDF each in example-sheets/out/.
# What is up to date is not done again. Fails when any cell shows an error that its workbook does not declare.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
source "$root/cmake/install_missing.sh"
cd "$root"

install_missing use

say "Building the add-in"
[[ -f build-use/CMakeCache.txt ]] || cmake --preset use
cmake --build --preset use --target drysheet_oxt
oxt=$root/build-use/drysheet.oxt
[[ -f $oxt ]] || fail "the build left no $oxt"

# The add-in's state is asked of unopkg, whose exit code says nothing; which build it is, of a note beside the cache.
shared=()
[[ $(id -u) != 0 ]] || shared=(--shared)
note=${XDG_CACHE_HOME:-$HOME/.cache}/drysheet/installed.sha256
installed() { unopkg list "${shared[@]}" 2>&1 | grep -A9 '^Identifier: .*drysheet' | grep -q 'is registered: yes'; }
if [[ -f $note ]] && sha256sum --check --status "$note" && grep -qF "$oxt" "$note" && installed; then
    say "The add-in is installed already and has not changed"
else
    say "Installing the add-in ${shared[0]:+for everyone }in LibreOffice"
    unopkg add -f "${shared[@]}" "$oxt" || true
    installed || fail "LibreOffice does not list the add-in as registered (is a LibreOffice window open? close it first)"
    mkdir -p "$(dirname "$note")"
    sha256sum "$oxt" >"$note"
fi

say "Recalculating the example workbooks"
/usr/bin/python3 example-sheets/recalculate.py --addin "$oxt" --out example-sheets/out lab-notebook example-sheets/*.fods

# SPDX-License-Identifier: MPL-2.0
# Sourced by example-sheets/run.sh and tests/run.sh.
# install_missing GROUP...: installs what cmake/packages.txt lists for these groups and the system lacks.
install_missing() {
    local list="$root/cmake/packages.txt" missing=() group choices choice found
    while read -r group choices; do
        [[ " $* " == *" $group "* ]] || continue
        found=no
        for choice in ${choices//|/ }; do
            if dpkg-query -W -f='${Status}' "$choice" 2>/dev/null | grep -q 'ok installed'; then found=yes; fi
        done
        [[ $found == yes ]] || missing+=("${choices%%|*}")
    done < <(grep -v '^#' "$list")
    if ((${#missing[@]} == 0)); then
        say "Everything needed is installed already"
        return
    fi
    local as_root=()
    [[ $(id -u) == 0 ]] || as_root=(sudo)
    say "Installing ${missing[*]}"
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}"
}

say() { printf '\n==> %s\n' "$*"; }

fail() {
    printf '\nFAILED: %s\n' "$*" >&2
    exit 1
}

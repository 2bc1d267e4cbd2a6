#!/usr/bin/env bash
# SPDX-License-Identifier: MPL-2.0
# README's first command and the sheet tests on Debian 13 (g++ 14, LibreOffice 25.2), outside the gate:
#     sudo bash tests/elsewhere/debian13.sh [FOLDER FOR THE ROOT]
# Makes the root with debootstrap where there is none yet, puts what is committed into it, builds, and runs there
# example-sheets/run.sh and every test. What was found is in FIGURES.md beside this file.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
source "$root/cmake/install_missing.sh"
debian=${1:-$root/build-debian13}
mirror=${MIRROR:-http://deb.debian.org/debian}

[[ $(id -u) == 0 ]] || fail "a root of another Debian is made by root only"
command -v debootstrap >/dev/null || { apt-get update -qq && apt-get install -y -qq debootstrap; }
[[ -x $debian/usr/bin/apt-get ]] || debootstrap --variant=minbase trixie "$debian" "$mirror"

for place in proc dev; do
    mountpoint -q "$debian/$place" || mount --bind "/$place" "$debian/$place"
done
trap 'umount "$debian/proc" "$debian/dev"' EXIT

mkdir -p "$debian/drysheet"
git -C "$root" archive HEAD | tar -x -C "$debian/drysheet"
chroot "$debian" bash -euo pipefail -c '
    cd /drysheet
    bash example-sheets/run.sh
    cmake --preset dev
    cmake --build --preset dev
    ctest --preset dev -j "$(nproc)"'

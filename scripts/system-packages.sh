#!/usr/bin/env bash
# See that the Debian packages which the tests use are here; install them where that is ours to do.
#
# Only on Debian and only as root is anything installed, and the command is printed
# first. Elsewhere the missing packages are named and the tests that need them skip.
set -euo pipefail

packages=(chromium postgresql gcc fonts-dejavu-core libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0)

say() { echo "System packages: $*"; }

if ! command -v dpkg-query >/dev/null 2>&1; then
    say "this is not Debian. The tests use ${packages[*]}, or what they are called here; those without it skip."
    exit 0
fi

missing=()
for package in "${packages[@]}"; do
    state="$(dpkg-query --show --showformat='${db:Status-Status}' "$package" 2>/dev/null || true)"
    [ "$state" = installed ] || missing+=("$package")
done

if [ ${#missing[@]} -eq 0 ]; then
    say "all here"
    exit 0
fi

install="apt-get install --yes --no-install-recommends ${missing[*]}"
if [ "$(id -u)" -ne 0 ]; then
    say "missing ${missing[*]}; the tests that need them skip. To install them: sudo $install"
    exit 0
fi

say "apt-get update"
apt-get update --quiet=2
say "$install"
DEBIAN_FRONTEND=noninteractive $install --quiet=2 >/dev/null
say "done"

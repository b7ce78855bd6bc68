#!/usr/bin/env bash
# Print the oldest and the newest Python on this machine that woodreeve supports, one a line.
#
# Looks at the names on PATH and, where pyenv is there, at the versions it keeps.
set -euo pipefail

candidates() {
    local minor pyenv_root
    for minor in 11 12 13 14 15; do
        command -v "python3.$minor" || true
    done
    if command -v pyenv >/dev/null 2>&1; then
        pyenv_root="$(pyenv root)"
        ls -d "$pyenv_root"/versions/3.*/bin/python3 2>/dev/null || true
    fi
    command -v python3 || true
}

# A candidate must start, be new enough, and be able to make an environment.
candidates | while IFS= read -r python; do
    "$python" -c '
import sys, venv, ensurepip
if sys.version_info >= (3, 11) and sys.version_info.releaselevel == "final":
    print("%d.%02d.%02d" % sys.version_info[:3], sys.executable)
' 2>/dev/null || true
done | sort -u | sed -n '1p;$p' | uniq | cut -d' ' -f2-

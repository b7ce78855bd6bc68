#!/usr/bin/env bash
# Print a Python that woodreeve supports (3.11 or newer), oldest first, or say what to install.
#
# Looks at $WOODREEVE_PYTHON, then at the names on PATH; a name that is there but
# does not start (a version manager's empty shim) is passed over.
set -euo pipefail

for name in ${WOODREEVE_PYTHON:-} python3.11 python3.12 python3.13 python3 python; do
    command -v "$name" >/dev/null 2>&1 || continue
    if "$name" -c 'import sys, venv; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
        command -v "$name"
        exit 0
    fi
done
echo "woodreeve needs Python 3.11 or newer with its venv module; on Debian: apt-get install python3 python3-venv" >&2
exit 1

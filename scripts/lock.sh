#!/usr/bin/env bash
# Write the lock files from pyproject.toml: requirements/dev.txt, and within it run.txt and build.txt.
#
# uv resolves for every supported Python at once; it lives in a throw-away
# environment and is not part of the project. Versions already locked are kept
# unless `--upgrade` is given.
set -euo pipefail
cd "$(dirname "$0")/.."

tool_folder="$(mktemp -d)"
trap 'rm -rf "$tool_folder"' EXIT
python="$(scripts/find-python.sh)"

echo "Lock: putting the resolver into a throw-away environment"
"$python" -m venv "$tool_folder/venv"
"$tool_folder/venv/bin/python" -m pip install --quiet uv

compile() {
    "$tool_folder/venv/bin/uv" pip compile --quiet --universal --python-version 3.11 \
        --generate-hashes --no-emit-index-url --no-emit-find-links --no-header --no-annotate "$@"
}

echo "Lock: resolving requirements/dev.txt"
compile pyproject.toml --all-extras --group dev --output-file requirements/dev.txt "$@"

# From scratch, so that these two can never keep a version that the development lock has left.
echo "Lock: resolving requirements/run.txt and build.txt within it"
compile pyproject.toml --constraint requirements/dev.txt --output-file "$tool_folder/run.txt"
compile --group build --constraint requirements/dev.txt --output-file "$tool_folder/build.txt"
cp "$tool_folder/run.txt" "$tool_folder/build.txt" requirements/

if grep -nE '://|--(index-url|extra-index-url|find-links)' requirements/*.txt; then
    echo "Lock: the lines above hold an address; a lock must not" >&2
    exit 1
fi
echo "Lock: done, $(grep -c '==' requirements/run.txt) packages to run, $(grep -c '==' requirements/dev.txt) to develop"

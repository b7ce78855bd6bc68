#!/usr/bin/env bash
# Build the wheel once and try it, installed alone, on the oldest and the newest Python here.
#
# "Alone" means: the locked run-time packages, the wheel and nothing else, in a folder
# far from the sources. So a file left out of the wheel or a package that only
# developers have is found here and not by the first user.
set -euo pipefail
cd "$(dirname "$0")/.."
project="$PWD"

# What the installed program must manage. None of them may serve or wait.
SMOKE_COMMANDS=(
    "--version"
    "--help"
    "doctor"
    "winter --demo"
    "winter --help"
    "stacks --demo"
    "stacks --help"
    "holding --help"
    "diary --help"
    "work-out"
    "work-out net_heat net_heat_dry_mj_kg=19 moisture=0.2"
    "work-out --help"
    "serve --help"
    "demo --help"
    "backup --help"
)

say() { echo "Wheel: $*"; }

rm -rf dist
say "building"
.venv/bin/python -m build --wheel --no-isolation --outdir dist . >/dev/null
wheel="$(ls "$project"/dist/*.whl)"
say "$(basename "$wheel"), $(du -k "$wheel" | cut -f1) kB"

try_on() {  # install the wheel alone on the Python $1 and use it
    local base="$1" version home python elsewhere
    version="$("$base" -c 'import sys; print("%d.%d.%d" % sys.version_info[:3])')"
    home="$project/.cache/wheel-$version"
    python="$home/bin/python"
    elsewhere="$(mktemp -d)"
    trap 'rm -rf "$elsewhere"' RETURN

    if ! cksum requirements/run.txt | cmp -s - "$home/made-from"; then
        say "on Python $version, installing the run-time lock"
        rm -rf "$home"
        "$base" -m venv "$home"
        "$python" -m pip install --disable-pip-version-check --quiet --require-hashes \
            -r requirements/run.txt 2> >(grep -v 'is ignored: it is neither' >&2)
        cksum requirements/run.txt > "$home/made-from"
    fi
    say "on Python $version, installing the wheel alone"
    "$python" -m pip install --disable-pip-version-check --quiet --no-deps --no-index --force-reinstall "$wheel"
    "$python" -m pip check

    cd "$elsewhere"
    # The tests' own choices of folders must not leak in, nor this machine's records.
    export HOME="$elsewhere" XDG_DATA_HOME="$elsewhere/data" XDG_CACHE_HOME="$elsewhere/cache" XDG_CONFIG_HOME="$elsewhere/config"
    say "on Python $version, importing every module"
    "$python" -W error -P "$project/scripts/import_everything.py"
    local command
    for command in "${SMOKE_COMMANDS[@]}"; do
        say "on Python $version, woodreeve $command"
        # shellcheck disable=SC2086
        if ! "$home/bin/woodreeve" $command >"$elsewhere/said" 2>&1 </dev/null; then
            cat "$elsewhere/said" >&2
            say "woodreeve $command failed on Python $version" >&2
            exit 1
        fi
    done
    say "on Python $version, woodreeve demo, and its first page"
    "$python" -P "$project/scripts/try_served.py" "$home/bin/woodreeve" demo
    cd "$project"
}

scripts/supported-pythons.sh | while IFS= read -r base; do
    ( try_on "$base" )
done
say "done"

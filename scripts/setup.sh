#!/usr/bin/env bash
# Make .venv ready: `setup.sh run` to run woodreeve, `setup.sh dev` to work on it.
#
# Installs exactly what the lock names, each file checked by its hash, then the
# package itself from src/. Quick when nothing changed: a stamp in .venv holds the
# checksum of the locks, pyproject.toml, the Python it was made with and this folder's name.
set -euo pipefail
cd "$(dirname "$0")/.."

kind="${1:?say run or dev}"
case "$kind" in
run) locks=(requirements/run.txt requirements/build.txt) ;;
dev) locks=(requirements/dev.txt) ;;
*) echo "Set-up: there is run and dev, not '$kind'" >&2; exit 2 ;;
esac
venv=.venv
python="$venv/bin/python"

say() { echo "Set-up: $*"; }

fingerprint() {  # changes when anything that decides the content of .venv does
    { pwd; cat requirements/*.txt pyproject.toml; "$python" -c 'import sys; print(sys.version)'; } | cksum
}

is_ready() {  # whether .venv was made for $1 (run or dev), as things stand now
    local stamp="$venv/installed-$1"
    [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$(fingerprint)" ]
}

show_progress() {  # turn pip's lines into a short count; $1 packages in all
    local total="$1" count=0 line
    while IFS= read -r line; do
        case "$line" in
        Collecting*|Processing*|"Requirement already satisfied"*)
            count=$((count + 1))
            if [ -t 1 ]; then
                printf '\r  fetched %d of at most %d packages ' "$count" "$total"
            elif [ $((count % 20)) -eq 0 ]; then
                echo "  fetched $count of at most $total packages"
            fi ;;
        "Installing collected"*)
            if [ -t 1 ]; then echo; fi
            count=0
            echo "  unpacking them into $venv" ;;
        esac
    done
    if [ -t 1 ] && [ "$count" -gt 0 ]; then echo; fi
}

# Two makes at once in one folder take turns, where the system has flock.
if command -v flock >/dev/null 2>&1 && [ -z "${WOODREEVE_SETUP_LOCKED:-}" ]; then
    export WOODREEVE_SETUP_LOCKED=1
    exec flock .setup-lock "$0" "$@"
fi

if ! "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
    base="$(scripts/find-python.sh)"
    say "making $venv with $("$base" --version)"
    rm -rf "$venv"
    "$base" -m venv "$venv"
fi

# The development lock holds all that the run-time lock holds, at the same versions.
if is_ready dev || is_ready "$kind"; then
    say "nothing to do, $venv is up to date"
    exit 0
fi

total="$(cat "${locks[@]}" | grep -c '==')"
# (pip's warning of an empty local package folder, once for each package, is left out.)
say "1 of 2, installing what ${locks[*]} names (each file checked by its hash)"
"$python" -m pip install --disable-pip-version-check --progress-bar off \
    --require-hashes "${locks[@]/#/--requirement=}" 2> >(grep -v 'is ignored: it is neither' >&2) | show_progress "$total"

say "2 of 2, installing woodreeve itself from src/"
"$python" -m pip install --disable-pip-version-check --quiet \
    --no-deps --no-build-isolation -e .

fingerprint > "$venv/installed-$kind"
say "done"

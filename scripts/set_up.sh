#!/bin/sh
# Set up ./.venv from a lock file of hashes.
#
#   scripts/set_up.sh run    what the kitchen needs at work (requirements.lock)
#   scripts/set_up.sh dev    that, and what tests, lint and benches need (requirements-dev.lock)
#
# PYTHON names the interpreter (3.11 or newer); without it python3.11 is taken, else python3.
# uv installs when it is on the PATH, otherwise pip does. `make` calls this only when a stamp is out of date.
set -eu
cd "$(dirname "$0")/.."

say() { printf 'set-up: %s\n' "$*" >&2; }
fail() { say "$*"; exit 1; }
is_new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; }

find_python() {
    if [ -n "${PYTHON:-}" ]; then
        is_new_enough "$PYTHON" || fail "PYTHON=$PYTHON does not start a Python 3.11 or newer; name one that does"
        printf '%s' "$PYTHON"
        return
    fi
    for name in python3.11 python3; do
        if is_new_enough "$name"; then
            printf '%s' "$name"
            return
        fi
    done
    fail "no Python 3.11 or newer found; install one, or name it: make PYTHON=/path/to/python"
}

build_venv() { # python
    if "$1" -c 'import ensurepip' >/dev/null 2>&1; then
        "$1" -m venv --clear .venv
    else # as on a Debian without python3-venv: the interpreter's own pip, or uv, fills the environment
        "$1" -m venv --clear --without-pip .venv
    fi
    printf '%s\n' "$1" >.venv/.python
}

install() { # python, then the words that follow `pip install`
    python=$1
    shift
    if command -v uv >/dev/null 2>&1; then
        if uv pip install --quiet --python .venv/bin/python "$@"; then
            return
        fi
        say "uv could not install; pip tries instead"
    fi
    if .venv/bin/python -c 'import pip' >/dev/null 2>&1; then
        .venv/bin/python -m pip install --quiet --no-input --disable-pip-version-check "$@"
    elif "$python" -c 'import pip' >/dev/null 2>&1; then
        "$python" -m pip --python .venv/bin/python install --quiet --no-input --disable-pip-version-check "$@"
    else
        fail "$python has neither pip nor ensurepip; install python3-venv (Debian), or put uv on the PATH"
    fi
}

case "${1:-}" in
run) lock=requirements.lock stamps=.venv/.stamp-run ;;
dev) lock=requirements-dev.lock stamps='.venv/.stamp-run .venv/.stamp-dev' ;;
*) fail "write 'run' or 'dev' after scripts/set_up.sh" ;;
esac

python=$(find_python)
if ! is_new_enough .venv/bin/python; then
    build_venv "$python"
elif [ -n "${PYTHON:-}" ] && [ "$PYTHON" != "$(cat .venv/.python 2>/dev/null)" ]; then
    say "building .venv anew for $PYTHON"
    build_venv "$python"
fi
install "$python" --require-hashes -r "$lock"
install "$python" --no-deps --no-build-isolation -e .
# shellcheck disable=SC2086  # two stamps, two words
touch $stamps

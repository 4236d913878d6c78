#!/bin/sh
# Makes .venv in the checkout, with the locked packages and the command .venv/bin/doughwright.
#   scripts/setup.sh run    what the bench needs to run
#   scripts/setup.sh dev    that, and what the tests and tools need (Chromium too)
#   scripts/setup.sh wasm   that, and what make wasm needs
# Does nothing when it has been done for these very files. PYTHON=... chooses the Python to start from.
# As root, a missing Debian package is installed and named. Otherwise it is named, and the exit is 1 when there
# is no going on without it; a missing Chromium only stops the browser tests, and scripts/check.py says so.
set -eu
cd "$(dirname "$0")/.."
asked=${1:-run}
kind=$asked
[ "$asked" != wasm ] || kind=dev
kernel=src/doughwright/science/kernels

say() { echo "set-up: $*"; }
stop() {
    echo "set-up: $*" >&2
    exit 1
}

is_root() { [ "$(id -u)" = 0 ]; }

# system_package NAME WHY: install it and say so where we may, else fail after naming it.
system_package() {
    if ! is_root; then
        echo "set-up: the Debian package $1 is missing ($2). As root: apt-get install $1" >&2
        return 1
    fi
    if ! command -v apt-get >/dev/null; then
        echo "set-up: $1 is missing ($2), and there is no apt-get here to install it with" >&2
        return 1
    fi
    say "installing the Debian package $1 ($2)"
    export DEBIAN_FRONTEND=noninteractive
    if ! said=$({ apt-get update -qq && apt-get install -qq -y --no-install-recommends "$1"; } 2>&1); then
        echo "$said" >&2
        echo "set-up: apt-get could not install $1" >&2
        return 1
    fi
    say "installed $1"
}

new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }

find_python() {
    if [ -n "${PYTHON:-}" ]; then
        new_enough "$PYTHON" || stop "PYTHON=$PYTHON is not Python 3.11 or newer"
        echo "$PYTHON"
        return
    fi
    for one in python3 python3.14 python3.13 python3.12 python3.11; do
        if new_enough "$one"; then
            echo "$one"
            return
        fi
    done
}

can_make_venv() { "$1" -c 'import ensurepip, venv' 2>/dev/null; }

make_venv() {
    python=$(find_python)
    if [ -z "$python" ]; then
        system_package python3 "Doughwright needs Python 3.11 or newer" || exit 1
        python=$(find_python)
        [ -n "$python" ] || stop "this Debian's python3 is older than 3.11; name a newer one: make setup PYTHON=..."
    fi
    # A second Python that can make an environment is as good as the package that is missing from the first.
    if ! can_make_venv "$python" && [ -z "${PYTHON:-}" ]; then
        for one in python3.14 python3.13 python3.12 python3.11; do
            if new_enough "$one" && can_make_venv "$one"; then python=$one; fi
        done
    fi
    if ! can_make_venv "$python"; then
        version=$("$python" -c 'import sys; print("%d.%d" % sys.version_info[:2])')
        system_package "python$version-venv" "$python cannot make a virtual environment without it" || exit 1
    fi
    say "making .venv with $("$python" --version) ($python)"
    "$python" -m venv --clear .venv
}

# What the environment was made from: the same sum means there is nothing to do.
fingerprint() {
    {
        echo "$PWD"
        # With a compiler the days' kernel is compiled, without one it is not.
        command -v "${CC:-cc}" || echo "no compiler"
        cat pyproject.toml setup.py "$kernel"/*.[ch] scripts/setup.sh requirements/build.txt "requirements/$1.txt"
    } | sha256sum | cut -d' ' -f1
}

is_done() { [ -f ".venv/.ready-$1" ] && [ "$(cat ".venv/.ready-$1")" = "$(fingerprint "$1")" ]; }

works() { .venv/bin/python -c 'import pip, sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }

install_packages() {
    works || make_venv
    say "installing the locked packages (requirements/$kind.txt)"
    rm -f .venv/.ready-*
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes \
        -r requirements/build.txt -r "requirements/$kind.txt" ||
        stop "pip could not install the packages; what it said is above (the first set-up needs the package index)"
    # A kernel of an earlier set-up must not pass for this one's.
    rm -rf build "$kernel"/_core.*.so "$kernel"/_core.so
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --no-index \
        --force-reinstall --editable . || stop "pip could not install Doughwright itself"
    [ -e "$kernel"/_core.*.so ] || say "no C compiler with Python's headers here: the days take NumPy, slower"
    fingerprint "$kind" >".venv/.ready-$kind"
    say "done: .venv/bin/doughwright"
}

# The developer's environment holds all of the plain one.
if [ "$kind" = run ] && is_done dev; then kind=dev; fi
if ! is_done "$kind" || ! works; then install_packages; fi

wasm_is_done() { [ -f .venv/.ready-wasm ] && cmp -s .venv/.ready-wasm requirements/wasm.txt; }

if [ "$asked" = wasm ] && ! wasm_is_done; then
    say "installing the compiler and the runtime for WebAssembly (requirements/wasm.txt)"
    .venv/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/wasm.txt ||
        stop "pip could not install them; what it said is above"
    cp requirements/wasm.txt .venv/.ready-wasm
fi

if [ "$asked" = dev ] && ! command -v chromium >/dev/null; then
    system_package chromium "the browser tests drive it" ||
        say "going on without it: every other test runs, and the run ends as failed"
fi

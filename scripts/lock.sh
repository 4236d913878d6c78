#!/bin/sh
# Writes the lock files in requirements/ anew from pyproject.toml, every version pinned with its hashes.
#   dev.txt    everything: the package's needs, the tests' and the tools'
#   test.txt   what the built wheel and its tests need       } the same versions as in dev.txt
#   run.txt    what the package needs to run                 }
#   build.txt  what builds the package
#   wasm.txt   what make wasm needs beside dev.txt
set -eu
cd "$(dirname "$0")/.."

compile() {
    out=$1
    shift
    echo "requirements/$out"
    .venv/bin/python -m piptools compile --quiet --generate-hashes --strip-extras --allow-unsafe --no-annotate \
        --no-header --no-emit-index-url --no-emit-find-links --no-emit-trusted-host \
        --output-file "requirements/$out" "$@" pyproject.toml
}

compile dev.txt --extra test --extra dev "$@"
compile test.txt --extra test --constraint requirements/dev.txt "$@"
compile run.txt --constraint requirements/dev.txt "$@"
compile wasm.txt --extra wasm --constraint requirements/dev.txt "$@"
compile build.txt --build-deps-for editable --build-deps-for wheel --only-build-deps --constraint requirements/dev.txt "$@"

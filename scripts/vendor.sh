#!/bin/sh
# Fetches the two scripts of others that we keep in the tree, at the versions named here, from npm by name.
# Nothing needs this to build, test or run: it is how the files in the two vendor folders came to be.
set -eu
cd "$(dirname "$0")/.."

HTMX=2.0.11
AXE=4.14.1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# take PACKAGE VERSION FILE LICENCE FOLDER: unpack the package, keep one file, its licence and where it is from.
take() {
    (cd "$work" && npm pack --silent "$1@$2" >/dev/null && rm -rf package && tar -xzf "$1-$2.tgz")
    mkdir -p "$5"
    cp "$work/package/$3" "$5/$(basename "$3")"
    cp "$work/package/$4" "$5/$(basename "$3").licence.txt"
    printf '%s %s, file %s of the npm package; fetched by scripts/vendor.sh; unchanged.\n' "$1" "$2" "$3" \
        >"$5/$(basename "$3").origin.txt"
    echo "$5/$(basename "$3"): $1 $2"
}

take htmx.org "$HTMX" dist/htmx.min.js LICENSE src/doughwright/web/static/vendor
take axe-core "$AXE" axe.min.js LICENSE tests/browser/vendor

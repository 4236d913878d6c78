#!/bin/sh
# The kernels under AddressSanitizer and UBSan: many waits and bakes at random, the worst that their bounds let
# through among them.
#   scripts/sanitize.sh [of each] [seed]
# CC names the compiler. Without one there is no kernel to look at: that is said, and the exit is 0.
set -eu
cd "$(dirname "$0")/.."
kernel=src/doughwright/science/kernels

if ! command -v "${CC:-cc}" >/dev/null; then
    echo "sanitize: not run: no C compiler here, so the days take NumPy"
    exit 0
fi
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
# One set of instructions: the sanitizers' start comes before the choice between several.
for pair in core:storm bake_core:bake_storm; do
    "${CC:-cc}" -std=c11 -O1 -g1 -ffp-contract=off -fno-omit-frame-pointer -Wall -Wextra -Werror -DDW_PLAIN \
        -fsanitize=address,undefined,float-cast-overflow -fno-sanitize-recover=all \
        -I "$kernel" "$kernel/${pair%:*}.c" "scripts/kernel/${pair#*:}.c" -lm -o "$folder/storm"
    "$folder/storm" "${1:-300}" "${2:-20261125}"
done

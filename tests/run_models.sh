#!/usr/bin/env bash
# run_models.sh - run every model in models/ and every fenced ```kline block of the documents.
# A block or model that is meant to fail says so in its first line: `# exit: N`.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1 KERNLINE=${KERNLINE:-build/release/kernline}
. tests/support/run_model.sh
need_program
blocks=$(mktemp -d) && trap 'rm -rf "$blocks"' EXIT

while IFS= read -r -d '' model; do
    run_model "$model"
done < <(find models -name '*.kline' -print0 | sort -z)

for document in README.md DEVELOPERS.md docs/*.md; do
    [ -f "$document" ] || continue
    name=${document##*/}
    awk -v stem="$blocks/${name%.md}" '
        /^```/ && open { open = 0; close(file); next }
        /^```kline *$/ { file = sprintf("%s_line_%d.kline", stem, NR); open = 1; printf "" > file; next }
        open { print > file }' "$document"
done
for block in "$blocks"/*.kline; do
    [ -f "$block" ] || continue
    name=${block##*/}
    run_model "$block" "${name%.kline}"
done
finish run_models

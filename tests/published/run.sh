#!/usr/bin/env bash
# run.sh - every published case as a model: its own `expect` lines decide, exit status 0 is all well.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1 KERNLINE=${KERNLINE:-build/release/kernline}
. tests/support/run_model.sh
need_program
generated=$(mktemp -d) && trap 'rm -rf "$generated"' EXIT
tests/published/winkler.sh "$generated" || exit 1
for model in tests/published/*.kline "$generated"/*.kline; do
    run_model "$model" "${model#"$generated"/}"
done
finish published

#!/usr/bin/env bash
# run.sh - limits through whole models: a stress a hair below the hand-found limit passes (status 0), one above fails (1).
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1 KERNLINE=${KERNLINE:-build/release/kernline}
. tests/support/run_model.sh
need_program
for model in tests/checks/*.kline; do
    run_model "$model"
done
finish checks

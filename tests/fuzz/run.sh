#!/usr/bin/env bash
# run.sh - each fuzz target for some seconds, starting from the models and the kept corpus; finds stay in build/fuzz/.
# Usage: run.sh SECONDS TARGET…
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
seconds=$1
shift
status=0
seeds=build/fuzz/seeds
mkdir -p "$seeds"
find models tests -name '*.kline' -exec cp -t "$seeds" {} +
cp -t "$seeds" tests/fuzz/corpus/*
for target in "$@"; do
    name=${target##*/}
    mkdir -p "build/fuzz/$name"
    echo "== $name, $seconds s"
    OPENBLAS_NUM_THREADS=1 "$target" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2048 -print_final_stats=1 \
        -max_len=8192 -dict=build/fuzz/words.dict -artifact_prefix="build/fuzz/$name/" "build/fuzz/$name" "$seeds" || status=1
done
exit $status

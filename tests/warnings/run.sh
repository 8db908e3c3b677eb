#!/usr/bin/env bash
# run.sh - every automatic warning has a model that draws it (NAME.draws.kline) and one that does not (NAME.quiet.kline).
# The warning's stable name in brackets in the summary decides; the exit status only has to be that of an analysis that ran.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1 KERNLINE=${KERNLINE:-build/release/kernline}
passed=0 failed=0
bad() { failed=$((failed + 1)); printf '%s\n' "$*"; }

for model in tests/warnings/*.draws.kline tests/warnings/*.quiet.kline; do
    file=${model##*/}
    name=${file%%.*}
    told=$("$KERNLINE" run "$model" 2>&1)
    status=$?
    if [ "$status" -gt 1 ]; then
        bad "$model: ended with status $status: $told"
        continue
    fi
    if grep -qF "[$name]" <<<"$told"; then is=draws; else is=quiet; fi
    case $file in
    *."$is".kline) passed=$((passed + 1)) ;;
    *) bad "$model: '$name' is $([ "$is" = draws ] && echo told || echo 'not told')" ;;
    esac
done
echo "warnings: $passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]

#!/usr/bin/env bash
# run.sh - every automatic warning has a model that draws it (NAME.draws.kline) and one that does not (NAME.quiet.kline).
# Every name of `kernline words warnings` has both, or a C test that has both and is listed here.
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
# What a model as text cannot bring about; the test draws it and keeps it quiet.
declare -A elsewhere=(
    [check-without-strength]=tests/unit/test_checks.c        # the model's check refuses it before, as no-strength
    [check-without-stress]=tests/unit/test_checks.c          # likewise, as no-faces
    [support-never-added]=tests/unit/test_consistency_stages.c # in a text a support is declared where it is added
)
names=$("$KERNLINE" words warnings | awk '$1 ~ /^[a-z]+(-[a-z]+)*$/ && NF > 2 { print $1 }' | sort -u)
[ "$(wc -w <<<"$names")" -gt 40 ] || bad "the list of warnings is short"
for name in $names; do
    test=${elsewhere[$name]:-}
    if [ -z "$test" ]; then
        for kind in draws quiet; do
            [ -f "tests/warnings/$name.$kind.kline" ] || bad "no model tests/warnings/$name.$kind.kline"
        done
    elif [ -f "tests/warnings/$name.draws.kline" ]; then
        bad "$name has a model: it need not be listed"
    elif [ "$(grep -cF "\"$name\"" "$test")" -lt 2 ]; then
        bad "$test does not both draw $name and keep it quiet"
    else
        passed=$((passed + 1))
    fi
done
for model in tests/warnings/*.kline; do
    file=${model##*/}
    grep -qxF "${file%%.*}" <<<"$names" || bad "$model: there is no warning of that name"
done
echo "warnings: $passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]

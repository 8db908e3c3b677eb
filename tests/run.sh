#!/usr/bin/env bash
# run.sh - run the test programs, then the test scripts, and end with one line 'N passed, N failed'.
# Usage: run.sh [--programs] PROGRAM…   (--programs: no scripts). RUNNER is put before each program (valgrind).
# Every script prints its own last line 'NAME: N passed, N failed'; of cmocka's output the summaries are counted.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1 KERNLINE=${KERNLINE:-build/release/kernline}
scripts=(tests/check_includes.sh tests/published/run.sh tests/run_models.sh tests/warnings/run.sh tests/checks/run.sh
         tests/cli/run.sh tests/docs.sh tests/browser/run.sh)
if [ "${1:-}" = --programs ]; then scripts=(); shift; fi

passed=0 failed=0 unhappy=()
scratch=$(mktemp) && trap 'rm -f "$scratch"' EXIT

# Add the counts found in the scratch file; a bad end without a counted failure is a failure too.
count() { # NAME STATUS
    local good bad
    read -r good bad < <(awk '
        /^\[  PASSED  \] [0-9]+ test/ { good += $4 }
        /^\[  FAILED  \] [0-9]+ test/ { bad += $4 }
        /^[a-z_]+: [0-9]+ passed, [0-9]+ failed$/ { good += $2; bad += $4 }
        END { print good + 0, bad + 0 }' "$scratch")
    if [ "$2" -ne 0 ] && [ "$bad" -eq 0 ]; then bad=1; echo "$1 ended with status $2"; fi
    passed=$((passed + good)) failed=$((failed + bad))
    [ "$bad" -eq 0 ] || unhappy+=("$1")
}

for program in "$@"; do
    echo "== $program"
    ${RUNNER:-} "$program" </dev/null 2>&1 | tee "$scratch"
    count "$program" "${PIPESTATUS[0]}"
done
for script in "${scripts[@]}"; do
    echo "== $script"
    "$script" </dev/null 2>&1 | tee "$scratch"
    count "$script" "${PIPESTATUS[0]}"
done
[ ${#unhappy[@]} -eq 0 ] || printf 'failed in: %s\n' "${unhappy[*]}"
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]

# run_model.sh - for the test scripts (sourced): run a model and hold its exit status against the stated one.
# A model states another status than 0 in a first comment line `# exit: N`.
# SPDX-License-Identifier: MIT
passed=0 failed=0

run_model() { # FILE [NAME shown]
    local file=$1 name=${2:-$1} want got output
    want=$(sed -nE '1,2s/^# exit: ([0-9]+) *$/\1/p' "$file")
    output=$(timeout "${MODEL_SECONDS:-120}" "$KERNLINE" run "$file" 2>&1 </dev/null)
    got=$?
    if [ "$got" -eq "${want:-0}" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: exit status %s, expected %s\n' "$name" "$got" "${want:-0}"
        printf '%s\n' "$output" | tail -n 40 | sed 's/^/    /'
    fi
}

need_program() {
    [ -x "$KERNLINE" ] || { echo "there is no program $KERNLINE: build it, or set KERNLINE"; exit 1; }
}

finish() { # NAME
    echo "$1: $passed passed, $failed failed"
    [ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
}

#!/usr/bin/env bash
# run.sh - golden runs of the program: tests/cli/NAME.sh with NAME.exit (0), NAME.stdout and NAME.stderr (nothing).
# Usage: run.sh [--bless] [NAME…]      --bless writes what the program says now: read it before it is committed
#
# A script runs in an empty folder of its own, with `kernline` on the path and $MODELS for tests/cli/models.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
root=$PWD
export LC_ALL=C OPENBLAS_NUM_THREADS=1 MODELS=$root/tests/cli/models ROOT=$root
KERNLINE=${KERNLINE:-build/release/kernline}
[ -x "$KERNLINE" ] || { echo "there is no program $KERNLINE: build it, or set KERNLINE"; exit 1; }
bless=no
if [ "${1:-}" = --bless ]; then bless=yes; shift; fi

scratch=$(mktemp -d) && trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/bin" && ln -s "$(realpath "$KERNLINE")" "$scratch/bin/kernline"
PATH=$scratch/bin:$PATH
passed=0 failed=0

compare() { # NAME STREAM
    local expected=tests/cli/$1.$2
    [ -f "$expected" ] || expected=/dev/null
    awk -f tests/support/numdiff.awk "$expected" "$scratch/$2" >"$scratch/why" && return 0
    echo "$1: $2 differs"
    sed 's/^/    /' "$scratch/why"
    return 1
}

keep() { # NAME STREAM
    if [ -s "$scratch/$2" ]; then cp "$scratch/$2" "tests/cli/$1.$2"; else rm -f "tests/cli/$1.$2"; fi
}

names=("$@")
if [ ${#names[@]} -eq 0 ]; then
    for script in tests/cli/*.sh; do
        name=${script##*/}
        [ "$name" = run.sh ] || names+=("${name%.sh}")
    done
fi
for name in "${names[@]}"; do
    mkdir "$scratch/$name"
    (cd "$scratch/$name" && timeout 120 bash "$root/tests/cli/$name.sh" </dev/null) >"$scratch/stdout" 2>"$scratch/stderr"
    got=$?
    # The folders differ from machine to machine.
    sed -i "s#$MODELS/##g; s#$root/##g; s#$scratch/$name/##g" "$scratch/stdout" "$scratch/stderr"
    if [ $bless = yes ]; then
        keep "$name" stdout
        keep "$name" stderr
        if [ "$got" -eq 0 ]; then rm -f "tests/cli/$name.exit"; else echo "$got" >"tests/cli/$name.exit"; fi
        continue
    fi
    want=0
    [ ! -f "tests/cli/$name.exit" ] || want=$(<"tests/cli/$name.exit")
    well=yes
    [ "$got" -eq "$want" ] || { echo "$name: exit status $got, expected $want"; well=no; }
    compare "$name" stdout || well=no
    compare "$name" stderr || well=no
    if [ $well = yes ]; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
done
echo "cli: $passed passed, $failed failed"
[ "$failed" -eq 0 ]

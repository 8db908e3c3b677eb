#!/usr/bin/env bash
# docs.sh - what the documents show of the program is what the program says. `docs.sh --write` brings them up to date.
#
# A part between `<!-- begin NAME -->` and `<!-- end NAME -->` is written by the function part_NAME below; here it is
# written again and compared.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1
KERNLINE=$(realpath "${KERNLINE:-build/release/kernline}")
scratch=$(mktemp -d) && trap 'rm -rf "$scratch"' EXIT
passed=0 failed=0

fenced() { printf '```text\n'; cat; printf '```\n'; }

part_words() { "$KERNLINE" words | fenced; }

# The model of the README, and of what it prints the paragraphs that tell most in little space.
part_summary() {
    awk '/^```/ && open { exit } open { print } /^```kline/ { open = 1 }' README.md >"$scratch/simple_cap.kline"
    (cd "$scratch" && "$KERNLINE" run simple_cap.kline 2>&1) | awk '
        BEGIN { RS = ""; FS = "\n" }
        /^Cap on/ || /^Tendons as/ || /^Falsework/ || /^Checks:/ || /^Expectations\n/ {
            print (n++ ? "\n" : "") $0
        }' | fenced
}

# Every published value with what the program makes of it.
part_figures() {
    for model in tests/published/*.kline; do
        printf '### %s\n\n' "$(sed -n 's/^title "\(.*\)"$/\1/p' "$model")"
        printf '`%s`\n\n' "$model"
        "$KERNLINE" table "$model" expectations 2>/dev/null | sed 1d | fenced
        echo
    done
}

renew() { # FILE -> the file with every part written again
    local line name
    while IFS= read -r line; do
        printf '%s\n' "$line"
        [[ $line =~ ^'<!-- begin '([a-z_]+)' -->'$ ]] || continue
        name=${BASH_REMATCH[1]}
        "part_$name"
        while IFS= read -r line && [ "$line" != "<!-- end $name -->" ]; do :; done
        printf '%s\n' "$line"
    done <"$1"
}

for file in README.md docs/language.md docs/verification.md; do
    renew "$file" >"$scratch/new"
    if [ "${1:-}" = --write ]; then
        cat "$scratch/new" >"$file"
    elif awk -f tests/support/numdiff.awk "$file" "$scratch/new"; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$file shows what the program no longer says: read it, then tests/docs.sh --write"
    fi
done
# Every file the developers' guide names is there.
while read -r name; do
    if compgen -G "solver/$name" >/dev/null || compgen -G "frontends/$name" >/dev/null || compgen -G "$name" >/dev/null; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "DEVELOPERS.md names $name, which is not there"
    fi
done < <(grep -ohE '`[a-z]+/[a-z_/*]+\.(c|h|sh)`' DEVELOPERS.md | tr -d '`' | sort -u)
echo "docs: $passed passed, $failed failed"
[ "$failed" -eq 0 ]

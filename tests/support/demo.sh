#!/usr/bin/env bash
# demo.sh - run the long cap and leave everything a reader may want in a folder. Usage: demo.sh FOLDER
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1
KERNLINE=${KERNLINE:-build/release/kernline}
folder=$1
model=models/caps/long_skewed_cap.kline
mkdir -p "$folder" || exit 5

"$KERNLINE" run "$model" | tee "$folder/summary.txt"
status=${PIPESTATUS[0]}
"$KERNLINE" run --json "$model" >"$folder/summary.json" 2>/dev/null || status=$?

# One CSV and one JSON a table; the warnings have been told above.
table() { # WHAT [OPTION…]
    local what=$1
    shift
    "$KERNLINE" table "$@" --csv "$model" "$what" >"$folder/$what.csv" 2>/dev/null || status=$?
    "$KERNLINE" table "$@" --json "$model" "$what" >"$folder/$what.json" 2>/dev/null || status=$?
}
for what in steps nodes ends sections camber grades history posts tendons stressing losses tendon_loads checks expectations audit; do
    table "$what"
done
for what in actions stresses deflections reactions; do
    table "$what" --steps
done
for what in frame loads stages posts moment stresses envelope tendons tendon_force sections; do
    "$KERNLINE" plot "$model" "$what" -o "$folder/$what.svg" 2>/dev/null || status=$?
done
"$KERNLINE" report "$model" -o "$folder/package.html" 2>/dev/null || status=$?
cat <<TEXT

The package   $folder/package.html: every sheet of the calculation, for a browser and for paper
Pictures      $folder/*.svg: stages, tendons (both in the README), frame, loads, posts, moment, stresses …
The model     $model
The summary   $folder/summary.txt (also summary.json)
The tables    $folder/*.csv and *.json: actions, stresses, deflections and reactions of every step, and the rest
TEXT
exit "$status"

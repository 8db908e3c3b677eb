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

# ---- docs/tutorial-years.md: the model by its chapters, and what the program says of it

YEARS=models/caps/thirty_years.kline
# A chapter of the model: from its heading `# ---- NAME` to the next one.
chapter() { awk -v name="# ---- $1" '/^# ---- / { on = $0 == name; next } on' "$YEARS" | sed -e '1{/^$/d}' -e '${/^$/d}' | fenced; }
years() { "$KERNLINE" "$1" "$YEARS" "${@:2}" 2>&1; }
# The paragraphs of the summary that begin with a word.
paragraph() { years run | awk -v head="^$1" 'BEGIN { RS = "" } $0 ~ head' | fenced; }

part_years_place() { chapter "the place and the concrete"; }
part_years_frame() { chapter "the frame"; }
part_years_tendons() { chapter "the tendons"; }
part_years_loads() { chapter "the falsework and the loads"; }
part_years_stages() { chapter "the years"; }
part_years_checks() { chapter "the checks"; }
part_years_posts() { paragraph "Falsework bents"; }
part_years_stressing() { paragraph "Tendons as stressed"; }
part_years_step() { years table actions --stage step_1 --member cap --at "32 ft" | awk '$2 != "left" && !/^[A-Z].*\.|^are|^Total|^part|^supp/' | fenced; }
# The stages, and of the moments between them five of the last thirty years.
part_years_history() {
    years table history --member cap --at "32 ft" | awk '!/on day/ || / (230|367|1130|3292|5753)\./' | fenced
}
part_years_causes() {
    years table actions --by-cause --stage thirty_years --member cap --at "32 ft" | awk '$2 != "left" && NF' | sed '/^Signs/,$d' | fenced
}
# Of the first group; the notes below are those of all.
part_years_losses() { years table losses --stage thirty_years | awk '/, tendon T2$/ { skip = 1 } /^The stress at/ { skip = 0 } !skip' | cat -s | fenced; }
part_years_reactions() { years table reactions --by-cause --stage thirty_years | awk '$1 != "B"' | cat -s | fenced; }
part_years_sensitivity() { years sensitivity | fenced; }
# The same cap by another law.
part_years_second() {
    sed -E 's/^( +(creep|shrinkage) +)en1992 2004/\1aashto 2020/' "$YEARS" >"$scratch/second.kline"
    (cd "$scratch" && "$KERNLINE" table second.kline history --member cap --at "32 ft" 2>/dev/null) |
        awk 'NR <= 4 || /(opened|thirty_years)$/ || /after (opened|thirty_years)/' | fenced
}
part_years_expectations() { years table expectations | sed 1d | fenced; }

# Pictures of the documents: file, model, what, options.
pictures() {
    local cap=models/caps/long_skewed_cap.kline
    cat <<END
docs/long_skewed_cap/stages.svg $cap stages
docs/long_skewed_cap/tendons.svg $cap tendons
docs/tutorial-years/posts.svg $YEARS frame --stage cap_cast
docs/tutorial-years/moments.svg $YEARS moment --stage thirty_years --by-cause
END
}

# The numbers of a picture stand among letters and signs; the style is that of all pictures, whatever they show.
loosen() { sed -E '/<style>/d; s/[^-+.0-9]+/ & /g' "$1"; }

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

for file in README.md docs/language.md docs/verification.md docs/tutorial-years.md; do
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
while read -r file model what options; do
    # shellcheck disable=SC2086 # the options are words
    "$KERNLINE" plot "$model" "$what" $options -o "$scratch/picture.svg" 2>/dev/null
    if [ "${1:-}" = --write ]; then
        cp "$scratch/picture.svg" "$file"
    elif [ -s "$scratch/picture.svg" ] && awk -f tests/support/numdiff.awk <(loosen "$file") <(loosen "$scratch/picture.svg"); then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$file shows what the program no longer draws: look at it, then tests/docs.sh --write"
    fi
done < <(pictures)
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

# numdiff.awk - compare a text with the expected one: words exactly, numbers within what their last digit can say.
# Usage: awk -f numdiff.awk EXPECTED GOT      exit status 0: alike; else the first difference is printed
#
# Two numbers are alike when they differ by no more than 1e-6 of their size or one and a half units in the last place
# printed. In the expected text `*` stands for any word and a line `...` for any lines.
# SPDX-License-Identifier: MIT

function is_number(word) {
    return word ~ /^[-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+]?[0-9]+)?$/
}
function last_place(word,   mantissa, power, point) {
    mantissa = word
    power = 0
    if (match(word, /[eE]/)) {
        power = substr(word, RSTART + 1) + 0
        mantissa = substr(word, 1, RSTART - 1)
    }
    point = index(mantissa, ".")
    if (point > 0)
        power -= length(mantissa) - point
    return 10 ^ power
}
function size(x) { return x < 0 ? -x : x }
function alike(want, got,   near) {
    if (want == got || want == "*")
        return 1
    if (!is_number(want) || !is_number(got))
        return 0
    near = 1e-6 * size(want) + (want ~ /[.eE]/ ? 1.5 * last_place(want) : 0)
    return size(want - got) <= near
}
# Punctuation stands apart so that `12.5,` is a number and a comma.
function spread(line) {
    gsub(/[][(),;:|=<>{}%]/, " & ", line)
    return line
}
function same_line(want, got,   w, g, n, i) {
    if (want == got)
        return 1
    n = split(spread(want), w, /[ \t]+/)
    if (split(spread(got), g, /[ \t]+/) != n)
        return 0
    for (i = 1; i <= n; i++)
        if (!alike(w[i], g[i]))
            return 0
    return 1
}

{ sub(/\r$/, ""); sub(/[ \t]+$/, "") }
FILENAME == ARGV[1] { expected[++n_expected] = $0; next }
{ found[++n_found] = $0 }

END {
    j = 1
    for (i = 1; i <= n_expected; i++) {
        if (expected[i] == "...") {
            if (i == n_expected) exit 0
            while (j <= n_found && !same_line(expected[i + 1], found[j]))
                j++
            continue
        }
        if (j > n_found || !same_line(expected[i], found[j])) {
            printf "line %d: expected\n    %s\ngot\n    %s\n", i, expected[i], (j <= n_found ? found[j] : "(nothing more)")
            exit 1
        }
        j++
    }
    if (j <= n_found) {
        printf "more than expected:\n    %s\n", found[j]
        exit 1
    }
}

#!/usr/bin/env bash
# run.sh - seconds the program takes for models that grow; it reports and never fails.
# Usage: run.sh [BENCH PROGRAM…]
#
# A deck of n spans of 30 ft with uniform load (20 elements a span), and a cap cast on n rows of posts, stressed and released.
# The best of three runs counts. The last column is the growth of time over the growth of size: 1 is linear.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1
KERNLINE=${KERNLINE:-build/release/kernline}
folder=$(mktemp -d) && trap 'rm -rf "$folder"' EXIT

deck() { # SPANS
    awk -v n="$1" 'BEGIN {
        print "material elastic { modulus 4000 ksi }\nsection deck { rectangle width 10 ft depth 2 ft }"
        for (i = 0; i <= n; i++) printf "node P%d at (%d ft, 0 ft)\nsupport P%d %s\n", i, 30 * i, i, i ? "roller" : "pinned"
        for (i = 1; i <= n; i++) printf "member span_%d from P%d to P%d section deck of elastic\n", i, i - 1, i
        print "load dead {"
        for (i = 1; i <= n; i++) printf "uniform 3 klf on span_%d\n", i
        print "}"
    }'
}

staged_cap() { # ROWS
    awk -v n="$1" 'BEGIN {
        length_ = 5 * (n + 1)
        print "concrete mix { strength 6 ksi; transfer_strength 4.5 ksi; unit_weight 150 pcf; modulus 4000 ksi; creep none; shrinkage none }"
        print "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none }"
        print "section cap { rectangle width 7 ft depth 7 ft }"
        printf "node L at (0 ft, 0 ft)\nnode R at (%d ft, 0 ft)\nsupport L pinned\nsupport R roller\n", length_
        print "member cap from L to R section cap of mix { mesh 5 ft }"
        print "tendon T in cap { of strand; strands 19 area 0.217 in^2; count 4; friction 0.2; wobble 0.0002 per ft; seating 0.25 in"
        print "jack both ratio 0.75; bonded grouted; duct 4 in"
        print "profile from bottom { anchor at start height 3.5 ft; low at mid height 1 ft; anchor at end height 3.5 ft } }"
        printf "falsework bents under cap from 5 ft to %d ft every 5 ft { posts 2; stiffness 450 kip/in }\n", length_ - 5
        print "stage cast_it at 0 day { erect bents; cast cap }\nstage stressed at 14 day { stress T }"
        print "stage released at 20 day { grout T; release bents }"
    }'
}

seconds() { # FILE -> best of three
    local best=999 i t
    for i in 1 2 3; do
        t=$( { TIMEFORMAT=%R; time "$KERNLINE" run "$1" >/dev/null 2>&1 </dev/null; } 2>&1)
        best=$(awk -v a="$best" -v b="$t" 'BEGIN { print (b < a) ? b : a }')
    done
    echo "$best"
}

series() { # NAME SIZE…
    local name=$1 size before_size="" before_time="" t
    shift
    for size in "$@"; do
        "$name" "$size" >"$folder/$name.kline"
        t=$(seconds "$folder/$name.kline")
        awk -v name="$name" -v n="$size" -v t="$t" -v n0="$before_size" -v t0="$before_time" 'BEGIN {
            growth = (n0 != "" && t0 > 0.005 && t > 0) ? sprintf("%.2f", log(t / t0) / log(n / n0)) : "-"
            printf "%-12s %7d %10.3f s %8s\n", name, n, t, growth
        }'
        before_size=$size before_time=$t
    done
}

printf '%-12s %7s %12s %8s\n' model size time growth
# The demo: a cap on two columns, 40 posts, 8 stages, every cause it has.
printf '%-12s %7s %10.3f s\n' demo_cap - "$(seconds models/caps/long_skewed_cap.kline)"
series deck 10 100 1000 4000
series staged_cap 10 40 160
for program in "$@"; do
    echo "== $program"
    "$program"
done
exit 0

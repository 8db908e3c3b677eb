#!/usr/bin/env bash
# run.sh - what the program takes for models that grow; it reports and never fails.
# Usage: run.sh USAGE-PROGRAM [BENCH-PROGRAM…]        GROWTH_MOST=100000 leaves out what has more elements
#
# First the demo and a cap cast on n rows of posts: seconds, best of three, and the growth of time over the growth of size
# (1 is linear). Then line-like structures of 10^3 to 10^6 elements, reading and printing included: `deck`, a continuous deck on
# supports, and `unit`, one that is placed, stressed by four long tendons, grouted and loaded. What an almost empty model takes in the
# same run is taken off, for starting the program is most of what a small model costs; what is left is divided by the elements.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
export LC_ALL=C OPENBLAS_NUM_THREADS=1
KERNLINE=${KERNLINE:-build/release/kernline}
USAGE=$1
shift
folder=$(mktemp -d) && trap 'rm -rf "$folder"' EXIT

line() { # SPANS FEET: nodes, supports
    awk -v n="$1" -v feet="$2" 'BEGIN {
        for (i = 0; i <= n; i++) printf "node P%d at (%d ft, 0 ft)\nsupport P%d %s\n", i, feet * i, i, i ? "roller" : "pinned"
    }'
}

spans() { # SPANS MATERIAL: members, loads
    awk -v n="$1" -v material="$2" 'BEGIN {
        print "section deck { rectangle width 10 ft depth 2 ft }"
        for (i = 1; i <= n; i++) printf "member span_%d from P%d to P%d section deck of %s\n", i, i - 1, i, material
        print "load dead {"
        for (i = 1; i <= n; i++) printf "uniform 3 klf on span_%d\n", i
        print "}"
    }'
}

# Spans of 6 ft: a model may be 100 km long. In the middle of many spans a support takes w l, and the moment over it is w l^2 / 12
# (equation of three moments): a run that misses this fails, and its row says so.
deck() { # ELEMENTS
    local n=$(($1 / 20)) middle=$(($1 / 40))
    echo "material elastic { modulus 4000 ksi }"
    line $n 6
    spans $n elastic
    [ $n -ge 50 ] || return 0
    echo "expect reaction y at P$middle under dead = 18 kip within 1e-9 kip source \"w l\""
    echo "expect moment on span_$middle at end under dead = -9 kip-ft within 1e-9 kip-ft source \"w l^2 / 12\""
    echo "expect moment on span_$middle at mid under dead = 4.5 kip-ft within 1e-9 kip-ft source \"w l^2 / 24\""
}

# A tendon runs through a quarter of the spans, straight and all but without friction, so that its force arrives.
unit() { # ELEMENTS
    local n=$(($1 / 80 * 4))
    echo "concrete mix { strength 6 ksi; transfer_strength 4.5 ksi; unit_weight 150 pcf; modulus 4000 ksi; creep none; shrinkage none }"
    echo "prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none }"
    line $n 20
    spans $n mix
    awk -v n=$n 'BEGIN {
        for (s = 0; s < n; s += 1000) {
            printf "set spans_%d", s
            for (i = s + 1; i <= n && i <= s + 1000; i++) printf " span_%d", i
            print ""
        }
        printf "set spans"
        for (s = 0; s < n; s += 1000) printf " spans_%d", s
        print ""
        for (t = 0; t < 4; t++) {
            printf "tendon T%d in", t
            for (i = 1; i <= n / 4; i++) printf " span_%d", t * n / 4 + i
            print " { of strand; strands 19 area 0.217 in^2; count 4; friction 0.2; wobble 0.0000001 per ft; seating 0.25 in"
            print "jack both ratio 0.7; bonded grouted; duct 4 in"
            print "profile from bottom { anchor at start height 0.8 ft; anchor at end height 0.8 ft straight } }"
        }
    }'
    echo "stage placed at 0 day { place spans }"
    echo "stage stressed at 14 day { stress T0 T1 T2 T3 }"
    echo "stage grouted at 20 day { grout T0 T1 T2 T3 }"
    echo "stage loaded at 30 day { load dead }"
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

# Processor seconds and peak KiB: the least of so many runs.
usage() { # TIMES FILE
    "$USAGE" "$1" "$KERNLINE" run "$2"
}

seconds() { # FILE -> best of three
    usage 3 "$1" | cut -d' ' -f1
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

# How often a model of so many elements is run: a short run is disturbed more easily, and of it the start is most.
runs() { # ELEMENTS
    echo $(($1 < 10000 ? 49 : $1 < 100000 ? 9 : $1 < 1000000 ? 5 : 3))
}

# Rows: what is left when the start is taken off, for each element, and over the smallest in its series. The start is
# measured in turns with each size, for a machine that others use is not the same from minute to minute.
growth() { # NAME ELEMENTS…
    local name=$1 size turn
    shift
    deck 20 >"$folder/empty.kline"
    for size in "$@"; do
        [ "$size" -le "${GROWTH_MOST:-1000000}" ] || continue
        "$name" "$size" >"$folder/$name.kline"
        for turn in $(seq $((size < 10000 ? 7 : 1))); do
            echo "$name $size $(usage 7 "$folder/empty.kline") $(usage $(($(runs "$size") / (size < 10000 ? 7 : 1))) "$folder/$name.kline" || echo nan nan)"
        done
    done | awk '
        function least(was, is) { return was == "" || is == "nan" || is < was ? is : was }
        {
            if (!($2 in at)) at[$2] = ++rows
            i = at[$2]
            name[i] = $1; size[i] = $2
            start[i] = least(start[i], $3); kib0[i] = least(kib0[i], $4)
            took[i] = least(took[i], $5); kib[i] = least(kib[i], $6)
        }
        END {
            for (i = 1; i <= rows; i++) {
                us[i] = (took[i] - start[i]) / size[i] * 1e6
                bytes[i] = (kib[i] - kib0[i]) / size[i] * 1024
                least_us = least(least_us, us[i])
                least_bytes = least(least_bytes, bytes[i])
            }
            for (i = 1; i <= rows; i++) {
                printf "%-8s %9d %10.4f %10.2f %6.2f %10.0f %8.0f %6.2f\n", name[i], size[i], took[i], us[i], us[i] / least_us,
                    kib[i] / 1024, bytes[i], bytes[i] / least_bytes
            }
        }'
}

printf '%-12s %7s %12s %8s\n' model size time growth
# The demo: a cap on two columns, 40 posts, 8 stages, every cause it has.
printf '%-12s %7s %10.3f s\n' demo_cap - "$(seconds models/caps/long_skewed_cap.kline)"
series staged_cap 10 40 160
deck 20 >"$folder/empty.kline"
echo
echo "Line-like structures: processor seconds (best of 49 to 3 runs), microseconds and bytes an element, and"
usage "$(runs 20)" "$folder/empty.kline" | awk '{ printf "x over the least of the series. One span (%.1f ms, %.1f MB) is taken off.\n", $1 * 1e3, $2 / 1024 }'
printf '%-8s %9s %10s %10s %6s %10s %8s %6s\n' model elements seconds us x "peak MB" bytes x
growth deck 1000 10000 100000 1000000
growth unit 960 9600 80000
for program in "$@"; do
    echo "== $program"
    "$program"
done
exit 0

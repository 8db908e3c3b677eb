#!/usr/bin/env bash
# winkler.sh - write the beams on elastic foundation as models with a spring in every so many metres.
# Usage: winkler.sh FOLDER
#
# The language has no continuous foundation; springs of k x spacing (half at the ends) converge to it with the square
# of the spacing, within 3e-4 at a tenth of a metre. With 16 and 80 spaces the springs themselves are the case, to 1e-8.
# Closed forms: Hetenyi, Beams on Elastic Foundation (1946), chapter IV, and a fit of the differential equation's constants.
# SPDX-License-Identifier: MIT
set -eu
folder=$1
mkdir -p "$folder"

# write FILE TITLE SHOW LENGTH SPACES UNIT MODULUS AREA INERTIA SPRING(inner, value and unit); loads and expectations from stdin
write() {
    awk -v title="$2" -v show="$3" -v length_="$4" -v n="$5" -v unit="$6" -v modulus="$7" -v area="$8" -v inertia="$9" \
        -v k="${10}" -v k_unit="${11}" '
        BEGIN {
            printf "kernline 1\ntitle \"%s\"\nshow %s\n", title, show
            printf "material elastic { modulus %s }\nsection raft { area %s; inertia %s }\n", modulus, area, inertia
            printf "node S0 at (0 %s, 0 %s)\nnode S%d at (%s %s, 0 %s)\n", unit, unit, n, length_, unit, unit
            printf "member raft from S0 to S%d section raft of elastic\n", n
            for (i = 1; i < n; i++) printf "node S%d on raft at %.10g %s\n", i, length_ * i / n, unit
            for (i = 0; i <= n; i++) {
                share = (i == 0 || i == n) ? 0.5 : 1
                printf "support S%d %sy %.12g %s\n", i, i == 0 ? "x fixed " : "", k * share, k_unit
            }
        }
        { print }' > "$folder/$1.kline"
}

write winkler_long_middle "Long beam on an elastic foundation, load in the middle" si 80 800 m "30e6 kPa" "1 m^2" "0.08 m^4" 1200 kN/m <<'TAIL'
load axle { point 600 kN on raft at mid }
expect deflection on raft at mid under axle  = -0.004700755509 m within 3e-2 % source "fit over 80 m; infinite beam: P lambda / 2 k"
expect moment on raft at mid under axle      = 797.7444636 kN-m within 3e-2 % source "fit over 80 m; infinite beam: P / 4 lambda"
expect deflection on raft at 43 m under axle = -0.003689589928 m within 3e-2 % source "fit over 80 m, 3 m from the load"
expect moment on raft at 43 m under axle     = 140.8781137 kN-m within 0.24 kN-m source "fit over 80 m; 3e-4 of the greatest"
TAIL
write winkler_long_end "Long beam on an elastic foundation, load at its end" si 80 800 m "30e6 kPa" "1 m^2" "0.08 m^4" 1200 kN/m <<'TAIL'
load axle { point 600 kN on raft at start }
expect deflection on raft at start under axle = -0.01880301547 m within 3e-2 % source "2 P lambda / k"
expect moment on raft at 3 m under axle = -970.5319553 kN-m within 3e-2 % source "-(P / lambda) exp(-lambda x) sin(lambda x)"
TAIL
write winkler_short_ends "Short beam on an elastic foundation, loads at both ends" us 20 200 ft "576000 ksf" "6 ft^2" "9 ft^4" 400 kip/ft <<'TAIL'
load axles { point 50 kip on raft at start; point 50 kip on raft at end }
expect deflection on raft at start under axles = -0.002291671204 ft within 3e-2 % source "Hetenyi, eq. 37a"
expect deflection on raft at mid under axles = -0.0006746672258 ft within 3e-2 % source "Hetenyi, eq. 37b"
expect moment on raft at mid under axles = -194.1925073 kip-ft within 3e-2 % source "Hetenyi, eq. 37c"
TAIL
short=("Short beam on an elastic foundation, load in the middle" si 8)
rest=("30e6 kPa" "1 m^2" "0.02 m^4")
write winkler_short_middle "${short[@]}" 80 m "${rest[@]}" 2000 kN/m <<'TAIL'
load axle { point 900 kN on raft at mid }
expect deflection on raft at mid under axle = -0.00753808634 m within 3e-2 % source "(P lambda / 2 k)(cosh + cos + 2) / (sinh + sin)"
expect moment on raft at mid under axle = 765.6609113 kN-m within 3e-2 % source "(P / 4 lambda)(cosh - cos) / (sinh + sin)"
expect deflection on raft at start under axle = -0.002823064484 m within 3e-2 % source "(2 P lambda / k) cosh cos / (sinh + sin)"
expect deflection on raft at mid under axle = -0.007538407826 m within 1e-6 % source "80 spaces of springs, flexibility method"
expect moment on raft at mid under axle = 765.53035 kN-m within 1e-6 % source "80 spaces of springs, flexibility method"
TAIL
write winkler_sixteen_springs "${short[@]}" 16 m "${rest[@]}" 10000 kN/m <<'TAIL'
load axle { point 900 kN on raft at mid }
expect deflection on raft at mid under axle = -0.007546112414 m within 1e-6 % source "16 spaces of springs, flexibility method"
expect moment on raft at mid under axle = 762.386196 kN-m within 1e-6 % source "16 spaces of springs, flexibility method"
TAIL

# A prism of 0.8 m^2 with two straight tendons of 1800 mm^2 at its centroid, gross sections, E 30 GPa, E_p 195 GPa: n rho is
# 0.014625 for each. T is pulled to 2000 kN, 1111.1 MPa, with 0.4 % a metre of wobble: 1111.1 (1 - exp(-0.08)) = 85.43 MPa less
# at its far end, 43.57 in the middle. U shortens it by 1111.1 x 0.014625 / 1.014625 = 16.016 MPa. 8000 kN of push make
# 65 / (1 + 2 x 0.014625) = 63.153 MPa. Shrinkage takes 58.5 / (1 + 2 x 0.014625) = 56.838 MPa, all of it after the push.
cat >prism.kline <<'END'
show si
sections gross
concrete mix { strength 40 MPa; modulus 30 GPa; cured 28 day; creep none; shrinkage user { strain 300e-6 } }
prestressing strand { ultimate 1860 MPa; yield 1674 MPa; modulus 195 GPa; relaxation none }
section prism { rectangle width 0.8 m depth 1 m }
node L at (0 m, 0 m)
node R at (20 m, 0 m)
member b from L to R section prism of mix { age 20 day; weightless }
support L fixed
load push { point 8000 kN left at R }
tendon T in b {
    of strand; strands 12 area 150 mm^2; jack start force 2000 kN; bonded grouted
    profile from line { anchor at start height 0 m; anchor at end height 0 m straight }
    friction 0; wobble 0.004 per m; seating 0 mm
}
tendon U like T { wobble 0 per m }
stage pulled at 0 day { place b; stress T U }
stage pushed at 1 day { load push }
stage late at 5000 day
END
kernline table prism.kline losses
kernline table prism.kline losses --stage late --every '10 m' --csv
kernline table prism.kline losses --steps --at '5 m' --csv | cut -d, -f 1-4
kernline table prism.kline losses --day 5000 --at '10 m' --json | grep -E '"(tendon|stress|force)": .*[0-9TU]'
# No creep, no relaxation: by aashto K = 1 / (1 + 2 x 0.014625), as computed. f is 2 x 2000 kN / 0.8 m^2, less friction, plus what
# comes later.
kernline table prism.kline loss_estimates
kernline table prism.kline loss_estimates --stage pulled
exec 2>&1
try() {
    kernline table prism.kline "$@"
    echo "status $?"
}
try losses --by-cause
try losses --at 21m
# In every model that has a tendon, at every step, place and tendon: the stress at the jack less all losses is what is left.
cd "$ROOT" || exit 1
grep -lr --include='*.kline' '^ *tendon' models tests/published tests/checks tests/warnings | while read -r model; do
    kernline table "$model" losses --steps --csv 2>/dev/null
done | sed 's/"[^"]*"/-/g' | awk -F, '
    $1 == "state" { for (i = 1; i <= NF; ++i) { split($i, key, " "); at[key[1]] = i } next }
    {
        left = $at["jack_stress"]
        for (i = at["friction"]; i <= at["relaxation"]; ++i) left -= $i
        off = left - $at["stress"]
        if (off * off > 1e-18 * $at["jack_stress"] ^ 2) print "not balanced:", $0
        ++rows
    }
    END { print (rows > 700 ? "all rows balance" : "too few rows: " rows) }'

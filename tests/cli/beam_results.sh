# A simple beam of 6 m with 12 kN at 2 m: reactions 8 and 4 kN, moment 16 kN-m under the load. In every form.
cat >beam.kline <<'END'
title "Simple beam"
show si
material steel { modulus 200 GPa }
section strip { area 100 cm^2; inertia 10000 cm^4 }
node A at (0 m, 0 m)
node B at (6 m, 0 m)
member beam from A to B section strip of steel
support A pinned
support B roller
load push { point 12 kN on beam at 2 m }
expect moment on beam at 2 m under push = 16 kN-m within 1e-6 % source "P a b / L"
END
kernline run beam.kline
echo "status $?"
kernline table beam.kline reactions
kernline table beam.kline reactions --csv | tr -d '\r'
kernline table beam.kline reactions --json
kernline table beam.kline actions --every '3 m'
sed 's/= 16 kN-m/= 17 kN-m/' beam.kline | kernline run - >missed
echo "status $?"
grep -c MISSED missed

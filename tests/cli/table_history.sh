# A simple beam of 20 m under its own weight, 19.2 kN/m: 5 w L^4 / (384 E I) = 20 mm at once, times 1 + phi later; phi is
# 0.6, 1.2 and 2 after 10, 100 and 1000 days: 32, 44 and 60 mm, to 0.7 % since the creep chain rounds the curve's corners.
# The stresses stay at w L^2 / 8 / (b d^2 / 6) = 7.2 MPa. The share of creep is what comes on top of 20 mm.
cat >beam.kline <<'END'
show si
site { humidity 70 % }
concrete mix {
    strength 40 MPa; unit_weight 24 kN/m^3; modulus 30 GPa; shrinkage none
    creep user { point 10 day phi 0.6; point 100 day phi 1.2; point 1000 day phi 2 }
}
section r { rectangle width 0.8 m depth 1 m; shear rigid }
node L at (0 m, 0 m)
node R at (20 m, 0 m)
member b from L to R section r of mix { age 3 day }
support L pinned
support R roller
stage set  at 0 day { place b }
stage late at 1000 day
END
kernline table beam.kline history 2>/dev/null | grep -v 'on day [0-9]*\.'
kernline table beam.kline history --csv 2>/dev/null | grep -E '^(member|b,10,.*,(set|10|100|1000|after.*),)' | cut -d, -f 2-11
kernline table beam.kline history --cause creep --csv 2>/dev/null | grep -E '^b,10,.*day 100,' | cut -d, -f 2-8
kernline table beam.kline history --stage late --json 2>/dev/null | grep -c '"state": "on day'
# One day and one station: 32 and 44 mm again; a third of the way along, w x (L - x) / 2 / (b d^2 / 6) = 6.4 MPa.
kernline table beam.kline deflections --day 10 --at '10 m' --csv 2>/dev/null | cut -d, -f 1,3,6
kernline table beam.kline deflections --day 100 --at 10m --csv 2>/dev/null | cut -d, -f 1,3,6
kernline table beam.kline deflections --day 1000 --at 10m --csv 2>/dev/null | cut -d, -f 1,3,6
kernline table beam.kline stresses --day 50 --at '20/3 m' --csv 2>/dev/null | cut -d, -f 1,3,6
kernline table beam.kline history --at '20/3 m' --csv 2>/dev/null | grep -c '^b,6.66'
kernline table beam.kline steps --day 50 --csv 2>/dev/null | cut -d, -f 1-3
exec 2>&1
try() {
    kernline table beam.kline "$@"
    echo "status $?"
}
try history --case dead
try history --day 10
try posts --at 1m
try stresses --at 21m
try stresses --at 21m --member b
try stresses --at 2
try stresses --at 2m --every 1m
try stresses --day 1001
try stresses --day -1
try stresses --day "10 day"
try stresses --day nan
try stresses --day 10 --stage set

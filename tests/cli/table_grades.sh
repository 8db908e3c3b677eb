# The table of form grades, its figures by hand: 3 kip/ft on rows 10 ft apart, 30 kip each on 200 kip/in (0.15 in) beside a take-up
# of 1/4 in; stringers of E I = 29000 x 500 kip-in^2 sag by 5 w L^4 / 384 E I = 0.0466 in; the cap, of E I = 1500 x 331776 kip-in^2,
# by 5 w L^4 / 384 E I = 0.3472 in on its 40 ft.
cat >beam.kline <<'END'
material stone { modulus 1500 ksi; unit_weight 250 pcf }
material steel { modulus 29000 ksi }
section cap { rectangle width 3 ft depth 4 ft }
section joist { area 20 in^2; inertia 500 in^4 }
node A at (0 ft, 0 ft)
node B at (40 ft, 0 ft)
member cap from A to B section cap of stone
support A pinned
support B roller
falsework bents under cap from 10 ft to 30 ft every 10 ft { stiffness 200 kip/in; takeup 1/4 in; stringer joist of steel }
stage poured { erect bents; cast cap }
stage clear { release bents }
grade cap { target clear; point 128.40 ft at start; point 128.60 ft at end }
END
kernline table beam.kline grades 2>/dev/null
echo "== as a rule of metres reads, at one station"
sed 's/^material stone/show si\n&/' beam.kline >metric.kline
kernline table metric.kline grades --at "15 ft" --csv 2>/dev/null
echo "== programs"
kernline table beam.kline grades --at "15 ft" --json 2>/dev/null | tail -24
echo "== elevations that nobody has"
sed 's/point 128.40 ft/point 1e300 ft/; s/128.60 ft/-1e300 ft/' beam.kline >far.kline
kernline table far.kline grades --at "15 ft" 2>/dev/null | sed -n 6p
kernline report far.kline -o far.pdf 2>/dev/null
echo "status $?"
echo "== no grade"
sed '/^grade/d' beam.kline >none.kline
kernline table none.kline grades 2>/dev/null
kernline report beam.kline -o beam.html 2>/dev/null
grep -c 'id="sheet-grades"' beam.html
kernline report none.kline -o none.html 2>/dev/null
grep -c 'id="sheet-grades"' none.html || true

# Reading and checking without solving: from a file, from standard input; errors have the place and status 3.
cat >frame.kline <<'END'
show si
material steel { modulus 200 GPa }
section strip { area 100 cm^2; inertia 1e4 cm^4 }
node A at (0 m, 0 m)
node B at (6 m, 0 m)
member beam from A to B section strip of steel
support A pinned
support B roller
load push { point 12 kN on beam at 2 m }
END
kernline validate frame.kline
echo "status $?"
kernline validate - <frame.kline
echo "status $?"
sed 's/12 kN/12 m/' frame.kline >wrong.kline
kernline validate wrong.kline
echo "status $?"
longest=$(printf '%400s' '' | tr ' ' w)
{ echo "title \"$longest\""; grep -v '^title' frame.kline; } | kernline validate - >said 2>&1
echo "400 letters: status $?"
{ echo "title \"w$longest\""; grep -v '^title' frame.kline; } | kernline validate - >said 2>&1
echo "401 letters: status $?"

# What nobody sees in a text, or a screen would obey, is spelled in messages, summary and tables; data keep it.
turn=$'\xE2\x80\xAE' none=$'\xE2\x80\x8B' apart=$'\xE2\x81\xA6'
cat >turned.kline <<END
title "Bent ${turn}21${none} cap"
show si
material steel { modulus 200 GPa; unit_weight 77 kN/m^3 }
section strip { area 100 cm^2; inertia 1e4 cm^4 }
node A at (0 m, 0 m)
node B at (6 m, 0 m)
member beam from A to B section strip of steel { weightless }
support A pinned
support B roller
load push { point 12 kN on beam at 2 m }
expect moment on beam at 2 m under push = 16 kN-m source "P a b / l ${apart}by hand"
END
raw() { LC_ALL=C grep -cP '\xE2(\x80[\x8B\xAE]|\x81\xA6)|\x1B'; }
kernline run turned.kline | sed -n 1,2p
kernline run turned.kline | raw
kernline table turned.kline expectations
kernline table turned.kline expectations --csv | raw
kernline run turned.kline --json | raw
kernline format turned.kline | raw
kernline plot turned.kline frame -o turned.svg
raw <turned.svg
sed "s/node B/node B$turn/" turned.kline >wrong.kline
kernline validate wrong.kline 2>&1 | tee said
raw <said
kernline validate $'no\x1B[31mfile.kline' 2>&1 | tee said
raw <said
kernline plot turned.kline "mo${turn}ment" 2>&1

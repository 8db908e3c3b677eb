# The package: its exit status, what a failed write leaves, a hostile model shown literally, full digits, size, no network.
cap=$ROOT/models/caps/long_skewed_cap.kline
exec 2>&1
report() { # without what is told of work that takes long
    kernline report "$@" 2>&1 | grep -v '^kernline: [0-9] of [0-9]'
    return "${PIPESTATUS[0]}"
}

echo "== a page"
report "$cap" -o cap.html
echo "status $?"
xmllint --noout cap.html && echo "well-formed"
[ "$(wc -c <cap.html)" -lt 3000000 ] && echo "below 3 MB"
grep -c '<section class="sheet"' cap.html
# Nothing is fetched: links lead to sheets, and no address is there but the name space of pictures.
grep -oE '(src|href|url|action)[=(]"?[^" >)]*' cap.html | grep -v '^href="#' | sort -u
grep -oE 'https?:[^" ]*' cap.html | sort -u
grep -c "$(sha256sum <"$cap" | cut -d ' ' -f 1)" cap.html

echo "== twice the same, from a pipe too"
report "$cap" -o again.html && cmp cap.html again.html && echo same
report - -o piped.html <"$cap"
echo "status $?"

echo "== every number in full"
values() { # FILE: the numbers that cells of the page have in full
    grep -o 'data-value="[^"]*"' "$1" | sed 's/data-value="//; s/"$//' | grep . | sort -u
}
numbers() { # of comma-separated values: fields that are numbers
    tr -d '\r' | tr ',' '\n' | grep -E '^-?[0-9][0-9.e+-]*$' | sort -u
}
values cap.html >values
for what in posts losses audit tendons stressing steps; do
    kernline table "$cap" $what --csv 2>/dev/null | numbers | comm -23 - values | sed "s/^/$what: not on the page: /"
done
for what in actions stresses deflections; do
    grep "<table.*data-name=\"$what\"" -A 100000 cap.html | sed '/<\/table>/q' >part
    { kernline table "$cap" $what --steps --csv; kernline table "$cap" $what --csv; } 2>/dev/null | numbers >all
    values part | comm -23 - all | grep -vx 0 | sed "s/^/$what: only on the page: /"
    [ "$(values part | wc -l)" -gt 300 ] && echo "$what compared"
done

echo "== a folder"
report "$cap" -o folder
echo "status $?"
cmp cap.html folder/index.html && echo same
kernline table "$cap" losses --csv 2>/dev/null | cmp - folder/15_losses.csv && echo "same losses"
ls folder | wc -l

echo "== a check that fails"
sed 's/check transfer  stress { members cap;/check transfer stress { members cap; compression 0.1 ksi;/; s/condition transfer; rules aashto 2020; bonded_steel yes/condition transfer/' "$cap" >fails.kline
report fails.kline -o fails.html
echo "status $?"
xmllint --xpath 'string((//section[@id="sheet-cover"]//p)[1])' fails.html
xmllint --xpath 'string((//section[@id="sheet-glance"]//p)[1])' fails.html | cut -c 1-38
xmllint --xpath 'count(//section[@id="sheet-checks"]//tr[@class="fails"])' fails.html

echo "== what somebody wrote into a model"
cat >'a<b>&"'"'"'.kline' <<'END'
title "</title></script><script>alert(1)</script> <b onclick='x'>& ‮evil‬   ]]> -->"
material elastic { modulus 4000 ksi; unit_weight 150 pcf }  # </script><!-- ‮ -->
section r { rectangle width 4 ft depth 5 ft }
node A at (0 ft, 0 ft)
node B at (40 ft, 0 ft)
member cap from A to B section r of elastic
support A pinned
support B roller
stage built "<img src=x onerror=alert(2)>" at 0 day { place cap }
expect moment on cap at mid after built = 600 kip-ft within 1 % source "w L^2 / 8 </td><td data-value='1'> 'quoted'"
END
report 'a<b>&"'"'"'.kline' -o hostile.html
echo "status $?"
xmllint --noout hostile.html && echo "well-formed"
grep -c '<script' hostile.html
grep -cE 'alert\(1\)</script|<img|onclick=.x.>' hostile.html
LC_ALL=C grep -cP '\xE2\x80[\xA8-\xAE]' hostile.html
xmllint --xpath 'string(//h1)' hostile.html
xmllint --xpath 'string(//section[@id="sheet-expectations"]//tbody/tr/td[last()])' hostile.html
xmllint --xpath 'string(//section[@id="sheet-stages"]//dd)' hostile.html

echo "== what cannot be done"
report "$cap"
echo "status $?"
report "$cap" -o nowhere/x.html
echo "status $?"
echo kept >file
report "$cap" -o file
echo "status $?, $(cat file)"
echo 'title "no frame"; nonsense' >bad.kline
echo old >old.html
kernline report bad.kline -o old.html | tail -1
echo "status ${PIPESTATUS[0]}, $(cat old.html)"
report missing.kline -o old.html
echo "status $?, $(cat old.html)"
(trap '' XFSZ; ulimit -f 100; report "$cap" -o old.html)
echo "status $?, $(cat old.html)"
ls old.html*

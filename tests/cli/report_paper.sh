# The package on paper: read back by the tools of poppler, which know nothing of how it was laid out.
cap=$ROOT/models/caps/long_skewed_cap.kline
small=$ROOT/models/frames/sinking_footing.kline
exec 2>&1
report() { # without what is told of work that takes long
    kernline report "$@" 2>told
    local status=$?
    grep -v '^kernline: [0-9] of [0-9]' told
    return $status
}

echo "== pages"
report "$cap" -o cap.pdf
echo "status $?"
pdfinfo cap.pdf | grep -E '^(Title|CreationDate):|Page size'
pages=$(pdfinfo cap.pdf | sed -n 's/^Pages: *//p')
pdftotext -layout cap.pdf cap.txt
for i in $(seq "$pages"); do grep -q "page $i of $pages\$" cap.txt || echo "no page $i of $pages"; done
[ "$(grep -c 'Never stand behind a jack' cap.txt)" -ge "$pages" ] && echo "the caution is on every page"
pdffonts cap.pdf | tail -n +3 | awk '{ print $1, $(NF - 4) }' | sed 's/^[A-Z]*+//' | sort -u

echo "== twice the same"
report "$small" -o once.pdf && report "$small" -o again.pdf && cmp once.pdf again.pdf && echo same

echo "== the outline has every sheet, on its page"
report "$cap" -o cap.html
grep -c '<section class="sheet"' cap.html
pdftohtml -xml -i -stdout cap.pdf >cap.xml
grep -c '<item page' cap.xml
sed -n 's/.*<item page="\([0-9]*\)">\([0-9]*\) \(.*\)<\/item>.*/\1 \2 \3/p' cap.xml | while read -r page number title; do
    pdftotext -f "$page" -l "$page" -layout cap.pdf - | grep -q "  $number  *$title\$" || echo "sheet $number does not begin on page $page"
done

echo "== nothing outside the margins of 45 points, by the widths of the letters themselves"
pdftotext -bbox cap.pdf cap.box
awk -F '"' '/<page/ { width = $2; height = $4 }
    /<word/ { words++; if ($2 < 44 || $6 > width - 44 || $4 < 26 || $8 > height - 24) print }
    END { print (words > 10000 ? "many words" : "few words") }' cap.box

echo "== every figure of the tables is on it"
tr -s ' \n' '\n' <cap.txt | sort -u >words
for what in posts losses tendons stressing audit reactions expectations; do
    kernline table "$cap" $what 2>/dev/null | tr -s ' \n' '\n' | grep -E '^-?[0-9][0-9.e+-]*$' | sort -u >figures
    comm -23 figures words | sed "s/^/$what: not there: /"
    [ "$(wc -l <figures)" -gt 5 ] && echo "$what compared"
done
# From the full digits: the elongations to three decimals, as the table has them.
kernline table "$cap" stressing --csv 2>/dev/null | awk -F , 'NR == 1 { for (i = 1; i <= NF; i++) if ($i ~ /^elongation_at_start/) at = i }
    NR > 1 { printf "%.3f\n", $at }' | sort -u | comm -23 - words

echo "== paper"
report "$small" -o a4.pdf --paper a4 && pdfinfo a4.pdf | grep 'Page size'
report "$small" -o x.pdf --paper foolscap
echo "status $?"
report "$small" -o x.html --paper a4
echo "status $?"
ls x.* 2>/dev/null

echo "== what somebody wrote into a model"
cat >hostile.kline <<'END'
title "</text><script>alert(1)</script> & ‮evil‬ 文"
show si
material elastic { modulus 30 GPa; unit_weight 24 kN/m^3 }  # </svg> ]]> שלום 😀
section body { rectangle width 1 m depth 1 m }
node A at (0 m, 0 m)
node B at (9 m, 0 m)
member beam from A to B section body of elastic
support A pinned
support B roller
stage built "<img src=x onerror=alert(2)>" at 0 day { place beam }
END
report hostile.kline -o hostile.pdf
echo "status $?"
pdfinfo hostile.pdf | grep 'Page size'
pdftotext -layout hostile.pdf - | grep -oE '<img src=x onerror=alert\(2\)>|^ *1 +title "</text><script>alert\(1\)</script> & ' | sort -u

echo "== a failed write"
echo old >old.pdf
(trap '' XFSZ; ulimit -f 50; report "$small" -o old.pdf)
echo "status $?, $(cat old.pdf)"
report "$small" -o nowhere/x.pdf
echo "status $?"
ls old.pdf* nowhere 2>/dev/null

# Half of the time of a PDF went into boxes that cairo finds letter by letter; nothing tells if the answer of our own is not asked for.
echo "== the boxes of outlines are answered by the program itself"
nm -D "$(dirname "$(readlink -f "$(command -v kernline)")")/kernline-pages" | grep -o ' T cairo_fill_extents'

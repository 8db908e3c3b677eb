# Every picture of a staged model as SVG, one as PNG and as PDF, and what is refused leaves no file.
cat >cap.kline <<'END'
title "A <b>cap</b> & more"
show us
material elastic { modulus 4000 ksi; unit_weight 150 pcf }
section r { rectangle width 4 ft depth 5 ft }
node A at (0 ft, 0 ft)
node B at (40 ft, 0 ft)
member cap from A to B section r of elastic
support A pinned
support B roller
load dead { uniform 3 klf on cap }
load point { point 20 kip on cap at 12 ft }
END
for what in frame moment shear axial stresses deflection camber; do
    kernline plot cap.kline $what -o $what.svg 2>&1
    echo "$what: status $?, $(grep -c '<svg' $what.svg) picture, $(grep -c '</svg>' $what.svg) end"
done
kernline plot cap.kline moment --case dead -o dead.svg
grep -o '>600<' dead.svg # 3 klf x (40 ft)^2 / 8 = 600 kip-ft
kernline plot cap.kline moment -o m.png && head -c 4 m.png | tr -d '\211'
echo
kernline plot cap.kline moment -o m.pdf && head -c 5 m.pdf
echo
kernline plot cap.kline moment -o again.pdf && cmp m.pdf again.pdf && echo "twice the same"
pdfinfo m.pdf | grep -E '^(Title|Pages|CreationDate):'
kernline plot cap.kline momant -o x.svg 2>&1
echo "status $?"
kernline plot cap.kline moment 2>&1
echo "status $?"
kernline plot cap.kline moment -o x.jpg 2>&1
echo "status $?"
kernline plot cap.kline moment -o nowhere/x.svg 2>&1
echo "status $?"
ls x.* nowhere 2>/dev/null

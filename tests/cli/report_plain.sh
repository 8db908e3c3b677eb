# The package of a model without stages. By hand: w L^2 / 8 = 50 kip-ft under `dead`, twice that under `live`, and
# 1.2 x 50 + 1.6 x 100 = 220 kip-ft under both with factors: the largest of all is what stands at a glance. Beside a limit
# of 0 there is no ratio: 220 x 12 / (10 x 30^2 / 6) = 1.76 ksi is tension. Of a model in which nothing acts nothing is
# said to be in balance, and no sheet of results is there.
exec 2>&1
cat >nothing.kline <<'END'
title "Plain"
material oak { modulus 1600 ksi }
section plank { rectangle width 10 in depth 30 in }
node A at (0 ft, 0 ft)
node B at (20 ft, 0 ft)
member board from A to B section plank of oak
support A pinned
support B roller
END
cp nothing.kline loaded.kline
cat >>loaded.kline <<'END'
load dead { uniform 1 klf on board }
load live { uniform 2 klf on board }
combination all { factor 1.2 of dead; factor 1.6 of live }
check mine stress { members board; under all; compression 5 ksi; tension 0 ksi }
expect moment on board at mid under all = 221 kip-ft
END
facts() { # FILE: alerts and facts of the cover and of sheet 1
    grep -E '^<p class="alert[^"]*">|^<div><dt>(Equilibrium|Worst|Largest)' "$1" | sed 's/<dt>//; s/<dd>/: /; s/<[^>]*>//g'
}
for model in loaded nothing; do
    kernline report $model.kline -o $model.html
    echo "== $model: status $?"
    facts $model.html
    grep -o '<section class="sheet" id="[^"]*"' $model.html | sed 's/.*id="sheet-//; s/"//' | tr '\n' ' '
    echo
done
# A deflection is across a member that lies: 5 w L^4 / (384 E I) = 0.1 in; the post's middle goes down by P L / (4 E A) = 0.125 in.
cp nothing.kline post.kline
cat >>post.kline <<'END'
node C at (30 ft, -20 ft)
node D at (30 ft, 0 ft)
member post from C to D section plank of oak
support C pinned
support D pinned
load dead { uniform 1 klf on board; point 1000 kip on post at 10 ft }
END
kernline report post.kline -o post.html
echo "== post: status $?"
facts post.html | grep deflection
kernline plot nothing.kline frame_moment -o frame.svg
grep -o 'Moment[^<]*' frame.svg | head -1
kernline report nothing.kline -o package.txt
echo "status $?, $(ls -d package* 2>/dev/null | wc -l) made"

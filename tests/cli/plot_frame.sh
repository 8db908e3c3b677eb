# Pictures of the frame and over time: well-formed whatever names and titles say, compared as numbers, and which options they refuse.
cat >odd.kline <<'END'
title "<svg onload='x'> ]]> & more --> é <![CDATA["
show us
concrete mix { strength 5 ksi; transfer_strength 4 ksi; unit_weight 150 pcf; modulus aashto 2020; creep none; shrinkage none }
section beam { rectangle width 2 ft depth 3 ft }
node A at (0 ft, 0 ft)
node B at (0 ft, 16 ft)
node C at (40 ft, 16 ft)
node D at (40 ft, 0 ft)
member col from A to B section beam of mix { rigid end 1 ft 6 in }
member cap from B to C section beam of mix
member post from D to C section beam of mix
support A fixed
support D fixed
falsework bents under cap from 5 ft to 35 ft every 5 ft { posts 2; stiffness 300 kip/in; capacity 20 kip }
load deck { uniform 2 klf on cap; point 30 kip on cap at 10 ft; moment 50 kip-ft at B clockwise }
load wind { point 12 kip at B right; ramp start 0 klf end 1 klf on col right }
stage columns "A <b>title</b> & more" at 0 day { cast col post }
stage cast_cap at 20 day { erect bents; cast cap }
stage done at 50 day { release bents; load deck }
combination all { factor 1 of deck wind }
stage late at 10000 day { }
END
pictures=$(kernline plot --help | sed -n '/^WHAT/,/^$/s/^  \([a-z_]*\)  .*/\1/p')
count=0
drawn=0
for what in $pictures; do
    kernline plot odd.kline $what -o $what.svg 2>/dev/null
    [ -f $what.svg ] || continue # what the model does not have: tendons, creep
    drawn=$((drawn + 1))
    xmllint --noout $what.svg && count=$((count + 1))
done
[ $count -eq $drawn ] && [ $count -ge 18 ] && echo "each picture is well-formed"
# Quotes apart, so that numbers stand alone.
plain() { grep -v '<style>' "$1" | tr '"' ' '; }
kernline plot odd.kline loads --case wind -o wind.svg 2>/dev/null
plain wind.svg
kernline plot odd.kline posts --stage cast_cap -o posts.svg 2>/dev/null
plain posts.svg
refused() { kernline plot odd.kline "$@" -o x.svg 2>&1 | grep -v warning; }
refused frame --at '3 ft'
refused loads --steps
refused loads --cause weight
refused stages --stage done
refused history --case wind
refused history --at '90 ft'
ls x.svg 2>/dev/null
# A thousand supports side by side: as many symbols as can be told apart, one in two pixels of a page of 900.
{
    echo 'material oak { modulus 1600 ksi }'
    echo 'section plank { rectangle width 10 in depth 3 in }'
    echo 'node n0 at (0 ft, 0 ft)'
    echo 'support n0 pinned'
    for i in $(seq 1 1000); do
        echo "node n$i at ($i ft, 0 ft)"
        echo "member m$i from n$((i - 1)) to n$i section plank of oak"
        echo "support n$i roller"
    done
} >many.kline
kernline plot many.kline frame -o many.svg
symbols=$(grep -o 'class="held"' many.svg | wc -l)
[ "$symbols" -ge 200 ] && [ "$symbols" -le 450 ] && echo "supports that can be told apart"

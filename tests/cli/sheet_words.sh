# What sheet 1 says of secondary actions. A straight tendon of 500 kip 1 ft below the centroid of a simple beam, unrestrained: none,
# at every step. The same on posts of 500 kip/in every foot: the pull bends the beam up against its weight and takes load from the
# posts, which is an action of the prestress as long as they stand; after their release there is none.
for posts in no yes; do
    sed "/falsework\|erect\|release/{$([ $posts = yes ] || echo d)}" >beam.kline <<'END'
title "A simple beam"
sections gross
concrete mix { strength 5 ksi; transfer_strength 4 ksi; unit_weight 150 pcf; modulus 4000 ksi }
prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi }
section r { rectangle width 4 ft depth 5 ft }
node A at (0 ft, 0 ft)
node B at (40 ft, 0 ft)
member beam from A to B section r of mix
support A pinned
support B roller
tendon T in beam {
    of strand; strands 12 area 0.217 in^2; friction 0; wobble 0 per ft; seating 0 in; jack start force 500 kip; bonded grouted
    profile from bottom { anchor at start height 1.5 ft; anchor at end height 1.5 ft straight }
}
falsework f under beam from 1 ft to 39 ft every 1 ft { posts 1; stiffness 500 kip/in }
stage cast at 0 day {
    erect f
    cast beam
}
stage pulled at 14 day { stress T }
stage freed at 20 day { release f }
END
    kernline report beam.kline -o beam.html 2>/dev/null
    echo "== posts: $posts, status $?"
    grep '<dt>[A-Za-z ]*econdary' beam.html | sed 's/<dt>//; s/<dd>/: /; s/<[^>]*>//g'
done
# By hand, with the posts spread to k = 6000 kip/ft per ft under EI = 24e6 kip-ft^2, b = (k / 4 EI)^1/4, c = 20 ft b = 1.7783: a
# beam on an elastic foundation whose ends hold still and are bent by -500 kip-ft. Secondary are 500 (1 - 2 ch c cos c / (ch 2c +
# cos 2c)) in the middle, and at the ends the slope of that course. A foot between the posts makes a thousandth of difference.
cat >told.kline <<END
$(cat beam.kline)
expect max secondary moment on beam after pulled = 537.73 kip-ft within 0.2 % source "beam on elastic foundation"
expect max secondary shear on beam after pulled = 47.907 kip within 0.2 % source "beam on elastic foundation"
END
kernline table told.kline expectations --csv 2>/dev/null
# Only its anchors are loads: their force and, with a lever of 1 ft, the same number of kip-ft. What the summary has of secondary
# actions is an exact 0.
kernline table beam.kline tendon_loads --csv 2>/dev/null | cut -d, -f3-10
kernline run beam.kline | grep -A 6 'secondary actions'
# What a tendon is, in words, on its stressing sheet.
for steel in 'strands 12 area 0.217 in^2' 'bars 1 area 1.58 in^2' 'bars 1 area 1.58 in^2; count 2'; do
    sed "s/strands 12 area 0.217 in^2/$steel/; s/force 500 kip/force 100 kip/" beam.kline >other.kline
    kernline report other.kline -o other.html 2>/dev/null
    grep -o '<dt>Tendon</dt><dd>[^<]*' other.html | sed 's/.*<dd>//'
done

# Posts above their rated load are told where checks that fail are. By hand: wet concrete of 4 ft by 5 ft at 150 pcf is 3 kip/ft;
# a row of two posts inside carries 5 ft of it, 7.5 kip a post, an outer one 3.75 ft, for half of the last 2.5 ft goes to the
# support, 5.625 kip. Of 5 kip rated that is 1.5 and 1.125; of 7.8 kip 0.962, near it; of 8 kip 0.938, and nothing is to be said.
# Warnings come in the order of danger, whatever their order in the text: posts first, then what is doubtful (falsework that no
# stage erects), the section that nothing uses last.
cat >posts.kline <<'END'
title "On posts"
concrete mix { strength 5 ksi; unit_weight 150 pcf; modulus 4000 ksi }
section idle { rectangle width 1 ft depth 1 ft }
section r { rectangle width 4 ft depth 5 ft }
node A at (0 ft, 0 ft)
node B at (20 ft, 0 ft)
member cap from A to B section r of mix
support A pinned
support B roller
falsework spare under cap from 10 ft to 10 ft every 1 ft { posts 1; stiffness 400 kip/in }
falsework f under cap from 2.5 ft to 17.5 ft every 5 ft { posts 2; stiffness 400 kip/in; capacity RATED kip }
stage bare at 0 day { erect f; cast cap }
stage freed at 7 day { release f }
check mine stress { members cap; from freed to freed; compression 5 ksi; tension 5 ksi }
END
facts() { # FILE: alerts and facts of the cover and of sheet 1
    grep -E '^<p class="alert[^"]*">|^<div><dt>(Rows of posts|Largest force in a post)' "$1" | sed 's/<dt>//; s/<dd>/: /; s/<[^>]*>//g' | grep -i posts
}
for rated in 5 7.8 8; do
    sed "s/RATED/$rated/" posts.kline >rated.kline
    kernline run rated.kline >summary
    echo "== rated $rated kip: status $?"
    grep -E '^(Checks|Posts|Warnings) |\[[a-z-]*\]$' summary
    kernline report rated.kline -o rated.html
    facts rated.html
done
sed 's/RATED/5/' posts.kline >rated.kline
kernline run rated.kline --json | tr -d '\n ' | grep -oE '"(rated_rows|rows_over|worst_post_share)":[0-9.]+'
# The sheet of posts begins with rows by steps: a star is above the rated load.
kernline report rated.kline -o folder
grep -o '<table[^>]*data-name="posts[^"]*"' folder/index.html
cat folder/10_posts_by_step.csv

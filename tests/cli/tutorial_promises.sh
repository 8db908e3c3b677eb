# What docs/tutorial.md says that the program answers, on its own models changed by a word or two.
awk '/^```kline/ { f = "model" ++n ".kline"; next } /^```/ { f = "" } f != "" { print > f }' "$ROOT/docs/tutorial.md"
told() { grep -A2 -E '\[[a-z-]+\]$' | sed 's/^[^[]*\[/[/'; }

echo "== a force where a length belongs"
sed 's/depth 5 ft/depth 5 kip/' model1.kline | kernline validate - 2>&1
echo "== an answer that is off"
sed 's/= 60 kip/= 61 kip/' model1.kline >off.kline
kernline run off.kline >off.txt
echo "status $?"
grep MISSED off.txt
echo "== weight asks for a unit weight"
sed 's/^load dead.*/&\nload own { weight }/' model1.kline >own.kline
kernline validate own.kline 2>&1
sed 's/modulus 3600 ksi/& ; unit_weight 150 pcf/' own.kline | kernline validate - 2>&1
for loss in friction wobble seating; do
    echo "== no $loss"
    grep -v "^ *$loss" model2.kline | kernline run - | told
done
echo "== 0 is a statement"
kernline run model2.kline | told
echo "== what the field is told with ram, reference and grip"
# By hand: 400 kip / 60 in^2; 400 kip less E A 1/4 in / 40 ft = 38.6 kip; each jack moves P 40 ft / (E A) = 2.59 in
# and the 0.194 in of the 3 ft of grip, 0.8 of it between the readings.
sed 's/seating  0 in/seating 1\/4 in; ram 60 in^2; reference 20 %; grip 3 ft/' model2.kline |
    kernline table - stressing --csv 2>/dev/null | cut -d , -f 5,9,15,17

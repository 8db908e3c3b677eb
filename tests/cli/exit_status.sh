# Every exit status the help promises, drawn once.
exec 2>/dev/null
beam='material oak { modulus 1600 ksi }
section plank { rectangle width 10 in depth 3 in }
node A at (0 ft, 0 ft)
node B at (6 ft, 0 ft)
member board from A to B section plank of oak
load child { point 80 lb at B }'
run() { printf '%s\n' "$beam" "$@" | kernline run - >/dev/null; echo "$?"; }

echo "all well: $(run 'support A fixed' 'expect reaction y at A under child = 80 lb')"
echo "an answer is off: $(run 'support A fixed' 'expect reaction y at A under child = 81 lb')"
kernline run; echo "no model named: $?"
kernline fly away; echo "no such command: $?"
echo "a word is unknown: $(run 'support A fixxed')"
echo "it can turn: $(run 'support A pinned')"
kernline run nowhere.kline; echo "no such file: $?"
kernline run . ; echo "a folder: $?"

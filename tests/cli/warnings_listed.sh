# Every warning that the sources can give is told by `kernline words warnings`, and no other.
kernline words warnings | awk '$1 ~ /^[a-z]+(-[a-z]+)*$/ && NF > 2 { print $1 }' | sort -u >listed
[ "$(wc -l <listed)" -gt 20 ] || echo "the list is short"
find "$ROOT/solver" "$ROOT/frontends/text" -name '*.c' -exec cat {} + | tr '\n' ' ' >sources
grep -oE 'KL_WARNING, *"[a-z-]+"' sources | grep -oE '"[a-z-]+"' | tr -d '"' | sort -u >given
comm -13 listed given | sed 's/^/not listed: /'
while read -r name; do
    grep -qF "\"$name\"" sources || echo "never given: $name"
done <listed

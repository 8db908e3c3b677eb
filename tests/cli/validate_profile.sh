# A profile that cannot be drawn is refused by `validate` already, not only by `run`.
for model in "$ROOT"/tests/cli/bad/profile_*.kline; do
    kernline validate "$model" >/dev/null 2>&1
    [ $? -eq 3 ] || echo "validate passes $(basename "$model")"
done
echo "looked at profiles: $(ls "$ROOT"/tests/cli/bad/profile_*.kline | awk 'END { print (NR > 5) ? "several" : "too few" }')"

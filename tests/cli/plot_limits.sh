# Limits speak of whole stresses: beside stages a load case is a part of them, so it is not drawn with them unless asked for, and then alone.
cap=$ROOT/models/caps/long_skewed_cap.kline
kernline plot "$cap" stresses -o whole.svg 2>/dev/null
grep -c 'class="limit"' whole.svg | awk '{ print ($1 > 0 ? "limits" : "no limits") }'
grep -o 'under [a-z]*<' whole.svg | sort -u
kernline plot "$cap" stresses --case lanes -o part.svg 2>/dev/null
grep -c 'class="limit"' part.svg
grep -o 'under [a-z]*<' part.svg | sort -u

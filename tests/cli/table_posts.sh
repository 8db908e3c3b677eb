# Wet concrete on rows 7.5 ft apart at 12 klf: 90 kip a row; none once the beam hangs from its tendon.
kernline table "$ROOT/tests/published/falsework_unloading_cast.kline" posts --stage poured --csv | cut -d, -f1-5 | grep -v erect
kernline table "$ROOT/tests/published/falsework_unloading_cast.kline" posts --stage fifteen --csv | cut -d, -f1-5 | tail -n 3

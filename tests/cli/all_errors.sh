# Mistakes that the reader finds and mistakes that only references show come in one run, in the order of the text;
# what follows from another mistake is not told.
cat >wrong.kline <<'END'
material oak { modulus 1600 ksi }
material pine { modulus 1600 kips }
section plank { rectangle width 10 in depth 3 in }
node A at (0 ft, 0 ft)
node B at (20 ft, 0 ft)
member lower from A to B section plank of oka
member upper from A to B section plank of pine
node M on upper at 3 ft
suport A fixed
load snow { uniform 40 plf on uper }
load man { point 180 on upper at M }
combination all { factor 1.0 of snow man }
expect moment on upper at mid under all = 0 kip-ft within 1 kip-ft
END
kernline validate wrong.kline
echo "status $?"

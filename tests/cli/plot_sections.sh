# Pictures of sections, tendons and concrete; long names and a title that wants to be markup; what is refused leaves no file.
long=$(printf 'a%.0s' $(seq 60))
cat >tendon.kline <<END
title "</svg><script>1</script>"
show us
site { humidity 70 % }
concrete mix { strength 6 ksi; unit_weight 150 pcf; modulus aashto 2020; creep aashto 2020; shrinkage aashto 2020 }
prestressing strand { ultimate 270 ksi; yield 243 ksi; modulus 28500 ksi; relaxation none }
section $long { rectangle width 4 ft depth 5 ft }
node A at (0 ft, 0 ft)
node B at (40 ft, 0 ft)
member m_$long from A to B section $long of mix
support A pinned
support B roller
tendon t_$long in m_$long {
    of strand; strands 12 area 0.217 in^2
    profile from bottom { anchor at start height 2 ft; low at mid height 9 in; anchor at end height 2 ft }
    friction 0.2; wobble 0.0002 per ft; seating 0.25 in; jack start ratio 0.75; duct 4 in; bonded grouted
}
stage set at 0 day { place m_$long }
stage pull at 7 day { stress t_$long }
END
for what in sections section_stress tendons tendon_force strength creep shrinkage; do
    kernline plot tendon.kline $what -o $what.svg 2>&1
    echo "$what: status $?, $(grep -c '<svg' $what.svg) picture, $(grep -c '</svg>' $what.svg) end, $(grep -c '<script' $what.svg) script"
done
kernline plot tendon.kline sections --at '10 ft' -o at.svg 2>/dev/null && grep -o ">m_$long at 10 ft: section $long<" at.svg | cut -c 60-90
kernline plot tendon.kline tendons --tendon t_$long -o one.svg 2>/dev/null && grep -o 'least cover 7 in' one.svg
kernline plot tendon.kline tendons --tendon none -o x.svg 2>&1
echo "status $?"
kernline plot tendon.kline tendons --at '10 ft' -o x.svg 2>&1
echo "status $?"
kernline plot tendon.kline moment --tendon t_$long -o x.svg 2>&1
echo "status $?"
kernline plot tendon.kline creep --stage pull -o x.svg 2>&1
echo "status $?"
sed '/^tendon/,/^}/d; /^stage pull/d; s/; creep aashto 2020; shrinkage aashto 2020//' tendon.kline >plain.kline
kernline plot plain.kline tendon_force -o x.svg 2>&1
echo "status $?"
kernline plot plain.kline creep -o x.svg 2>&1
echo "status $?"
ls x.svg 2>/dev/null

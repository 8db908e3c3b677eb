# What is wrong with a command line is said in words, with status 2, and nothing goes to standard output.
try() {
    kernline "$@" >out
    echo "status $? for: kernline $*"
    cat out
}
exec 2>&1
try
try runn model.kline
try run
try run a.kline b.kline
try run --stage s a.kline
try table a.kline
try table a.kline posst
try table a.kline posts --stagee s
try table a.kline posts --csv --json
try table a.kline posts --stage
try words widht
try format - --write
try table a.kline tendons --stage s
try table a.kline audit --by-cause
# What a table has nothing of: a case that posts are gone by, and a combination, which is of no step.
cat >bents.kline <<'END'
concrete mix { strength 6 ksi; modulus 4000 ksi; unit_weight 150 pcf }
section s { rectangle width 3 ft depth 5 ft }
node A at (0 ft, 0 ft)
node B at (60 ft, 0 ft)
member b from A to B section s of mix
support A pinned
support B roller
falsework f under b from 2 ft to 58 ft every 4 ft { posts 2; stiffness 400 kip/in; capacity 50 kip }
load live { point 10 kip on b at mid }
stage one { erect f; cast b }
stage two { release f from 2 ft to 26 ft; release f from 34 ft to 58 ft; release f }
combination service { factor 1 of weight live }
END
try table bents.kline posts --case live
try table bents.kline posts --combination service
try table bents.kline losses --combination service
try table bents.kline steps --combination service

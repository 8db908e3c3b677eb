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

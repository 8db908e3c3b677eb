# Malformed models run through the program: the exit status of each kind, a message, and not one number on the way.
try() { # STATUS FILE…: what does not end so is told
    local want=$1 file got
    shift
    for file in "$@"; do
        timeout 20 kernline run "$ROOT/tests/cli/bad/$file" >out 2>err
        got=$?
        [ "$got" -eq "$want" ] || echo "$file: status $got, not $want"
        [ ! -s out ] || echo "$file: something is printed"
        grep -qE '^[^ ].*: error: .' err || echo "$file: no error is told"
    done
    echo "$want: $# models"
}

all=$(cd "$ROOT/tests/cli/bad" && ls -- *.kline)
# Of the expected message hangs the status; everything else is an error in the model.
analysis=$(cd "$ROOT/tests/cli/bad" && grep -lE '^# expect: (mechanism|no-contact|arithmetic|piece-too-short)$' -- *.kline)
[ "$(wc -w <<<"$analysis")" -ge 6 ] || echo "there are few models that cannot be analysed"
model=$(comm -23 <(sort <<<"$all") <(sort <<<"$analysis"))
[ "$(wc -w <<<"$model")" -gt 200 ] || echo "there are few malformed models"
# shellcheck disable=SC2086
{
    try 4 $analysis | sed 's/[0-9]* models/all of them/'
    try 3 $model | sed 's/[0-9]* models/all of them/'
}

# The same whichever command meets the model. What can move is found by the analysis only.
loose=$ROOT/tests/cli/bad/frame_mechanism.kline
wrong=$ROOT/tests/cli/bad/model_no_unit_weight.kline
say() { # WHAT COMMAND…
    local what=$1
    shift
    kernline "$@" >out 2>/dev/null
    echo "$what: $?, $([ -s out ] && echo 'something is printed' || echo 'nothing is printed')"
}
say "table of a frame that moves" table "$loose" ends
say "validate, a frame that moves" validate "$loose"
say "table of a wrong model" table "$wrong" ends
say "json of a wrong model" run --json "$wrong"
say "validate, a wrong model" validate "$wrong"
say "no such file" run no/such/folder/model.kline
say "two models" run "$loose" "$wrong"
say "no such table" table "$loose" no_such_table

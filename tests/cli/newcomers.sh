# What those write who do not know the language yet: each message ends with what they would have written had they known it.
try() {
    cat >tried.kline <<END
material oak { modulus 1600 ksi }
section root { rectangle width 1 ft depth 2 ft }
section tip { rectangle width 1 ft depth 1 ft }
node A at (0 ft, 0 ft)
node B at (30 ft, 0 ft)
node C at (60 ft, 0 ft)
member rafter from B to C section root of oak
$1
END
    kernline validate tried.kline 2>&1 | grep -E 'error:|hint:'
}
try 'member b from A to B section root to tip of oak'
try 'member b from A to B of oak { section root to tip }'
try 'load snow { uniform 1 klf on rafter horizontal }'
try 'load snow { uniform 1 klf horizontal on rafter }'
try 'load snow { uniform 1 klf on rafter downward }'
# only words that the phrase goes on with are hinted at
try 'load spin { moment 1 kip-ft on rafter clockwiss at mid }'
try 'load heat { warm 10 degF on rafter horizontal }'
try 'stage set { place rafter horizontal }'
try 'stage set { place rafter lvel }'
try 'section bare { area 20 in^2; inertia 1000 in^4; depth 12 in }'
try 'load sinking { settle B 10 mm down }'
try 'load wind { uniform rafter 1 klf }'
try 'load sinking { settlement 10 mm at B down }'
try 'concrete mix { strength 5 ksi; creep { phi 2 } }'
try 'concrete mix { strength 5 ksi; shrinkage 300e-6 }'
try 'material pine { E 1600 ksi; selfweight 35 pcf }'
try 'section bare { A 20 in^2; I 1000 in^4 }'
try 'load own { selfweight }'
try 'selfweight'
try 'node D 90 ft 0 ft'
# one distance that is not given is one mistake, however many ask for it
try 'section bare { area 20 in^2; inertia 1000 in^4 }
member b from A to B section bare of oak
support A fixed
load q { uniform 1 klf on b }
expect stress top on b at mid under q = 1 ksi
expect stress top on b at end under q = 1 ksi'
for word in settlement hinges E A I selfweight horizontal xylophone; do
    kernline words "$word" 2>&1
done
true

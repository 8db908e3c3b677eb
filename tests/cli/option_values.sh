# What is wrong with the value of an option: the message names the option, shows the value, says what was expected; status 2 (a file
# that cannot be written: 5).
cat >staged.kline <<'END'
show si
material steel { modulus 200 GPa; unit_weight 77 kN/m^3 }
section strip { area 100 cm^2; inertia 1e4 cm^4 }
node A at (0 m, 0 m)
node B at (6 m, 0 m)
member beam from A to B section strip of steel
support A pinned
support B roller
load push { point 12 kN on beam at 2 m }
load later { point 10 kN on beam at 3 m }
stage set at 0 day { place beam }
stage used at 10 day { load push }
END
sed '/^stage/d' staged.kline >plain.kline
wrong() { # OPTION VALUE ARGUMENTS…
    local option=$1 value=$2
    shift 2
    kernline "$@" "$option" "$value" >out 2>said
    echo "status $? $(cat said)"
    [ ! -s out ] || echo "something was printed"
    grep -qF -e "\`$option" said && grep -qF -e "${value:-''}" said || echo "the option or its value is not named"
}
for value in '1e-9 m' '0 m' '-1 m' '2' 'far' ''; do wrong --every "$value" table staged.kline actions; done
for value in '7 m' 'end' '6'; do wrong --at "$value" table staged.kline actions; done
wrong --at '7 m' table staged.kline actions --member beam
for value in 11 -1 soon inf; do wrong --day "$value" table staged.kline actions; done
wrong --day 3 table plain.kline actions
wrong --stage usd table staged.kline actions
wrong --stage '' table staged.kline actions
wrong --stage x table plain.kline actions
wrong --case push table staged.kline actions
wrong --case girders table staged.kline actions
wrong --combination all table staged.kline actions
wrong --cause wind table staged.kline actions
wrong --cause weigth table staged.kline actions
wrong --member cap table staged.kline actions
wrong --tendon T1 plot staged.kline tendons -o t.svg
wrong -o t.bmp plot staged.kline frame
wrong -o '' plot staged.kline frame
wrong -o nowhere/t.svg plot staged.kline frame
wrong -o t.txt report staged.kline
wrong -o nowhere/t report staged.kline
wrong --paper a3 report staged.kline -o t.pdf
wrong --paper a4 report staged.kline -o t.html
kernline table staged.kline actions --csv=3 2>&1
ls

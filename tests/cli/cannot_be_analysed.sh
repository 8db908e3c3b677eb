# A frame that can move: status 4, and the message names what moves. Warnings are told there, as no summary tells them.
cat >loose.kline <<'END'
show si
material steel { modulus 200 GPa }
section strip { area 100 cm^2; inertia 10000 cm^4 }
section spare { area 100 cm^2; inertia 10000 cm^4 }
node A at (0 m, 0 m)
node B at (6 m, 0 m)
member beam from A to B section strip of steel
support A roller
support B roller
load push { point 12 kN on beam at 2 m }
END
kernline run loose.kline
echo "status $?"
kernline table loose.kline ends
echo "status $?"

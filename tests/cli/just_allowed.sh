# What stands just on this side of an error: a grade of a member at 45 degrees, and a factor on a case that was unloaded and is on again.
cat >slope.kline <<'END'
material oak { modulus 30 GPa; unit_weight 25 kN/m^3 }
section r { rectangle width 1 m depth 2 m }
node A at (0 m, 0 m)
node B at (12 m, 12 m)
member ramp from A to B section r of oak
support A pinned
support B roller
stage placed { place ramp }
grade ramp { target placed; point 10 m at 0 m; point 22 m at end }
END
kernline validate slope.kline
cat >again.kline <<'END'
material oak { modulus 30 GPa; unit_weight 25 kN/m^3 }
section r { rectangle width 1 m depth 2 m }
node A at (0 m, 0 m)
node B at (12 m, 0 m)
member beam from A to B section r of oak
support A pinned
support B roller
load lanes { uniform 20 kN/m on beam }
stage placed { place beam; load lanes }
stage quiet { unload lanes }
stage opened { load lanes }
combination service { factor 1.0 of weight; factor 1.5 of lanes }
# 50 and 20 kN/m: (50 + 1.5 x 20) 12^2 / 8
expect max moment on beam under service = 1440 kN-m within 1e-6 %
END
kernline table again.kline expectations --csv | cut -d, -f5,7,14

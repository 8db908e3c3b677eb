# The summary of a beam whose every number is known by hand: w L / 2 = 150 kN, w L^2 / 8 = 450 kN-m, 5 w L^4 / 384 E I = 2.8125 mm.
kernline run "$ROOT/tests/published/simple_beam_uniform.kline"

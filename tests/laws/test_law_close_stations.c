/* test_law_close_stations.c - two stations that nearly coincide cut a sliver of an element, and cost no digits.
 *
 * Two spans with far ends built in, one loaded at mid-span: the near fixed-end moment is P L / 8 and a quarter of it
 * more by carry-over of the joint's half (slope deflection), shears follow by statics.
 * SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "readings.h"

static void sliver_between_two_stations_changes_nothing(void **state)
{
    (void)state;
    static const double gap[] = {0.3, 0.02, 1e-3, 2e-4}; /* m of 20 */
    const double span = 20.0;
    const double load = 1000e3;
    for (size_t i = 0; i < sizeof gap / sizeof gap[0]; i++) {
        char text[1000];
        snprintf(text, sizeof text,
                 "show si\nmaterial stone { modulus 30 GPa }\nsection plain { rectangle width 1 m "
                 "depth 2 m }\n"
                 "node A at (0 m, 0 m); node B at (20 m, 0 m); node C at (40 m, 0 m)\n"
                 "member near from A to B section plain of stone\n"
                 "member far from B to C section plain of stone\n"
                 "support A fixed; support C fixed; support B y fixed\n"
                 "load crowd { point 1000 kN on near at 10 m; point 0 kN on near at %.17g m }\n",
                 10.0 + gap[i]);
        solved m;
        solved_run(&m, text, NULL);
        const kl_state crowd = solved_under(&m, "crowd");
        const double at_a = -load * span / 8.0 * 5.0 / 4.0;
        const double at_b = -load * span / 8.0 / 2.0;
        const double left_shear = load / 2.0 + (at_b - at_a) / span;
        assert_close(solved_part(&m, crowd, KL_TOTAL, KL_MOMENT, "near", 0.0), at_a, 1e-10, 0.0);
        assert_close(solved_part(&m, crowd, KL_TOTAL, KL_MOMENT, "near", 10.0),
                     at_a + left_shear * 10.0, 1e-10, 0.0);
        assert_close(solved_part(&m, crowd, KL_TOTAL, KL_SHEAR, "near", 5.0), left_shear, 1e-10,
                     0.0);
        assert_close(solved_part(&m, crowd, KL_TOTAL, KL_SHEAR, "near", 10.0 + gap[i] / 2.0),
                     left_shear - load, 1e-10, 0.0);
        assert_close(solved_part(&m, crowd, KL_TOTAL, KL_MOMENT, "far", 0.0), at_b, 1e-10, 0.0);
        solved_close(&m);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sliver_between_two_stations_changes_nothing)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}

/* Measures against the conversion factors of NIST Special Publication 811 (2008), appendix B. */
#include "base/measure.h"

#include "support/near.h"

#include <string.h>

#define share(got, want, relative) assert_near((got), (want), (relative)*fabs(want))

static void feet_go_with_the_factors_of_sp_811(void **state)
{
	(void)state;
	share(sb_measure_si(UNIT_FT, MEASURE_FORCE, 1), 4.448222, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_TORQUE, 1), 1.355818, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_FLOW, 1), 6.309020e-5, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_PRESSURE, 1), 6894.757, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_STRESS, 1), 6894.757, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_VOLUME, 1), 3.785412e-3, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_SIZE, 1), 0.0254, 1e-12);
	share(sb_measure_si(UNIT_FT, MEASURE_DENSITY, 1), 119.8264, 1e-6);
	/* a pound-force by cubic foot: the pound by cubic foot, 16.01846 kg/m3, in standard gravity */
	share(sb_measure_si(UNIT_FT, MEASURE_UNIT_WEIGHT, 1), 16.01846 * 9.80665, 1e-6);
	/* 47.88026 Pa is a pound-force by square foot */
	share(sb_measure_si(UNIT_FT, MEASURE_YIELD_POINT, 100), 47.88026, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_VISCOSITY, 1), 1e-3, 1e-12); /* the centipoise */
	share(sb_measure_si(UNIT_FT, MEASURE_GRADIENT, 1), 6894.757 / 0.3048, 1e-6);
	share(sb_measure_si(UNIT_FT, MEASURE_SPEED, 1), 0.3048, 1e-12);
	share(sb_measure_si(UNIT_FT, MEASURE_VOLUME_BY_LENGTH, 1), 3.785412e-3 / 0.3048, 1e-6);
}

static void metres_go_with_si_and_its_prefixes(void **state)
{
	(void)state;
	share(sb_measure_si(UNIT_M, MEASURE_FORCE, 2.5), 2500.0, 1e-12);
	share(sb_measure_si(UNIT_M, MEASURE_FLOW, 600), 0.01, 1e-12);
	share(sb_measure_si(UNIT_M, MEASURE_STRESS, 235), 235e6, 1e-12);
	share(sb_measure_si(UNIT_M, MEASURE_SIZE, 315), 0.315, 1e-12);
	share(sb_measure_si(UNIT_M, MEASURE_DENSITY, 1080), 1080.0, 1e-12);
}

static void what_is_turned_is_turned_back_and_has_a_unit(void **state)
{
	(void)state;
	for (int u = UNIT_M; u <= UNIT_FTUS; u++)
		for (int m = 0; m < MEASURES; m++) {
			double si = sb_measure_si((enum unit)u, (enum measure)m, 12.5);
			share(sb_measure_typed((enum unit)u, (enum measure)m, si), 12.5, 1e-12);
			assert_true(strlen(sb_measure_unit((enum unit)u, (enum measure)m)) > 0);
		}
	assert_string_equal(sb_measure_unit(UNIT_FTUS, MEASURE_PRESSURE), "psi");
	assert_string_equal(sb_measure_unit(UNIT_M, MEASURE_PRESSURE), "kPa");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(feet_go_with_the_factors_of_sp_811),
		cmocka_unit_test(metres_go_with_si_and_its_prefixes),
		cmocka_unit_test(what_is_turned_is_turned_back_and_has_a_unit),
	};

	return run_tests(tests);
}

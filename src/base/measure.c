/* The table of measures. The pound, the foot, the inch and the US gallon are exact by definition (NIST SP
 * 811, appendix B); the rest follows from them and from standard gravity. */
#include "base/measure.h"

#define POUND 0.45359237      /* kg */
#define GRAVITY 9.80665	      /* m/s2 */
#define FOOT 0.3048	      /* m */
#define INCH 0.0254	      /* m */
#define GALLON 3.785411784e-3 /* m3 */
#define LBF (POUND * GRAVITY)
#define PSI (LBF / (INCH * INCH))

static const struct {
	const char *metre, *foot; /* how it is written beside metres, beside feet */
	double by_metre, by_foot; /* SI in one of them */
} measures[MEASURES] = {
	[MEASURE_FORCE] = { "kN", "lbf", 1e3, LBF },
	[MEASURE_TORQUE] = { "kN m", "ft lbf", 1e3, FOOT *LBF },
	[MEASURE_FLOW] = { "L/min", "gal/min", 1e-3 / 60, GALLON / 60 },
	[MEASURE_PRESSURE] = { "kPa", "psi", 1e3, PSI },
	[MEASURE_STRESS] = { "MPa", "psi", 1e6, PSI },
	[MEASURE_VOLUME] = { "m3", "gal", 1, GALLON },
	[MEASURE_SIZE] = { "mm", "in", 1e-3, INCH },
	[MEASURE_DENSITY] = { "kg/m3", "lb/gal", 1, POUND / GALLON },
	[MEASURE_UNIT_WEIGHT] = { "kN/m3", "lb/ft3", 1e3, LBF / (FOOT * FOOT * FOOT) },
	[MEASURE_YIELD_POINT] = { "Pa", "lb/100 ft2", 1, LBF / (100 * FOOT * FOOT) },
	[MEASURE_VISCOSITY] = { "mPa s", "mPa s", 1e-3, 1e-3 },
	[MEASURE_GRADIENT] = { "kPa/m", "psi/ft", 1e3, PSI / FOOT },
	[MEASURE_SPEED] = { "m/s", "ft/s", 1, FOOT },
	[MEASURE_VOLUME_BY_LENGTH] = { "m3/m", "gal/ft", 1, GALLON / FOOT },
};

static double factor(enum unit u, enum measure m)
{
	return u == UNIT_M ? measures[m].by_metre : measures[m].by_foot;
}

double sb_measure_si(enum unit u, enum measure m, double typed)
{
	return typed * factor(u, m);
}

double sb_measure_typed(enum unit u, enum measure m, double si)
{
	return si / factor(u, m);
}

const char *sb_measure_unit(enum unit u, enum measure m)
{
	return u == UNIT_M ? measures[m].metre : measures[m].foot;
}

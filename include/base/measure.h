/* Measures of the trade that are not lengths: forces, torques, flows, pressures, weights, sizes. One table
 * says which unit a job of metres and a job of feet writes each in, and turns it into SI and back.
 */
#ifndef SB_BASE_MEASURE_H
#define SB_BASE_MEASURE_H

#include "base/unit.h"

enum measure {
	MEASURE_FORCE,		  /* kN, lbf; SI: N */
	MEASURE_TORQUE,		  /* kN m, ft lbf; N m */
	MEASURE_FLOW,		  /* L/min, gal/min (US); m3/s */
	MEASURE_PRESSURE,	  /* kPa, psi; Pa */
	MEASURE_STRESS,		  /* MPa, psi; Pa */
	MEASURE_VOLUME,		  /* m3, gal (US); m3 */
	MEASURE_SIZE,		  /* mm, in; m: diameters and walls */
	MEASURE_DENSITY,	  /* kg/m3, lb/gal; kg/m3: of fluids */
	MEASURE_UNIT_WEIGHT,	  /* kN/m3, lb/ft3; N/m3: of soil */
	MEASURE_YIELD_POINT,	  /* Pa, lb/100 ft2; Pa */
	MEASURE_VISCOSITY,	  /* mPa s; Pa s */
	MEASURE_GRADIENT,	  /* kPa/m, psi/ft; Pa/m */
	MEASURE_SPEED,		  /* m/s, ft/s; m/s */
	MEASURE_VOLUME_BY_LENGTH, /* m3/m, gal/ft; m2 */
	MEASURES
};

/* Of the job's unit of length: international and US survey feet write the rest alike. */
double sb_measure_si(enum unit u, enum measure m, double typed);
double sb_measure_typed(enum unit u, enum measure m, double si);
const char *sb_measure_unit(enum unit u, enum measure m); /* "kPa", "psi" */

#endif

/* Between the files of the explanations: what a figure is worked out from, and how its lines are put.
 */
#ifndef SB_SRC_IO_EXPLAIN_PARTS_H
#define SB_SRC_IO_EXPLAIN_PARTS_H

#include "base/measure.h"
#include "io/explain.h"

struct explaining {
	const struct job *job;	  /* what was said; of EXPLAIN_OF_END: up to that joint */
	const struct solution *s; /* solved from it */
	const struct row **trail; /* the joints in the ground when row was drilled, 0 to row */
	size_t trail_count;
	double *bit_depth_m;	 /* of each, from the lengths of the joints as typed */
	const struct row *row;	 /* of the last; the entry's when nothing was drilled */
	const struct reading *r; /* behind it; NULL at the entry */
	struct frame then;	 /* in which that was understood */
	int fix;		 /* of EXPLAIN_OF_FIX: index of the job's fix */
	struct explanation *out;
};

/* How a value is shown: in the job's unit, degrees, as it is, degrees per unit of length, percent; and any
 * measure of the trade (base/measure.h), given in SI. */
enum explain_as {
	AS_LENGTH,
	AS_ANGLE,
	AS_NUMBER,
	AS_RATE,
	AS_PERCENT,
	AS_MEASURE,
	AS_FORCE = AS_MEASURE + MEASURE_FORCE,
	AS_FLOW = AS_MEASURE + MEASURE_FLOW,
	AS_PRESSURE = AS_MEASURE + MEASURE_PRESSURE,
	AS_STRESS = AS_MEASURE + MEASURE_STRESS,
	AS_SIZE = AS_MEASURE + MEASURE_SIZE,
	AS_DENSITY = AS_MEASURE + MEASURE_DENSITY,
	AS_UNIT_WEIGHT = AS_MEASURE + MEASURE_UNIT_WEIGHT,
	AS_YIELD_POINT = AS_MEASURE + MEASURE_YIELD_POINT,
	AS_VISCOSITY = AS_MEASURE + MEASURE_VISCOSITY,
	AS_GRADIENT = AS_MEASURE + MEASURE_GRADIENT,
	AS_SPEED = AS_MEASURE + MEASURE_SPEED,
};

/* ---- explain_lines.c ---- */

#define EXPLAIN_PRINTF(a, b) __attribute__((format(printf, a, b)))

/* value in metres, radians, as it is, radians per metre, 0..1 */
void explain_input(struct explaining *x, const char *symbol, enum explain_as as, double value,
	const char *words, ...) EXPLAIN_PRINTF(5, 6);
/* As typed, with its unit behind it. */
void explain_typed(struct explaining *x, const char *symbol, const struct number *n, const char *unit,
	const char *words, ...) EXPLAIN_PRINTF(5, 6);
/* A choice of the sheet: no number. */
void explain_choice(struct explaining *x, const char *symbol, const char *value, const char *words, ...)
	EXPLAIN_PRINTF(4, 5);
void explain_step(struct explaining *x, const char *symbol, enum explain_as as, double value,
	const char *words, ...) EXPLAIN_PRINTF(5, 6);
/* The figure, worked out; kept: what the program shows. They must be the same to the last digit shown. */
void explain_result(struct explaining *x, const char *name, enum explain_as as, double value, double kept,
	const char *words, ...) EXPLAIN_PRINTF(6, 7);
/* The figure is what somebody typed, and stands in files as it was typed. */
void explain_as_typed(struct explaining *x, const char *name, const struct number *n, const char *words, ...)
	EXPLAIN_PRINTF(4, 5);
/* The figure by a second way, that is not the same arithmetic: within a millionth. */
void explain_check(struct explaining *x, enum explain_as as, double second, double first, const char *words,
	...) EXPLAIN_PRINTF(5, 6);
void explain_words(struct explaining *x, enum explain_kind kind, const char *words, ...) EXPLAIN_PRINTF(3, 4);

/* A value as it is shown. */
#define EXPLAIN_VALUE 64
const char *explain_value(
	const struct explaining *x, enum explain_as as, double value, char text[EXPLAIN_VALUE]);

/* "joint 12, reading 14, by Ida, 25 Nov 12:00 +00:00" */
#define EXPLAIN_WHERE 200
const char *explain_reading(const struct row *row, const struct reading *r, char text[EXPLAIN_WHERE]);
/* "[tool] sensor_to_bit, job sheet", or since which joint and by whom */
const char *explain_key(
	const struct explaining *x, const char *section, const char *key, char text[EXPLAIN_WHERE]);

/* ---- explain_trail.c: worked out again from the readings ---- */

/* The joints that were in the ground when joint `joint` of leg `leg` was drilled (leg 0: that are in it now),
 * up to that one. Returned: x's trail, row, reading and frame; explain_trail_clear when done. -1 with err. */
int explain_trail(struct explaining *x, int leg, int joint, struct sb_err *err);
void explain_trail_clear(struct explaining *x);

/* The index in the trail of the last row on the path before i; SIZE_MAX if none. */
size_t explain_before(const struct explaining *x, size_t i);
/* The attitude of a row on the path, from what was typed. */
struct attitude explain_attitude(const struct explaining *x, size_t i);
/* The frame in which the reading of a row was understood. */
struct frame explain_frame(const struct explaining *x, size_t i);
/* The measured depth of the sensor, from the lengths of the joints. */
double explain_survey_depth(const struct explaining *x, size_t i);

/* The course that ends at a row on the path past the entry. */
struct explain_course {
	size_t from, to;
	struct attitude start, end;
	double length_m, dogleg_rad;
	struct arc arc;
	double stretch;		 /* of an adjustment */
	struct vec3 shift, step; /* by slides, where they are the record; in all */
	bool borrowed;		 /* the entry was not staked: it starts as it ends */
};
struct explain_course explain_course(const struct explaining *x, size_t to);

/* Where a row on the path is: from the entry, course by course. */
struct vec3 explain_place(const struct explaining *x, size_t i);

/* Angles and length of the contract's window that ends at a row.
 * next_m: of a joint that is still to come, which takes its part of the window; 0: none. */
struct explain_window {
	int joints;
	double length_m, sum_rad, ends_rad;
	struct attitude from, to;
	size_t first; /* the row at the end of its first course */
	bool inside;  /* it begins inside that course */
	bool full;    /* false: too few courses yet, and nothing else is said */
};
struct explain_window explain_window(const struct explaining *x, size_t to, double next_m);

/* ---- explain_doubt.c: how sure a place is, from the readings ---- */

/* The running sums at the last row of the trail that is on the path, by a model of errors. */
struct uncert explain_sums(const struct explaining *x, const struct uncert_model *model);

/* The directions beside the design line: along it, to its right, and up at one and the same station. */
struct explain_beside {
	struct vec3 along, right, up;
};
struct explain_beside explain_beside(const struct explaining *x, double station_m);

/* The covariance of a place with these sums: by the sheet's terms, or as the fixes behind a correction in
 * force know better. of: the row that it is at or carried on from; reading: of that row, 0 when carried on.
 */
struct sym3 explain_covariance(const struct explaining *x, const struct row *of, int64_t reading, double md_m,
	const struct uncert *at);
struct doubt explain_doubt(const struct sym3 *c, const struct explain_beside *b);

/* What a spread and a corridor come to: inputs, sides, chance and bounds. Returned: the chance. */
double explain_outside(struct explaining *x, const struct deviation *off, const struct doubt *d, double kept);

/* ---- the bore's end ---- */

/* The last row on the path, as an index of the trail; the heading that is held from there. False when there
 * is none yet: nothing read, nothing staked. */
bool explain_held(const struct explaining *x, size_t *from, struct attitude *held);

/* Where the bit is, from there: straight on, and along the last curve. */
struct explain_bit {
	size_t from;
	bool known, bends;
	double gap_m, apart_m;
	struct attitude held, attitude;
	struct arc arc; /* of the last course, when it bends */
	struct vec3 sensor, at;
	struct deviation deviation;
};
struct explain_bit explain_bit_place(const struct explaining *x);

/* The corridor at a station, put as inputs. */
struct corridor_limits explain_limits(struct explaining *x, double station_m);

/* The solution that the program had when the row was its last: its own, in out, when that is not the present
 * one. -1 with err. */
struct explain_then {
	struct job job;
	size_t *ground;
	struct solution solution;
};
int explain_as_of(
	const struct job *job, const struct explaining *x, struct explain_then *out, struct sb_err *err);
void explain_as_of_clear(struct explain_then *t);

/* The radius of the hole that is judged, put as an input. */
void explain_hole(struct explaining *x);

/* ---- the figures ---- */

typedef void explain_fn(struct explaining *x);
explain_fn explain_depth, explain_inclination, explain_azimuth, explain_northing, explain_easting,
	explain_elevation, explain_dogleg, explain_radius_joint, explain_radius_window, explain_budget,
	explain_station, explain_offset, explain_height, explain_share, explain_clearance, explain_cover,
	explain_clearance_ahead, explain_cover_ahead, explain_give, explain_chance, explain_bit,
	explain_bit_give, explain_leaves, explain_exit, explain_slide_turn, explain_drift, explain_face_error,
	explain_next_joint, explain_withdraw, explain_misclosure, explain_adjustment, explain_declination,
	explain_convergence, explain_scale, explain_field_gate, explain_shift, explain_final_hole,
	explain_bending, explain_pull, explain_pipe_share, explain_cuttings, explain_annular,
	explain_formation;

#endif

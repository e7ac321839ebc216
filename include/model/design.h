/* The design line: horizontal alignment and vertical profile, in ground metres from the entry.
 *
 * Station is horizontal distance along the alignment from the entry.
 */
#ifndef SB_MODEL_DESIGN_H
#define SB_MODEL_DESIGN_H

#include "geom/chain.h"
#include "model/frame.h"

struct design {
	struct chain_part *alignment; /* x north, y east */
	size_t alignment_count;
	struct chain_part *profile; /* x station, y elevation */
	size_t profile_count;
	double length_m; /* of the alignment: the station of the exit */
	double exit_elevation_m;
	double tightest_m; /* smallest combined radius of curves, HUGE_VAL if none */
	double tightest_station_m;
};

/* A place on the design line. */
struct design_place {
	double station_m;
	struct vec3 at;	     /* n, e ground metres from the entry, u elevation */
	struct vec3 heading; /* unit */
	double inc_rad, azi_rad;
	double radius_m; /* horizontal and vertical curve combined; HUGE_VAL straight */
};

/* Builds the line and says everything that is wrong or doubtful with it (problems name the sheet's
 * files). 0 when it can be used, -1 when problems->errors grew. */
int sb_design_build(
	const struct job *job, const struct frame *f, struct design *out, struct sb_problems *problems);
void sb_design_clear(struct design *d);

struct design_place sb_design_at(const struct design *d, double station_m);

/* The station of a place, from its foot on the alignment; below 0 or past the length beyond the ends. near_m:
 * the one to prefer where two feet are equally near. offset_m: to the right of the line; may be NULL. */
double sb_design_station(const struct design *d, struct vec3 at, double near_m, double *offset_m);

/* The original ground or river bed at a station, elevation in metres; false when not known there. */
bool sb_design_ground(const struct job *job, const struct frame *f, double station_m, double *elevation_m);

#endif

/* The product pipe in this hole: the force that draws it in, and what it bears at every station, on what was
 * drilled or on the design. An estimate, for the engineer to verify: published models disagree by more than
 * their digits, so each figure comes with what it would be with other friction, fluid and drag.
 *
 * The pipe enters at the bore's exit and comes out at its entry, at the rig. Forces are those at the pull
 * head; what drill pipe and reamer take between it and the rig is not in them.
 */
#ifndef SB_MODEL_PIPE_LOAD_H
#define SB_MODEL_PIPE_LOAD_H

#include "base/measure.h"
#include "geom/pipe.h"
#include "geom/pull.h"
#include "model/bore_line.h"

enum load_degree { DEGREE_LOW, DEGREE_GIVEN, DEGREE_HIGH, LOAD_DEGREES };
/* What is varied, one at a time. */
enum load_vary { VARY_FRICTION, VARY_FLUID, VARY_DRAG, VARY_ROLLERS, LOAD_VARIES };
extern const char *const sb_load_vary_words[]; /* "friction in the hole" */

/* What it rests on, of the sheet, SI. NAN: the sheet does not say. */
struct load_given {
	bool steel;
	struct pipe_section section;
	double yield_pa, poisson, ovality, pull_stress_pa, minimum_radius_m;
	double hole_m;					    /* final diameter */
	double friction[LOAD_DEGREES], fluid[LOAD_DEGREES]; /* kg/m3 */
	double drag_pa[LOAD_DEGREES]; /* steel: on the surface; polyethylene: hydrokinetic */
	double rollers[LOAD_DEGREES]; /* friction outside the hole */
	double level_m;		      /* elevation of the fluid in the hole */
	bool water;		      /* in the pipe, to water_to_m (HUGE_VAL: full) */
	double water_to_m;
	double string_m; /* whole length */
	double safe_n;	 /* the contract's; NAN: none */
	double watch;	 /* share from which it is a watch, 0..1 */
};

/* A station between two stretches of the line, from the entry (the rig) on. */
struct load_station {
	double md_m, station_m;
	struct vec3 at;
	int joint; /* of the stretch before it; of the first, after it; 0 of the design */
	bool projected;
	double force_n;	       /* at the pull head when it is here, all the rest as given */
	double low_n, high_n;  /* the band: see sb_pipe_load_make */
	double weight_n_m;     /* of the pipe in the hole here, down positive */
	double radius_joint_m; /* of its joint, as the path has it; of the design the tighter beside it */
	double radius_m; /* tighter beside it over the contract's window, of the design of its curve: goes
			    into the checks. HUGE_VAL straight */
	double bending_joint_pa, bending_pa;
	double pressure_pa;	   /* outside over inside; negative: inside presses more */
	double buckles_pa;	   /* polyethylene: outside pressure that it bears; NAN for steel */
	double ratio[PIPE_CHECKS]; /* NAN: cannot be judged. Steel: as in geom/pipe.h. Polyethylene: tension
				      over pull_stress; minimum radius over radius; pressure over buckling;
				      tension and bending over pull_stress; CHECK_ALL is NAN */
};
extern const char *const sb_pipe_check_words[]; /* "tension", "bending", ... by enum pipe_check */

/* A leg of the pull: stations[first] (nearer to the rig) to stations[last]. */
struct load_leg {
	size_t first, last;
	struct pull_leg leg;
	double radius_m;
};

struct pipe_load {
	struct bore_line line;
	struct load_given given;
	struct load_station *stations;
	size_t count;
	struct load_leg *legs; /* in the order of the pull: from the exit to the entry */
	size_t leg_count;
	size_t most, highest;	   /* stations with the largest force, and the highest top of the band */
	size_t worst[PIPE_CHECKS]; /* station where each ratio is largest; SIZE_MAX: none */
	double vary_n[LOAD_VARIES][LOAD_DEGREES]; /* largest force, one thing varied */
	double turn_rad;			  /* of all legs */
	bool runs; /* somewhere it would run in by its own weight: the force was held at 0 */
	enum f1962_status f1962_status; /* polyethylene: of the shape idealised from the line's ends */
	struct f1962 f1962;
	struct f1962_forces f1962_forces;
	double hydrokinetic_n; /* polyethylene: in force_n everywhere; 0 for steel */
};

/* What is varied: low, as given and high, SI, and what it is measured in; MEASURES: a plain number. */
const double *sb_load_varied(const struct load_given *g, enum load_vary what, enum measure *in);

/* What the sheet gives. -1 with err (SB_STATE): which key of which section is missing or cannot be. */
int sb_load_given(const struct clearance_ask *ask, struct load_given *out, struct sb_err *err);

/* Given:    ask      of sb_solution_clearance
 *           design   on the design line instead of what was drilled
 * Returned: out (cleared first; sb_pipe_load_clear when done); -1 with err as sb_load_given.
 * Notes:    of what was drilled, legs are the fewest runs within the room of the hole (geom/runs.h); of the
 *           design, its tangents and curves. Low and high: the deviations that friction, fluid, drag and
 *           rollers each bring alone, added as squares. The string outside shortens as it goes in. */
int sb_pipe_load_make(
	const struct clearance_ask *ask, bool design, struct pipe_load *out, struct sb_err *err);
void sb_pipe_load_clear(struct pipe_load *load);

/* The force at the pull head when it is at a depth from the entry, and its band; between stations in
 * proportion. False outside the bore. low, high may be NULL. */
bool sb_pipe_load_at(
	const struct pipe_load *load, double md_m, double *force_n, double *low_n, double *high_n);

/* The station nearest to a depth. */
size_t sb_pipe_load_find(const struct pipe_load *load, double md_m);

/* Pressure, bending and ratios of a station from its place, its radii and its force: another force than its
 * own is checked on a copy. */
void sb_pipe_load_check(const struct load_given *g, struct load_station *s);

/* The assumptions, a sentence each; NULL at the end. */
const char *const *sb_pipe_load_assumptions(const struct load_given *g);

#endif

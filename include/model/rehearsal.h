/* Drilling by simulation: a bore whose truth is known, for training and for measuring the steering.
 *
 * The truth: zones of ground with their own yield, droop and walk that change along the bore; a tool-face
 * error; pushes of uneven length within a joint; random wander; a sensor behind the bit that reads with noise
 * and bias, worse near steel. Seeded and repeatable: the same seed, ground and orders give the same readings
 * on every machine.
 */
#ifndef SB_MODEL_REHEARSAL_H
#define SB_MODEL_REHEARSAL_H

#include "model/solve.h"

/* What kind of ground and tool; every figure is a mean that the seed scatters around. */
struct rehearsal_ground {
	double yield_share;	 /* of the sheet's slide_turn; 1: as guessed, 0.6: weak */
	double yield_scatter;	 /* one sigma from zone to zone, as a share */
	double zone_length_m;	 /* mean length of a zone */
	double droop, walk;	 /* rad per m rotated: droop turns down, walk right */
	double drift_scatter;	 /* rad per m, one sigma from zone to zone */
	double face_error_rad;	 /* the hole turns this far clockwise of the tool face that was shown */
	double face_scatter_rad; /* one sigma, joint to joint */
	double wander;		 /* rad per root m, one sigma */
	int pushes; /* a slide is made in so many pushes: 1: all at the joint's start; many: even; 0: anywhere
		     */
	double noise_inc_rad, noise_azi_rad; /* of a reading */
	double bias_inc_rad, bias_azi_rad;
	/* Azimuths are pulled beside steel, by this much right beside it: where, as a share of the design's
	 * length, and how far along the line to either side; reach 0: none. */
	double steel_at, steel_reach_m, steel_azi_rad;
};

/* Nominal, face-error, weak-soil, noisy, azimuth-bias: what the steering is measured in. And steel-nearby,
 * for training: no compass steers by itself past steel, a person has to see it and hold the azimuth. */
struct rehearsal_scenario {
	const char *name, *help;
	struct rehearsal_ground ground;
};
extern const struct rehearsal_scenario sb_rehearsal_scenarios[];
extern const size_t sb_rehearsal_scenario_count, sb_rehearsal_measured_count;
const struct rehearsal_scenario *sb_rehearsal_scenario(const char *name);

struct rehearsal; /* one bore being drilled: the truth */

/* vary: shifts the ground's figures at random too (soil, push pattern, noise), so that nothing is tuned to
 * one simulator. */
struct rehearsal *sb_rehearsal_new(const struct job *job, const struct rehearsal_ground *ground,
	unsigned long long seed, bool vary, struct sb_err *err);
void sb_rehearsal_free(struct rehearsal *r);

/* Drills one joint with an order (tool face as the tool shows it, radians; slid_m 0: rotated) and takes the
 * reading that the sensor gives: inclination and azimuth as typed (one decimal), joint length, tool face and
 * slid filled in. */
void sb_rehearsal_drill(
	struct rehearsal *r, double length_m, double tool_face_rad, double slid_m, struct reading *out);
/* Pulls the truth back too. */
void sb_rehearsal_withdraw(struct rehearsal *r, int to_joint);

/* How well a fix sees, one sigma: along and across in metres; in height as a share of the depth under the
 * ground between entry and exit, but never better than so many metres. */
struct fix_accuracy {
	double level_m, up_m, up_of_depth;
};

/* A surface coil at the place of the last reading: where the hole truly is, give or take that, with the
 * numbers typed as a job has them. */
void sb_rehearsal_fix(const struct rehearsal *r, const struct fix_accuracy *accuracy, struct fix *out);

/* The ground's true mean response, for a reference that is told it. */
void sb_rehearsal_true_response(const struct rehearsal *r, struct response *out);

/* Measured on the TRUE path. */
struct rehearsal_figures {
	int joints;
	bool out;	      /* came out at the exit's elevation, or passed its station */
	double outside_share; /* of the length, outside the corridor */
	double worst_share;   /* of the corridor */
	double inside_from;   /* share of the length from which on it stayed inside; 0 when it never left, 1
				 when   it ended outside */
	double exit_long_m, exit_right_m, exit_high_m;
	bool exit_in_window;
	int windows, broken_windows; /* window bend limit, on true headings at the survey depths */
	double slid_share;
	double turning_rad; /* total of |turn|, from survey depth to survey depth */
	bool clean;	    /* never outside, exit in its window, no broken window */
};
void sb_rehearsal_measure(const struct rehearsal *r, struct rehearsal_figures *out);

/* The truth of a job that is a rehearsal (job->rehearsal): drilled again from its seed by the orders in its
 * log, so that it stands where the log ends. NULL with err when the job is none, or names ground that there
 * is not. */
struct rehearsal *sb_rehearsal_of(const struct job *job, struct sb_err *err);

/* Makes a sheet's job a rehearsal: its name says so from then on, wherever it is shown. */
int sb_rehearsal_mark(struct job *job, const struct rehearsal_scenario *ground, int seed, struct sb_err *err);

/* Who gives the orders: the program's advice; the simple rule; the plan told the ground's true mean response;
 * the plan told that and where the bit truly is and heads, which nobody at a rig can know: what is left to
 * chance even then. */
enum rehearsal_by { BY_ADVICE, BY_AIM, BY_INFORMED, BY_SEEING };

/* Drills a whole bore. The job (a sheet's, without a log) is filled with the readings as it goes; solution is
 * solved along.
 */
int sb_rehearsal_run(struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by,
	struct rehearsal_figures *out, struct sb_err *err);

/* The same with one fix of that accuracy once half of the design is behind the bit, and the correction that
 * it proposes taken. */
int sb_rehearsal_run_fixed(struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by,
	const struct fix_accuracy *accuracy, struct rehearsal_figures *out, struct sb_err *err);

#endif

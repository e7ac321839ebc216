/* Opening the hole: the passes of reamers and swabs as they stand, what they cut and what is left of them,
 * and the rules of the contract and the trade that they keep or do not.
 *
 * A pass goes through the joints of the pilot one by one, in the direction that it was begun with. What is
 * struck out counts for nothing. Lengths are the joints' as they were logged; volumes are of ground in place,
 * before it swells in the fluid.
 */
#ifndef SB_MODEL_OPENING_H
#define SB_MODEL_OPENING_H

#include "model/clock.h"
#include "model/surroundings.h"
#include "model/warning.h"

/* ---- sizes ---- */

/* What the final hole has to be, metres. Source of the preset least: HDD good practice guidelines (read
 * second-hand), the lesser of 1.5 times the pipe's outside diameter and 12 inches (300 mm) over it. */
struct opening_size {
	double least_m;
	double most_m;	 /* HUGE_VAL: the contract sets none */
	bool contract;	 /* least_m is the sheet's own final_least */
	double pipe_m;	 /* outside diameter of the product pipe, bare */
	double coated_m; /* with its coating */
	double pilot_m;	 /* 0: the sheet does not say */
};
struct opening_size sb_opening_size(const struct job *job);

/* A diameter as it is typed, in metres; 0 where it is not given. */
double sb_opening_metres(const struct job *job, const struct number *size);

/* ---- the passes ---- */

/* Of the numbers that were typed with a pass's joints, in their own units. */
enum opening_value {
	OPENING_PULL,
	OPENING_TORQUE,
	OPENING_FLOW,
	OPENING_PRESSURE,
	OPENING_ANNULAR,
	OPENING_VALUES
};
struct opening_span {
	int count; /* 0: none was typed */
	double low, high, mean;
};
const struct number *sb_opening_value(const struct pass_joint *j, enum opening_value value);
/* "pull", "torque" ... and the unit that this job types it in: "kN", "ft lbf". */
const char *sb_opening_value_name(enum opening_value value);
const char *sb_opening_value_unit(const struct job *job, enum opening_value value);

/* How long a joint takes. Where the sheet says a rate, by that; else as measured in this pass, or in those of
 * its kind before it, once three joints were timed: best by the middle one, likely by the mean, which counts
 * the stops. */
enum pace_source { PACE_UNKNOWN, PACE_SHEET, PACE_MEASURED };
struct opening_pace {
	enum pace_source source;
	double joint_min; /* NAN unknown */
	double left_min;  /* for the joints that are left; NAN unknown */
};
#define SB_OPENING_LEAST 3

struct opening_pass {
	const struct pass *pass;    /* borrowed from the job */
	const struct pass_end *end; /* NULL: it runs */
	int number;		    /* as in the job file */
	double diameter_m;
	int done, left; /* joints of the bore that it went through, and not */
	int next;	/* the joint that comes next in its direction; 0: none is left */
	double done_m, left_m;
	double cut_m3, cut_left_m3;	/* NAN: the hole before it is not known */
	double fluid_m3, fluid_left_m3; /* asked for by fluid_ratio; NAN likewise */
	double pumped_m3;		/* flow times minutes, of the joints that have both */
	int pumped;			/* how many those are */
	struct opening_span values[OPENING_VALUES];
	int timed;		      /* joints whose whole minutes are known */
	double middle_min, whole_min; /* of them; NAN and 0: none */
	struct opening_pace best, likely;
};

/* One entry of a pass. */
struct opening_joint {
	const struct pass_joint *entry; /* borrowed from the job */
	size_t pass;			/* index in the list of passes */
	struct clock_minutes minutes;
	double length_m;
	double before_m; /* the hole before; 0: not known */
	double cut_m3;	 /* NAN likewise */
	bool again;	 /* the pass had been through it */
};

/* What of the rules is not kept, as it stands. */
struct opening_fault {
	enum level level;
	int pass;	/* number; 0: of the whole */
	char text[256]; /* what, and what to do */
};
#define SB_OPENING_FAULTS 24

struct opening {
	struct opening_pass *list; /* those that count, in the order of time */
	size_t count;
	const struct opening_pass *running; /* in list; NULL: none */
	struct opening_joint *joints;	    /* their entries, in the order of time */
	size_t joint_count;
	int bore_joints;
	double bore_m;
	double *hole_m; /* at joint 1, 2 ... bore_joints (0 is not used): its diameter now; 0 not known */
	double cut_m3, fluid_m3, pumped_m3; /* sums; the first two NAN where one is not known */
	struct opening_size size;
	struct opening_fault faults[SB_OPENING_FAULTS]; /* worst first, of a level the newest first; the last
							   ones are left off */
	size_t fault_count;
};

void sb_opening_take(const struct job *job, struct opening *out); /* sb_opening_clear when done */
void sb_opening_clear(struct opening *o);

/* How long a whole pass of the kind through the bore would take, by the rates of the sheet or as measured;
 * what is not in it: rigging, changing tools, tripping. left_min is of all joints. */
void sb_opening_whole(const struct opening *o, const struct job *job, enum pass_kind kind,
	struct opening_pace *best, struct opening_pace *likely);

/* What the sheet's final_diameter has against the contract's; "" nothing. */
void sb_opening_sheet(const struct job *job, char text[256]);

/* ---- what may be entered: -1 with a sentence ---- */

/* No pass begins before the pilot is accepted, while another runs, or when the pull has begun. */
int sb_opening_check_pass(const struct job *job, struct sb_err *err);
/* A joint that is not the next one, or was entered before, needs a reason. */
int sb_opening_check_joint(
	const struct job *job, const struct pass_joint *j, const char *why, struct sb_err *err);
/* A pass that leaves joints behind needs a reason. */
int sb_opening_check_end(
	const struct job *job, const struct pass_end *e, const char *why, struct sb_err *err);

/* ---- the spine ---- */

/* How the opening stood at an act of a pass or the pull, when the bore had so many joints and what came later
 * is left out: the worst of the rules that were not kept. value: how many are not kept at that level; limit
 * 0. joint: where it was. */
void sb_opening_judge(
	const struct job *job, const struct act *act, int bore_joints, struct verdict *out, int *joint);

#endif

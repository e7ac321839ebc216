/* The job: what people and instruments said. Facts only, as given, in the unit given; everything else is
 * solved from here (model/solve.h).
 *
 * Owned by the store while a job file is open (borrowed by everybody else, const); sheets build one of
 * their own. sb_job_clear frees what it holds.
 */
#ifndef SB_MODEL_JOB_H
#define SB_MODEL_JOB_H

#include "base/err.h"
#include "base/unit.h"
#include "model/reading.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define SB_NAME_TEXT 128

enum reference { REFERENCE_GRID, REFERENCE_TRUE, REFERENCE_MAGNETIC, REFERENCE_BORE };
enum material { MATERIAL_STEEL, MATERIAL_PE };
enum bend_method { METHOD_ENDS, METHOD_SUM };
enum projection { PROJECTION_HOLD, PROJECTION_CURVE };
enum face_as { FACE_CLOCK, FACE_DEGREES };
enum course_by { COURSE_BY_ARC, COURSE_BY_SLIDES };
enum demand { ASKED_YES, ASKED_NO };
enum contents { CONTENTS_EMPTY, CONTENTS_WATER };
enum judge { JUDGE_MEAN, JUDGE_CONFIDENCE };

struct place {
	struct number easting, northing, elevation;
};

/* Rows of the sheet's tables. `line` is the line of its file while a sheet is read, else 0. */
struct profile_pi {
	struct number station, elevation, radius;
	int line;
};
struct alignment_pi {
	struct number easting, northing, radius;
	int line;
};
struct corridor_range {
	struct number from, to, up, down, left, right, cover;
	int line;
};
struct ground_point {
	struct number station, elevation;
	int line;
};
struct obstacle_point {
	char name[SB_NAME_TEXT], kind[SB_NAME_TEXT];
	struct number easting, northing, elevation, diameter, clearance;
	int line;
};
struct tally_joint {
	int joint;
	struct number length;
	int line;
};
struct soil_layer {
	struct number from, to, top;
	char name[SB_NAME_TEXT];
	struct number unit_weight, cohesion, friction, shear_modulus, ground_water;
	int line;
};

struct checklist_point {
	char point[SB_NAME_TEXT];
	int line;
};

struct leg {
	int number;   /* from 1 */
	int to_joint; /* the last joint left in the ground when it began; 0 for leg 1 */
	int64_t act;
	int64_t at_ms;
	char who[SB_WHO_TEXT], reason[SB_REMARK_TEXT];
};

enum act_kind {
	ACT_NEW,
	ACT_LOG,
	ACT_CORRECT,
	ACT_WITHDRAW,
	ACT_NOTE,
	ACT_ACKNOWLEDGE,
	ACT_SHIFT_BEGIN,
	ACT_SHIFT_END,
	ACT_CHANGE,	 /* of the azimuth reference or the tool */
	ACT_REPEAT,	 /* a reading taken again */
	ACT_FIX,	 /* an independent position */
	ACT_FIX_USE,	 /* a fix is set aside, or used again */
	ACT_ADJUST,	 /* a correction proposed by the fixes is taken */
	ACT_ADJUST_BACK, /* and taken back */
	ACT_ACCEPT,	 /* a breach is accepted by the engineer */
	ACT_ACCEPT_BACK, /* and is open again */
	ACT_TICK,	 /* a point of the contract's checklist is done */
	ACT_TICK_BACK,	 /* and is not */
	ACT_SIGN,	 /* the pilot is accepted: it is closed */
	ACT_REOPEN,	 /* and open again */
	ACT_RETURNS,	 /* what the drilling fluid did: returns, a loss, a release to the surface */
	ACT_PASS,	 /* a pass of a reamer or a swab begins */
	ACT_PASS_JOINT,	 /* it went through a joint */
	ACT_PASS_END,	 /* it is through */
	ACT_PIPE,	 /* a joint of the pipe string is laid out */
	ACT_PIPE_RECORD, /* a weld, an inspection, a coating test, a pressure test, the drag section */
	ACT_PULL,	 /* the pull of the product pipe begins */
	ACT_PULL_JOINT,	 /* one more joint of drill pipe is out */
	ACT_PULL_END,	 /* the pipe is through */
	ACT_STRIKE,	 /* one of these entries is struck out */
};

/* One act of one person: the journal's line. */
struct act {
	int64_t id;
	enum act_kind kind;
	int64_t at_ms;
	int offset_min;	 /* of local time at the time */
	int leg, joint;	 /* where the bore was, or what it is about */
	int64_t subject; /* reading, of log and correct; 0 else */
	char who[SB_WHO_TEXT];
	char text[SB_REMARK_TEXT * 2]; /* reason, note, names and remarks of a shift */
};

struct acknowledgement {
	int64_t act;
	char kind[32];	/* warning kind by name */
	int leg, joint; /* where its episode began when it was acknowledged */
	int to_joint;	/* where it had come to */
	int level;	/* what it was: enum level */
	int64_t at_ms;
	char who[SB_WHO_TEXT], reason[SB_REMARK_TEXT];
};

/* What every fact beside the joints' readings carries: the act that it came with. */
struct fact {
	int64_t id, act, at_ms;
	int leg, joint;					  /* where the bore was */
	char who[SB_WHO_TEXT], words[SB_REMARK_TEXT * 2]; /* what was done, and why */
};

/* A setting of [azimuth], [tool] or [steering] that changed: another tool, another declination, the choice
 * between two ways to the azimuth. It holds for what is logged after it, and for the joints in the ground
 * from from_joint on; earlier rows keep theirs. from_joint past the last joint: for nothing in the ground. */
struct change {
	struct fact fact;
	char section[24], key[32], value[SB_NAME_TEXT];
	int from_joint;
};

/* A reading taken again at a place where one was taken, or on the way out. It never moves the path. */
enum repeat_way { WAY_AGAIN, WAY_OUT };
struct repeat {
	struct fact fact;
	enum repeat_way way;
	struct number depth; /* of the sensor along the hole, job unit */
	struct number inclination, azimuth, tool_face;
	struct number total_gravity, total_field, dip;
};

/* A position that does not come from the readings. What is not given was not observed; each that is has its
 * one sigma. By easting and northing, or by station and offset. */
enum fix_kind { FIX_COIL, FIX_BEACON, FIX_WALK_OVER, FIX_GYRO, FIX_EXIT };
struct fix {
	struct fact fact;
	enum fix_kind kind;
	struct number depth; /* along the hole of the point that it fixes, job unit */
	struct number easting, northing, station, offset, elevation;
	struct number sigma_along, sigma_across, sigma_up; /* job unit */
	bool used;					   /* false: set aside by an act */
};
struct fix_use {
	struct fact fact;
	int fix;  /* its id */
	int used; /* 0, 1 */
};

/* A correction of the path that somebody took, or took back. Added to every reading: degrees up, degrees
 * clockwise; lengths grow by stretch (0.001: a thousandth). */
struct adjustment {
	struct fact fact;
	int taken; /* 0: taken back, and there is none */
	struct number inclination, azimuth, stretch;
	char fixes[SB_NAME_TEXT]; /* the ids that it rests on, "1 2 5" */
};

/* What the engineer said of a breach: accepted as it stood then, or no longer. It is known by kind and by the
 * leg and joint where it began; the last word on it holds, unless it has grown since. */
struct disposition {
	struct fact fact;
	char kind[32];
	int from_leg, from_joint;
	struct number value; /* the worst that it was, as in struct warning */
	int accepted;	     /* 0: taken back */
	char reference[SB_NAME_TEXT];
};

/* A point of the contract's checklist, by its number from 1: done, or taken back. The last word holds. */
struct ticked {
	struct fact fact;
	int point;
	int done;
	char reference[SB_NAME_TEXT];
};

/* The pilot was accepted, or opened again. The last one holds. The statement is the act's words. */
struct acceptance {
	struct fact fact;
	int accepted;
	char capacity[SB_NAME_TEXT]; /* in which who signed: "engineer of the owner" */
};

/* ---- what comes beside and after the pilot ----
 *
 * Any of these can be struck out by a later act. What is struck out stays readable, and counts for nothing.
 * Forces are kN or lbf, torque kN m or ft lbf, flow L/min or gal/min, pressure kPa or psi, volumes m3 or gal,
 * diameters mm or inches; times are local, hh:mm. */

enum fluid_event_kind { FLUID_FULL, FLUID_PARTIAL, FLUID_NONE, FLUID_LOSS, FLUID_RELEASE, FLUID_RECORD };

/* What the drilling fluid did. A release came to the surface; a record adds what was missing of one: the last
 * text given of each column holds. */
struct fluid_event {
	struct fact fact;
	enum fluid_event_kind kind;
	struct number station; /* job unit; not given: at the bit or the tool */
	struct number volume;
	char place[SB_NAME_TEXT];     /* where it came up */
	char receiving[SB_NAME_TEXT]; /* what it ran into: land, wetland, water */
	char told[SB_NAME_TEXT];      /* who was told, and when */
	char done[SB_NAME_TEXT];      /* how it was contained and cleaned up */
	int of;			      /* of a record: the number of its release; 0 else */
	bool struck;
};

/* A pass of a tool through the whole hole. Its number is fact.id. */
enum pass_kind { PASS_REAM, PASS_SWAB };
enum pass_way { PASS_TO_ENTRY, PASS_TO_EXIT };
struct pass {
	struct fact fact;
	enum pass_kind kind;
	enum pass_way to;
	struct number diameter;
	char tool[SB_NAME_TEXT];
	bool struck;
};

/* The tool of a pass went through a joint of the pilot's string. */
struct pass_joint {
	struct fact fact;
	int pass, joint; /* joint: as numbered in the pilot, 1 at the entry */
	struct number pull, torque, flow, pressure, annular;
	char started[SB_CLOCK_TEXT], ended[SB_CLOCK_TEXT];
	enum returns returns;
	bool struck;
};
struct pass_end {
	struct fact fact;
	int pass;
	bool struck;
};

/* A joint of the product pipe's string, 1 behind the pull head. */
struct pipe {
	struct fact fact;
	int joint;
	struct number length; /* job unit */
	char mark[SB_NAME_TEXT];
	bool struck;
};

/* What was done to the string, with its outcome; the last word on a thing holds. Weld N lies between joints N
 * and N + 1; a coating is joint N's; test and drag section are the whole string's, joint 0. */
enum pipe_record_kind { RECORD_WELD, RECORD_INSPECTION, RECORD_COATING, RECORD_TEST, RECORD_DRAG };
enum outcome { OUTCOME_GOOD, OUTCOME_BAD };
struct pipe_record {
	struct fact fact;
	enum pipe_record_kind kind;
	int joint;
	enum outcome outcome;
	struct number pressure, hours; /* of a test: held, and for how long */
	char reference[SB_NAME_TEXT];
	bool struck;
};

struct pull_begin {
	struct fact fact;
	char missing[SB_REMARK_TEXT]; /* what was missing when it began; "": nothing */
	bool struck;
};

/* A joint of drill pipe came out at the entry: the pull head has come to where the joint began. */
struct pull_joint {
	struct fact fact;
	int joint; /* as numbered in the pilot, 1 at the entry */
	struct number force, torque, flow, annular;
	char started[SB_CLOCK_TEXT], ended[SB_CLOCK_TEXT];
	bool struck;
};

enum coating_seen { COATING_SOUND, COATING_SCRATCHED, COATING_DAMAGED };
struct pull_end {
	struct fact fact;
	struct number extra; /* pulled past what is needed, to be looked at; job unit */
	enum coating_seen coating;
	char survey[SB_NAME_TEXT]; /* where the final survey is kept */
	bool struck;
};

struct strike {
	struct fact fact;
	int entry; /* the act that brought what is struck out */
};

struct job {
	/* [job] */
	char name[SB_NAME_TEXT], owner[SB_NAME_TEXT], contractor[SB_NAME_TEXT];
	char rehearsal[SB_NAME_TEXT]; /* "GROUND SEED" of a job that is drilled by simulation; "" for a real
					 one */
	enum unit unit;
	enum incline incline;
	/* [control] */
	char crs[SB_NAME_TEXT], vertical_datum[SB_NAME_TEXT];
	struct place entry, exit;
	/* [azimuth] */
	enum reference reference;
	struct number declination, convergence, bore_azimuth_read, scale_factor;
	struct number site_field, site_dip; /* in the tool's unit; degrees below level */
	/* [tool] */
	struct number sensor_to_bit, tool_face_offset, azimuth_correction;
	char sensor_axes[24];				  /* geom/axes.h */
	int gravity_unit, field_unit;			  /* of sb_gravity_units, sb_field_units */
	struct number site_gravity;			  /* in the tool's unit */
	struct number gravity_gate, field_gate, dip_gate; /* share; nT; degrees */
	struct number gravity_bias_x, gravity_bias_y, field_bias_x, field_bias_y; /* the tool's units */
	struct number sigma_inclination, sigma_azimuth, sigma_depth, bias_inclination, bias_azimuth;
	enum projection projection;
	/* [survey] */
	enum course_by course;
	/* [uncertainty] */
	struct number declination_sigma, declination_by_field, horizontal_field, string_field;
	struct number carried_bias, carried_noise;
	struct number depth_scale, reading_depth, confidence;
	struct number fix_every;
	enum judge judge;
	/* [drill_pipe] */
	struct number joint_length, drill_pipe_minimum_radius;
	struct number drill_pipe_diameter; /* mm or inches */
	/* [product_pipe] */
	enum material material;
	struct number outside_diameter, wall, yield, product_minimum_radius;
	struct number pipe_modulus, pipe_poisson, pipe_density, coating_thickness, coating_density;
	struct number pull_stress, pipe_ovality;
	/* [bend] */
	struct number joint_minimum, window_joints, window_length, window_minimum;
	enum bend_method method;
	/* [corridor] */
	struct number up, down, left, right, near, look_ahead;
	struct number exit_long, exit_short, exit_left, exit_right;
	/* [hole]: mm or inches */
	struct number pilot_diameter, final_diameter;
	/* [opening]: mm or inches; joints an hour */
	struct number opening_ratio, opening_spare, opening_least, opening_most;
	enum demand forward_ream; /* ASKED_NO: forbidden without a lead string */
	struct number fluid_ratio;
	struct number ream_best, ream_likely, swab_best, swab_likely;
	/* [clearance] */
	struct number clearance_spare;
	/* [cover] */
	struct number cover_minimum, cover_from, cover_to, cover_spare;
	/* [fluid]: kg/m3 or lb/gal; mPa s; Pa or lb/100 ft2; L/min or gal/min; shares; kPa or psi */
	struct number fluid_weight, fluid_return_weight, plastic_viscosity, yield_point;
	struct number fluid_flow, ream_flow;
	struct number fluid_watch, sand_share, clay_share, tension_cutoff;
	struct number fluid_from, fluid_to; /* stations */
	/* [steering] */
	struct number slide_turn, droop, walk;
	enum face_as face_as;
	/* [entry] */
	struct number entry_inclination, entry_azimuth;
	/* [acceptance] */
	enum demand exit_survey, acknowledged;
	/* [string]: the records that the contract asks for before the pull; kPa or psi, hours */
	enum demand string_weld, string_inspection, string_coating, string_test, string_drag;
	struct number test_pressure, test_hours;
	/* [pull] */
	struct number pull_extra;
	struct number friction_hole, friction_hole_low, friction_hole_high;
	struct number friction_rollers, friction_rollers_low, friction_rollers_high;
	struct number fluid_drag, fluid_drag_low, fluid_drag_high; /* kPa or psi */
	struct number hydrokinetic, hydrokinetic_low, hydrokinetic_high;
	struct number pull_fluid_low, pull_fluid_high; /* kg/m3 or lb/gal */
	struct number pull_fluid_level, pull_water_to, pull_string_length;
	enum contents pull_contents;
	struct number safe_force; /* kN or lbf */
	struct number pull_watch; /* share of what may be borne */

	/* tables, in the order of the sheet */
	struct profile_pi *profile;
	size_t profile_count, profile_room;
	struct alignment_pi *alignment;
	size_t alignment_count, alignment_room;
	struct corridor_range *ranges;
	size_t range_count, range_room;
	struct ground_point *ground;
	size_t ground_count, ground_room;
	struct obstacle_point *obstacles;
	size_t obstacle_count, obstacle_room;
	struct tally_joint *tally;
	size_t tally_count, tally_room;
	struct soil_layer *soil;
	size_t soil_count, soil_room;
	struct checklist_point *checklist;
	size_t checklist_count, checklist_room;

	/* the log, in the order of time */
	struct reading *readings; /* every reading ever, corrected ones too */
	size_t reading_count, reading_room;
	size_t *joints; /* readings[] of the joints, in the order drilled: each one's latest correction */
	size_t joint_count, joint_room;
	size_t *ground_joints; /* readings[] of joints 1, 2, 3 ... now in the ground */
	size_t in_ground, in_ground_room;
	struct leg *legs;
	size_t leg_count, leg_room;
	struct act *acts;
	size_t act_count, act_room;
	struct acknowledgement *acknowledgements;
	size_t acknowledgement_count, acknowledgement_room;
	struct change *changes;
	size_t change_count, change_room;
	struct repeat *repeats;
	size_t repeat_count, repeat_room;
	struct fix *fixes;
	size_t fix_count, fix_room;
	struct fix_use *fix_uses;
	size_t fix_use_count, fix_use_room;
	struct adjustment *adjustments; /* the last one holds */
	size_t adjustment_count, adjustment_room;
	struct disposition *dispositions;
	size_t disposition_count, disposition_room;
	struct ticked *ticked;
	size_t ticked_count, ticked_room;
	struct acceptance *acceptances; /* the last one holds */
	size_t acceptance_count, acceptance_room;
	struct fluid_event *fluid_events;
	size_t fluid_event_count, fluid_event_room;
	struct pass *passes;
	size_t pass_count, pass_room;
	struct pass_joint *pass_joints;
	size_t pass_joint_count, pass_joint_room;
	struct pass_end *pass_ends;
	size_t pass_end_count, pass_end_room;
	struct pipe *pipes;
	size_t pipe_count, pipe_room;
	struct pipe_record *pipe_records;
	size_t pipe_record_count, pipe_record_room;
	struct pull_begin *pull_begins;
	size_t pull_begin_count, pull_begin_room;
	struct pull_joint *pull_joints;
	size_t pull_joint_count, pull_joint_room;
	struct pull_end *pull_ends;
	size_t pull_end_count, pull_end_room;
	struct strike *strikes;
	size_t strike_count, strike_room;
};

void sb_job_clear(struct job *job);
void sb_job_copy(const struct job *from, struct job *to); /* a job of its own; to is not cleared first */

/* Appending facts, in the order of time. */
void sb_job_add_reading(struct job *job, const struct reading *r); /* a correction takes its joint's place */
void sb_job_add_leg(struct job *job, const struct leg *leg);
void sb_job_add_act(struct job *job, const struct act *act);
void sb_job_add_acknowledgement(struct job *job, const struct acknowledgement *a);
void sb_job_add_change(struct job *job, const struct change *c);
/* All others: sb_fact_add (model/fact.h). */

/* The leg being drilled (1 when nothing was withdrawn), and its number of joints in the ground. */
int sb_job_leg(const struct job *job);
int sb_job_in_ground(const struct job *job);

/* The reading that stands for a joint on the present path, or in a leg; NULL if there is none. */
const struct reading *sb_job_joint(const struct job *job, int joint);
const struct reading *sb_job_joint_in_leg(const struct job *job, int leg, int joint);
const struct reading *sb_job_reading(const struct job *job, int64_t id);
/* An act by its number; NULL if there is none. */
const struct act *sb_job_act(const struct job *job, int64_t id);
/* How far local time was ahead of UTC, minutes, where something was done by that act; at_ms: when, for what
 * has no act. */
int sb_job_offset_min(const struct job *job, int64_t act, int64_t at_ms);
/* Whether the reading was replaced by a correction. */
bool sb_job_replaced(const struct job *job, const struct reading *r);

/* Whether a change holds for a reading: one that is not logged yet is held by all. */
bool sb_job_change_holds(const struct job *job, const struct change *c, const struct reading *r);

/* The correction that is in force; NULL if none. */
const struct adjustment *sb_job_adjustment(const struct job *job);

/* Who accepted the pilot; NULL while it is open. */
const struct acceptance *sb_job_accepted(const struct job *job);
/* The last word on a point of the checklist, by its number from 1; NULL if none. */
const struct ticked *sb_job_tick(const struct job *job, int point);

struct fix *sb_job_fix(const struct job *job, int64_t id); /* NULL if there is none */

/* The length to expect of a joint: the tally's, else the drill pipe's nominal one. */
struct number sb_job_tally(const struct job *job, int joint);

/* The shift that is running: the act that began it, NULL if none. */
const struct act *sb_job_shift(const struct job *job);

const char *sb_act_name(enum act_kind kind); /* "log", "correct", ... as in the job file */
int sb_act_parse(const char *name, enum act_kind *kind);

#endif

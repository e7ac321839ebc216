/* The as-drilled path: one row a joint, solved from the readings.
 *
 * Minimum curvature between readings (geom/arc.h). The survey of a joint is taken `sensor_to_bit` behind
 * the bit; while that is still behind the entry it is kept and does not move the path.
 *
 * Beside it runs a second path, through each joint's slides and rotations (geom/course.h): each row keeps how
 * far that one has shifted. Which of the two is the record, and so where a row is, is the contract's choice
 * ([survey] course). Bends are those of the readings in either case.
 */
#ifndef SB_MODEL_PATH_H
#define SB_MODEL_PATH_H

#include "geom/arc.h"
#include "geom/course.h"
#include "geom/uncert.h"
#include "model/corridor.h"
#include "model/design.h"
#include "model/frame.h"
#include "model/slides.h"

/* Where a point is, against the design. */
struct deviation {
	double station_m;
	double offset_m;    /* right positive */
	double height_m;    /* high positive */
	double square_m;    /* shortest distance to the design line in space, >= 0 */
	double inc_off_rad; /* hole minus design: positive builds more (towards up) */
	double azi_off_rad; /* positive points more to the right */
	bool doubtful;	    /* two feet were equally near: the one nearer to the last station was taken */
};

/* Angle and length over a window of joints, by both methods. */
struct window {
	int joints; /* how many courses it holds; 0: none yet */
	double length_m;
	double ends_rad, sum_rad;
	double sigma_rad; /* of the ends angle, from reading noise */
	double radius_m;  /* by the contract's method; HUGE_VAL straight */
	double radius_ends_m, radius_sum_m;
};

/* How sure a place is: one sigma along the design line, of its offset and of its height, and how the last two
 * go together, -1..1. */
struct doubt {
	double along_m, across_m, up_m, correlation;
};

struct row {
	int64_t reading; /* id; 0: the entry */
	int leg, joint;
	double bit_md_m, survey_md_m;
	bool taken;   /* inclination and azimuth were read */
	bool carried; /* its azimuth was not read magnetically: gyro, coil, or held */
	bool on_path; /* read, and the sensor is past the entry and the reading before: it moves the
			 path */
	struct attitude attitude; /* inside convention; of the reading, or carried on when none was taken */
	struct vec3 at;		  /* of the sensor when on_path, else where the path ended before */
	struct deviation deviation;
	struct corridor_use use;
	struct uncert uncert; /* running sums of what the readings may err (model/uncertainty.h) */
	struct doubt doubt;   /* what they come to; of the sensor */
	double outside;	      /* chance of being outside the corridor, 0..1 */
	/* the course from the row on the path before this one */
	double course_m, dogleg_rad;
	double stretch; /* true length over measured, of the course: an adjustment's */
	double dogleg_sigma_rad;
	double radius_m;      /* HUGE_VAL straight, or no course */
	struct window window; /* ending here */
	/* ordered against got, over the course, rad: what the response that was known before expected of the
	 * slides, and what the readings say */
	struct row_answer {
		bool known; /* the slides over the course were written down */
		double ordered_up, ordered_right, got_up, got_right;
		double sigma;	      /* of the difference on one axis: reading noise and response together */
		double reading_sigma; /* of what was got, on the noisier axis: reading noise alone */
		double slid_m;
	} answer;
	/* the course through its slides and rotations beside the arc, both from the same start */
	struct row_slides {
		bool written;	     /* what was slid in this joint was written down */
		bool known;	     /* that of the whole course was; else the course is the arc */
		struct vec3 shift;   /* that this course makes: slides less arc, m */
		struct vec3 shifted; /* all courses so far */
		size_t first,
			count; /* where they are the record: its stretches in the path's laid; 0: the arc */
		double up, right; /* what was added to them: struct course */
	} slides;
	bool turned_back; /* the course turned right back: its plane was chosen */
};

struct path {
	struct row *rows; /* rows[j] is joint j; rows[0] the entry */
	size_t count, room;
	struct row *old; /* superseded rows, in the order they were drilled */
	size_t old_count, old_room;
	size_t *on_path; /* rows[] on the path, in order: on_path[0] is the entry */
	size_t on_count, on_room;
	struct course_stretch *laid; /* of courses by slides, old ones too, where they are the record */
	size_t laid_count, laid_room;
	struct ground_gives gives; /* what the next course is laid with; not known: arcs only */
	bool entry_known;	   /* rows[0] has an attitude: staked, or the first reading's on the path */
};

/* What the path is laid against. Borrowed. */
struct setup {
	const struct job *job;
	const struct frame *frame; /* in which the reading at hand, or the next one, is understood */
	const struct design *design;
	const struct corridor *corridor;
};

/* Starts a path: rows[0] is the entry, with its staked attitude if the sheet gives one. */
void sb_path_begin(const struct setup *setup, struct path *p);

/* Adds the row of the next joint in the ground; O(1) (a window looks back over its own joints only). */
const struct row *sb_path_append(const struct setup *setup, struct path *p, const struct reading *r);

/* The attitude that a reading says, in the setup's frame; with a held azimuth, the one before. False when it
 * says none. */
bool sb_path_read(
	const struct setup *setup, const struct path *p, const struct reading *r, struct attitude *out);

/* The row that the reading would make, changing nothing. */
struct row sb_path_preview(const struct setup *setup, const struct path *p, const struct reading *r);

/* Pulls back: rows of joints past to_joint become old ones. */
void sb_path_withdraw(const struct setup *setup, struct path *p, int to_joint);

void sb_path_clear(struct path *p);

/* The design-relative part of a row or of any point. near_m: the station before. */
struct deviation sb_deviation(
	const struct design *d, struct vec3 at, const struct vec3 *heading, double near_m);

/* A point of the path at a measured depth between the entry and the last reading on it; past it, the
 * last heading is held. Returns the joint in which it lies. */
int sb_path_at(const struct path *p, double md_m, struct vec3 *at, struct vec3 *heading);

/* A point of the course between two rows that follow one another on the path, s_m from its start: offset from
 * the start, heading. */
void sb_path_course_at(const struct path *p, const struct row *from, const struct row *to, double s_m,
	struct vec3 *offset, struct vec3 *heading);

/* How far the path by slides lies beside the path by arcs at a row, along, right of and above the design
 * line. The heading at a reading is the same by both, so it is as much at the bit. */
struct path_shift {
	double station_m, offset_m, height_m; /* slides less arc */
};
struct path_shift sb_path_shift(const struct design *d, enum course_by record, const struct row *row);

/* Whether any course on the path is known by its slides; arcs: how many are not. */
bool sb_path_by_slides(const struct path *p, size_t *arcs);

/* Whether the hand writes slides down, as seen at a row: a blank then means that the joint was rotated. */
bool sb_path_writes_slides(const struct path *p, size_t row);

/* The attitude that the next course starts from: the last on the path. False when there is none yet
 * (no reading, no staked entry); a reading taken behind the entry serves until there is. */
bool sb_path_attitude(const struct path *p, struct attitude *out);

/* The row of a joint as a leg drilled it, withdrawn or not; leg 0: as it is in the ground now. NULL if there
 * is none. */
const struct row *sb_path_row(const struct path *p, int leg, int joint);

/* Whether a row of the path is in the ground now: it was not withdrawn. */
bool sb_path_present(const struct path *p, const struct row *row);

/* The row on the path that is n rows on the path before its end; n < on_count. */
const struct row *sb_path_back(const struct path *p, size_t n);

#endif

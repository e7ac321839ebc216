/* What the ground gives: learnt from the log itself, joint by joint, with its uncertainty.
 *
 * A filter over the log (Kalman), in two axes, up and right as seen looking ahead. Its state: how the hole
 * really heads beside the last reading (2), where it is beside the path of the readings (2), and the response
 * twice (4 each), here and of this bore on the whole:
 *
 *     turn per length slid along the tool face (yield cos e) and across it (yield sin e), e the tool-face
 * error drift per length rotated, up (droop is down) and right (walk)
 *
 * A reading answers for the hole between the last two places of the sensor, so each course takes its share of
 * the joints that were drilled over that stretch; a joint's slide lies where its pushes say, and without them
 * counts as made in even pushes along it. Readings carry noise, and ground differs from stretch to stretch:
 * what a stretch gives is followed over some 25 m, what the bore gives on the whole is kept. Before there is
 * data the sheet's guess stands, and says so. A stretch whose slides were not written down teaches nothing.
 */
#ifndef SB_MODEL_RESPONSE_H
#define SB_MODEL_RESPONSE_H

#include "model/path.h"
#include "model/warning.h"

enum { RESPONSE_STATES = 12, RESPONSE_CASES = 18 };

/* The filter, for one supposition of how noisy the readings are and how much the ground differs from stretch
 * to stretch. State: heading beside the last reading, response here, place beside the path of the readings,
 * response on the whole; symmetric covariance. */
struct response_case {
	double noise;	/* variance of the readings against what the sheet says: 1 as it says */
	double scatter; /* of the ground beside its response, one sigma against what is usual: 1 as usual */
	double chance;	/* that it is this one: 0..1, all together 1 */
	double state[RESPONSE_STATES], covariance[RESPONSE_STATES][RESPONSE_STATES];
};

struct response {
	double yield;		      /* rad per m slid, > 0 */
	double face_error_rad;	      /* the hole turns this far clockwise of the tool face that is shown */
	double drift_up, drift_right; /* rad per m rotated */
	double yield_sigma, face_error_sigma_rad, drift_up_sigma, drift_right_sigma; /* one sigma */
	size_t slides;	    /* courses with slides that taught it; 0: the sheet's guess */
	double guess_yield; /* the sheet's, or what stands for it */
	bool guess_given;   /* the sheet says slide_turn */
	bool told;	    /* from outside (sb_response_tell): the same everywhere, and known for sure */
	struct response_case cases[RESPONSE_CASES], all; /* all: the mean of the cases by their chances */
	double short_answer; /* how much of what was expected the last slides gave, smoothed; 1: all */
	int short_count;     /* slides in a row that gave less than half */
	size_t courses;	     /* that taught it which case it is */
	double usual_yield;  /* what slides usually bring here: follows the estimate slowly */
};

/* What one stretch of hole was drilled with. */
struct drilled {
	double slid_up, slid_right; /* length slid times the direction of its tool face, m */
	double slid_m, rotated_m;
	double unsaid_m; /* of joints whose slide was left blank, by a hand that writes others down: rotated,
			    it seems */
	bool known;	 /* false: slides were not written down */
};

/* The next reading as it is expected. */
struct forecast {
	struct attitude heading;		/* of the hole */
	double up_rad, right_rad;		/* how far that is from the reading before */
	double up_var, right_var, together_var; /* of a reading there: hole and reading noise, rad^2 */
};

/* The guess of the sheet. */
void sb_response_begin(const struct setup *setup, struct response *r);

/* The path has a new row on it: learns from the course that it ends, and writes ordered and got into the row.
 * O(1). */
void sb_response_course(const struct setup *setup, struct path *path, struct response *r);

/* The string was pulled back: what was learnt stays, the heading begins again at the reading it stands on. */
void sb_response_withdrawn(const struct setup *setup, struct response *r);

/* What was drilled between two bit depths of the present path. */
struct drilled sb_response_drilled(
	const struct setup *setup, const struct path *path, double from_m, double to_m);

/* What the ground gives, for the path to lay the next course with. */
struct ground_gives sb_response_gives(const struct response *r);

/* The same where the joint that is next, and not logged yet, has its part in it. */
struct drilled sb_response_drilled_next(const struct setup *setup, const struct path *path,
	const struct reading *next, double from_m, double to_m);

/* Purpose:  the reading that ends a course, before it is taken.
 * Given:    from       the attitude that the course starts from: that of the last reading on the path
 *           drilled    what it was drilled with; known
 *           length_m   of the course
 *           any_m      so much of it may have been slid, any way, beside that
 * Note:     the response is carried over the course and not changed. O(1). */
struct forecast sb_response_forecast(const struct setup *setup, const struct attitude *from,
	const struct response *r, const struct drilled *drilled, double length_m, double any_m);

/* What the ground gives somewhere ahead. */
struct ground_ahead {
	double yield, yield_sigma;    /* rad per m slid; one sigma, of what the ground may differ by until
					 there too */
	double face_error_rad;	      /* as in struct response */
	double drift_up, drift_right; /* rad per m rotated */
};

/* What the ground gives so far past the last reading: a stretch that answers otherwise than the bore on the
 * whole is not counted on for longer than it lasts on the mean. past_m >= 0. */
struct ground_ahead sb_response_ahead(const struct response *r, double past_m);

/* The turn that the response expects of it, rad. */
void sb_response_expect(const struct response *r, const struct drilled *d, double *up_rad, double *right_rad);
/* The same of a stretch past the last reading: past_m to its middle. */
void sb_response_expect_ahead(
	const struct response *r, const struct drilled *d, double past_m, double *up_rad, double *right_rad);

/* How far the hole may have turned between two bit depths of the path, one sigma up and right, for somebody
 * who holds the heading: what the slides were meant to give, how sure the response is, and what the ground
 * does by itself. What was not written down, or lies past the path's end, may have been slid all through, any
 * way. */
void sb_response_unsure(const struct setup *setup, const struct path *path, const struct response *r,
	double from_m, double to_m, double *up_rad, double *right_rad);

/* The tool face that the tool must show so that the hole turns towards (up, right): radians clockwise from
 * high side, [0, 2 pi), with the learnt error and the sheet's offset taken out. */
double sb_response_face(const struct setup *setup, double face_error_rad, double up, double right);

/* The hole's heading at the last reading as the filter sees it: steadier than the reading. */
struct attitude sb_response_heading(const struct path *path, const struct response *r);

/* The heading at an earlier reading as all readings and all that was drilled between them have it. */
struct smoothed {
	double md_m;
	struct attitude heading;
	double var[2]; /* of its error, up and right, rad^2 */
	double tie[2]; /* its covariance with the error at the last reading, as a share of the variance there
			*/
};

/* Purpose:  the headings at the last readings, smoothed.
 * Returned: how many; out[0] is the last reading, as sb_response_heading has it, out[1] the one before ...
 * Note:     O(most), beside the fixed run-in. With no reading yet: none. */
size_t sb_response_smooth(const struct setup *setup, const struct path *path, const struct response *r,
	struct smoothed *out, size_t most);

/* Place and heading of the bit, carried on from there through what was drilled past the sensor. With no
 * attitude at all yet, the design's at the entry stands for it. */
void sb_response_bit(const struct setup *setup, const struct path *path, const struct response *r,
	struct vec3 *at, struct attitude *heading);

/* Whether the ground answers otherwise than ordered: a tool-face error, or slides that no longer turn. */
void sb_response_judge(const struct response *r, int joint, struct verdict *v);

/* The response is told from outside (yield, face_error_rad, drift_up, drift_right are set): the filter takes
 * them as they are, for all that lies ahead too. */
void sb_response_tell(struct response *r);

#endif

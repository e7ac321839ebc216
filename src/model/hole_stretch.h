/* A stretch of hole, drilled or to come: its places, how tightly it bends, and how sure its ends are. */
#ifndef SB_SRC_MODEL_HOLE_STRETCH_H
#define SB_SRC_MODEL_HOLE_STRETCH_H

#include "model/clearance.h"

struct hole_stretch {
	int joint;
	double from_md_m, length_m; /* as measured */
	struct vec3 start;
	struct arc arc;
	double stretch; /* ground lengths over measured ones */
	/* a course that was laid by its slides; NULL: the arc */
	const struct path *path;
	const struct row *from, *to;
	double bend; /* the most, 1/m */
	/* how sure: of drilled courses by their two rows, of what is to come by what is carried on from
	 * `sure` */
	const struct clearance_ask *ask;
	const struct row *sure;
	struct attitude held;
	double carried_m; /* to its start */
	bool ahead;
	double station_m; /* about where: for finding its foot on the alignment */
};

/* The row on the path before one of the present path that is past the entry. */
const struct row *hole_stretch_before(const struct row *row);

/* The course that ends at a row on the path, from the row on the path before it. */
struct hole_stretch hole_stretch_course(
	const struct clearance_ask *ask, const struct row *before, const struct row *row);

/* The place of a row alone, on the present path or not: of no length. */
struct hole_stretch hole_stretch_spot(const struct clearance_ask *ask, const struct row *row);

/* What comes after a row: from the sensor to the bit; then straight on, or by plan, joint by joint. */
struct hole_stretch hole_stretch_to_bit(const struct clearance_ask *ask, const struct row *row);
struct hole_stretch hole_stretch_on(const struct hole_stretch *before, const struct attitude *from,
	const struct attitude *to, double length_m, int joint);

/* Its place and heading s_m from its start; either may be NULL. */
void hole_stretch_place(const struct hole_stretch *h, double s_m, struct vec3 *at, struct vec3 *heading);
struct vec3 hole_stretch_at(const void *stretch, double s_m); /* for struct clear_curve */

/* The covariance of its place there: in proportion between its ends, never less than it is. */
struct sym3 hole_stretch_sure(const struct hole_stretch *h, double s_m);

/* src/model/clearance_words.c. drilled_joint: the last joint drilled, when it is said of what is to come; -1
 * when of what is drilled. */
void clearance_say(const struct clearance_ask *ask, const struct obstacle *o, const struct passing *p,
	int drilled_joint, struct verdict *v);

/* The value that is held against the limit: the mean, or where the contract judges on confidence what is kept
 * with it. kept: whether the limit is. */
double clearance_value(
	const struct clearance_ask *ask, double mean_m, double sigma_m, double limit_m, bool kept);

#endif

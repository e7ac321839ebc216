/* Between the files of the path. */
#ifndef SB_SRC_MODEL_PATH_PARTS_H
#define SB_SRC_MODEL_PATH_PARTS_H

#include "model/path.h"

/* How a course was laid by its slides. More stretches than this in one course count as not written down. */
#define LAID_MOST 256
struct laid {
	struct course_stretch list[LAID_MOST];
	size_t count;
	struct course course;
};

/* src/model/path_slides.c */

/* Lays the course that ends at the row, from the row on the path before it, by the slides and rotations of
 * its joints: row->slides, with the shift of this course and so far. Where they are not known the course is
 * the arc, and the row says so.
 * Given:    r       the row's reading; the row is not on the path yet
 *           start   the attitude that the course starts from */
void path_lay_slides(const struct setup *setup, const struct path *p, const struct reading *r,
	const struct attitude *start, struct row *row, struct laid *laid);

/* Keeps how it was laid, for points between. */
void path_keep_slides(struct path *p, struct row *row, const struct laid *laid);

#endif

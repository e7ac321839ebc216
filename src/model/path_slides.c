/* The path through each joint's slides and rotations, beside the arcs of minimum curvature.
 *
 * The sensor lies behind the bit, so a course between two readings was drilled as the tail of one joint and
 * the head of the next. Its stretches are expected to turn as the ground was known to answer before the
 * reading that ends it; the two readings have the last word (geom/course.h). A joint more costs what its own
 * course has stretches.
 */
#include "base/mem.h"
#include "model/slides.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "path_parts.h"

#define HABIT 12 /* joints back in which a hand who writes slides down has written one */

bool sb_path_writes_slides(const struct path *p, size_t row)
{
	for (size_t back = 0; back < HABIT && back < row; back++)
		if (p->rows[row - back].slides.written)
			return true;
	return false;
}

/* Where a joint begins and what is known of it; trial: the joint that is not on the path yet. */
struct joint {
	const struct reading *reading;
	double begin_m;
	bool blank_is_none;
};

/* The stretches of a joint that lie in the course, expected to turn as the ground gives. */
static bool add_joint(const struct setup *s, const struct path *p, const struct joint *j, double from_m,
	double to_m, struct laid *laid)
{
	struct stretch list[SB_STRETCHES];
	struct frame then; /* the tool that showed the face */

	sb_frame_for(s->job, s->frame, j->reading, &then);
	size_t count = sb_slides_of(j->reading, &then, j->blank_is_none, list);
	if (count == 0 || laid->count + count > LAID_MOST)
		return false;
	for (size_t i = 0; i < count; i++) {
		double begin = fmax(j->begin_m + list[i].from_m, from_m);
		double end = fmin(j->begin_m + list[i].to_m, to_m);
		if (!(end - begin > 1e-9))
			continue;
		struct course_stretch *c = &laid->list[laid->count++];
		c->length_m = end - begin;
		sb_slides_rate(&p->gives, &list[i], &c->up, &c->right);
	}
	return true;
}

/* The first row whose joint reaches into the course. */
static size_t first_row(const struct path *p, double from_m)
{
	size_t i = p->count;

	while (i > 1 && p->rows[i - 1].bit_md_m > from_m)
		i--;
	return i;
}

static bool gather(const struct setup *s, const struct path *p, const struct reading *r,
	const struct row *row, struct laid *laid)
{
	double to = row->survey_md_m, from = to - row->course_m;

	for (size_t i = first_row(p, from); i < p->count && p->rows[i - 1].bit_md_m < to; i++) {
		struct joint j = { sb_job_reading(s->job, p->rows[i].reading), p->rows[i - 1].bit_md_m,
			sb_path_writes_slides(p, i) };
		if (j.reading == NULL || !add_joint(s, p, &j, from, to, laid))
			return false;
	}
	double begin = p->rows[p->count - 1].bit_md_m;
	if (begin >= to)
		return true;
	struct joint j = { r, begin, row->slides.written || sb_path_writes_slides(p, p->count - 1) };
	return add_joint(s, p, &j, from, to, laid);
}

void path_lay_slides(const struct setup *s, const struct path *p, const struct reading *r,
	const struct attitude *start, struct row *row, struct laid *laid)
{
	const struct row *from = sb_path_back(p, 0);
	/* An entry that was not staked borrows its attitude from the row: nothing was measured there. */
	bool measured = from->joint > 0 || p->entry_known;

	laid->count = 0;
	if (!p->gives.known || !measured || !gather(s, p, r, row, laid))
		return;
	enum course_status status = sb_course_between(
		start, &row->attitude, row->course_m, laid->list, laid->count, &laid->course);
	if (status != COURSE_OK && status != COURSE_EVEN)
		return;
	row->slides.known = true;
	row->slides.shift = sb_vec3_scale(laid->course.shift, row->stretch);
	row->slides.shifted = sb_vec3_add(from->slides.shifted, row->slides.shift);
	if (status == COURSE_EVEN)
		laid->count = 0;
}

void path_keep_slides(struct path *p, struct row *row, const struct laid *laid)
{
	row->slides.first = p->laid_count;
	row->slides.count = laid->count;
	row->slides.up = laid->course.up;
	row->slides.right = laid->course.right;
	for (size_t i = 0; i < laid->count; i++) {
		p->laid = sb_grow(p->laid, p->laid_count, &p->laid_room, sizeof *p->laid);
		p->laid[p->laid_count++] = laid->list[i];
	}
}

void sb_path_course_at(const struct path *p, const struct row *from, const struct row *to, double s_m,
	struct vec3 *offset, struct vec3 *heading)
{
	struct vec3 step = sb_vec3_scale(from->attitude.heading, s_m), direction = from->attitude.heading;
	struct arc arc;

	if (to->slides.count > 0) {
		struct course c = { .length_m = to->course_m,
			.up = to->slides.up,
			.right = to->slides.right,
			.end = to->attitude.heading };
		c.step = sb_vec3_scale(sb_vec3_sub(to->at, from->at), 1 / to->stretch);
		sb_course_at(&from->attitude, &c, p->laid + to->slides.first, to->slides.count, s_m, &step,
			&direction);
	} else if (sb_arc_between(&from->attitude, &to->attitude, to->course_m, &arc) != ARC_RANGE) {
		sb_arc_at(&arc, s_m, &step, &direction);
	}
	*offset = sb_vec3_scale(step, to->stretch);
	*heading = direction;
}

struct path_shift sb_path_shift(const struct design *d, enum course_by record, const struct row *row)
{
	struct vec3 shifted = row->slides.shifted;
	bool by_slides = record == COURSE_BY_SLIDES;
	struct vec3 arc = by_slides ? sb_vec3_sub(row->at, shifted) : row->at;
	struct vec3 slides = by_slides ? row->at : sb_vec3_add(row->at, shifted);

	if (!(sb_vec3_length(shifted) > 0))
		return (struct path_shift){ 0 };
	struct deviation a = sb_deviation(d, arc, NULL, row->deviation.station_m);
	struct deviation b = sb_deviation(d, slides, NULL, row->deviation.station_m);
	return (struct path_shift){ b.station_m - a.station_m, b.offset_m - a.offset_m,
		b.height_m - a.height_m };
}

bool sb_path_by_slides(const struct path *p, size_t *arcs)
{
	bool any = false;

	*arcs = 0;
	for (size_t i = 1; i < p->on_count; i++) {
		bool known = p->rows[p->on_path[i]].slides.known;
		any |= known;
		*arcs += !known;
	}
	return any;
}

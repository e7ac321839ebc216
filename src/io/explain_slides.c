/* How far the path through slides and rotations lies beside the one of arcs: each course laid again from its
 * stretches, with what the ground was known to give when it was drilled. */
#include "geom/angle.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

#define TOLD 12 /* stretches of the course that are told of */

/* The row that stands for a reading, in another solution of the same log. */
static const struct row *row_of(const struct solution *s, int64_t reading)
{
	for (size_t i = 0; i < s->path.count; i++)
		if (s->path.rows[i].reading == reading)
			return &s->path.rows[i];
	for (size_t i = 0; i < s->path.old_count; i++)
		if (s->path.old[i].reading == reading)
			return &s->path.old[i];
	return NULL;
}

/* What a course's slides shift its end by; laid: the log solved with slides as the record, which keeps the
 * stretches. */
static struct vec3 shift_of(const struct explaining *x, const struct solution *laid, size_t i)
{
	struct explain_course c = explain_course(x, i);
	const struct row *row = row_of(laid, x->trail[i]->reading);
	struct course course;

	if (row == NULL || row->slides.count == 0 ||
		sb_course_between(&c.start, &c.end, c.length_m, laid->path.laid + row->slides.first,
			row->slides.count, &course) != COURSE_OK)
		return (struct vec3){ 0 };
	return sb_vec3_scale(course.shift, c.stretch);
}

static void put_stretches(struct explaining *x, const struct solution *laid)
{
	const struct row *row = row_of(laid, x->row->reading);
	char symbol[24], length[EXPLAIN_VALUE], right[EXPLAIN_VALUE];

	for (size_t i = 0; row && i < row->slides.count && i < TOLD; i++) {
		const struct course_stretch *c = &laid->path.laid[row->slides.first + i];
		snprintf(symbol, sizeof symbol, "stretch %zu", i + 1);
		explain_input(x, symbol, AS_RATE, c->up,
			"up, and %s right, expected over %s: slid or rotated as joint and log say",
			explain_value(x, AS_RATE, c->right, right),
			explain_value(x, AS_LENGTH, c->length_m, length));
	}
}

static void put_results(struct explaining *x, struct vec3 shifted)
{
	bool by_slides = x->job->course == COURSE_BY_SLIDES;
	const struct design *d = &x->s->design;
	struct vec3 at = explain_place(x, x->trail_count - 1);
	struct vec3 arc = by_slides ? sb_vec3_sub(at, shifted) : at,
		    slides = by_slides ? at : sb_vec3_add(at, shifted);
	struct deviation a = sb_deviation(d, arc, NULL, x->row->deviation.station_m),
			 b = sb_deviation(d, slides, NULL, x->row->deviation.station_m);
	struct path_shift kept = sb_path_shift(d, x->job->course, x->row);

	explain_result(x, sb_path_columns[PATH_SHIFT_STATION].name, AS_LENGTH, b.station_m - a.station_m,
		kept.station_m, "along the design: slides less arcs");
	explain_result(x, sb_path_columns[PATH_SHIFT_OFFSET].name, AS_LENGTH, b.offset_m - a.offset_m,
		kept.offset_m, "likewise of the offset, right positive");
	explain_result(x, sb_path_columns[PATH_SHIFT_HEIGHT].name, AS_LENGTH, b.height_m - a.height_m,
		kept.height_m, "likewise of the height, high positive");
}

/* The log solved with slides as the record: what each course was laid with stands there. -1 with a word of
 * it. */
static int lay_by_slides(struct explaining *x, struct solution *laid)
{
	struct job by_slides = *x->job;
	struct sb_err err = { 0 };

	*laid = (struct solution){ 0 };
	by_slides.course = COURSE_BY_SLIDES;
	if (sb_solve(&by_slides, laid, NULL, &err) == 0)
		return 0;
	explain_words(x, EXPLAIN_ALARM, "The log cannot be gone through again: %s", err.text);
	return -1;
}

void explain_shift(struct explaining *x)
{
	struct vec3 own = { 0 }, shifted = { 0 };
	struct solution laid;

	explain_words(x, EXPLAIN_FORMULA,
		"shift = sum over the courses of (end of the course through its slides and rotations - end of the arc), both between the same two readings");
	if (!x->row->slides.known) {
		explain_words(x, EXPLAIN_NOTE,
			"What was slid over this course is not known for all of it: it is laid as the arc, and there is no figure.");
		return;
	}
	if (lay_by_slides(x, &laid))
		return;
	put_stretches(x, &laid);
	for (size_t i = 1; i < x->trail_count; i++)
		if (x->trail[i]->on_path) {
			own = shift_of(x, &laid, i);
			shifted = sb_vec3_add(shifted, own);
		}
	explain_step(x, "course n", AS_LENGTH, own.n, "this course's shift to the north");
	explain_step(x, "course e", AS_LENGTH, own.e, "to the east");
	explain_step(x, "course z", AS_LENGTH, own.u, "up");
	explain_step(x, "sum n", AS_LENGTH, shifted.n, "of all courses from the entry");
	explain_step(x, "sum e", AS_LENGTH, shifted.e, "likewise");
	explain_step(x, "sum z", AS_LENGTH, shifted.u, "likewise");
	put_results(x, shifted);
	explain_words(x, EXPLAIN_NOTE, "%s",
		x->job->course == COURSE_BY_SLIDES
			? "Slides are the record ([survey] course)."
			: "Arcs are the record ([survey] course): this is told beside them, and counts as doubt.");
	explain_words(x, EXPLAIN_SOURCE,
		"courses as arcs stretch by stretch between two readings (geom/course.h): derived");
	sb_solution_clear(&laid);
}

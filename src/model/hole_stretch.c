/* Stretches of hole: a course between two readings, the way from the sensor to the bit, and joints to come.
 */
#include "hole_stretch.h"

#include <math.h>

/* The tightest that a course by slides bends. */
static double slides_bend(const struct path *p, const struct row *row)
{
	double bend = 0;

	for (size_t i = 0; i < row->slides.count; i++) {
		const struct course_stretch *s = &p->laid[row->slides.first + i];
		bend = fmax(bend, hypot(s->up + row->slides.up, s->right + row->slides.right));
	}
	return bend;
}

static void lay_arc(
	struct hole_stretch *h, const struct attitude *from, const struct attitude *to, double length_m)
{
	if (sb_arc_between(from, to, length_m, &h->arc) == ARC_RANGE)
		h->arc = (struct arc){ 0, 0, { 0, 0, 0 }, from->heading, to->heading };
	h->length_m = h->arc.length_m;
	h->bend = h->arc.length_m > 0 ? h->arc.dogleg_rad / h->arc.length_m : 0;
}

const struct row *hole_stretch_before(const struct row *row)
{
	do
		row--;
	while (!row->on_path);
	return row;
}

struct hole_stretch hole_stretch_course(
	const struct clearance_ask *ask, const struct row *before, const struct row *row)
{
	/* An entry that was not staked heads as its first reading does. */
	bool borrowed = before->joint == 0 && !before->taken;
	struct hole_stretch h = {
		.joint = row->joint,
		.from_md_m = before->survey_md_m,
		.start = before->at,
		.stretch = row->stretch,
		.from = before,
		.to = row,
		.ask = ask,
		.station_m = row->deviation.station_m,
	};

	lay_arc(&h, borrowed ? &row->attitude : &before->attitude, &row->attitude, row->course_m);
	if (row->slides.count > 0) {
		h.path = ask->path;
		h.bend = slides_bend(ask->path, row);
	}
	return h;
}

struct hole_stretch hole_stretch_spot(const struct clearance_ask *ask, const struct row *row)
{
	struct hole_stretch h = {
		.joint = row->joint,
		.from_md_m = row->survey_md_m,
		.start = row->at,
		.stretch = 1,
		.from = row,
		.to = row,
		.ask = ask,
		.station_m = row->deviation.station_m,
	};

	lay_arc(&h, &row->attitude, &row->attitude, 0);
	return h;
}

struct hole_stretch hole_stretch_to_bit(const struct clearance_ask *ask, const struct row *row)
{
	const struct bit *bit = ask->bit;
	double begin = fmax(row->survey_md_m, 0);
	struct hole_stretch h = {
		.joint = row->joint,
		.from_md_m = begin,
		.start = row->at,
		.stretch = 1,
		.ask = ask,
		.sure = row,
		.held = bit->attitude,
		.ahead = true,
		.station_m = row->deviation.station_m,
	};
	const struct attitude *from = bit->by == PROJECTION_CURVE ? &row->attitude : &bit->attitude;

	lay_arc(&h, from, &bit->attitude, fmax(bit->md_m - begin, 0));
	return h;
}

struct hole_stretch hole_stretch_on(const struct hole_stretch *before, const struct attitude *from,
	const struct attitude *to, double length_m, int joint)
{
	struct hole_stretch h = *before;

	h.joint = joint;
	h.from_md_m += before->length_m;
	h.carried_m += before->length_m;
	h.start = sb_vec3_add(before->start, before->arc.step);
	h.station_m += before->length_m;
	lay_arc(&h, from, to, length_m);
	return h;
}

void hole_stretch_place(const struct hole_stretch *h, double s_m, struct vec3 *at, struct vec3 *heading)
{
	struct vec3 offset, direction;

	if (h->path) {
		sb_path_course_at(h->path, h->from, h->to, s_m, &offset, &direction);
	} else {
		sb_arc_at(&h->arc, s_m, &offset, &direction);
		offset = sb_vec3_scale(offset, h->stretch);
	}
	if (at)
		*at = sb_vec3_add(h->start, offset);
	if (heading)
		*heading = direction;
}

struct vec3 hole_stretch_at(const void *stretch, double s_m)
{
	struct vec3 at;

	hole_stretch_place(stretch, s_m, &at, NULL);
	return at;
}

static double mix(double a, double b, double t)
{
	return a + t * (b - a);
}

struct sym3 hole_stretch_sure(const struct hole_stretch *h, double s_m)
{
	const struct setup *setup = &h->ask->setup;
	const struct uncertainty *u = h->ask->uncertainty;
	double t = h->length_m > 0 ? s_m / h->length_m : 1;

	if (h->ahead)
		return sb_uncertainty_carried(setup, u, h->sure, &h->held, h->carried_m + s_m);
	struct sym3 a = sb_uncertainty_place(setup, u, h->from), b = sb_uncertainty_place(setup, u, h->to);
	return (struct sym3){ mix(a.nn, b.nn, t), mix(a.ee, b.ee, t), mix(a.uu, b.uu, t), mix(a.ne, b.ne, t),
		mix(a.nu, b.nu, t), mix(a.eu, b.eu, t) };
}

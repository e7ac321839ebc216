/* The corridor: a box around the design line whose sides the contract sets, by station. */
#include "model/corridor.h"

#include "base/mem.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static double limit_of(const struct frame *f, const struct number *n, double otherwise)
{
	return sb_number_given(n) ? sb_frame_metres(f, n->value) : otherwise;
}

static int by_station(const void *a, const void *b)
{
	const struct corridor_piece *x = a, *y = b;

	return (x->from_m > y->from_m) - (x->from_m < y->from_m);
}

static void add_piece(const struct frame *f, struct corridor *c, const struct corridor_range *r,
	struct sb_problems *problems)
{
	struct corridor_piece *p = &c->pieces[c->count];

	if (r->from.value >= r->to.value) {
		sb_problems_add(problems, 0, "corridor.csv", r->line, "to",
			"the range ends at %s, which is not past its beginning at %s.", r->to.text,
			r->from.text);
		return;
	}
	p->from_m = sb_frame_metres(f, r->from.value);
	p->to_m = sb_frame_metres(f, r->to.value);
	p->limits.up_m = limit_of(f, &r->up, c->general.up_m);
	p->limits.down_m = limit_of(f, &r->down, c->general.down_m);
	p->limits.left_m = limit_of(f, &r->left, c->general.left_m);
	p->limits.right_m = limit_of(f, &r->right, c->general.right_m);
	c->count++;
}

static void check_overlap(const struct frame *f, const struct corridor *c, struct sb_problems *problems)
{
	const struct corridor_piece *reach = c->pieces; /* the one that goes furthest so far */

	for (size_t i = 1; i < c->count; i++) {
		const struct corridor_piece *p = &c->pieces[i];
		if (p->from_m < reach->to_m - 1e-9)
			sb_problems_add(problems, 0, "corridor.csv", 0, "from",
				"two ranges overlap between stations %.2f and %.2f: give each station one range.",
				sb_frame_typed(f, p->from_m), sb_frame_typed(f, fmin(p->to_m, reach->to_m)));
		if (p->to_m > reach->to_m)
			reach = p;
	}
}

int sb_corridor_build(
	const struct job *job, const struct frame *f, struct corridor *out, struct sb_problems *problems)
{
	struct sb_problems own = { 0 };
	struct sb_problems *list = problems ? problems : &own;
	size_t before = list->errors;

	memset(out, 0, sizeof *out);
	out->general.up_m = limit_of(f, &job->up, HUGE_VAL);
	out->general.down_m = limit_of(f, &job->down, HUGE_VAL);
	out->general.left_m = limit_of(f, &job->left, HUGE_VAL);
	out->general.right_m = limit_of(f, &job->right, HUGE_VAL);
	out->near = job->near.value;
	out->exit_long_m = limit_of(f, &job->exit_long, HUGE_VAL);
	out->exit_short_m = limit_of(f, &job->exit_short, HUGE_VAL);
	out->exit_left_m = limit_of(f, &job->exit_left, HUGE_VAL);
	out->exit_right_m = limit_of(f, &job->exit_right, HUGE_VAL);
	if (job->range_count) {
		out->pieces = sb_alloc(job->range_count * sizeof *out->pieces);
		for (size_t i = 0; i < job->range_count; i++)
			add_piece(f, out, &job->ranges[i], list);
		qsort(out->pieces, out->count, sizeof *out->pieces, by_station);
		check_overlap(f, out, list);
	}
	bool bad = list->errors > before;
	sb_problems_clear(&own);
	return bad ? -1 : 0;
}

void sb_corridor_clear(struct corridor *c)
{
	sb_free(c->pieces);
	memset(c, 0, sizeof *c);
}

struct corridor_limits sb_corridor_at(const struct corridor *c, double station_m)
{
	const double touch = 1e-9;
	struct corridor_limits l = c->general;
	bool first = true;

	for (size_t i = 0; i < c->count && c->pieces[i].from_m <= station_m + touch; i++) {
		const struct corridor_piece *p = &c->pieces[i];
		if (p->to_m < station_m - touch)
			continue;
		if (first) {
			l = p->limits;
			first = false;
			continue;
		}
		l.up_m = fmin(l.up_m, p->limits.up_m);
		l.down_m = fmin(l.down_m, p->limits.down_m);
		l.left_m = fmin(l.left_m, p->limits.left_m);
		l.right_m = fmin(l.right_m, p->limits.right_m);
	}
	return l;
}

const char *sb_side_word(enum side s)
{
	static const char *const words[] = { "on line", "high", "low", "left", "right" };

	return words[s];
}

static double share_of(double value, double limit)
{
	if (isinf(limit))
		return 0;
	/* A limit of nothing: a hair's breadth is arithmetic, more is past it. */
	if (value <= 1e-9)
		return 0;
	return value >= limit * SB_SHARE_MOST ? SB_SHARE_MOST : value / limit;
}

struct corridor_use sb_corridor_use(const struct corridor_limits *l, double offset_m, double height_m)
{
	enum side up_down = height_m >= 0 ? SIDE_UP : SIDE_DOWN,
		  across = offset_m >= 0 ? SIDE_RIGHT : SIDE_LEFT;
	double vertical = height_m >= 0 ? l->up_m : l->down_m,
	       lateral = offset_m >= 0 ? l->right_m : l->left_m;
	double v = share_of(fabs(height_m), vertical), a = share_of(fabs(offset_m), lateral);

	if (v == 0 && a == 0)
		return (struct corridor_use){ .side = SIDE_NONE, .limit_m = fmin(vertical, lateral) };
	if (v >= a)
		return (struct corridor_use){ v, up_down, fabs(height_m), vertical };
	return (struct corridor_use){ a, across, fabs(offset_m), lateral };
}

/* The design line, built from the sheet's points of intersection and checked as a drawing would be. */
#include "model/design.h"

#include "base/mem.h"
#include "geom/angle.h"
#include "geom/vec3.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* How far ends may miss one another before it is said, metres: drawings round to a hundredth. A miss of more
 * than a metre and a hundredth of the length is another line and is refused. */
static const double end_said_m = 0.01;

static bool another_line(const struct design *d, double miss_m)
{
	return miss_m > fmax(1.0, 0.01 * d->length_m);
}

static void explain_chain(const struct frame *f, enum chain_status status, const char *file, int line,
	size_t where, double by, struct sb_problems *problems)
{
	switch (status) {
	case CHAIN_OK:
		return;
	case CHAIN_BREAKS:
		sb_problems_add(problems, 1, file, line, "radius",
			"the line has a corner at point %zu: no hole turns on the spot. Give it a radius.",
			where + 1);
		return;
	case CHAIN_FEW:
		sb_problems_add(problems, 0, file, 0, "",
			"fewer than two points: a line needs its beginning and its end.");
		return;
	case CHAIN_SAME:
		sb_problems_add(problems, 0, file, line, "", "points %zu and %zu are the same.", where + 1,
			where + 2);
		return;
	case CHAIN_OVERLAP:
		sb_problems_add(problems, 0, file, line, "radius",
			"the curve at point %zu does not fit: its tangent is %.3f too long. A smaller radius, or points further "
			"apart.",
			where + 1, sb_frame_typed(f, by));
		return;
	case CHAIN_REVERSED:
		sb_problems_add(
			problems, 0, file, line, "", "the line turns right back at point %zu.", where + 1);
		return;
	case CHAIN_RANGE:
		sb_problems_add(problems, 0, file, line, "",
			"point %zu has a coordinate or radius that cannot be.", where + 1);
		return;
	case CHAIN_STEEP:
		break;
	}
	sb_problems_add(
		problems, 0, file, line, "station", "station does not grow after point %zu.", where + 1);
}

static int build_alignment(
	const struct job *job, const struct frame *f, struct design *d, struct sb_problems *problems)
{
	size_t count = job->alignment_count ? job->alignment_count : 2, where = 0;
	struct chain_pi *pis = sb_alloc(count * sizeof *pis);
	double by = 0;

	for (size_t i = 0; i < job->alignment_count; i++) {
		const struct alignment_pi *p = &job->alignment[i];
		struct vec3 at = sb_frame_ground(f, p->easting.value, p->northing.value, 0);
		pis[i] = (struct chain_pi){ at.n, at.e, sb_frame_metres(f, p->radius.value) };
	}
	if (job->alignment_count == 0) {
		struct vec3 end = sb_frame_ground(f, job->exit.easting.value, job->exit.northing.value, 0);
		pis[1] = (struct chain_pi){ end.n, end.e, 0 };
	}
	d->alignment = sb_alloc((2 * count) * sizeof *d->alignment);
	enum chain_status status = sb_chain_build(pis, count, d->alignment, &d->alignment_count, &where, &by);
	int line = where < job->alignment_count ? job->alignment[where].line : 0;
	explain_chain(f, status, "alignment.csv", line, where, by, problems);
	if (status >= 0) {
		d->length_m = sb_chain_length(d->alignment, d->alignment_count);
		struct chain_place first = { .x = pis[0].x, .y = pis[0].y },
				   last = { .x = pis[count - 1].x, .y = pis[count - 1].y };
		struct vec3 end = sb_frame_ground(f, job->exit.easting.value, job->exit.northing.value, 0);
		double misses[2] = { hypot(first.x, first.y), hypot(last.x - end.n, last.y - end.e) };
		for (int i = 0; i < 2; i++)
			if (misses[i] > end_said_m)
				sb_problems_add(problems, !another_line(d, misses[i]), "alignment.csv", 0, "",
					"the %s point lies %.3f from the %s in [control]: they must be the same place.",
					i ? "last" : "first", sb_frame_typed(f, misses[i]),
					i ? "exit" : "entry");
	}
	sb_free(pis);
	return status < 0 ? -1 : 0;
}

static int build_profile(
	const struct job *job, const struct frame *f, struct design *d, struct sb_problems *problems)
{
	size_t count = job->profile_count, where = 0;
	struct chain_pi *pis = sb_alloc((count + 1) * sizeof *pis);
	enum chain_status status = CHAIN_OK;
	double by = 0;

	for (size_t i = 0; i < count; i++)
		pis[i] = (struct chain_pi){ sb_frame_metres(f, job->profile[i].station.value),
			sb_frame_metres(f, job->profile[i].elevation.value),
			sb_frame_metres(f, job->profile[i].radius.value) };
	for (size_t i = 0; i + 1 < count && status == CHAIN_OK; i++)
		if (pis[i + 1].x <= pis[i].x) {
			status = CHAIN_STEEP;
			where = i;
		}
	d->profile = sb_alloc((2 * count + 1) * sizeof *d->profile);
	if (status == CHAIN_OK)
		status = sb_chain_build(pis, count, d->profile, &d->profile_count, &where, &by);
	explain_chain(
		f, status, "profile.csv", where < count ? job->profile[where].line : 0, where, by, problems);
	sb_free(pis);
	return status < 0 ? -1 : 0;
}

static void compare_end(const struct frame *f, const struct design *d, double got_m, double want_m,
	const char *column, const char *what, const char *with, struct sb_problems *problems)
{
	double miss = fabs(got_m - want_m);

	if (miss > end_said_m)
		sb_problems_add(problems, !another_line(d, miss), "profile.csv", 0, column,
			"the %s is %.3f, but %s %.3f: %.3f apart. They must agree.", what,
			sb_frame_typed(f, got_m), with, sb_frame_typed(f, want_m), sb_frame_typed(f, miss));
}

static void check_ends(
	const struct job *job, const struct frame *f, struct design *d, struct sb_problems *problems)
{
	const struct profile_pi *first = &job->profile[0], *last = &job->profile[job->profile_count - 1];

	compare_end(f, d, sb_frame_metres(f, first->station.value), 0, "station", "first station",
		"the entry is at station", problems);
	compare_end(f, d, sb_frame_metres(f, last->station.value), d->length_m, "station", "last station",
		"the alignment ends at station", problems);
	compare_end(f, d, sb_frame_metres(f, first->elevation.value),
		sb_frame_metres(f, job->entry.elevation.value), "elevation", "first elevation",
		"[control] entry says", problems);
	compare_end(f, d, sb_frame_metres(f, last->elevation.value),
		sb_frame_metres(f, job->exit.elevation.value), "elevation", "last elevation",
		"[control] exit says", problems);
}

/* Horizontal and vertical curvature together. With the line's slope angle theta against level, vertical
 * curvature kv along the line and horizontal curvature kh along the plan:
 * k^2 = kv^2 + (kh cos^2 theta)^2   (derived; the bearing turns kh per plan length, which is cos theta of the
 * line) */
static double combined_curvature(double kh, double kv, double slope)
{
	return hypot(kv, kh / (1 + slope * slope));
}

struct design_place sb_design_at(const struct design *d, double station_m)
{
	struct chain_place plan = sb_chain_at(d->alignment, d->alignment_count, station_m);
	struct chain_height height = sb_chain_height(d->profile, d->profile_count, station_m);
	double level = 1 / sqrt(1 + height.slope * height.slope);
	double k = combined_curvature(plan.curvature, height.curvature, height.slope);
	struct design_place p = {
		.station_m = station_m,
		.at = { plan.x, plan.y, height.y },
		.heading = { plan.cos_bearing * level, plan.sin_bearing * level, height.slope * level },
		.inc_rad = SB_PI / 2 + atan(height.slope),
		.azi_rad = sb_wrap_turn(plan.bearing),
		.radius_m = k > 0 ? 1 / k : HUGE_VAL,
	};
	return p;
}

static void note_tightest(struct design *d, double station_m)
{
	struct design_place p = sb_design_at(d, station_m);

	if (p.radius_m < d->tightest_m) {
		d->tightest_m = p.radius_m;
		d->tightest_station_m = station_m;
	}
}

/* Curvature changes only where parts meet, and within a pair of curves is largest where the line is most
 * level: at an end of the stretch that they share, or at the low or high point. So the places to look are the
 * ends of all parts (a hair inside) and the level points. */
static void find_tightest(struct design *d)
{
	const double hair = 1e-6;

	d->tightest_m = HUGE_VAL;
	for (size_t i = 0; i < d->alignment_count; i++) {
		note_tightest(d, d->alignment[i].at + hair);
		note_tightest(d, d->alignment[i].at + d->alignment[i].length - hair);
	}
	for (size_t i = 0; i < d->profile_count; i++) {
		const struct chain_part *p = &d->profile[i];
		note_tightest(d, p->x + hair);
		if (i + 1 < d->profile_count)
			note_tightest(d, d->profile[i + 1].x - hair);
		double level_at = p->curvature != 0 ? -p->bearing / p->curvature : -1;
		if (level_at > 0 && level_at < p->length)
			note_tightest(d, p->x - p->sin_bearing / p->curvature);
	}
}

static void check_radius(
	const struct job *job, const struct frame *f, const struct design *d, struct sb_problems *problems)
{
	const struct {
		const struct number *limit;
		const char *whose;
	} pipes[] = { { &job->product_minimum_radius, "product pipe" },
		{ &job->drill_pipe_minimum_radius, "drill pipe" } };

	for (size_t i = 0; i < 2; i++) {
		double limit = sb_frame_metres(f, pipes[i].limit->value);
		/* A thousandth less is rounding on the drawing. */
		if (sb_number_given(pipes[i].limit) && d->tightest_m < limit * 0.999)
			sb_problems_add(problems, 1, "profile.csv", 0, "radius",
				"the design bends to a radius of %.0f near station %.1f, horizontal and vertical curve together; the %s "
				"takes %s at least. Ask the engineer before drilling.",
				sb_frame_typed(f, d->tightest_m), sb_frame_typed(f, d->tightest_station_m),
				pipes[i].whose, pipes[i].limit->text);
	}
}

int sb_design_build(
	const struct job *job, const struct frame *f, struct design *out, struct sb_problems *problems)
{
	struct sb_problems own = { 0 };
	struct sb_problems *list = problems ? problems : &own;
	size_t before = list->errors;

	memset(out, 0, sizeof *out);
	int bad = build_alignment(job, f, out, list);
	bad |= build_profile(job, f, out, list);
	if (!bad) {
		check_ends(job, f, out, list);
		out->exit_elevation_m = sb_frame_metres(f, job->exit.elevation.value);
		find_tightest(out);
		check_radius(job, f, out, list);
	}
	bad |= list->errors > before;
	sb_problems_clear(&own);
	return bad ? -1 : 0;
}

void sb_design_clear(struct design *d)
{
	sb_free(d->alignment);
	sb_free(d->profile);
	memset(d, 0, sizeof *d);
}

double sb_design_station(const struct design *d, struct vec3 at, double near_m, double *offset_m)
{
	double station, offset;

	sb_chain_project(d->alignment, d->alignment_count, at.n, at.e, near_m, &station, &offset);
	if (offset_m)
		*offset_m = offset;
	return station;
}

bool sb_design_ground(const struct job *job, const struct frame *f, double station_m, double *elevation_m)
{
	const double touch = 1e-9; /* metres and feet there and back */
	double station = sb_frame_typed(f, station_m);

	for (size_t i = 1; i < job->ground_count; i++) {
		const struct ground_point *a = &job->ground[i - 1], *b = &job->ground[i];
		double along = station - a->station.value, length = b->station.value - a->station.value;
		if (along < -touch || along > length + touch || length <= 0)
			continue;
		double t = fmin(fmax(along / length, 0), 1);
		*elevation_m = sb_frame_metres(
			f, a->elevation.value + t * (b->elevation.value - a->elevation.value));
		return true;
	}
	return false;
}

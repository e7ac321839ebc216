/* A job's place asked of map and model. Each of them may fail without the other: a day outside the model's
 * years takes no convergence away. */
#include "io/site.h"

#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

/* ---- asking ---- */

static void note(struct site *s, const char *text)
{
	for (size_t i = 0; i < s->warning_count; i++)
		if (sb_same(s->warnings[i], text))
			return;
	if (s->warning_count < SB_EARTH_WARNINGS)
		sb_copy(s->warnings[s->warning_count++], SB_CRS_WARNING_TEXT, text);
}

/* One end on the map. */
static int place_end(struct sb_crs *crs, const struct job *job, const struct place *p, struct site *s,
	struct crs_point *at, struct sb_err *err)
{
	char text[SB_CRS_WARNINGS][SB_CRS_WARNING_TEXT];

	if (sb_crs_at(crs, p->easting.value, p->northing.value,
		    p->elevation.value * sb_unit_metres(job->unit), at, err))
		return -1;
	struct crs_point fit = *at;
	fit.accuracy_m = 0;
	size_t count = sb_crs_warnings(crs, &fit, text);
	for (size_t i = 0; i < count; i++)
		note(s, text[i]);
	return 0;
}

static int ask_map(const struct job *job, struct sb_crs *crs, struct site *s, struct sb_err *err)
{
	struct crs_point exit;

	if (sb_crs_takes_unit(crs, job->unit, err))
		return -1;
	if (place_end(crs, job, &job->entry, s, &s->grid, err))
		return sb_fail_within(err, "The job's entry: ");
	if (place_end(crs, job, &job->exit, s, &exit, err))
		return sb_fail_within(err, "The job's exit: ");
	s->combined = (s->grid.combined + exit.combined) / 2;
	const struct crs_about *about = sb_crs_about(crs);
	snprintf(s->system, sizeof s->system, "%s, %s", about->code, about->name);
	sb_copy(s->table, sizeof s->table, about->table);
	s->mapped = true;
	return 0;
}

static void ask_model(const struct job *job, struct site *s)
{
	struct earth e;
	struct sb_err err = { 0 };

	if (sb_earth_at_place(&s->grid.world, job->entry.elevation.value * sb_unit_metres(job->unit), s->ms,
		    &e, &err)) {
		sb_copy(s->magnet_says, sizeof s->magnet_says, err.text);
		return;
	}
	s->magnet = e.magnet;
	s->magnetic = true;
	for (size_t i = 0; i < e.warning_count; i++)
		note(s, e.warnings[i]);
}

void sb_site_find(const struct job *job, int64_t ms, struct site *out)
{
	struct site s = { .ms = ms, .local = sb_same(job->crs, "local") };
	struct sb_crs *crs = NULL;
	struct sb_err err = { 0 };

	if (s.local)
		snprintf(s.map_says, sizeof s.map_says,
			"The job's coordinates are local: nothing ties them to the earth, and what map and magnetic model say "
			"here cannot be known. sagbend earth --latitude LAT --longitude LON asks the model alone.");
	else if (sb_crs_open(job->crs, &crs, &err) || ask_map(job, crs, &s, &err))
		sb_copy(s.map_says, sizeof s.map_says, err.text);
	if (s.mapped)
		ask_model(job, &s);
	else
		snprintf(s.magnet_says, sizeof s.magnet_says,
			"Without the map nobody knows the latitude and longitude that the model is asked for.");
	sb_crs_close(crs);
	*out = s;
}

/* ---- comparing ---- */

static double apart_degrees(double a_rad, double b_rad)
{
	return fabs(sb_deg(sb_wrap_half(a_rad - b_rad)));
}

static void judge(struct comparison *c, double apart, double limit)
{
	c->known = true;
	c->apart = apart;
	c->level = apart > limit * (1 + 1e-9) ? LEVEL_WATCH : LEVEL_OK; /* a billionth over is arithmetic */
}

static void not_known(struct comparison *c, const char *what, const char *why)
{
	snprintf(c->words, sizeof c->words, "not compared: %s%s", what, why);
}

static void compare_declination(const struct job *as, const struct site *s, struct comparison *c)
{
	if (!sb_number_given(&as->declination)) {
		not_known(c, "the job has none", "");
		return;
	}
	if (s == NULL || !s->magnetic) {
		not_known(c, "nothing is known of the model here", "");
		return;
	}
	double found = s->magnet.field.declination_rad;
	judge(c, apart_degrees(sb_rad(as->declination.value), found), SB_AZIMUTH_APART);
	snprintf(c->words, sizeof c->words,
		"the job has %s, the model finds %.2f, give or take %.2f: %.2f degrees apart",
		as->declination.text, sb_deg(found), sb_deg(s->magnet.sigma.declination_rad), c->apart);
}

static void compare_convergence(const struct job *as, const struct site *s, struct comparison *c)
{
	if (!sb_number_given(&as->convergence)) {
		not_known(c, "the job has none", "");
		return;
	}
	if (s == NULL || !s->mapped) {
		not_known(c, "nothing is known of the map here", "");
		return;
	}
	judge(c, apart_degrees(sb_rad(as->convergence.value), s->grid.convergence_rad),
		SB_SITE_CONVERGENCE_APART);
	snprintf(c->words, sizeof c->words, "the job has %s, the map finds %.2f: %.2f degrees apart",
		as->convergence.text, sb_deg(s->grid.convergence_rad), c->apart);
}

static void compare_scale(const struct job *as, const struct site *s, struct comparison *c)
{
	if (s == NULL || !s->mapped) {
		not_known(c, "nothing is known of the map here", "");
		return;
	}
	judge(c, fabs(as->scale_factor.value - s->combined), SB_SITE_SCALE_APART);
	snprintf(c->words, sizeof c->words,
		"the job has %s, map and height make %.6f: %.0f mm apart in a kilometre",
		as->scale_factor.text, s->combined, c->apart * 1e6);
}

/* What the tool read on the staked line, turned to the grid, beside the line's own bearing there. */
static void say_line(const struct job *as, const struct frame *f, double grid_rad, struct comparison *c)
{
	double bearing = sb_deg(sb_wrap_turn(f->design_bearing_rad));

	judge(c, apart_degrees(grid_rad, f->design_bearing_rad), SB_AZIMUTH_APART);
	snprintf(c->words, sizeof c->words,
		"%s as read makes %.2f on the grid, where the line bears %.2f: %.2f degrees apart",
		as->bore_azimuth_read.text, sb_deg(sb_wrap_turn(grid_rad)), bearing, c->apart);
}

static void compare_line(const struct job *as, const struct frame *f, struct comparison *c)
{
	double apart;

	if (sb_frame_azimuth_disagrees(as, f, &apart))
		say_line(as, f, f->design_bearing_rad + sb_rad(apart), c);
	else if (!sb_number_given(&as->bore_azimuth_read))
		not_known(c, "nobody has laid the tool on the staked line", "");
	else
		not_known(c, "declination and convergence are not both in the job", "");
}

static void compare_line_found(
	const struct job *as, const struct frame *f, const struct site *s, struct comparison *c)
{
	if (!sb_number_given(&as->bore_azimuth_read))
		not_known(c, "nobody has laid the tool on the staked line", "");
	else if (as->reference == REFERENCE_GRID || as->reference == REFERENCE_TRUE)
		not_known(c, "readings refer to ",
			as->reference == REFERENCE_GRID ? "grid north" : "true north");
	else if (s == NULL || !s->magnetic)
		not_known(c, "nothing is known of map and model here", "");
	else
		say_line(as, f,
			sb_rad(as->bore_azimuth_read.value + as->azimuth_correction.value) +
				sb_earth_turn(s->magnet.field.declination_rad, s->grid.convergence_rad),
			c);
}

void sb_site_compare(
	const struct job *as, const struct frame *f, const struct site *s, struct comparison out[HELD_COUNT])
{
	static const char *const labels[HELD_COUNT] = { "declination", "convergence", "scale factor",
		"tool on the line", "line, as found" };
	static const char *const keys[HELD_COUNT] = { "declination", "convergence", "scale_factor",
		"bore_azimuth_read", "bore_azimuth_read" };

	for (int i = 0; i < HELD_COUNT; i++)
		out[i] = (struct comparison){ .label = labels[i], .key = keys[i] };
	compare_declination(as, s, &out[HELD_DECLINATION]);
	compare_convergence(as, s, &out[HELD_CONVERGENCE]);
	compare_scale(as, s, &out[HELD_SCALE]);
	compare_line(as, f, &out[HELD_LINE]);
	compare_line_found(as, f, s, &out[HELD_LINE_FOUND]);
}

/* ---- for those who make a job ---- */

static void warn_of(const struct comparison *c, struct sb_problems *problems)
{
	if (c->level != LEVEL_OK)
		sb_problems_add(problems, 1, "job.ini", 0, c->key,
			"%s. Settle which holds before drilling: sagbend earth shows what was found.",
			c->words);
}

void sb_site_warn(const struct job *job, const struct site *s, struct sb_problems *problems)
{
	struct comparison all[HELD_COUNT];
	struct frame f;

	if (sb_frame_init(job, &f, NULL))
		return;
	sb_site_compare(job, &f, s, all);
	if (s->local) {
		warn_of(&all[HELD_LINE], problems);
		return;
	}
	if (!s->mapped)
		sb_problems_add(problems, 1, "job.ini", 0, "crs",
			"%.300s Declination, convergence and scale were held against nothing.", s->map_says);
	else if (!s->magnetic)
		sb_problems_add(problems, 1, "job.ini", 0, "declination",
			"not held against the model: %.300s", s->magnet_says);
	for (size_t i = 0; i < s->warning_count; i++)
		sb_problems_add(problems, 1, "job.ini", 0, "crs", "%s", s->warnings[i]);
	for (int i = 0; i < HELD_LINE_FOUND; i++)
		warn_of(&all[i], problems);
}

/* Cover over what is drilled and what is to come, against what is asked for station by station. */
#include "model/cover.h"

#include <math.h>
#include <stdio.h>

#include "hole_stretch.h"

/* A tenth of a millimetre. */
#define TOLERANCE 1e-4
/* Sigmas beyond which too little cover is out of question. */
#define FAR 8.0
/* A micrometre short is arithmetic, not a breach. */
#define TOUCH 1e-6

static const struct cover none = { .cover_m = HUGE_VAL, .required_m = NAN, .chance = NAN };

/* ---- the top of the hole ---- */

/* Straight up from the centre line to the top; a hole that stands nearly upright has none. */
static double crown(const struct clearance_ask *ask, struct vec3 heading)
{
	return ask->around->hole.judged_m / fmax(hypot(heading.n, heading.e), 0.2);
}

static void top_at(const void *stretch, double s_m, double *x_m, double *top_m)
{
	const struct hole_stretch *h = stretch;
	struct vec3 at, heading;

	hole_stretch_place(h, s_m, &at, &heading);
	*x_m = sb_design_station(h->ask->setup.design, at, h->station_m, NULL);
	*top_m = at.u + crown(h->ask, heading);
}

/* ---- how sure, and the level ---- */

/* One sigma of cover: of the height, and of where along a ground that slopes. */
static double sigma_of(
	const struct clearance_ask *ask, const struct sym3 *sure, double station_m, double slope)
{
	struct design_place design = sb_design_at(ask->setup.design, station_m);
	struct vec3 way = { slope * cos(design.azi_rad), slope * sin(design.azi_rad), -1 };

	return sb_uncert_along(sure, way);
}

static double spare_of(const struct cover *c)
{
	return c->cover_m - (isnan(c->required_m) ? 0 : c->required_m);
}

static void set_chance(struct cover *c)
{
	if (isnan(c->required_m))
		return;
	c->chance = c->sigma_m > 0 ? sb_spread_below(-spare_of(c) / c->sigma_m) : spare_of(c) < 0;
}

/* Less to spare than the sheet says; else less than the give or take: half of what the confidence leaves lies
 * to that side. */
static bool nears(const struct clearance_ask *ask, const struct cover *c)
{
	double spare = ask->around->cover_spare_m;

	return isnan(spare) ? c->chance > (1 - ask->uncertainty->confidence) / 2
			    : spare_of(c) < spare - TOUCH;
}

static enum level level_drilled(const struct clearance_ask *ask, const struct cover *c)
{
	if (!c->known || isnan(c->required_m))
		return LEVEL_OK;
	bool breach = ask->setup.job->judge == JUDGE_MEAN
		? spare_of(c) < -TOUCH
		: c->chance > sb_uncertainty_limit(&ask->setup).limit;
	if (breach)
		return LEVEL_BREACH;
	return nears(ask, c) ? LEVEL_WATCH : LEVEL_OK;
}

static enum level level_ahead(const struct clearance_ask *ask, const struct cover *c)
{
	if (!c->known || isnan(c->required_m))
		return LEVEL_OK;
	return spare_of(c) < -TOUCH || nears(ask, c) ? LEVEL_WATCH : LEVEL_OK;
}

/* ---- one stretch of hole ---- */

static struct cover describe(const struct clearance_ask *ask, const struct hole_stretch *h,
	const struct cover_least *least, double required_m)
{
	struct sym3 sure = hole_stretch_sure(h, least->s_m);
	struct cover c = {
		.known = true,
		.joint = h->joint,
		.md_m = h->from_md_m + least->s_m,
		.station_m = least->x_m,
		.cover_m = least->cover_m,
		.required_m = required_m,
		.sigma_m = sigma_of(ask, &sure, least->x_m, least->slope),
		.chance = (double)NAN,
	};

	set_chance(&c);
	c.level = h->ahead ? level_ahead(ask, &c) : level_drilled(ask, &c);
	return c;
}

static bool worse(const struct cover *one, const struct cover *than)
{
	if (one->known != than->known)
		return one->known;
	return one->level != than->level ? one->level > than->level : spare_of(one) < spare_of(than);
}

/* Straight in plan the station goes on with the hole; in a curve of the alignment it runs faster or slower by
 * what the hole is off it. Both at most double, for holes that are off by less than half the radius. */
static struct cover_hole hole_of(const struct hole_stretch *h)
{
	return (struct cover_hole){ top_at, h, h->length_m,
		2 * h->bend + 4 * h->ask->around->alignment_bend };
}

/* The least over a stretch of hole against what is asked for, as far as less than within_m is to spare. */
static struct cover over(const struct clearance_ask *ask, const struct hole_stretch *h, double within_m)
{
	struct cover_hole hole = hole_of(h);
	struct cover worst = none;
	struct cover_least least;

	for (size_t i = 0; i < ask->around->range_count; i++) {
		const struct cover_range *r = &ask->around->ranges[i];
		if (!(r->minimum_m > 0) ||
			sb_cover_least(&r->ground, &hole, r->minimum_m + within_m, TOLERANCE, &least) ==
				COVER_NONE)
			continue;
		struct cover one = describe(ask, h, &least, r->minimum_m);
		if (worse(&one, &worst))
			worst = one;
	}
	return worst;
}

/* How little must be to spare over a course to be worth a look: as little as chance could bring it. */
static double reach_of(const struct clearance_ask *ask, const struct row *row)
{
	double spare = ask->around->cover_spare_m;

	return fmax(FAR * (row->doubt.up_m + row->doubt.along_m), isnan(spare) ? 0 : spare) + TOUCH;
}

/* ---- rows and places ---- */

static double asked_for(const struct clearance_ask *ask, double station_m)
{
	double required = sb_surroundings_cover(ask->around, station_m);

	return required > 0 ? required : (double)NAN;
}

/* At one place of a stretch. */
static struct cover at_place(const struct clearance_ask *ask, const struct hole_stretch *h, double s_m)
{
	struct cover_least at = { .s_m = s_m };
	double top, ground;

	top_at(h, s_m, &at.x_m, &top);
	if (!sb_cover_ground(&ask->around->ground, at.x_m, &ground, &at.slope))
		return none;
	at.cover_m = ground - top;
	return describe(ask, h, &at, asked_for(ask, at.x_m));
}

struct cover sb_cover_at(const struct clearance_ask *ask, const struct row *row)
{
	if (!row->on_path)
		return none;
	struct hole_stretch h = hole_stretch_spot(ask, row);
	return at_place(ask, &h, 0);
}

struct cover sb_cover_between(
	const struct clearance_ask *ask, const struct row *before, const struct row *row, double md_m)
{
	if (before == row)
		return sb_cover_at(ask, row);
	struct hole_stretch h = hole_stretch_course(ask, before, row);
	return at_place(ask, &h, fmin(fmax(md_m - h.from_md_m, 0), h.length_m));
}

struct cover sb_cover_course(const struct clearance_ask *ask, const struct row *row)
{
	return row->on_path && row->joint > 0 ? sb_cover_over(ask, hole_stretch_before(row), row) : none;
}

struct cover sb_cover_over(const struct clearance_ask *ask, const struct row *before, const struct row *row)
{
	struct cover_least least;
	struct hole_stretch h = hole_stretch_course(ask, before, row);
	struct cover_hole hole = hole_of(&h);
	if (sb_cover_least(&ask->around->ground, &hole, HUGE_VAL, TOLERANCE, &least) == COVER_NONE)
		return none;
	return describe(ask, &h, &least, asked_for(ask, least.x_m));
}

/* ---- the path, held, planned ---- */

static void gather(struct cover *to, const struct cover *one)
{
	if (worse(one, to))
		*to = *one;
}

struct cover sb_cover_drilled(const struct clearance_ask *ask)
{
	const struct path *p = ask->path;
	struct cover worst = none;

	for (size_t i = 1; i < p->on_count; i++) {
		struct hole_stretch h =
			hole_stretch_course(ask, &p->rows[p->on_path[i - 1]], &p->rows[p->on_path[i]]);
		struct cover one =
			over(ask, &h, worst.known ? fmax(spare_of(&worst), reach_of(ask, h.to)) : HUGE_VAL);
		gather(&worst, &one);
	}
	return worst;
}

/* One more stretch of what is to come; false at the end of the design line. */
static bool go_on(const struct clearance_ask *ask, struct hole_stretch *h, const struct attitude *from,
	const struct attitude *to, double length_m, int joint, double within_m, struct cover *worst)
{
	*h = hole_stretch_on(h, from, to, length_m, joint);
	h->station_m =
		sb_design_station(ask->setup.design, hole_stretch_at(h, h->length_m), h->station_m, NULL);
	struct cover one = over(ask, h, within_m);
	gather(worst, &one);
	return h->station_m < ask->setup.design->length_m;
}

static struct cover held_from(
	const struct clearance_ask *ask, const struct row *from, int joint, int joints, double within_m)
{
	struct hole_stretch h;

	if (!ask->bit->known)
		return none;
	h = hole_stretch_to_bit(ask, from);
	struct cover worst = over(ask, &h, within_m);
	for (int k = 1; k <= joints; k++) {
		const struct setup *s = &ask->setup;
		double length = sb_frame_metres(s->frame, sb_job_tally(s->job, joint + k).value);
		if (!go_on(ask, &h, &ask->bit->attitude, &ask->bit->attitude, length, joint + k, within_m,
			    &worst))
			break;
	}
	return worst;
}

struct cover sb_cover_held(const struct clearance_ask *ask, int joints)
{
	return held_from(ask, sb_path_back(ask->path, 0), ask->path->rows[ask->path->count - 1].joint, joints,
		HUGE_VAL);
}

struct cover sb_cover_planned(const struct clearance_ask *ask, const struct plan *plan)
{
	const struct attitude *from = &plan->heading;

	if (!ask->bit->known || !plan->known)
		return none;
	struct hole_stretch h = hole_stretch_to_bit(ask, sb_path_back(ask->path, 0));
	struct cover worst = over(ask, &h, HUGE_VAL);
	h.start = sb_vec3_sub(plan->bit, h.arc.step); /* the plan knows better where the bit is by now */
	for (size_t i = 0; i < plan->count; i++) {
		const struct plan_joint *j = &plan->joints[i];
		if (!go_on(ask, &h, from, &j->target, j->length_m, j->joint, HUGE_VAL, &worst))
			break;
		from = &j->target;
	}
	return worst;
}

/* ---- the verdicts ---- */

static void say_drilled(const struct clearance_ask *ask, const struct cover *c, struct verdict *v)
{
	const struct frame *f = ask->setup.frame;
	const char *unit = sb_unit_short(ask->setup.job->unit);
	double cover = sb_frame_typed(f, c->cover_m), station = sb_frame_typed(f, c->station_m);
	double give = sb_frame_typed(f, ask->uncertainty->line_factor * c->sigma_m);

	v->level = c->level;
	v->limit = sb_frame_typed(f, c->required_m);
	v->value = sb_frame_typed(
		f, clearance_value(ask, c->cover_m, c->sigma_m, c->required_m, c->level != LEVEL_BREACH));
	int d = sb_warning_decimals(&ask->setup, cover, v->limit);
	if (c->level == LEVEL_BREACH && ask->setup.job->judge == JUDGE_CONFIDENCE)
		snprintf(v->text, sizeof v->text,
			"Joint %d: %.2g %% chance of less than the %.*f %s of cover required at station %.1f; %.3g %% is left. It is %.*f, give or take %.*f. Get an independent fix, or steer down.",
			c->joint, c->chance * 100, d, v->limit, unit, station,
			sb_uncertainty_limit(&ask->setup).limit * 100, d, cover, d, give);
	else if (c->level == LEVEL_BREACH)
		snprintf(v->text, sizeof v->text,
			"Joint %d has %.*f %s of cover at station %.1f; %.*f is required. Stop and ask the engineer; steer down, or pull back and redrill.",
			c->joint, d, cover, unit, station, d, v->limit);
	else
		snprintf(v->text, sizeof v->text,
			"Joint %d has %.*f %s of cover at station %.1f, give or take %.*f (%.4g %%); %.*f is required. Steer down in good time, or get an independent fix.",
			c->joint, d, cover, unit, station, d, give, ask->uncertainty->confidence * 100, d,
			v->limit);
}

/* joint: the last one drilled. */
static void say_ahead(const struct clearance_ask *ask, const struct cover *c, int joint, struct verdict *v)
{
	const struct frame *f = ask->setup.frame;
	const char *unit = sb_unit_short(ask->setup.job->unit);
	double station = sb_frame_typed(f, c->station_m);

	v->level = c->level;
	v->limit = sb_frame_typed(f, c->required_m);
	v->value = sb_frame_typed(f, c->cover_m);
	double give = sb_frame_typed(f, ask->uncertainty->line_factor * c->sigma_m);
	int d = sb_warning_decimals(&ask->setup, v->value, v->limit);
	if (v->value >= v->limit)
		snprintf(v->text, sizeof v->text,
			"As it heads, joint %d has %.*f %s of cover at station %.1f, give or take %.*f; %.*f is required. Steer down, or get an independent fix before it.",
			c->joint, d, v->value, unit, station, d, give, d, v->limit);
	else if (c->joint <= joint)
		snprintf(v->text, sizeof v->text,
			"Carried on from the reading, the bit has %.*f %s of cover by now, at station %.1f; %.*f is required. Stop and look.",
			d, v->value, unit, station, d, v->limit);
	else
		snprintf(v->text, sizeof v->text,
			"If the heading is held, joint %d has %.*f %s of cover at station %.1f; %.*f is required. Steer down now.",
			c->joint, d, v->value, unit, station, d, v->limit);
}

void sb_cover_judge(const struct clearance_ask *ask, const struct row *before, const struct row *row,
	struct verdict *drilled, struct verdict *ahead)
{
	const struct row *end = row->on_path ? row : before;

	if (row->joint == 0)
		return;
	struct cover comes =
		held_from(ask, end, row->joint, (int)ask->setup.job->look_ahead.value, reach_of(ask, end));
	if (comes.level != LEVEL_OK)
		say_ahead(ask, &comes, row->joint, ahead);
	if (!row->on_path)
		return;
	struct hole_stretch h = hole_stretch_course(ask, before, row);
	struct cover was = over(ask, &h, reach_of(ask, h.to));
	if (was.level != LEVEL_OK)
		say_drilled(ask, &was, drilled);
}

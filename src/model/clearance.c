/* Passing obstacles: each stretch of hole against each obstacle, the nearest kept; then how sure that is. */
#include "model/clearance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "hole_stretch.h"

/* A hundredth of a millimetre. */
#define TOLERANCE 1e-5
/* Sigmas beyond which an obstacle is out of question. */
#define FAR 8.0
/* A micrometre short is arithmetic, not a breach. */
#define TOUCH 1e-6

static const struct passing none = {
	.wall_m = HUGE_VAL, .pilot_m = NAN, .final_m = NAN, .required_m = NAN, .chance = NAN
};

/* ---- one stretch of hole and one obstacle ---- */

/* What the search goes by: how much more than required is left, or the distance where nothing is. */
static double to_spare(const struct obstacle *o, const struct obstacle_stretch *s, double centres_m)
{
	return centres_m - s->radius_m - (o->limited ? s->required_m : 0);
}

/* The nearest that the stretch of hole comes to any of the obstacle's; false when that is not below *best. */
static bool nearest(const struct clearance_ask *ask, const struct obstacle *o, const struct hole_stretch *h,
	double *best, struct clear_nearest *at, const struct obstacle_stretch **to)
{
	struct clear_curve curve = { hole_stretch_at, h, h->length_m, h->stretch };
	bool found = false;

	for (size_t i = o->first; i < o->first + o->count; i++) {
		const struct obstacle_stretch *s = &ask->around->stretches[i];
		if (!sb_clear_curve(&curve, s->a, s->b, *best - to_spare(o, s, 0), TOLERANCE, at))
			continue;
		*best = to_spare(o, s, at->distance_m);
		*to = s;
		found = true;
	}
	return found;
}

static double chance_of(const struct clearance_ask *ask, const struct obstacle *o,
	const struct hole_stretch *h, double s_m, const struct sym3 *sure)
{
	struct vec3 at, heading;

	hole_stretch_place(h, s_m, &at, &heading);
	return sb_clear_chance(
		at, heading, s_m, h->length_m - s_m, sure, &ask->around->keeps[o->first], o->count);
}

static void set_side(const struct vec3 *heading, const struct clear_nearest *at, struct passing *p)
{
	struct vec3 away = sb_vec3_sub(at->on_curve, at->on_line);
	double level = hypot(heading->n, heading->e);
	double c = level > 0 ? heading->n / level : 1, s = level > 0 ? heading->e / level : 0;

	p->above_m = away.u;
	p->ahead_m = away.n * c + away.e * s;
	p->right_m = away.e * c - away.n * s;
	p->hole = at->on_curve;
	p->obstacle = at->on_line;
}

/* One sigma of the distance: along the way from the one to the other; where they touch, of the height. */
static double sigma_of(const struct sym3 *sure, const struct clear_nearest *at)
{
	struct vec3 away = sb_vec3_sub(at->on_curve, at->on_line);
	double length = sb_vec3_length(away);

	return sb_uncert_along(
		sure, length > TOUCH ? sb_vec3_scale(away, 1 / length) : (struct vec3){ 0, 0, 1 });
}

/* Everything about the nearest place, once it is found. */
static struct passing describe(const struct clearance_ask *ask, const struct obstacle *o,
	const struct hole_stretch *h, const struct clear_nearest *at, const struct obstacle_stretch *to)
{
	const struct hole *hole = &ask->around->hole;
	struct sym3 sure = hole_stretch_sure(h, at->s_m);
	double wall = at->distance_m - to->radius_m;
	struct passing p = none;
	struct vec3 heading;

	hole_stretch_place(h, at->s_m, NULL, &heading);
	p.known = true;
	p.joint = h->joint;
	p.md_m = h->from_md_m + at->s_m;
	p.station_m = sb_design_station(ask->setup.design, at->on_curve, h->station_m, NULL);
	p.centres_m = at->distance_m;
	p.pilot_m = hole->pilot_given ? wall - hole->pilot_m : (double)NAN;
	p.final_m = hole->final_given ? wall - hole->final_m : (double)NAN;
	p.wall_m = wall - hole->judged_m;
	p.sigma_m = sigma_of(&sure, at);
	set_side(&heading, at, &p);
	if (!o->limited)
		return p;
	p.required_m = to->required_m;
	p.chance = chance_of(ask, o, h, at->s_m, &sure);
	return p;
}

/* Returned: none when it comes no nearer than within_m to what is required (to the wall, where nothing is).
 */
static struct passing pass(
	const struct clearance_ask *ask, size_t obstacle, const struct hole_stretch *h, double within_m)
{
	const struct obstacle *o = &ask->around->obstacles[obstacle];
	double best = within_m + ask->around->hole.judged_m;
	const struct obstacle_stretch *to;
	struct clear_nearest at;

	return nearest(ask, o, h, &best, &at, &to) ? describe(ask, o, h, &at, to) : none;
}

/* ---- levels ---- */

static double spare_of(const struct passing *p)
{
	return p->wall_m - (isnan(p->required_m) ? 0 : p->required_m);
}

static bool breaks(const struct clearance_ask *ask, const struct passing *p)
{
	if (ask->setup.job->judge == JUDGE_MEAN)
		return spare_of(p) < -TOUCH;
	return p->chance > sb_uncertainty_limit(&ask->setup).limit;
}

/* Less to spare than the sheet says; else less than the give or take: half of what the confidence leaves lies
 * to that side. The chance knows what the distance alone does not: that a post may be missed on either side.
 */
static bool nears(const struct clearance_ask *ask, const struct passing *p)
{
	double spare = ask->around->clearance_spare_m;

	if (!isnan(spare))
		return spare_of(p) < spare - TOUCH;
	return p->chance > (1 - ask->uncertainty->confidence) / 2;
}

static enum level level_drilled(const struct clearance_ask *ask, const struct passing *p)
{
	if (!p->known || isnan(p->required_m))
		return LEVEL_OK;
	if (breaks(ask, p))
		return LEVEL_BREACH;
	return nears(ask, p) ? LEVEL_WATCH : LEVEL_OK;
}

static enum level level_ahead(const struct clearance_ask *ask, const struct passing *p)
{
	if (!p->known || isnan(p->required_m))
		return LEVEL_OK;
	return spare_of(p) < -TOUCH || nears(ask, p) ? LEVEL_WATCH : LEVEL_OK;
}

/* The nearest of both, with the worse level and the larger chance. */
static void gather(struct passing *to, const struct passing *one)
{
	if (!one->known)
		return;
	enum level level = to->known && to->level > one->level ? to->level : one->level;
	double chance = to->known ? fmax(to->chance, one->chance) : one->chance;
	if (!to->known || spare_of(one) < spare_of(to))
		*to = *one;
	to->level = level;
	to->chance = chance;
}

/* ---- the path, held, planned ---- */

/* How near an obstacle must come over a course to be worth a look: as near as chance could bring it. */
static double reach_of(const struct clearance_ask *ask, const struct row *row)
{
	double sigmas = row->doubt.along_m + row->doubt.across_m + row->doubt.up_m;
	double spare = ask->around->clearance_spare_m;

	return fmax(FAR * sigmas, isnan(spare) ? 0 : spare) + TOUCH;
}

static struct passing pass_course(const struct clearance_ask *ask, size_t obstacle, const struct row *before,
	const struct row *row, double within_m)
{
	struct hole_stretch h = hole_stretch_course(ask, before, row);
	struct passing p = pass(ask, obstacle, &h, within_m);

	p.level = level_drilled(ask, &p);
	p.at_end = p.known && p.md_m >= row->survey_md_m - TOLERANCE;
	return p;
}

struct passing sb_clearance_course(const struct clearance_ask *ask, size_t obstacle, const struct row *row)
{
	if (!row->on_path || row->joint == 0)
		return none;
	return pass_course(ask, obstacle, hole_stretch_before(row), row, HUGE_VAL);
}

struct passing sb_clearance_between(
	const struct clearance_ask *ask, size_t obstacle, const struct row *before, const struct row *row)
{
	return pass_course(ask, obstacle, before, row, HUGE_VAL);
}

struct passing sb_clearance_drilled(const struct clearance_ask *ask, size_t obstacle)
{
	const struct path *path = ask->path;
	struct passing all = none;

	for (size_t i = 1; i < path->on_count; i++) {
		const struct row *row = &path->rows[path->on_path[i]];
		double within = all.known ? fmax(spare_of(&all), reach_of(ask, row)) : HUGE_VAL;
		struct passing one =
			pass_course(ask, obstacle, &path->rows[path->on_path[i - 1]], row, within);
		one.at_end = one.at_end && i + 1 == path->on_count;
		gather(&all, &one);
	}
	return all;
}

/* One more stretch of what is to come; false at the end of the design line. */
static bool go_on(const struct clearance_ask *ask, size_t obstacle, struct hole_stretch *h,
	const struct attitude *from, const struct attitude *to, double length_m, int joint, double within_m,
	struct passing *all)
{
	*h = hole_stretch_on(h, from, to, length_m, joint);
	h->station_m =
		sb_design_station(ask->setup.design, hole_stretch_at(h, h->length_m), h->station_m, NULL);
	struct passing one = pass(ask, obstacle, h, within_m);
	one.level = level_ahead(ask, &one);
	one.at_end = one.known && one.md_m >= h->from_md_m + h->length_m - TOLERANCE;
	one.leaves = false;
	gather(all, &one);
	return h->station_m < ask->setup.design->length_m;
}

static struct passing to_bit(const struct clearance_ask *ask, size_t obstacle, const struct row *from,
	double within_m, struct hole_stretch *h)
{
	*h = hole_stretch_to_bit(ask, from);
	struct passing p = pass(ask, obstacle, h, within_m);
	p.level = level_ahead(ask, &p);
	p.at_end = p.known && p.md_m >= h->from_md_m + h->length_m - TOLERANCE;
	p.leaves = p.known && p.md_m <= h->from_md_m + TOLERANCE;
	return p;
}

static struct passing held_from(const struct clearance_ask *ask, size_t obstacle, const struct row *from,
	int joint, int joints, double within_m)
{
	struct hole_stretch h;

	if (!ask->bit->known)
		return none;
	struct passing all = to_bit(ask, obstacle, from, within_m, &h);
	for (int k = 1; k <= joints; k++) {
		const struct setup *s = &ask->setup;
		double length = sb_frame_metres(s->frame, sb_job_tally(s->job, joint + k).value);
		if (!go_on(ask, obstacle, &h, &ask->bit->attitude, &ask->bit->attitude, length, joint + k,
			    within_m, &all))
			break;
	}
	return all;
}

struct passing sb_clearance_held(const struct clearance_ask *ask, size_t obstacle, int joints)
{
	int joint = ask->path->rows[ask->path->count - 1].joint;

	return held_from(ask, obstacle, sb_path_back(ask->path, 0), joint, joints, HUGE_VAL);
}

struct passing sb_clearance_planned(const struct clearance_ask *ask, size_t obstacle, const struct plan *plan)
{
	struct hole_stretch h;
	const struct attitude *from = &plan->heading;

	if (!ask->bit->known || !plan->known)
		return none;
	struct passing all = to_bit(ask, obstacle, sb_path_back(ask->path, 0), HUGE_VAL, &h);
	h.start = sb_vec3_sub(plan->bit, h.arc.step); /* the plan knows better where the bit is by now */
	for (size_t i = 0; i < plan->count; i++) {
		const struct plan_joint *j = &plan->joints[i];
		if (!go_on(ask, obstacle, &h, from, &j->target, j->length_m, j->joint, HUGE_VAL, &all))
			break;
		from = &j->target;
	}
	return all;
}

/* ---- the verdicts ---- */

/* Which is worse: the level, then how much less than nothing is to spare. */
static bool worse(const struct passing *one, const struct passing *than)
{
	if (one->level != than->level)
		return one->level > than->level;
	return spare_of(one) < spare_of(than);
}

struct worst {
	struct passing passing;
	size_t obstacle;
};

static void keep_worse(struct worst *w, const struct passing *one, size_t obstacle)
{
	if (one->level != LEVEL_OK && worse(one, &w->passing))
		*w = (struct worst){ *one, obstacle };
}

void sb_clearance_judge(const struct clearance_ask *ask, const struct row *before, const struct row *row,
	struct verdict *drilled, struct verdict *ahead)
{
	const struct row *end = row->on_path ? row : before;
	struct worst was = { none, 0 }, comes = { none, 0 };
	int sight = (int)ask->setup.job->look_ahead.value;

	for (size_t i = 0; i < ask->around->count && row->joint > 0; i++) {
		if (!ask->around->obstacles[i].limited)
			continue;
		struct passing held = held_from(ask, i, end, row->joint, sight, reach_of(ask, end));
		keep_worse(&comes, &held, i);
		if (!row->on_path)
			continue;
		struct passing one = pass_course(ask, i, before, row, reach_of(ask, row));
		keep_worse(&was, &one, i);
	}
	if (was.passing.level != LEVEL_OK)
		clearance_say(ask, &ask->around->obstacles[was.obstacle], &was.passing, -1, drilled);
	if (comes.passing.level != LEVEL_OK)
		clearance_say(
			ask, &ask->around->obstacles[comes.obstacle], &comes.passing, row->joint, ahead);
}

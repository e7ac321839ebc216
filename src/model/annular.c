/* Pressure and limit brought together at a joint, and what that says. O(1) a joint. */
#include "model/annular.h"

#include "base/measure.h"

#include <math.h>
#include <stdio.h>

struct annular sb_annular_at(
	const struct clearance_ask *ask, const struct fluid_stage *stage, const struct formation_place *place)
{
	struct annular a = {
		.place = *place,
		.stage = *stage,
		.estimate = sb_fluid_pressure(stage, place->md_m, place->elevation_m),
		.formation = sb_formation_at(ask, stage->hole_m, place),
		.measured_pa = (double)NAN,
	};

	a.judged = a.formation.known == FORMATION_KNOWN && !isnan(a.estimate.total_pa) &&
		sb_formation_judged(&ask->setup, place->station_m);
	return a;
}

static struct formation_place place_of(const struct row *row)
{
	return sb_formation_place(row->survey_md_m, row->deviation.station_m, row->at, row->attitude.heading);
}

static void take_measured(const struct clearance_ask *ask, const struct number *measured, struct annular *a)
{
	if (!sb_number_given(measured))
		return;
	a->measured_pa = sb_measure_si(ask->setup.job->unit, MEASURE_PRESSURE, measured->value);
	a->judged =
		a->formation.known == FORMATION_KNOWN && sb_formation_judged(&ask->setup, a->place.station_m);
}

/* A joint without a reading lies where the path ended before it. */
struct annular sb_annular_pilot(
	const struct clearance_ask *ask, const struct row *row, const struct reading *r)
{
	struct fluid_stage stage = sb_fluid_pilot(ask->setup.job, ask->setup.frame, r ? &r->flow : NULL);
	struct formation_place place = place_of(row);
	struct annular a = sb_annular_at(ask, &stage, &place);

	a.judged &= row->on_path && row->joint > 0;
	if (r)
		take_measured(ask, &r->annular, &a);
	return a;
}

/* Where a joint of the bore was read; the entry's where there is none. */
static struct formation_place joint_place(const struct path *p, int joint)
{
	const struct row *row = sb_path_row(p, 0, joint);

	return place_of(row ? row : &p->rows[0]);
}

static double length_of(const struct path *p)
{
	return p->rows[p->count - 1].bit_md_m;
}

struct annular sb_annular_pass(const struct clearance_ask *ask, const struct pass_joint *j)
{
	struct fluid_stage stage =
		sb_fluid_pass(ask->setup.job, ask->setup.frame, j->pass, &j->flow, length_of(ask->path));
	struct formation_place place = joint_place(ask->path, j->joint);
	struct annular a = sb_annular_at(ask, &stage, &place);

	take_measured(ask, &j->annular, &a);
	return a;
}

struct annular sb_annular_pull(const struct clearance_ask *ask, const struct pull_joint *j)
{
	struct fluid_stage stage =
		sb_fluid_pull(ask->setup.job, ask->setup.frame, &j->flow, length_of(ask->path));
	struct formation_place place = joint_place(ask->path, j->joint - 1);
	struct annular a = sb_annular_at(ask, &stage, &place);

	take_measured(ask, &j->annular, &a);
	return a;
}

double sb_annular_pressure(const struct annular *a)
{
	return isnan(a->measured_pa) ? a->estimate.total_pa : a->measured_pa;
}

double sb_annular_share(const struct annular *a)
{
	return a->judged ? sb_annular_pressure(a) / a->formation.limit.limit_pa : (double)NAN;
}

/* ---- the verdict ---- */

static void say(const struct job *job, const struct annular *a, double share, int joint, struct verdict *v)
{
	const char *unit = sb_measure_unit(job->unit, MEASURE_PRESSURE);

	if (isnan(a->measured_pa))
		snprintf(v->text, sizeof v->text,
			"Joint %d: an estimated %.1f %s around the pipe (nothing was measured), %.0f %% of the %.1f that the ground is estimated to bear. Measure it; pump less, clean the hole, walk the line.",
			joint, v->value, unit, share * 100, v->limit);
	else if (v->level == LEVEL_BREACH)
		snprintf(v->text, sizeof v->text,
			"Joint %d: %.1f %s measured around the pipe, more than the %.1f that the ground is estimated to bear. Stop pumping, pull back and clean the hole; walk the line for fluid at the surface.",
			joint, v->value, unit, v->limit);
	else
		snprintf(v->text, sizeof v->text,
			"Joint %d: %.1f %s measured around the pipe, %.0f %% of the %.1f that the ground is estimated to bear; it can break out below that. Pump less, clean the hole, walk the line.",
			joint, v->value, unit, share * 100, v->limit);
}

void sb_annular_judge(const struct setup *setup, const struct annular *a, int joint, struct verdict *out)
{
	const struct job *job = setup->job;
	double share = sb_annular_share(a);

	*out = (struct verdict){ .level = LEVEL_OK };
	if (!(share >= job->fluid_watch.value)) /* NAN too */
		return;
	out->value = sb_measure_typed(job->unit, MEASURE_PRESSURE, sb_annular_pressure(a));
	out->limit = sb_measure_typed(job->unit, MEASURE_PRESSURE, a->formation.limit.limit_pa);
	out->level = share > 1 && !isnan(a->measured_pa) ? LEVEL_BREACH : LEVEL_WATCH;
	say(job, a, share, joint, out);
}

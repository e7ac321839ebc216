/* Who judges which act. A judge is a function of the module that knows the thing; those that need no more
 * than the entry itself stand here. */
#include "model/event.h"

#include "model/after.h"
#include "model/annular.h"
#include "model/opening.h"
#include "model/pullback.h"
#include "model/returns.h"

typedef size_t judge(const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS]);

/* The passes against the rules, as they stand with this act. */
static size_t judge_opening(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	*out = (struct finding){ .kind = WARNING_OPENING };
	sb_opening_judge(ask->setup.job, act, (int)ask->path->count - 1, &out->verdict, &out->joint);
	if ((size_t)out->joint < ask->path->count)
		out->station_m = ask->path->rows[out->joint].deviation.station_m;
	return 1;
}

/* ---- the drilling fluid ---- */

static struct finding event_at(enum warning_kind kind, int joint, double station_m)
{
	return (struct finding){ .kind = kind, .joint = joint, .station_m = station_m };
}

/* A joint that says nothing of its returns leaves them as they were. */
static size_t judge_returns(enum returns returns, int joint, double station_m, struct finding *out)
{
	if (returns == RETURNS_UNSAID)
		return 0;
	*out = event_at(WARNING_RETURNS, joint, station_m);
	sb_returns_judge(returns, joint, &out->verdict);
	return 1;
}

static size_t judge_annular(
	const struct setup *setup, const struct annular *a, int joint, struct finding *out)
{
	*out = event_at(WARNING_ANNULAR, joint, a->place.station_m);
	sb_annular_judge(setup, a, joint, &out->verdict);
	return 1;
}

static size_t judge_pass_joint(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	const struct pass_joint *j = sb_fact_of(ask->setup.job, act->kind, act->id);
	struct annular a = sb_annular_pass(ask, j);
	size_t count = judge_annular(&ask->setup, &a, j->joint, out);

	return count + judge_returns(j->returns, j->joint, a.place.station_m, out + count);
}

static size_t judge_pull_joint(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	const struct pull_joint *j = sb_fact_of(ask->setup.job, act->kind, act->id);
	struct annular a = sb_annular_pull(ask, j);

	return judge_annular(&ask->setup, &a, j->joint, out);
}

/* Where an entry says that it was; else where the bore ended. */
static double station_of(const struct clearance_ask *ask, const struct fluid_event *e)
{
	return sb_number_given(&e->station) ? sb_frame_metres(ask->setup.frame, e->station.value)
					    : ask->path->rows[ask->path->count - 1].deviation.station_m;
}

static size_t judge_fluid(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	const struct job *job = ask->setup.job;
	const struct fluid_event *e = sb_fact_of(job, act->kind, act->id);

	if (e->kind == FLUID_RECORD || e->kind == FLUID_RELEASE) {
		const struct fluid_event *named = sb_after_release(job, e), *of = named ? named : e;
		*out = event_at(WARNING_RELEASE, of->fact.joint, station_of(ask, of));
		out->leg = of->fact.leg;
		sb_release_judge(job, of->fact.leg, of->fact.joint, act->id, &out->verdict);
	} else {
		*out = event_at(WARNING_RETURNS, e->fact.joint, station_of(ask, e));
		sb_returns_judge_entry(&ask->setup, e, &out->verdict);
	}
	return 1;
}

size_t sb_event_judge_joint(const struct clearance_ask *ask, const struct row *row, const struct reading *r,
	struct finding out[SB_FINDINGS])
{
	struct annular a = sb_annular_pilot(ask, row, r);
	size_t count = judge_annular(&ask->setup, &a, row->joint, out);

	return count + judge_returns(r->returns, row->joint, row->deviation.station_m, out + count);
}

static const struct pull_bands *bands_of(const struct clearance_ask *ask)
{
	if (!ask->bands->made)
		sb_pull_bands_make(ask, ask->bands);
	return ask->bands;
}

/* The pipe in the hole as it is. Here and not with each joint: an estimate that nobody acts on before the
 * hole is opened must not slow the pilot down. */
static size_t judge_share(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	const struct pull_bands *bands = bands_of(ask);
	int last = (int)ask->path->count - 1;

	(void)act;
	*out = (struct finding){ .kind = WARNING_PIPE_SHARE, .station_m = bands->worst.station_m };
	out->joint = bands->worst.joint < last ? bands->worst.joint : last;
	return sb_pullback_judge_share(ask->setup.frame, ask->setup.job, bands, &out->verdict);
}

static size_t judge_pull(
	const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	*out = (struct finding){ .kind = act->kind == ACT_PULL ? WARNING_PIPE_STRING
			: act->kind == ACT_PULL_JOINT	       ? WARNING_PULL_FORCE
							       : WARNING_COATING };
	if (act->kind == ACT_PULL_JOINT)
		bands_of(ask);
	sb_pullback_judge(ask->setup.job, ask->bands, act, &out->verdict, &out->joint);
	if ((size_t)out->joint < ask->path->count)
		out->station_m = ask->path->rows[out->joint].deviation.station_m;
	return 1;
}

static const struct {
	enum act_kind act;
	judge *judge;
} judges[] = {
	{ ACT_RETURNS, judge_fluid },
	{ ACT_PASS_JOINT, judge_pass_joint },
	{ ACT_PULL_JOINT, judge_pull_joint },
	{ ACT_PASS, judge_opening },
	{ ACT_PASS_END, judge_opening },
	{ ACT_PULL, judge_opening },
	{ ACT_PASS, judge_share },
	{ ACT_PASS_END, judge_share },
	{ ACT_PULL, judge_share },
	{ ACT_PULL, judge_pull },
	{ ACT_PULL_JOINT, judge_pull },
	{ ACT_PULL_END, judge_pull },
};

size_t sb_event_judge(const struct clearance_ask *ask, const struct act *act, struct finding out[SB_FINDINGS])
{
	size_t count = 0;

	if (!sb_after_strikable(ask->setup.job, act->id))
		return 0;
	for (size_t i = 0; i < sizeof judges / sizeof *judges; i++)
		if (judges[i].act == act->kind)
			count += judges[i].judge(ask, act, out + count);
	return count;
}

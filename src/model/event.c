/* Who judges which act. A judge is a function of the module that knows the thing; those that need no more
 * than the entry itself stand here. */
#include "model/event.h"

#include "base/str.h"
#include "model/after.h"
#include "model/opening.h"

#include <stdio.h>

typedef size_t judge(const struct clearance_ask *ask, const struct act *act, struct event out[SB_EVENTS]);

/* How the coating came out of the hole: the product pipe's only witness of what lies inside. */
static size_t judge_coating(
	const struct clearance_ask *ask, const struct act *act, struct event out[SB_EVENTS])
{
	const struct pull_end *p = sb_fact_of(ask->setup.job, act->kind, act->id);
	struct verdict *v = &out->verdict;

	*out = (struct event){ .kind = WARNING_COATING };
	v->value = p->coating;
	if (p->coating == COATING_DAMAGED) {
		v->level = LEVEL_BREACH;
		snprintf(v->text, sizeof v->text,
			"The coating came out damaged. Pull on until sound pipe shows, if the string is long enough; have the engineer judge what stays in the hole.");
	} else if (p->coating == COATING_SCRATCHED) {
		v->level = LEVEL_WATCH;
		snprintf(v->text, sizeof v->text,
			"The coating came out scratched. Measure how deep, and pull on until sound pipe shows; test the coating of what stays in the hole.");
	}
	return 1;
}

/* The passes against the rules, as they stand with this act. */
static size_t judge_opening(
	const struct clearance_ask *ask, const struct act *act, struct event out[SB_EVENTS])
{
	*out = (struct event){ .kind = WARNING_OPENING };
	sb_opening_judge(ask->setup.job, act, (int)ask->path->count - 1, &out->verdict, &out->joint);
	if ((size_t)out->joint < ask->path->count)
		out->station_m = ask->path->rows[out->joint].deviation.station_m;
	return 1;
}

static const struct {
	enum act_kind act;
	judge *judge;
} judges[] = {
	{ ACT_PASS, judge_opening },
	{ ACT_PASS_END, judge_opening },
	{ ACT_PULL, judge_opening },
	{ ACT_PULL_END, judge_coating },
};

size_t sb_event_judge(const struct clearance_ask *ask, const struct act *act, struct event out[SB_EVENTS])
{
	size_t count = 0;

	if (!sb_after_strikable(ask->setup.job, act->id))
		return 0;
	for (size_t i = 0; i < sizeof judges / sizeof *judges; i++)
		if (judges[i].act == act->kind)
			count += judges[i].judge(ask, act, out + count);
	return count;
}

/* The acts beside and after the pilot: one way in for all of their entries, and striking one out. */
#include "model/after.h"
#include "store/deed.h"
#include "store/handle.h"

#include <assert.h>
#include <string.h>

/* The joint in which a station lies; the last one past it. */
static int joint_at(const struct solution *s, double station_m)
{
	const struct path *p = &s->path;

	for (size_t i = 1; i < p->count; i++)
		if (p->rows[i].on_path && p->rows[i].deviation.station_m >= station_m)
			return p->rows[i].joint;
	return (int)p->count - 1;
}

/* What the act is about, where that is not where the bore ends. */
static int joint_of(const struct sb_store *store, enum act_kind kind, const void *fact, int bore)
{
	const struct job *job = &store->job;
	const struct fluid_event *e = fact;

	if (kind == ACT_PASS_JOINT)
		return ((const struct pass_joint *)fact)->joint;
	if (kind == ACT_PULL_JOINT)
		return ((const struct pull_joint *)fact)->joint;
	if (kind != ACT_RETURNS)
		return bore;
	if (e->kind == FLUID_RECORD)
		return sb_after_release(job, e)->fact.joint; /* it was checked to be there */
	return sb_number_given(&e->station)
		? joint_at(&store->solution, sb_frame_metres(&store->solution.frame, e->station.value))
		: sb_after_tool_joint(job);
}

/* Fluid may come up beyond an end of the bore, but not beyond that by the bore's own length: that is a slip.
 */
static int check_station(
	const struct sb_store *store, const struct fluid_event *e, const char *why, struct sb_err *err)
{
	const struct frame *f = &store->solution.frame;
	double length_m = store->solution.design.length_m, station_m;

	if (!sb_number_given(&e->station) || (why && why[strspn(why, " \t")]))
		return 0;
	station_m = sb_frame_metres(f, e->station.value);
	if (station_m >= -length_m && station_m <= 2 * length_m)
		return 0;
	return sb_fail(err, SB_RANGE,
		"Station %s lies beyond the crossing by more than its own length, %.0f %s. Look at it; if it is so, say why in the remarks.",
		e->station.text, sb_frame_typed(f, length_m), sb_unit_short(store->job.unit));
}

int sb_store_enter(struct sb_store *store, const char *who, enum act_kind kind, const void *fact,
	const char *what, const char *why, struct sb_err *err)
{
	const struct fact_sort *sort = sb_fact_sort(kind);
	struct deed d = { 0 };

	assert(sb_after_is(kind));
	if (sb_deed_prepare(store, who, kind, &d, err) ||
		sb_deed_check_words(why, SB_REMARK_TEXT, false, "The remarks", err) ||
		sb_after_check(&store->job, kind, fact, why, err) ||
		(kind == ACT_RETURNS && check_station(store, fact, why, err)))
		return -1;
	d.act.joint = joint_of(store, kind, fact, d.act.joint);
	return sb_deed_enter(store, &d, fact, (int64_t)sb_fact_count(sort, &store->job) + 1, what, why, err);
}

int sb_store_strike(
	struct sb_store *store, const char *who, int64_t entry, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct strike own = { .entry = (int)entry };
	struct sb_str what = { 0 };

	if (sb_deed_prepare(store, who, ACT_STRIKE, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason", err) ||
		sb_after_check_strike(&store->job, entry, err))
		return -1;
	const struct act *a = sb_job_act(&store->job, entry);
	sb_str_add(&what, "entry %lld, %s%s%.120s", (long long)entry, sb_act_name(a->kind),
		*a->text ? ", " : "", a->text);
	int status = sb_deed_enter(
		store, &d, &own, (int64_t)store->job.strike_count + 1, sb_str_get(&what), reason, err);
	sb_str_clear(&what);
	return status;
}

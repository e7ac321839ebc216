/* The acts beside and after the pilot: one way in for all of their entries, and striking one out. */
#include "model/after.h"
#include "store/deed.h"
#include "store/handle.h"

#include <assert.h>

int sb_store_enter(struct sb_store *store, const char *who, enum act_kind kind, const void *fact,
	const char *what, const char *why, struct sb_err *err)
{
	const struct fact_sort *sort = sb_fact_sort(kind);
	struct deed d = { 0 };

	assert(sb_after_is(kind));
	if (sb_deed_prepare(store, who, kind, &d, err) ||
		sb_deed_check_words(why, SB_REMARK_TEXT, false, "The remarks", err) ||
		sb_after_check(&store->job, kind, fact, why, err))
		return -1;
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

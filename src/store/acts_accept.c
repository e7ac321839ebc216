/* The acts on the pilot's end: accepting a breach, ticking off what the contract asks, accepting the pilot,
 * and each of them taken back. */
#include "base/mem.h"
#include "base/str.h"
#include "model/acceptance.h"
#include "model/returns.h"
#include "store/deed.h"
#include "store/handle.h"

#include <string.h>

static bool is_blank(const char *text)
{
	return text == NULL || text[strspn(text, " \t\n")] == '\0';
}

/* ---- non-conformances ---- */

static int find(const struct sb_store *store, int number, struct nonconformance *out, struct sb_err *err)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(&store->job, &store->solution, &list);
	bool known = number >= 1 && (size_t)number <= count;

	if (known)
		*out = list[number - 1];
	sb_free(list);
	if (known)
		return 0;
	if (count)
		sb_fail(err, SB_MISSING, "There is no non-conformance %d: they are numbered 1 to %zu.",
			number, count);
	else
		sb_fail(err, SB_MISSING, "There is no non-conformance.");
	return -1;
}

static int enter_disposition(struct sb_store *store, struct deed *d, const struct nonconformance *n,
	const char *reference, const char *reason, struct sb_err *err)
{
	const struct warning *w = n->warning;
	bool accept = d->act.kind == ACT_ACCEPT;
	struct disposition own = { .from_leg = w->leg,
		.from_joint = w->joint,
		.value = sb_number_of(w->value, 6),
		.accepted = accept };
	struct sb_str what = { 0 };

	sb_copy(own.kind, sizeof own.kind, sb_warning_sorts[w->kind].name);
	if (accept && !sb_copy(own.reference, sizeof own.reference, reference))
		return sb_fail(
			err, SB_RANGE, "The reference is too long: %zu bytes fit.", sizeof own.reference - 1);
	d->act.leg = w->leg;
	d->act.joint = w->joint;
	sb_str_add(&what, "%s, ", sb_warning_sorts[w->kind].label);
	sb_nonconformance_joints(n, &what);
	sb_str_add(&what, accept ? ", reference %s" : " is open again%s", accept ? reference : "");
	int status = sb_deed_enter(
		store, d, &own, (int64_t)store->job.disposition_count + 1, sb_str_get(&what), reason, err);
	sb_str_clear(&what);
	return status;
}

/* Of a release there must be all that has to be recorded before the engineer can judge it. */
static int check_recorded(const struct sb_store *store, const struct nonconformance *n, struct sb_err *err)
{
	const struct warning *w = n->warning;
	char missing[96];

	if (w->kind != WARNING_RELEASE)
		return 0;
	int release = sb_release_unrecorded(&store->job, w->leg, w->joint, missing);
	if (release == 0)
		return 0;
	return sb_fail(err, SB_STATE,
		"Release %d cannot be accepted before it is recorded: %s. Add that first (fluid JOB.bore record --release %d).",
		release, missing, release);
}

int sb_store_accept(struct sb_store *store, const char *who, int number, const char *reference,
	const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct nonconformance n = { 0 };

	if (sb_deed_prepare(store, who, ACT_ACCEPT, &d, err) || find(store, number, &n, err) ||
		sb_deed_check_words(reference, SB_NAME_TEXT, true, "The reference", err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason", err))
		return -1;
	if (n.state == DISPOSITION_REDRILLED)
		return sb_fail(
			err, SB_STATE, "Non-conformance %d is closed: its joints were redrilled.", number);
	if (n.state == DISPOSITION_ACCEPTED)
		return sb_fail(err, SB_STATE, "%.63s has accepted non-conformance %d already.",
			n.accepted->fact.who, number);
	if (check_recorded(store, &n, err))
		return -1;
	return enter_disposition(store, &d, &n, reference, reason, err);
}

int sb_store_accept_back(
	struct sb_store *store, const char *who, int number, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct nonconformance n = { 0 };

	if (sb_deed_prepare(store, who, ACT_ACCEPT_BACK, &d, err) || find(store, number, &n, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for taking it back", err))
		return -1;
	if (n.accepted == NULL)
		return sb_fail(err, SB_STATE, "Non-conformance %d is not accepted.", number);
	return enter_disposition(store, &d, &n, "", reason, err);
}

/* ---- the checklist ---- */

int sb_store_tick(struct sb_store *store, const char *who, int point, bool done, const char *reference,
	const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct ticked own = { .point = point, .done = done };
	struct sb_str what = { 0 };

	if (sb_deed_prepare(store, who, done ? ACT_TICK : ACT_TICK_BACK, &d, err) ||
		sb_deed_check_words(reference, SB_NAME_TEXT, false, "The reference", err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, !done, "The reason", err))
		return -1;
	if (store->job.checklist_count == 0)
		return sb_fail(err, SB_MISSING, "The job sheet has no checklist.");
	if (point < 1 || (size_t)point > store->job.checklist_count)
		return sb_fail(err, SB_MISSING, "There is no point %d: the checklist has points 1 to %zu.",
			point, store->job.checklist_count);
	const struct ticked *last = sb_job_tick(&store->job, point);
	if ((last && last->done) == done)
		return sb_fail(err, SB_STATE, "Point %d is %s already.", point, done ? "ticked off" : "open");
	if (!is_blank(reference))
		sb_copy(own.reference, sizeof own.reference, reference);
	sb_str_add(&what, "point %d %s%s%s", point, done ? "done" : "open again",
		*own.reference ? ", reference " : "", own.reference);
	int status = sb_deed_enter(
		store, &d, &own, (int64_t)store->job.ticked_count + 1, sb_str_get(&what), reason, err);
	sb_str_clear(&what);
	return status;
}

/* ---- the pilot ---- */

static int check_points(const struct sb_store *store, struct sb_err *err)
{
	struct hold_points h = { 0 };
	const struct hold_point *first = NULL;

	sb_acceptance_look(&store->job, &store->solution, &h);
	for (size_t i = 0; i < h.count && first == NULL; i++)
		if (h.list[i].asked && !h.list[i].done)
			first = &h.list[i];
	int status = first
		? sb_fail(err, SB_STATE, "The pilot cannot be accepted yet: %zu %s missing. %s: %s",
			  h.missing, h.missing == 1 ? "point is" : "points are", first->text, first->state)
		: 0;
	sb_acceptance_clear(&h);
	return status;
}

int sb_store_sign(struct sb_store *store, const char *who, const char *capacity, const char *statement,
	struct sb_err *err)
{
	struct deed d = { 0 };
	struct acceptance own = { .accepted = 1 };

	if (sb_deed_prepare(store, who, ACT_SIGN, &d, err) ||
		sb_deed_check_words(capacity, SB_NAME_TEXT, true, "The capacity of who signs", err) ||
		sb_deed_check_words(statement, sizeof d.act.text, true, "The statement", err) ||
		check_points(store, err))
		return -1;
	sb_copy(own.capacity, sizeof own.capacity, capacity);
	return sb_deed_enter(store, &d, &own, (int64_t)store->job.acceptance_count + 1, "", statement, err);
}

int sb_store_reopen(struct sb_store *store, const char *who, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct acceptance own = { .accepted = 0 };

	if (sb_deed_prepare(store, who, ACT_REOPEN, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for opening it again", err))
		return -1;
	if (sb_job_accepted(&store->job) == NULL)
		return sb_fail(err, SB_STATE, "The pilot is open: nobody has accepted it.");
	return sb_deed_enter(store, &d, &own, (int64_t)store->job.acceptance_count + 1, "", reason, err);
}

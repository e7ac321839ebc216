/* Breaches and what came of them. Nothing is kept of a non-conformance but what the engineer said of it: the
 * rest follows from the warnings, so that no breach can be forgotten.
 */
#include "model/nonconformance.h"

#include "base/mem.h"
#include "base/str.h"

#include <stdlib.h>

const char *sb_disposition_word(enum disposition_state state)
{
	static const char *const words[] = { "open", "accepted", "redrilled" };

	return words[state];
}

/* What would come, and no longer does, was never a fault of the hole. */
static bool is_breach(const struct warning *w)
{
	return w->level == LEVEL_BREACH && (w->open || !sb_warning_sorts[w->kind].passing);
}

static const struct disposition *last_word(const struct job *job, const struct warning *w)
{
	for (size_t i = job->disposition_count; i-- > 0;) {
		const struct disposition *d = &job->dispositions[i];
		if (d->from_leg == w->leg && d->from_joint == w->joint &&
			sb_same(d->kind, sb_warning_sorts[w->kind].name))
			return d;
	}
	return NULL;
}

/* The first leg that began behind its joints after them. */
static const struct leg *took_out(const struct job *job, const struct warning *w)
{
	for (size_t i = 0; i < job->leg_count; i++)
		if (job->legs[i].number > w->leg && job->legs[i].to_joint < w->last_joint)
			return &job->legs[i];
	return NULL;
}

static void look_up(const struct job *job, struct nonconformance *n)
{
	const struct warning *w = n->warning;
	const struct disposition *d = last_word(job, w);

	if (w->superseded) {
		n->state = DISPOSITION_REDRILLED;
		n->redrilled = took_out(job, w);
		return;
	}
	if (d == NULL || !d->accepted)
		return;
	n->accepted = d;
	/* the value was kept to six decimals */
	n->grown = w->act > d->fact.act ||
		sb_warning_past(w->kind, w->value, w->limit) >
			sb_warning_past(w->kind, d->value.value, w->limit) + 2e-6;
	n->state = n->grown ? DISPOSITION_OPEN : DISPOSITION_ACCEPTED;
}

/* What was pulled back of an episode before what stayed of it. */
static int by_place(const void *one, const void *other)
{
	const struct warning *a = ((const struct nonconformance *)one)->warning;
	const struct warning *b = ((const struct nonconformance *)other)->warning;

	if (a->leg != b->leg)
		return a->leg < b->leg ? -1 : 1;
	if (a->joint != b->joint)
		return a->joint < b->joint ? -1 : 1;
	if (a->kind != b->kind)
		return a->kind < b->kind ? -1 : 1;
	if (a->superseded != b->superseded)
		return a->superseded ? -1 : 1;
	return a < b ? -1 : a > b;
}

size_t sb_nonconformances(const struct job *job, const struct solution *s, struct nonconformance **out)
{
	size_t count = 0;

	*out = s->warning_count ? sb_alloc(s->warning_count * sizeof **out) : NULL;
	for (size_t i = 0; i < s->warning_count; i++)
		if (is_breach(&s->warnings[i]))
			(*out)[count++] = (struct nonconformance){ .warning = &s->warnings[i] };
	if (count)
		qsort(*out, count, sizeof **out, by_place);
	for (size_t i = 0; i < count; i++) {
		(*out)[i].number = (int)i + 1;
		look_up(job, &(*out)[i]);
	}
	return count;
}

/* kind: WARNING_KINDS: of any. */
static size_t count_open(const struct job *job, const struct solution *s, enum warning_kind kind)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(job, s, &list), open = 0;

	for (size_t i = 0; i < count; i++)
		open += list[i].state == DISPOSITION_OPEN &&
			(kind == WARNING_KINDS || list[i].warning->kind == kind);
	sb_free(list);
	return open;
}

size_t sb_nonconformances_open(const struct job *job, const struct solution *s)
{
	return count_open(job, s, WARNING_KINDS);
}

size_t sb_nonconformances_open_of(const struct job *job, const struct solution *s, enum warning_kind kind)
{
	return count_open(job, s, kind);
}

void sb_nonconformance_joints(const struct nonconformance *n, struct sb_str *out)
{
	const struct warning *w = n->warning;

	if (w->last_joint == 0) /* of pipe that lies out there, not of a joint of the bore */
		sb_str_add(out, "at the entry");
	else if (w->joint == w->last_joint)
		sb_str_add(out, "joint %d", w->joint);
	else
		sb_str_add(out, "joints %d to %d", w->joint, w->last_joint);
}

void sb_nonconformance_say(const struct nonconformance *n, struct sb_str *out)
{
	const struct disposition *d = n->accepted;

	if (n->state == DISPOSITION_REDRILLED) {
		sb_str_add(out, "redrilled");
		if (n->redrilled)
			sb_str_add(out, ": leg %d began behind it, after joint %d", n->redrilled->number,
				n->redrilled->to_joint);
	} else if (n->grown) {
		sb_str_add(out, "open again: it is worse than when %s accepted it (%s)", d->fact.who,
			d->fact.words);
	} else if (d) {
		sb_str_add(out, "accepted by %s: %s", d->fact.who, d->fact.words);
	} else {
		sb_str_add(out, "open");
	}
}

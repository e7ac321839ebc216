/* What was edited, noted, and is open: each as a sentence, and briefly where a page has one line for it. */
#include "base/str.h"
#include "model/history.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "handover_parts.h"

static void add_item(struct handover_items *items, const char *brief, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* brief: NULL when the text serves, cut. */
static void add_item(struct handover_items *items, const char *brief, const char *format, ...)
{
	va_list args;

	if (items->count++ >= HANDOVER_ITEMS)
		return;
	size_t at = items->kept++;
	va_start(args, format);
	vsnprintf(items->text[at], sizeof items->text[0], format, args);
	va_end(args);
	sb_utf8_tame(items->text[at]);
	sb_copy(items->brief[at], sizeof items->brief[0], brief ? brief : items->text[at]);
}

static bool counts(const struct act *a)
{
	return sb_history_is(a, HISTORY_EDITS) || sb_history_is(a, HISTORY_ACCEPTED);
}

static const char *edit_verb(enum act_kind kind)
{
	switch ((int)kind) {
	case ACT_CORRECT:
		return "corrected";
	case ACT_LOG:
		return "logged as it is,";
	case ACT_ACCEPT:
		return "breach accepted,";
	case ACT_SIGN:
		return "pilot accepted at";
	case ACT_REOPEN:
		return "pilot opened again at";
	case ACT_STRIKE:
		return "struck out at";
	default:
		return "at";
	}
}

static void edit_words(const struct job *job, const struct act *a, char to[64])
{
	snprintf(to, 64, "%s joint %d", edit_verb(a->kind), a->joint);
	for (size_t i = 0; i < job->leg_count && a->kind == ACT_WITHDRAW; i++)
		if (job->legs[i].act == a->id)
			snprintf(to, 64, "withdrawn to joint %d", job->legs[i].to_joint);
	for (size_t i = 0; i < job->acknowledgement_count && a->kind == ACT_ACKNOWLEDGE; i++) {
		const struct acknowledgement *k = &job->acknowledgements[i];
		if (k->act == a->id)
			snprintf(to, 64, "seen %.24s, joint %d", k->kind, k->joint);
	}
}

/* The newest first: the older ones of a shift are the ones that its own hands still know. */
void handover_edits(const struct job *job, const struct span *when, struct handover_items *items)
{
	char what[64];

	for (size_t i = job->act_count; i-- > 0;) {
		const struct act *a = &job->acts[i];
		if (!counts(a) || !sb_period_holds(when, a->at_ms, a->offset_min))
			continue;
		edit_words(job, a, what);
		add_item(items, NULL, "%s (%.20s): %s", what, a->who, a->text);
	}
	if (items->count == 0)
		add_item(items, NULL, "nothing was corrected, withdrawn or accepted");
}

static bool is_open(const struct warning *w)
{
	return sb_warning_counts(w) && !w->acknowledged;
}

/* Four digits of what is small, all of those before the point of what is not. */
static void add_figure(char *to, size_t size, const char *before, double value)
{
	snprintf(to, size, fabs(value) < 1000 ? "%s%.4g" : "%s%.0f", before, value);
}

static void brief_words(const struct warning *w, char to[100])
{
	char numbers[64] = "", limit[32];

	if (w->kind == WARNING_LEAVES)
		snprintf(numbers, sizeof numbers, ", in %.0f joints", w->value);
	else if (w->limit > 0) {
		add_figure(numbers, sizeof numbers - sizeof limit, ": ", w->value);
		add_figure(limit, sizeof limit, ", limit ", w->limit);
		sb_copy(numbers + strlen(numbers), sizeof limit, limit);
	}
	snprintf(to, 100, w->worst_joint ? "%s: %s, joint %d%s" : "%s: %s%.0d%s", sb_level_word(w->level),
		sb_warning_sorts[w->kind].label, w->worst_joint, numbers);
}

void handover_open(const struct solution *s, struct handover_items *items)
{
	char brief[100];

	for (int level = LEVEL_BREACH; level >= LEVEL_WATCH; level--)
		for (size_t i = s->warning_count; i-- > 0;) {
			const struct warning *w = &s->warnings[i];
			if (!is_open(w) || (int)w->level != level)
				continue;
			brief_words(w, brief);
			add_item(items, brief, "%s: %s", sb_level_word(w->level), w->text);
		}
	if (items->count == 0)
		add_item(items, NULL, "no decision is open");
}

/* What the shift wrote down for the next one, its closing words first. */
void handover_notes(const struct job *job, const struct span *when, struct handover_items *items)
{
	for (size_t i = job->act_count; i-- > 0;) {
		const struct act *a = &job->acts[i];
		if (a->text[0] == '\0' || !sb_period_holds(when, a->at_ms, a->offset_min))
			continue;
		if (a->kind == ACT_SHIFT_END)
			add_item(items, NULL, "at the end (%.20s): %s", a->who, a->text);
		else if (a->kind == ACT_NOTE)
			add_item(items, NULL, "at joint %d (%.20s): %s", a->joint, a->who, a->text);
	}
}

/* Breaches and hold points as lists. */
#include "io/acceptance.h"

#include "base/mem.h"
#include "base/time.h"
#include "draw/axis.h"

#include <math.h>
#include <stdio.h>

#include "rows_parts.h"

/* ---- non-conformances ---- */

static void put_text(struct sb_str *out, const struct job *job, const struct nonconformance *n)
{
	const struct warning *w = n->warning;
	struct sb_str joints = { 0 }, came = { 0 };
	char station[SB_AXIS_TEXT];

	sb_nonconformance_joints(n, &joints);
	sb_nonconformance_say(n, &came);
	sb_axis_station(w->station_m, job->unit, 1, station);
	sb_str_add(out, "%3d  %s, %s, leg %d, station %s\n", n->number, sb_warning_sorts[w->kind].label,
		sb_str_get(&joints), w->leg, station);
	sb_str_wrap(out, w->text, 5, 80);
	sb_str_wrap(out, sb_str_get(&came), 5, 80);
	sb_str_clear(&joints);
	sb_str_clear(&came);
}

void sb_nonconformances_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(job, s, &list), open = 0;

	for (size_t i = 0; i < count; i++) {
		put_text(out, job, &list[i]);
		open += list[i].state == DISPOSITION_OPEN;
	}
	if (count == 0)
		sb_str_add(out, "There is no non-conformance: no limit was broken.\n");
	else
		sb_str_add(out, "%zu of %zu open.%s\n", open, count,
			open && sb_job_accepted(job) == NULL ? " The pilot cannot be accepted while one is."
				: open
				? " It is of what came after the pilot was accepted, or has grown since."
				: "");
	sb_free(list);
}

static void put_word(struct sb_json *j, const struct nonconformance *n)
{
	const struct disposition *d = n->accepted;

	sb_json_text(j, "disposition", sb_disposition_word(n->state));
	sb_json_text_or_null(j, "by", d ? d->fact.who : "");
	sb_json_text_or_null(j, "reference", d ? d->reference : "");
	sb_json_text_or_null(j, "reason", d ? d->fact.words : "");
	if (d)
		sb_json_time(j, "at", d->fact.at_ms);
	else
		sb_json_null(j, "at");
	sb_json_bool(j, "grown", n->grown);
	if (n->redrilled)
		sb_json_whole(j, "redrilled_on_leg", n->redrilled->number);
	else
		sb_json_null(j, "redrilled_on_leg");
}

void sb_nonconformances_put(struct sb_json *j, const struct job *job, const struct solution *s)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(job, s, &list);

	sb_json_array(j, "nonconformances");
	for (size_t i = 0; i < count; i++) {
		const struct warning *w = list[i].warning;
		sb_json_object(j, NULL);
		sb_json_whole(j, "number", list[i].number);
		sb_json_text(j, "kind", sb_warning_sorts[w->kind].name);
		sb_json_whole(j, "leg", w->leg);
		sb_json_whole(j, "joint", w->joint);
		sb_json_whole(j, "last_joint", w->last_joint);
		sb_json_whole(j, "worst_joint", w->worst_joint);
		sb_json_fixed(j, "station", sb_frame_typed(&s->frame, w->station_m), 6);
		rows_warning_values(j, w);
		sb_json_text(j, "text", w->text);
		put_word(j, &list[i]);
		sb_json_end(j);
	}
	sb_json_end(j);
	sb_free(list);
}

void sb_nonconformances_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_json_whole(&j, "open", (long long)sb_nonconformances_open(job, s));
	sb_nonconformances_put(&j, job, s);
	sb_json_end(&j);
	*out = j.text;
}

/* ---- the acceptance ---- */

static void put_exit_text(
	struct sb_str *out, const struct job *job, const struct solution *s, const struct exit_survey *e)
{
	struct setup setup = sb_solution_setup(job, s);
	struct sb_str words = { 0 };

	if (!e->known)
		return;
	sb_str_add(&words, "Exit by land survey: ");
	sb_exit_say(&setup, e, &words);
	sb_str_add(&words, " of the design's exit. Misclosure: the survey lies ");
	sb_fixes_off(&setup, e->seen, e->off_m, &words);
	sb_str_add(&words, " of the computed path.");
	sb_str_wrap(out, sb_str_get(&words), 0, 80);
	sb_str_clear(&words);
}

void sb_acceptance_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct hold_points h = { 0 };
	struct sb_str words = { 0 };

	sb_acceptance_look(job, s, &h);
	for (size_t i = 0; i < h.count; i++) {
		const struct hold_point *p = &h.list[i];
		char number[24] = "";
		if (p->tick)
			snprintf(number, sizeof number, " (point %d)", p->tick);
		sb_str_add(out, "%-8s %s%s\n",
			p->done		   ? "done"
				: p->asked ? "missing"
					   : "open",
			p->text, number);
		sb_str_wrap(out, p->state, 9, 80);
	}
	put_exit_text(out, job, s, &h.exit);
	sb_acceptance_say(job, &words);
	sb_str_wrap(out, sb_str_get(&words), 0, 80);
	if (sb_job_accepted(job) == NULL)
		sb_str_add(out,
			h.missing ? "It cannot be accepted yet: %zu missing.\n"
				  : "Nothing is missing: it can be accepted.\n",
			h.missing);
	sb_str_clear(&words);
	sb_acceptance_clear(&h);
}

static void put_signature(struct sb_json *j, const struct acceptance *a)
{
	sb_json_bool(j, "accepted", a != NULL);
	sb_json_text_or_null(j, "by", a ? a->fact.who : "");
	sb_json_text_or_null(j, "capacity", a ? a->capacity : "");
	sb_json_text_or_null(j, "statement", a ? a->fact.words : "");
	if (a)
		sb_json_time(j, "at", a->fact.at_ms);
	else
		sb_json_null(j, "at");
}

static void put_points(struct sb_json *j, const struct hold_points *h)
{
	sb_json_bool(j, "ready", h->missing == 0);
	sb_json_whole(j, "missing", (long long)h->missing);
	sb_json_array(j, "points");
	for (size_t i = 0; i < h->count; i++) {
		const struct hold_point *p = &h->list[i];
		sb_json_object(j, NULL);
		if (p->tick)
			sb_json_whole(j, "point", p->tick);
		else
			sb_json_null(j, "point");
		sb_json_bool(j, "asked", p->asked);
		sb_json_bool(j, "done", p->done);
		sb_json_text(j, "text", p->text);
		sb_json_text(j, "state", p->state);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_length(struct sb_json *j, const struct solution *s, const char *name, bool seen, double m)
{
	sb_json_fixed(j, name, seen ? sb_frame_typed(&s->frame, m) : (double)NAN, 6);
}

static void put_exit(struct sb_json *j, const struct solution *s, const struct exit_survey *e)
{
	if (!e->known) {
		sb_json_null(j, "exit");
		return;
	}
	sb_json_object(j, "exit");
	sb_json_whole(j, "fix", e->fix);
	put_length(j, s, "long", e->seen[FIX_ALONG], e->miss.long_m);
	put_length(j, s, "right", e->seen[FIX_ACROSS], e->miss.right_m);
	put_length(j, s, "high", e->seen[FIX_UP], e->miss.high_m);
	sb_json_object(j, "misclosure");
	put_length(j, s, "along", e->seen[FIX_ALONG], e->off_m[FIX_ALONG]);
	put_length(j, s, "right", e->seen[FIX_ACROSS], e->off_m[FIX_ACROSS]);
	put_length(j, s, "up", e->seen[FIX_UP], e->off_m[FIX_UP]);
	sb_json_end(j);
	sb_json_end(j);
}

void sb_acceptance_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	struct hold_points h = { 0 };

	sb_acceptance_look(job, s, &h);
	sb_json_object(&j, NULL);
	put_signature(&j, sb_job_accepted(job));
	put_points(&j, &h);
	put_exit(&j, s, &h.exit);
	sb_json_end(&j);
	sb_acceptance_clear(&h);
	*out = j.text;
}

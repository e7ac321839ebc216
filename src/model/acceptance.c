/* What stands between the pilot and its acceptance. */
#include "model/acceptance.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static struct hold_point *add(struct hold_points *h, const char *text, bool asked, bool done)
{
	struct hold_point *p = &h->list[h->count++];

	*p = (struct hold_point){ .asked = asked, .done = done };
	sb_copy(p->text, sizeof p->text, text);
	h->missing += asked && !done;
	return p;
}

static void say(struct hold_point *p, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void say(struct hold_point *p, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	vsnprintf(p->state, sizeof p->state, format, args);
	va_end(args);
}

static void look_at_end(const struct setup *setup, const struct solution *s, struct hold_points *h)
{
	const struct bit *bit = &s->bit;
	double below = sb_frame_typed(setup->frame, setup->design->exit_elevation_m - bit->at.u);
	bool near = bit->deviation.station_m > setup->design->length_m / 2;
	bool out = h->exit.known || (bit->known && near && below <= 0);
	struct hold_point *p = add(h, "The bore is out", true, out);

	if (h->exit.known)
		say(p, "Surveyed where it came out.");
	else if (out)
		say(p, "By its path the bit has come up to the exit's elevation.");
	else if (!bit->known)
		say(p, "Nothing was drilled yet.");
	else
		say(p, "The bit is at station %.2f, %.2f %s below the exit.",
			sb_frame_typed(setup->frame, bit->deviation.station_m), below,
			sb_unit_short(setup->job->unit));
}

static void look_at_exit(const struct setup *setup, struct hold_points *h)
{
	struct hold_point *p = add(h, "The exit is surveyed from land", setup->job->exit_survey == ASKED_YES,
		h->exit.plan && h->exit.level);
	struct sb_str words = { 0 };

	if (h->exit.known) {
		sb_exit_say(setup, &h->exit, &words);
		say(p, "Fix %lld: %s of the design's exit.%s", (long long)h->exit.fix, sb_str_get(&words),
			p->done ? "" : " It takes easting, northing and elevation.");
	} else {
		say(p, "No fix of kind exit stands: enter where the bit came out, by land survey.");
	}
	sb_str_clear(&words);
}

static void look_at_window(const struct setup *setup, struct hold_points *h)
{
	const char *word, *unit = sb_unit_short(setup->job->unit);
	double value_m, limit_m;
	bool outside = sb_exit_outside(setup->corridor, &h->exit.miss, &value_m, &limit_m, &word);

	if (!h->exit.plan || *word == '\0')
		return;
	double value = sb_frame_typed(setup->frame, value_m), limit = sb_frame_typed(setup->frame, limit_m);
	int d = sb_warning_decimals(setup, value, limit);
	/* outside, it is a non-conformance, which is what has to be settled */
	struct hold_point *p = add(h, "The exit lies in its window", false, !outside);
	if (value < 0)
		say(p, "Inside on every side.");
	else
		say(p, "%.*f %s %s; %.*f is allowed.", d, value, unit, word, d, limit);
}

static void look_at_breaches(const struct job *job, const struct solution *s, struct hold_points *h)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(job, s, &list), states[3] = { 0 };

	for (size_t i = 0; i < count; i++)
		states[list[i].state]++;
	sb_free(list);
	struct hold_point *p = add(h, "No non-conformance is open", true, states[DISPOSITION_OPEN] == 0);
	if (count == 0)
		say(p, "There was none.");
	else
		say(p, "%zu open, %zu accepted, %zu redrilled.", states[DISPOSITION_OPEN],
			states[DISPOSITION_ACCEPTED], states[DISPOSITION_REDRILLED]);
}

static void look_at_warnings(const struct job *job, const struct solution *s, struct hold_points *h)
{
	size_t waiting = sb_solution_unacknowledged(s);
	struct hold_point *p =
		add(h, "Every warning is acknowledged", job->acknowledged == ASKED_YES, waiting == 0);

	if (waiting)
		say(p, "%zu %s.", waiting, waiting == 1 ? "waits" : "wait");
	else
		say(p, "None waits.");
}

static void look_at_point(const struct job *job, int number, struct hold_points *h)
{
	const struct ticked *t = sb_job_tick(job, number);
	struct hold_point *p = add(h, job->checklist[number - 1].point, true, t && t->done);

	p->tick = number;
	if (p->done)
		say(p, "%s (%s)", t->fact.words, t->fact.who);
	else if (t)
		say(p, "Taken back by %s: %s", t->fact.who, t->fact.words);
	else
		say(p, "Nobody has ticked it off.");
}

void sb_acceptance_look(const struct job *job, const struct solution *s, struct hold_points *out)
{
	struct setup setup = sb_solution_setup(job, s);

	sb_acceptance_clear(out);
	out->exit = sb_exit_survey(&setup, &s->fixes, sb_solution_last(s), true);
	out->list = sb_alloc((5 + job->checklist_count) * sizeof *out->list);
	look_at_end(&setup, s, out);
	look_at_exit(&setup, out);
	look_at_window(&setup, out);
	look_at_breaches(job, s, out);
	look_at_warnings(job, s, out);
	for (size_t i = 0; i < job->checklist_count; i++)
		look_at_point(job, (int)i + 1, out);
}

void sb_acceptance_clear(struct hold_points *h)
{
	sb_free(h->list);
	memset(h, 0, sizeof *h);
}

void sb_acceptance_say(const struct job *job, struct sb_str *out)
{
	const struct acceptance *last =
		job->acceptance_count ? &job->acceptances[job->acceptance_count - 1] : NULL;
	char day[SB_TIME_TEXT], hour[SB_TIME_TEXT];

	if (last == NULL) {
		sb_str_add(out, "The pilot has not been accepted.");
		return;
	}
	int offset = sb_job_offset_min(job, last->fact.act, last->fact.at_ms);
	sb_time_day(last->fact.at_ms + offset * INT64_C(60000), day); /* a signature has its year */
	sb_time_short(last->fact.at_ms, offset, hour);
	if (last->accepted)
		sb_str_add(out, "Accepted by %s%s%s, %s %s: %s", last->fact.who, *last->capacity ? ", " : "",
			last->capacity, day, hour, last->fact.words);
	else
		sb_str_add(out, "Opened again by %s, %s %s: %s", last->fact.who, day, hour, last->fact.words);
}

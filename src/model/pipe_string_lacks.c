/* What is missing of the pipe string, in sentences that a hand can act on. */
#include "base/measure.h"
#include "base/mem.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "pipe_string_parts.h"

#define PIECES 6 /* numbers and stretches of numbers that are said of one thing */

/* ---- sentences ---- */

void sb_lacks_add(struct lacks *l, const char *format, ...)
{
	va_list args;

	if (l->count == SB_LACKS)
		return;
	va_start(args, format);
	vsnprintf(l->text[l->count++], SB_LACK_TEXT, format, args);
	va_end(args);
}

void sb_lacks_say(const struct lacks *l, char *text, size_t size)
{
	size_t used = 0;

	text[0] = '\0';
	for (size_t i = 0; i < l->count; i++) {
		size_t length = strlen(l->text[i]) + (i ? 2 : 0), spare = i + 1 < l->count ? 16 : 1;
		if (used + length + spare > size) {
			if (used + 16 <= size)
				snprintf(text + used, size - used, "%sand %zu more", i ? "; " : "",
					l->count - i);
			return;
		}
		used += (size_t)snprintf(text + used, size - used, "%s%s", i ? "; " : "", l->text[i]);
	}
}

void sb_numbers_say(const int *numbers, size_t count, char text[SB_NUMBERS_TEXT])
{
	size_t used = 0, i = 0;

	text[0] = '\0';
	for (int piece = 0; i < count; piece++) {
		size_t run = 1;
		while (i + run < count && numbers[i + run] == numbers[i + run - 1] + 1)
			run++;
		bool cut = piece == PIECES && i + run < count;
		run = cut ? count - i : run < 3 ? 1 : run;
		const char *between = i == 0 ? "" : i + run == count ? " and " : ", ";
		if (cut)
			used += (size_t)snprintf(
				text + used, SB_NUMBERS_TEXT - used, " and %zu more", count - i);
		else if (run > 1)
			used += (size_t)snprintf(text + used, SB_NUMBERS_TEXT - used, "%s%d to %d", between,
				numbers[i], numbers[i + run - 1]);
		else
			used += (size_t)snprintf(
				text + used, SB_NUMBERS_TEXT - used, "%s%d", between, numbers[i]);
		i += run;
	}
}

/* ---- the joints ---- */

static void look_at_joints(const struct job *job, struct pipe_string *s)
{
	int last = s->count ? s->list[s->count - 1].pipe->joint : 0, *gaps = NULL;
	size_t room = 0, count = 0;

	if (s->count == 0) {
		sb_lacks_add(&s->lacks, "no joint of the string is laid out");
		return;
	}
	for (size_t i = 0, joint = 1; i < s->count && joint < (size_t)last; joint++) {
		if (s->list[i].pipe->joint == (int)joint) {
			i++;
			continue;
		}
		gaps = sb_grow(gaps, count, &room, sizeof *gaps);
		gaps[count++] = (int)joint;
	}
	if (count) {
		char text[SB_NUMBERS_TEXT];
		sb_numbers_say(gaps, count, text);
		sb_lacks_add(&s->lacks, "%s %s %s struck out and not laid out again",
			count == 1 ? "joint" : "joints", text, count == 1 ? "is" : "are");
	}
	sb_free(gaps);
	double metre = sb_unit_metres(job->unit), short_m = s->needed_m - s->length_m;
	if (short_m > 0)
		sb_lacks_add(&s->lacks,
			"the string is %.1f %s long, %.1f short of the bore and the %.1f past it",
			s->length_m / metre, sb_unit_short(job->unit), short_m / metre, s->extra_m / metre);
}

/* ---- records of one sort ---- */

typedef const struct pipe_record *record_of(const struct string_joint *j);

static const struct pipe_record *weld_of(const struct string_joint *j)
{
	return j->weld;
}

static const struct pipe_record *inspection_of(const struct string_joint *j)
{
	return j->inspection;
}

static const struct pipe_record *coating_of(const struct string_joint *j)
{
	return j->coating;
}

/* What is said of those that have none, and of the bad ones: of one, of several. */
struct record_words {
	record_of *of;
	bool weld;
	const char *none[2], *bad[2];
};

static const struct record_words sorts[] = {
	{ weld_of, true, { "weld %s has no record", "welds %s have no record" },
		{ "weld %s is bad", "welds %s are bad" } },
	{ inspection_of, true, { "weld %s has no inspection", "welds %s have no inspection" },
		{ "the inspection of weld %s is bad", "the inspections of welds %s are bad" } },
	{ coating_of, false, { "joint %s has no coating test", "joints %s have no coating test" },
		{ "the coating of joint %s is bad", "the coatings of joints %s are bad" } },
};

static void say_those(struct pipe_string *s, const struct record_words *w, bool bad, int *numbers)
{
	char text[SB_NUMBERS_TEXT], sentence[SB_LACK_TEXT];
	size_t count = 0;

	for (size_t i = 0; i < s->count; i++) {
		const struct pipe_record *r = w->of(&s->list[i]);
		if (w->weld && !sb_pipe_string_weld_at(s, i))
			continue;
		if (bad ? r && r->outcome == OUTCOME_BAD : r == NULL)
			numbers[count++] = s->list[i].pipe->joint;
	}
	if (count == 0)
		return;
	sb_numbers_say(numbers, count, text);
	const char *words = (bad ? w->bad : w->none)[count > 1], *at = strstr(words, "%s");
	snprintf(sentence, sizeof sentence, "%.*s%s%s", (int)(at - words), words, text, at + 2);
	sb_lacks_add(&s->lacks, "%s", sentence);
}

/* ---- the whole string ---- */

static void look_at_test(const struct job *job, struct pipe_string *s)
{
	const struct pipe_record *t = s->test;
	const struct number *pressure = &job->test_pressure, *hours = &job->test_hours;
	const char *unit = sb_measure_unit(job->unit, MEASURE_PRESSURE);

	if (t == NULL) {
		sb_lacks_add(&s->lacks, "the pressure test has no record");
		return;
	}
	if (t->outcome == OUTCOME_BAD)
		sb_lacks_add(&s->lacks, "the pressure test was bad");
	if (sb_number_given(pressure) && !sb_number_given(&t->pressure))
		sb_lacks_add(
			&s->lacks, "the pressure test has no pressure, %s %s is asked", pressure->text, unit);
	else if (sb_number_given(pressure) && t->pressure.value < pressure->value)
		sb_lacks_add(&s->lacks, "the pressure test held %s %s, %s is asked", t->pressure.text, unit,
			pressure->text);
	if (sb_number_given(hours) && !sb_number_given(&t->hours))
		sb_lacks_add(&s->lacks, "the pressure test has no hours, %s are asked", hours->text);
	else if (sb_number_given(hours) && t->hours.value < hours->value)
		sb_lacks_add(&s->lacks, "the pressure test was held for %s hours, %s are asked",
			t->hours.text, hours->text);
}

static void look_at_drag(struct pipe_string *s)
{
	if (s->drag == NULL)
		sb_lacks_add(&s->lacks, "the drag section has no record");
	else if (s->drag->outcome == OUTCOME_BAD)
		sb_lacks_add(&s->lacks, "the drag section came out bad");
}

void pipe_string_lacks(const struct job *job, struct pipe_string *s)
{
	const bool asked[] = { job->string_weld == ASKED_YES, job->string_inspection == ASKED_YES,
		job->string_coating == ASKED_YES && job->material == MATERIAL_STEEL };
	int *numbers = sb_alloc((s->count + 1) * sizeof *numbers);

	look_at_joints(job, s);
	for (size_t k = 0; k < sizeof sorts / sizeof *sorts; k++)
		for (int bad = 0; asked[k] && bad < 2; bad++)
			say_those(s, &sorts[k], bad, numbers);
	if (job->string_test == ASKED_YES)
		look_at_test(job, s);
	if (job->string_drag == ASKED_YES)
		look_at_drag(s);
	sb_free(numbers);
}

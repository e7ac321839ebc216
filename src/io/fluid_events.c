/* Returns, losses and releases as they were entered, and what is missing of a release's record. */
#include "base/measure.h"
#include "base/str.h"
#include "base/time.h"
#include "io/fluid.h"
#include "model/fact.h"
#include "model/returns.h"

#include <stdio.h>

#include "fluid_events.h"

static const char *kind_words(enum fluid_event_kind kind)
{
	static const char *const words[] = { "returns full", "returns partial", "no returns", "loss",
		"release to the surface", "record" };

	return words[kind];
}

static void add(char text[SB_FLUID_WHAT], const char *before, const char *what, const char *after)
{
	size_t at = 0;

	while (text[at])
		at++;
	if (*what)
		snprintf(text + at, SB_FLUID_WHAT - at, "%s%.60s%s", before, what, after);
}

void sb_fluid_what(const struct job *job, const struct fluid_event *e, char text[SB_FLUID_WHAT])
{
	char unit[12];

	snprintf(text, SB_FLUID_WHAT, "%s", kind_words(e->kind));
	if (e->kind == FLUID_RECORD)
		snprintf(text, SB_FLUID_WHAT, "record of release %d", e->of);
	snprintf(unit, sizeof unit, " %s", sb_measure_unit(job->unit, MEASURE_VOLUME));
	add(text, ", station ", e->station.text, "");
	add(text, ", ", e->volume.text, unit);
	add(text, ", ", e->place, "");
}

static const struct act *act_of(const struct job *job, const struct fluid_event *e)
{
	return sb_job_act(job, e->fact.act);
}

static void put_event(struct document *d, const struct job *job, const struct fluid_event *e)
{
	char what[SB_FLUID_WHAT], when[SB_TIME_TEXT], key[48];
	const struct act *a = act_of(job, e);

	sb_fluid_what(job, e, what);
	sb_time_short(e->fact.at_ms, a ? a->offset_min : 0, when);
	if (e->kind == FLUID_RELEASE)
		snprintf(key, sizeof key, "release %lld", (long long)e->fact.id);
	else
		snprintf(key, sizeof key, "entry %lld", (long long)e->fact.act);
	sb_document_pair(d, key, "%s%s at joint %d, %s, %s",
		e->struck ? "struck out, counts for nothing: " : "", what, e->fact.joint, when, e->fact.who);
}

static void put_record(struct document *d, const struct job *job, const struct fluid_event *e)
{
	struct release r = sb_release_of(job, e, INT64_MAX);
	char missing[96];

	sb_document_pair(d, "where it came up", "%s", r.place);
	if (sb_number_given(r.volume))
		sb_document_pair(
			d, "how much", "%s %s", r.volume->text, sb_measure_unit(job->unit, MEASURE_VOLUME));
	sb_document_pair(d, "what it ran into", "%s", r.receiving);
	sb_document_pair(d, "who was told", "%s", r.told);
	sb_document_pair(d, "what was done", "%s", r.done);
	if (sb_release_missing(&r, missing))
		sb_document_pair(d, "still missing", "%s", missing);
	else
		sb_document_pair(d, "record", "whole");
}

void fluid_events_blocks(struct document *d, const struct job *job)
{
	sb_document_heading(d, "Returns, losses and releases");
	if (job->fluid_event_count == 0)
		sb_document_paragraph(d, "Nothing was entered but what the joints say of their returns.");
	for (size_t i = 0; i < job->fluid_event_count; i++) {
		const struct fluid_event *e = &job->fluid_events[i];
		if (e->kind == FLUID_RECORD && !e->struck)
			continue; /* shown with its release */
		put_event(d, job, e);
		if (e->kind == FLUID_RELEASE && !e->struck)
			put_record(d, job, e);
	}
}

/* ---- for scripts ---- */

static void put_release(struct sb_json *j, const struct job *job, const struct fluid_event *e)
{
	struct release r = sb_release_of(job, e, INT64_MAX);
	char missing[96];

	sb_json_object(j, "record");
	sb_json_text_or_null(j, "place", r.place);
	sb_json_typed(j, "volume", r.volume);
	sb_json_text_or_null(j, "receiving", r.receiving);
	sb_json_text_or_null(j, "told", r.told);
	sb_json_text_or_null(j, "done", r.done);
	sb_json_bool(j, "whole", !sb_release_missing(&r, missing));
	sb_json_text_or_null(j, "missing", missing);
	sb_json_end(j);
}

void fluid_events_json(struct sb_json *j, const struct job *job)
{
	sb_json_array(j, "events");
	for (size_t i = 0; i < job->fluid_event_count; i++) {
		const struct fluid_event *e = &job->fluid_events[i];
		sb_json_object(j, NULL);
		sb_json_whole(j, "number", e->fact.id);
		sb_json_whole(j, "entry", e->fact.act);
		sb_json_text(j, "kind", sb_fluid_event_name(e->kind));
		sb_json_whole(j, "leg", e->fact.leg);
		sb_json_whole(j, "joint", e->fact.joint);
		sb_json_typed(j, "station", &e->station);
		sb_json_typed(j, "volume", &e->volume);
		sb_json_text_or_null(j, "place", e->place);
		sb_json_text_or_null(j, "receiving", e->receiving);
		sb_json_text_or_null(j, "told", e->told);
		sb_json_text_or_null(j, "done", e->done);
		if (e->of)
			sb_json_whole(j, "of", e->of);
		else
			sb_json_null(j, "of");
		sb_json_bool(j, "struck", e->struck);
		sb_json_text(j, "by", e->fact.who);
		sb_json_time(j, "at", e->fact.at_ms);
		if (e->kind == FLUID_RELEASE)
			put_release(j, job, e);
		else
			sb_json_null(j, "record");
		sb_json_end(j);
	}
	sb_json_end(j);
}

/* The pull as a list, and in sentences around it. */
#include "io/pullback.h"

#include "base/measure.h"
#include "io/pipe_load.h"
#include "io/timeline.h"
#include "model/after.h"
#include "model/history.h"

#include <math.h>
#include <stdio.h>

#include "json_after.h"

static double length(const struct job *job, double metres)
{
	return metres / sb_unit_metres(job->unit);
}

static double force(const struct job *job, double newton)
{
	return sb_measure_typed(job->unit, MEASURE_FORCE, newton);
}

static const char *force_unit(const struct job *job)
{
	return sb_measure_unit(job->unit, MEASURE_FORCE);
}

/* ---- sentences ---- */

void sb_pullback_stand(const struct job *job, const struct pullback *p, struct sb_str *out)
{
	const char *unit = sb_unit_short(job->unit);

	if (p->left == 0)
		sb_str_add(out, "All %d joints are out: the head is at the entry", p->joints);
	else
		sb_str_add(out, "%d of %d joints %s out; the head is at depth %.1f %s, with that to go",
			p->joints - p->left, p->joints, p->joints - p->left == 1 ? "is" : "are",
			length(job, p->head_md_m), unit);
}

void sb_pullback_time(const struct job *job, const struct pullback *p, struct sb_str *out)
{
	if (p->left && !isnan(p->likely_min)) {
		char best[SB_TIMELINE_TEXT], likely[SB_TIMELINE_TEXT];
		sb_timeline_minutes(p->best_min, best);
		sb_timeline_minutes(p->likely_min, likely);
		sb_str_add(out, "%d joint%s left: best %s, likely %s", p->left, p->left == 1 ? "" : "s", best,
			likely);
	} else if (p->left) {
		sb_str_add(out, "%d joint%s left; for how long is not known before three are timed", p->left,
			p->left == 1 ? "" : "s");
	}
	if (!isnan(p->speed_m_by_min))
		sb_str_add(out, "%s%.2f %s a minute while pulling", out->length ? "; " : "",
			length(job, p->speed_m_by_min), sb_unit_short(job->unit));
	if (p->stops) {
		char stops[SB_TIMELINE_TEXT];
		sb_timeline_minutes(p->stop_min, stops);
		sb_str_add(out, "%s%d stop%s, %s: a pull should go on without one", out->length ? "; " : "",
			p->stops, p->stops == 1 ? "" : "s", stops);
	}
}

static void add_sentence(struct sb_str *out, struct sb_str *words, const char *end)
{
	if (words->length)
		sb_str_add(out, "%s%s%s", out->length ? " " : "", sb_str_get(words), end);
	sb_str_clear(words);
}

void sb_pullback_now(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct pull_bands bands = { 0 };
	struct pullback p;
	struct sb_str words = { 0 };

	sb_pull_bands_make(&ask, &bands);
	sb_pullback_take(job, &bands, &p);
	if (p.ended) {
		sb_pullback_end_say(job, &p, &words);
		add_sentence(out, &words, "");
	} else if (p.count) {
		sb_pullback_say(job, &p.list[p.count - 1], &words);
		add_sentence(out, &words, "");
		sb_pullback_means(job, &bands, &p.list[p.count - 1], &words);
		add_sentence(out, &words, "");
	}
	sb_pullback_stand(job, &p, &words);
	add_sentence(out, &words, ".");
	if (p.ended == NULL) {
		sb_pullback_time(job, &p, &words);
		add_sentence(out, &words, ".");
	}
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
}

/* A paragraph of its own. */
static void put_words(struct sb_str *out, struct sb_str *words, const char *end)
{
	if (words->length) {
		sb_str_add(words, "%s", end);
		sb_str_wrap(out, sb_str_get(words), 0, 80);
	}
	sb_str_clear(words);
}

/* ---- for people ---- */

static void put_waiting(const struct job *job, struct sb_str *out)
{
	struct lacks lacks;
	char line[SB_LACK_TEXT + 4];

	sb_pullback_lacks(job, &lacks);
	sb_str_add(out, "The pull has not begun. %s\n",
		lacks.count ? "It waits for this:" : "Nothing is missing: it can begin.");
	for (size_t i = 0; i < lacks.count; i++) {
		snprintf(line, sizeof line, "%s.", lacks.text[i]);
		sb_str_wrap(out, line, 2, 80);
	}
}

static void put_begun(const struct pull_begin *b, struct sb_str *out)
{
	struct sb_str words = { 0 };

	sb_str_add(&words, "The pull was begun by %s", b->fact.who);
	if (*b->missing)
		sb_str_add(&words, " with this missing: %s. Why: %s", b->missing, b->fact.words);
	put_words(out, &words, ".");
}

static void cell(char text[16], int decimals, double value, const char *behind)
{
	if (isnan(value))
		text[0] = '\0';
	else
		snprintf(text, 16, "%.*f%s", decimals, value, behind);
}

static void put_row(const struct job *job, const struct pulled *p, struct sb_str *out)
{
	static const char *const words[] = { "", "", "above", "below" };
	int decimals = job->unit == UNIT_M ? 1 : 0;
	char estimate[16], low[16], high[16], share[16], minutes[16], stop[16];

	cell(estimate, decimals, force(job, p->band.force_n), "");
	cell(low, decimals, force(job, p->band.low_n), "");
	cell(high, decimals, force(job, p->band.high_n), "");
	cell(share, 0, 100 * p->share, " %");
	cell(minutes, 0, isnan(p->minutes.work_min) ? p->minutes.whole_min : p->minutes.work_min, "");
	cell(stop, 0, p->stop_min > 0 ? p->stop_min : (double)NAN, "");
	sb_str_add(out, "%5d %9.1f %9s %9s %9s %9s %6s %-5s %4s %5s\n", p->entry->joint,
		length(job, p->head_md_m), p->entry->force.text, estimate, low, high, share,
		p->share > 1				      ? "OVER"
			: p->jumped && p->side == BAND_WITHIN ? "jump"
							      : words[p->side],
		minutes, stop);
}

/* Entries of the pull that were struck out, in the order of time. Returned: the next one from i on. */
static const struct act *next_struck(const struct job *job, size_t *i)
{
	while (*i < job->act_count) {
		const struct act *a = &job->acts[(*i)++];
		bool pull = a->kind == ACT_PULL || a->kind == ACT_PULL_JOINT || a->kind == ACT_PULL_END;
		if (pull && sb_after_struck(job, a))
			return a;
	}
	return NULL;
}

static void put_struck(const struct job *job, struct sb_str *out)
{
	const struct act *a;

	for (size_t i = 0; (a = next_struck(job, &i)) != NULL;)
		sb_str_add(out, "struck out: entry %lld, %s%s%.50s\n", (long long)a->id,
			sb_history_word(a->kind), *a->text ? ", " : "", a->text);
}

static void put_table(const struct job *job, const struct pullback *p, struct sb_str *out)
{
	const char *unit = force_unit(job);

	sb_str_add(out, "joint      head     force  estimate       low      high  share band  pull  stop\n");
	sb_str_add(out, "        depth %2s %9s %9s %9s %9s               min   min\n",
		sb_unit_short(job->unit), unit, unit, unit, unit);
	for (size_t i = 0; p->list && i < p->count; i++)
		put_row(job, &p->list[i], out);
}

static void put_joints(
	const struct job *job, const struct pull_bands *bands, const struct pullback *p, struct sb_str *out)
{
	struct sb_str words = { 0 };

	sb_pullback_stand(job, p, &words);
	put_words(out, &words, ".");
	sb_pullback_time(job, p, &words);
	put_words(out, &words, ".");
	if (p->count) {
		sb_pullback_say(job, &p->list[p->count - 1], &words);
		put_words(out, &words, "");
		sb_pullback_means(job, bands, &p->list[p->count - 1], &words);
		put_words(out, &words, "");
		put_table(job, p, out);
	}
}

void sb_pullback_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct pull_bands bands = { 0 };
	struct pullback p;
	struct sb_str words = { 0 };

	sb_pull_bands_make(&ask, &bands);
	sb_pullback_take(job, &bands, &p);
	if (p.begun == NULL)
		put_waiting(job, out);
	else {
		put_begun(p.begun, out);
		put_joints(job, &bands, &p, out);
		sb_pullback_end_say(job, &p, &words);
		put_words(out, &words, "");
		sb_str_wrap(out,
			"The estimate is at the pull head: what drill pipe, reamer and swivel take between it and the rig's gauge is not in it.",
			0, 80);
	}
	put_struck(job, out);
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
	sb_str_add(out, "\n");
	sb_pipe_load_pull_text(job, s, out);
}

/* ---- for scripts ---- */

static void put_joint(
	struct sb_json *j, const struct job *job, const struct pull_bands *bands, const struct pulled *p)
{
	struct sb_str words = { 0 };

	sb_json_object(j, NULL);
	sb_json_whole(j, "joint", p->entry->joint);
	sb_json_typed(j, "force", &p->entry->force);
	sb_json_fixed(j, "estimate", force(job, p->band.force_n), 6);
	sb_json_fixed(j, "low", force(job, p->band.low_n), 6);
	sb_json_fixed(j, "high", force(job, p->band.high_n), 6);
	sb_json_text_or_null(j, "band", sb_pullback_side(p->side));
	sb_json_fixed(j, "share", p->share, 6);
	sb_json_fixed(j, "jump", force(job, p->jump_n), 6);
	sb_json_bool(j, "jumped", p->jumped);
	sb_json_fixed(j, "head", length(job, p->head_md_m), 6);
	sb_json_fixed(j, "station", length(job, p->station_m), 6);
	sb_json_typed(j, "torque", &p->entry->torque);
	sb_json_typed(j, "flow", &p->entry->flow);
	sb_json_typed(j, "annular", &p->entry->annular);
	sb_json_fixed(j, "minutes", p->minutes.work_min, 3);
	sb_json_fixed(j, "stop_minutes", p->stop_min, 3);
	sb_json_fixed(j, "speed", length(job, p->speed_m_by_min), 6);
	sb_json_whole(j, "entry", p->entry->fact.act);
	sb_json_text(j, "by", p->entry->fact.who);
	sb_pullback_say(job, p, &words);
	if (p->jumped || p->side > BAND_WITHIN || p->share > 1) {
		struct sb_str means = { 0 };
		sb_pullback_means(job, bands, p, &means);
		sb_str_add(&words, " %s", sb_str_get(&means));
		sb_str_clear(&means);
	}
	sb_json_text(j, "text", sb_str_get(&words));
	sb_json_end(j);
	sb_str_clear(&words);
}

static void put_act(struct sb_json *j, const char *name, const struct fact *f)
{
	if (f == NULL) {
		sb_json_null(j, name);
		return;
	}
	sb_json_object(j, name);
	sb_json_text(j, "by", f->who);
	sb_json_time(j, "at", f->at_ms);
	sb_json_text_or_null(j, "words", f->words);
	sb_json_whole(j, "entry", f->act);
	sb_json_end(j);
}

static void put_outcome(struct sb_json *j, const struct job *job, const struct pullback *p)
{
	const struct pull_end *e = p->ended;

	sb_json_fixed(j, "extra_asked", length(job, p->asked_m), 6);
	if (e)
		sb_json_typed(j, "extra", &e->extra);
	else
		sb_json_null(j, "extra");
	sb_json_text_or_null(j, "coating", e ? sb_coating_name(e->coating) : "");
	sb_json_text_or_null(j, "survey", e ? e->survey : "");
}

static void put_missing(struct sb_json *j, const struct job *job, const struct pullback *p, bool *ready)
{
	struct lacks lacks = { 0 };

	if (p->begun == NULL)
		sb_pullback_lacks(job, &lacks);
	*ready = lacks.count == 0;
	sb_json_array(j, "missing");
	for (size_t i = 0; i < lacks.count; i++)
		sb_json_text(j, NULL, lacks.text[i]);
	sb_json_end(j);
	sb_json_text_or_null(j, "missing_when_begun", p->begun ? p->begun->missing : "");
}

static void put_left(struct sb_json *j, const struct job *job, const struct pullback *p)
{
	sb_json_fixed(j, "head", length(job, p->head_md_m), 6);
	sb_json_whole(j, "joints_left", p->left);
	sb_json_object(j, "minutes_left");
	sb_json_fixed(j, "best", p->best_min, 3);
	sb_json_fixed(j, "likely", p->likely_min, 3);
	sb_json_end(j);
	sb_json_object(j, "stops");
	sb_json_whole(j, "count", p->stops);
	sb_json_fixed(j, "minutes", p->stop_min, 3);
	sb_json_end(j);
	sb_json_fixed(j, "speed", length(job, p->speed_m_by_min), 6);
}

/* Those of the pull, and of the estimate beside it. */
static const struct json_unit units[] = {
	{ "force", MEASURE_FORCE },
	{ "torque", MEASURE_TORQUE },
	{ "flow", MEASURE_FLOW },
	{ "annular", MEASURE_PRESSURE },
	{ "fluid", MEASURE_DENSITY },
	{ "drag", MEASURE_PRESSURE },
};
static const enum act_kind entered[] = { ACT_PULL, ACT_PULL_JOINT, ACT_PULL_END };

void sb_pullback_put(struct sb_json *j, const struct job *job, const struct solution *s)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct pull_bands bands = { 0 };
	struct pullback p;
	bool ready;

	sb_pull_bands_make(&ask, &bands);
	sb_pullback_take(job, &bands, &p);
	put_missing(j, job, &p, &ready);
	sb_json_text(j, "state", p.ended ? "ended" : p.begun ? "running" : ready ? "ready" : "waiting");
	put_act(j, "begun", p.begun ? &p.begun->fact : NULL);
	put_act(j, "ended", p.ended ? &p.ended->fact : NULL);
	put_outcome(j, job, &p);
	sb_json_fixed(j, "safe_force", force(job, p.safe_n), 6);
	put_left(j, job, &p);
	sb_json_array(j, "joints");
	for (size_t i = 0; i < p.count; i++)
		put_joint(j, job, &bands, &p.list[i]);
	sb_json_end(j);
	json_after_struck(j, job, entered, sizeof entered / sizeof *entered);
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
}

void sb_pullback_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	json_after_units(&j, job, units, sizeof units / sizeof *units);
	sb_pullback_put(&j, job, s);
	sb_pipe_load_pull_put(&j, job, s);
	sb_json_end(&j);
	*out = j.text;
}

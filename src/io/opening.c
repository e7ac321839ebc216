/* The opening as a page. Every number that is an estimate says what it rests on. */
#include "io/opening.h"

#include "base/measure.h"
#include "base/str.h"
#include "io/about.h"
#include "io/timeline.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>

const char sb_opening_not_in_it[] =
	"Not in it: rigging up, tripping, changing tools and breaks; stops only as far as they were measured.";

static const char *size_unit(const struct job *job)
{
	return sb_measure_unit(job->unit, MEASURE_SIZE);
}

static double size_of(const struct job *job, double metres)
{
	return sb_measure_typed(job->unit, MEASURE_SIZE, metres);
}

/* ---- words ---- */

void sb_opening_what_pass(const struct job *job, const struct pass *p, char text[SB_OPENING_WHAT])
{
	snprintf(text, SB_OPENING_WHAT, "%s of %s %s to the %s%s%.100s", sb_pass_kind_name(p->kind),
		p->diameter.text, size_unit(job), sb_pass_way_name(p->to), *p->tool ? ", " : "", p->tool);
}

void sb_opening_what_joint(const struct pass_joint *j, char text[SB_OPENING_WHAT])
{
	snprintf(text, SB_OPENING_WHAT, "pass %d, joint %d", j->pass, j->joint);
}

void sb_opening_what_end(const struct opening_pass *p, char text[SB_OPENING_WHAT])
{
	if (p->left)
		snprintf(text, SB_OPENING_WHAT, "pass %d, with %d joint%s left", p->number, p->left,
			p->left == 1 ? "" : "s");
	else
		snprintf(text, SB_OPENING_WHAT, "pass %d, through the whole bore", p->number);
}

void sb_opening_final_words(const struct job *job, struct sb_str *out)
{
	struct opening_size s = sb_opening_size(job);
	const char *unit = size_unit(job);
	double ratio_m = job->opening_ratio.value * s.pipe_m;

	sb_str_add(out, "%.5g %s or more, ", size_of(job, s.least_m), unit);
	if (s.contract)
		sb_str_add(out, "as the contract says");
	else if (s.least_m >= ratio_m - 1e-9)
		sb_str_add(out, "%s times the pipe of %s %s", job->opening_ratio.text,
			job->outside_diameter.text, unit);
	else
		sb_str_add(out, "%.5g %s over the pipe of %s", size_of(job, s.least_m - s.pipe_m), unit,
			job->outside_diameter.text);
	if (!isinf(s.most_m))
		sb_str_add(out, "; %s %s at most", job->opening_most.text, unit);
}

static const char *source_word(enum pace_source source)
{
	return source == PACE_SHEET ? "by the sheet's rates" : "as measured so far";
}

void sb_opening_left_words(
	const struct opening_pace *best, const struct opening_pace *likely, struct sb_str *out)
{
	char a[SB_TIMELINE_TEXT], b[SB_TIMELINE_TEXT];

	if (best->source == PACE_UNKNOWN && likely->source == PACE_UNKNOWN) {
		sb_str_add(out, "not known yet: it takes %d timed joints, or rates in the sheet",
			SB_OPENING_LEAST);
		return;
	}
	sb_timeline_minutes(best->left_min, a);
	sb_timeline_minutes(likely->left_min, b);
	sb_str_add(out, "best %s", a);
	if (best->source != likely->source && best->source != PACE_UNKNOWN)
		sb_str_add(out, " (%s)", source_word(best->source));
	sb_str_add(out, ", likely %s", b);
	if (likely->source != PACE_UNKNOWN)
		sb_str_add(out, ", %s", source_word(likely->source));
}

void sb_opening_volume(const struct job *job, double m3, char text[32])
{
	if (isnan(m3))
		snprintf(text, 32, "not known");
	else
		snprintf(text, 32, job->unit == UNIT_M ? "%.1f %s" : "%.0f %s",
			sb_measure_typed(job->unit, MEASURE_VOLUME, m3),
			sb_measure_unit(job->unit, MEASURE_VOLUME));
}

void sb_opening_volume_words(const struct job *job, const struct opening_pass *p, struct sb_str *out)
{
	char pumped[32];

	if (isnan(p->cut_m3) || isnan(p->cut_left_m3)) {
		sb_str_add(out, "What %s is not known: the sheet has no pilot_diameter in [hole].",
			isnan(p->cut_m3) ? "it cuts" : "is left to cut");
	} else if (p->cut_m3 + p->cut_left_m3 <= 0) {
		sb_str_add(out, "It cuts nothing: the hole is as wide already.");
	} else {
		char cut[32], left[32], fluid[32], fluid_left[32];
		sb_opening_volume(job, p->cut_m3, cut);
		sb_opening_volume(job, p->cut_left_m3, left);
		sb_opening_volume(job, p->fluid_m3, fluid);
		sb_opening_volume(job, p->fluid_left_m3, fluid_left);
		sb_str_add(out, "Cut %s of ground in place, %s left. Fluid for it at %s to 1: %s, %s left.",
			cut, left, job->fluid_ratio.text, fluid, fluid_left);
	}
	sb_opening_volume(job, p->pumped_m3, pumped);
	if (p->pumped)
		sb_str_add(out,
			" Pumped %s, reused fluid counted each time round, in the %d joint%s whose flow and times are known.",
			pumped, p->pumped, p->pumped == 1 ? "" : "s");
}

/* ---- the page ---- */

static void put_hole(struct document *d, const struct job *job, const struct opening *o)
{
	double low = HUGE_VAL, high = 0;

	for (int joint = 1; joint <= o->bore_joints; joint++) {
		low = fmin(low, o->hole_m[joint]);
		high = fmax(high, o->hole_m[joint]);
	}
	if (high <= 0)
		sb_document_pair(d, "hole now", "not known: no pilot_diameter in [hole], and no pass");
	else if (low <= 0)
		sb_document_pair(
			d, "hole now", "%.5g %s, and the pilot's", size_of(job, high), size_unit(job));
	else if (high - low < 1e-9)
		sb_document_pair(d, "hole now", "%.5g %s all along", size_of(job, high), size_unit(job));
	else
		sb_document_pair(d, "hole now", "%.5g to %.5g %s", size_of(job, low), size_of(job, high),
			size_unit(job));
}

static void put_whole(struct document *d, const struct job *job, const struct opening *o, enum pass_kind kind)
{
	struct opening_pace best, likely;
	struct sb_str words = { 0 };

	sb_opening_whole(o, job, kind, &best, &likely);
	if (best.source != PACE_UNKNOWN || likely.source != PACE_UNKNOWN) {
		sb_opening_left_words(&best, &likely, &words);
		sb_document_pair(
			d, kind == PASS_REAM ? "a whole ream" : "a whole swab", "%s", sb_str_get(&words));
	}
	sb_str_clear(&words);
}

/* When the last joint is through, if it goes on like that from now. */
static void put_moments(struct document *d, const struct opening_pass *p, int64_t now_ms)
{
	char best[SB_TIMELINE_TEXT], likely[SB_TIMELINE_TEXT];

	if (now_ms == 0 || isnan(p->best.left_min) || isnan(p->likely.left_min) || p->left == 0)
		return;
	sb_timeline_moment(now_ms + (int64_t)(p->best.left_min * 60000), best);
	sb_timeline_moment(now_ms + (int64_t)(p->likely.left_min * 60000), likely);
	sb_document_pair(d, "through", "best %s, likely %s, without a break from now on", best, likely);
}

static void put_running(struct document *d, const struct job *job, const struct opening *o, int64_t now_ms)
{
	const struct opening_pass *p = o->running;
	struct sb_str words = { 0 };
	char what[SB_OPENING_WHAT];

	if (p == NULL)
		return;
	sb_opening_what_pass(job, p->pass, what);
	sb_document_pair(d, "runs", "pass %d, %s", p->number, what);
	if (p->next)
		sb_document_pair(d, "joints", "%d of %d through, %d left, joint %d next", p->done,
			o->bore_joints, p->left, p->next);
	else
		sb_document_pair(d, "joints", "all %d through: end the pass", o->bore_joints);
	sb_opening_left_words(&p->best, &p->likely, &words);
	sb_document_pair(d, "time left", "%s. %s", sb_str_get(&words), sb_opening_not_in_it);
	put_moments(d, p, now_ms);
	sb_str_clear(&words);
	sb_opening_volume_words(job, p, &words);
	sb_document_pair(d, "volumes", "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

static void put_faults(struct document *d, const struct opening *o)
{
	for (size_t i = 0; i < o->fault_count; i++)
		sb_document_pair(d, sb_level_word(o->faults[i].level), "%s", o->faults[i].text);
	if (o->fault_count == 0 && o->count)
		sb_document_pair(
			d, "rules", "ok: the passes keep the contract's sizes and the trade's order");
}

static void put_passes(struct document *d, const struct job *job, const struct opening *o)
{
	static const struct table_column columns[] = { { "pass", TABLE_FIGURES }, { "what", TABLE_WORDS },
		{ "size", TABLE_FIGURES }, { "to", TABLE_WORDS }, { "through", TABLE_FIGURES },
		{ "left", TABLE_FIGURES }, { "cut", TABLE_FIGURES }, { "pumped", TABLE_FIGURES },
		{ "as it stands", TABLE_WORDS } };
	char volume[32];

	if (o->count == 0) {
		sb_document_paragraph(d, "No pass has begun.");
		return;
	}
	sb_document_table(d, columns, sizeof columns / sizeof *columns);
	for (size_t k = 0; k < o->count; k++) {
		const struct opening_pass *p = &o->list[k];
		sb_document_cell(d, "%d", p->number);
		sb_document_cell(d, "%s", sb_pass_kind_name(p->pass->kind));
		sb_document_cell(d, "%s %s", p->pass->diameter.text, size_unit(job));
		sb_document_cell(d, "%s", sb_pass_way_name(p->pass->to));
		sb_document_cell(d, "%d", p->done);
		sb_document_cell(d, "%d", p->left);
		sb_opening_volume(job, p->cut_m3, volume);
		sb_document_cell(d, "%s", volume);
		sb_opening_volume(job, p->pumped_m3, volume);
		sb_document_cell(d, "%s", p->pumped ? volume : "");
		sb_document_cell(d, "%s%s%s",
			p->end == NULL	  ? "runs"
				: p->left ? "ended early"
					  : "ended",
			*p->pass->tool ? "; " : "", p->pass->tool);
	}
}

void sb_opening_blocks(struct document *d, const struct job *job, const struct opening *o, int64_t now_ms)
{
	struct sb_str words = { 0 };

	sb_opening_final_words(job, &words);
	sb_document_pair(d, "final hole", "%s", sb_str_get(&words));
	sb_str_clear(&words);
	put_hole(d, job, o);
	put_running(d, job, o, now_ms);
	put_whole(d, job, o, PASS_REAM);
	put_whole(d, job, o, PASS_SWAB);
	put_faults(d, o);
	sb_document_heading(d, "Passes");
	put_passes(d, job, o);
}

/* ---- the joints of a pass ---- */

static void put_ranges(struct document *d, const struct job *job, const struct opening_pass *p)
{
	for (int k = 0; k < OPENING_VALUES; k++) {
		const struct opening_span *s = &p->values[k];
		if (s->count)
			sb_document_pair(d, sb_opening_value_name((enum opening_value)k),
				"%.8g to %.8g %s, mean %.*f of %d joint%s", s->low, s->high,
				sb_opening_value_unit(job, (enum opening_value)k), s->mean < 100 ? 1 : 0,
				s->mean, s->count, s->count == 1 ? "" : "s");
	}
}

static void put_joints(struct document *d, const struct job *job, const struct opening *o, size_t pass)
{
	static const struct table_column columns[] = { { "joint", TABLE_FIGURES }, { "begun", TABLE_FIGURES },
		{ "ended", TABLE_FIGURES }, { "whole min", TABLE_FIGURES }, { "pull", TABLE_FIGURES },
		{ "torque", TABLE_FIGURES }, { "flow", TABLE_FIGURES }, { "pump", TABLE_FIGURES },
		{ "annular", TABLE_FIGURES }, { "cut", TABLE_FIGURES }, { "marks", TABLE_WORDS } };
	static const char *const returns[] = { "", "", "returns partial", "no returns" };

	sb_document_heading(d, "Joints of pass %d", o->list[pass].number);
	put_ranges(d, job, &o->list[pass]);
	if (o->list[pass].done == 0)
		sb_document_paragraph(d, "It went through no joint yet.");
	sb_document_table(d, columns, sizeof columns / sizeof *columns);
	for (size_t i = 0; i < o->joint_count; i++) {
		const struct opening_joint *j = &o->joints[i];
		if (j->pass != pass)
			continue;
		sb_document_cell(d, "%d", j->entry->joint);
		sb_document_cell(d, "%s", j->entry->started);
		sb_document_cell(d, "%s", j->entry->ended);
		sb_document_cell(d, isnan(j->minutes.whole_min) ? "" : "%.0f", j->minutes.whole_min);
		for (int k = 0; k < OPENING_VALUES; k++)
			sb_document_cell(d, "%s", sb_opening_value(j->entry, (enum opening_value)k)->text);
		sb_document_cell(d,
			isnan(j->cut_m3)	      ? ""
				: job->unit == UNIT_M ? "%.2f"
						      : "%.0f",
			sb_measure_typed(job->unit, MEASURE_VOLUME, j->cut_m3));
		sb_document_cell(d, "%s%s%s", returns[j->entry->returns],
			j->again && returns[j->entry->returns][0] ? ", " : "", j->again ? "again" : "");
	}
}

static void put_struck(struct document *d, const struct job *job)
{
	static const enum act_kind kinds[] = { ACT_PASS, ACT_PASS_JOINT, ACT_PASS_END };
	bool any = false;

	for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
		const struct fact_sort *sort = sb_fact_sort(kinds[k]);
		for (size_t i = 0; i < sb_fact_count(sort, job); i++) {
			const struct fact *f = sb_fact_row(sort, job, i);
			char key[32];
			if (!sb_fact_struck(sort, f))
				continue;
			if (!any)
				sb_document_heading(d, "Struck out: counts for nothing");
			any = true;
			snprintf(key, sizeof key, "entry %lld", (long long)f->act);
			sb_document_pair(d, key, "%s (%s)", f->words, f->who);
		}
	}
}

void sb_opening_text(const struct job *job, int pass, int64_t now_ms, struct sb_str *out)
{
	struct document d;
	struct opening o;
	char title[SB_NAME_TEXT + 32];

	sb_opening_take(job, &o);
	snprintf(title, sizeof title, "Opening the hole: %s", job->name);
	sb_document_begin(&d, &(struct document_head){ .title = title, .mark = sb_about_mark(job) });
	sb_opening_blocks(&d, job, &o, now_ms);
	for (size_t k = 0; k < o.count; k++)
		if (pass ? o.list[k].number == pass : k + 1 == o.count)
			put_joints(&d, job, &o, k);
	put_struck(&d, job);
	sb_document_text(&d, out);
	sb_document_clear(&d);
	sb_opening_clear(&o);
}

/* The pipe string as a list. What is struck out is listed below it, and counts for nothing. */
#include "io/pipe_string.h"

#include <math.h>
#include <stdio.h>

#include "json_after.h"

static double typed(const struct job *job, double metres)
{
	return metres / sb_unit_metres(job->unit);
}

void sb_pipe_string_length(const struct job *job, const struct pipe_string *p, struct sb_str *out)
{
	const char *unit = sb_unit_short(job->unit);

	if (isnan(p->needed_m))
		sb_str_add(out, "%.1f %s; nothing was drilled yet", typed(job, p->length_m), unit);
	else
		sb_str_add(out, "%.1f of %.1f %s asked: bore %.1f%s, %.1f past the entry",
			typed(job, p->length_m), typed(job, p->needed_m), unit, typed(job, p->bore_m),
			p->bore_whole ? "" : " so far", typed(job, p->extra_m));
}

const char *sb_pipe_string_word(const struct pipe_record *r, bool asked)
{
	if (r)
		return sb_outcome_name(r->outcome);
	return asked ? "missing" : "not asked";
}

static bool coating_asked(const struct job *job)
{
	return job->string_coating == ASKED_YES && job->material == MATERIAL_STEEL;
}

/* ---- for people ---- */

static void put_joint(const struct job *job, const struct pipe_string *p, size_t i, struct sb_str *out)
{
	const struct string_joint *j = &p->list[i];
	bool weld = sb_pipe_string_weld_at(p, i);

	sb_str_add(out, "%5d %9s %10.1f  %-9s %-10s %-9s %s\n", j->pipe->joint, j->pipe->length.text,
		typed(job, j->from_m),
		weld ? sb_pipe_string_word(j->weld, job->string_weld == ASKED_YES) : "",
		weld ? sb_pipe_string_word(j->inspection, job->string_inspection == ASKED_YES) : "",
		sb_pipe_string_word(j->coating, coating_asked(job)), j->pipe->mark);
}

static void put_whole(struct sb_str *out, const char *name, const struct pipe_record *r, bool asked)
{
	sb_str_add(out, "%s: %s", name, sb_pipe_string_word(r, asked));
	if (r && sb_number_given(&r->pressure))
		sb_str_add(out, ", held %s", r->pressure.text);
	if (r && sb_number_given(&r->hours))
		sb_str_add(out, ", for %s hours", r->hours.text);
	if (r && *r->reference)
		sb_str_add(out, ", %s", r->reference);
	sb_str_add(out, "\n");
}

static void put_lacks(const struct lacks *l, struct sb_str *out)
{
	char line[SB_LACK_TEXT + 4];

	if (l->count == 0)
		sb_str_add(out, "Nothing of the string is missing.\n");
	else
		sb_str_add(out, "Missing, and the pull waits for it:\n");
	for (size_t i = 0; i < l->count; i++) {
		snprintf(line, sizeof line, "%s.", l->text[i]);
		sb_str_wrap(out, line, 2, 80);
	}
}

/* Entries of the string that were struck out, as their acts said it. */
static void put_struck(const struct job *job, struct sb_str *out)
{
	for (size_t i = 0; i < job->pipe_count; i++)
		if (job->pipes[i].struck)
			sb_str_add(out, "struck out: entry %lld, %.60s\n", (long long)job->pipes[i].fact.act,
				job->pipes[i].fact.words);
	for (size_t i = 0; i < job->pipe_record_count; i++)
		if (job->pipe_records[i].struck)
			sb_str_add(out, "struck out: entry %lld, %.60s\n",
				(long long)job->pipe_records[i].fact.act, job->pipe_records[i].fact.words);
}

void sb_pipe_string_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct pipe_string p;
	struct sb_str length = { 0 };

	(void)s;
	sb_pipe_string_look(job, &p);
	sb_str_add(&length, "Pipe string: %zu joint%s, ", p.count, p.count == 1 ? "" : "s");
	sb_pipe_string_length(job, &p, &length);
	sb_str_add(&length, ".");
	sb_str_wrap(out, sb_str_get(&length), 0, 80);
	if (p.count)
		sb_str_add(out, "joint    length  from head  weld      inspection coating   mark\n");
	for (size_t i = 0; i < p.count; i++)
		put_joint(job, &p, i, out);
	put_whole(out, "pressure test", p.test, job->string_test == ASKED_YES);
	put_whole(out, "drag section", p.drag, job->string_drag == ASKED_YES);
	put_lacks(&p.lacks, out);
	put_struck(job, out);
	sb_str_clear(&length);
	sb_pipe_string_clear(&p);
}

/* ---- for scripts ---- */

static void put_record(struct sb_json *j, const char *name, const struct pipe_record *r)
{
	if (r == NULL) {
		sb_json_null(j, name);
		return;
	}
	sb_json_object(j, name);
	sb_json_text(j, "outcome", sb_outcome_name(r->outcome));
	if (r->kind == RECORD_TEST) {
		sb_json_typed(j, "pressure", &r->pressure);
		sb_json_typed(j, "hours", &r->hours);
	}
	sb_json_text_or_null(j, "reference", r->reference);
	sb_json_text(j, "by", r->fact.who);
	sb_json_time(j, "at", r->fact.at_ms);
	sb_json_whole(j, "entry", r->fact.act);
	sb_json_end(j);
}

static void put_joints(struct sb_json *j, const struct job *job, const struct pipe_string *p)
{
	sb_json_array(j, "joints");
	for (size_t i = 0; i < p->count; i++) {
		const struct string_joint *one = &p->list[i];
		sb_json_object(j, NULL);
		sb_json_whole(j, "joint", one->pipe->joint);
		sb_json_typed(j, "length", &one->pipe->length);
		sb_json_fixed(j, "from", typed(job, one->from_m), 6);
		sb_json_text_or_null(j, "mark", one->pipe->mark);
		sb_json_whole(j, "entry", one->pipe->fact.act);
		put_record(j, "weld", one->weld);
		put_record(j, "inspection", one->inspection);
		put_record(j, "coating", one->coating);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static const struct json_unit units[] = { { "pressure", MEASURE_PRESSURE } };
static const enum act_kind entered[] = { ACT_PIPE, ACT_PIPE_RECORD };

void sb_pipe_string_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	struct pipe_string p;

	(void)s;
	sb_pipe_string_look(job, &p);
	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	json_after_units(&j, job, units, sizeof units / sizeof *units);
	sb_json_fixed(&j, "length", typed(job, p.length_m), 6);
	sb_json_fixed(&j, "bore", typed(job, p.bore_m), 6);
	sb_json_bool(&j, "bore_whole", p.bore_whole);
	sb_json_fixed(&j, "extra", typed(job, p.extra_m), 6);
	sb_json_fixed(&j, "needed", typed(job, p.needed_m), 6);
	sb_json_bool(&j, "ready", p.lacks.count == 0);
	sb_json_array(&j, "missing");
	for (size_t i = 0; i < p.lacks.count; i++)
		sb_json_text(&j, NULL, p.lacks.text[i]);
	sb_json_end(&j);
	put_joints(&j, job, &p);
	put_record(&j, "test", p.test);
	put_record(&j, "drag", p.drag);
	json_after_struck(&j, job, entered, sizeof entered / sizeof *entered);
	sb_json_end(&j);
	*out = j.text;
	sb_pipe_string_clear(&p);
}

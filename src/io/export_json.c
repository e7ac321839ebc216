/* The whole job as one JSON object: what it is about, the sheet as it was typed, every reading with its
 * place, legs, acts, the facts that came with them, warnings and who accepted them. Nothing that the job file
 * knows is left out, so it is the form to keep beside the file.
 */
#include "base/mem.h"
#include "base/time.h"
#include "io/about.h"
#include "io/json.h"
#include "io/rows.h"
#include "model/fact.h"

#include "export.h"
#include "rows_parts.h"

static void put_columns(struct sb_json *j)
{
	sb_json_array(j, "columns");
	for (size_t i = 0; i < PATH_COLUMNS; i++) {
		sb_json_object(j, NULL);
		sb_json_text(j, "name", sb_path_columns[i].name);
		sb_json_text(j, "unit", sb_path_columns[i].unit);
		sb_json_text(j, "meaning", sb_path_columns[i].help);
		sb_json_end(j);
	}
	sb_json_end(j);
}

/* job.ini as it stands: {"job": {"name": ...}, ...}; sections stand together in the table. */
static void put_settings(struct sb_json *j, const struct job *job)
{
	const char *section = NULL;
	char text[256];

	sb_json_object(j, "settings");
	for (size_t i = 0; i < sb_setting_count; i++) {
		const struct setting *s = &sb_settings[i];
		if (section == NULL || !sb_same(section, s->section)) {
			if (section)
				sb_json_end(j);
			sb_json_object(j, s->section);
			section = s->section;
		}
		if (sb_setting_get(s, job, text, sizeof text))
			sb_json_text(j, s->key, text);
	}
	sb_json_end(j);
	sb_json_end(j);
}

static void put_table(struct sb_json *j, const struct job *job, const struct sheet_table *t)
{
	char buffer[SB_NUMBER_TEXT];

	sb_json_array(j, t->name);
	for (size_t i = 0; i < sb_sheet_rows(t, job); i++) {
		const void *row = sb_sheet_row(t, job, i);
		sb_json_object(j, NULL);
		for (size_t k = 0; k < t->column_count; k++)
			sb_json_text_or_null(
				j, t->columns[k].name, sb_sheet_cell_get(&t->columns[k], row, buffer));
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_reading(struct sb_json *j, const struct reading *r)
{
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		if (export_is_path_column(f->name))
			continue;
		if (r && f->type == FIELD_NUMBER)
			sb_json_typed(j, f->name,
				(const struct number *)(const void *)((const char *)r + f->offset));
		else
			sb_json_text_or_null(j, f->name, r ? sb_row_field_get(f, r) : "");
	}
	if (r == NULL)
		return;
	sb_json_text_or_null(j, "reason", r->reason);
	sb_json_text(j, "who", r->who);
	sb_json_time(j, "time", r->at_ms);
	sb_json_whole(j, "reading", r->id);
	if (r->corrects)
		sb_json_whole(j, "corrects", r->corrects);
	else
		sb_json_null(j, "corrects");
}

static void put_rows(struct sb_json *j, const struct job *job, const struct solution *s)
{
	struct path_cell cells[PATH_COLUMNS];
	struct export_line *lines;
	size_t count = export_lines(job, s, &lines);

	sb_json_array(j, "rows");
	for (size_t i = 0; i < count; i++) {
		sb_json_object(j, NULL);
		export_cells(job, s, &lines[i], cells);
		sb_rows_json_cells(j, cells);
		sb_json_text(j, "standing", sb_standing_name(lines[i].standing));
		sb_json_bool(j, "corrected",
			lines[i].reading && lines[i].reading->corrects &&
				lines[i].standing != STANDING_REPLACED);
		put_reading(j, lines[i].reading);
		sb_json_end(j);
	}
	sb_json_end(j);
	sb_free(lines);
}

static void put_legs(struct sb_json *j, const struct job *job)
{
	sb_json_array(j, "legs");
	for (size_t i = 0; i < job->leg_count; i++) {
		const struct leg *l = &job->legs[i];
		sb_json_object(j, NULL);
		sb_json_whole(j, "leg", l->number);
		sb_json_whole(j, "to_joint", l->to_joint);
		sb_json_text(j, "who", l->who);
		sb_json_time(j, "time", l->at_ms);
		sb_json_text(j, "reason", l->reason);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_acts(struct sb_json *j, const struct job *job)
{
	sb_json_array(j, "acts");
	for (size_t i = 0; i < job->act_count; i++) {
		const struct act *a = &job->acts[i];
		sb_json_object(j, NULL);
		sb_json_whole(j, "act", a->id);
		sb_json_text(j, "kind", sb_act_name(a->kind));
		sb_json_text(j, "who", a->who);
		sb_json_time(j, "time", a->at_ms);
		sb_json_whole(j, "leg", a->leg);
		sb_json_whole(j, "joint", a->joint);
		sb_json_whole(j, "reading", a->subject);
		sb_json_text(j, "text", a->text);
		sb_json_end(j);
	}
	sb_json_end(j);
}

/* ---- the facts that came with acts ---- */

static void put_column(struct sb_json *j, const struct sheet_column *c, const void *fact)
{
	const void *member = (const char *)fact + c->offset;
	char buffer[SB_NUMBER_TEXT];

	if (c->type == COLUMN_NUMBER)
		sb_json_typed(j, c->name, member);
	else if (c->type == COLUMN_WHOLE)
		sb_json_whole(j, c->name, *(const int *)member);
	else
		sb_json_text_or_null(j, c->name, sb_sheet_cell_get(c, fact, buffer));
}

/* Who and when stand beside each, so that nobody has to look the act up. */
static void put_fact_head(struct sb_json *j, const struct fact *f)
{
	sb_json_whole(j, "id", f->id);
	sb_json_whole(j, "act", f->act);
	sb_json_text(j, "who", f->who);
	sb_json_time(j, "time", f->at_ms);
}

static void put_sort(struct sb_json *j, const struct job *job, const struct fact_sort *sort)
{
	sb_json_array(j, sort->table);
	for (size_t i = 0; i < sb_fact_count(sort, job); i++) {
		const void *fact = sb_fact_row(sort, job, i);
		sb_json_object(j, NULL);
		put_fact_head(j, fact);
		for (size_t k = 0; k < sort->column_count; k++)
			put_column(j, &sort->columns[k], fact);
		if (sort->struck_at)
			sb_json_bool(j, "struck", sb_fact_struck(sort, fact));
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_changes(struct sb_json *j, const struct job *job)
{
	sb_json_array(j, "change");
	for (size_t i = 0; i < job->change_count; i++) {
		const struct change *c = &job->changes[i];
		sb_json_object(j, NULL);
		put_fact_head(j, &c->fact);
		sb_json_text(j, "section", c->section);
		sb_json_text(j, "key", c->key);
		sb_json_text(j, "value", c->value);
		sb_json_whole(j, "from_joint", c->from_joint);
		sb_json_end(j);
	}
	sb_json_end(j);
}

/* By the names of the job file's tables. */
static void put_facts(struct sb_json *j, const struct job *job)
{
	sb_json_object(j, "facts");
	put_changes(j, job);
	for (size_t i = 0; i < sb_fact_sort_count; i++)
		put_sort(j, job, &sb_fact_sorts[i]);
	sb_json_end(j);
}

static void put_warnings(struct sb_json *j, const struct solution *s)
{
	sb_json_array(j, "warnings");
	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		sb_json_object(j, NULL);
		sb_json_text(j, "kind", sb_warning_sorts[w->kind].name);
		sb_json_text(j, "level", sb_level_word(w->level));
		sb_json_whole(j, "leg", w->leg);
		sb_json_whole(j, "from_joint", w->joint);
		sb_json_whole(j, "to_joint", w->last_joint);
		sb_json_whole(j, "worst_joint", w->worst_joint);
		sb_json_fixed(j, "station", sb_frame_typed(&s->frame, w->station_m), 6);
		rows_warning_values(j, w);
		sb_json_bool(j, "open", w->open);
		sb_json_bool(j, "withdrawn", w->superseded);
		sb_json_text_or_null(j, "acknowledged_by", w->acknowledged_by);
		sb_json_text(j, "text", w->text);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_acknowledgements(struct sb_json *j, const struct job *job)
{
	sb_json_array(j, "acknowledgements");
	for (size_t i = 0; i < job->acknowledgement_count; i++) {
		const struct acknowledgement *a = &job->acknowledgements[i];
		sb_json_object(j, NULL);
		sb_json_text(j, "kind", a->kind);
		sb_json_text(j, "level", sb_level_word((enum level)a->level));
		sb_json_whole(j, "leg", a->leg);
		sb_json_whole(j, "from_joint", a->joint);
		sb_json_whole(j, "to_joint", a->to_joint);
		sb_json_text(j, "who", a->who);
		sb_json_time(j, "time", a->at_ms);
		sb_json_text(j, "reason", a->reason);
		sb_json_end(j);
	}
	sb_json_end(j);
}

/* The same path where an owner's map wants it: at fixed stations, only when they are asked for. */
static int put_stations(struct sb_json *j, const struct export *e, struct sb_err *err)
{
	struct rows_ask ask = { .every = e->every.value };

	if (!sb_number_given(&e->every))
		return 0;
	sb_json_typed(j, "stations_every", &e->every);
	return sb_rows_put(j, "stations", e->job, e->solution, &ask, err);
}

int export_json(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	const struct job *job = e->job;
	const struct solution *s = e->solution;
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_about_put(&j, "about", job, e->about);
	put_settings(&j, job);
	sb_json_object(&j, "tables");
	for (size_t i = 0; i < sb_sheet_table_count; i++)
		put_table(&j, job, &sb_sheet_tables[i]);
	sb_json_end(&j);
	put_columns(&j);
	put_rows(&j, job, s);
	int status = put_stations(&j, e, err);
	put_legs(&j, job);
	put_acts(&j, job);
	put_facts(&j, job);
	sb_json_text(&j, "level", sb_level_word(s->level));
	put_warnings(&j, s);
	put_acknowledgements(&j, job);
	sb_json_end(&j);
	*out = j.text;
	return status;
}

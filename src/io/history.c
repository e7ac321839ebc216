/* The list of acts, as a table of text and as JSON. */
#include "io/history.h"

#include "base/mem.h"
#include "base/time.h"
#include "io/document.h"
#include "io/json.h"

#include <stdio.h>

void sb_history_say(const struct history_filter *f, struct sb_str *out)
{
	static const char *const words[HISTORY_WHICH] = { "every act", "what was decided, edited and noted",
		"what was edited", "what was accepted" };

	sb_str_add(out, "%s", words[f->which]);
	if (f->who && *f->who)
		sb_str_add(out, ", by %s", f->who);
	if (f->shift)
		sb_str_add(out, ", in shift %d", f->shift);
}

static void put_act(struct document *d, const struct act *a)
{
	char day[SB_TIME_TEXT], clock[SB_TIME_TEXT];

	sb_time_day(a->at_ms + (int64_t)a->offset_min * 60000, day);
	sb_time_short(a->at_ms, a->offset_min, clock);
	sb_document_cell(d, "%lld", (long long)a->id);
	sb_document_cell(d, "%s %s", day, clock);
	sb_document_cell(d, "%s", a->who);
	sb_document_cell(d, "%s", sb_history_word(a->kind));
	if (a->joint)
		sb_document_cell(d, "%d", a->joint);
	else
		sb_document_cell(d, "%s", "");
	sb_document_cell(d, "%s", a->text);
}

void sb_history_text(const struct job *job, const struct history_filter *f, struct sb_str *out)
{
	static const struct table_column columns[] = { { "no.", TABLE_FIGURES }, { "when", TABLE_WORDS },
		{ "who", TABLE_WORDS }, { "what", TABLE_WORDS }, { "joint", TABLE_FIGURES },
		{ "words", TABLE_WORDS } };
	struct document d;
	struct sb_str title = { 0 };
	size_t *list, count = sb_history_pick(job, f, &list);

	sb_str_add(&title, "%s: ", job->name);
	sb_history_say(f, &title);
	sb_document_begin(&d, &(struct document_head){ .title = sb_str_get(&title) });
	if (count == 0)
		sb_document_paragraph(&d, "Nothing.");
	sb_document_table(&d, columns, sizeof columns / sizeof *columns);
	for (size_t i = 0; i < count; i++)
		put_act(&d, &job->acts[list[i]]);
	sb_document_text(&d, out);
	sb_document_clear(&d);
	sb_str_clear(&title);
	sb_free(list);
}

static void whole_or_null(struct sb_json *j, const char *name, int value)
{
	if (value)
		sb_json_whole(j, name, value);
	else
		sb_json_null(j, name);
}

static void put_json(struct sb_json *j, const struct job *job, size_t i)
{
	const struct act *a = &job->acts[i];
	char at[SB_TIME_TEXT];

	sb_json_object(j, NULL);
	sb_json_whole(j, "act", a->id);
	sb_json_text(j, "kind", sb_act_name(a->kind));
	sb_time_iso(a->at_ms, at);
	sb_json_text(j, "at", at);
	sb_json_whole(j, "offset_min", a->offset_min);
	sb_json_whole(j, "leg", a->leg);
	sb_json_whole(j, "joint", a->joint);
	whole_or_null(j, "shift", sb_history_shift_of(job, i));
	sb_json_text(j, "who", a->who);
	sb_json_text(j, "text", a->text);
	sb_json_end(j);
}

void sb_history_json(const struct job *job, const struct history_filter *f, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	size_t *list, count = sb_history_pick(job, f, &list);

	sb_json_object(&j, NULL);
	sb_json_text(&j, "job", job->name);
	sb_json_text(&j, "which", sb_history_name(f->which));
	sb_json_text_or_null(&j, "who", f->who ? f->who : "");
	whole_or_null(&j, "shift", f->shift);
	sb_json_array(&j, "acts");
	for (size_t i = 0; i < count; i++)
		put_json(&j, job, list[i]);
	sb_json_end(&j);
	sb_json_end(&j);
	*out = j.text;
	sb_free(list);
}

/* How it was measured: instrument, method, units, the way from a reading to an azimuth on the grid, and what
 * changed of it while the bore was drilled. The facts are those that go with every export (io/about.h). */
#include "base/mem.h"
#include "base/str.h"
#include "io/courses.h"
#include "io/links.h"
#include "model/repeats.h"

#include <string.h>

#include "report_parts.h"

/* Lines that stand elsewhere in the report. */
static bool said_elsewhere(const char *key)
{
	static const char *const keys[] = { "job", "owner", "contractor", "file", "file_digest",
		"exported_by", "exported_at", "program", "entry", "exit", "caution", "rehearsal", "sides" };

	for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
		if (sb_same(keys[i], key))
			return true;
	return false;
}

static void put_facts(struct report *r)
{
	struct about_line *lines = sb_alloc(SB_ABOUT_LINES * sizeof *lines);
	size_t count = sb_about_lines(r->job, r->about, lines);
	char key[64];

	for (size_t i = 0; i < count; i++) {
		if (said_elsewhere(lines[i].key))
			continue;
		sb_copy(key, sizeof key, lines[i].key);
		for (char *at = key; *at; at++)
			if (*at == '_')
				*at = ' ';
		sb_document_pair(r->d, key, "%s", lines[i].text);
	}
	sb_free(lines);
}

static void put_chain(struct report *r)
{
	static const struct table_column columns[] = { { "link", TABLE_WORDS },
		{ "what it does", TABLE_WORDS }, { "whose word it is", TABLE_WORDS } };
	struct azimuth_link links[SB_LINKS];
	size_t count = sb_links(r->job, &r->s->frame, NULL, links);

	sb_document_subheading(r->d, "From a reading to an azimuth on the grid, as it stands now");
	sb_document_table(r->d, columns, 3);
	for (size_t i = 0; i < count; i++) {
		sb_document_cell(r->d, "%s", links[i].label);
		sb_document_cell(r->d, "%s", links[i].words);
		sb_document_cell(r->d, "%s", links[i].source);
	}
}

/* Every act that changed settings, the oldest first. */
static void put_changes(struct report *r)
{
	static const struct table_column columns[] = { { "when", TABLE_WORDS },
		{ "after joint", TABLE_FIGURES }, { "by", TABLE_WORDS },
		{ "what changed, and why", TABLE_WORDS } };
	const struct job *job = r->job;
	const struct change **acts = sb_alloc((job->change_count + 1) * sizeof(void *));
	size_t count = sb_links_acts(job, acts, job->change_count);
	char time[REPORT_WORDS];

	if (count > 0)
		sb_document_subheading(r->d, "Settings that changed while the bore was drilled");
	sb_document_table(r->d, columns, 4);
	for (size_t i = count; i-- > 0;) {
		const struct fact *f = &acts[i]->fact;
		sb_document_cell(r->d, "%s", report_time(job, f->act, f->at_ms, time));
		sb_document_cell(r->d, "%d", f->joint);
		sb_document_cell(r->d, "%s", f->who);
		sb_document_cell(r->d, "%s", f->words);
	}
	sb_free(acts);
}

/* Readings taken again, and what they say of the noise. */
static void put_repeats(struct report *r)
{
	static const struct table_column columns[] = { { "when", TABLE_WORDS }, { "by", TABLE_WORDS },
		{ "reading taken again", TABLE_WORDS } };
	struct sb_str words = { 0 };
	char time[REPORT_WORDS];

	if (r->job->repeat_count == 0)
		return;
	sb_document_subheading(r->d, "Readings that were taken again");
	sb_document_table(r->d, columns, 3);
	for (size_t i = 0; i < r->job->repeat_count; i++) {
		const struct repeat *p = &r->job->repeats[i];
		words.length = 0;
		sb_repeat_words(r->job, r->s, p, &words);
		sb_document_cell(r->d, "%s", report_time(r->job, p->fact.act, p->fact.at_ms, time));
		sb_document_cell(r->d, "%s", p->fact.who);
		sb_document_cell(r->d, "%s", sb_str_get(&words));
	}
	words.length = 0;
	if (sb_repeat_noise_words(r->job, r->s, &words))
		sb_document_paragraph(r->d, "%s", sb_str_get(&words));
	sb_str_clear(&words);
}

void report_measured(struct report *r)
{
	struct sb_str courses = { 0 };

	report_heading(r, "How it was measured");
	put_facts(r);
	if (sb_courses_say(r->job, r->s, &courses))
		sb_document_paragraph(r->d, "%s", sb_str_get(&courses));
	sb_str_clear(&courses);
	put_chain(r);
	put_changes(r);
	put_repeats(r);
}

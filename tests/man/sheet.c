/* The lists of sagbend-job(5) about the job sheet: the keys of job.ini by section, and the columns of its
 * tables. */
#include "man/pages.h"

#include "model/setting.h"

#include <stdio.h>
#include <string.h>

/* "m|ft|ftUS" as "m, ft or ftUS". */
static void choices(struct sb_str *out, const char *text)
{
	while (*text) {
		size_t length = strcspn(text, "|");
		sb_str_add(out, "%.*s", (int)length, text);
		text += length;
		if (*text == '|')
			sb_str_add(out, "%s", strchr(text + 1, '|') ? ", " : " or ");
		text += *text == '|';
	}
}

/* What may be written, where there are limits to it. */
static void range(struct sb_str *out, double low, double high)
{
	const double endless = 1e9;

	if (low > -endless && high < endless)
		sb_str_add(out, " From %g to %g.", low, high);
	else if (low > -endless)
		sb_str_add(out, " At least %g.", low);
}

static void write_setting(const struct setting *s, struct sb_str *out)
{
	struct sb_str more = { 0 };

	mdoc_item(out, s->key, s->unit);
	mdoc_sentence(out, s->help);
	if (s->required)
		sb_str_add(&more, " Required.");
	if (s->type == SETTING_CHOICE) {
		sb_str_add(&more, " One of ");
		choices(&more, s->choices);
		sb_str_add(&more, ".");
	} else if (s->type == SETTING_NUMBER && !sb_same(s->unit, "the job's convention")) {
		range(&more, s->low, s->high);
	}
	if (s->preset)
		sb_str_add(&more, " When left out: %s.", s->preset);
	if (more.length)
		mdoc_text(out, sb_str_get(&more) + 1);
	sb_str_clear(&more);
}

static void write_settings(struct sb_str *out)
{
	const char *section = "";

	for (size_t i = 0; i < sb_setting_count; i++) {
		if (!sb_same(section, sb_settings[i].section)) {
			if (*section)
				mdoc_list_end(out);
			section = sb_settings[i].section;
			sb_str_add(out, ".Ss Section [%s]\n", section);
			mdoc_list(out);
		}
		write_setting(&sb_settings[i], out);
	}
	mdoc_list_end(out);
}

static void write_column(const struct sheet_column *c, struct sb_str *out)
{
	struct sb_str more = { 0 };

	mdoc_item(out, c->name, c->unit);
	mdoc_sentence(out, c->help);
	sb_str_add(&more, "%s", c->required ? "Required." : "May be blank.");
	if (c->type != COLUMN_TEXT)
		range(&more, c->low, c->high);
	mdoc_text(out, sb_str_get(&more));
	sb_str_clear(&more);
}

static void write_tables(struct sb_str *out)
{
	for (size_t i = 0; i < sb_sheet_table_count; i++) {
		const struct sheet_table *t = &sb_sheet_tables[i];
		sb_str_add(out, ".Ss Table %s\n", t->name);
		mdoc_sentence(out, t->help);
		mdoc_text(out, t->required ? "Every sheet has it." : "May be left out.");
		mdoc_list(out);
		for (size_t k = 0; k < t->column_count; k++)
			write_column(&t->columns[k], out);
		mdoc_list_end(out);
	}
}

const struct page_section sheet_sections[] = {
	{ .name = "settings", .write = write_settings },
	{ .name = "sheet-tables", .write = write_tables },
	{ .name = NULL },
};

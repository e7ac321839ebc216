/* job.ini. inih takes the lines apart; this file hands it one line at a time, so that each key knows its
 * line, and says what inih would pass over in silence: lines that are no key, text after a section, lines
 * cut off at inih's 200 bytes.
 */
#include "io/sheet.h"

#include "base/str.h"
#include "io/load.h"
#include "io/nearest.h"

#include <assert.h>
#include <ini.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "sheet_parts.h"

struct reader {
	struct sheet *sheet;
	struct load_lines lines;
	bool in_section, section_known;
	char section[64];
	bool awaits; /* the line given last should be a key, and inih has not called yet */
	size_t said;
};

static void wrong(struct reader *r, int line, const char *column, const char *format, ...)
	__attribute__((format(printf, 4, 5)));

static void wrong(struct reader *r, int line, const char *column, const char *format, ...)
{
	char text[400];
	va_list args;

	if (r->said > SB_SHEET_INI_PROBLEMS)
		return;
	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	if (r->said++ == SB_SHEET_INI_PROBLEMS) {
		line = 0;
		column = NULL;
		snprintf(text, sizeof text,
			"more than %d problems are in this file. Put the ones above right first.",
			SB_SHEET_INI_PROBLEMS);
	}
	sb_problems_add(r->sheet->problems, 0, SHEET_FILE, line, column, "%s", text);
}

/* ---- lines ---- */

static bool section_is_known(const char *name)
{
	bool known = sb_same(name, "files");

	for (size_t i = 0; i < sb_setting_count; i++)
		known |= sb_same(name, sb_settings[i].section);
	return known;
}

static void unknown_section(struct reader *r)
{
	struct nearest n = sb_nearest_to(r->section);

	sb_nearest_try(&n, "files");
	for (size_t i = 0; i < sb_setting_count; i++)
		sb_nearest_try(&n, sb_settings[i].section);
	if (n.best)
		wrong(r, r->lines.number, NULL, "there is no section [%s]. [%s] is probably meant.",
			r->section, n.best);
	else
		wrong(r, r->lines.number, NULL,
			"there is no section [%s]. There are: job, control, azimuth, tool, drill_pipe, product_pipe, "
			"bend, corridor, steering, entry, files.",
			r->section);
}

static bool take_section(struct reader *r, const char *line)
{
	const char *end = strchr(line, ']');
	char name[sizeof r->section];

	if (end == NULL) {
		wrong(r, r->lines.number, NULL, "this section has no closing ]. Write it as [job].");
		return false;
	}
	const char *rest = end + 1 + strspn(end + 1, " \t");
	if (*rest != '\0' && *rest != ';' && *rest != '#') {
		wrong(r, r->lines.number, NULL, "after a section nothing else stands in its line: '%.40s'.",
			rest);
		return false;
	}
	snprintf(name, sizeof name, "%.*s", (int)(end - line - 1), line + 1);
	sb_copy(r->section, sizeof r->section, name);
	sb_utf8_tame(r->section);
	r->in_section = true;
	r->section_known = section_is_known(r->section);
	if (!r->section_known)
		unknown_section(r);
	return true;
}

/* Looks at a line before inih does; false: it is given to inih as a blank one. */
static bool look(struct reader *r, const char *line)
{
	if (*line == '\0' || *line == ';' || *line == '#')
		return true;
	if (*line == '[')
		return take_section(r, line);
	r->awaits = true;
	return true;
}

static void close_line(struct reader *r)
{
	if (r->awaits)
		wrong(r, r->lines.number, NULL,
			"this line is neither a section like [job] nor a key with a value like unit = ft.");
	r->awaits = false;
}

/* inih's reader: one line, or NULL at the end. */
static char *next_line(char *to, int room, void *data)
{
	struct reader *r = data;
	const char *line;
	size_t length;

	close_line(r);
	if (!sb_load_next(&r->lines, &line, &length, NULL))
		return NULL;
	while (length > 0 && (*line == ' ' || *line == '\t')) { /* an indented line is a key like any other */
		line++;
		length--;
	}
	const char *bad = sb_load_wrong(line, length);
	bool fits = length + 2 <= (size_t)room;
	if (bad)
		wrong(r, r->lines.number, NULL, "%s", bad);
	else if (!fits)
		wrong(r, r->lines.number, NULL, "this line is longer than %d characters. Shorten it.",
			room - 2);
	length = bad || !fits ? 0 : length;
	memcpy(to, line, length);
	to[length] = '\0';
	if (!look(r, to))
		length = 0;
	memcpy(to + length, "\n", 2);
	return to;
}

/* ---- keys ---- */

static void unknown_key(struct reader *r, const char *section, const char *key)
{
	struct nearest n = sb_nearest_to(key);
	const char *elsewhere = NULL;

	for (size_t i = 0; i < sb_setting_count; i++) {
		if (sb_same(sb_settings[i].section, section))
			sb_nearest_try(&n, sb_settings[i].key);
		else if (sb_same(sb_settings[i].key, key))
			elsewhere = sb_settings[i].section;
	}
	if (n.best)
		wrong(r, r->lines.number, key, "[%s] has no key '%s'. '%s' is probably meant.", section, key,
			n.best);
	else if (elsewhere)
		wrong(r, r->lines.number, key, "[%s] has no key '%s'. It belongs under [%s].", section, key,
			elsewhere);
	else
		wrong(r, r->lines.number, key,
			"[%s] has no key '%s'. Take it out, or see the manual for its keys.", section, key);
}

static void twice(struct reader *r, const char *key, int first)
{
	wrong(r, r->lines.number, key, "this is given already in line %d. Take one of the two out.", first);
}

static void take_setting(struct reader *r, const char *section, const char *key, const char *value)
{
	const struct setting *s = sb_setting(section, key);
	struct sb_err err;

	if (s == NULL) {
		unknown_key(r, section, key);
		return;
	}
	int *line = &r->sheet->lines[s - sb_settings];
	if (*line) {
		twice(r, key, *line);
		return;
	}
	*line = r->lines.number;
	if (sb_setting_put(s, r->sheet->job, value, &err))
		wrong(r, r->lines.number, key, "%s", err.text);
}

static void take_file(struct reader *r, const char *key, const char *value)
{
	const struct sheet_table *t = sb_sheet_table(key);
	struct nearest n = sb_nearest_to(key);

	if (t == NULL) {
		for (size_t i = 0; i < sb_sheet_table_count; i++)
			sb_nearest_try(&n, sb_sheet_tables[i].name);
		wrong(r, r->lines.number, key,
			n.best ? "there is no table '%s'. '%s' is probably meant."
			       : "there is no table '%s'. There are: alignment, profile, corridor, ground, obstacles, tally, soil.",
			key, n.best);
		return;
	}
	struct sheet_source *source = &r->sheet->sources[t - sb_sheet_tables];
	if (source->line) {
		twice(r, key, source->line);
		return;
	}
	source->line = r->lines.number;
	if (*value == '\0' || strchr(value, '/') || sb_same(value, ".."))
		wrong(r, r->lines.number, key,
			"'%.60s' is not the name of a file in this folder. Write it like %s.csv.", value,
			t->name);
	else if (!sb_copy(source->file, sizeof source->file, value)) {
		source->file[0] = '\0';
		wrong(r, r->lines.number, key, "the file's name is too long: %zu characters fit.",
			sizeof source->file - 1);
	}
}

/* inih's handler: one key. */
static int take_key(void *data, const char *section, const char *name, const char *value)
{
	struct reader *r = data;
	char key[64];

	sb_copy(key, sizeof key, name);
	sb_utf8_tame(key);
	r->awaits = false;
	if (!r->in_section)
		wrong(r, r->lines.number, key, "this stands before any section. Begin with a line [job].");
	else if (!r->section_known)
		return 1; /* said with the section */
	else if (sb_same(r->section, "files"))
		take_file(r, key, value);
	else
		take_setting(r, r->section, key, value);
	(void)section; /* inih cuts long names; ours is whole */
	return 1;
}

static void check_required(struct reader *r)
{
	for (size_t i = 0; i < sb_setting_count; i++)
		if (sb_settings[i].required && r->sheet->lines[i] == 0)
			wrong(r, 0, sb_settings[i].key, "[%s] %s is missing. It says: %s.",
				sb_settings[i].section, sb_settings[i].key, sb_settings[i].help);
	for (size_t i = 0; i < sb_sheet_table_count; i++)
		if (sb_sheet_tables[i].required && r->sheet->sources[i].line == 0)
			wrong(r, 0, sb_sheet_tables[i].name,
				"[files] %s is missing. It names the table of %s, like %s = %s.csv.",
				sb_sheet_tables[i].name, sb_sheet_tables[i].help, sb_sheet_tables[i].name,
				sb_sheet_tables[i].name);
}

void sheet_read_ini(struct sheet *s)
{
	struct reader r = { .sheet = s };
	struct sb_str text = { 0 };
	struct sb_err err;
	char path[4096];

	assert(sb_setting_count <= SHEET_SETTINGS && sb_sheet_table_count <= SHEET_TABLES);
	int length = snprintf(path, sizeof path, "%s/%s", s->folder, SHEET_FILE);
	if (length < 0 || (size_t)length >= sizeof path) {
		wrong(&r, 0, NULL, "the folder's name is too long.");
	} else if (sb_load(path, SB_SHEET_INI, &text, &err)) {
		wrong(&r, 0, NULL, "%s", err.text);
	} else {
		s->loaded = true;
		r.lines = sb_load_lines(&text);
		ini_parse_stream(next_line, &r, take_key, &r);
		check_required(&r);
	}
	s->sound = r.said == 0;
	sb_str_clear(&text);
}

int sheet_line(const struct sheet *s, const char *section, const char *key)
{
	const struct setting *one = sb_setting(section, key);

	return one ? s->lines[one - sb_settings] : 0;
}

/* The lists of sagbend-job(5) about the job file: tables and views column by column, from the schema that a
 * new file is made by. Words come from the comments in its statements; where a column has none, from the job
 * sheet's table of the same name, else from the rows below. */
#include "man/pages.h"

#include "base/sql.h"
#include "model/fact.h"
#include "store/schema.h"

#include <stdio.h>
#include <string.h>

static const struct {
	const char *table, *column, *words;
} more_words[] = {
	{ "setting", "section", "section of the job sheet" },
	{ "setting", "key", "key of the job sheet" },
	{ "setting", "value", "as written in the sheet" },
	{ "journal", "act", "the act that the row came with" },
	{ "journal", "table_name", "the fact table" },
	{ "journal", "row_id", "the row of it" },
	{ "journal", "digest", "of that row, as above" },
	{ "journal", "chain", "of this row and all before it, as above" },
	{ "path", "leg", "the leg that it was drilled in" },
	{ "path", "elevation", "in the job's vertical datum" },
	{ "path", "northing", "grid, in the job's coordinate system" },
	{ "path", "easting", "likewise" },
	{ "warning", "kind", "as listed in sagbend(1)" },
	{ "warning", "leg", "the leg where it began" },
	{ "warning", "joint", "the joint where it began" },
	{ "warning", "worst_joint", "where it was worst" },
	{ "warning", "last_joint", "the last joint that it held for" },
	{ "warning", "limit_value", "the limit, in the same unit" },
	{ "warning", "acknowledged", "1: somebody took note of it" },
	{ "warning", "acknowledged_by", "who that was" },
	{ "warning", "words", "value, limit, joint and what to do" },
	{ "act", "who", "whoever it was signed with" },
	{ "reading", "joint_length", "shoulder to shoulder" },
	{ "reading", "inclination", "in the job's convention" },
	{ "reading", "remarks", "anything worth keeping" },
	{ "as_drilled", "survey_depth", "of the sensor, to which the angles and the position belong" },
	{ "as_drilled", "inclination", "as read, a number" },
	{ "as_drilled", "azimuth_as_read", "degrees, a number" },
	{ "as_drilled", "offset_right_positive", "from the alignment, looking from entry to exit" },
	{ "as_drilled", "height_above_design", "at that station, high positive" },
	{ "as_drilled", "dogleg_degrees", "turned since the reading before" },
	{ "as_drilled", "radius_over_joint", "of the curve since the reading before; NULL: straight" },
	{ "as_drilled", "radius_over_window",
		"over the window of section bend; NULL: straight, or no window yet" },
	{ "as_drilled", "corridor_percent",
		"share of the corridor used on the worst side; 100 is the limit" },
	{ "as_drilled", "unit", "of all lengths here: m, ft or ftUS" },
	{ "as_drilled", "inclination_convention", "down, level or grade" },
	{ "log_book", "reading", "its id" },
	{ "log_book", "at_utc", "when it was logged" },
	{ "log_book", "who", "who logged it" },
	{ "log_book", "reason", "why it was logged or corrected as it is" },
	{ "log_book", "state", "stands, corrected, or pulled back" },
	{ "settings_changed", "at_utc", "when" },
	{ "settings_changed", "who", "who changed it" },
	{ "settings_changed", "reason", "what changed, and why" },
	{ "fixes", "fix", "its id" },
	{ "fixes", "offset_right_positive", "from the alignment, looking from entry to exit" },
	{ "fixes", "leg", "the leg that was being drilled" },
	{ "fixes", "joint", "the joint that was drilled last" },
	{ "fixes", "at_utc", "when" },
	{ "fixes", "who", "who entered it" },
	{ "fixes", "remarks", "the act's words" },
	{ "fixes", "used", "0: set aside" },
	{ "nonconformances", "kind", "of the breach" },
	{ "nonconformances", "disposition", "open, accepted by the engineer, or redrilled" },
	{ "nonconformances", "accepted_value", "the worst that it was when it was accepted" },
	{ "nonconformances", "reference", "the calculation or letter that the acceptance rests on" },
	{ "nonconformances", "who", "who had the last word" },
	{ "nonconformances", "at_utc", "when" },
	{ "nonconformances", "reason", "the words of the act" },
	{ "opening", "pass", "its id" },
	{ "opening", "kind", "ream or swab" },
	{ "opening", "to_side", "the side it went to: entry (the rig side) or exit" },
	{ "opening", "diameter", "of the tool" },
	{ "opening", "tool", "what it was" },
	{ "opening", "at_utc", "when it was entered" },
	{ "opening", "who", "who entered it" },
	{ "opening", "remarks", "the act's words" },
	{ "pullback", "at_utc", "when it was entered" },
	{ "pullback", "who", "who entered it" },
	{ "pullback", "remarks", "the act's words" },
	{ "history", "act", "its id" },
	{ "history", "at_utc", "when" },
	{ "history", "at_local", "the same in the local time of then" },
};

/* Whose columns a view has, where it gives them no name of its own. */
static const struct {
	const char *view, *table;
} view_of[] = {
	{ "sheet", "setting" },
	{ "as_drilled", "path" },
	{ "log_book", "reading" },
	{ "history", "act" },
	{ "open_warnings", "warning" },
	{ "settings_changed", "setting" },
	{ "fixes", "fix" },
	{ "nonconformances", "warning" },
	{ "opening", "pass_joint" },
	{ "pullback", "pull_joint" },
};

static const char *own_words(const char *table, const char *column)
{
	const struct sheet_table *t = sb_sheet_table(table);

	for (size_t i = 0; i < sizeof more_words / sizeof *more_words; i++)
		if (sb_same(more_words[i].table, table) && sb_same(more_words[i].column, column))
			return more_words[i].words;
	for (size_t i = 0; t && i < t->column_count; i++)
		if (sb_same(t->columns[i].name, column))
			return t->columns[i].help;
	for (size_t s = 0; s < sb_fact_sort_count; s++)
		for (size_t i = 0;
			sb_same(sb_fact_sorts[s].table, table) && i < sb_fact_sorts[s].column_count; i++)
			if (sb_same(sb_fact_sorts[s].columns[i].name, column))
				return sb_fact_sorts[s].columns[i].help;
	return sb_same(column, "id") ? "number of the row" : NULL;
}

/* The line of the statement that defines the column, "\tname TYPE ..." or "\t"name" TYPE ..."; else line
 * stays.
 */
static void column_line(const char *sql, const char *column, char line[512])
{
	size_t length = strlen(column);

	for (const char *at = sql; (at = strchr(at, '\n')) != NULL;) {
		at++;
		const char *name = at + (*at == '\t');
		bool quoted = *name == '"';
		name += quoted;
		if (strncmp(name, column, length) != 0 || name[length] != (quoted ? '"' : ' '))
			continue;
		snprintf(line, 512, "%.*s", (int)strcspn(at, "\n"), at);
		return;
	}
}

/* The comment that stands inside the definition of a column which a later version added, behind name and
 * type. */
static bool added_words(const char *sql, const char *column, struct sb_str *words)
{
	char start[96];

	snprintf(start, sizeof start, ", %s ", column);
	for (const char *at = sql; (at = strstr(at, start)) != NULL; at += 2) {
		const char *type = at + strlen(start), *comment = type + strcspn(type, " ,)");
		const char *end = strncmp(comment, " /* ", 4) == 0 ? strstr(comment, " */") : NULL;
		if (end == NULL)
			continue;
		sb_str_add(words, "%.*s", (int)(end - comment - 4), comment + 4);
		return true;
	}
	return false;
}

/* What stands after "-- " in its line, else whose row it names, else words from here. False: nothing. */
static bool column_words(const char *table, const char *column, const char *sql, struct sb_str *words)
{
	char line[512] = "", to[64];
	const char *own = own_words(table, column);

	if (added_words(sql, column, words))
		return true;
	column_line(sql, column, line);
	const char *comment = strstr(line, "-- "), *refers = strstr(line, "REFERENCES ");
	if (comment)
		sb_str_add(words, "%s", comment + 3);
	else if (refers && sscanf(refers, "REFERENCES %63[a-z_]", to) == 1)
		sb_str_add(words, "%s", sb_same(to, "act") ? "the act that it came with" : to);
	else if (own)
		sb_str_add(words, "%s", own);
	return words->length > 0;
}

static const char *sql_of(struct sb_sql *db, const char *name, struct sb_str *sql)
{
	struct sb_query *q = sb_sql_prepare(db, "SELECT sql FROM sqlite_schema WHERE name = :name");
	struct sb_err err;

	sb_sql_bind_text(q, ":name", name);
	if (sb_sql_row(q))
		sb_str_add(sql, "%s", sb_sql_text(q, 0));
	if (sb_sql_done(q, &err))
		pages_die("tests/man/schema.c: %s", err.text);
	return sb_str_get(sql);
}

/* The words of a view's column: its own, else those of the table that it shows. */
static bool view_words(struct sb_sql *db, const char *view, const char *column, struct sb_str *words)
{
	const char *own = own_words(view, column);
	struct sb_str sql = { 0 };

	if (own)
		sb_str_add(words, "%s", own);
	for (size_t i = 0; own == NULL && i < sizeof view_of / sizeof *view_of; i++)
		if (sb_same(view_of[i].view, view))
			column_words(view_of[i].table, column, sql_of(db, view_of[i].table, &sql), words);
	sb_str_clear(&sql);
	return words->length > 0;
}

static void write_column(struct sb_sql *db, const char *table, const struct sb_query *q, const char *sql,
	bool view, struct sb_str *out)
{
	const char *name = sb_sql_text(q, 0), *type = sb_sql_text(q, 1);
	bool may_be_null = !view && sb_sql_int(q, 2) == 0 && sb_sql_int(q, 3) == 0;
	struct sb_str words = { 0 };
	char what[64] = "";

	if (!view)
		snprintf(what, sizeof what, "%s%s", type, may_be_null ? ", or NULL" : "");
	mdoc_item(out, name, what);
	if (!(view ? view_words(db, table, name, &words) : column_words(table, name, sql, &words)))
		pages_die("tests/man/schema.c: %s.%s has no comment in the schema and no words here", table,
			name);
	mdoc_text(out, words.text);
	sb_str_clear(&words);
}

/* The comment lines at the head of the statement, as one paragraph. */
static void write_about(const char *sql, struct sb_str *out)
{
	struct sb_str text = { 0 };

	for (const char *at = strchr(sql, '\n'); at && strncmp(at, "\n\t-- ", 5) == 0;
		at = strchr(at + 1, '\n')) {
		const char *line = at + 5;
		sb_str_add(&text, "%s%.*s", text.length ? " " : "", (int)strcspn(line, "\n"), line);
	}
	if (text.length == 0)
		pages_die("tests/man/schema.c: no comment at the head of: %.60s", sql);
	mdoc_text(out, text.text);
	sb_str_clear(&text);
}

static void write_object(struct sb_sql *db, const char *name, const char *sql, bool view, struct sb_str *out)
{
	struct sb_query *q = sb_sql_prepare(
		db, "SELECT name, type, \"notnull\", pk FROM pragma_table_info(:table) ORDER BY cid");
	struct sb_err err;

	sb_str_add(out, ".Ss %s %s\n", view ? "View" : "Table", name);
	write_about(sql, out);
	mdoc_list(out);
	sb_sql_bind_text(q, ":table", name);
	while (sb_sql_row(q))
		write_column(db, name, q, sql, view, out);
	if (sb_sql_done(q, &err))
		pages_die("tests/man/schema.c: %s: %s", name, err.text);
	mdoc_list_end(out);
}

static void write_objects(const char *type, struct sb_str *out)
{
	struct sb_sql *db;
	struct sb_err err;

	if (sb_sql_open(NULL, &(struct sql_options){ .mode = SQL_MEMORY }, &db, &err) ||
		sb_schema_migrate(db, &sb_schema, 0, &err))
		pages_die("tests/man/schema.c: %s", err.text);
	struct sb_query *q =
		sb_sql_prepare(db, "SELECT name, sql FROM sqlite_schema WHERE type = :type ORDER BY rowid");
	sb_sql_bind_text(q, ":type", type);
	while (sb_sql_row(q))
		write_object(db, sb_sql_text(q, 0), sb_sql_text(q, 1), sb_same(type, "view"), out);
	if (sb_sql_done(q, &err))
		pages_die("tests/man/schema.c: %s", err.text);
	sb_sql_close(db);
}

static void write_tables(struct sb_str *out)
{
	write_objects("table", out);
}

static void write_views(struct sb_str *out)
{
	write_objects("view", out);
}

static void write_version(struct sb_str *out)
{
	char text[256];

	snprintf(text, sizeof text,
		"Its application_id is %d (hexadecimal %X), its user_version, the version of its shape, is %zu.",
		SB_SCHEMA_ID, (unsigned)SB_SCHEMA_ID, sb_schema.count);
	mdoc_text(out, text);
}

const struct page_section schema_sections[] = {
	{ .name = "version", .write = write_version },
	{ .name = "tables", .write = write_tables },
	{ .name = "views", .write = write_views },
	{ .name = NULL },
};

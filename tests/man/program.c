/* The lists of sagbend(1), and those of README.md: commands, fields of the row, columns of the path,
 * warnings, formats, keys, exit statuses. */
#include "man/pages.h"

#include "cli/command.h"
#include "io/explain.h"
#include "io/format.h"
#include "io/rows.h"
#include "model/reading.h"
#include "model/warning.h"
#include "ui/everywhere.h"
#include "ui/help.h"
#include "ui/screens.h"

#include <stdio.h>
#include <string.h>

/* ---- commands ---- */

/* One word of a usage line: an option, or what stands for something. */
static void usage_word(struct sb_str *out, const char *word, size_t length)
{
	if (length == 1 && *word == '|')
		sb_str_add(out, "|");
	else if (length > 2 && strncmp(word, "--", 2) == 0)
		sb_str_add(out, "Fl %.*s", (int)length - 1, word + 1);
	else
		sb_str_add(out, "Ar %.*s", (int)length, word);
}

/* "JOB.bore --sheet FOLDER [--by WHO]", a line for each part: what belongs to an option stays with it. */
static void usage(struct sb_str *out, const char *arguments)
{
	bool optional = false, after_option = false;

	while (*arguments) {
		bool opens = *arguments == '[';
		size_t length = strcspn(arguments += opens, " ]");
		bool is_option = strncmp(arguments, "--", 2) == 0;
		bool goes_on = optional || *arguments == '|' || (after_option && !is_option && !opens);
		sb_str_add(out, "%s%s", goes_on ? " " : out->length ? "\n." : ".", opens ? "Op " : "");
		usage_word(out, arguments, length);
		optional = optional || opens;
		after_option = is_option || (after_option && *arguments == '|');
		arguments += length;
		if (*arguments == ']')
			optional = false;
		arguments += strspn(arguments, "] ");
	}
	sb_str_add(out, "\n");
}

static void write_options(const struct command *c, struct sb_str *out)
{
	size_t first = c->row_fields ? sb_row_field_count : 0;
	struct option o;
	bool begun = false;

	for (size_t i = first; sb_command_option(c, i, &o) && !sb_same(o.name, "help"); i++) {
		if (!begun)
			mdoc_list(out);
		begun = true;
		sb_str_add(out, ".It Fl -%s%s%s\n", o.name, o.argument ? " Ar " : "",
			o.argument ? o.argument : "");
		mdoc_sentence(out, o.help);
	}
	if (begun)
		mdoc_list_end(out);
}

static void write_command(const struct command *c, struct sb_str *out)
{
	struct sb_str line = { 0 };

	usage(&line, c->arguments);
	sb_str_add(out, ".It Xo\n.Ic %s\n%s.Xc\n", c->name, sb_str_get(&line));
	sb_str_clear(&line);
	mdoc_sentence(out, c->summary);
	mdoc_text(out, c->detail);
	if (c->row_fields)
		sb_str_add(out, "Takes an option for each field of the row, see\n.Sx THE ROW .\n");
	write_options(c, out);
}

static void write_commands(struct sb_str *out)
{
	mdoc_list(out);
	for (size_t i = 0; i < sb_command_count; i++)
		write_command(sb_commands[i], out);
	mdoc_list_end(out);
}

/* ---- tables ---- */

static void write_row(struct sb_str *out)
{
	mdoc_list(out);
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		char unit[64] = "";
		if (f->unit_m == NULL)
			sb_copy(unit, sizeof unit, "the job's length");
		else if (!sb_same(f->unit_m, f->unit_ft))
			snprintf(unit, sizeof unit, "%s, or %s", f->unit_m, f->unit_ft);
		else if (sb_same(f->unit_m, "deg"))
			sb_copy(unit, sizeof unit, "degrees");
		sb_str_add(out, ".It Cm %s , Fl -%s", f->name, f->option);
		if (*unit)
			sb_str_add(out, " Pq %s", unit);
		sb_str_add(out, "\n");
		mdoc_sentence(out, f->help);
	}
	mdoc_list_end(out);
}

static void write_path(struct sb_str *out)
{
	mdoc_list(out);
	for (size_t i = 0; i < PATH_COLUMNS; i++) {
		const char *unit = sb_path_columns[i].unit;
		mdoc_item(out, sb_path_columns[i].name,
			sb_same(unit, "convention") ? "the job's convention" : unit);
		mdoc_sentence(out, sb_path_columns[i].help);
	}
	mdoc_list_end(out);
}

static void write_figures(struct sb_str *out)
{
	mdoc_list(out);
	for (size_t i = 0; i < sb_explain_figure_count; i++) {
		const struct explain_figure *f = &sb_explain_figures[i];
		char words[160];
		snprintf(words, sizeof words, "%s; %s", f->title, sb_explain_of_words[f->of]);
		mdoc_item(out, f->name, "");
		mdoc_sentence(out, words);
	}
	mdoc_list_end(out);
}

static void write_warnings(struct sb_str *out)
{
	mdoc_list(out);
	for (size_t i = 0; i < WARNING_KINDS; i++) {
		const struct warning_sort *w = &sb_warning_sorts[i];
		mdoc_item(out, w->name, "");
		mdoc_sentence(out, w->help);
		if (w->passing)
			mdoc_text(out, "It counts only while it holds.");
	}
	mdoc_list_end(out);
}

static void write_formats(struct sb_str *out)
{
	mdoc_list(out);
	for (size_t i = 0; i < sb_format_count; i++) {
		mdoc_item(out, sb_formats[i].name, "");
		mdoc_sentence(out, sb_formats[i].help);
	}
	mdoc_list_end(out);
}

static void write_exits(struct sb_str *out)
{
	sb_str_add(out, ".Bl -tag -width 128\n");
	for (size_t i = 0; i < sb_exit_count; i++) {
		sb_str_add(out, ".It %d\n", (int)sb_exits[i].status);
		mdoc_sentence(out, sb_exits[i].help);
	}
	mdoc_list_end(out);
}

/* ---- keys ---- */

/* The help screens' own mdoc, its text wrapped. */
static void write_keys(struct sb_str *out)
{
	struct sb_str text = { 0 };

	sb_help_mdoc(sb_screens, sb_everywhere, &text);
	char *rest = text.text;
	for (char *line; (line = strsep(&rest, "\n")) != NULL;)
		if (*line == '.')
			sb_str_add(out, "%s\n", line);
		else
			mdoc_wrap(out, line);
	sb_str_clear(&text);
}

/* ---- README.md ---- */

/* A bar in a cell would end it. */
static void cell(struct sb_str *out, const char *text)
{
	for (; *text; text++)
		sb_str_add(out, "%s%c", *text == '|' ? "\\" : "", *text);
	sb_str_add(out, " |\n");
}

static void write_command_rows(struct sb_str *out)
{
	sb_str_add(out, "| command | does |\n| --- | --- |\n");
	for (size_t i = 0; i < sb_command_count; i++) {
		sb_str_add(out, "| `%s` | ", sb_commands[i]->name);
		cell(out, sb_commands[i]->summary);
	}
}

static void write_exit_rows(struct sb_str *out)
{
	sb_str_add(out, "| exit status | means |\n| --- | --- |\n");
	for (size_t i = 0; i < sb_exit_count; i++) {
		sb_str_add(out, "| %d | ", (int)sb_exits[i].status);
		cell(out, sb_exits[i].help);
	}
}

const struct page_section program_sections[] = {
	{ .name = "commands", .write = write_commands },
	{ .name = "row", .write = write_row },
	{ .name = "path", .write = write_path },
	{ .name = "figures", .write = write_figures },
	{ .name = "warnings", .write = write_warnings },
	{ .name = "formats", .write = write_formats },
	{ .name = "keys", .write = write_keys },
	{ .name = "exits", .write = write_exits },
	{ .name = "readme-commands", .write = write_command_rows },
	{ .name = "readme-exits", .write = write_exit_rows },
	{ .name = NULL },
};

/* The lists of the bash completion: commands, what stands after each, and what an option's value can be. */
#include "man/pages.h"

#include "cli/command.h"
#include "io/explain.h"
#include "io/format.h"
#include "model/warning.h"

#include <stdio.h>
#include <string.h>

static void write_names(struct sb_str *out)
{
	sb_str_add(out, "\techo '");
	for (size_t i = 0; i < sb_command_count; i++)
		sb_str_add(out, "%s%s", i ? " " : "", sb_commands[i]->name);
	sb_str_add(out, "'\n");
}

static void write_formats(struct sb_str *out)
{
	sb_str_add(out, "\techo '");
	for (size_t i = 0; i < sb_format_count; i++)
		sb_str_add(out, "%s%s", i ? " " : "", sb_formats[i].name);
	sb_str_add(out, "'\n");
}

/* What a word that is no option stands for: the completion's own name for it. */
static const char *place(const char *word, size_t length)
{
	static const struct {
		const char *word, *name;
	} known[] = {
		{ "JOB.bore", "job" },
		{ "COPY.bore", "job" },
		{ "SURVEYS.csv", "csv" },
		{ "FILE.csv", "csv" },
		{ "FILE", "file" },
		{ "DRAWING", "file" },
		{ "FORMAT", "format" },
		{ "TEXT", "words" },
		{ "STEP", "step" },
		{ "EVENT", "event" },
		{ "LEVEL", "level" },
	};

	for (size_t i = 0; i < sizeof known / sizeof *known; i++)
		if (strlen(known[i].word) == length && strncmp(known[i].word, word, length) == 0)
			return known[i].name;
	pages_die("tests/man/completion.c: how is %.*s to be completed?", (int)length, word);
}

/* The words of a usage line that belong to no option. */
static void write_places(const char *arguments, struct sb_str *out)
{
	bool of_option = false;
	const char *between = "";

	while (*arguments) {
		arguments += strspn(arguments, " []|");
		size_t length = strcspn(arguments, " []|");
		bool is_option = strncmp(arguments, "--", 2) == 0;
		if (length > 0 && !is_option && !of_option && *arguments != '.') {
			sb_str_add(out, "%s%s", between, place(arguments, length));
			between = " ";
		}
		of_option = is_option || (of_option && arguments[length] == '|');
		arguments += length;
	}
}

static void write_after(struct sb_str *out)
{
	struct option o;

	for (size_t i = 0; i < sb_command_count; i++) {
		const struct command *c = sb_commands[i];
		sb_str_add(out, "\t%s)\n\t\tplaces='", c->name);
		write_places(c->arguments, out);
		sb_str_add(out, "'\n\t\tflags='");
		for (size_t k = 0, n = 0; sb_command_option(c, k, &o); k++)
			if (o.argument == NULL)
				sb_str_add(out, "%s--%s", n++ ? " " : "", o.name);
		sb_str_add(out, "'\n\t\toptions='");
		for (size_t k = 0, n = 0; sb_command_option(c, k, &o); k++)
			if (o.argument)
				sb_str_add(out, "%s--%s", n++ ? " " : "", o.name);
		sb_str_add(out, "'\n\t\t;;\n");
	}
}

/* "night|day|plain", "KIND" and "FIGURE" as words to choose from; false when anything may stand there. */
static bool add_words(const char *argument, struct sb_str *words)
{
	if (sb_same(argument, "KIND")) {
		for (size_t i = 0; i < WARNING_KINDS; i++)
			sb_str_add(words, "%s%s", i ? " " : "", sb_warning_sorts[i].name);
		return true;
	}
	if (sb_same(argument, "FIGURE")) {
		for (size_t i = 0; i < sb_explain_figure_count; i++)
			sb_str_add(words, "%s%s", i ? " " : "", sb_explain_figures[i].name);
		return true;
	}
	if (strchr(argument, '|') == NULL)
		return false;
	for (; *argument; argument++)
		sb_str_append(words, *argument == '|' ? " " : argument, 1);
	return true;
}

static void write_values(struct sb_str *out)
{
	struct option o;

	for (size_t i = 0; i < sb_command_count; i++)
		for (size_t k = 0; sb_command_option(sb_commands[i], k, &o); k++) {
			struct sb_str words = { 0 };
			if (o.argument && o.files)
				sb_str_add(&words, "%s",
					sb_same(o.argument, "FOLDER") ? "folders=yes" : "files=yes");
			else if (o.argument && add_words(o.argument, &words))
				sb_str_add(&words, "'");
			if (words.length)
				sb_str_add(out, "\t%s:--%s) %s%s ;;\n", sb_commands[i]->name, o.name,
					o.files ? "" : "words='", words.text);
			sb_str_clear(&words);
		}
}

const struct page_section completion_sections[] = {
	{ .name = "completion-commands", .write = write_names },
	{ .name = "completion-formats", .write = write_formats },
	{ .name = "completion-places", .write = write_after },
	{ .name = "completion-values", .write = write_values },
	{ .name = NULL },
};

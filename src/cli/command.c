/* Taking the command line apart, and telling people what it could be. */
#include "cli/command.h"

#include "base/str.h"
#include "io/about.h"
#include "io/nearest.h"
#include "model/reading.h"

#include <pwd.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define EXIT_ROW(name, number, help) { EXIT_##name, help },
const struct exit_row sb_exits[] = { SB_EXITS(EXIT_ROW) };
const size_t sb_exit_count = sizeof sb_exits / sizeof *sb_exits;

static const struct option common[] = {
	{ "help", NULL, "this text", false },
	{ NULL, NULL, NULL, false },
};

static size_t own_options(const struct command *c)
{
	size_t n = 0;

	while (c->options && c->options[n].name)
		n++;
	return n;
}

bool sb_command_option(const struct command *c, size_t i, struct option *out)
{
	size_t own = own_options(c), fields = c->row_fields ? sb_row_field_count : 0;

	if (i < fields) {
		const struct row_field *f = &sb_row_fields[i];
		const char *argument = f->type == FIELD_TEXT ? "TEXT"
			: f->type == FIELD_CLOCK	     ? "HH:MM"
							     : "VALUE";
		if (f->type == FIELD_CHOICE)
			argument = f->choices;
		*out = (struct option){ f->option, argument, f->help, false };
		return true;
	}
	i -= fields;
	if (i < own) {
		*out = c->options[i];
		return true;
	}
	i -= own;
	if (common[i].name == NULL)
		return false;
	*out = common[i];
	return true;
}

const struct command *sb_command_find(const char *name)
{
	for (size_t i = 0; i < sb_command_count; i++)
		if (sb_same(sb_commands[i]->name, name))
			return sb_commands[i];
	return NULL;
}

static bool find_option(const struct command *c, const char *name, size_t length, struct option *out)
{
	for (size_t i = 0; sb_command_option(c, i, out); i++)
		if (strlen(out->name) == length && strncmp(out->name, name, length) == 0)
			return true;
	return false;
}

static int say_unknown(const struct command *c, const char *word, size_t length, struct sb_err *err)
{
	char name[40];
	struct option o;

	snprintf(name, sizeof name, "%.*s", (int)(length < 39 ? length : 39), word);
	struct nearest n = sb_nearest_to(name);
	for (size_t i = 0; sb_command_option(c, i, &o); i++)
		sb_nearest_try(&n, o.name);
	if (n.best)
		return sb_fail(err, SB_USAGE, "%s does not know the option --%s. Is --%s meant?", c->name,
			name, n.best);
	return sb_fail(err, SB_USAGE, "%s does not know the option --%s. See: sagbend %s --help", c->name,
		name, c->name);
}

static int take_option(const struct command *c, int argc, char *const *argv, int *at, struct invocation *in,
	struct sb_err *err)
{
	const char *word = argv[*at] + 2, *equals = strchr(word, '=');
	size_t length = equals ? (size_t)(equals - word) : strlen(word);
	struct option o;
	const char *value = "";

	if (!find_option(c, word, length, &o))
		return say_unknown(c, word, length, err);
	if (o.argument == NULL && equals)
		return sb_fail(err, SB_USAGE, "--%s takes no value.", o.name);
	if (o.argument != NULL) {
		if (equals)
			value = equals + 1;
		else if (*at + 1 < argc)
			value = argv[++*at];
		else
			return sb_fail(
				err, SB_USAGE, "--%s needs a value: --%s %s", o.name, o.name, o.argument);
	}
	for (size_t i = 0; i < in->given_count; i++)
		if (sb_same(in->given[i].name, o.name))
			return sb_fail(err, SB_USAGE, "--%s is given twice.", o.name);
	if (in->given_count == SB_INVOCATION_VALUES)
		return sb_fail(err, SB_USAGE, "Too many options.");
	in->given[in->given_count].name = o.name;
	in->given[in->given_count++].value = value;
	return 0;
}

int sb_command_parse(
	const struct command *c, int argc, char *const *argv, struct invocation *in, struct sb_err *err)
{
	bool options = true;

	memset(in, 0, sizeof *in);
	in->command = c;
	for (int i = 0; i < argc; i++) {
		if (options && sb_same(argv[i], "--")) {
			options = false;
		} else if (options && strncmp(argv[i], "--", 2) == 0) {
			if (take_option(c, argc, argv, &i, in, err))
				return -1;
		} else if (options && argv[i][0] == '-' && argv[i][1] != '\0') {
			return sb_fail(err, SB_USAGE,
				"'%.40s' is not an option: options are whole words, like --by. See: sagbend %s --help",
				argv[i], c->name);
		} else if (in->count < c->most) {
			in->positional[in->count++] = argv[i];
		} else {
			return sb_fail(err, SB_USAGE,
				"'%.40s' is one word too many (put text of several words in quotes). Usage: sagbend %s %s",
				argv[i], c->name, c->arguments);
		}
	}
	if (in->count < c->least && !sb_command_flag(in, "help"))
		return sb_fail(
			err, SB_USAGE, "Something is missing. Usage: sagbend %s %s", c->name, c->arguments);
	return 0;
}

const char *sb_command_value(const struct invocation *in, const char *name)
{
	for (size_t i = 0; i < in->given_count; i++)
		if (sb_same(in->given[i].name, name))
			return in->given[i].value;
	return NULL;
}

bool sb_command_flag(const struct invocation *in, const char *name)
{
	return sb_command_value(in, name) != NULL;
}

/* A paragraph wrapped at the edge of a terminal. */
static void put_paragraph(FILE *to, const char *text, int indent, int first)
{
	int column = first;

	while (*text) {
		int length = (int)strcspn(text, " ");
		if (column > indent && column + 1 + length > 79) {
			fprintf(to, "\n%*s", indent, "");
			column = indent;
		} else if (column > indent) {
			fputc(' ', to);
			column++;
		}
		fprintf(to, "%.*s", length, text);
		column += length;
		text += length;
		text += strspn(text, " ");
	}
	fputc('\n', to);
}

/* An option's words; a field of the row has its units too, where they are not the job's length or degrees. */
static void put_option(const struct option *o, const struct row_field *f)
{
	char left[64], help[256];
	int length = snprintf(left, sizeof left, "  --%s%s%s", o->name, o->argument ? " " : "",
		o->argument ? o->argument : "");

	if (f && f->unit_m && !sb_same(f->unit_m, f->unit_ft))
		snprintf(help, sizeof help, "%s, %s; %s in a job in feet", o->help, f->unit_m, f->unit_ft);
	else
		snprintf(help, sizeof help, "%s", o->help);
	printf("%s%s%*s", left, length > 28 ? "\n" : "", length > 28 ? 29 : 29 - length, "");
	put_paragraph(stdout, help, 29, 29);
}

void sb_command_help(const struct command *c)
{
	int indent = printf("sagbend %s ", c->name);
	struct option o;

	put_paragraph(stdout, c->arguments, indent, indent);
	putchar('\n');
	put_paragraph(stdout, c->summary, 0, 0);
	if (c->detail[0])
		put_paragraph(stdout, c->detail, 0, 0);
	putchar('\n');
	for (size_t i = 0; sb_command_option(c, i, &o); i++)
		put_option(&o, c->row_fields && i < sb_row_field_count ? &sb_row_fields[i] : NULL);
}

void sb_command_overview(FILE *to)
{
	fprintf(to,
		"sagbend JOB.bore              opens the screen\n"
		"sagbend COMMAND ...           sagbend COMMAND --help says more\n\n");
	for (size_t i = 0; i < sb_command_count; i++)
		fprintf(to, "  %-14s %s\n", sb_commands[i]->name, sb_commands[i]->summary);
	fputc('\n', to);
	put_paragraph(to, "The log book and the compass of a pilot bore for a pipeline crossing.", 0, 0);
	put_paragraph(to, sb_caution, 0, 0);
}

static const char *login_name(void)
{
	const char *name = getenv("LOGNAME");

	if (name == NULL || *name == '\0')
		name = getenv("USER");
	if (name && *name)
		return name;
	const struct passwd *p = getpwuid(getuid()); // NOLINT(concurrency-mt-unsafe): one thread
	return p ? p->pw_name : NULL;
}

int sb_command_who(const struct invocation *in, const char **who, struct sb_err *err)
{
	const char *name = sb_command_value(in, "by");
	char tame[SB_WHO_TEXT];

	if (name == NULL)
		name = login_name();
	if (name == NULL || name[strspn(name, " \t")] == '\0')
		return sb_fail(err, SB_USAGE, "Every act carries a name: say --by WHO.");
	if (!sb_copy(tame, sizeof tame, name))
		return sb_fail(
			err, SB_USAGE, "The name after --by is too long: %d bytes fit.", SB_WHO_TEXT - 1);
	sb_utf8_tame(tame);
	if (!sb_same(tame, name))
		return sb_fail(err, SB_USAGE, "The name '%s' holds characters that are not text.", tame);
	*who = name;
	return 0;
}

int sb_command_fail(const struct sb_err *err)
{
	static const int statuses[] = {
		[SB_OK] = EXIT_OK,
		[SB_USAGE] = EXIT_USAGE,
		[SB_RANGE] = EXIT_DATA,
		[SB_FORMAT] = EXIT_DATA,
		[SB_STATE] = EXIT_DATA,
		[SB_HELD] = EXIT_HELD,
		[SB_MISSING] = EXIT_NO_INPUT,
		[SB_DENIED] = EXIT_DENIED,
		[SB_BUSY] = EXIT_BUSY,
		[SB_EXISTS] = EXIT_WRITE,
		[SB_FULL] = EXIT_WRITE,
		[SB_IO] = EXIT_WRITE,
		[SB_FOREIGN] = EXIT_NO_INPUT,
		[SB_NEWER] = EXIT_NO_INPUT,
		[SB_DAMAGED] = EXIT_NO_INPUT,
	};

	fflush(stdout);
	fprintf(stderr, "sagbend: %s\n", err->text);
	return statuses[err->code];
}

/* sagbend: `sagbend JOB.bore` opens the screen, `sagbend COMMAND ...` does one thing. */
#include "base/str.h"
#include "cli/command.h"
#include "cli/commands.h"

#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

static bool is_job_file(const char *word)
{
	size_t length = strlen(word);

	return (length > 5 && strcmp(word + length - 5, ".bore") == 0) || strchr(word, '/') != NULL;
}

static int help(int argc, char *const *argv)
{
	const struct command *c = argc > 0 ? sb_command_find(argv[0]) : NULL;

	if (argc > 0 && c == NULL) {
		fprintf(stderr, "sagbend: there is no command '%s'. See: sagbend --help\n", argv[0]);
		return EXIT_USAGE;
	}
	if (c)
		sb_command_help(c);
	else
		sb_command_overview();
	return EXIT_OK;
}

static int run(const struct command *c, int argc, char *const *argv)
{
	struct invocation in;
	struct sb_err err = { 0 };

	if (sb_command_parse(c, argc, argv, &in, &err))
		return sb_command_fail(&err);
	if (sb_command_flag(&in, "help"))
		return help(1, (char *const[]){ (char *)(size_t)c->name });
	return c->run(&in);
}

int main(int argc, char **argv)
{
	/* Character type alone: the decimal sign of files and of typed numbers never depends on the place. */
	setlocale(LC_CTYPE, "");
	/* A full file size limit and a closed pipe are failures to be said, not deaths. */
	signal(SIGXFSZ, SIG_IGN);
	signal(SIGPIPE, SIG_IGN);
	if (argc < 2) {
		sb_command_overview();
		return EXIT_USAGE;
	}
	if (sb_same(argv[1], "--help") || sb_same(argv[1], "help"))
		return help(argc - 2, argv + 2);
	if (sb_same(argv[1], "--version")) {
		puts("sagbend " SB_VERSION);
		return EXIT_OK;
	}
	const struct command *c = sb_command_find(argv[1]);
	if (c)
		return run(c, argc - 2, argv + 2);
	if (is_job_file(argv[1]) || argv[1][0] == '-')
		return run(&sb_cmd_open, argc - 1, argv + 1);
	fprintf(stderr,
		"sagbend: '%s' is neither a command nor a job file (NAME.bore). See: sagbend --help\n",
		argv[1]);
	return EXIT_USAGE;
}

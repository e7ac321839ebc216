/* sagbend: `sagbend JOB.bore` opens the screen, `sagbend COMMAND ...` does one thing. */
#include "base/str.h"
#include "cli/command.h"
#include "cli/commands.h"
#include "io/nearest.h"

#include <errno.h>
#include <fcntl.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

static bool is_job_file(const char *word)
{
	size_t length = strlen(word);

	return (length > 5 && strcmp(word + length - 5, ".bore") == 0) || strchr(word, '/') != NULL;
}

/* What was said may still wait in stdout, and only now it shows whether it can be written. */
static int finish(int status)
{
	if (fflush(stdout) == 0 && !ferror(stdout))
		return status;
	fprintf(stderr, "sagbend: Not all of it was written to standard output: %s.\n", strerror(errno));
	return status == EXIT_OK ? EXIT_WRITE : status;
}

static int version(void)
{
	puts("sagbend " SB_VERSION);
	return finish(EXIT_OK);
}

static int say_no_command(const char *word, const char *otherwise)
{
	struct nearest n = sb_nearest_to(word);

	for (size_t i = 0; i < sb_command_count; i++)
		sb_nearest_try(&n, sb_commands[i]->name);
	fprintf(stderr, "sagbend: '%.60s' is %s. ", word, otherwise);
	if (n.best)
		fprintf(stderr, "Is %s meant?\n", n.best);
	else
		fputs("See: sagbend --help\n", stderr);
	return EXIT_USAGE;
}

static int help(int argc, char *const *argv)
{
	const struct command *c = argc > 0 ? sb_command_find(argv[0]) : NULL;

	if (argc > 0 && c == NULL)
		return say_no_command(argv[0], "not a command");
	if (c)
		sb_command_help(c);
	else
		sb_command_overview(stdout);
	return finish(EXIT_OK);
}

static int run(const struct command *c, int argc, char *const *argv)
{
	struct invocation in;
	struct sb_err err = { 0 };

	if (argc > 0 && sb_same(argv[0], "--version"))
		return version();
	if (sb_command_parse(c, argc, argv, &in, &err))
		return sb_command_fail(&err);
	if (!sb_command_flag(&in, "help"))
		return c->run(&in);
	sb_command_help(c);
	return finish(EXIT_OK);
}

static int run_first(int argc, char *const *argv)
{
	const struct command *c = sb_command_find(argv[0]);

	if (c)
		return run(c, argc - 1, argv + 1);
	if (!is_job_file(argv[0]) && argv[0][0] != '-')
		return say_no_command(argv[0], "neither a command nor a job file (NAME.bore)");
	c = argc > 1 ? sb_command_find(argv[1]) : NULL;
	if (c == NULL)
		return run(&sb_cmd_open, argc, argv);
	fprintf(stderr, "sagbend: The command comes first: sagbend %s %s ... (see: sagbend %s --help)\n",
		c->name, argv[0], c->name);
	return EXIT_USAGE;
}

/* Whoever starts a program can have closed the standard streams. A job file must not be opened in their
 * place, or words would go into it. What is opened here fails when it is used, as a closed stream does. */
static void fill_closed_streams(void)
{
	static const int modes[] = { O_WRONLY, O_RDONLY, O_RDONLY };

	for (int fd = 0; fd < 3; fd++)
		if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", modes[fd]) != fd)
			return;
}

int main(int argc, char **argv)
{
	fill_closed_streams();
	/* Character type alone: the decimal sign of files and of typed numbers never depends on the place. */
	setlocale(LC_CTYPE, "");
	/* A full file size limit and a closed pipe are failures to be said, not deaths. */
	signal(SIGXFSZ, SIG_IGN);
	signal(SIGPIPE, SIG_IGN);
	if (argc < 2) {
		sb_command_overview(stderr);
		return EXIT_USAGE;
	}
	if (sb_same(argv[1], "--help") || sb_same(argv[1], "-h") || sb_same(argv[1], "help"))
		return help(argc - 2, argv + 2);
	if (sb_same(argv[1], "--version"))
		return version();
	return run_first(argc - 1, argv + 1);
}

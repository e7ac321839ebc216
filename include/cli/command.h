/* Subcommands: one row each, whose options feed parsing, help, completion and the man page.
 */
#ifndef SB_CLI_COMMAND_H
#define SB_CLI_COMMAND_H

#include "base/err.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* Exit statuses: name, number, what it says. 0 to 2 are check's verdicts (and 0 is success everywhere else).
 */
#define SB_EXITS(X) \
	X(OK, 0, "done; of check: every limit holds") \
	X(WATCH, 1, "of check alone: a limit is near") \
	X(BREACH, 2, "of check alone: a limit is broken") \
	X(HELD, 3, "the reading looks like a slip and was not logged; give a reason to log it as it is") \
	X(DAMAGED, 4, "of verify alone: the file has damage") \
	X(USAGE, 64, "the command line is wrong") \
	X(DATA, 65, "a value, a sheet or a table is wrong, or the job does not allow it") \
	X(NO_INPUT, 66, \
		"what was named is not there, or the file is not a job, is damaged, or is of a later version") \
	X(WRITE, 73, \
		"what was to be written could not be: a file is there already, a disk is full or failed, nobody reads; an " \
		"act that was done all the same says so") \
	X(BUSY, 75, "somebody else has the job open to write") \
	X(DENIED, 77, "no permission")

#define SB_EXIT_ENUM(name, number, help) EXIT_##name = (number),
enum exit_status { SB_EXITS(SB_EXIT_ENUM) };
#undef SB_EXIT_ENUM

struct exit_row {
	enum exit_status status;
	const char *help;
};
extern const struct exit_row sb_exits[];
extern const size_t sb_exit_count;

struct option {
	const char *name;     /* without the dashes */
	const char *argument; /* what it takes, as in help; NULL: a flag */
	const char *help;
	bool files; /* completion offers file names */
};

struct invocation;

struct command {
	const char *name;
	const char *arguments;	      /* "JOB.bore --sheet FOLDER" */
	const char *summary;	      /* one line */
	const char *detail;	      /* further sentences for help and the man page; may be "" */
	size_t least, most;	      /* positional arguments */
	const struct option *options; /* ends with a row without a name; may be NULL */
	bool row_fields;	      /* takes an option for each field of the row too */
	int (*run)(const struct invocation *in);
};

extern const struct command *const sb_commands[];
extern const size_t sb_command_count;

/* What was typed, taken apart. */
#define SB_INVOCATION_VALUES 48
struct invocation {
	const struct command *command;
	const char *positional[8];
	size_t count;
	struct {
		const char *name, *value; /* value "" for flags */
	} given[SB_INVOCATION_VALUES];
	size_t given_count;
};

const struct command *sb_command_find(const char *name);
/* Takes the words after the command's name apart; -1 (SB_USAGE) with a sentence. */
int sb_command_parse(
	const struct command *c, int argc, char *const *argv, struct invocation *out, struct sb_err *err);
const char *sb_command_value(const struct invocation *in, const char *name); /* NULL when not given */
bool sb_command_flag(const struct invocation *in, const char *name);
/* The i-th option of a command, row fields included; false past the end. */
bool sb_command_option(const struct command *c, size_t i, struct option *out);

void sb_command_help(const struct command *c); /* to stdout */
void sb_command_overview(FILE *to);

/* Who is acting: --by, else the login name; -1 when there is neither. */
int sb_command_who(const struct invocation *in, const char **who, struct sb_err *err);

/* Prints "sagbend: words" to stderr and returns the exit status that goes with them. */
int sb_command_fail(const struct sb_err *err);

#define SB_VERSION "0.1.0"

#endif

/* Subcommands: one row each, whose options feed parsing, help, completion and the man page.
 */
#ifndef SB_CLI_COMMAND_H
#define SB_CLI_COMMAND_H

#include "base/err.h"

#include <stdbool.h>
#include <stddef.h>

/* Exit statuses. 0 to 2 are check's verdicts (and 0 is success everywhere else). */
enum exit_status {
	EXIT_OK = 0,
	EXIT_WATCH = 1,	    /* check only */
	EXIT_BREACH = 2,    /* check only */
	EXIT_HELD = 3,	    /* a reading was held as a likely slip */
	EXIT_DAMAGED = 4,   /* verify found damage */
	EXIT_USAGE = 64,    /* the command line is wrong */
	EXIT_DATA = 65,	    /* a value, a sheet or a table is wrong; the job does not allow it */
	EXIT_NO_INPUT = 66, /* a file is missing, foreign, damaged or of a later version */
	EXIT_WRITE = 73,    /* a file cannot be written: it exists, the disk is full or failed */
	EXIT_BUSY = 75,	    /* somebody else holds the job */
	EXIT_DENIED = 77,   /* no permission */
};

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
void sb_command_overview(void);

/* Who is acting: --by, else the login name; -1 when there is neither. */
int sb_command_who(const struct invocation *in, const char **who, struct sb_err *err);

/* Prints "sagbend: words" to stderr and returns the exit status that goes with them. */
int sb_command_fail(const struct sb_err *err);

#define SB_VERSION "0.1.0"

#endif

/* What the acts on a job have in common: who, the open file, a reading from options, warnings to stderr. */
#ifndef SB_CLI_ACTING_H
#define SB_CLI_ACTING_H

#include "cli/command.h"
#include "model/blunder.h"
#include "store/store.h"

/* The options that every act has, for a command's table. */
#define OPTION_BY \
	{ \
		"by", "WHO", "the name that the act is signed with; the login name when left out", false \
	}
#define OPTION_END \
	{ \
		NULL, NULL, NULL, false \
	}

/* Opens the job (the first positional argument) to write. */
int sb_acting_open(
	const struct invocation *in, struct sb_store **store, const char **who, struct sb_err *err);
/* Opens it to read. */
int sb_acting_read(const struct invocation *in, struct sb_store **store, struct sb_err *err);

/* Puts the row fields that were given as options into r. */
int sb_acting_fields(
	const struct invocation *in, enum incline incline, struct reading *r, struct sb_err *err);
/* Text of --reason, or "" ; refuses what is too long. */
int sb_acting_reason(const struct invocation *in, char reason[SB_REMARK_TEXT], struct sb_err *err);
/* A whole number option. */
int sb_acting_whole(
	const struct invocation *in, const char *name, int low, int high, int *out, struct sb_err *err);

/* Looks for slips; -1 (SB_HELD) when one is held and no reason says otherwise. Says the others on stderr. */
int sb_acting_look(const struct job *job, const struct solution *s, const struct reading *r,
	const struct depth_check *depths, struct sb_err *err);

/* Says to stderr what is open at the end of the path. */
void sb_acting_say_warnings(const struct solution *s);

#endif

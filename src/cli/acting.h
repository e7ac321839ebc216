/* What the acts on a job have in common: who, the open file, a reading from options, warnings to stderr. */
#ifndef SB_CLI_ACTING_H
#define SB_CLI_ACTING_H

#include "base/str.h"
#include "cli/command.h"
#include "model/blunder.h"
#include "model/fact.h"
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
/* Puts the options that bear the names of a fact's columns (sigma_up: --sigma-up) into the fact. */
int sb_acting_fact(const struct invocation *in, const struct fact_sort *sort, void *fact, struct sb_err *err);
/* Text of --reason, or "" ; refuses what is too long, and "" when the act needs one. */
int sb_acting_reason(
	const struct invocation *in, bool needed, char reason[SB_REMARK_TEXT], struct sb_err *err);
/* A whole number option. */
int sb_acting_whole(
	const struct invocation *in, const char *name, int low, int high, int *out, struct sb_err *err);
/* --pass N, of a pass that counts (SB_MISSING); 0 when left out. */
int sb_acting_pass(const struct invocation *in, const struct job *job, int *pass, struct sb_err *err);

/* Looks for slips; -1 (SB_HELD) when one is held and no reason says otherwise. Says the others on stderr. */
int sb_acting_look(const struct job *job, const struct solution *s, const struct reading *r,
	const struct depth_check *depths, struct sb_err *err);

/* A file that is to be read must be there (SB_MISSING) and may be read (SB_DENIED); "-" is. Tables of
 * problems do not tell these from what is wrong inside. */
int sb_acting_there(const char *path, struct sb_err *err);

/* What a file has wrong, a line each, on standard error. */
void sb_acting_say_problems(const struct sb_problems *p);

/* Puts text on standard output and clears it; a full disk or a closed pipe is noticed. done: the words are
 * about an act that is on disk already, and the failure says so. Returns the exit status. */
int sb_acting_put(struct sb_str *text, bool done);
int sb_acting_say(const char *format, ...) __attribute__((format(printf, 1, 2))); /* likewise, done */

/* What a command says of the job: for people, or with --json for scripts; done as above. Returns the exit
 * status. */
typedef void sb_acting_words(const struct job *job, const struct solution *s, struct sb_str *out);
int sb_acting_show(const struct invocation *in, const struct sb_store *store, sb_acting_words *text,
	sb_acting_words *json, bool done);
/* The same of the job that is the first argument, opened to read and closed again. */
int sb_acting_look_at(const struct invocation *in, sb_acting_words *text, sb_acting_words *json);

/* Says to stderr what is open at the end of the path. */
void sb_acting_say_warnings(const struct solution *s);

#endif

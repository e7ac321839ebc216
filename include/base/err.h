/* What went wrong, in words that a person in the field can act on.
 *
 * Three failures, three ways: a programmer's mistake is an assert; out of memory ends the program
 * (base/mem.h); the world (input, files, the database) returns -1 and fills the caller's sb_err.
 */
#ifndef SB_BASE_ERR_H
#define SB_BASE_ERR_H

#include <stddef.h>

enum sb_code {
	SB_OK = 0,
	SB_USAGE,   /* the command line, or the order of the acts, is wrong */
	SB_RANGE,   /* a value that cannot be */
	SB_FORMAT,  /* text that is not what it should be */
	SB_STATE,   /* the job does not allow this now */
	SB_HELD,    /* a likely blunder: held until somebody says why */
	SB_MISSING, /* no such file, joint, warning */
	SB_DENIED,  /* no permission, or opened to read only */
	SB_BUSY,    /* somebody else holds the job */
	SB_EXISTS,  /* it is there already, and was left as it is */
	SB_FULL,    /* no room on the disk */
	SB_IO,	    /* the disk, the terminal or a pipe failed */
	SB_FOREIGN, /* not a job file */
	SB_NEWER,   /* a job file of a later version */
	SB_DAMAGED, /* a job file that does not hold together */
};

struct sb_err {
	enum sb_code code;
	char text[800]; /* one or two sentences, no line end */
};

/* Fills err (which may be NULL) and returns -1, so that a refusal is one line. */
int sb_fail(struct sb_err *err, enum sb_code code, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* Puts words before what err already says: "job.ini line 4: ..." */
int sb_fail_within(struct sb_err *err, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* A list of problems in files that people wrote, so that all of them can be shown at once. */
struct sb_problem {
	char file[64];
	int line; /* 0: the file as a whole */
	char column[48];
	int warning; /* 1: said, but does not refuse */
	char text[400];
};

struct sb_problems {
	struct sb_problem *list;
	size_t count, room;
	size_t errors; /* those that refuse */
};

void sb_problems_add(struct sb_problems *p, int warning, const char *file, int line, const char *column,
	const char *format, ...) __attribute__((format(printf, 6, 7)));
void sb_problems_clear(struct sb_problems *p);

#endif

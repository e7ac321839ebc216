/* The formats of `export`: one table for the command, its help, the man page and the tests.
 */
#ifndef SB_IO_FORMAT_H
#define SB_IO_FORMAT_H

#include "base/str.h"
#include "io/about.h"
#include "model/solve.h"

/* What a format is made of. Borrowed. */
struct export
{
	const struct job *job;
	const struct solution *solution;
	const struct about *about;
	const char *paper;   /* of drawings, by name: "A3"; NULL: the usual one of the job's unit */
	struct number every; /* of stations: how far apart, job unit; not given: as the format likes */
};

struct format {
	const char *name;      /* as typed: "csv" */
	const char *extension; /* of files, without the dot */
	const char *help;
	bool binary; /* not for a terminal */
	/* Adds the file's bytes to out, which may hold NUL (length counts). -1 with err: it cannot be made
	 * here. */
	int (*write)(const struct export *e, struct sb_str *out, struct sb_err *err);
};

extern const struct format sb_formats[];
extern const size_t sb_format_count;

const struct format *sb_format(const char *name); /* NULL if there is none */

#endif

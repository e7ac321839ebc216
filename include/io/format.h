/* The formats of `export`: one table for the command, its help, the man page and the tests.
 */
#ifndef SB_IO_FORMAT_H
#define SB_IO_FORMAT_H

#include "base/str.h"
#include "io/about.h"
#include "model/solve.h"

struct format {
	const char *name;      /* as typed: "csv" */
	const char *extension; /* of files, without the dot */
	const char *help;
	void (*write)(const struct job *job, const struct solution *s, const struct about *about,
		struct sb_str *out);
};

extern const struct format sb_formats[];
extern const size_t sb_format_count;

const struct format *sb_format(const char *name); /* NULL if there is none */

#endif

/* Text files that people made, read whole and looked at before anything else believes them.
 */
#ifndef SB_IO_LOAD_H
#define SB_IO_LOAD_H

#include "base/err.h"
#include "base/str.h"

#include <stdbool.h>
#include <stddef.h>

/* Given:    path    of the file; "-" is standard input
 *           limit   bytes that it may have
 * Returned: out     its bytes, without a byte order mark; sb_str_clear when done
 * -1 with err: no such file, a folder, no permission, larger than the limit, or UTF-16. */
int sb_load(const char *path, size_t limit, struct sb_str *out, struct sb_err *err);

/* Line by line: LF, CR LF and a lone CR all end one. */
struct load_lines {
	const char *at, *end;
	int number; /* of the line given last, from 1 */
};

struct load_lines sb_load_lines(const struct sb_str *text);
/* Returned: line     borrowed, not ended by NUL
 *           length   without its end
 *           whole    with its end; may be NULL
 * false when there are no more. */
bool sb_load_next(struct load_lines *l, const char **line, size_t *length, size_t *whole);

/* What is wrong with a line as text, in words: NUL bytes, not UTF-8, control characters. NULL: nothing. */
const char *sb_load_wrong(const char *line, size_t length);

#endif

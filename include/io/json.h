/* Writing JSON (RFC 8259): objects, arrays, text, numbers. Nothing that is not JSON can come out of it: NaN
 * and infinity become null, broken UTF-8 becomes U+FFFD.
 */
#ifndef SB_IO_JSON_H
#define SB_IO_JSON_H

#include "base/str.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stdint.h>

#define SB_JSON_DEPTH 16

struct sb_json {
	struct sb_str text; /* sb_str_clear when done */
	int depth;
	bool filled[SB_JSON_DEPTH]; /* something stands in it already */
	char ends[SB_JSON_DEPTH];
};

/* name: of the member, NULL in an array and at the top. */
void sb_json_object(struct sb_json *j, const char *name);
void sb_json_array(struct sb_json *j, const char *name);
void sb_json_end(struct sb_json *j); /* of the object or array opened last; the outermost ends the line too */

void sb_json_text(struct sb_json *j, const char *name, const char *text);
void sb_json_text_or_null(struct sb_json *j, const char *name, const char *text);    /* null when "" */
void sb_json_exact(struct sb_json *j, const char *name, double value);		     /* every digit */
void sb_json_fixed(struct sb_json *j, const char *name, double value, int decimals); /* io/figure.h */
void sb_json_whole(struct sb_json *j, const char *name, long long value);
void sb_json_bool(struct sb_json *j, const char *name, bool value);
void sb_json_null(struct sb_json *j, const char *name);
void sb_json_time(struct sb_json *j, const char *name, int64_t ms); /* ISO 8601, UTC */
/* As typed (12.30 stays 12.30); null when not given. */
void sb_json_typed(struct sb_json *j, const char *name, const struct number *n);

#endif

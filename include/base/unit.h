/* Units and typed numbers: the edge between what people write and what the engine computes.
 *
 * Numbers are kept as typed (12.30 stays 12.30) with their value beside them. Inside the engine there
 * are only metres and radians; inclination from straight down (pi/2 is level).
 */
#ifndef SB_BASE_UNIT_H
#define SB_BASE_UNIT_H

#include "base/err.h"

#include <stdbool.h>

enum unit { UNIT_M, UNIT_FT, UNIT_FTUS };
enum incline { INCLINE_DOWN, INCLINE_LEVEL, INCLINE_GRADE };

#define SB_NUMBER_TEXT 24

struct number {
	double value;
	char text[SB_NUMBER_TEXT]; /* as typed, decimal point, "" when not given */
};

/* Reads one number as people type it: spaces around, a leading +, a decimal point or a decimal comma.
 * Refuses (SB_FORMAT, with what would be right): nothing at all, letters and units typed along,
 * exponents, two numbers, thousands separators, more than 20 characters; never locale dependent.
 * A comma alone is a decimal one, so 1,234 is 1.234: where it may be a thousand, the reader of the file
 * asks first (model/setting.c, io/csv.c). out changes only on success. */
int sb_number_parse(const char *typed, struct number *out, struct sb_err *err);
bool sb_number_given(const struct number *n);
struct number sb_number_of(double value, int decimals); /* a number nobody typed, e.g. a tally length */

double sb_unit_metres(enum unit u);	/* exact: 1, 0.3048, 1200/3937 */
const char *sb_unit_short(enum unit u); /* "m", "ft": for screens */
const char *sb_unit_name(enum unit u);	/* "m", "ft", "ftUS": as in the job sheet */
const char *sb_unit_long(enum unit u);	/* "metres", "international feet", "US survey feet" */
int sb_unit_parse(const char *text, enum unit *out, struct sb_err *err);

const char *sb_incline_name(enum incline c); /* "down", "level", "grade" */
int sb_incline_parse(const char *text, enum incline *out, struct sb_err *err);
/* Typed inclination to radians from straight down and back. down: 0..180; level: -90..90, rising
 * positive; grade: percent, rising positive, within 89.9 degrees of level. */
double sb_incline_radians(enum incline c, double typed);
double sb_incline_typed(enum incline c, double radians);
/* The range that may be typed, for messages. */
void sb_incline_range(enum incline c, double *low, double *high);
const char *sb_incline_mark(enum incline c); /* "deg" or "%" */

#endif

/* One joint in the log: what the hand typed and the instruments said, as given, in the unit given.
 *
 * A reading is a fact. It is never changed: a correction is a new reading that names the one it
 * corrects. What is computed from it stands in model/row.h.
 */
#ifndef SB_MODEL_READING_H
#define SB_MODEL_READING_H

#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define SB_WHO_TEXT 64
#define SB_REMARK_TEXT 256

enum returns { RETURNS_UNSAID, RETURNS_FULL, RETURNS_PARTIAL, RETURNS_NONE };

struct reading {
	int64_t id;		    /* row of the job file; grows with time */
	int64_t corrects;	    /* the reading that this one replaces; 0: none */
	int64_t act;		    /* the act that it came with */
	int leg;		    /* the leg that was being drilled, from 1 */
	int joint;		    /* from 1 at the entry */
	struct number joint_length; /* job unit */
	struct number inclination;  /* the job's convention; not given: drilled, no reading taken */
	struct number azimuth;	    /* degrees, as the tool read it */
	struct number tool_face;    /* degrees clockwise from high side, looking ahead */
	struct number slid;	    /* job unit, of this joint */
	struct number thrust, torque, flow, standpipe, annular; /* units: sb_row_fields */
	enum returns returns;
	char started[6], ended[6]; /* local time "14:32", as typed */
	char remarks[SB_REMARK_TEXT];
	char reason[SB_REMARK_TEXT]; /* why it was logged or corrected as it is */
	char who[SB_WHO_TEXT];
	int64_t at_ms; /* UTC */
};

/* Whether inclination and azimuth were read. */
bool sb_reading_taken(const struct reading *r);

enum field_type { FIELD_NUMBER, FIELD_RETURNS, FIELD_CLOCK, FIELD_TEXT };

/* What a row can carry, beside leg and joint: one table for `log`, `import`, exports, the screen's form,
 * the job file and the man page. */
struct row_field {
	const char *name;   /* column of files and of the job file: "joint_length" */
	const char *option; /* of `log` and `correct`: "joint-length" */
	const char *label;  /* on the screen: "joint length" */
	enum field_type type;
	size_t offset;	  /* into struct reading */
	size_t size;	  /* of the member */
	double low, high; /* what may be typed; angles in the job's convention are judged elsewhere */
	const char *unit_m, *unit_ft; /* as shown; NULL: the job's length unit; "" none */
	const char *help;
};

extern const struct row_field sb_row_fields[];
extern const size_t sb_row_field_count;

const struct row_field *sb_row_field(const char *name); /* by column name or option; NULL if none */
const char *sb_row_field_unit(const struct row_field *f, enum unit unit);

/* Puts typed text into the reading's field, or "" to leave it unsaid.
 * Given:    incline   the job's inclination convention, which says what an inclination may be
 * Returned: r         changed only on success; -1 with err in words naming the field otherwise. */
int sb_row_field_put(const struct row_field *f, struct reading *r, enum incline incline, const char *typed,
	struct sb_err *err);
/* The text as typed; "" when unsaid. */
const char *sb_row_field_get(const struct row_field *f, const struct reading *r);

const char *sb_returns_name(enum returns r); /* "", "full", "partial", "none" */

#endif

/* One joint in the log: what the hand typed and the instruments said, as given, in the unit given.
 *
 * A reading is a fact. It is never changed: a correction is a new reading that names the one it
 * corrects. What is computed from it stands in model/row.h.
 */
#ifndef SB_MODEL_READING_H
#define SB_MODEL_READING_H

#include "base/time.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define SB_WHO_TEXT 64
#define SB_REMARK_TEXT 256

enum returns { RETURNS_UNSAID, RETURNS_FULL, RETURNS_PARTIAL, RETURNS_NONE };

/* What an azimuth was read with, where the magnetic one is not to be trusted: steel nearby, a bridge, a
 * line. */
enum azimuth_by {
	AZIMUTH_BY_TOOL, /* as the job's reference says */
	AZIMUTH_BY_GYRO, /* degrees from true north */
	AZIMUTH_BY_COIL, /* degrees from grid north, as a surveyed coil or beacon gives it */
	AZIMUTH_BY_HOLD, /* the heading before is carried on; what the tool read is kept, and not used */
};

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
	enum azimuth_by azimuth_by;
	/* The pushes of this joint where they were not even: "FROM:LENGTH@FACE; ..." (model/pushes.h) */
	char pushes[SB_REMARK_TEXT];
	/* as the tool gave them, in the tool's units and axes ([tool] in the sheet) */
	struct number gravity_x, gravity_y, gravity_z, field_x, field_y, field_z;
	struct number total_gravity, total_field, dip;
	enum returns returns;
	char started[SB_CLOCK_TEXT], ended[SB_CLOCK_TEXT]; /* local time "14:32", as typed */
	char remarks[SB_REMARK_TEXT];
	char reason[SB_REMARK_TEXT]; /* why it was logged or corrected as it is */
	char who[SB_WHO_TEXT];
	int64_t at_ms;	/* UTC */
	int64_t logged; /* the act by which the joint was first logged; 0: not logged */
};

/* Whether inclination and azimuth were read; an azimuth that is carried on need not be. */
bool sb_reading_taken(const struct reading *r);

enum field_type { FIELD_NUMBER, FIELD_CHOICE, FIELD_CLOCK, FIELD_TEXT };

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
	const char *choices;	  /* of FIELD_CHOICE: "full|partial|none", the enum's values from 1 */
	const char *const *words; /* of FIELD_CHOICE: the same, each for itself, by value; [0] is "" */
	bool instrument;	  /* comes from the tool, hardly ever typed: not on the screen's form */
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

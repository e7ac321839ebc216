/* How the bore passes what lies around it, as `clearance` says it: each obstacle and the cover, of what is
 * drilled, of the held heading, and of the steering plan.
 */
#ifndef SB_IO_PASSINGS_H
#define SB_IO_PASSINGS_H

#include "io/json.h"
#include "model/solve.h"

/* One obstacle, all three ways. */
struct passings {
	const struct obstacle *obstacle;
	struct passing drilled, held, planned;
	enum level level; /* the worst of the three */
};

struct covers {
	struct cover drilled, held, planned;
	enum level level;
};

/* Given:    plan   from the end of the present path (sb_steering_make)
 * Returned: list for sb_free (NULL when there is none), one an obstacle in the order of the sheet; covers */
size_t sb_passings_list(const struct job *job, const struct solution *s, const struct plan *plan,
	struct passings **list, struct covers *covers);

/* For people, 80 columns. */
void sb_passings_text(
	const struct job *job, const struct solution *s, const struct plan *plan, struct sb_str *out);

/* The same of one obstacle, and of cover alone: a line of what it is, then what is known of it. */
void sb_passings_obstacle(
	const struct job *job, const struct solution *s, const struct passings *p, struct sb_str *out);
void sb_passings_cover(
	const struct job *job, const struct solution *s, const struct covers *c, struct sb_str *out);

/* {"unit", "hole": {...}, "obstacles": [{"name", ..., "drilled", "held", "planned"}], "cover": {...}}. */
void sb_passings_json(
	const struct job *job, const struct solution *s, const struct plan *plan, struct sb_str *out);

/* Held and planned alone, as two members of the object that is open: "clearances", "cover". */
void sb_passings_ahead(
	struct sb_json *j, const struct job *job, const struct solution *s, const struct plan *plan);

/* Of the plan, a line for each obstacle and for cover that it does not surely keep; nothing where it does. */
void sb_passings_plan(
	const struct job *job, const struct solution *s, const struct plan *plan, struct sb_str *out);

/* What the figures rest on, a sentence each; NULL at the end. */
extern const char *const sb_passings_assumptions[];

/* "14.2 ft below", "walls overlap by 0.4 ft", "-" where nothing is known. */
#define SB_PASSINGS_TEXT 80
void sb_passings_words(const struct job *job, const struct solution *s, const struct passing *p,
	char text[SB_PASSINGS_TEXT]);

#endif

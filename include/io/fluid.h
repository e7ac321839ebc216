/* The drilling fluid for people and for scripts: pressure and limit along the bore, what was measured,
 * returns, losses and releases with what is missing of their record.
 */
#ifndef SB_IO_FLUID_H
#define SB_IO_FLUID_H

#include "io/document.h"
#include "io/json.h"
#include "model/solve.h"

/* What every estimate of these rests on; ends with NULL. */
extern const char *const sb_fluid_assumptions[];

/* What an entry is called in the act's line: "returns partial", "release at station 812.0, field west of the
 * levee". */
#define SB_FLUID_WHAT 200
void sb_fluid_what(const struct job *job, const struct fluid_event *e, char text[SB_FLUID_WHAT]);

/* pass: shown beside the pilot; 0: the last one, or where there is none one to the sheet's final diameter.
 * design: along the design line, and not as it was drilled. */
void sb_fluid_text(
	const struct job *job, const struct solution *s, int pass, bool design, struct sb_str *out);

/* The same as blocks of a document: the fluid and its loss, where it is tightest, what is missing, what came
 * back and what came up; and the table joint by joint. */
void sb_fluid_blocks(struct document *d, const struct job *job, const struct solution *s, int pass);
void sb_fluid_table(struct document *d, const struct job *job, const struct solution *s, int pass);

/* {"unit", "design", "pressure_unit", ..., "estimate": true, "assumptions": [], "notes": [], "stages":
 * [{"stage", "pass", "name", "hole", "flow", "weight", "to_entry": {...}, "to_exit": null or {...},
 * "tightest": null or
 * {...}, "measured", "points": [...], "gaps": []}], "events": [], "releases": []}; null for what is not
 * known. */
void sb_fluid_json(
	const struct job *job, const struct solution *s, int pass, bool design, struct sb_str *out);

#endif

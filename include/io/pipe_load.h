/* The product pipe in this hole for people and for scripts: what it bears station by station (`stress`), and
 * the force that draws it in (`pull`). Every page says that it is an estimate, on what it rests, and that it
 * is for the engineer to verify.
 */
#ifndef SB_IO_PIPE_LOAD_H
#define SB_IO_PIPE_LOAD_H

#include "io/json.h"
#include "model/pipe_load.h"
#include "model/solve.h"

/* As drilled, and the design beside it. */
struct pipe_loads {
	struct pipe_load drilled, design;
};
/* -1 with err: what the sheet lacks. Cleared first; sb_pipe_loads_clear when done. */
int sb_pipe_loads_make(
	const struct job *job, const struct solution *s, struct pipe_loads *out, struct sb_err *err);
void sb_pipe_loads_clear(struct pipe_loads *l);

/* 80 columns. design: the stations of the design instead of those drilled.
 * JSON: {"unit", "units", "of", "estimate", "length", "read_to", "out",
 * "turn", "largest": {"force", "tension", "bending", "outside_pressure", "tension_bending", "all"},
 * "stations": [{"joint", "depth", "station", "elevation", "projected", "force", "force_low", "force_high",
 * "radius_joint", "bending_joint", "radius_window", "bending_window", "strain_window", "pressure",
 * "buckles_at", "shares": {...}}], "design", "assumptions"}; each of "largest" is the station where it is,
 * null where it is not judged; a radius is null where straight. */
void sb_pipe_load_stress_text(const struct job *job, const struct solution *s, const struct pipe_loads *l,
	bool design, struct sb_str *out);
void sb_pipe_load_stress_json(const struct job *job, const struct solution *s, const struct pipe_loads *l,
	bool design, struct sb_str *out);

/* The estimate of the pull: largest force, what the pilot's own bends cost, legs, each joint's place of the
 * head, sensitivity. Where the sheet does not give what it takes, a sentence says so. */
void sb_pipe_load_pull_text(const struct job *job, const struct solution *s, struct sb_str *out);
/* The same as a member "estimate" of the object that is open; null where there is none: {"length", "read_to",
 * "out", "turn", "force", "low", "high", "head", "design_force", "safe_force", "sensitivity": {"friction":
 * {"low": {"value", "force"}, "given", "high"}, "fluid", "drag", "rollers"}, "legs": [{"from", "to", "turn",
 * "radius", "bends_pipe", "force"}], "heads": [{"joint", "depth", "force", "low", "high"}], "astm_f1962",
 * "assumptions"}. */
void sb_pipe_load_pull_put(struct sb_json *j, const struct job *job, const struct solution *s);

/* "134500 lbf", "13.1 kN"; "-" when not known. */
#define SB_LOAD_TEXT 32
const char *sb_pipe_load_force(enum unit u, double newton, char text[SB_LOAD_TEXT]);
const char *sb_pipe_load_stress(const struct job *job, double pascal, char text[SB_LOAD_TEXT]);

#endif

/* The pull for people and for scripts: what was measured beside what is estimated, and what is left. */
#ifndef SB_IO_PULLBACK_H
#define SB_IO_PULLBACK_H

#include "io/json.h"
#include "model/fact.h"
#include "model/pullback.h"
#include "model/solve.h"

/* Before it begins: what it waits for. Then joint by joint. The estimate's page behind either. */
void sb_pullback_text(const struct job *job, const struct solution *s, struct sb_str *out);
/* {"unit", "units", "missing": [...], "missing_when_begun", "state", "begun", "ended", "extra_asked",
 * "extra", "coating", "survey", "safe_force", "head", "joints_left", "minutes_left": {"best", "likely"},
 * "stops": {"count", "minutes"}, "speed", "joints": [{"joint", "force", "estimate", "low", "high", "band",
 * "share", "jump", "jumped", "head", "station", "torque", "flow", "annular", "minutes", "stop_minutes",
 * "speed", "entry", "by", "text"}], "struck": [{"entry", "kind", "text", "by"}], "estimate" as in
 * io/pipe_load.h}
 *
 * state: "waiting", "ready", "running", "ended"; begun, ended: null or {"by", "at", "words", "entry"}; band:
 * null, "within", "above", "below". Lengths in the job's unit, forces kN or lbf, speed in the job's unit a
 * minute. */
void sb_pullback_json(const struct job *job, const struct solution *s, struct sb_str *out);

/* The members of it, into an object that is open. */
void sb_pullback_put(struct sb_json *j, const struct job *job, const struct solution *s);

/* How it stands now, on one line: the last joint's force, what it may mean, where the head is, what is left.
 */
void sb_pullback_now(const struct job *job, const struct solution *s, struct sb_str *out);
/* "27 of 38 joints are out; the head is at depth 341.2 ft, 341.2 to go" */
void sb_pullback_stand(const struct job *job, const struct pullback *p, struct sb_str *out);
/* "11 joints left: best 3 h 40 min, likely 4 h 10 min; 1.6 ft a minute while pulling; 1 stop, 45 min"; ""
 * where nothing of it is known. */
void sb_pullback_time(const struct job *job, const struct pullback *p, struct sb_str *out);

#endif

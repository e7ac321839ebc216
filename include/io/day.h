/* A day's report: what was drilled on one local day, where the bore stood before and after, how far off and
 * how tight it was, what the rig showed, what was decided and by whom.
 */
#ifndef SB_IO_DAY_H
#define SB_IO_DAY_H

#include "base/time.h"
#include "io/about.h"
#include "io/document.h"
#include "model/period.h"

struct day {
	const struct job *job; /* borrowed, like the solution */
	const struct solution *s;
	struct span span; /* the day */
	char date[SB_TIME_TEXT];
	bool last; /* nothing was logged after it: what is said of the end holds now */
	struct timeline timeline;
	struct period period;
	size_t drilled;		 /* joints to date */
	double drilled_length;	 /* of them, job unit */
	size_t in_ground;	 /* at its end */
	double in_ground_length; /* likewise */
	bool left_known;
	double left_m;	      /* along the stations, to the exit of the design */
	struct pilot_out out; /* known only of the last day */
};

/* Given:    date   "2026-11-25"; NULL: the last day on which something was done
 * Returned: out    sb_day_clear when done. -1 with err: it is no date (SB_FORMAT), or nothing was done then
 *                  (SB_MISSING), and when something was. */
int sb_day_take(const struct job *job, const struct solution *s, const char *date, int64_t now_ms,
	struct day *out, struct sb_err *err);
void sb_day_clear(struct day *day);

void sb_day_document(const struct day *day, const struct about *about, struct document *out);
/* {"job", "rehearsal", "date", "unit", "joints", "first", "last", "length", "withdrawn",
 * "drilled_to_date", "in_ground": {"joints", "length"}, "left": {"length", "joints"}, "hours": {"timed",
 * "minutes", "drill_min", "stop_min", "between_min", "per_hour"}, "start", "end": {"joint", "depth",
 * "station", "offset", "height", "elevation"}, "farthest": {"right", "left", "high", "low": {"value",
 * "joint", "station"}}, "tightest": {"joint", "window": {"radius", "joint", "station", "limit"}}, "ranges":
 * {"thrust" ...: {"low", "high", "unit"}}, "returns": {"last", "worst", "joint"}, "passes": [{"pass",
 * "kind", "diameter", "joints", "first", "last", "length", "pull" ...: {"low", "high", "unit"},
 * "minutes_a_joint"}], "fluid": [{"entry", "kind", "text", "struck", "who"}], "string": {"joints", "length",
 * "records", "bad"}, "pull": null or as a pass with "force", "stops": [{"joint",
 * "minutes", "why"}], "fixes": [{"fix", "kind", "depth", "verdict", "who"}], "acts": [{"kind", "at", "joint",
 * "who", "text"}], "forecast": {"best", "likely"}, "file", "file_digest", "exported_by", "caution"}; null for
 * what is not known. */
void sb_day_json(const struct day *day, const struct about *about, struct sb_str *out);

#endif

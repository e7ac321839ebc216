/* The timeline for people and for scripts: joints, how long each took, stops and what the log says of them,
 * and when the pilot is out.
 */
#ifndef SB_IO_TIMELINE_H
#define SB_IO_TIMELINE_H

#include "io/document.h"
#include "model/timeline.h"

/* "13 h 0 min", "52 min". */
#define SB_TIMELINE_TEXT 32
void sb_timeline_minutes(double minutes, char text[SB_TIMELINE_TEXT]);

/* "2026-11-26 03:40", in local time. */
void sb_timeline_moment(int64_t ms, char text[SB_TIMELINE_TEXT]);

/* When the pilot is out, in a few words: "best 2026-11-26 03:40, likely 2026-11-27 12:10"; or why that cannot
 * be told. */
void sb_timeline_out_words(const struct pilot_out *o, struct sb_str *out);
/* How that was found: one or two sentences. "" when it cannot be told. */
void sb_timeline_out_method(
	const struct job *job, const struct timeline *t, const struct pilot_out *o, struct sb_str *out);

/* The stops as a table in a document, those of the joints from first to last of the timeline's list (last not
 * in it); false, and nothing put, when there are none. */
bool sb_timeline_stops(
	struct document *d, const struct job *job, const struct timeline *t, size_t first, size_t last);

/* now_ms: from which the forecast counts. */
void sb_timeline_text(const struct job *job, const struct solution *s, int64_t now_ms, struct sb_str *out);
/* {"unit", "rehearsal", "joints": [{"joint", "leg", "in_ground", "logged_at", "started", "ended", "length",
 * "source", "wait_min", "drill_min", "whole_min", "per_hour", "stop_min", "why"}], "usual_wait_min",
 * "middle_min", "whole_min", "stop_min", "forecast": {"known", "reached", "length_left", "joints_left",
 * "from", "best_joint_min", "likely_joint_min", "best_min", "likely_min", "best", "likely"}}; null for what
 * is not known. */
void sb_timeline_json(const struct job *job, const struct solution *s, int64_t now_ms, struct sb_str *out);

#endif

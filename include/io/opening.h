/* The opening of the hole for people and for scripts: the passes, the joints of one of them, what is cut and
 * pumped, how long the rest takes, and the rules that are not kept.
 */
#ifndef SB_IO_OPENING_H
#define SB_IO_OPENING_H

#include "io/document.h"
#include "io/json.h"
#include "model/opening.h"

/* What an entry is called in the act's line: "pass 3, joint 41". */
#define SB_OPENING_WHAT 200
void sb_opening_what_pass(const struct job *job, const struct pass *p, char text[SB_OPENING_WHAT]);
void sb_opening_what_joint(const struct pass_joint *j, char text[SB_OPENING_WHAT]);
void sb_opening_what_end(const struct opening_pass *p, char text[SB_OPENING_WHAT]);

/* What is asked of the final hole: "36 in or more, 1.5 times the pipe of 24 in; 38 in at most". */
void sb_opening_final_words(const struct job *job, struct sb_str *out);
/* How long the joints that are left take: "best 3 h 12 min, likely 4 h 26 min, by the sheet's rates". */
void sb_opening_left_words(
	const struct opening_pace *best, const struct opening_pace *likely, struct sb_str *out);
/* What is not in that. */
extern const char sb_opening_not_in_it[];
/* A volume in the job's unit: "41.3 m3", "10920 gal", "not known". */
void sb_opening_volume(const struct job *job, double m3, char text[32]);
/* What a pass cut and pumped, one sentence each. */
void sb_opening_volume_words(const struct job *job, const struct opening_pass *p, struct sb_str *out);

/* pass: whose joints are listed; 0: of the last. now_ms: from which the end of the pass is counted; 0: it is
 * left out. */
void sb_opening_text(const struct job *job, int pass, int64_t now_ms, struct sb_str *out);
/* The same as blocks of a document, without the joints. */
void sb_opening_blocks(struct document *d, const struct job *job, const struct opening *o, int64_t now_ms);
/* {"unit", "units": {"size", "volume", "pull", ...}, "rehearsal", "final": {"least", "most", "contract"},
 * "pilot", "hole_least", "hole_most", "joints", "length", "running", "cut", "fluid", "pumped", "whole_ream",
 * "whole_swab", "passes": [{"pass", "kind", "to", "diameter", "tool", "begun_at", "by", "ended", "done",
 * "left", "next", "length_done", "length_left", "cut", "cut_left", "fluid", "fluid_left", "pumped",
 * "pumped_joints", "ranges", "best", "likely", "joints": [{"joint", "entry", "pull", ... "started", "ended",
 * "returns", "minutes", "cut", "again", "by"}]}], "checks": [{"level", "pass", "text"}], "struck": [{"entry",
 * "kind", "text", "by"}]}; null for what is not known. */
void sb_opening_json(const struct job *job, struct sb_str *out);

#endif

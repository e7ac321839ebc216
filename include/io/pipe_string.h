/* The pipe string for people and for scripts: its joints, their records, and what is missing. */
#ifndef SB_IO_PIPE_STRING_H
#define SB_IO_PIPE_STRING_H

#include "io/json.h"
#include "model/fact.h"
#include "model/pipe_string.h"
#include "model/solve.h"

void sb_pipe_string_text(const struct job *job, const struct solution *s, struct sb_str *out);
/* {"unit", "units", "length", "bore", "bore_whole", "extra", "needed", "ready", "missing": [...], "joints":
 * [{"joint", "length", "from", "mark", "entry", "weld", "inspection", "coating"}], "test", "drag", "struck":
 * [{"entry", "kind", "text", "by"}]}; a record is null or {"outcome", "reference", "by", "at", "entry"}, the
 * test's with "pressure" and "hours". Lengths in the job's unit; from: of its end at the pull head, behind
 * it. */
void sb_pipe_string_json(const struct job *job, const struct solution *s, struct sb_str *out);

/* "680.4 of 655.3 ft asked: bore 648.8, 6.5 past the entry" */
void sb_pipe_string_length(const struct job *job, const struct pipe_string *p, struct sb_str *out);
/* How a record stands: "good", "bad", "missing", "not asked". */
const char *sb_pipe_string_word(const struct pipe_record *r, bool asked);

#endif

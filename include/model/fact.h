/* The facts beside the joints' readings that come one with an act: repeats, fixes, adjustments, what came of
 * breaches, the passes, the pipe string, the pull. One table of columns each, which the job file, commands,
 * forms and the man page share.
 */
#ifndef SB_MODEL_FACT_H
#define SB_MODEL_FACT_H

#include "model/setting.h"

struct fact_sort {
	const char *table;	 /* in the job file */
	enum act_kind act, also; /* the kinds of act that bring one; both the same where there is one */
	const struct sheet_column *columns;
	size_t column_count;
	size_t size;				/* of its struct, which begins with struct fact */
	size_t rows_at, count_at, room_at;	/* of its list in struct job */
	size_t struck_at;			/* of its mark in its struct; 0: it cannot be struck out */
	void (*mark)(struct job *, void *fact); /* what else follows in the job; NULL: nothing */
};

extern const struct fact_sort sb_fact_sorts[];
extern const size_t sb_fact_sort_count;

/* The sort that comes with an act; NULL: none does. */
const struct fact_sort *sb_fact_sort(enum act_kind act);

/* Adds one to the job, in the order of time. */
void sb_fact_add(struct job *job, enum act_kind act, const void *fact);
/* Takes the last of each sort out again that came with an act. */
void sb_fact_forget(struct job *job, int64_t act);
/* The fact of its sort that came with an act; NULL: none did. */
void *sb_fact_of(const struct job *job, enum act_kind kind, int64_t act);
/* How many of its sort there are: the next one's id is one more. */
size_t sb_fact_count(const struct fact_sort *s, const struct job *job);
const void *sb_fact_row(const struct fact_sort *s, const struct job *job, size_t i);
bool sb_fact_struck(const struct fact_sort *s, const void *fact); /* false of what never can be */

/* Room for any fact of these. */
union any_fact {
	struct fact fact;
	struct repeat repeat;
	struct fix fix;
	struct fix_use fix_use;
	struct adjustment adjustment;
	struct disposition disposition;
	struct ticked ticked;
	struct acceptance acceptance;
	struct fluid_event fluid_event;
	struct pass pass;
	struct pass_joint pass_joint;
	struct pass_end pass_end;
	struct pipe pipe;
	struct pipe_record pipe_record;
	struct pull_begin pull_begin;
	struct pull_joint pull_joint;
	struct pull_end pull_end;
	struct strike strike;
};

const char *sb_fact_column(
	const struct fact_sort *s, size_t i, const void *fact, char buffer[SB_NUMBER_TEXT]);
bool sb_fact_has(const struct fact_sort *s, const char *column);
/* Puts typed text into the column of that name; -1 with err naming it. */
int sb_fact_put(
	const struct fact_sort *s, void *fact, const char *column, const char *text, struct sb_err *err);

/* Choices as they are written: */
const char *sb_fix_kind_name(enum fix_kind kind);	     /* "coil", "walk-over" ... */
const char *sb_fluid_event_name(enum fluid_event_kind kind); /* "full", ... "release", "record" */
const char *sb_pass_kind_name(enum pass_kind kind);	     /* "ream", "swab" */
const char *sb_pass_way_name(enum pass_way way);	     /* "entry", "exit" */
const char *sb_pipe_record_name(enum pipe_record_kind kind); /* "weld", "inspection" ... */
const char *sb_outcome_name(enum outcome outcome);	     /* "good", "bad" */
const char *sb_coating_name(enum coating_seen seen);	     /* "sound", "scratched", "damaged" */

#endif

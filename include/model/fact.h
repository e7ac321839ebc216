/* The facts beside the joints' readings that come one with an act: repeats, fixes, their use, adjustments.
 * One table of columns each, which the job file, commands, forms and the man page share.
 */
#ifndef SB_MODEL_FACT_H
#define SB_MODEL_FACT_H

#include "model/setting.h"

struct fact_sort {
	const char *table;	 /* in the job file */
	enum act_kind act, also; /* the kinds of act that bring one; both the same where there is one */
	const struct sheet_column *columns;
	size_t column_count;
	size_t size;					/* of its struct, which begins with struct fact */
	void (*add)(struct job *job, const void *fact); /* one of sb_job_add_... */
};

extern const struct fact_sort sb_fact_sorts[];
extern const size_t sb_fact_sort_count;

/* The sort that comes with an act; NULL: none does. */
const struct fact_sort *sb_fact_sort(enum act_kind act);

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
};

const char *sb_fact_column(
	const struct fact_sort *s, size_t i, const void *fact, char buffer[SB_NUMBER_TEXT]);
bool sb_fact_has(const struct fact_sort *s, const char *column);
/* Puts typed text into the column of that name; -1 with err naming it. */
int sb_fact_put(
	const struct fact_sort *s, void *fact, const char *column, const char *text, struct sb_err *err);

const char *sb_fix_kind_name(enum fix_kind kind); /* "coil", "walk-over" ... */

#endif

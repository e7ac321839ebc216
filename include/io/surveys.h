/* A CSV of surveys to log, read whole before anything is logged.
 *
 * Columns in any order, by the names of the row's fields (model/reading.h), and: joint; leg; bit_depth and
 * survey_depth, which stand in for a joint_length that is not given and are compared with it; reason; who;
 * time. What `export` writes beside them is known and passed over, and so are rows that an export marks as
 * standing for nothing in the ground: the entry, withdrawn joints, replaced readings.
 */
#ifndef SB_IO_SURVEYS_H
#define SB_IO_SURVEYS_H

#include "model/blunder.h"
#include "model/job.h"

#define SB_SURVEYS_MOST 20000 /* rows of one file */

struct survey {
	struct reading reading; /* joint is set, joint_length too; who and at_ms if the file says them */
	struct depth_check depths;
	int line;
};

struct surveys {
	struct survey *list; /* in the order to log them: joints follow one another */
	size_t count, room;
	size_t skipped; /* rows that stand for nothing in the ground */
};

/* Given: job, whose next joint the first row has to be. 0: out (may hold no row at all; problems may hold
 * warnings). -1: problems say every error by line and column; out is empty. sb_surveys_clear when done. */
int sb_surveys_read(
	const char *path, const struct job *job, struct surveys *out, struct sb_problems *problems);
void sb_surveys_clear(struct surveys *s);

#endif

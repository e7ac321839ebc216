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
#include "model/solve.h"

#define SB_SURVEYS_MOST 20000 /* rows of one file */

struct survey {
	struct reading reading; /* joint is set, joint_length too; who and at_ms if the file says them */
	struct depth_check depths;
	int line;
	char judged[SB_REMARK_TEXT]; /* a correction, as the file says: why, or ""; it was looked at once
					already */
	bool placed;		     /* the file says where it puts the sensor, on the job's grid */
	double easting, northing, elevation;
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

/* The file's own places against those that its readings make. */
struct surveys_places {
	size_t compared, off;
	int first;    /* joint that is off */
	double worst; /* job unit */
};
void sb_surveys_compare(const struct surveys *list, const struct solution *s, struct surveys_places *out);
/* In words; false when the file has no places. */
#define SB_SURVEYS_PLACES 320
bool sb_surveys_places_say(const struct surveys_places *p, enum unit unit, char text[SB_SURVEYS_PLACES]);

#endif

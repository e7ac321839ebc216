/* What goes with everything that is handed over: whose job, in which units and frame, by which method, from
 * which file, by whom and when, and what it is not.
 */
#ifndef SB_IO_ABOUT_H
#define SB_IO_ABOUT_H

#include "io/json.h"
#include "model/job.h"

/* What every report, drawing and export carries. */
extern const char sb_caution[];

/* What an export is told besides the job. All borrowed. */
struct about {
	const char *file;    /* name of the job file */
	const char *head;    /* last hash of its chain, hex; "" when not known */
	const char *who;     /* exports it */
	int64_t at_ms;	     /* when, UTC */
	const char *program; /* "sagbend 1.0" */
};

/* "REHEARSAL", which every page of a job has that was drilled by simulation; "" of a real one. */
const char *sb_about_mark(const struct job *job);

#define SB_ABOUT_TEXT 400
struct about_line {
	const char *key;
	char text[SB_ABOUT_TEXT];
};
#define SB_ABOUT_LINES 50

/* Fills the lines that there is something to say in; returns how many. */
size_t sb_about_lines(const struct job *job, const struct about *a, struct about_line out[SB_ABOUT_LINES]);

/* The same as an object of the JSON that is open. */
void sb_about_put(struct sb_json *j, const char *name, const struct job *job, const struct about *a);

#endif

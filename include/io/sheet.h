/* The job sheet: a folder with job.ini and the CSV tables that it names.
 *
 * A sheet with an error is refused as a whole, with every error in it listed by file, line and key or column,
 * and what would be right. What is only doubtful is listed too, as a warning.
 */
#ifndef SB_IO_SHEET_H
#define SB_IO_SHEET_H

#include "base/err.h"
#include "base/str.h"
#include "model/job.h"

#define SB_SHEET_INI (1u << 20)	  /* bytes of job.ini */
#define SB_SHEET_ROWS 100000	  /* rows of a table */
#define SB_SHEET_INI_PROBLEMS 200 /* listed of job.ini */

/* 0: out is the job that the sheet describes, and the design line and corridor can be built from it;
 * problems may hold warnings. -1: problems->errors says how many; out is empty. Either way sb_job_clear and
 * sb_problems_clear when done. */
int sb_sheet_read(const char *folder, struct job *out, struct sb_problems *problems);

/* job.ini, and of the tables the alignment and the profile where they can be read: for a sheet whose design
 * is still to come. As sb_sheet_read; a table that is missing or wrong is none. */
int sb_sheet_settings(const char *folder, struct job *out, struct sb_problems *problems);

/* One problem as people read it: "profile.csv line 4, radius: ..." with a line end. */
void sb_sheet_say(const struct sb_problem *p, struct sb_str *out);

#endif

/* Three ready jobs, invented here, and readings to put into them.
 *
 * plain:  feet, down, a line due east on a grid; 1200 ft radius curves; corridor 2/3/4/5 ft (up, down, left,
 * right) curved: metres, level, a horizontal curve and a scale factor; magnetic azimuths graded: US survey
 * feet, grade, azimuth by the bore, window by length and by the sum of doglegs
 */
#ifndef SUPPORT_JOBS_H
#define SUPPORT_JOBS_H

#include "model/solve.h"

void jobs_plain(struct job *job);
void jobs_curved(struct job *job);
void jobs_graded(struct job *job);

/* One key of the sheet; ends the test when it is refused. */
void jobs_set(struct job *job, const char *section, const char *key, const char *text);
/* One row of a table: cells in the order of its columns, "" blank. */
void jobs_row(struct job *job, const char *table, const char *const *cells);

/* Appends the next joint; length "" for the tally's, inclination and azimuth "" for none taken. Returns its
 * id. */
int64_t jobs_log(struct job *job, const char *length, const char *inclination, const char *azimuth);
/* Fills a reading without logging it. */
struct reading jobs_reading(
	const struct job *job, const char *length, const char *inclination, const char *azimuth);
int64_t jobs_correct(struct job *job, int joint, const char *inclination, const char *azimuth);
void jobs_withdraw(struct job *job, int to_joint);

/* Solves or ends the test with what was wrong. */
void jobs_solve(const struct job *job, struct solution *out);

/* Logs joints that follow the design exactly, up to so many, so that a test can start from a good bore. */
void jobs_follow(struct job *job, int joints);

#endif

/* What an azimuth needs before it can be one on the grid: a choice between two ways to it where they
 * disagree, and a convergence where it comes from true north.
 *
 * The choice is a change of [azimuth] reference, even to what it was: whoever makes it gives a name and a
 * reason. It stands until one of the figures that were compared changes again.
 */
#ifndef SB_MODEL_AZIMUTH_H
#define SB_MODEL_AZIMUTH_H

#include "model/warning.h"

/* How far apart, degrees, two azimuths may be that are meant to be one.  Source: common practice of line
 * checks at set-up, no source. */
#define SB_AZIMUTH_APART 0.5

/* The newest change of a setting that holds for a reading (NULL: for the next joint); NULL when it is as in
 * the sheet. Borrowed from the job. */
const struct change *sb_azimuth_change(
	const struct job *job, const struct reading *r, const char *section, const char *key);

/* Whether somebody chose between the two ways since one of their figures last changed; in force for a reading
 * (NULL: the next joint). The change that did, or NULL. */
const struct change *sb_azimuth_choice(const struct job *job, const struct reading *r);

/* The two ways as the settings stood for a reading; r NULL: at the entry. */
void sb_azimuth_judge(const struct setup *s, const struct reading *r, struct verdict *v);
/* As they stood after the acts before one: what comes next is read by them. */
void sb_azimuth_judge_next(const struct setup *s, int64_t before_act, struct verdict *v);
/* The change that an episode of disagreement ended with; NULL: it did not end with one. */
const struct change *sb_azimuth_settled(const struct job *job, const struct warning *w);

/* -1 (SB_STATE): the reading's azimuth is from true north and the job has no convergence. `held` is the
 * reading whose settings hold (NULL: the next joint's). */
int sb_azimuth_check(
	const struct job *job, const struct reading *held, const struct reading *r, struct sb_err *err);

#endif

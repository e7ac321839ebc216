/* Slips on the links of the azimuth chain: a declination put in where the job puts it in too, left out where
 * it does not, with its sign turned, or of an earlier setting. Private to the model.
 */
#ifndef SB_MODEL_SLIP_LINK_H
#define SB_MODEL_SLIP_LINK_H

#include "model/frame.h"

/* A kind of slip. How usual each is, and so the order of the kinds, is common practice, no source. */
struct slip_kind {
	const char *words; /* "two digits swapped" */
	int rank;	   /* 0 the commonest */
	double usual;	   /* in how many readings of all it is made */
};

#define SB_SLIP_LINKS 16

/* What turns the typed azimuth into the one that was meant, if that slip was made. */
struct slip_link {
	const struct slip_kind *kind;
	double add_deg;
};

/* How many such slips the job's settings allow for a reading, put into out: those that turn by nothing are
 * left out. A reading by gyro or coil has one link, the convergence. */
size_t sb_slip_links(const struct job *job, const struct reading *trial, struct slip_link out[SB_SLIP_LINKS]);

#endif

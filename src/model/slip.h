/* What was likely meant: slips of the pen undone on the text that was typed. Private to the model. */
#ifndef SB_MODEL_SLIP_H
#define SB_MODEL_SLIP_H

#include "geom/arc.h"
#include "model/frame.h"
#include "model/slip_link.h"

/* The turns of a course that nobody would wonder at, radians: what the last courses, the design and a hand
 * that steers back to it turn. `up` is inclination; `aside` is azimuth as an angle across the hole. */
struct ordinary {
	double up_low, up_high, aside_low, aside_high;
};

struct slip_case {
	const struct job *job;
	const struct frame *frame;
	const struct reading *trial;
	struct attitude last; /* where the course starts */
	struct ordinary ordinary;
};

/* A turn, and by how much it is more than ordinary. */
struct slip_turn {
	double dogleg_rad;
	double up_rad, aside_rad; /* beyond the ordinary, >= 0 */
	double beyond_rad;	  /* both together */
};
struct slip_turn sb_slip_turn(const struct slip_case *c, double inclination, double azimuth);

/* A slip undone: what was typed if it was made. */
struct slip {
	const struct slip_kind *kind;
	const char *field;	     /* "inclination" or "azimuth" */
	struct number value;	     /* what was likely meant there */
	double inclination, azimuth; /* the reading with it in place, as typed */
	double chance; /* of typing what was typed, had that been meant: kind and choice of digits */
};

/* Which kinds are tried. */
enum slip_reach {
	SLIP_SURE,   /* those that seldom look like an honest turn */
	SLIP_LIKELY, /* and those that a turn through level, or any small one, may look like */
	SLIP_ANY,    /* and one digit wrong, left out or too many: something always fits */
};

/* Calls for every slip that could have led to what was typed. */
void sb_slip_each(const struct slip_case *c, enum slip_reach reach,
	void (*visit)(void *context, const struct slip *slip), void *context);

/* The attitude that angles would mean, typed as the trial's were; a held azimuth is that of the course's
 * start. */
struct attitude sb_slip_attitude(const struct slip_case *c, double inclination, double azimuth);

extern const struct slip_kind sb_slip_exchanged;

/* The slip after which least is out of the ordinary, the commoner kind where that is alike.
 * Returned: out, turn   unchanged, and false, when undoing slips makes nothing that could be typed. */
bool sb_slip_find(const struct slip_case *c, enum slip_reach reach, struct slip *out, struct slip_turn *turn);

#endif

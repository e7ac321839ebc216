/* Between the files of the handover: the next joints, and the page. */
#ifndef SB_SRC_IO_HANDOVER_PARTS_H
#define SB_SRC_IO_HANDOVER_PARTS_H

#include "io/document.h"
#include "model/period.h"

/* What there is to say, in full and briefly. */
#define HANDOVER_ITEMS 32
struct handover_items {
	char text[HANDOVER_ITEMS][400], brief[HANDOVER_ITEMS][100];
	size_t kept, count; /* count: with those that found no room here */
};
void handover_edits(const struct job *job, const struct span *when, struct handover_items *items);
void handover_notes(const struct job *job, const struct span *when, struct handover_items *items);
void handover_open(const struct solution *s, struct handover_items *items);

/* The next joints as columns of figures: where each shall head at its end. From the plan where there is one,
 * else where the design heads at the sensor. joints "": none is left before the exit. */
#define NEXT_JOINTS 5
struct next_joints {
	bool planned;
	size_t count;
	struct {
		int joint;
		double inclination, azimuth; /* as typed and read */
	} list[NEXT_JOINTS];
	char joints[80], inclinations[80], azimuths[80];
};
void next_take(const struct job *job, const struct solution *s, struct next_joints *out);

/* The page as it is written. */
struct handover_page {
	const struct job *job;
	const struct solution *s;
	struct timeline timeline;
	int64_t now_ms;
	struct span when;
	const struct act *begin; /* of the shift; NULL: no shift was ever begun, so it is the whole log */
	bool runs;
	struct period shift;
	double minutes; /* of it; negative: not known */
	const char *unit;
	struct sb_str *out; /* of a page of text */
	struct document *d; /* of pages to be printed; NULL: text */
	size_t most;	    /* items of a kind in the document */
	size_t lines, more; /* more: beside FIXED_LINES and those that share what is left */
	bool after;	    /* the pilot is done with: its nine points give way */
};

/* The label in its columns, or as the key of a pair, then the words; "" goes on with what came before. */
void handover_put(struct handover_page *p, const char *label, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* The points by their numbers; those that share the rest of a page of text are in handover.c. */
void handover_bit(struct handover_page *p);	 /* 1 */
void handover_courses(struct handover_page *p);	 /* where slides put it beside arcs */
void handover_worst(struct handover_page *p);	 /* 2 */
void handover_progress(struct handover_page *p); /* 3 */
void handover_returns(struct handover_page *p);	 /* 4 */
void handover_fix(struct handover_page *p);	 /* 5 */
void handover_lost(struct handover_page *p);	 /* 8 */
void handover_next(struct handover_page *p);	 /* 9 */

/* What the shift after the pilot wants to know, in their place. */
bool handover_is_after(const struct job *job);
void handover_after(struct handover_page *p);

#endif

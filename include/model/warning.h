/* Warnings: opened once per episode, kept, acknowledged with a name and a reason.
 *
 * An episode begins at a joint where a limit is neared or broken, lasts while it stays so, and ends. Its
 * worst value is what it says. It is known by kind, leg and the joint where it began.
 */
#ifndef SB_MODEL_WARNING_H
#define SB_MODEL_WARNING_H

#include "model/path.h"

enum level { LEVEL_OK, LEVEL_WATCH, LEVEL_BREACH };
const char *sb_level_word(enum level l); /* "ok", "watch", "breach" */

enum warning_kind {
	WARNING_CORRIDOR,
	WARNING_EXIT, /* exit window */
	WARNING_JOINT_BEND,
	WARNING_WINDOW_BEND,
	WARNING_LEAVES,		 /* leaves the corridor in N joints if the heading is held */
	WARNING_BLUNDER,	 /* a likely slip that was logged as it is */
	WARNING_MISSING,	 /* missing survey */
	WARNING_AZIMUTH,	 /* azimuth reference: two ways to it disagree */
	WARNING_RESPONSE,	 /* the ground does not answer as ordered */
	WARNING_FIX,		 /* an independent fix does not agree */
	WARNING_NO_FIX,		 /* no independent fix for N joints */
	WARNING_FIELD,		 /* gravity, field or dip is not what it must be here */
	WARNING_CLEARANCE,	 /* less room beside an obstacle than the sheet asks for */
	WARNING_CLEARANCE_AHEAD, /* and where the bore goes if the heading is held */
	WARNING_COVER,		 /* less ground over the hole than the sheet asks for */
	WARNING_COVER_AHEAD,
	WARNING_OPENING,     /* the passes do not keep the rules */
	WARNING_ANNULAR,     /* annular pressure against what the ground bears */
	WARNING_RETURNS,     /* the drilling fluid does not all come back */
	WARNING_RELEASE,     /* drilling fluid came to the surface */
	WARNING_PIPE_SHARE,  /* what the product pipe may bear in this hole, before it is pulled in */
	WARNING_PIPE_STRING, /* the pull began with something missing */
	WARNING_PULL_FORCE,  /* the pull force beyond its limit, or outside the estimate's band */
	WARNING_COATING,     /* how the product pipe's coating came out of the hole */
	WARNING_KINDS
};

/* One row a kind: how it is called, how it lasts. */
struct warning_sort {
	const char *name;  /* in files and JSON: "corridor", "window-bend" */
	const char *label; /* for people: "corridor", "bend over the window" */
	int passing;	   /* 1: only the present counts (it says what would happen), not the whole path */
	int least; /* 1: the value must not fall below its limit (a radius), so that a smaller one is worse */
	const char *help;
	/* of an entry beside or after the pilot (model/event.h), not of a joint of it: kept when joints are
	 * pulled back, and said nothing of while there is none */
	enum { EVENT_NONE, EVENT_EPISODE, EVENT_ALONE } event;
	int joints; /* of such a kind: 1: joints of the pilot bring it too, as they are logged */
};
extern const struct warning_sort sb_warning_sorts[WARNING_KINDS];
int sb_warning_kind_parse(const char *name, enum warning_kind *kind);

/* How many decimals to say a length off line with, job unit: centimetres, tenths of a foot; finer where a
 * value and its limit would read the same. */
int sb_warning_decimals(const struct setup *s, double value, double limit);

/* What one joint says of one kind. */
struct verdict {
	enum level level;
	double value, limit; /* as in struct warning */
	char text[256];
};

struct warning {
	enum warning_kind kind;
	enum level level;	     /* the worst it was */
	int leg, joint;		     /* where it began */
	int worst_joint, last_joint; /* where it was worst; the last joint that it holds for */
	double station_m;	     /* at worst_joint */
	double value, limit; /* at the worst; in the job's unit, or degrees, see text; of WARNING_FIELD times
			      * the gate of what is furthest off, limit 1 */
	int64_t act;	     /* of the kinds of entries: that made it say what it says; 0 of joints. What was
			      * acknowledged or accepted before it was another thing */
	bool open;	     /* holds at the present end of the path */
	bool superseded;     /* on a leg that was withdrawn */
	bool acknowledged;
	char acknowledged_by[SB_WHO_TEXT];
	char text[256]; /* value, limit, joint, what to do next: one or two sentences */
};

/* Whether it says something of the hole as it is: not withdrawn, and not of what would have come and no
 * longer does. */
bool sb_warning_counts(const struct warning *w);

/* How far a value is past its limit: the larger the worse. */
double sb_warning_past(enum warning_kind kind, double value, double limit);

/* The row at which it was worst: an episode that began in one leg may go on in the next, and what is left of
 * it in the ground is an episode of its own. NULL if there is none: entries after the pilot need none. */
const struct row *sb_warning_row(const struct path *p, const struct warning *w);

/* Judges the row itself: corridor, bends, missing survey, blunder logged as it is. The other kinds look ahead
 * and are judged by sb_advice_judge (model/advice.h). Given: r, the reading behind the row, NULL at the
 * entry. */
void sb_warning_judge(const struct setup *setup, const struct row *row, const struct reading *r,
	struct verdict verdicts[WARNING_KINDS]);

#endif

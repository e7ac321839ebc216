/* How a figure came about: its formula, its inputs with where each came from, the steps between, and where
 * the method comes from.
 *
 * Nothing is told of a number that was kept: each figure is worked out again from the readings and the sheet
 * as they stand there, step by step, by the bare engine (geom/), and held against the figure that the program
 * shows. Where there is a second way to it, that is worked out too. When two ways do not agree, it says so.
 */
#ifndef SB_IO_EXPLAIN_H
#define SB_IO_EXPLAIN_H

#include "model/solve.h"

#include "base/str.h"

enum explain_kind {
	EXPLAIN_FORMULA, /* in plain text */
	EXPLAIN_INPUT,	 /* what somebody read, typed or drew, and where that stands */
	EXPLAIN_STEP,	 /* worked out from the lines above it */
	EXPLAIN_RESULT,	 /* the figure, or a part of it: under the name that files give it */
	EXPLAIN_CHECK,	 /* the same by a second way */
	EXPLAIN_LIMIT,	 /* what it is held against, and the verdict */
	EXPLAIN_NOTE,
	EXPLAIN_SOURCE, /* of the method */
	EXPLAIN_ALARM,	/* two ways to one figure do not agree */
	EXPLAIN_KINDS
};

/* One line. Texts are owned; "" where there is none. */
struct explain_line {
	enum explain_kind kind;
	char *symbol; /* as in the formula; of a result: its name in files */
	char *value;  /* with its unit */
	char *words;
	double number; /* the value; NAN: none, HUGE_VAL: a radius where it is straight */
};

/* What a figure is of. */
enum explain_of {
	EXPLAIN_OF_ROW,	   /* a joint */
	EXPLAIN_OF_PLACE,  /* a joint that was read, past the entry; or the entry */
	EXPLAIN_OF_COURSE, /* a joint that was read, past the entry: the course that ends there */
	EXPLAIN_OF_END,	   /* the bore as it was when a joint was its last */
	EXPLAIN_OF_JOB,	   /* the job, as it stands */
	EXPLAIN_OF_FIX,	   /* an independent fix */
};

/* "of a joint", "after a joint" ... by enum explain_of */
extern const char *const sb_explain_of_words[];

struct explaining; /* explain_parts.h */

struct explain_figure {
	const char *name;  /* as typed: "radius-window" */
	const char *title; /* "radius over the contract's window" */
	enum explain_of of;
	void (*explain)(struct explaining *x);
};
extern const struct explain_figure sb_explain_figures[];
extern const size_t sb_explain_figure_count;

/* NULL with err (SB_USAGE) that says which is meant. */
const struct explain_figure *sb_explain_figure(const char *name, struct sb_err *err);

struct explanation {
	const struct explain_figure *figure;
	char *about; /* "joint 36, leg 1" */
	struct explain_line *lines;
	size_t count, room;
	bool differs; /* an alarm stands in it */
};

struct explain_ask {
	const struct explain_figure *figure;
	int joint; /* SB_EXPLAIN_LAST: the last one that it can be told of */
	int leg;   /* 0: the present one */
	int fix;   /* number of a fix; 0: the newest */
};
#define SB_EXPLAIN_LAST (-1)

/* Given:    job, s   the job and its solution
 * Returned: out      (cleared first; sb_explanation_clear when done). -1 with err when there is no such joint
 * or leg, or no such figure there: which, and where there is one. */
int sb_explain(const struct job *job, const struct solution *s, const struct explain_ask *ask,
	struct explanation *out, struct sb_err *err);
void sb_explanation_clear(struct explanation *e);

/* The figure that a warning's value is, and the joint at which it was worst; NULL figure: it measures
 * nothing. */
struct explain_ask sb_explain_warning(const struct solution *s, const struct warning *w);

/* ---- in text ---- */

/* Laid in lines of at most so many columns (60 or more), each handed on with what it is a line of. */
typedef void sb_explain_take(void *data, enum explain_kind kind, const char *line);
void sb_explain_lay(const struct explanation *e, int columns, sb_explain_take *take, void *data);

/* 80 columns, with a head. */
void sb_explain_text(const struct explanation *e, struct sb_str *out);
/* {"figure", "title", "about", "differs", "lines": [{"kind", "symbol", "value", "text", "words"}]} */
void sb_explain_json(const struct explanation *e, struct sb_str *out);

/* All figures by name, with what each is of. */
void sb_explain_list_text(struct sb_str *out);
void sb_explain_list_json(struct sb_str *out);

#endif

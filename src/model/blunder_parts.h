/* Between the files that look for slips: what is found, and who looks for what. */
#ifndef SB_SRC_MODEL_BLUNDER_PARTS_H
#define SB_SRC_MODEL_BLUNDER_PARTS_H

#include "model/blunder.h"
#include "slip_likely.h"

struct findings {
	struct suspicion *out;
	size_t count;
	enum unit unit;
};

/* A suspicion more; past the last there is room for, the last one is written over. */
struct suspicion *blunder_add(struct findings *f, bool held, const char *field, const char *slip);
void blunder_capital(char *text);

/* By what the string can do, and by what is ordinary in this bore (blunder_turn.c); impossible: only the
 * first. Returned: whether something was found. */
bool blunder_look_at_turn(struct findings *f, const struct setup *setup, const struct solution *s,
	const struct reading *trial, double course_m, bool impossible);

/* By what was expected (blunder_expected.c). */
struct weighed {
	bool known;    /* something was expected; else nothing of the rest holds */
	bool held;     /* noise and ground hardly ever do that, and a slip explains it */
	bool remarked; /* worth a word */
	const struct reading *trial;
	struct expected expected;
	struct surprise surprise;
	struct likely_slip likely;
};
struct weighed blunder_weigh(const struct setup *setup, const struct solution *s, const struct reading *trial,
	double survey_m, double joint_m);
void blunder_say_weighed(
	struct findings *f, const struct setup *setup, const struct solution *s, const struct weighed *w);

/* Lengths, depths and slides (blunder_joint.c). */
void blunder_look_at_joint(struct findings *f, const struct job *job, const struct solution *s,
	const struct reading *trial, const struct depth_check *depths, double bit_m);

#endif

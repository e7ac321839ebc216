/* The product pipe's string, laid out behind the exit: its joints in order, the welds between them, and what
 * of the records that the contract asks for is missing before it can be pulled in.
 *
 * Polyethylene is fused, not welded; a fusion is a weld here. The last word on a thing holds: what was bad is
 * bad until a good record follows, and an inspection of a weld that was found bad later says nothing of the
 * one that took its place.
 */
#ifndef SB_MODEL_PIPE_STRING_H
#define SB_MODEL_PIPE_STRING_H

#include "model/job.h"

#define SB_LACKS 12
#define SB_LACK_TEXT 200

/* What is missing, each as a sentence without its full stop: "welds 3, 7 and 9 have no inspection". What does
 * not fit is counted in the last one. */
struct lacks {
	char text[SB_LACKS][SB_LACK_TEXT];
	size_t count;
};
void sb_lacks_add(struct lacks *l, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* All in one text, "; " between; what does not fit is counted: "; and 3 more". */
void sb_lacks_say(const struct lacks *l, char *text, size_t size);

/* Numbers from smallest to largest as people say them: "3, 7 and 9", "3 to 7 and 12", "1, 3, 5, 7, 9, 11 and
 * 14 more". */
#define SB_NUMBERS_TEXT 120
void sb_numbers_say(const int *numbers, size_t count, char text[SB_NUMBERS_TEXT]);

/* Records are the last word on each; NULL: there is none. The weld is the one behind the joint, to the next
 * one: the last joint has none. */
struct string_joint {
	const struct pipe *pipe;
	const struct pipe_record *weld, *inspection, *coating;
	double from_m, to_m; /* behind the pull head */
};

struct pipe_string {
	struct string_joint *list; /* by number; borrows from the job */
	size_t count;
	double length_m;
	double bore_m, extra_m, needed_m; /* needed: both together. NAN: nothing was drilled yet */
	bool bore_whole;		  /* false: the pilot is not accepted, and may still grow */
	const struct pipe_record *test, *drag;
	struct lacks lacks;
};

/* Returned: out (cleared first; sb_pipe_string_clear when done). The bore is as long as the joints that are
 * in the ground. */
void sb_pipe_string_look(const struct job *job, struct pipe_string *out);
void sb_pipe_string_clear(struct pipe_string *s);

/* How long the hole is, by the joints that are in the ground; NAN: none is. */
double sb_pipe_string_bore_m(const struct job *job);
/* How much pipe is to be pulled out past the entry: as the contract says, else a hundredth of the bore, 5 ft
 * (1.524 m) at least. NAN where neither is known. */
double sb_pipe_string_extra_m(const struct job *job, double bore_m);

/* Whether the weld lies between two joints that are laid out. */
bool sb_pipe_string_weld_at(const struct pipe_string *s, size_t i);

/* May it be entered? -1 with err: a joint that is in the string already, or would leave a gap; a record of
 * what is not there; a pressure of what is no test. */
int sb_pipe_string_check_pipe(
	const struct job *job, const struct pipe *p, const char *why, struct sb_err *err);
int sb_pipe_string_check_record(const struct job *job, const struct pipe_record *r, struct sb_err *err);

/* What an entry is, for its act's line and for who entered it: "joint 4, 40.15 ft, H 7731", "weld 3 good,
 * X-12", "the pressure test good, 1500 psi, 8 hours, T-4". */
#define SB_STRING_WHAT 240
void sb_pipe_string_what_pipe(const struct job *job, const struct pipe *p, char text[SB_STRING_WHAT]);
void sb_pipe_string_what_record(
	const struct job *job, const struct pipe_record *r, char text[SB_STRING_WHAT]);

#endif

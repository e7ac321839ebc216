/* The path through slides beside the path by arcs, in words: how far apart the two are, and which is the
 * record.
 */
#ifndef SB_IO_COURSES_H
#define SB_IO_COURSES_H

#include "base/str.h"
#include "model/solve.h"

#define SB_COURSES_TEXT 96

/* Where slides put a place beside where arcs put it: "0.4 ft right, 0.1 ft low"; "nowhere else", and false,
 * when it rounds to nothing. */
bool sb_courses_words(const struct job *job, const struct frame *f, const struct path_shift *shift,
	char text[SB_COURSES_TEXT]);

/* How far apart the two are at the bit, which is the record, and how many courses are arcs in both; "" while
 * no slides were written down and arcs are the record. Returns whether there is anything to say. */
bool sb_courses_say(const struct job *job, const struct solution *s, struct sb_str *out);

/* The method that is the record, for what is handed over. */
const char *sb_courses_method(const struct job *job);

#endif

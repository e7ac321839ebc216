/* A page of a command, whole, to be scrolled on the screen: what a screen of big answers leaves out, and what
 * its estimate rests on.
 */
#ifndef UI_WHOLE_H
#define UI_WHOLE_H

#include "base/str.h"
#include "ui/screen.h"

/* The argument that the screen is opened with. It outlives the screen. */
struct whole {
	/* 80 columns. Written when the screen opens and when the job changes, not at every key. */
	void (*write)(const struct job *job, const struct solution *s, struct sb_str *out);
};

extern const struct screen sb_screen_whole;

#endif

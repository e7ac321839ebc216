/* The screens of what the readings refer to: the chain with what others say of it, and the form that changes
 * its settings or the tool's. */
#ifndef UI_AZIMUTH_H
#define UI_AZIMUTH_H

#include "ui/screen.h"

extern const struct screen sb_screen_azimuth, sb_screen_change;

/* What sb_screen_change is opened with: which settings it shows. Outlives the screen. */
struct change_ask {
	const char *title;
	const char *section;
	const char *const *keys; /* ended by NULL */
};
extern const struct change_ask sb_change_azimuth, sb_change_tool;

/* The named choice between the ways to the azimuth. declination: what the model finds, offered; NAN: nothing.
 */
enum follow sb_azimuth_settle(struct view *v, double declination);

/* The first joint that a change holds for, as typed: -1 with err when it is no joint. */
int sb_change_from(const struct job *job, const char *typed, int *joint, struct sb_err *err);

#endif

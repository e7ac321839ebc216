/* Help: the keys of the screen that it is for, from the tables that do the work. */
#ifndef SB_UI_HELP_H
#define SB_UI_HELP_H

#include "base/str.h"
#include "ui/screen.h"

/* The argument of the help screen. */
struct help_topic {
	const struct screen *screen;
	const struct action *everywhere;
};

extern const struct screen sb_screen_help;

/* All screens' keys as mdoc(7), for the man page. screens ends in NULL. */
void sb_help_mdoc(const struct screen *const *screens, const struct action *everywhere, struct sb_str *out);

#endif

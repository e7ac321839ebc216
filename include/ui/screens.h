/* Every screen there is, the one that a job opens with first: for the program, the man page, and the tests
 * that go through all of them. */
#ifndef SB_UI_SCREENS_H
#define SB_UI_SCREENS_H

#include "ui/screen.h"

extern const struct screen *const sb_screens[]; /* ends in NULL */

#endif

/* Every screen there is, for the man page and for the tests that go through all of them. */
#ifndef SB_UI_SCREENS_H
#define SB_UI_SCREENS_H

#include "ui/screen.h"

extern const struct screen *const sb_screens[]; /* ends in NULL */

#endif

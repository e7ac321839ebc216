/* The screens of the independent fixes: the list with the proposal, and the form that a new one is entered
 * by. */
#ifndef UI_FIXES_H
#define UI_FIXES_H

#include "ui/screen.h"

extern const struct screen sb_screen_fixes, sb_screen_fix;

#endif

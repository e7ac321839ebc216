/* The hole after the pilot: what was entered, and the screens of each stage. */
#ifndef SB_UI_AFTER_H
#define SB_UI_AFTER_H

#include "ui/screen.h"

extern const struct screen sb_screen_after, sb_screen_string, sb_screen_pull;

#endif

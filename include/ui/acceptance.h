/* The screens of the pilot's end: what is asked before it is accepted, and the breaches. */
#ifndef SB_UI_ACCEPTANCE_H
#define SB_UI_ACCEPTANCE_H

#include "ui/screen.h"

extern const struct screen sb_screen_acceptance, sb_screen_nonconformances;

#endif

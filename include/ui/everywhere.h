/* The keys that every screen has: help, leaving, colours, characters, painting anew, making way for a shell.
 */
#ifndef SB_UI_EVERYWHERE_H
#define SB_UI_EVERYWHERE_H

#include "ui/action.h"

extern const struct action sb_everywhere[];

#endif

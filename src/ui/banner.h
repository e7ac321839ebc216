/* The line at the head of every screen: which job, where the bore stands, who is on, and the time. */
#ifndef UI_BANNER_H
#define UI_BANNER_H

#include "ui/screen.h"

/* title: of the screen, NULL for none. */
void sb_banner_draw(const struct view *v, const char *title, struct cells *row);

#endif

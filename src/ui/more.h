/* The fields of an entry line that have no room on it, in a form over it. The form is the line's own: it lies
 * below and outlives this screen.
 */
#ifndef UI_MORE_H
#define UI_MORE_H

#include "ui/form.h"
#include "ui/screen.h"

/* The whole state of such a screen; its open says which form. */
struct more {
	struct form *form;
};

int more_rows(const struct view *v, int columns);
void more_draw(const struct view *v, const char *title, struct cells *out);
/* changed: what follows for the line below this screen when something was typed. */
enum follow more_key(
	struct view *v, int key, form_check check, const void *context, void (*changed)(struct view *v));

#endif

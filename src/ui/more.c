/* One row for the title, one for each field. */
#include "more.h"

#include "ui/app.h"
#include "ui/entry.h"

static struct form *form_of(const struct view *v)
{
	return ((const struct more *)v->state)->form;
}

int more_rows(const struct view *v, int columns)
{
	(void)columns;
	return 1 + (int)form_of(v)->count;
}

void more_draw(const struct view *v, const char *title, struct cells *out)
{
	struct cells part = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);

	sb_cells_rule(out, 0, title);
	sb_form_draw(form_of(v), &part);
}

enum follow more_key(
	struct view *v, int key, form_check check, const void *context, void (*changed)(struct view *v))
{
	return sb_entry_key(v, form_of(v), key, check, context, changed, sb_app_close);
}

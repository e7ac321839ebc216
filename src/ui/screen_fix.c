/* Entering an independent position: what gave it, where along the hole, and as many components as were
 * observed, each with its one sigma.
 */
#include "base/str.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/fixes.h"

struct entering {
	struct form form;
};

/* The fields, in the order of the form; of each the column of the fact. */
static const struct {
	const char *column, *label;
} fields[] = {
	{ "depth", "depth along the hole" },
	{ "easting", "easting" },
	{ "northing", "northing" },
	{ "station", "or station" },
	{ "offset", "and offset, right positive" },
	{ "elevation", "elevation" },
	{ "sigma_along", "one sigma along" },
	{ "sigma_across", "one sigma across" },
	{ "sigma_up", "one sigma in height" },
};

static int fix_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct entering *e = v->state;
	struct form_field kind = { .name = "kind",
		.label = "what gave it",
		.kind = ENTRY_CHOICE,
		.width = 12,
		.choices = "coil|beacon|walk-over|gyro|exit",
		.required = true };

	(void)argument;
	(void)err;
	sb_form_add(&e->form, kind, "coil");
	for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
		sb_form_add(&e->form,
			(struct form_field){ .name = fields[i].column,
				.label = fields[i].label,
				.unit = sb_unit_short(v->job->unit),
				.kind = ENTRY_NUMBER,
				.width = 14,
				.required = i == 0 },
			"");
	sb_entry_words(&e->form, "remarks", "remarks", 44, false);
	sb_entry_who(&e->form, v);
	sb_form_focus(&e->form, 1);
	return 0;
}

static void fix_draw(const struct view *v, struct cells *out)
{
	const struct entering *e = v->state;

	sb_cells_rule(out, 0, "a new fix");
	sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_DIM,
		"Tab goes from field to field, Enter puts the fix on disk. Leave blank what was not observed; each component needs its one sigma, as who measured it gives it.");
	struct cells part = sb_cells_part(out, 4, 0, out->rows - 4, out->columns);
	sb_form_draw(&e->form, &part);
}

static enum follow put_on_disk(struct view *v)
{
	struct entering *e = v->state;
	struct view *below = sb_app_below(v);
	struct fix f = { 0 };
	struct sb_err err = { 0 };

	if (sb_entry_take(&e->form, sb_fact_sort(ACT_FIX), &f, &err))
		return sb_app_fail(v, &err);
	if (sb_store_fix(
		    v->store, sb_form_text(&e->form, "who"), &f, sb_form_text(&e->form, "remarks"), &err))
		return sb_app_fail(v, &err);
	sb_app_close_top(v->app);
	sb_app_say(below, LEVEL_OK, "The fix is on disk. It stands beside the path, and does not move it.");
	return FOLLOW_JOB_CHANGED;
}

static enum follow fix_key(struct view *v, int key)
{
	struct entering *e = v->state;

	return sb_entry_key(v, &e->form, key, sb_entry_check, sb_fact_sort(ACT_FIX), NULL, put_on_disk);
}

static const struct action fix_actions[] = {
	{ .name = "put-fix", .keys = "Enter", .label = "put on disk", .help = "Put the fix on disk." },
	{ .name = "no-fix",
		.keys = "Esc Ctrl-C",
		.label = "leave",
		.help = "Go back; no fix is entered.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_fix = {
	.name = "fix",
	.title = "a new fix",
	.about =
		"A position that does not come from the readings: a surface coil, a beacon, a walk-over, a gyro, or the exit by "
		"land survey. By easting and northing, or by station and offset; with an elevation or without.",
	.state_size = sizeof(struct entering),
	.open = fix_open,
	.draw = fix_draw,
	.key = fix_key,
	.letters = true,
	.actions = fix_actions,
	.widgets = { sb_form_keys },
};

/* What lies around the bore: each obstacle and the cover in a line, of what is drilled, of the held heading
 * and of the plan; the chosen one in full.
 */
#include "base/mem.h"
#include "base/str.h"
#include "io/passings.h"
#include "ui/app.h"
#include "ui/list.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct around {
	struct list list;
	struct plan plan; /* made when the job changes */
};

static void make_plan(struct view *v)
{
	struct around *a = v->state;
	struct setup setup = sb_solution_setup(v->job, v->solution);

	sb_steering_make(&setup, &v->solution->path, &v->solution->response, &a->plan);
}

static int clearance_open(struct view *v, const void *argument, struct sb_err *err)
{
	(void)argument;
	(void)err;
	make_plan(v);
	return 0;
}

/* ---- a line ---- */

/* What is drawn, once a frame. */
struct drawing {
	const struct view *v;
	struct passings *list;
	struct covers covers;
	size_t count; /* of obstacles; the cover is the line after them */
};

/* Columns of a line, at 80. */
enum {
	LEVEL_AT = 2,
	NAME_AT = 13,
	REQUIRED_AT = 34,
	DRILLED_AT = 43,
	HELD_AT = 55,
	PLANNED_AT = 67,
	FIGURE = 7,
};

/* so_far: the hole is not past it yet. */
static void draw_figure(const struct drawing *d, struct cells *out, int column, bool known, bool so_far,
	double metres, int joint)
{
	char text[16];

	if (!known) {
		sb_cells_right(out, 0, column, FIGURE, STYLE_DIM, "-");
		return;
	}
	sb_cells_number(out, 0, column, FIGURE, so_far ? STYLE_DIM : STYLE_STRONG,
		sb_frame_typed(&d->v->solution->frame, metres), d->v->job->unit == UNIT_M ? 2 : 1);
	snprintf(text, sizeof text, "%d", joint);
	sb_cells_right(out, 0, column + FIGURE, 4, STYLE_DIM, text);
}

static void draw_required(const struct drawing *d, struct cells *out, double metres)
{
	if (isnan(metres))
		sb_cells_right(out, 0, REQUIRED_AT, FIGURE, STYLE_DIM, "none");
	else
		sb_cells_number(out, 0, REQUIRED_AT, FIGURE, STYLE_PLAIN,
			sb_frame_typed(&d->v->solution->frame, metres), d->v->job->unit == UNIT_M ? 2 : 1);
}

static void draw_level(struct cells *out, enum level level, bool judged)
{
	char text[16];

	snprintf(text, sizeof text, "%-2s %s", judged ? sb_theme_mark(level) : "",
		judged ? sb_level_word(level) : "");
	sb_cells_fit(out, 0, LEVEL_AT, 10, sb_theme_level(level), text);
}

static void draw_obstacle(const struct drawing *d, const struct passings *p, struct cells *out)
{
	const struct passing *ways[] = { &p->drilled, &p->held, &p->planned };
	static const int columns[] = { DRILLED_AT, HELD_AT, PLANNED_AT };
	double required = (double)NAN;

	draw_level(out, p->level, p->obstacle->limited);
	sb_cells_fit(out, 0, NAME_AT, REQUIRED_AT - NAME_AT, STYLE_STRONG, p->obstacle->name);
	for (size_t i = 0; i < 3; i++) {
		if (ways[i]->known)
			required = fmax(required, ways[i]->required_m);
		draw_figure(d, out, columns[i], ways[i]->known && !ways[i]->leaves, ways[i]->at_end,
			ways[i]->wall_m, ways[i]->joint);
	}
	draw_required(d, out, required);
}

/* Each way may be least where another cover is asked for: the one shown is that of the way with least to
 * spare. */
static void draw_cover(const struct drawing *d, struct cells *out)
{
	const struct cover *ways[] = { &d->covers.drilled, &d->covers.held, &d->covers.planned };
	static const int columns[] = { DRILLED_AT, HELD_AT, PLANNED_AT };
	const struct cover *least = NULL;

	draw_level(out, d->covers.level, d->v->solution->around.range_count > 0);
	sb_cells_fit(out, 0, NAME_AT, REQUIRED_AT - NAME_AT, STYLE_STRONG, "cover");
	for (size_t i = 0; i < 3; i++) {
		const struct cover *c = ways[i];
		if (c->known &&
			(least == NULL || c->cover_m - c->required_m < least->cover_m - least->required_m))
			least = c;
		draw_figure(d, out, columns[i], c->known, false, c->cover_m, c->joint);
	}
	draw_required(d, out, least ? least->required_m : (double)NAN);
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct drawing *d = context;

	if (i < d->count)
		draw_obstacle(d, &d->list[i], out);
	else
		draw_cover(d, out);
}

static void draw_heads(const struct drawing *d, struct cells *out, int row)
{
	char unit[24];

	snprintf(unit, sizeof unit, "all in %s", sb_unit_short(d->v->job->unit));
	sb_cells_text(out, row, NAME_AT, STYLE_DIM, unit);
	sb_cells_right(out, row, REQUIRED_AT - 1, FIGURE + 1, STYLE_DIM, "required");
	sb_cells_right(out, row, DRILLED_AT, FIGURE, STYLE_DIM, "drilled");
	sb_cells_right(out, row, HELD_AT, FIGURE, STYLE_DIM, "held");
	sb_cells_right(out, row, PLANNED_AT, FIGURE, STYLE_DIM, "planned");
	for (int column = DRILLED_AT; column <= PLANNED_AT; column += HELD_AT - DRILLED_AT)
		sb_cells_right(out, row, column + FIGURE, 4, STYLE_DIM, "jt");
}

/* ---- the screen ---- */

static void draw_chosen(const struct drawing *d, size_t chosen, struct cells *out)
{
	struct sb_str words = { 0 };
	int row = 1;

	sb_cells_rule(out, 0, chosen < d->count ? d->list[chosen].obstacle->name : "cover");
	if (chosen < d->count)
		sb_passings_obstacle(d->v->job, d->v->solution, &d->list[chosen], &words);
	else
		sb_passings_cover(d->v->job, d->v->solution, &d->covers, &words);
	char *rest = words.text;
	for (char *one; rest && (one = strsep(&rest, "\n")) != NULL && *one;)
		row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_PLAIN, one);
	sb_str_clear(&words);
	sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_DIM,
		"Obstacles and ground lie where the sheet has them. The final hole is taken as centred on the pilot; "
		"reaming can ride up or down.");
}

static size_t lines(const struct view *v)
{
	return v->solution->around.count + 1;
}

static void clearance_draw(const struct view *v, struct cells *out)
{
	struct around *a = v->state;
	struct drawing d = { .v = v };
	int below = out->rows / 2 > 11 ? 11 : out->rows / 2;
	char title[96];

	d.count = sb_passings_list(v->job, v->solution, &a->plan, &d.list, &d.covers);
	snprintf(title, sizeof title, "wall to wall of %s", sb_hole_word(&v->solution->around.hole));
	sb_cells_rule(out, 0, title);
	draw_heads(&d, out, 1);
	sb_list_fit(&a->list, lines(v));
	struct cells part = sb_cells_part(out, 2, 0, out->rows - 2 - below, out->columns);
	sb_list_draw(&a->list, lines(v), draw_line, &d, &part);
	part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
	draw_chosen(&d, a->list.chosen, &part);
	sb_free(d.list);
}

static enum follow clearance_key(struct view *v, int key)
{
	struct around *a = v->state;

	return sb_list_key(&a->list, key, lines(v)) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

static const struct action clearance_actions[] = {
	{ .name = "back-to-log",
		.keys = "L Enter Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_clearance = {
	.name = "clearance",
	.title = "clearance and cover",
	.about =
		"How the bore passes each obstacle of the sheet, wall to wall, and the ground over it: where it comes nearest in what is "
		"drilled, on the held heading, and by the steering plan, each with its joint. A dash: it goes away from there.",
	.state_size = sizeof(struct around),
	.open = clearance_open,
	.draw = clearance_draw,
	.key = clearance_key,
	.changed = make_plan,
	.actions = clearance_actions,
	.widgets = { sb_list_keys },
};

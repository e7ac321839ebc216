/* Three strips along the stations: how high and how far right or left of the design line the bore is, within
 * the corridor, and how tight it bends, against the contract's limits. Corridors of a few feet beside a bore
 * of a thousand show here, and nowhere else on a sheet.
 */
#include "draw/bends.h"
#include "draw/plan.h"
#include "draw/profile.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drawing_parts.h"

#define TICK_MM 3.0	 /* between two levels */
#define LINE_MM 2.3	 /* between two lines of lettering */
#define BENDS_ABOVE 1.15 /* of the tightest that is shown */
#define BENDS_MOST 1.6	 /* times the tightest limit: what is tighter than that is cut */

static const unsigned beside_left_out = DRAWING_BIT(HELD) | DRAWING_BIT(PLAN) | DRAWING_BIT(OBSTACLE) |
	DRAWING_BIT(ENTRY) | DRAWING_BIT(EXIT) | DRAWING_BIT(LABEL) | DRAWING_BIT(GROUND);

struct strip {
	struct drawing *d;
	const struct drawing_sheet *sheet;
	const struct paper *box;
	struct scene scene;
	struct axis axis;
	struct drawing_labels *labels;
};

static void begin(
	struct strip *strip, struct drawing *d, const struct drawing_sheet *sheet, const struct paper *box)
{
	struct paper clip = drawing_inside(d, sheet, box);

	*strip = (struct strip){
		.d = d, .sheet = sheet, .box = box, .labels = drawing_labels_new(d->paper, &clip)
	};
	sb_scene_init(&strip->scene);
}

static void put_title(struct strip *strip, const char *title, const char *words)
{
	struct lettering as = { FACE_BOLD, DRAWING_SMALL, HOLD_LEFT, 0, SB_INK_BLACK };
	struct spot at = { strip->box->left, strip->box->top - 1 };

	sb_paper_text(strip->d->paper, &as, at, title);
	at.x += sb_paper_width(strip->d->paper, &as, title) + 2.5;
	as.face = FACE_PLAIN;
	sb_paper_text(strip->d->paper, &as, at, words);
}

static void put_level(struct strip *strip, double y, const char *words)
{
	const struct pen thin = { 0.1, { 0.55, 0.55, 0.55 }, { 0 } };
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_RIGHT, 0, SB_INK_BLACK };
	const struct paper *box = strip->box;

	sb_paper_stroke(strip->d->paper, &thin, box->left, y, box->left + box->width, y);
	sb_paper_text(strip->d->paper, &as, (struct spot){ box->left - 1.2, y + DRAWING_SMALL / 2 }, words);
}

static void finish(struct strip *strip, const char *title, const char *words, unsigned left_out)
{
	struct paper clip = drawing_inside(strip->d, strip->sheet, strip->box);

	sb_paper_clip(strip->d->paper, &clip);
	drawing_stations(strip->d, strip->sheet, strip->box);
	drawing_scene(strip->d->paper, &strip->scene, &strip->axis, left_out, strip->labels);
	drawing_labels_draw(strip->labels);
	sb_paper_unclip(strip->d->paper);
	put_title(strip, title, words);
	drawing_frame(strip->d, strip->box);
	sb_scene_clear(&strip->scene);
}

/* The corridor's picture: its levels, and the name of what is drawn. */
static void beside(struct strip *strip, double exaggeration, const char *title, const char *what)
{
	struct tick ticks[SB_AXIS_TICKS];
	char words[120];

	drawing_set_axis(strip->d, strip->sheet, &strip->scene, strip->box, exaggeration, &strip->axis);
	size_t count = sb_axis_ticks_up(&strip->axis, TICK_MM, ticks);
	for (size_t i = 0; i < count; i++)
		if (ticks[i].paper > strip->box->top + 1 &&
			ticks[i].paper < strip->box->top + strip->box->height - 1)
			put_level(strip, ticks[i].paper, ticks[i].text);
	snprintf(words, sizeof words, "%s, %s", what, sb_unit_short(strip->d->job->unit));
	if (exaggeration > 1)
		snprintf(words, sizeof words, "%s, %s, drawn %.10g times as large", what,
			sb_unit_short(strip->d->job->unit), exaggeration);
	finish(strip, title, words, beside_left_out);
}

void drawing_heights(struct drawing *d, const struct drawing_sheet *sheet)
{
	struct strip strip;

	begin(&strip, d, sheet, &d->heights);
	sb_profile_heights(d->job, d->s, &sheet->window, NULL, &strip.scene);
	beside(&strip, d->heights_exaggeration, "HEIGHT", "against the design line");
}

void drawing_offsets(struct drawing *d, const struct drawing_sheet *sheet)
{
	struct strip strip;

	begin(&strip, d, sheet, &d->offsets);
	sb_plan_along(d->job, d->s, &sheet->window, NULL, &strip.scene);
	beside(&strip, d->offsets_exaggeration, "OFFSET", "from the design line, seen from above");
}

/* ---- bends ---- */

/* The curvature that the strip reaches to, alike on all sheets. */
static double tightest(const struct drawing *d)
{
	const struct path *path = &d->s->path;
	double limit = 0, most = 0;
	const struct number *limits[] = { &d->job->joint_minimum, &d->job->window_minimum };

	for (int i = 0; i < 2; i++)
		if (limits[i]->value > 0)
			limit = fmax(limit, 1 / sb_frame_metres(&d->s->frame, limits[i]->value));
	for (size_t i = 1; i < path->on_count; i++)
		most = fmax(most, 1 / path->rows[path->on_path[i]].radius_m);
	if (limit > 0)
		most = fmin(fmax(most, limit), BENDS_MOST * limit);
	return most > 0 ? most * BENDS_ABOVE : 1e-3;
}

/* The contract's radii, and straight, where they do not stand on one another. */
static void put_radii(struct strip *strip)
{
	const struct job *job = strip->d->job;
	const struct number *radii[] = { &job->joint_minimum, &job->window_minimum };
	double taken = sb_axis_y(&strip->axis, 0);

	put_level(strip, taken - 1, "straight");
	for (int i = 1; i >= 0; i--) {
		if (!(radii[i]->value > 0))
			continue;
		double y = sb_axis_y(&strip->axis, 1 / sb_frame_metres(&strip->d->s->frame, radii[i]->value));
		if (fabs(y - taken) > LINE_MM)
			put_level(strip, y, radii[i]->text);
		taken = y;
	}
}

void drawing_bends(struct drawing *d, const struct drawing_sheet *sheet)
{
	double most = tightest(d), stretch = d->bends.height / most / d->scale;
	const char *unit = sb_unit_short(d->job->unit);
	char words[160], window[48] = "";
	struct strip strip;

	begin(&strip, d, sheet, &d->bends);
	sb_bends_scene(d->job, d->s, &sheet->window, &strip.scene);
	strip.scene.view.low.y = 0;
	strip.scene.view.high.y = most;
	drawing_set_axis(d, sheet, &strip.scene, &d->bends, stretch, &strip.axis);
	put_radii(&strip);
	if (d->job->window_joints.value > 0)
		snprintf(window, sizeof window, "heavy: over %s joints", d->job->window_joints.text);
	else if (d->job->window_length.value > 0)
		snprintf(window, sizeof window, "heavy: over %s %s", d->job->window_length.text, unit);
	snprintf(words, sizeof words, "%s, the tighter the higher; thin: of each joint%s%s", unit,
		*window ? "; " : "", window);
	finish(&strip, "RADIUS", words, 0);
}

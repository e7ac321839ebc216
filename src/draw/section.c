/* Each point of the trail stands where it is beside the design at its own station: seen along the line, as
 * if the design were a straight tube that one looks through.
 */
#include "draw/section.h"

#include "draw/axis.h"
#include "geom/chain.h"

#include <math.h>
#include <stdio.h>

#define TRAIL 12      /* joints */
#define HELD_JOINTS 3 /* ahead */
#define LEAST_M 0.5   /* seen on each side of the design, when the contract sets no limit */
#define ABOUT 1.15    /* room around what must be seen */

/* A side without a limit reaches as far as the view must. */
static double or_far(double limit_m, double far_m)
{
	return isfinite(limit_m) ? limit_m : far_m;
}

static void side(struct scene *out, double limit_m, struct spot a, struct spot b)
{
	if (!isfinite(limit_m))
		return;
	sb_scene_line(out, MEANING_CORRIDOR, LINE_SOLID);
	sb_scene_point(out, a.x, a.y);
	sb_scene_point(out, b.x, b.y);
}

static void draw_box(const struct corridor_limits *l, double far_m, struct scene *out)
{
	double left = -or_far(l->left_m, far_m), right = or_far(l->right_m, far_m);
	double low = -or_far(l->down_m, far_m), high = or_far(l->up_m, far_m);

	side(out, l->up_m, (struct spot){ left, high }, (struct spot){ right, high });
	side(out, l->down_m, (struct spot){ left, low }, (struct spot){ right, low });
	side(out, l->left_m, (struct spot){ left, low }, (struct spot){ left, high });
	side(out, l->right_m, (struct spot){ right, low }, (struct spot){ right, high });
}

static void dimension(
	const struct job *job, double limit_m, const char *word, struct spot at, struct scene *out)
{
	char text[SB_AXIS_TEXT];

	if (!isfinite(limit_m))
		return;
	snprintf(text, sizeof text, " %.4g%s", limit_m / sb_unit_metres(job->unit), word);
	sb_scene_text(out, MEANING_TICK, ANCHOR_UPON, at, text);
}

/* The contract's figures, each in its side of the box. */
static void draw_dimensions(const struct job *job, const struct corridor_limits *l, struct scene *out)
{
	char high[16], low[16];

	snprintf(high, sizeof high, " %s high ", sb_unit_short(job->unit));
	snprintf(low, sizeof low, " %s low ", sb_unit_short(job->unit));
	dimension(job, l->up_m, high, (struct spot){ 0, l->up_m }, out);
	dimension(job, l->down_m, low, (struct spot){ 0, -l->down_m }, out);
	dimension(job, l->left_m, " L", (struct spot){ -l->left_m, 0 }, out);
	dimension(job, l->right_m, " R", (struct spot){ l->right_m, 0 }, out);
	out->bare = isfinite(l->up_m) && isfinite(l->down_m) && isfinite(l->left_m) && isfinite(l->right_m);
}

static void draw_trail(const struct solution *s, struct scene *out)
{
	const struct path *path = &s->path;
	size_t first = path->on_count > TRAIL ? path->on_count - TRAIL : 0;

	sb_scene_line(out, MEANING_DRILLED, LINE_SOLID);
	for (size_t i = first; i < path->on_count; i++) {
		const struct row *row = &path->rows[path->on_path[i]];
		sb_scene_point(out, row->deviation.offset_m, row->deviation.height_m);
	}
	if (s->bit.known)
		sb_scene_point(out, s->bit.deviation.offset_m, s->bit.deviation.height_m);
}

/* The fixes along the trail, each beside the design at its own station. */
static void draw_fixes(const struct solution *s, struct scene *out)
{
	const struct path *path = &s->path;
	const struct design *d = &s->design;
	size_t first = path->on_count > TRAIL ? path->on_count - TRAIL : 0;

	for (size_t i = 0; i < s->fixes.count; i++) {
		const struct fix_view *v = &s->fixes.list[i];
		double offset;
		if (v->standing != FIX_STANDS || v->md_m < path->rows[path->on_path[first]].survey_md_m)
			continue;
		double station = sb_design_station(d, v->fixed, v->station_m, &offset);
		double design = sb_chain_height(d->profile, d->profile_count, station).y;
		sb_scene_mark(out, MEANING_FIX, (struct spot){ offset, v->fixed.u - design });
	}
}

static void draw_held(const struct job *job, const struct solution *s, struct scene *out)
{
	double joint = sb_frame_metres(&s->frame, job->joint_length.value);
	double station = s->bit.deviation.station_m;

	if (!(joint > 0))
		return;
	sb_scene_line(out, MEANING_HELD, LINE_DASHED);
	sb_scene_point(out, s->bit.deviation.offset_m, s->bit.deviation.height_m);
	for (int i = 1; i <= HELD_JOINTS; i++) {
		struct vec3 at = sb_vec3_add(s->bit.at, sb_vec3_scale(s->bit.attitude.heading, joint * i));
		double offset = 0;
		station = sb_design_station(&s->design, at, station, &offset);
		double design = sb_chain_height(s->design.profile, s->design.profile_count, station).y;
		sb_scene_point(out, offset, at.u - design);
	}
}

/* Where the bit may be, at the contract's confidence. */
static void draw_doubt(const struct solution *s, const struct bit *bit, struct scene *out)
{
	const struct doubt *d = &bit->doubt;
	struct spread spread = { d->across_m * d->across_m, d->up_m * d->up_m,
		d->correlation * d->across_m * d->up_m };
	struct spread_ellipse e = sb_spread_ellipse(&spread, s->uncertainty.plane_factor);

	sb_scene_ellipse(out, MEANING_DOUBT, LINE_DOTTED,
		(struct spot){ bit->deviation.offset_m, bit->deviation.height_m },
		(struct spot){ e.major_x, e.major_y }, (struct spot){ e.minor_x, e.minor_y });
}

/* The ellipse is seen whole as long as the corridor still takes half of the picture; a larger one reaches
 * past the sides. */
static void see_doubt(const struct solution *s, const struct bit *bit, struct scene *out)
{
	const struct box base = out->view;
	double factor = s->uncertainty.plane_factor;
	double wide = (base.high.x - base.low.x) / 2, tall = (base.high.y - base.low.y) / 2;
	double x = factor * bit->doubt.across_m, y = factor * bit->doubt.up_m;
	const struct spot at = { bit->deviation.offset_m, bit->deviation.height_m };

	sb_scene_see(out, fmax(at.x - x, base.low.x - wide), fmax(at.y - y, base.low.y - tall));
	sb_scene_see(out, fmin(at.x + x, base.high.x + wide), fmin(at.y + y, base.high.y + tall));
}

static struct spot of_bit(const struct bit *bit)
{
	return (struct spot){ bit->deviation.offset_m, bit->deviation.height_m };
}

static void see(
	const struct corridor_limits *l, const struct spot *bit, const struct spot *trial, struct scene *out)
{
	sb_scene_see(out, -or_far(l->left_m, LEAST_M) * ABOUT, -or_far(l->down_m, LEAST_M) * ABOUT);
	sb_scene_see(out, or_far(l->right_m, LEAST_M) * ABOUT, or_far(l->up_m, LEAST_M) * ABOUT);
	if (bit)
		sb_scene_see(out, bit->x * ABOUT, bit->y * ABOUT);
	if (trial)
		sb_scene_see(out, trial->x * ABOUT, trial->y * ABOUT);
}

void sb_section_scene(
	const struct job *job, const struct solution *s, const struct preview *trial, struct scene *out)
{
	double station = s->bit.known ? s->bit.deviation.station_m : 0;
	struct corridor_limits l = sb_corridor_at(&s->corridor, station);
	struct spot bit = of_bit(&s->bit), tried = trial ? of_bit(&trial->bit) : bit;
	bool trying = trial && trial->bit.known;

	sb_scene_reset(out);
	out->across = QUANTITY_RIGHT;
	out->up = QUANTITY_HEIGHT;
	out->unit = job->unit;
	out->exaggerated = 1;
	see(&l, s->bit.known ? &bit : NULL, trying ? &tried : NULL, out);
	if (s->bit.known) {
		draw_doubt(s, &s->bit, out);
		see_doubt(s, &s->bit, out);
	}
	double far = fmax(out->view.high.x - out->view.low.x, out->view.high.y - out->view.low.y);
	draw_box(&l, isfinite(far) ? far : LEAST_M, out);
	draw_dimensions(job, &l, out);
	sb_scene_mark(out, MEANING_DESIGN, (struct spot){ 0, 0 });
	if (s->bit.known && s->design.alignment_count > 0 && s->design.profile_count > 0)
		draw_held(job, s, out);
	draw_trail(s, out);
	draw_fixes(s, out);
	if (s->bit.known)
		sb_scene_mark(out, MEANING_BIT, bit);
	if (trying)
		sb_scene_mark(out, MEANING_TRIAL, tried);
}

void sb_section_plan(const struct plan *plan, struct scene *out)
{
	const size_t most = 8;

	if (plan->count == 0)
		return;
	sb_scene_line(out, MEANING_PLAN, LINE_DASHED);
	for (size_t i = 0; i < plan->count && i < most; i++) {
		const struct deviation *d = &plan->joints[i].deviation;
		sb_scene_point(out, d->offset_m, d->height_m);
	}
}

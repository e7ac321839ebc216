/* How the bore comes to paper: the scale and the sheets along it, then the heights of the pictures.
 *
 * The scale is the largest with which the fewest sheets are needed while the joints still stand far enough
 * apart for their figures under the profile. Sheets meet at round stations. The plan takes what its width
 * needs at that scale, the profile the rest, exaggerated as far as the whole bore allows.
 */
#include "draw/plan.h"
#include "draw/profile.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>

#include "drawing_parts.h"

#define MARGIN 10.0	/* of the border; ISO 5457 */
#define BINDING 20.0	/* on the left: likewise */
#define GUTTER 19.0	/* left of the pictures, for their scales */
#define RIGHT 9.0	/* right of them */
#define TITLE 6.0	/* above plan and profile */
#define STRIP_TITLE 4.0 /* above a strip */
#define STATIONS_HIGH 3.8
#define BLOCK_HIGH 40.0
#define STRIP_SHARE (15.0 / 277) /* of the height within the border, each of three */
#define PLAN_LEAST 38.0
#define PLAN_BESIDE 30.0 /* beside a curved line, on both sides together */
#define JOINT_LEAST 6.5	 /* between two joints, where the bore is not too long for it */
#define SHEETS_MOST 60	 /* longer bores are drawn smaller */
#define PROFILE_MOST 20.0
#define STRIP_MOST 500.0
#define INCH 25.4

/* ISO 5457, and the American sizes that plan sets come in. */
static const struct drawing_size sizes[] = {
	{ "A3", 420, 297 },
	{ "A2", 594, 420 },
	{ "A1", 841, 594 },
	{ "11x17", 17 * INCH, 11 * INCH },
	{ "22x34", 34 * INCH, 22 * INCH },
};
#define SIZES (sizeof sizes / sizeof *sizes)

/* 1:n, from the largest to the smallest: ISO 5455 with the steps of maps between; and so many feet to the
 * inch, as an engineer's rule has them. */
static const double metric[] = { 100, 200, 250, 300, 400, 500, 750, 1000, 1250, 2000, 2500, 5000, 10000,
	20000, 50000, 100000, 200000, 500000, 1000000 };
static const double feet[] = { 10, 20, 30, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 600, 800, 1000, 2000,
	3000, 5000, 10000, 20000, 50000 };

const struct drawing_size *drawing_size(const char *name, enum unit unit)
{
	if (name == NULL)
		name = unit == UNIT_M ? "A3" : "11x17";
	for (size_t i = 0; i < SIZES; i++)
		if (sb_same_word(sizes[i].name, name))
			return &sizes[i];
	return NULL;
}

void drawing_size_refuse(const char *name, struct sb_err *err)
{
	struct sb_str names = { 0 };

	for (size_t i = 0; i < SIZES; i++)
		sb_str_add(&names, "%s%s", i ? ", " : "", sizes[i].name);
	sb_fail(err, SB_USAGE, "'%.40s' is not a size of paper. There is: %s.", name, sb_str_get(&names));
	sb_str_clear(&names);
}

double drawing_round_down(double value)
{
	double ten = pow(10, floor(log10(value) + 1e-12));
	double rest = value / ten + 1e-9;

	return rest >= 5 ? 5 * ten : rest >= 2 ? 2 * ten : ten;
}

double drawing_shown(double value, int decimals)
{
	return fabs(value) < 0.5 * pow(10, -decimals) ? 0 : value;
}

static double finite_or(double value, double otherwise)
{
	return fabs(value) < 1e9 ? value : otherwise;
}

/* The stations that must be on the sheets: the design, and the bore wherever it went. */
static void find_ends(struct drawing *d)
{
	const struct path *path = &d->s->path;

	d->from_m = 0;
	d->to_m = fmax(finite_or(d->s->design.length_m, 1), 1);
	for (size_t i = 0; i < path->on_count; i++) {
		double station = finite_or(path->rows[path->on_path[i]].deviation.station_m, 0);
		d->from_m = fmin(d->from_m, station);
		d->to_m = fmax(d->to_m, station);
	}
	if (d->s->bit.known)
		d->to_m = fmax(d->to_m, finite_or(d->s->bit.deviation.station_m, 0));
}

/* Stations on a sheet at 1:n, rounded down so that sheets meet at round ones, and how many sheets. */
static double stations_each(const struct drawing *d, double denominator, size_t *sheets)
{
	double metre = sb_unit_metres(d->job->unit), length = d->to_m - d->from_m;
	double holds = (d->plan.width - 2 * DRAWING_PAD) * denominator / 1000, count = ceil(length / holds);
	double step = drawing_round_down(holds / metre / 8) * metre;
	double each = ceil(length / count / step) * step;

	if (each > holds)
		each = floor(holds / step) * step;
	if (count <= 1)
		each = length;
	*sheets = (size_t)fmax(1, ceil(length / each - 1e-9));
	return each;
}

static double nth_denominator(const struct drawing *d, size_t i)
{
	if (d->job->unit == UNIT_M)
		return i < sizeof metric / sizeof *metric ? metric[i] : 0;
	return i < sizeof feet / sizeof *feet ? feet[i] * 12 : 0;
}

/* A long bore takes many sheets at any scale that can be read: then the largest below SHEETS_MOST. */
static void choose_scale(struct drawing *d)
{
	double joint_m = sb_frame_metres(&d->s->frame, d->job->joint_length.value);
	size_t best = 0, sheets;

	for (size_t i = 0; nth_denominator(d, i) > 0; i++) {
		double n = nth_denominator(d, i);
		double each = stations_each(d, n, &sheets);
		bool readable = joint_m * 1000 / n >= JOINT_LEAST;
		bool first = best == 0;
		if (!first && (!readable || sheets >= best) && best <= SHEETS_MOST)
			continue;
		best = sheets;
		d->sheets = sheets;
		d->each_m = each;
		d->denominator = n;
		d->scale = 1000 / n;
	}
}

struct drawing_sheet drawing_sheet_at(const struct drawing *d, size_t number)
{
	struct drawing_sheet sheet = { .number = number, .first = number == 1, .last = number == d->sheets };

	sheet.from_m = d->from_m + (double)(number - 1) * d->each_m;
	sheet.to_m = fmin(sheet.from_m + d->each_m, d->to_m);
	double from = sheet.from_m, to = sheet.to_m;
	if (sheet.first)
		from -= DRAWING_PAD / d->scale;
	if (sheet.last)
		to += DRAWING_PAD / d->scale;
	sheet.window = (struct draw_window){
		.from_m = from, .to_m = to, .dot_m = 0.1 / d->scale, .close = true, .detailed = true
	};
	return sheet;
}

double drawing_x(const struct drawing *d, const struct drawing_sheet *sheet, double station_m)
{
	return d->profile.left + DRAWING_PAD + (station_m - sheet->from_m) * d->scale;
}

static void cut_out(struct drawing *d)
{
	d->inner = (struct paper){ BINDING, MARGIN, d->size.width_mm - BINDING - MARGIN,
		d->size.height_mm - 2 * MARGIN };
	d->plan = (struct paper){ d->inner.left + GUTTER, d->inner.top + TITLE,
		d->inner.width - GUTTER - RIGHT, PLAN_LEAST };
	d->profile = d->band = d->heights = d->offsets = d->bends = d->plan;
	d->block = d->inner;
}

/* How far the plan reaches to both sides, mm, on the sheet where it reaches farthest. */
static double plan_needs(const struct drawing *d)
{
	double most = 0;

	for (size_t i = 1; i <= d->sheets; i++) {
		struct drawing_sheet sheet = drawing_sheet_at(d, i);
		struct design_place a = sb_design_at(&d->s->design, sheet.from_m),
				    b = sb_design_at(&d->s->design, sheet.to_m);
		double bearing = atan2(b.at.e - a.at.e, b.at.n - a.at.n), low = 0, high = 0;
		for (int k = 1; k < 20; k++) {
			struct vec3 at = sb_design_at(
				&d->s->design, sheet.from_m + (sheet.to_m - sheet.from_m) * k / 20)
						 .at;
			double off = (at.e - a.at.e) * cos(bearing) - (at.n - a.at.n) * sin(bearing);
			low = fmin(low, off);
			high = fmax(high, off);
		}
		most = fmax(most, (high - low) * d->scale);
	}
	return fmax(PLAN_LEAST, most + PLAN_BESIDE);
}

/* From the top: plan, profile, its figures, three strips, the block. */
static void stack(struct drawing *d)
{
	double strip = d->inner.height * STRIP_SHARE, y = d->plan.top;
	double taken =
		2 * TITLE + STATIONS_HIGH + drawing_band_high() + 3 * (STRIP_TITLE + strip) + BLOCK_HIGH + 2;
	double pictures = d->inner.height - taken;
	struct paper *strips[] = { &d->heights, &d->offsets, &d->bends };

	d->plan.height = fmin(plan_needs(d), pictures * 0.6);
	d->profile.top = (y += d->plan.height + TITLE);
	d->profile.height = pictures - d->plan.height;
	d->band.top = (y += d->profile.height + STATIONS_HIGH);
	d->band.height = drawing_band_high();
	y += d->band.height;
	for (int i = 0; i < 3; i++) {
		strips[i]->top = (y += STRIP_TITLE);
		strips[i]->height = strip;
		y += strip;
	}
	d->block.top = d->inner.top + d->inner.height - BLOCK_HIGH;
	d->block.height = BLOCK_HIGH;
}

/* The tallest view of any sheet, by which the whole drawing is exaggerated alike. */
static double tallest(const struct drawing *d,
	void (*make)(const struct job *, const struct solution *, const struct draw_window *,
		const struct preview *, struct scene *),
	bool ground)
{
	struct scene scene;
	double most = 0.1;

	sb_scene_init(&scene);
	for (size_t i = 1; i <= d->sheets; i++) {
		struct drawing_sheet sheet = drawing_sheet_at(d, i);
		sheet.window.close = !ground;
		sheet.window.detailed = false;
		make(d->job, d->s, &sheet.window, NULL, &scene);
		if (sb_scene_seen(&scene))
			most = fmax(most, scene.view.high.y - scene.view.low.y);
	}
	sb_scene_clear(&scene);
	return most;
}

/* The largest scale upwards, of the same list, with which the tallest view fits; not below true proportions:
 * what is too tall for them is cut by its frame. */
static double exaggeration(const struct drawing *d, double tall_m, double room_mm)
{
	for (size_t i = 0; nth_denominator(d, i) > 0 && nth_denominator(d, i) < d->denominator; i++) {
		double n = nth_denominator(d, i);
		if (tall_m * 1000 / n <= room_mm && d->denominator / n <= PROFILE_MOST)
			return d->denominator / n;
	}
	return 1;
}

/* A strip has no scale of its own to be measured by a rule: any whole number does, to two digits. */
static double strip_exaggeration(const struct drawing *d, double tall_m, double room_mm)
{
	double fits = room_mm / (tall_m * d->scale), step = pow(10, fmax(0, floor(log10(fits)) - 1));

	return fmin(fmax(1, floor(fits / step) * step), STRIP_MOST);
}

void drawing_lay_out(struct drawing *d)
{
	cut_out(d);
	find_ends(d);
	choose_scale(d);
	stack(d);
	d->exaggeration = exaggeration(d, tallest(d, sb_profile_scene, true), d->profile.height - 3);
	d->heights_exaggeration =
		strip_exaggeration(d, tallest(d, sb_profile_heights, false), d->heights.height - 1);
	d->offsets_exaggeration =
		strip_exaggeration(d, tallest(d, sb_plan_along, false), d->offsets.height - 1);
}

void drawing_scale_words(const struct drawing *d, double denominator, char text[DRAWING_SCALE_TEXT])
{
	if (d->job->unit == UNIT_M)
		snprintf(text, DRAWING_SCALE_TEXT, "1:%.10g", denominator);
	else
		snprintf(
			text, DRAWING_SCALE_TEXT, "1 in = %.10g ft (1:%.10g)", denominator / 12, denominator);
}

/* Fitting a view to paper, and the ticks on its sides.
 *
 * The exaggeration is a round number, so that a hand can undo it in the head. Neighbours in the row 1 2 5 10
 * 20 50 100 are up to 2.5 apart: the next one is taken while the picture stays three quarters as wide as the
 * paper, and so it is never much less than half as high, unless the row or the scene's own bound ends.
 */
#include "draw/axis.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>

#define LEAST_ACROSS 0.75
#define HAIR 1e-9

static const double exaggerations[] = { 1, 2, 5, 10, 20, 50, 100 };

/* A value is no length: it takes all of the height. */
static void fit_value(
	const struct scene *scene, const struct paper *paper, const struct box *view, struct axis *out)
{
	double low = view->low.y, high = view->high.y;

	if (!isfinite(low) || !isfinite(high) || low > high)
		low = high = 0;
	if (high - low <= 0)
		high = low + 1;
	double scale = paper->width / (view->high.x - view->low.x) * (1 - HAIR);
	struct spot middle = { view->low.x + (view->high.x - view->low.x) / 2, low + (high - low) / 2 };
	sb_axis_scaled(scene, paper, scale, paper->height / (scale * (high - low)) * (1 - HAIR), middle, out);
}

/* One side of the view with an extent: at least a metre, and finite. */
static void widen(double *low, double *high)
{
	if (!(isfinite(*low) && isfinite(*high) && *low <= *high)) {
		*low = 0;
		*high = 1;
	} else if (*high - *low < 1) {
		double middle = *low + (*high - *low) / 2;
		*low = middle - 0.5;
		*high = middle + 0.5;
	}
}

void sb_axis_fit(const struct scene *scene, const struct paper *paper, struct axis *out)
{
	struct box view = scene->view;
	widen(&view.low.x, &view.high.x);
	if (scene->up == QUANTITY_VALUE) {
		fit_value(scene, paper, &view, out);
		return;
	}
	widen(&view.low.y, &view.high.y);
	double wide = view.high.x - view.low.x, tall = view.high.y - view.low.y;
	double scale = 1, exaggeration = 1;

	for (size_t i = 0; i < sizeof exaggerations / sizeof *exaggerations; i++) {
		double e = exaggerations[i];
		double try = fmin(paper->width / wide, paper->height / (tall * e));
		if (e > 1 && (e > scene->exaggerated || try * wide < LEAST_ACROSS * paper->width))
			break;
		scale = try;
		exaggeration = e;
	}
	/* A hair of room, or rounding decides whether a line along the very edge is in the picture; and half
	 * a hair aside, or rounding decides on which side of the middle a line along the middle is. */
	scale *= 1 - HAIR;
	double half_x = paper->width / scale / 2, half_y = paper->height / (scale * exaggeration) / 2;
	struct spot middle = { view.low.x + wide / 2 - half_x * HAIR / 2,
		view.low.y + tall / 2 + half_y * HAIR / 2 };
	sb_axis_scaled(scene, paper, scale, exaggeration, middle, out);
}

void sb_axis_scaled(const struct scene *scene, const struct paper *paper, double scale, double exaggeration,
	struct spot middle, struct axis *out)
{
	double half_x = paper->width / scale / 2, half_y = paper->height / (scale * exaggeration) / 2;

	*out = (struct axis){
		.paper = *paper,
		.view = { { middle.x - half_x, middle.y - half_y },
			{ middle.x + half_x, middle.y + half_y } },
		.scale = scale,
		.exaggeration = exaggeration,
		.across = scene->across,
		.up = scene->up,
		.unit = scene->unit,
	};
	sb_copy(out->value_unit, sizeof out->value_unit, scene->value_unit);
}

double sb_axis_x(const struct axis *a, double x)
{
	return a->paper.left + (x - a->view.low.x) * a->scale;
}

double sb_axis_y(const struct axis *a, double y)
{
	return a->paper.top + (a->view.high.y - y) * a->scale * a->exaggeration;
}

double sb_axis_x_metres(const struct axis *a, double paper_x)
{
	return a->view.low.x + (paper_x - a->paper.left) / a->scale;
}

double sb_axis_y_metres(const struct axis *a, double paper_y)
{
	return a->view.high.y - (paper_y - a->paper.top) / (a->scale * a->exaggeration);
}

void sb_axis_exaggeration(const struct axis *a, char text[SB_AXIS_TEXT])
{
	if (a->up == QUANTITY_VALUE)
		sb_copy(text, SB_AXIS_TEXT, a->value_unit);
	else if (a->exaggeration > 1)
		snprintf(text, SB_AXIS_TEXT, "x%.0f", a->exaggeration);
	else
		snprintf(text, SB_AXIS_TEXT, "true");
}

void sb_axis_station(double metres, enum unit unit, int decimals, char text[SB_AXIS_TEXT])
{
	decimals = decimals < 0 ? 0 : decimals > 6 ? 6 : decimals;
	double finest = pow(10, decimals);
	double units = round(fabs(metres) / sb_unit_metres(unit) * finest); /* so that 99.96 carries over */
	const char *sign = metres < 0 && units > 0 ? "-" : "";

	if (!(units < 1e15)) {
		snprintf(text, SB_AXIS_TEXT, "%s%.3g", sign, units / finest);
		return;
	}
	double hundreds = floor(units / (100 * finest));
	double rest = (units - hundreds * 100 * finest) / finest;
	int width = decimals > 0 ? decimals + 3 : 2;
	snprintf(text, SB_AXIS_TEXT, "%s%.0f+%0*.*f", sign, hundreds, width, decimals, rest);
}

/* The least round step that is not below `least`; its decimals beside it. */
static double round_step(double least, int *decimals)
{
	double power = floor(log10(least));
	double ten = pow(10, power);
	double step = least / ten <= 1.0000001 ? ten
		: least / ten <= 2	       ? 2 * ten
		: least / ten <= 5	       ? 5 * ten
					       : 10 * ten;
	power = floor(log10(step) + 1e-9);
	*decimals = power < 0 ? (int)-power : 0;
	return step;
}

/* A sign is never bare: a side is named by a word or a letter. */
static void write_value(
	const struct axis *a, enum quantity q, double units, int decimals, char text[SB_AXIS_TEXT])
{
	static const char *const words[][2] = {
		[QUANTITY_STATION] = { "", "" },
		[QUANTITY_ELEVATION] = { "", "" },
		[QUANTITY_RIGHT] = { " L", " R" },
		[QUANTITY_LEFT] = { " R", " L" },
		[QUANTITY_HEIGHT] = { " low", " high" },
		[QUANTITY_EAST] = { " W", " E" },
		[QUANTITY_NORTH] = { " S", " N" },
		[QUANTITY_BEND] = { "", "" },
		[QUANTITY_VALUE] = { "", "" },
	};

	if (q == QUANTITY_STATION)
		sb_axis_station(units * sb_unit_metres(a->unit), a->unit, decimals, text);
	else if (q == QUANTITY_ELEVATION || q == QUANTITY_VALUE)
		snprintf(text, SB_AXIS_TEXT, "%.*f", decimals, units);
	else if (units == 0)
		snprintf(text, SB_AXIS_TEXT, "0");
	else
		snprintf(text, SB_AXIS_TEXT, "%.*f%s", decimals, fabs(units), words[q][units > 0]);
}

/* What a number on a side is written in: the job's unit, or the value's own. */
static double metres_in(const struct axis *a, enum quantity q)
{
	return q == QUANTITY_VALUE ? 1 : sb_unit_metres(a->unit);
}

static size_t ticks(const struct axis *a, enum quantity q, double low, double high, double units_per_paper,
	double gap, struct tick out[SB_AXIS_TICKS])
{
	double metre = metres_in(a, q);
	int decimals;
	double least = fmax(gap * units_per_paper, (high - low) / metre / (SB_AXIS_TICKS - 2));

	if (q == QUANTITY_BEND || !(least > 1e-6 && least < 1e12))
		return 0;
	double step = round_step(least, &decimals);
	double first = ceil(low / metre / step - 1e-9), last = floor(high / metre / step + 1e-9);
	size_t count = 0;
	for (; count < SB_AXIS_TICKS && first + (double)count <= last; count++) {
		double units = (first + (double)count) * step;
		out[count].at = units * metre;
		write_value(a, q, units, decimals, out[count].text);
	}
	return count;
}

size_t sb_axis_ticks_across(const struct axis *a, double gap, struct tick out[SB_AXIS_TICKS])
{
	double per_paper = 1 / (a->scale * sb_unit_metres(a->unit));
	size_t count = ticks(a, a->across, a->view.low.x, a->view.high.x, per_paper, gap, out);

	for (size_t i = 0; i < count; i++)
		out[i].paper = sb_axis_x(a, out[i].at);
	return count;
}

size_t sb_axis_ticks_up(const struct axis *a, double gap, struct tick out[SB_AXIS_TICKS])
{
	double per_paper = 1 / (a->scale * a->exaggeration * metres_in(a, a->up));
	size_t count = ticks(a, a->up, a->view.low.y, a->view.high.y, per_paper, gap, out);

	for (size_t i = 0; i < count; i++)
		out[i].paper = sb_axis_y(a, out[i].at);
	return count;
}

/* Shares of normal spreads by erfc and one quadrature. */
#include "geom/spread.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stddef.h>

double sb_spread_line_factor(double confidence)
{
	double low = 0, high = 40;

	assert(confidence >= 0 && confidence < 1);
	/* The share outside falls all the way, and erfc keeps its digits far out. */
	for (int i = 0; i < 60; i++) {
		double middle = (low + high) / 2;
		if (erfc(middle / sqrt(2)) > 1 - confidence)
			low = middle;
		else
			high = middle;
	}
	return (low + high) / 2;
}

double sb_spread_plane_factor(double confidence)
{
	assert(confidence >= 0 && confidence < 1);
	return sqrt(-2 * log1p(-confidence));
}

double sb_spread_below(double z)
{
	return 0.5 * erfc(-z / sqrt(2));
}

struct spread_ellipse sb_spread_ellipse(const struct spread *s, double factor)
{
	double mean = (s->xx + s->yy) / 2, half = (s->xx - s->yy) / 2;
	double apart = hypot(half, s->xy), turn = atan2(s->xy, half) / 2;
	double major = factor * sqrt(mean + apart), minor = factor * sqrt(fmax(mean - apart, 0));

	return (struct spread_ellipse){ major * cos(turn), major * sin(turn), -minor * sin(turn),
		minor * cos(turn) };
}

/* ---- the box ---- */

/* Beyond it a normal spread has less than 1e-22 of itself. */
#define FAR 10.0

/* The share of a spread along a line that is outside low..high. */
static double outside_line(double mean, double sigma, double low, double high)
{
	if (sigma > 0)
		return sb_spread_below((low - mean) / sigma) + sb_spread_below((mean - high) / sigma);
	return mean < low || mean > high ? 1 : 0;
}

/* In sigmas of each axis from the mean. */
struct standard {
	double low_x, high_x, low_y, high_y, correlation, rest; /* rest: sigma of y where x is known */
};

/* How much is lost at one x. */
static double lost_at(const struct standard *b, double x)
{
	double y = b->correlation * x;
	double share = sb_spread_below((b->low_y - y) / b->rest) + sb_spread_below((y - b->high_y) / b->rest);

	return share * exp(-x * x / 2) / sqrt(2 * SB_PI);
}

/* Gauss and Legendre, 12 points: computed with 40 digits from the polynomial's roots. */
static double panel(const struct standard *b, double from, double to)
{
	static const double points[6][2] = {
		{ 0.98156063424671924356, 0.04717533638651182776 },
		{ 0.90411725637047490878, 0.10693932599531842664 },
		{ 0.76990267419430469253, 0.16007832854334622108 },
		{ 0.58731795428661748293, 0.20316742672306592477 },
		{ 0.36783149899818018413, 0.23349253653835480571 },
		{ 0.12523340851146891328, 0.24914704581340277323 },
	};
	double middle = (from + to) / 2, half = (to - from) / 2, sum = 0;

	for (int i = 0; i < 6; i++) {
		double off = half * points[i][0];
		sum += points[i][1] * (lost_at(b, middle - off) + lost_at(b, middle + off));
	}
	return half * sum;
}

/* The end of the panel that begins at x: where the inner share jumps from none to all, within a few `width`
 * about `jump`, panels are as narrow as the jump; elsewhere two sigmas. */
static double near_jump(double x, double end, double jump, double width)
{
	double distance = jump - x;

	if (distance > 8 * width)
		return fmin(end, jump - 8 * width);
	if (distance > -8 * width)
		return fmin(end, x + 2 * width);
	return end;
}

static double integrate(const struct standard *b)
{
	double x = fmax(b->low_x, -FAR), stop = fmin(b->high_x, FAR), sum = 0;
	double steep = fabs(b->correlation), width = b->rest / steep;

	while (x < stop) {
		double end = fmin(stop, x + 2);
		if (width < 1) {
			end = near_jump(x, end, b->low_y / b->correlation, width);
			end = near_jump(x, end, b->high_y / b->correlation, width);
		}
		end = fmax(end, x + fmin(width, 2)); /* on, whatever the rounding */
		sum += panel(b, x, fmin(end, stop));
		x = end;
	}
	return sum;
}

double sb_spread_outside(double x, double y, const struct spread *s, const struct spread_box *box)
{
	double sx = sqrt(fmax(s->xx, 0)), sy = sqrt(fmax(s->yy, 0));
	double out_x = outside_line(x, sx, box->low_x, box->high_x);
	double out_y = outside_line(y, sy, box->low_y, box->high_y);

	if (!(sx > 0 && sy > 0))
		return out_x + out_y - out_x * out_y;
	double correlation = fmin(fmax(s->xy / (sx * sy), -1), 1);
	struct standard b = {
		.low_x = (box->low_x - x) / sx,
		.high_x = (box->high_x - x) / sx,
		.low_y = (box->low_y - y) / sy,
		.high_y = (box->high_y - y) / sy,
		.correlation = correlation,
		/* As narrow as it may be and still be told from a jump. */
		.rest = sqrt(fmax((1 - correlation) * (1 + correlation), 1e-12)),
	};
	return fmin(out_x + integrate(&b), 1);
}

/* The response filter: a Kalman filter of how the hole heads and what the ground gives.
 *
 * The ground has two layers. What this bore gives on the whole (the soil's kind, the tool, its tool-face
 * error) does not change, but is hardly known at first; what a stretch of it gives differs from the whole and
 * returns to it, with a memory of some 25 m (a Gauss-Markov process). So the whole is learnt from every
 * joint, and a stretch that answers otherwise is followed without forgetting the rest.
 *
 * Every figure stands below with its reason; where no source is named it is common practice.
 */
#include "response_filter.h"

#include "geom/angle.h"

#include <math.h>
#include <string.h>

/* One sigma of the guess before there is data, as shares of the guessed yield: soil gives between half and
 * one and a half of what was hoped; a tool face is set to some twenty degrees; drift is a small part of a
 * slide's turn, and a guess of it off by about as much as droop itself is. */
static const double guess_sigma[GROUND] = { 0.4, 0.35, 0.06, 0.06 };
/* One sigma of a stretch beside the whole, as shares of the guessed yield. Strength of one layer scatters by
 * a tenth to three tenths from place to place (Phoon and Kulhawy 1999, "Characterization of geotechnical
 * variability", Can. Geotech. J. 36, from memory), less over a joint's length: a seventh. The tool face
 * belongs to the tool: three degrees. Drift: a third of what the guess may be off. */
static const double stretch_sigma[GROUND] = { 0.15, 0.05, 0.02, 0.02 };
/* Strength along a layer has a scale of fluctuation of about 50 m (same source); of a Gauss-Markov process
 * that is twice the distance over which it forgets. */
static const double stretch_m = 25;
/* What a course turns beside its response: a tenth of a degree over a joint of 9.6 m, growing with the root
 * of the length, and so much of what it slid. */
const double response_wander = 0.1 * (SB_PI / 180) / 3.098;
const double response_wander_of_slide = 0.15;

static double squared(double x)
{
	return x * x;
}

void response_filter_heading(struct response_case *c, double variance_up, double variance_right)
{
	c->state[HEADING_UP] = c->state[HEADING_RIGHT] = 0;
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < 2; k++)
			c->covariance[i][k] = c->covariance[k][i] = 0;
	c->covariance[HEADING_UP][HEADING_UP] = variance_up;
	c->covariance[HEADING_RIGHT][HEADING_RIGHT] = variance_right;
}

void response_filter_begin(
	struct response_case *c, double guess_yield, double variance_up, double variance_right)
{
	double(*p)[STATES] = c->covariance;

	for (int i = 0; i < GROUND; i++) {
		double whole = squared(guess_sigma[i] * guess_yield);
		c->state[MEAN + i] = c->state[ALONG + i];
		p[MEAN + i][MEAN + i] = p[MEAN + i][ALONG + i] = p[ALONG + i][MEAN + i] = whole;
		p[ALONG + i][ALONG + i] = whole + squared(c->scatter * stretch_sigma[i] * guess_yield);
	}
	response_filter_heading(c, variance_up, variance_right);
}

/* The ground further on is another: it returns towards the whole, and differs from it afresh. */
void response_filter_ahead(struct response_case *c, double guess_yield, double length_m)
{
	double(*p)[STATES] = c->covariance, keeps = exp(-length_m / stretch_m);

	for (int k = 0; k < GROUND; k++) {
		int here = ALONG + k, whole = MEAN + k;
		c->state[here] = keeps * c->state[here] + (1 - keeps) * c->state[whole];
		for (int i = 0; i < STATES; i++)
			p[here][i] = keeps * p[here][i] + (1 - keeps) * p[whole][i];
		for (int i = 0; i < STATES; i++)
			p[i][here] = keeps * p[i][here] + (1 - keeps) * p[i][whole];
		p[here][here] += squared(c->scatter * stretch_sigma[k] * guess_yield) * (1 - keeps * keeps);
	}
}

/* What moves with a course, one axis: heading += turn, place += length * heading + length / 2 * turn, where
 * turn = the row of G times the response. Applied to a state, or to the rows or columns of the covariance:
 * `step` apart. place is where the hole is beside the path of the readings, which takes the mean of two
 * readings for the heading between them. */
static void move_axis(double *v, size_t step, size_t axis, const double row[GROUND], double length_m)
{
	double *heading = &v[(HEADING_UP + axis) * step], *place = &v[(PLACE_UP + axis) * step];
	double turn = 0;

	for (size_t k = 0; k < GROUND; k++)
		turn += row[k] * v[(ALONG + k) * step];
	*place += length_m * (*heading + turn / 2);
	*heading += turn;
}

double response_filter_wander(const struct response_case *c, const struct drilled *d, double length_m)
{
	double yield = hypot(c->state[ALONG], c->state[ACROSS]);

	return squared(c->scatter) *
		(squared(response_wander) * length_m +
			squared(response_wander_of_slide * yield * hypot(d->slid_up, d->slid_right)));
}

double response_filter_unlike(const struct response_case *c, double guess_yield, const struct drilled *d)
{
	double slide = stretch_sigma[0] * d->slid_m, drift = stretch_sigma[DRIFT_UP - ALONG] * d->rotated_m;

	return squared(c->scatter * guess_yield) * (slide * slide + drift * drift);
}

static void add_wander(struct response_case *c, const struct drilled *d, double length_m)
{
	double(*p)[STATES] = c->covariance, wander = response_filter_wander(c, d, length_m);

	for (int axis = 0; axis < 2; axis++) {
		int h = HEADING_UP + axis, at = PLACE_UP + axis;
		p[h][h] += wander;
		p[h][at] += wander * length_m / 2;
		p[at][h] += wander * length_m / 2;
		p[at][at] += wander * length_m * length_m / 3;
	}
}

/* P = F P F' + Q */
void response_filter_predict(struct response_case *c, double guess_yield, const struct drilled *d,
	double length_m, const double got[2])
{
	const double turn[2][GROUND] = {
		{ d->slid_up, -d->slid_right, d->rotated_m, 0 },
		{ d->slid_right, d->slid_up, 0, d->rotated_m },
	};

	response_filter_ahead(c, guess_yield, length_m);
	for (size_t axis = 0; axis < 2; axis++) {
		move_axis(c->state, 1, axis, turn[axis], length_m);
		c->state[PLACE_UP + axis] -= length_m / 2 * got[axis];
		for (int i = 0; i < STATES; i++)
			move_axis(&c->covariance[0][i], STATES, axis, turn[axis], length_m);
	}
	for (size_t axis = 0; axis < 2; axis++)
		for (int i = 0; i < STATES; i++)
			move_axis(c->covariance[i], 1, axis, turn[axis], length_m);
	add_wander(c, d, length_m);
}

/* One axis at a time: the noises of inclination and azimuth are independent. */
double response_filter_update(struct response_case *c, int axis, double observed, double variance)
{
	double(*p)[STATES] = c->covariance, gain[STATES], s = p[axis][axis] + variance;
	double innovation = observed - c->state[axis];

	for (int i = 0; i < STATES; i++)
		gain[i] = p[i][axis] / s;
	for (int i = 0; i < STATES; i++)
		c->state[i] += gain[i] * innovation;
	double row[STATES];
	memcpy(row, p[axis], sizeof row);
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < STATES; k++)
			p[i][k] -= gain[i] * row[k];
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < i; k++)
			p[i][k] = p[k][i] = (p[i][k] + p[k][i]) / 2;
	return -(log(s) + innovation * innovation / s) / 2;
}

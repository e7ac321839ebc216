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
 * slide's turn. */
static const double guess_sigma[GROUND] = { 0.4, 0.35, 0.12, 0.12 };
/* One sigma of a stretch beside the whole, as shares of the guessed yield. Strength of one layer scatters by
 * a tenth to three tenths from place to place (Phoon and Kulhawy 1999, "Characterization of geotechnical
 * variability", Can. Geotech. J. 36, from memory), less over a joint's length: a seventh. The tool face
 * belongs to the tool: three degrees. Drift: a third of what the guess may be off. */
static const double stretch_sigma[GROUND] = { 0.15, 0.05, 0.04, 0.04 };
/* Strength along a layer has a scale of fluctuation of about 50 m (same source); of a Gauss-Markov process
 * that is twice the distance over which it forgets. */
static const double stretch_m = 25;
/* What a course turns beside its response: a tenth of a degree over a joint of 9.6 m, growing with the root
 * of the length, and so much of what it slid. */
const double response_wander = 0.1 * (SB_PI / 180) / 3.098;
static const double wander_of_slide = 0.15;

static double squared(double x)
{
	return x * x;
}

void response_filter_heading(struct response *r, double variance_up, double variance_right)
{
	r->state[HEADING_UP] = r->state[HEADING_RIGHT] = 0;
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < 2; k++)
			r->covariance[i][k] = r->covariance[k][i] = 0;
	r->covariance[HEADING_UP][HEADING_UP] = variance_up;
	r->covariance[HEADING_RIGHT][HEADING_RIGHT] = variance_right;
}

void response_filter_begin(struct response *r, double variance_up, double variance_right)
{
	double(*p)[STATES] = r->covariance;

	for (int i = 0; i < GROUND; i++) {
		double whole = squared(guess_sigma[i] * r->guess_yield);
		r->state[MEAN + i] = r->state[ALONG + i];
		p[MEAN + i][MEAN + i] = p[MEAN + i][ALONG + i] = p[ALONG + i][MEAN + i] = whole;
		p[ALONG + i][ALONG + i] = whole + squared(stretch_sigma[i] * r->guess_yield);
	}
	response_filter_heading(r, variance_up, variance_right);
}

/* The ground of the next course is another: it returns towards the whole, and differs from it afresh. */
static void change_ground(struct response *r, double length_m)
{
	double(*p)[STATES] = r->covariance, keeps = exp(-length_m / stretch_m);

	for (int k = 0; k < GROUND; k++) {
		int here = ALONG + k, whole = MEAN + k;
		r->state[here] = keeps * r->state[here] + (1 - keeps) * r->state[whole];
		for (int i = 0; i < STATES; i++)
			p[here][i] = keeps * p[here][i] + (1 - keeps) * p[whole][i];
		for (int i = 0; i < STATES; i++)
			p[i][here] = keeps * p[i][here] + (1 - keeps) * p[i][whole];
		p[here][here] += squared(stretch_sigma[k] * r->guess_yield) * (1 - keeps * keeps);
	}
}

/* The course's transition: heading and place move, the ground stays.
 *
 *     heading += G response            place += length * heading + length / 2 * (G response - what the
 * readings turned)
 *
 * place is where the hole is beside the path of the readings, which takes the mean of two readings for the
 * heading between them. */
static void transition(const struct drilled *d, double length_m, double f[STATES][STATES])
{
	const double turn[2][GROUND] = {
		{ d->slid_up, -d->slid_right, d->rotated_m, 0 },
		{ d->slid_right, d->slid_up, 0, d->rotated_m },
	};

	memset(f, 0, STATES * sizeof f[0]);
	for (int i = 0; i < STATES; i++)
		f[i][i] = 1;
	for (int axis = 0; axis < 2; axis++) {
		f[PLACE_UP + axis][HEADING_UP + axis] = length_m;
		for (int k = 0; k < GROUND; k++) {
			f[HEADING_UP + axis][ALONG + k] = turn[axis][k];
			f[PLACE_UP + axis][ALONG + k] = turn[axis][k] * length_m / 2;
		}
	}
}

static void add_wander(struct response *r, const struct drilled *d, double length_m)
{
	double(*p)[STATES] = r->covariance;
	double wander = squared(response_wander) * length_m +
		squared(wander_of_slide * r->yield * hypot(d->slid_up, d->slid_right));

	for (int axis = 0; axis < 2; axis++) {
		int h = HEADING_UP + axis, at = PLACE_UP + axis;
		p[h][h] += wander;
		p[h][at] += wander * length_m / 2;
		p[at][h] += wander * length_m / 2;
		p[at][at] += wander * length_m * length_m / 3;
	}
}

/* P = F P F' + Q */
void response_filter_predict(
	struct response *r, const struct drilled *d, double length_m, const double got[2])
{
	double f[STATES][STATES], fp[STATES][STATES] = { { 0 } }, moved[STATES] = { 0 };
	double(*p)[STATES] = r->covariance;

	change_ground(r, length_m);
	transition(d, length_m, f);
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < STATES; k++)
			moved[i] += f[i][k] * r->state[k];
	memcpy(r->state, moved, sizeof moved);
	for (int axis = 0; axis < 2; axis++)
		r->state[PLACE_UP + axis] -= length_m / 2 * got[axis];
	for (int i = 0; i < STATES; i++)
		for (int m = 0; m < STATES; m++)
			for (int k = 0; k < STATES && f[i][m] != 0; k++)
				fp[i][k] += f[i][m] * p[m][k];
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < STATES; k++) {
			p[i][k] = 0;
			for (int m = 0; m < STATES; m++)
				p[i][k] += fp[i][m] * f[k][m];
		}
	add_wander(r, d, length_m);
}

/* One axis at a time: the noises of inclination and azimuth are independent. */
void response_filter_update(struct response *r, int axis, double observed, double variance)
{
	double(*p)[STATES] = r->covariance, gain[STATES], s = p[axis][axis] + variance;
	double innovation = observed - r->state[axis];

	for (int i = 0; i < STATES; i++)
		gain[i] = p[i][axis] / s;
	for (int i = 0; i < STATES; i++)
		r->state[i] += gain[i] * innovation;
	double row[STATES];
	memcpy(row, p[axis], sizeof row);
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < STATES; k++)
			p[i][k] -= gain[i] * row[k];
	for (int i = 0; i < STATES; i++)
		for (int k = 0; k < i; k++)
			p[i][k] = p[k][i] = (p[i][k] + p[k][i]) / 2;
}

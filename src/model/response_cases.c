/* The cases: how noisy the readings are and how much the ground differs from stretch to stretch is not known
 * beforehand either, and a filter that is wrong about them takes noise for ground, or ground for noise. So
 * one filter runs for each supposition of both, and each counts as its forecasts come true (a bank of
 * filters: Magill 1965, "Optimal adaptive estimation of sampled stochastic processes", IEEE Trans. Automatic
 * Control 10). What is published is the mean over all of them, with what they differ by in its covariance.
 *
 * O(1) a course: every case takes one step.
 */
#include "response_filter.h"

#include <math.h>

/* Variance of readings against the sheet's, from a tool better than said to one four times as scattered; and
 * one sigma of the ground against what is usual: published scatter of layers spans that (response_filter.c).
 * Steps of two in either: a filter that is off by the root of two is hardly worse than one that is right. */
static const double noises[] = { 0.5, 1, 2, 4, 8, 16 }, scatters[] = { 0.5, 1, 2 };
enum { NOISES = sizeof noises / sizeof *noises, SCATTERS = sizeof scatters / sizeof *scatters };
_Static_assert(NOISES *SCATTERS == RESPONSE_CASES, "the header's room is the cases'");

/* The sheet's noise is believed like so many surprises that were seen, as in expected.c. Which case it is
 * lasts so many courses on the mean, for ground and surroundings change along a bore: a chance that it is
 * another from the next course on, so that no case is ever ruled out for good. */
enum { FIRST = 6, LASTS = 15 };

/* From logarithms that are known but for a constant. */
static void set_chances(const double logs[RESPONSE_CASES], double chances[RESPONSE_CASES])
{
	double most = logs[0], sum = 0;

	for (int n = 1; n < RESPONSE_CASES; n++)
		most = fmax(most, logs[n]);
	for (int n = 0; n < RESPONSE_CASES; n++)
		sum += chances[n] = exp(logs[n] - most);
	for (int n = 0; n < RESPONSE_CASES; n++)
		chances[n] /= sum;
}

/* Before anything is read. The noise: what FIRST surprises of mean square 1 leave of it, inverse chi squared
 * on a scale of equal steps of the logarithm. The scatter: each as likely. */
static void at_first(double chances[RESPONSE_CASES])
{
	double logs[RESPONSE_CASES];

	for (int n = 0; n < RESPONSE_CASES; n++) {
		double noise = noises[n / SCATTERS];
		logs[n] = -FIRST / 2.0 * (log(noise) + 1 / noise);
	}
	set_chances(logs, chances);
}

/* The mean of the cases, and the covariance of all of them together. */
static void mix(struct response *r)
{
	struct response_case all = { .chance = 1 };

	for (int n = 0; n < RESPONSE_CASES; n++) {
		const struct response_case *c = &r->cases[n];
		all.noise += c->chance * c->noise;
		all.scatter += c->chance * c->scatter * c->scatter;
		for (int i = 0; i < STATES; i++)
			all.state[i] += c->chance * c->state[i];
	}
	all.scatter = sqrt(all.scatter);
	for (int n = 0; n < RESPONSE_CASES; n++) {
		const struct response_case *c = &r->cases[n];
		for (int i = 0; i < STATES; i++)
			for (int k = 0; k < STATES; k++)
				all.covariance[i][k] += c->chance *
					(c->covariance[i][k] +
						(c->state[i] - all.state[i]) * (c->state[k] - all.state[k]));
	}
	r->all = all;
}

void response_cases_begin(struct response *r, double variance_up, double variance_right)
{
	double chances[RESPONSE_CASES];

	at_first(chances);
	for (int n = 0; n < RESPONSE_CASES; n++) {
		struct response_case *c = &r->cases[n];
		*c = r->all;
		c->noise = noises[n / SCATTERS];
		c->scatter = scatters[n % SCATTERS];
		c->chance = chances[n];
		response_filter_begin(c, r->guess_yield, c->noise * variance_up, c->noise * variance_right);
	}
	mix(r);
}

void response_cases_heading(struct response *r, double variance_up, double variance_right)
{
	for (int n = 0; n < RESPONSE_CASES; n++) {
		struct response_case *c = &r->cases[n];
		response_filter_heading(c, c->noise * variance_up, c->noise * variance_right);
	}
	mix(r);
}

void response_cases_predict(struct response *r, const struct drilled *d, double length_m, const double got[2])
{
	for (int n = 0; n < RESPONSE_CASES; n++)
		response_filter_predict(&r->cases[n], r->guess_yield, d, length_m, got);
	mix(r);
}

void response_cases_update(
	struct response *r, const double got[2], double variance_up, double variance_right, bool held)
{
	double first[RESPONSE_CASES], logs[RESPONSE_CASES], chances[RESPONSE_CASES];

	at_first(first);
	for (int n = 0; n < RESPONSE_CASES; n++) {
		struct response_case *c = &r->cases[n];
		logs[n] = log(c->chance + (first[n] - c->chance) / LASTS);
		logs[n] += response_filter_update(c, HEADING_UP, got[0], c->noise * variance_up);
		if (!held)
			logs[n] +=
				response_filter_update(c, HEADING_RIGHT, got[1], c->noise * variance_right);
		c->state[HEADING_UP] -= got[0];
		c->state[HEADING_RIGHT] -= got[1];
	}
	set_chances(logs, chances);
	for (int n = 0; n < RESPONSE_CASES; n++)
		r->cases[n].chance = chances[n];
	mix(r);
}

/* One unknown, the disturbance along the hole, and two deviations that it must explain. The sum of squares
 * may have two hollows (turned about, the field along the hole gives the same total), so that it is walked
 * through before it is refined.
 */
#include "model/disturbance.h"

#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

#define WIDEST 0.2 /* of the total field: more than any string does */
#define STEPS 100  /* on either side: far finer than the two hollows are apart */
#define MISFIT 3
#define TELLING (0.5 * SB_PI / 180)

struct puzzle {
	const struct sensor_vectors *v;
	const struct field_reference *reference;
	double step; /* nT */
};

static struct sensor_attitude without(const struct puzzle *p, double axial_nt)
{
	struct sensor_vectors v = *p->v;
	struct sensor_attitude a = { .dip_rad = NAN };

	v.field.z -= axial_nt;
	sb_sensor_attitude(&v, &a);
	return a;
}

static double square(double x)
{
	return x * x;
}

static double sum_of_squares(const struct puzzle *p, double axial_nt)
{
	struct sensor_attitude a = without(p, axial_nt);
	const struct field_reference *r = p->reference;

	return square((a.field - r->field_nt) / r->sigma_field_nt) +
		square((a.dip_rad - r->dip_rad) / r->sigma_dip_rad);
}

/* The least between low and high, by thirds. */
static double least_between(const struct puzzle *p, double low, double high)
{
	for (int i = 0; i < 80; i++) {
		double a = low + (high - low) / 3, b = high - (high - low) / 3;
		if (sum_of_squares(p, a) < sum_of_squares(p, b))
			high = b;
		else
			low = a;
	}
	return (low + high) / 2;
}

/* Where the sum passes `limit` between a place where it is within and one where it is not. */
static double passes(const struct puzzle *p, double within, double beyond, double limit)
{
	for (int i = 0; i < 60; i++) {
		double middle = (within + beyond) / 2;
		if (sum_of_squares(p, middle) <= limit)
			within = middle;
		else
			beyond = middle;
	}
	return within;
}

struct range {
	double best, low, high, least;
};

static struct range walk(const struct puzzle *p)
{
	struct range r = { .best = 0, .least = HUGE_VAL };

	for (int i = -STEPS; i <= STEPS; i++) {
		double sum = sum_of_squares(p, i * p->step);
		if (sum < r.least) {
			r.least = sum;
			r.best = i * p->step;
		}
	}
	r.best = least_between(p, r.best - p->step, r.best + p->step);
	r.least = sum_of_squares(p, r.best);
	r.low = r.high = r.best;
	for (int i = -STEPS; i <= STEPS; i++)
		if (sum_of_squares(p, i * p->step) <= r.least + 1) {
			r.low = fmin(r.low, i * p->step);
			r.high = fmax(r.high, i * p->step);
		}
	r.low = passes(p, r.low, r.low - p->step, r.least + 1);
	r.high = passes(p, r.high, r.high + p->step, r.least + 1);
	return r;
}

static double turned(const struct puzzle *p, double axial_nt)
{
	return sb_wrap_half(without(p, 0).azi_rad - without(p, axial_nt).azi_rad);
}

/* ---- words ---- */

static void say(struct disturbance *d)
{
	double turn = sb_deg(d->turned_rad), sigma = sb_deg(d->sigma_turned_rad);

	if (!d->along)
		snprintf(d->text, sizeof d->text,
			"Field and dip do not look like steel along the hole. If it is as strong where they do not show it, "
			"the azimuth may be off by about %.1f degrees, to either side.",
			sb_deg(d->may_turn_rad));
	else if (!d->telling)
		snprintf(d->text, sizeof d->text,
			"Steel along the hole hardly shows in field and dip on this heading, and turns the azimuth most: "
			"%.1f degrees either way would pass unseen.",
			fabs(turn) + sigma);
	else
		snprintf(d->text, sizeof d->text,
			"If it is steel along the hole, the azimuth may be off by about %.1f degrees (read too %s), give "
			"or take %.1f.",
			fabs(turn), turn < 0 ? "low" : "high", sigma);
}

enum sensor_status sb_disturbance(
	const struct sensor_vectors *v, const struct field_reference *reference, struct disturbance *out)
{
	struct puzzle p = { v, reference, WIDEST * reference->field_nt / STEPS };
	struct sensor_attitude a;
	enum sensor_status status = sb_sensor_attitude(v, &a);

	if (status != SENSOR_OK && status != SENSOR_ALONG)
		return status;
	struct range r = walk(&p);
	double dip_nt = reference->field_nt * (a.dip_rad - reference->dip_rad);
	double seen = hypot(a.field - reference->field_nt, dip_nt);
	*out = (struct disturbance){
		.axial_nt = r.best,
		.sigma_axial_nt = (r.high - r.low) / 2,
		.turned_rad = turned(&p, r.best),
		.sigma_turned_rad = fabs(sb_wrap_half(turned(&p, r.high) - turned(&p, r.low))) / 2,
		.misfit = sqrt(r.least),
		.may_turn_rad = atan2(seen / sqrt(2), reference->field_nt * cos(reference->dip_rad)),
	};
	out->along = out->misfit <= MISFIT;
	out->telling = out->along && out->sigma_turned_rad <= fmax(TELLING, fabs(out->turned_rad) / 2);
	say(out);
	return status;
}

/* The innovation of the response filter, before the reading is let in.
 *
 * The filter's sigmas are learnt themselves, from few courses at first: the sheet's noise is believed like
 * `first` surprises that were seen, each course adds two, and as the filter forgets, no more than `most`
 * count. So the odds are Student's and not the normal's, which keeps an honest tool that is noisier than its
 * sheet from being held at every joint. Both are chosen with simulated bores
 * (tests/model/blunder_expected_test.c), no source.
 */
#include "expected.h"

#include "geom/angle.h"
#include "geom/odds.h"

#include <math.h>
#include <string.h>

enum { FIRST = 6, MOST = 30, STOOD_BY = 6 };

static double squared(double x)
{
	return x * x;
}

double sb_expected_step(const struct number *n)
{
	const char *point = strchr(n->text, '.');

	return sb_rad(pow(10, point ? -(double)strlen(point + 1) : 0));
}

/* One sigma, squared, of rounding to the last digit that was typed, in radians of that angle. */
static double rounding(const struct number *n)
{
	return squared(sb_expected_step(n)) / 12;
}

/* In percent a digit is less than in degrees: a hundredth of a radian on level ground, and less on a slope.
 */
static double rounding_up(const struct setup *s, const struct reading *trial)
{
	double share = s->frame->incline == INCLINE_GRADE ? sb_deg(0.01) : 1;

	return share * share * rounding(&trial->inclination);
}

static struct forecast add_rounding(const struct setup *s, const struct reading *trial, struct forecast f)
{
	f.up_var += rounding_up(s, trial);
	if (trial->azimuth_by != AZIMUTH_BY_HOLD)
		f.right_var += squared(f.heading.sin_inc) * rounding(&trial->azimuth);
	return f;
}

/* One of the last readings was logged as it is with a reason, or put right: somebody stands by it, where the
 * filter takes it for noise, or for ground, and is led astray for some joints. */
static bool stood_by(const struct setup *setup, const struct solution *s)
{
	for (size_t back = 0; back < STOOD_BY && back < s->path.on_count; back++) {
		const struct reading *r = sb_job_reading(setup->job, sb_path_back(&s->path, back)->reading);
		if (r && r->reason[0])
			return true;
	}
	return false;
}

/* The hole goes on from the last reading as the sheet guesses, whatever came before: believed instead, where
 * the trial bears it out. */
static void believe_last(
	const struct setup *setup, const struct solution *s, const struct reading *trial, struct expected *e)
{
	struct response afresh;
	struct attitude typed = e->from;

	sb_path_read(setup, &s->path, trial, &typed);
	sb_response_begin(setup, &afresh);
	struct forecast f = add_rounding(
		setup, trial, sb_response_forecast(setup, &e->from, &afresh, &e->drilled, e->length_m, 0));
	if (sb_expected_surprise(e, &f, &typed).square < sb_expected_surprise(e, &e->forecast, &typed).square)
		e->forecast = f;
}

bool sb_expected_of(const struct setup *setup, const struct solution *s, const struct reading *trial,
	double survey_m, struct expected *out)
{
	const struct path *p = &s->path;
	double begin = fmax(sb_path_back(p, 0)->survey_md_m, 0);
	struct expected e = { .length_m = survey_m - begin, .azimuth = trial->azimuth_by != AZIMUTH_BY_HOLD };

	if (!(e.length_m > 0) || (p->on_count == 1 && !p->entry_known) || !sb_path_attitude(p, &e.from))
		return false;
	e.drilled = sb_response_drilled_next(setup, p, trial, begin, survey_m);
	if (!e.drilled.known)
		return false;
	e.forecast = add_rounding(
		setup, trial, sb_response_forecast(setup, &e.from, &s->response, &e.drilled, e.length_m, 0));
	if (stood_by(setup, s))
		believe_last(setup, s, trial, &e);
	e.freedom = (int)fmin(FIRST + 2 * (double)s->response.courses, MOST);
	*out = e;
	return true;
}

struct forecast sb_expected_again(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct reading *trial)
{
	const struct drilled nothing = { .known = true };

	return add_rounding(
		setup, trial, sb_response_forecast(setup, &e->from, &s->response, &nothing, 0, 0));
}

struct forecast sb_expected_further(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct reading *trial, double joint_m)
{
	struct drilled d = e->drilled;

	d.rotated_m += joint_m;
	return add_rounding(setup, trial,
		sb_response_forecast(setup, &e->from, &s->response, &d, e->length_m + joint_m, joint_m));
}

struct forecast sb_expected_slid(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct reading *trial)
{
	return add_rounding(setup, trial,
		sb_response_forecast(
			setup, &e->from, &s->response, &e->drilled, e->length_m, e->drilled.unsaid_m));
}

struct surprise sb_expected_surprise(
	const struct expected *e, const struct forecast *f, const struct attitude *a)
{
	double middle = (f->heading.inc_rad + a->inc_rad) / 2;
	struct surprise s = {
		.up_rad = a->inc_rad - f->heading.inc_rad,
		.right_rad = sb_wrap_half(a->azi_rad - f->heading.azi_rad) * sin(middle),
	};

	if (!e->azimuth) {
		s.right_rad = 0;
		s.square = squared(s.up_rad) / f->up_var;
		return s;
	}
	double determinant = f->up_var * f->right_var - squared(f->together_var);
	s.square = (f->right_var * squared(s.up_rad) - 2 * f->together_var * s.up_rad * s.right_rad +
			   f->up_var * squared(s.right_rad)) /
		determinant;
	return s;
}

double sb_expected_chance(const struct expected *e, double square)
{
	return sb_odds_student(square, e->azimuth ? 2 : 1, e->freedom);
}

/* Student's density of one or two figures. */
double sb_expected_density(const struct expected *e, const struct forecast *f, double square, double widen)
{
	double n = e->freedom, w = widen * widen;

	if (e->azimuth) {
		double area = 2 * SB_PI * w * sqrt(f->up_var * f->right_var - squared(f->together_var));
		return pow(1 + square / (n * w), -(n + 2) / 2) / area;
	}
	double scale = exp(lgamma((n + 1) / 2) - lgamma(n / 2)) / sqrt(n * SB_PI * w * f->up_var);
	return scale * pow(1 + square / (n * w), -(n + 1) / 2);
}

/* The explanations of a surprise, weighed. What each weighs is a chance density per rad^2 of what was typed:
 *
 *     honest              the density of what was expected
 *     honest, but odd     in one reading of fifty the ground or the tool does something of its own, up to
 * five times as far out as the sigmas have it a slip              its chance, times the density at the
 * reading that was meant again, further, slid   their chance, times the density of what is expected then
 *
 * How usual each is, is common practice, no source.
 */
#include "slip_likely.h"

#include "base/str.h"
#include "geom/angle.h"

#include <math.h>

static const double odd = 0.02, odd_wide = 5, again = 1e-3, further = 1e-3, slid = 0.05;
/* Named when it is nine times as heavy as all others together; a slide, which only is asked for, when it is
 * as heavy as all others. */
static const double stands_out = 0.9, worth_asking = 0.5;

struct weighing {
	const struct expected *e;
	const struct slip_case *c;
	double total;
	bool found;
	double best, of_best; /* the heaviest slip; all slips to the same reading */
	struct slip slip;
	bool adding; /* second time round: of_best */
};

static bool same_reading(const struct slip *a, const struct slip *b)
{
	return fabs(a->inclination - b->inclination) < 1e-9 && fabs(a->azimuth - b->azimuth) < 1e-9;
}

static void weigh(void *context, const struct slip *slip)
{
	struct weighing *w = context;
	struct attitude meant = sb_slip_attitude(w->c, slip->inclination, slip->azimuth);
	struct surprise s = sb_expected_surprise(w->e, &w->e->forecast, &meant);
	double weight = slip->chance * sb_expected_density(w->e, &w->e->forecast, s.square, 1);

	if (w->adding) {
		w->of_best += same_reading(slip, &w->slip) ? weight : 0;
		return;
	}
	w->total += weight;
	if (w->found && weight <= w->best)
		return;
	w->found = true;
	w->best = weight;
	w->slip = *slip;
}

/* The reading that was typed, where another forecast holds. */
static double as_typed(const struct expected *e, const struct forecast *f, const struct attitude *typed)
{
	return sb_expected_density(e, f, sb_expected_surprise(e, f, typed).square, 1);
}

/* The same two numbers as the joint before: if that reading was typed again, nothing else can come of it, so
 * its chance is not spread over an area but stands on one cell of the last digits. */
static double same_numbers(const struct setup *setup, const struct solution *s, const struct slip_case *c)
{
	const struct reading *last = sb_job_reading(setup->job, sb_solution_last_on_path(s)->reading);
	const struct reading *trial = c->trial;

	if (last == NULL || trial->azimuth_by == AZIMUTH_BY_HOLD ||
		!sb_same(last->inclination.text, trial->inclination.text) ||
		!sb_same(last->azimuth.text, trial->azimuth.text))
		return 0;
	return 1 / (sb_expected_step(&trial->inclination) * sb_expected_step(&trial->azimuth));
}

static void take(struct likely_slip *out, enum likely kind, double weight, double *best)
{
	if (weight <= *best)
		return;
	*best = weight;
	out->kind = kind;
}

struct likely_slip sb_slip_likely(const struct setup *setup, const struct solution *s,
	const struct expected *e, const struct slip_case *c, double joint_m)
{
	const struct reading *trial = c->trial;
	struct attitude typed = sb_slip_attitude(c, trial->inclination.value, trial->azimuth.value);
	struct surprise surprise = sb_expected_surprise(e, &e->forecast, &typed);
	struct forecast before = sb_expected_again(setup, s, e, trial),
			ahead = sb_expected_further(setup, s, e, trial, joint_m),
			turned = sb_expected_slid(setup, s, e, trial);
	struct weighing w = { .e = e, .c = c };
	struct likely_slip out = { .kind = LIKELY_NONE };

	double honest = sb_expected_density(e, &e->forecast, surprise.square, 1) +
		odd * sb_expected_density(e, &e->forecast, surprise.square, odd_wide);
	double twice = again * fmax(as_typed(e, &before, &typed), same_numbers(setup, s, c));
	double forgotten = further * as_typed(e, &ahead, &typed);
	double unsaid = e->drilled.unsaid_m > 0 ? slid * as_typed(e, &turned, &typed) : 0;
	sb_slip_each(c, SLIP_ANY, weigh, &w);
	w.adding = true;
	if (w.found)
		sb_slip_each(c, SLIP_ANY, weigh, &w);
	double total = honest + twice + forgotten + unsaid + w.total, best = 0;
	take(&out, LIKELY_SLIP, w.of_best, &best);
	take(&out, LIKELY_AGAIN, twice, &best);
	take(&out, LIKELY_FURTHER, forgotten, &best);
	take(&out, LIKELY_SLID, unsaid, &best);
	out.slip = w.slip;
	out.share = total > 0 ? best / total : 0;
	if (out.share < (out.kind == LIKELY_SLID ? worth_asking : stands_out))
		out.kind = LIKELY_NONE;
	return out;
}

/* The second sense: a reading is held against what the plan of the last joints and the ground's response led
 * to expect of it (expected.c), and the slip that explains the difference is named (slip_likely.c).
 *
 * Noise and ground alone come so far out in one reading of 10,000 when it is held, in one of 500 when it is
 * remarked on, by the filter's own odds. What simulated bores make of that is measured in
 * tests/model/blunder_expected_test.c.
 */
#include "blunder_parts.h"

#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double hold_chance = 1e-4, remark_chance = 1.0 / 500;
/* A slip that is a hundred times as likely as everything else together is held from the lesser chance on:
 * both together an honest reading meets as seldom. */
static const double plain_share = 0.99;

struct weighed blunder_weigh(const struct setup *setup, const struct solution *s, const struct reading *trial,
	double survey_m, double joint_m)
{
	struct weighed w = { .trial = trial };
	struct slip_case c = { .job = setup->job, .frame = setup->frame, .trial = trial };

	w.known = sb_expected_of(setup, s, trial, survey_m, &w.expected);
	if (!w.known)
		return w;
	c.last = w.expected.from;
	struct attitude typed = sb_slip_attitude(&c, trial->inclination.value, trial->azimuth.value);
	w.surprise = sb_expected_surprise(&w.expected, &w.expected.forecast, &typed);
	double chance = sb_expected_chance(&w.expected, w.surprise.square);
	w.remarked = chance < remark_chance;
	if (!w.remarked)
		return w;
	w.likely = sb_slip_likely(setup, s, &w.expected, &c, joint_m);
	/* A slide left blank is asked for, and no reason to stop: the reading itself is good. */
	w.held = w.likely.kind != LIKELY_NONE && w.likely.kind != LIKELY_SLID &&
		(chance < hold_chance || w.likely.share > plain_share);
	return w;
}

/* ---- in words ---- */

static const char *what_would_bring(const struct drilled *d)
{
	return d->slid_m > 0 ? "what the slides since the last reading would bring"
			     : "where rotating since the last reading would lead";
}

/* Whether the azimuth is what is out, measured by the sigmas. */
static bool azimuth_is_out(const struct weighed *w)
{
	const struct forecast *f = &w->expected.forecast;
	double up = w->surprise.up_rad, right = w->surprise.right_rad;

	return right * right * f->up_var > up * up * f->right_var;
}

/* The expected value with its doubt, as one would type it. */
static void say_azimuth(
	const struct setup *setup, const struct solution *s, const struct weighed *w, char *text, size_t size)
{
	const struct forecast *f = &w->expected.forecast;
	double sine = fmax(f->heading.sin_inc, 0.05);
	double shown = sb_frame_azi_typed_by(setup->frame, w->trial->azimuth_by, f->heading.azi_rad);

	snprintf(text, size, "Azimuth %s is %.1f deg %s of %s (%.1f, give or take %.1f).",
		w->trial->azimuth.text, sb_deg(fabs(w->surprise.right_rad)) / sine,
		w->surprise.right_rad > 0 ? "right" : "left", what_would_bring(&w->expected.drilled), shown,
		s->uncertainty.line_factor * sb_deg(sqrt(f->right_var)) / sine);
}

static void say_inclination(
	const struct setup *setup, const struct solution *s, const struct weighed *w, char *text, size_t size)
{
	const struct forecast *f = &w->expected.forecast;
	double shown = sb_frame_inc_typed(setup->frame, f->heading.inc_rad), sigma = sqrt(f->up_var);
	double wide = fabs(sb_frame_inc_typed(setup->frame, f->heading.inc_rad + sigma) - shown);

	snprintf(text, size, "Inclination %s points %.1f deg %s than %s (%.1f, give or take %.1f).",
		w->trial->inclination.text, sb_deg(fabs(w->surprise.up_rad)),
		w->surprise.up_rad > 0 ? "higher" : "lower", what_would_bring(&w->expected.drilled), shown,
		s->uncertainty.line_factor * wide);
}

static void say_both(const struct setup *setup, const struct weighed *w, char *text, size_t size)
{
	const struct attitude *to = &w->expected.forecast.heading;

	snprintf(text, size, "Inclination %s and azimuth %s are not %s (%.1f and %.1f).",
		w->trial->inclination.text, w->trial->azimuth.text, what_would_bring(&w->expected.drilled),
		sb_frame_inc_typed(setup->frame, to->inc_rad),
		sb_frame_azi_typed_by(setup->frame, w->trial->azimuth_by, to->azi_rad));
}

/* What may be behind it, and what to do. */
static void say_likely(const struct solution *s, const struct weighed *w, char *text, size_t size)
{
	const struct slip *slip = &w->likely.slip;

	switch (w->likely.kind) {
	case LIKELY_SLIP:
		if (slip->kind == &sb_slip_exchanged)
			snprintf(text, size, " Meant inclination %s and azimuth %s? (exchanged)",
				w->trial->azimuth.text, w->trial->inclination.text);
		else
			snprintf(text, size, " Meant %s? (%s)", slip->value.text, slip->kind->words);
		return;
	case LIKELY_AGAIN:
		snprintf(text, size, " It fits the place of joint %d's reading: was it taken anew?",
			sb_solution_last_on_path(s)->joint);
		return;
	case LIKELY_FURTHER:
		snprintf(text, size, " A joint more would explain it: was joint %d forgotten? Log it first.",
			sb_solution_last(s)->joint + 1);
		return;
	case LIKELY_SLID:
		snprintf(text, size, " A slide would explain it: was one not written down?");
		return;
	case LIKELY_NONE:
		break;
	}
	snprintf(text, size, " Read it once more.");
}

static const char *kind_of(const struct likely_slip *l)
{
	switch (l->kind) {
	case LIKELY_SLIP:
		return l->slip.kind->words;
	case LIKELY_AGAIN:
		return "the last reading again";
	case LIKELY_FURTHER:
		return "a joint forgotten";
	case LIKELY_SLID:
		return "a slide not written down";
	case LIKELY_NONE:
		break;
	}
	return "not as expected";
}

static const char *field_of(const struct weighed *w)
{
	if (w->likely.kind == LIKELY_SLIP)
		return w->likely.slip.field;
	if (w->likely.kind == LIKELY_SLID)
		return "slid";
	return azimuth_is_out(w) ? "azimuth" : "inclination";
}

void blunder_say_weighed(
	struct findings *f, const struct setup *setup, const struct solution *s, const struct weighed *w)
{
	bool slip = w->likely.kind == LIKELY_SLIP;
	struct suspicion *out = blunder_add(f, w->held, field_of(w), kind_of(&w->likely));

	out->has_likely = slip;
	if (slip)
		out->likely = w->likely.slip.value;
	if (slip && w->likely.slip.kind == &sb_slip_exchanged)
		say_both(setup, w, out->text, sizeof out->text);
	else if (slip ? sb_same(w->likely.slip.field, "azimuth") : azimuth_is_out(w))
		say_azimuth(setup, s, w, out->text, sizeof out->text);
	else
		say_inclination(setup, s, w, out->text, sizeof out->text);
	size_t length = strlen(out->text);
	say_likely(s, w, out->text + length, sizeof out->text - length);
}

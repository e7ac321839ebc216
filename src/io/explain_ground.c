/* What the ground gives: the course that each slide made against what was ordered, and what the filter makes
 * of all of them. It is run again over the whole log, from the readings. */
#include "base/mem.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

#define SOURCE_GROUND \
	"Kalman, J. Basic Engineering 82 (1960) 35, over the log, once for each supposition of noise and scatter, weighed by how well each foretold the readings; the model of the hole's answer: derived (model/response.h)"
#define TOLD 6 /* courses that are told of one by one */

/* What each course that was slid in gave, the newest last; sums over all of them. */
struct slides {
	const struct row *told[TOLD];
	size_t count;
	double slid_m, along, across; /* got along the order, and clockwise across it, rad */
};

static double along_order(const struct row_answer *a)
{
	return (a->got_up * a->ordered_up + a->got_right * a->ordered_right) /
		hypot(a->ordered_up, a->ordered_right);
}

static double across_order(const struct row_answer *a)
{
	return (a->got_right * a->ordered_up - a->got_up * a->ordered_right) /
		hypot(a->ordered_up, a->ordered_right);
}

static bool taught(const struct row *row)
{
	const struct row_answer *a = &row->answer;

	return row->on_path && a->known && a->slid_m > 0 && hypot(a->ordered_up, a->ordered_right) > 0;
}

static void note(struct slides *s, const struct row *row)
{
	if (!taught(row))
		return;
	if (s->count >= TOLD)
		for (size_t i = 1; i < TOLD; i++)
			s->told[i - 1] = s->told[i];
	s->told[s->count < TOLD ? s->count : TOLD - 1] = row;
	s->count++;
	s->slid_m += row->answer.slid_m;
	s->along += along_order(&row->answer);
	s->across += across_order(&row->answer);
}

/* Withdrawn ones taught as well. */
static struct slides slides_of(const struct solution *s)
{
	struct slides out = { 0 };

	for (size_t i = 0; i < s->path.old_count; i++)
		note(&out, &s->path.old[i]);
	for (size_t i = 1; i < s->path.count; i++)
		note(&out, &s->path.rows[i]);
	return out;
}

static void put_slides(struct explaining *x, const struct slides *s)
{
	char symbol[24], ordered[EXPLAIN_VALUE], right[EXPLAIN_VALUE], got[EXPLAIN_VALUE],
		got_right[EXPLAIN_VALUE], slid[EXPLAIN_VALUE];

	for (size_t i = 0; i < s->count && i < TOLD; i++) {
		const struct row *row = s->told[i];
		const struct row_answer *a = &row->answer;
		snprintf(symbol, sizeof symbol, "joint %d", row->joint);
		explain_input(x, symbol, AS_ANGLE, along_order(a),
			"turned as ordered, leg %d: slid %s, ordered %s up %s right, got %s up %s right",
			row->leg, explain_value(x, AS_LENGTH, a->slid_m, slid),
			explain_value(x, AS_ANGLE, a->ordered_up, ordered),
			explain_value(x, AS_ANGLE, a->ordered_right, right),
			explain_value(x, AS_ANGLE, a->got_up, got),
			explain_value(x, AS_ANGLE, a->got_right, got_right));
	}
	if (s->count > TOLD)
		explain_words(x, EXPLAIN_NOTE,
			"Of %zu courses with slides the last %d are told of here; path and joint pages have the others.",
			s->count, TOLD);
}

/* The suppositions of noise and scatter, by how likely the log has made each. */
static void put_cases(struct explaining *x, const struct response *r)
{
	double noise = 0, scatter = 0, likely = 0;

	for (size_t i = 0; i < RESPONSE_CASES; i++) {
		noise += r->cases[i].chance * r->cases[i].noise;
		scatter += r->cases[i].chance * r->cases[i].scatter;
		likely = fmax(likely, r->cases[i].chance);
	}
	explain_step(x, "noise", AS_NUMBER, sqrt(noise),
		"of the readings in the log, over what the sheet says: mean of %d suppositions by their chances",
		RESPONSE_CASES);
	explain_step(x, "scatter", AS_NUMBER, scatter,
		"of the ground from stretch to stretch, over what is usual, likewise; the likeliest has %.0f %%",
		100 * likely);
}

/* What the sheet guesses, and what a reading's noise is. */
static void put_begin(struct explaining *x)
{
	char where[EXPLAIN_WHERE];
	const struct response *r = &x->s->response;

	if (r->guess_given)
		explain_typed(x, "guess", &x->job->slide_turn, "deg",
			"turned per %s slid, before anything was learnt: %s", sb_unit_short(x->job->unit),
			explain_key(x, "steering", "slide_turn", where));
	else
		explain_input(x, "guess", AS_RATE, r->guess_yield,
			"turned per length slid: the sheet gives none, and the bend limit stands for it");
	explain_input(x, "si", AS_ANGLE, x->then.sigma_inc_rad, "noise of one inclination: %s",
		explain_key(x, "tool", "sigma_inclination", where));
	explain_input(x, "sa", AS_ANGLE, x->then.sigma_azi_rad, "noise of one azimuth: %s",
		explain_key(x, "tool", "sigma_azimuth", where));
	explain_step(x, "courses", AS_NUMBER, (double)r->courses, "that noise and scatter were learnt from");
	put_cases(x, r);
}

/* The whole log again, from its readings. The caller clears it. */
static bool run_again(struct explaining *x, struct solution *again)
{
	struct sb_err err = { 0 };

	explain_words(x, EXPLAIN_FORMULA,
		"turn over a course = yield (slid along the tool face, turned by e) + drift x rotated; each reading corrects yield, e and drift by as much as its noise allows");
	*again = (struct solution){ 0 };
	if (sb_solve(x->job, again, NULL, &err) == 0)
		return true;
	explain_words(x, EXPLAIN_ALARM, "The log cannot be gone through again: %s", err.text);
	return false;
}

static void put_guess(struct explaining *x)
{
	if (x->s->response.slides == 0)
		explain_words(x, EXPLAIN_NOTE,
			"No course with slides that were written down has taught it anything yet: this is the guess.");
}

void explain_slide_turn(struct explaining *x)
{
	const struct response *kept = &x->s->response;
	struct solution again;

	if (!run_again(x, &again))
		return;
	struct slides slides = slides_of(&again);
	put_begin(x);
	put_slides(x, &slides);
	put_guess(x);
	if (slides.slid_m > 0)
		explain_step(x, "plain", AS_RATE, slides.along / slides.slid_m,
			"all that was turned as ordered over all that was slid, without weights, drift or change of ground: near the result, not equal to it");
	explain_result(
		x, "slide_turn", AS_RATE, again.response.yield, kept->yield, "turned per length slid, here");
	explain_result(x, "slide_turn_sigma", AS_RATE, again.response.yield_sigma, kept->yield_sigma,
		"one sigma of it");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_GROUND);
	sb_solution_clear(&again);
}

void explain_drift(struct explaining *x)
{
	const struct response *kept = &x->s->response;
	struct solution again;
	double rotated = 0, up = 0, right = 0;

	if (!run_again(x, &again))
		return;
	put_begin(x);
	for (size_t i = 1; i < again.path.count; i++) {
		const struct row *row = &again.path.rows[i];
		if (!row->on_path || !row->answer.known || row->answer.slid_m > 0)
			continue;
		rotated += row->course_m;
		up += row->answer.got_up;
		right += row->answer.got_right;
	}
	explain_step(x, "rotated", AS_LENGTH, rotated, "in courses without any slide, on the present path");
	if (rotated > 0) {
		explain_step(x, "plain up", AS_RATE, up / rotated,
			"what those turned up, over their length: near the result, not equal to it");
		explain_step(x, "plain right", AS_RATE, right / rotated, "likewise to the right");
	}
	put_guess(x);
	explain_result(x, "droop", AS_RATE, -again.response.drift_up, -kept->drift_up,
		"turned down per length rotated");
	explain_result(x, "droop_sigma", AS_RATE, again.response.drift_up_sigma, kept->drift_up_sigma,
		"one sigma of it");
	explain_result(x, "walk", AS_RATE, again.response.drift_right, kept->drift_right,
		"turned right per length rotated");
	explain_result(x, "walk_sigma", AS_RATE, again.response.drift_right_sigma, kept->drift_right_sigma,
		"one sigma of it");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_GROUND);
	sb_solution_clear(&again);
}

void explain_face_error(struct explaining *x)
{
	const struct response *kept = &x->s->response;
	struct solution again;
	char where[EXPLAIN_WHERE];

	if (!run_again(x, &again))
		return;
	struct slides slides = slides_of(&again);
	put_begin(x);
	explain_input(x, "offset", AS_ANGLE, x->then.tool_face_offset_rad,
		"added to the tool face as shown: %s", explain_key(x, "tool", "tool_face_offset", where));
	put_slides(x, &slides);
	put_guess(x);
	if (slides.count > 0)
		explain_step(x, "plain", AS_ANGLE, atan2(slides.across, slides.along),
			"direction of all that was turned, clockwise of what was ordered with the error known then: what was left of it");
	explain_result(x, "tool_face_error", AS_ANGLE, again.response.face_error_rad, kept->face_error_rad,
		"the hole turns so far clockwise of the tool face shown");
	explain_result(x, "tool_face_error_sigma", AS_ANGLE, again.response.face_error_sigma_rad,
		kept->face_error_sigma_rad, "one sigma of it");
	explain_words(x, EXPLAIN_LIMIT,
		"A watch over 15 degrees, when it is surely more than nothing (warning: response).");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_GROUND);
	sb_solution_clear(&again);
}

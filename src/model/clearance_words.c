/* Clearance and which side it is on, in words that end with what to do. */
#include "model/clearance.h"

#include <math.h>
#include <stdio.h>

#include "hole_stretch.h"

/* A side counts beside the main one from here on: over 22.5 degrees off it. */
static const double beside = 0.4142;

void sb_passing_side(const struct passing *p, char text[48])
{
	double up = fabs(p->above_m), across = fabs(p->right_m), along = fabs(p->ahead_m);
	const char *height = p->above_m > 0 ? "above" : "below",
		   *hand = p->right_m > 0 ? "right of" : "left of";

	if (along > fmax(up, across))
		snprintf(text, 48, "%s", p->ahead_m > 0 ? "past" : "short of");
	else if (across < beside * up)
		snprintf(text, 48, "%s", height);
	else if (up < beside * across)
		snprintf(text, 48, "%s", hand);
	else
		snprintf(text, 48, "%s and %s", height, hand);
}

double clearance_value(
	const struct clearance_ask *ask, double mean_m, double sigma_m, double limit_m, bool kept)
{
	if (ask->setup.job->judge == JUDGE_MEAN)
		return mean_m;
	/* One side: the factor to both sides at a confidence of 2 c - 1. */
	double value = mean_m - sb_spread_line_factor(2 * ask->uncertainty->confidence - 1) * sigma_m;
	/* Along the line alone it may seem less than it is: what is off to the side misses as well. */
	return kept ? fmax(value, limit_m) : value;
}

struct words {
	const char *unit, *name, *hole;
	char side[48];
	int decimals;
	double wall, required, give;
};

static void say_breach(
	const struct clearance_ask *ask, const struct words *w, const struct passing *p, struct verdict *v)
{
	int d = w->decimals;

	if (ask->setup.job->judge == JUDGE_CONFIDENCE)
		snprintf(v->text, sizeof v->text,
			"Joint %d: %.2g %% chance of less than the %.*f %s required from %.40s; %.3g %% is left. It passes %.*f %s, give or take %.*f. Get a fix, or expose it first.",
			p->joint, p->chance * 100, d, w->required, w->unit, w->name,
			sb_uncertainty_limit(&ask->setup).limit * 100, d, w->wall, w->side, d, w->give);
	else if (w->wall < 0)
		snprintf(v->text, sizeof v->text,
			"Joint %d runs into %.40s: with %s the walls overlap by %.*f %s; %.*f clear is required. Stop, tell the engineer and its owner.",
			p->joint, w->name, w->hole, d, -w->wall, w->unit, d, w->required);
	else
		snprintf(v->text, sizeof v->text,
			"Joint %d passes %.*f %s %s %.40s, wall to wall of %s; %.*f is required. Stop, tell the engineer and its owner; expose it, or pull back and redrill.",
			p->joint, d, w->wall, w->unit, w->side, w->name, w->hole, d, w->required);
}

static void say_ahead(const struct words *w, const struct passing *p, int drilled_joint, struct verdict *v)
{
	int d = w->decimals;

	if (w->wall >= w->required)
		snprintf(v->text, sizeof v->text,
			"As it heads, joint %d passes %.*f %s %s %.40s, give or take %.*f; %.*f is required. Get an independent fix before it, or steer away.",
			p->joint, d, w->wall, w->unit, w->side, w->name, d, w->give, d, w->required);
	else if (p->joint <= drilled_joint)
		snprintf(v->text, sizeof v->text,
			"Carried on from the reading, the bit has come to %.*f %s %s %.40s by now; %.*f is required. Stop and look.",
			d, w->wall, w->unit, w->side, w->name, d, w->required);
	else if (w->wall < 0)
		snprintf(v->text, sizeof v->text,
			"If the heading is held, joint %d runs into %.40s; %.*f %s clear is required. Steer away now.",
			p->joint, w->name, d, w->required, w->unit);
	else
		snprintf(v->text, sizeof v->text,
			"If the heading is held, joint %d passes %.*f %s %s %.40s; %.*f is required. Steer away now.",
			p->joint, d, w->wall, w->unit, w->side, w->name, d, w->required);
}

void clearance_say(const struct clearance_ask *ask, const struct obstacle *o, const struct passing *p,
	int drilled_joint, struct verdict *v)
{
	const struct frame *f = ask->setup.frame;
	struct words w = {
		.unit = sb_unit_short(ask->setup.job->unit),
		.name = o->name,
		.hole = sb_hole_word(&ask->around->hole),
		.wall = sb_frame_typed(f, p->wall_m),
		.required = sb_frame_typed(f, p->required_m),
		.give = sb_frame_typed(f, ask->uncertainty->line_factor * p->sigma_m),
	};

	sb_passing_side(p, w.side);
	w.decimals = sb_warning_decimals(&ask->setup, w.wall, w.required);
	v->level = p->level;
	v->limit = w.required;
	v->value = drilled_joint >= 0 ? w.wall
				      : sb_frame_typed(f,
						clearance_value(ask, p->wall_m, p->sigma_m, p->required_m,
							p->level != LEVEL_BREACH));
	if (drilled_joint >= 0)
		say_ahead(&w, p, drilled_joint, v);
	else if (p->level == LEVEL_BREACH)
		say_breach(ask, &w, p, v);
	else
		snprintf(v->text, sizeof v->text,
			"Joint %d passes %.*f %s %s %.40s, give or take %.*f (%.4g %%); %.*f is required. Get an independent fix there, or expose it.",
			p->joint, w.decimals, w.wall, w.unit, w.side, w.name, w.decimals, w.give,
			ask->uncertainty->confidence * 100, w.decimals, w.required);
}

/* What lies ahead. One table of joints serves the plan from here and the plan after a pull-back. */
#include "io/ahead.h"

#include "draw/axis.h"
#include "geom/angle.h"
#include "io/json.h"
#include "io/passings.h"

#include <math.h>
#include <stdio.h>

static double whole_turn(double radians)
{
	double degrees = sb_deg(sb_wrap_turn(radians));

	return degrees >= 360 ? 0 : degrees;
}

static void put_angles(struct sb_json *j, const struct frame *f, const struct attitude *a)
{
	sb_json_exact(j, "inclination", sb_frame_inc_typed(f, a->inc_rad));
	sb_json_exact(j, "azimuth", sb_frame_azi_typed(f, a->azi_rad));
}

static void put_place(struct sb_json *j, const struct frame *f, const struct deviation *d)
{
	sb_json_exact(j, "station", sb_frame_typed(f, d->station_m));
	sb_json_exact(j, "offset", sb_frame_typed(f, d->offset_m));
	sb_json_exact(j, "height", sb_frame_typed(f, d->height_m));
}

static void put_joint(struct sb_json *j, const struct frame *f, const struct plan_joint *p)
{
	sb_json_object(j, NULL);
	sb_json_whole(j, "joint", p->joint);
	sb_json_exact(j, "length", sb_frame_typed(f, p->length_m));
	put_angles(j, f, &p->target);
	sb_json_exact(j, "tool_face", p->slid_m > 0 ? whole_turn(p->tool_face_rad) : (double)NAN);
	sb_json_exact(j, "slid", sb_frame_typed(f, p->slid_m));
	put_place(j, f, &p->deviation);
	sb_json_exact(j, "corridor_share", p->use.share);
	sb_json_end(j);
}

static void put_plan(struct sb_json *j, const struct frame *f, const struct plan *p)
{
	sb_json_object(j, "plan");
	sb_json_bool(j, "feasible", p->known && p->feasible);
	if (p->rejoins_at_joint)
		sb_json_whole(j, "rejoins_at_joint", p->rejoins_at_joint);
	else
		sb_json_null(j, "rejoins_at_joint");
	sb_json_bool(j, "for_exit", p->for_exit);
	sb_json_text_or_null(j, "limit", p->known && !p->feasible ? sb_steering_limit_word(p->limit) : "");
	sb_json_exact(j, "short_by", p->known && !p->feasible ? p->short_by : (double)NAN);
	sb_json_text(j, "words", p->words);
	sb_json_array(j, "joints");
	for (size_t i = 0; i < p->count; i++)
		put_joint(j, f, &p->joints[i]);
	sb_json_end(j);
	sb_json_end(j);
}

static void put_response(struct sb_json *j, const struct frame *f, const struct response *r)
{
	double per_length = sb_deg(1) * f->metre;

	sb_json_object(j, "response");
	sb_json_bool(j, "guess", r->slides == 0);
	sb_json_whole(j, "slides", (long long)r->slides);
	sb_json_exact(j, "slide_turn", r->yield * per_length);
	sb_json_exact(j, "slide_turn_sigma", r->yield_sigma * per_length);
	sb_json_exact(j, "droop", -r->drift_up * per_length);
	sb_json_exact(j, "droop_sigma", r->drift_up_sigma * per_length);
	sb_json_exact(j, "walk", r->drift_right * per_length);
	sb_json_exact(j, "walk_sigma", r->drift_right_sigma * per_length);
	sb_json_exact(j, "tool_face_error", sb_deg(r->face_error_rad));
	sb_json_exact(j, "tool_face_error_sigma", sb_deg(r->face_error_sigma_rad));
	sb_json_end(j);
}

static void put_budget(struct sb_json *j, const struct budget *b)
{
	const double none = (double)NAN;

	sb_json_object(j, "bend_budget");
	sb_json_exact(j, "degrees", b->known ? fmax(sb_deg(b->least_rad), 0) : none);
	sb_json_exact(j, "up", b->known ? sb_deg(b->up_rad) : none);
	sb_json_exact(j, "down", b->known ? sb_deg(b->down_rad) : none);
	sb_json_exact(j, "left", b->known ? sb_deg(b->left_rad) : none);
	sb_json_exact(j, "right", b->known ? sb_deg(b->right_rad) : none);
	sb_json_text_or_null(j, "by", b->known ? b->by : "");
	sb_json_end(j);
}

void sb_ahead_json(const struct job *job, const struct solution *s, const struct plan *plan,
	const struct withdrawal *w, struct sb_str *out)
{
	const struct frame *f = &s->frame;
	struct sb_json j = { 0 };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	sb_json_object(&j, "bit");
	sb_json_exact(&j, "depth", sb_frame_typed(f, s->bit.md_m));
	put_place(&j, f, &s->bit.deviation);
	put_angles(&j, f, &s->bit.attitude);
	sb_json_exact(&j, "sigma_along", sb_frame_typed(f, s->bit.doubt.along_m));
	sb_json_exact(&j, "sigma_across", sb_frame_typed(f, s->bit.doubt.across_m));
	sb_json_exact(&j, "sigma_up", sb_frame_typed(f, s->bit.doubt.up_m));
	sb_json_end(&j);
	sb_json_object(&j, "corridor");
	sb_json_text(&j, "level", sb_level_word(s->bit.level));
	sb_json_exact(&j, "share", s->bit.use.share);
	sb_json_exact(&j, "chance_outside", s->bit.outside);
	if (s->ahead.leaves_held)
		sb_json_whole(&j, "leaves_at_joint", s->ahead.leaves_held);
	else
		sb_json_null(&j, "leaves_at_joint");
	sb_json_end(&j);
	put_budget(&j, &s->budget);
	put_response(&j, f, &s->response);
	put_plan(&j, f, plan);
	if (w && w->joints) {
		sb_json_object(&j, "withdraw");
		sb_json_whole(&j, "joints", w->joints);
		sb_json_whole(&j, "to_joint", w->to_joint);
		put_plan(&j, f, &w->plan);
		sb_json_end(&j);
	} else {
		sb_json_null(&j, "withdraw");
	}
	sb_passings_ahead(&j, job, s, plan);
	sb_json_end(&j);
	sb_str_append(out, sb_str_get(&j.text), j.text.length);
	sb_str_clear(&j.text);
}

static void say_joints(
	const struct job *job, const struct solution *s, const struct plan *p, struct sb_str *out)
{
	struct setup setup = sb_solution_setup(job, s);
	const struct frame *f = &s->frame;

	sb_str_add(out, "  joint    incl    azim   station    offset    height  order\n");
	for (size_t i = 0; i < p->count; i++) {
		const struct plan_joint *j = &p->joints[i];
		char order[96], station[SB_AXIS_TEXT];
		double offset = sb_frame_typed(f, j->deviation.offset_m),
		       height = sb_frame_typed(f, j->deviation.height_m);
		sb_steering_order(&setup, j, job->face_as == FACE_CLOCK, order);
		sb_axis_station(j->deviation.station_m, job->unit, 1, station);
		sb_str_add(out, "  %5d %7.2f %7.1f %9s %6.2f %s %6.2f %s  %s\n", j->joint,
			sb_frame_inc_typed(f, j->target.inc_rad), sb_frame_azi_typed(f, j->target.azi_rad),
			station, fabs(offset), offset >= 0 ? "R" : "L", fabs(height),
			height >= 0 ? "high" : "low ", order);
	}
}

static void say_response(const struct job *job, const struct solution *s, struct sb_str *out)
{
	const struct response *r = &s->response;
	double per_length = sb_deg(1) * s->frame.metre;
	const char *unit = sb_unit_short(job->unit);

	if (r->slides == 0) {
		sb_str_add(out, "ground   %s: %.3f deg turned per %s slid. Nothing learnt yet.\n",
			r->guess_given ? "the job sheet's guess"
				       : "no guess in the job sheet; taken from the bend limit",
			r->yield * per_length, unit);
		return;
	}
	sb_str_add(out,
		"ground   turns %.3f deg per %s slid, give or take %.3f, from %zu slides; rotating drifts %.4f %s, %.4f %s\n",
		r->yield * per_length, unit, r->yield_sigma * per_length, r->slides,
		fabs(r->drift_up) * per_length, r->drift_up < 0 ? "down" : "up",
		fabs(r->drift_right) * per_length, r->drift_right < 0 ? "left" : "right");
	sb_str_add(out,
		"         the hole turns %.0f deg %s of the tool face shown, give or take %.0f; the orders count it in\n",
		fabs(sb_deg(r->face_error_rad)), r->face_error_rad >= 0 ? "clockwise" : "anticlockwise",
		sb_deg(r->face_error_sigma_rad));
}

void sb_ahead_text(const struct job *job, const struct solution *s, const struct plan *plan,
	const struct withdrawal *w, struct sb_str *out)
{
	struct setup setup = sb_solution_setup(job, s);

	if (!plan->known) {
		sb_str_add(out, "The bit is past the exit: there is nothing to plan.\n");
		return;
	}
	say_response(job, s, out);
	if (plan->count && plan->feasible) {
		char order[96];
		sb_steering_order(&setup, &plan->joints[0], job->face_as == FACE_CLOCK, order);
		sb_str_add(out, "joint %d  %s\n", plan->joints[0].joint, order);
	}
	sb_str_add(out, "why      %s\n", plan->words);
	if (!plan->feasible && w) {
		if (w->joints)
			sb_str_add(out, "pull back %d joint%s, to joint %d: from there it can be done.\n",
				w->joints, w->joints == 1 ? "" : "s", w->to_joint);
		else
			sb_str_add(
				out, "Pulling back as far as can be seen does not help. Ask the engineer.\n");
	}
	sb_passings_plan(job, s, plan, out);
	if (plan->feasible) {
		say_joints(job, s, plan, out);
	} else if (w && w->joints) {
		say_joints(job, s, &w->plan, out);
	}
}

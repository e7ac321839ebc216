/* Drilling a whole bore by simulation, and who gives the orders. */
#include "model/fact.h"
#include "model/rehearsal.h"

#include "geom/angle.h"
#include "model/fixes.h"
#include "model/steering.h"
#include "rehearsal_truth.h"
#include "response_filter.h"

#include <math.h>

/* A plan for the next joint: also where no plan keeps every limit, the best that can be done is followed.
 * Nobody pulls back in a measured bore. */
static struct order plan_order(
	const struct setup *setup, const struct path *p, const struct response *response)
{
	struct plan plan;

	sb_steering_make(setup, p, response, &plan);
	if (!plan.known || plan.count == 0 || !(plan.joints[0].slid_m > 0))
		return (struct order){ 0, 0 };
	return (struct order){ plan.joints[0].tool_face_rad, plan.joints[0].slid_m };
}

/* The filter is put where the hole truly is, so that it sees the bit's true place and heading. */
static void tell_bit(
	const struct rehearsal *r, const struct setup *setup, const struct path *p, struct response *told)
{
	const struct stand *bit = &r->stands[r->stand_count - 1];
	struct attitude heading;
	struct vec3 at;
	double inc, azi;

	sb_vec3_attitude(bit->heading, &inc, &azi);
	sb_response_bit(setup, p, told, &at, &heading);
	told->all.state[HEADING_UP] += inc - heading.inc_rad;
	told->all.state[HEADING_RIGHT] += sb_wrap_half(azi - heading.azi_rad) * sin(inc);
	sb_response_bit(setup, p, told, &at, &heading);
	told->all.state[PLACE_UP] += bit->at.u - at.u;
	told->all.state[PLACE_RIGHT] += (bit->at.e - at.e) * cos(azi) - (bit->at.n - at.n) * sin(azi);
}

/* Informed: the heading as the program filters it along, with the truth for what the ground gives. (Measured
 * against the bare reading and against a filter that holds the truth fast: of the three it comes out clean
 * about as often as the best, with the least turning.) Aim: the sheet's guess, all through. */
static struct order next_order(const struct rehearsal *r, const struct setup *setup, const struct solution *s,
	enum rehearsal_by by, double length_m)
{
	struct response told = s->response;

	switch (by) {
	case BY_ADVICE:
		return plan_order(setup, &s->path, &s->response);
	case BY_INFORMED:
		sb_rehearsal_true_response(r, &told);
		return plan_order(setup, &s->path, &told);
	case BY_SEEING:
		sb_rehearsal_true_response(r, &told);
		tell_bit(r, setup, &s->path, &told);
		return plan_order(setup, &s->path, &told);
	case BY_AIM:
		break;
	}
	sb_response_begin(setup, &told);
	return rehearsal_aim(setup, &s->path, &told, length_m);
}

/* Facts come in the order of time; who adjusts asks which came first. */
static int64_t next_act(const struct job *job)
{
	return (int64_t)(job->reading_count + job->fix_count + job->adjustment_count) + 1;
}

/* One fix, and what it proposes taken: as an engineer would who trusts the coil. */
static int fix_and_adjust(const struct rehearsal *r, struct job *job, struct solution *s,
	const struct fix_accuracy *accuracy, struct sb_err *err)
{
	struct adjustment a = { .taken = 0 };
	struct fix fix;

	sb_rehearsal_fix(r, accuracy, &fix);
	fix.fact = (struct fact){ .id = 1, .act = next_act(job), .leg = 1, .joint = sb_job_in_ground(job) };
	sb_fact_add(job, ACT_FIX, &fix);
	if (sb_solve(job, s, NULL, err))
		return -1;
	sb_fixes_adjustment(&s->fixes, &a);
	a.fact = (struct fact){ .id = 1, .act = next_act(job), .leg = 1, .joint = sb_job_in_ground(job) };
	a.taken = 1;
	sb_fact_add(job, ACT_ADJUST, &a);
	return sb_solve(job, s, NULL, err);
}

static int drill_next(
	struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by, struct sb_err *err)
{
	struct setup setup = sb_solution_setup(job, s);
	double length = sb_frame_metres(&s->frame, sb_job_tally(job, sb_job_in_ground(job) + 1).value);
	struct order order = next_order(r, &setup, s, by, length);
	struct reading reading;
	size_t changed;

	sb_rehearsal_drill(r, length, order.tool_face_rad, order.slid_m, &reading);
	reading.id = job->reading_count ? job->readings[job->reading_count - 1].id + 1 : 1;
	reading.act = next_act(job);
	sb_job_add_reading(job, &reading);
	return sb_solve_joint(job, s, &changed, err);
}

/* accuracy: NULL: no fix. */
static int run(struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by,
	const struct fix_accuracy *accuracy, struct rehearsal_figures *out, struct sb_err *err)
{
	struct stand end;
	double station;
	bool fixed = accuracy == NULL;

	if (sb_job_in_ground(job) > 0 || r->joint_count > 0)
		return sb_fail(
			err, SB_STATE, "A rehearsal begins before the first joint; this log has joints.");
	if (sb_solve(job, s, NULL, err))
		return -1;
	/* A bore that does not come out is given up a fifth past the design's length. */
	double most = 1.2 * r->design.length_m + 30;
	while (!rehearsal_out(r, &end, &station) && r->stands[r->stand_count - 1].md_m < most) {
		if (drill_next(r, job, s, by, err))
			return -1;
		if (fixed || s->bit.deviation.station_m < r->design.length_m / 2)
			continue;
		fixed = true;
		if (fix_and_adjust(r, job, s, accuracy, err))
			return -1;
	}
	sb_rehearsal_measure(r, out);
	return 0;
}

int sb_rehearsal_run(struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by,
	struct rehearsal_figures *out, struct sb_err *err)
{
	return run(r, job, s, by, NULL, out, err);
}

int sb_rehearsal_run_fixed(struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by,
	const struct fix_accuracy *accuracy, struct rehearsal_figures *out, struct sb_err *err)
{
	return run(r, job, s, by, accuracy, out, err);
}

/* Who gives the orders: the program's own advice, the same told the true response, or a simple rule that is a
 * good one.
 */
#include "model/rehearsal.h"

#include "base/mem.h"
#include "geom/angle.h"
#include "model/steering.h"
#include "rehearsal_parts.h"

#include <math.h>
#include <string.h>

struct order {
	double face_rad, slid_m;
};

static struct order by_plan(
	const struct setup *setup, const struct solution *s, const struct response *response)
{
	struct order o = { 0, 0 };
	struct plan plan;

	sb_steering_make(setup, &s->path, response, &plan);
	if (plan.known && plan.count && plan.joints[0].slid_m > 0)
		o = (struct order){ plan.joints[0].tool_face_rad, plan.joints[0].slid_m };
	return o;
}

/* The simple rule: from where the bit is and heads by its own orders not yet surveyed and the sheet's guess,
 * straight at the design point four joints ahead; no more in a joint than its bend limit and its share of the
 * window's; drift made up for; what is hardly a slide is left out. */
static struct order by_aim(const struct setup *setup, const struct solution *s, double length_m)
{
	const struct job *job = setup->job;
	struct response guess;
	struct attitude heading;
	struct vec3 bit;
	double limit = HUGE_VAL, inc, azi;

	sb_response_begin(setup, &guess);
	sb_response_bit(setup, &s->path, &guess, &bit, &heading);
	struct deviation d =
		sb_deviation(setup->design, bit, NULL, sb_path_back(&s->path, 0)->deviation.station_m);
	struct design_place target = sb_design_at(
		setup->design, d.station_m + 4 * length_m * hypot(heading.heading.n, heading.heading.e));
	sb_vec3_attitude(sb_vec3_sub(target.at, bit), &inc, &azi);
	double up = inc - heading.inc_rad, right = sb_wrap_half(azi - heading.azi_rad) * sin(inc);
	if (sb_number_given(&job->joint_minimum))
		limit = length_m / sb_frame_metres(setup->frame, job->joint_minimum.value);
	if (sb_number_given(&job->window_minimum))
		limit = fmin(limit, length_m / sb_frame_metres(setup->frame, job->window_minimum.value));
	double size = hypot(up, right);
	if (size > limit) {
		up *= limit / size;
		right *= limit / size;
	}
	up -= guess.drift_up * length_m;
	right -= guess.drift_right * length_m;
	double slid = fmin(hypot(up, right) / guess.yield, length_m);
	if (slid < 0.08 * length_m)
		return (struct order){ 0, 0 };
	return (struct order){ sb_wrap_turn(atan2(right, up) - sb_rad(job->tool_face_offset.value)), slid };
}

static struct order ask(const struct rehearsal *r, const struct setup *setup, const struct solution *s,
	enum rehearsal_by by, double length_m)
{
	struct response told = s->response;

	switch (by) {
	case BY_ADVICE:
		return by_plan(setup, s, &s->response);
	case BY_INFORMED:
		sb_rehearsal_true_response(r, &told);
		return by_plan(setup, s, &told);
	case BY_AIM:
		break;
	}
	return by_aim(setup, s, length_m);
}

static bool is_out(const struct rehearsal *r)
{
	const struct true_station *end = &r->stations[r->count - 1];
	struct deviation d = sb_deviation(&r->design, end->at, NULL, r->design.length_m);

	return d.station_m >= r->design.length_m ||
		(end->at.u >= r->design.exit_elevation_m && d.station_m > r->design.length_m / 2);
}

int sb_rehearsal_run(struct rehearsal *r, struct job *job, struct solution *s, enum rehearsal_by by,
	struct rehearsal_figures *out, struct sb_err *err)
{
	const int most =
		(int)(2 * r->design.length_m / sb_frame_metres(&r->frame, job->joint_length.value)) + 20;
	size_t changed;

	if (sb_solve(job, s, NULL, err))
		return -1;
	while ((int)r->joint_count - 1 < most && !is_out(r)) {
		struct setup setup = { job, &s->frame, &s->design, &s->corridor };
		double length =
			sb_frame_metres(&s->frame, sb_job_tally(job, sb_job_in_ground(job) + 1).value);
		struct order o = ask(r, &setup, s, by, length);
		struct reading reading;
		sb_rehearsal_drill(r, length, o.face_rad, o.slid_m, &reading);
		reading.leg = sb_job_leg(job);
		reading.joint = sb_job_in_ground(job) + 1;
		reading.id = job->reading_count ? job->readings[job->reading_count - 1].id + 1 : 1;
		sb_job_add_reading(job, &reading);
		if (sb_solve_joint(job, s, &changed, err))
			return -1;
	}
	sb_rehearsal_measure(r, out);
	return 0;
}

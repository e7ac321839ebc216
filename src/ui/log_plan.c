/* The plan behind the order on the main screen, and the joint that a rehearsal drills by it. */
#include "geom/angle.h"
#include "model/rehearsal.h"
#include "ui/app.h"
#include "ui/log.h"

#include <math.h>
#include <string.h>

static void plan(const struct job *job, const struct solution *s, struct plan *out, struct withdrawal *back)
{
	struct setup setup = sb_solution_setup(job, s);

	sb_steering_make(&setup, &s->path, &s->response, out);
	memset(back, 0, sizeof *back);
	if (out->known && !out->feasible)
		sb_steering_withdraw(&setup, &s->path, &s->response, back);
}

/* What to do next, made when the job changes and not when a frame is drawn. */
void sb_log_plan(struct view *v)
{
	struct log_state *s = v->state;

	plan(v->job, v->solution, &s->plan, &s->withdrawal);
}

/* Solved from the start, so that it is to the last bit the plan that logging the reading would bring; a
 * thousand joints take some hundredths of a second, and nobody drills as many. */
void sb_log_plan_then(struct view *v, const struct reading *r)
{
	struct log_state *s = v->state;
	struct job job;
	struct solution solution = { 0 };
	struct reading logged = *r;

	sb_job_copy(v->job, &job);
	logged.id = job.reading_count ? job.readings[job.reading_count - 1].id + 1 : 1;
	logged.act = INT64_MAX; /* after every change and fix so far */
	sb_job_add_reading(&job, &logged);
	s->followed = sb_solve(&job, &solution, NULL, NULL) == 0;
	if (s->followed)
		plan(&job, &solution, &s->then, &s->then_back);
	s->then_slides = solution.response.slides;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
}

/* The next joint of a rehearsal: drilled by simulation with the order that is typed, or else the plan's. The
 * reading goes into the entry line, as if the tool had given it. */
enum follow sb_log_drill(struct view *v)
{
	struct log_state *s = v->state;
	struct sb_err err = { 0 };
	struct reading order, read;
	const struct plan_joint *next = s->plan.known && s->plan.count ? &s->plan.joints[0] : NULL;

	sb_log_trial(v, false);
	if (sb_log_reading(v, false, &order, &err))
		return sb_app_fail(v, &err);
	struct rehearsal *truth = sb_rehearsal_of(v->job, &err);
	if (truth == NULL)
		return sb_app_fail(v, &err);
	double slid = sb_frame_metres(&v->solution->frame, order.slid.value),
	       face = sb_rad(order.tool_face.value);
	if (!sb_number_given(&order.slid) && next) {
		slid = next->slid_m;
		face = slid > 0 ? next->tool_face_rad : 0;
	}
	double length = sb_frame_metres(&v->solution->frame, order.joint_length.value);
	sb_rehearsal_drill(truth, length, face, fmin(slid, length), &read);
	sb_rehearsal_free(truth);
	sb_form_put(&s->entry, "inclination", read.inclination.text, false);
	sb_form_put(&s->entry, "azimuth", read.azimuth.text, false);
	sb_form_put(&s->entry, "slid", read.slid.text, false);
	sb_form_put(&s->entry, "tool_face", read.tool_face.text, false);
	sb_log_changed(v);
	return sb_app_say(v, LEVEL_OK, "Rehearsal: joint %d is drilled and read. Enter logs it.", s->joint);
}

/* What the next joints shall do; after the pilot, what the next pass has to. */
#include "model/steering.h"

#include "base/mem.h"
#include "handover_parts.h"
#include "io/opening.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void add(const struct solution *s, int joint, double inc_rad, double azi_rad, struct next_joints *n)
{
	size_t used = strlen(n->joints);
	double inclination = sb_frame_inc_typed(&s->frame, inc_rad);
	double azimuth = sb_frame_azi_typed(&s->frame, azi_rad);

	n->list[n->count].joint = joint;
	n->list[n->count].inclination = inclination;
	n->list[n->count++].azimuth = azimuth;
	snprintf(n->joints + used, sizeof n->joints - used, "%8d", joint);
	snprintf(n->inclinations + used, sizeof n->inclinations - used, "%8.1f", inclination);
	snprintf(n->azimuths + used, sizeof n->azimuths - used, "%8.1f", azimuth);
}

static bool from_plan(const struct job *job, const struct solution *s, struct next_joints *n)
{
	struct setup setup = sb_solution_setup(job, s);
	struct plan *plan = sb_alloc(sizeof *plan);

	sb_steering_make(&setup, &s->path, &s->response, plan);
	bool made = plan->known && plan->feasible && plan->count > 0;
	for (size_t i = 0; made && i < plan->count && i < NEXT_JOINTS; i++)
		add(s, plan->joints[i].joint, plan->joints[i].target.inc_rad, plan->joints[i].target.azi_rad,
			n);
	sb_free(plan);
	return made;
}

/* Where the sensor will be after each of the next joints, gone along the design line, and its heading there.
 */
static void from_design(const struct job *job, const struct solution *s, struct next_joints *n)
{
	const struct row *last = sb_solution_last(s), *on = sb_solution_last_on_path(s);
	double station = on->deviation.station_m;
	double ahead = last->bit_md_m - s->frame.sensor_to_bit_m - on->survey_md_m;

	for (int i = 1; i <= NEXT_JOINTS; i++) {
		struct design_place here = sb_design_at(&s->design, station);
		ahead += sb_frame_metres(&s->frame, sb_job_tally(job, last->joint + i).value);
		station += fmax(ahead, 0) * sin(here.inc_rad);
		if (ahead > 0)
			ahead = 0;
		if (station > s->design.length_m)
			break;
		struct design_place place = sb_design_at(&s->design, station);
		add(s, last->joint + i, place.inc_rad, place.azi_rad, n);
	}
}

void next_take(const struct job *job, const struct solution *s, struct next_joints *out)
{
	memset(out, 0, sizeof *out);
	out->planned = from_plan(job, s, out);
	if (!out->planned)
		from_design(job, s, out);
}

/* ---- after the pilot ---- */

static bool pull_ended(const struct job *job)
{
	for (size_t i = 0; i < job->pull_end_count; i++)
		if (!job->pull_ends[i].struck)
			return true;
	return false;
}

static bool pull_begun(const struct job *job)
{
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (!job->pull_begins[i].struck)
			return true;
	return false;
}

static size_t of_running(const struct job *job, const struct opening *o, char lines[NEXT_LINES][200])
{
	const struct opening_pass *p = o->running;
	struct sb_str left = { 0 };
	char what[SB_OPENING_WHAT];

	sb_opening_what_pass(job, p->pass, what);
	snprintf(lines[0], 200, "pass %d, %.60s", p->number, what);
	if (p->next == 0) {
		snprintf(lines[1], 200, "through all %d joints: it is to be ended", o->bore_joints);
		return 2;
	}
	snprintf(lines[1], 200, "joint %d next, %d of %d left", p->next, p->left, o->bore_joints);
	sb_opening_left_words(&p->best, &p->likely, &left);
	snprintf(lines[2], 200, "time left: %.180s", sb_str_get(&left));
	sb_str_clear(&left);
	return 3;
}

size_t next_after(const struct job *job, char lines[NEXT_LINES][200])
{
	struct opening o;
	size_t count = 1;

	if (sb_job_accepted(job) == NULL)
		return 0;
	if (pull_begun(job)) {
		snprintf(lines[0], 200, "%s",
			pull_ended(job) ? "the product pipe is in"
					: "the pull of the product pipe goes on: see pull");
		return 1;
	}
	sb_opening_take(job, &o);
	if (o.running)
		count = of_running(job, &o, lines);
	else if (o.count)
		snprintf(lines[0], 200, "no pass runs: pass %d was the last, %s of %s",
			o.list[o.count - 1].number, sb_pass_kind_name(o.list[o.count - 1].pass->kind),
			o.list[o.count - 1].pass->diameter.text);
	else
		snprintf(lines[0], 200, "the pilot is accepted: the hole is opened next");
	sb_opening_clear(&o);
	return count;
}

/* What the next joints shall do. */
#include "model/steering.h"

#include "base/mem.h"
#include "handover_parts.h"

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

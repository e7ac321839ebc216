/* What is measured of a rehearsal, on the true hole. */
#include "model/rehearsal.h"

#include "geom/angle.h"
#include "geom/bend.h"
#include "rehearsal_parts.h"

#include <math.h>
#include <string.h>

/* The corridor at every station of the truth, up to where it comes out. */
static void measure_corridor(const struct rehearsal *r, struct rehearsal_figures *f)
{
	double station = 0, outside = 0, last_md = 0;

	for (size_t i = 1; i < r->count; i++) {
		const struct true_station *s = &r->stations[i];
		struct deviation d = sb_deviation(&r->design, s->at, NULL, station);
		station = d.station_m;
		bool above = s->at.u >= r->design.exit_elevation_m && station > r->design.length_m / 2;
		if (above || station >= r->design.length_m) {
			f->out = true;
			f->exit_long_m = station - r->design.length_m;
			f->exit_right_m = d.offset_m;
			f->exit_high_m = d.height_m;
			last_md = s->md_m;
			if (above)
				break;
			/* Past the exit's station and still below: it comes out further on, along its
			 * heading. */
			struct attitude a = sb_attitude(s->inc_rad, s->azi_rad);
			double rise = fmax(a.heading.u, 0.02);
			f->exit_long_m += fmax(r->design.exit_elevation_m - s->at.u, 0) / rise;
			break;
		}
		struct corridor_limits c = sb_corridor_at(&r->corridor, station);
		double share = sb_corridor_use(&c, d.offset_m, d.height_m).share;
		f->worst_share = fmax(f->worst_share, share);
		outside += share > 1 ? s->md_m - r->stations[i - 1].md_m : 0;
		last_md = s->md_m;
	}
	f->outside_share = last_md > 0 ? outside / last_md : 0;
	const struct corridor *c = &r->corridor;
	f->exit_in_window = f->out && f->exit_long_m <= c->exit_long_m &&
		-f->exit_long_m <= c->exit_short_m && f->exit_right_m <= c->exit_right_m &&
		-f->exit_right_m <= c->exit_left_m;
}

/* The window bend limit, by the contract's window and method, on true headings where the readings were taken.
 */
static void measure_windows(const struct rehearsal *r, struct rehearsal_figures *f)
{
	const struct job *job = r->job;
	size_t joints = (size_t)job->window_joints.value;
	double limit_m = sb_frame_metres(&r->frame, job->window_minimum.value);

	if (!sb_number_given(&job->window_minimum) || sb_number_given(&job->window_length))
		return;
	for (size_t i = joints; i < r->joint_count; i++) {
		double from = r->joint_ends[i - joints] - r->frame.sensor_to_bit_m,
		       to = r->joint_ends[i] - r->frame.sensor_to_bit_m, sum = 0;
		if (from < 0)
			continue;
		struct attitude first = sb_rehearsal_attitude(r, from), last = sb_rehearsal_attitude(r, to);
		for (size_t k = i - joints; k < i; k++) {
			struct attitude a =
				sb_rehearsal_attitude(r, r->joint_ends[k] - r->frame.sensor_to_bit_m);
			struct attitude b =
				sb_rehearsal_attitude(r, r->joint_ends[k + 1] - r->frame.sensor_to_bit_m);
			sum += sb_arc_dogleg(&a, &b);
		}
		double angle = job->method == METHOD_SUM ? sum : sb_arc_dogleg(&first, &last);
		f->windows++;
		f->broken_windows += angle > (to - from) / limit_m;
	}
}

void sb_rehearsal_measure(const struct rehearsal *r, struct rehearsal_figures *f)
{
	const struct true_station *end = &r->stations[r->count - 1];

	memset(f, 0, sizeof *f);
	f->joints = (int)r->joint_count - 1;
	measure_corridor(r, f);
	measure_windows(r, f);
	f->slid_share = end->md_m > 0 ? end->slid_m / end->md_m : 0;
	f->turning_rad = end->turn_rad;
	f->clean = f->outside_share == 0 && f->exit_in_window && f->broken_windows == 0;
}

/* What came of a rehearsed bore, measured on the true hole, which no hand at a rig ever sees.
 *
 * The corridor at places half a metre apart at most; the window bend limit by the contract's own rule
 * (model/path.h) from the true headings where the surveys were taken; the exit where the hole comes out.
 */
#include "model/rehearsal.h"

#include "geom/angle.h"
#include "rehearsal_truth.h"

#include <math.h>
#include <string.h>

static const double look_every_m = 0.5;

static double share_at(const struct rehearsal *r, struct vec3 at, double *station_m)
{
	double offset;

	*station_m = sb_design_station(&r->design, at, *station_m, &offset);
	double height = at.u - sb_chain_height(r->design.profile, r->design.profile_count, *station_m).y;
	struct corridor_limits limits = sb_corridor_at(&r->corridor, *station_m);
	return sb_corridor_use(&limits, offset, height).share;
}

/* Up to end_m, but not past the exit's station: from there on the exit window judges. */
static void measure_corridor(const struct rehearsal *r, double end_m, struct rehearsal_figures *f)
{
	double station = 0, last = 0, outside = 0, left_m = 0;

	for (size_t i = 0; i < r->stand_count && r->stands[i].md_m <= end_m; i++) {
		double md = r->stands[i].md_m;
		bool wanted =
			i == 0 || i + 1 == r->stand_count || r->stands[i + 1].md_m > last + look_every_m;
		if (!wanted)
			continue;
		double share = share_at(r, r->stands[i].at, &station);
		if (station > r->design.length_m)
			break;
		f->worst_share = fmax(f->worst_share, share);
		outside += share > 1 + 1e-9 ? md - last : 0;
		left_m = share > 1 + 1e-9 ? md : left_m;
		last = md;
	}
	f->outside_share = last > 0 ? outside / last : 0;
	f->inside_from = last > 0 ? left_m / last : 0;
}

/* The true hole as a log without error would have it: attitudes at the survey depths, typed to more digits
 * than anybody reads. */
static void true_path(const struct rehearsal *r, const struct setup *setup, struct path *p)
{
	sb_path_begin(setup, p);
	for (size_t i = 0; i < r->joint_count; i++) {
		const struct rehearsed *j = &r->joints[i];
		struct stand s = rehearsal_at(r, fmax(j->bit_md_m - r->frame.sensor_to_bit_m, 0));
		struct reading reading = { .leg = 1, .joint = (int)i + 1, .joint_length = j->length };
		double inc, azi;
		sb_vec3_attitude(s.heading, &inc, &azi);
		reading.inclination = sb_number_of(sb_frame_inc_typed(&r->frame, inc), 12);
		reading.azimuth = sb_number_of(sb_frame_azi_typed(&r->frame, azi), 12);
		sb_path_append(setup, p, &reading);
	}
}

static void measure_bends(const struct rehearsal *r, double end_m, struct rehearsal_figures *f)
{
	struct setup setup = rehearsal_setup(r);
	double limit = sb_frame_metres(&r->frame, r->job.window_minimum.value);
	struct path p = { 0 };

	true_path(r, &setup, &p);
	for (size_t i = 1; i < p.count; i++) {
		const struct row *row = &p.rows[i];
		if (row->survey_md_m > end_m || !row->on_path)
			continue;
		f->turning_rad += row->dogleg_rad;
		if (limit <= 0 || row->window.joints == 0)
			continue;
		f->windows++;
		f->broken_windows += row->window.radius_m < limit * (1 - 1e-9);
	}
	sb_path_clear(&p);
}

static void measure_exit(
	const struct rehearsal *r, const struct stand *out, double station_m, struct rehearsal_figures *f)
{
	const struct corridor *c = &r->corridor;

	f->exit_long_m = station_m - r->design.length_m;
	sb_design_station(&r->design, out->at, station_m, &f->exit_right_m);
	f->exit_high_m = out->at.u - sb_chain_height(r->design.profile, r->design.profile_count, station_m).y;
	f->exit_in_window = f->exit_long_m <= c->exit_long_m && -f->exit_long_m <= c->exit_short_m &&
		f->exit_right_m <= c->exit_right_m && -f->exit_right_m <= c->exit_left_m;
}

void sb_rehearsal_measure(const struct rehearsal *r, struct rehearsal_figures *f)
{
	double slid = 0, end = r->stands[r->stand_count - 1].md_m, station = 0;
	struct stand out;

	memset(f, 0, sizeof *f);
	f->joints = (int)r->joint_count;
	for (size_t i = 0; i < r->joint_count; i++)
		slid += r->joints[i].slid_m;
	f->slid_share = end > 0 ? slid / end : 0;
	f->out = rehearsal_out(r, &out, &station);
	if (f->out) {
		measure_exit(r, &out, station, f);
		end = out.md_m;
	}
	measure_corridor(r, end, f);
	measure_bends(r, end, f);
	f->clean = f->exit_in_window && f->outside_share == 0 && f->broken_windows == 0;
}

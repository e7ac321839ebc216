/* The as-drilled path. One row a joint; each looks back only at the row before it on the path, and at the
 * joints of its window, so appending costs the same at joint 10 and at joint 10,000. */
#include "model/path.h"

#include "base/mem.h"
#include "geom/angle.h"
#include "geom/bend.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "path_parts.h"

static const struct window no_window = {
	.radius_m = HUGE_VAL, .radius_ends_m = HUGE_VAL, .radius_sum_m = HUGE_VAL
};

/* The design line at a station, as its two chains have it. */
struct line_point {
	struct chain_place plan;
	struct chain_height height;
};

static struct line_point line_point(const struct design *d, double station_m)
{
	return (struct line_point){
		.plan = sb_chain_at(d->alignment, d->alignment_count, station_m),
		.height = sb_chain_height(d->profile, d->profile_count, station_m),
	};
}

static struct vec3 off_line(const struct line_point *p, struct vec3 at)
{
	return (struct vec3){ at.n - p->plan.x, at.e - p->plan.y, at.u - p->height.y };
}

static double distance_at(const struct design *d, struct vec3 at, double station_m)
{
	struct line_point p = line_point(d, station_m);

	return sb_vec3_length(off_line(&p, at));
}

/* The same foot by walking: no slope is asked for, so a corner of the line does no harm. For what Newton's
 * method does not reach. */
static double walk_to_foot(const struct design *d, struct vec3 at, double station_m)
{
	double s = station_m, best = distance_at(d, at, s), reach = best;

	/* The foot lies no further along than the distance that is to be beaten. */
	for (int i = -32; i <= 32; i++) {
		double place = station_m + reach * i / 32, distance = distance_at(d, at, place);
		if (distance < best) {
			best = distance;
			s = place;
		}
	}
	for (double step = reach / 64; step > 1e-9; step /= 2)
		for (int side = -1; side <= 1; side += 2) {
			double distance = distance_at(d, at, s + side * step);
			if (distance < best) {
				best = distance;
				s += side * step;
			}
		}
	return best;
}

/* Where the square from a point to the design line in space has its foot. Newton's method on
 * (P - D(s)) . D'(s) = 0 from the foot in plan; the line turns so little between the two that three steps
 * reach rounding. */
static double square_distance(
	const struct design *d, struct vec3 at, double station_m, const struct line_point *foot)
{
	double s = station_m, best = HUGE_VAL, step = HUGE_VAL;
	struct line_point p = *foot;

	for (int i = 0; i < 3; i++) {
		if (i > 0)
			p = line_point(d, s);
		struct vec3 off = off_line(&p, at);
		double c = p.plan.cos_bearing, z = p.plan.sin_bearing, m = p.height.slope;
		double along = off.n * c + off.e * z + off.u * m;
		double across = off.e * c - off.n * z;
		double bend = p.height.curvature * (1 + m * m) * sqrt(1 + m * m);
		double slope = 1 + m * m - (across * p.plan.curvature + off.u * bend);
		best = fmin(best, sb_vec3_length(off));
		/* Near the centre of a curve every station is as near: there is no step to take. */
		step = slope < 0.1 ? HUGE_VAL : along / slope;
		if (slope < 0.1 || fabs(step) < 1e-9)
			break;
		s += step;
	}
	/* What a step is still out by, the distance is out by its square over the radius. */
	return fabs(step) < 1e-4 ? best : fmin(best, walk_to_foot(d, at, station_m));
}

struct deviation sb_deviation(
	const struct design *d, struct vec3 at, const struct vec3 *heading, double near_m)
{
	struct deviation out = { 0 };

	out.doubtful = sb_chain_project(d->alignment, d->alignment_count, at.n, at.e, near_m, &out.station_m,
			       &out.offset_m) != 0;
	struct line_point foot = line_point(d, out.station_m);
	out.height_m = at.u - foot.height.y;
	out.square_m = square_distance(d, at, out.station_m, &foot);
	if (heading) {
		double level = sqrt(heading->n * heading->n + heading->e * heading->e);
		out.inc_off_rad = atan2(heading->u, level) - atan(foot.height.slope);
		if (level > 0)
			out.azi_off_rad = sb_wrap_half(atan2(heading->e, heading->n) - foot.plan.bearing);
	}
	return out;
}

const struct row *sb_path_back(const struct path *p, size_t n)
{
	assert(n < p->on_count);
	return &p->rows[p->on_path[p->on_count - 1 - n]];
}

static const struct row *last_row(const struct path *p)
{
	return &p->rows[p->count - 1];
}

bool sb_path_attitude(const struct path *p, struct attitude *out)
{
	if (p->on_count == 0)
		return false;
	if (p->on_count > 1 || p->entry_known) {
		*out = sb_path_back(p, 0)->attitude;
		return true;
	}
	for (size_t i = p->count; i-- > 1;)
		if (p->rows[i].taken) {
			*out = p->rows[i].attitude;
			return true;
		}
	return false;
}

static void place_row(const struct setup *s, double near_m, struct row *row)
{
	row->deviation = sb_deviation(s->design, row->at, &row->attitude.heading, near_m);
	struct corridor_limits limits = sb_corridor_at(s->corridor, row->deviation.station_m);
	row->use = sb_corridor_use(&limits, row->deviation.offset_m, row->deviation.height_m);
}

static void push_row(struct path *p, const struct row *row)
{
	p->rows = sb_grow(p->rows, p->count, &p->room, sizeof *p->rows);
	p->rows[p->count] = *row;
	if (row->on_path) {
		p->on_path = sb_grow(p->on_path, p->on_count, &p->on_room, sizeof *p->on_path);
		p->on_path[p->on_count++] = p->count;
	}
	p->count++;
}

static bool staked(const struct job *job)
{
	return sb_number_given(&job->entry_inclination) && sb_number_given(&job->entry_azimuth);
}

/* Where nothing was staked it heads as the design does, until the first reading says better. */
static struct row entry_row(const struct setup *s)
{
	struct row entry = { .leg = 1, .on_path = true, .radius_m = HUGE_VAL, .window = no_window };
	const struct job *job = s->job;

	entry.at = (struct vec3){ 0, 0, sb_frame_metres(s->frame, job->entry.elevation.value) };
	entry.taken = staked(job);
	if (entry.taken) {
		const struct reading sheet = { .leg = 1, .joint = 0, .logged = 1 };
		struct frame then;
		sb_frame_for(job, s->frame, &sheet, &then);
		entry.attitude = sb_attitude(sb_frame_inc(&then, job->entry_inclination.value),
			sb_frame_azi(&then, job->entry_azimuth.value));
	} else {
		struct design_place start = sb_design_at(s->design, 0);
		entry.attitude = sb_attitude(start.inc_rad, start.azi_rad);
	}
	place_row(s, 0, &entry);
	return entry;
}

void sb_path_begin(const struct setup *s, struct path *p)
{
	struct row entry = entry_row(s);

	assert(p->count == 0);
	p->entry_known = entry.taken;
	push_row(p, &entry);
}

/* One course back from the end: the trial row first, then those on the path. */
static const struct row *course_back(const struct path *p, const struct row *trial, size_t n)
{
	return n == 0 ? trial : sb_path_back(p, n - 1);
}

/* The attitude at the start of the nth course back. The first reading on the path stands for the entry's
 * where none was staked. */
static const struct attitude *start_back(const struct path *p, const struct row *trial, size_t n)
{
	const struct row *row = course_back(p, trial, n + 1);

	return row->joint == 0 && !p->entry_known ? &trial->attitude : &row->attitude;
}

static void finish_window(
	const struct setup *s, const struct attitude *from, const struct row *row, struct window *w)
{
	w->ends_rad = sb_arc_dogleg(from, &row->attitude);
	w->sigma_rad = sb_bend_noise(from, &row->attitude, s->frame->sigma_inc_rad, s->frame->sigma_azi_rad);
	w->radius_ends_m = sb_bend_radius(w->length_m, w->ends_rad);
	w->radius_sum_m = sb_bend_radius(w->length_m, w->sum_rad);
	w->radius_m = s->job->method == METHOD_SUM ? w->radius_sum_m : w->radius_ends_m;
}

static struct window window_by_joints(const struct setup *s, const struct path *p, const struct row *row)
{
	size_t joints = (size_t)s->job->window_joints.value;
	struct window w = no_window;

	if (joints == 0 || p->on_count < joints)
		return w;
	for (size_t n = 0; n < joints; n++) {
		w.length_m += course_back(p, row, n)->course_m;
		w.sum_rad += course_back(p, row, n)->dogleg_rad;
	}
	w.joints = (int)joints;
	finish_window(s, start_back(p, row, joints - 1), row, &w);
	return w;
}

/* The window as a length begins inside a course: its heading there is read off the arc, and the course's
 * dogleg counts in proportion. */
static struct window window_by_length(const struct setup *s, const struct path *p, const struct row *row)
{
	const double touch = 1e-9; /* five joints of 20 make 100 */
	double length = sb_frame_metres(s->frame, s->job->window_length.value);
	struct window w = no_window;

	for (size_t n = 0; n < p->on_count; n++) {
		const struct row *end = course_back(p, row, n);
		const struct attitude *start = start_back(p, row, n);
		double left = length - w.length_m;
		w.joints++;
		if (end->course_m < left - touch) {
			w.length_m += end->course_m;
			w.sum_rad += end->dogleg_rad;
			continue;
		}
		struct arc arc;
		struct vec3 heading = end->attitude.heading;
		double inc, azi;
		left = fmin(left, end->course_m);
		if (sb_arc_between(start, &end->attitude, end->course_m, &arc) != ARC_RANGE)
			sb_arc_at(&arc, end->course_m - left, NULL, &heading);
		sb_vec3_attitude(heading, &inc, &azi);
		struct attitude from = sb_attitude(inc, azi);
		w.sum_rad += end->course_m > 0 ? end->dogleg_rad * left / end->course_m : 0;
		w.length_m = length;
		finish_window(s, &from, row, &w);
		return w;
	}
	return no_window;
}

static void lay_course(const struct setup *s, const struct path *p, const struct reading *r, struct row *row,
	struct laid *laid)
{
	const struct row *from = sb_path_back(p, 0);
	const struct attitude *start = start_back(p, row, 0);
	struct arc arc;

	row->course_m = row->survey_md_m - from->survey_md_m;
	enum arc_status status = sb_arc_between(start, &row->attitude, row->course_m, &arc);
	assert(status != ARC_RANGE);
	row->turned_back = status == ARC_AMBIGUOUS;
	row->dogleg_rad = arc.dogleg_rad;
	row->dogleg_sigma_rad =
		sb_bend_noise(start, &row->attitude, s->frame->sigma_inc_rad, s->frame->sigma_azi_rad);
	row->radius_m = sb_bend_radius(row->course_m, row->dogleg_rad);
	row->stretch = s->frame->stretch;
	row->at = sb_vec3_add(from->at, sb_vec3_scale(arc.step, row->stretch));
	path_lay_slides(s, p, r, start, row, laid);
	if (s->job->course == COURSE_BY_SLIDES)
		row->at = sb_vec3_add(row->at, row->slides.shift);
	place_row(s, from->deviation.station_m, row);
	bool by_length = sb_number_given(&s->job->window_length);
	row->window = by_length ? window_by_length(s, p, row) : window_by_joints(s, p, row);
}

bool sb_path_read(const struct setup *s, const struct path *p, const struct reading *r, struct attitude *out)
{
	struct attitude before;

	if (!sb_reading_taken(r))
		return false;
	double inc = sb_frame_inc(s->frame, r->inclination.value);
	if (r->azimuth_by != AZIMUTH_BY_HOLD) {
		*out = sb_attitude(inc, sb_frame_azi_by(s->frame, r->azimuth_by, r->azimuth.value));
		return true;
	}
	if (!sb_path_attitude(p, &before))
		before = p->rows[0].attitude;
	*out = sb_attitude(inc, before.azi_rad);
	return true;
}

static struct row lay_row(
	const struct setup *s, const struct path *p, const struct reading *r, struct laid *laid)
{
	const struct row *before = last_row(p);
	struct row row = {
		.reading = r->id,
		.leg = r->leg,
		.joint = before->joint + 1,
		.radius_m = HUGE_VAL,
		.taken = sb_reading_taken(r),
		.carried = r->azimuth_by != AZIMUTH_BY_TOOL,
		.window = no_window,
		.slides = { .written = sb_slides_written(r), .shifted = sb_path_back(p, 0)->slides.shifted },
	};

	row.bit_md_m = before->bit_md_m + sb_frame_metres(s->frame, r->joint_length.value);
	row.survey_md_m = row.bit_md_m - s->frame->sensor_to_bit_m;
	row.at = sb_path_back(p, 0)->at;
	row.deviation = sb_path_back(p, 0)->deviation;
	row.attitude = before->attitude;
	row.taken = row.taken && sb_path_read(s, p, r, &row.attitude);
	/* A longer tool puts the sensor back to where it has read before: such a row is a repeat. */
	row.on_path = row.taken && row.survey_md_m > fmax(sb_path_back(p, 0)->survey_md_m, 0);
	laid->count = 0;
	if (row.on_path)
		lay_course(s, p, r, &row, laid);
	return row;
}

struct row sb_path_preview(const struct setup *s, const struct path *p, const struct reading *r)
{
	struct laid laid;

	return lay_row(s, p, r, &laid);
}

const struct row *sb_path_append(const struct setup *s, struct path *p, const struct reading *r)
{
	struct laid laid;
	struct row row = lay_row(s, p, r, &laid);

	if (s->job->course == COURSE_BY_SLIDES && row.slides.known)
		path_keep_slides(p, &row, &laid);
	if (row.on_path && p->on_count == 1 && !p->entry_known) {
		p->rows[0].attitude = row.attitude;
		p->entry_known = true;
	}
	push_row(p, &row);
	return last_row(p);
}

void sb_path_withdraw(const struct setup *s, struct path *p, int to_joint)
{
	for (size_t i = (size_t)to_joint + 1; i < p->count; i++) {
		p->old = sb_grow(p->old, p->old_count, &p->old_room, sizeof *p->old);
		p->old[p->old_count++] = p->rows[i];
	}
	if ((size_t)to_joint + 1 < p->count)
		p->count = (size_t)to_joint + 1;
	while (p->on_count > 0 && p->on_path[p->on_count - 1] >= p->count)
		p->on_count--;
	/* With nothing left on the path the entry's attitude is open again, unless it was staked. */
	if (p->on_count == 1) {
		p->rows[0] = entry_row(s);
		p->entry_known = p->rows[0].taken;
	}
}

void sb_path_clear(struct path *p)
{
	sb_free(p->rows);
	sb_free(p->old);
	sb_free(p->on_path);
	sb_free(p->laid);
	memset(p, 0, sizeof *p);
}

/* The index in on_path of the last row at or before a measured depth. */
static size_t find_depth(const struct path *p, double md_m)
{
	size_t low = 0, high = p->on_count;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (p->rows[p->on_path[middle]].survey_md_m <= md_m)
			low = middle;
		else
			high = middle;
	}
	return low;
}

int sb_path_at(const struct path *p, double md_m, struct vec3 *at, struct vec3 *heading)
{
	size_t i = find_depth(p, md_m);
	const struct row *from = &p->rows[p->on_path[i]];
	struct vec3 step = sb_vec3_scale(from->attitude.heading, md_m - from->survey_md_m);
	struct vec3 direction = from->attitude.heading;

	if (i + 1 < p->on_count) {
		const struct row *to = &p->rows[p->on_path[i + 1]];
		sb_path_course_at(p, from, to, md_m - from->survey_md_m, &step, &direction);
		from = to;
	}
	if (at)
		*at = sb_vec3_add(p->rows[p->on_path[i]].at, step);
	if (heading)
		*heading = direction;
	return from->joint;
}

const struct row *sb_path_row(const struct path *p, int leg, int joint)
{
	if (joint >= 0 && (size_t)joint < p->count && (leg == 0 || p->rows[joint].leg == leg))
		return &p->rows[joint];
	for (size_t i = leg ? p->old_count : 0; i-- > 0;)
		if (p->old[i].leg == leg && p->old[i].joint == joint)
			return &p->old[i];
	return NULL;
}

bool sb_path_present(const struct path *p, const struct row *row)
{
	return row->joint >= 0 && (size_t)row->joint < p->count && row == &p->rows[row->joint];
}

/* The as-drilled path as polylines.
 *
 * A long bore has thousands of joints and a screen some hundred dots, so the path costs what the paper
 * shows: the rows in the window are found by bisection, and where several joints share a dot only every so
 * many are drawn. Otherwise each course is drawn as the arc that it is.
 */
#include "draw/trace.h"

#include <math.h>

#define COURSE_MOST 64 /* pieces in one course */

static void point(const struct plane *p, struct spot at)
{
	sb_scene_point(p->scene, at.x, at.y);
}

/* The points of a course after its start, but not its end: the caller knows that one best. */
static void course(const struct plane *p, struct vec3 from, double station_m, const struct attitude *a,
	const struct attitude *b, double length_m)
{
	struct arc arc;

	if (!(length_m > 0) || sb_arc_between(a, b, length_m, &arc) == ARC_RANGE)
		return;
	/* n pieces of an arc of length L and angle b leave it by L b / (8 n^2) */
	double pieces = ceil(sqrt(length_m * arc.dogleg_rad / (8 * (p->window.dot_m / 10))));
	int count = (int)fmin(pieces, COURSE_MOST);
	for (int i = 1; i < count; i++) {
		struct vec3 offset;
		sb_arc_at(&arc, length_m * i / count, &offset, NULL);
		point(p, sb_plane_ground(p, sb_vec3_add(from, offset), &station_m));
	}
}

/* A course between two rows, laid as the record lays it. */
static void drilled(const struct plane *p, const struct row *from, const struct row *to)
{
	double station_m = from->deviation.station_m;

	if (to->slides.count == 0) {
		course(p, from->at, station_m, &from->attitude, &to->attitude, to->course_m);
		return;
	}
	int count = (int)fmin(2 * (double)to->slides.count, COURSE_MOST);
	for (int i = 1; i < count; i++) {
		struct vec3 offset, heading;
		sb_path_course_at(&p->s->path, from, to, to->course_m * i / count, &offset, &heading);
		point(p, sb_plane_ground(p, sb_vec3_add(from->at, offset), &station_m));
	}
}

static const struct row *on_path(const struct plane *p, size_t i)
{
	return &p->s->path.rows[p->s->path.on_path[i]];
}

/* The first row on the path at or past a station; the bore goes forward, or the window is a little off. */
static size_t first_past(const struct plane *p, double station_m)
{
	size_t low = 0, high = p->s->path.on_count;

	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (on_path(p, middle)->deviation.station_m < station_m)
			low = middle + 1;
		else
			high = middle;
	}
	return low;
}

void sb_trace_drilled(const struct plane *p)
{
	const struct path *path = &p->s->path;
	size_t first = first_past(p, p->window.from_m), end = first_past(p, p->window.to_m);

	first -= first > 0;
	end += end < path->on_count;
	double dots = (p->window.to_m - p->window.from_m) / p->window.dot_m;
	size_t stride = (size_t)((double)(end - first) / (2 * dots)) + 1;

	sb_scene_line(p->scene, MEANING_DRILLED, LINE_HEAVY);
	for (size_t i = first; i < end; i += stride) {
		const struct row *row = on_path(p, i);
		if (stride == 1 && i > first)
			drilled(p, on_path(p, i - 1), row);
		point(p, sb_plane_row(p, row));
	}
	if (stride > 1)
		point(p, sb_plane_row(p, on_path(p, end - 1)));
}

/* One edge of the band. It goes beside the path, so a picture too small to tell the two apart leaves it out.
 */
static void doubt_edge(const struct plane *p, double factor)
{
	const struct path *path = &p->s->path;
	const struct bit *bit = &p->s->bit;
	size_t first = first_past(p, p->window.from_m), end = first_past(p, p->window.to_m);
	if (!(fabs(factor) * sb_plane_sigma(p, &bit->doubt) > 0))
		return;
	double dots = (p->window.to_m - p->window.from_m) / p->window.dot_m;

	first -= first > 0;
	end += end < path->on_count;
	size_t stride = (size_t)((double)(end - first) / (2 * dots)) + 1;
	sb_scene_line(p->scene, MEANING_DOUBT, LINE_DOTTED);
	sb_scene_beside(p->scene, fabs(factor) * sb_plane_sigma(p, &bit->doubt));
	for (size_t i = first; i < end; i += stride) {
		const struct row *row = on_path(p, i);
		const struct doubt *d = &row->doubt;
		point(p, sb_plane_off(p, sb_plane_row(p, row), row->deviation.station_m, d, factor));
	}
	if (bit->known && sb_plane_near(p, bit->deviation.station_m))
		point(p,
			sb_plane_off(p, sb_plane_bit(p, bit), bit->deviation.station_m, &bit->doubt, factor));
}

void sb_trace_doubt(const struct plane *p)
{
	if (p->s->path.on_count < 2)
		return;
	doubt_edge(p, p->s->uncertainty.line_factor);
	doubt_edge(p, -p->s->uncertainty.line_factor);
}

/* The row that a withdrawn stretch continued: the deepest one on the path before `row` that was in the
 * ground in its leg, which is to say was drilled in that leg or an earlier one. */
static const struct row *parent_of(const struct path *path, const struct row *row)
{
	const struct row *best = NULL;

	for (size_t i = 0; i < path->on_count + path->old_count; i++) {
		const struct row *r =
			i < path->on_count ? &path->rows[path->on_path[i]] : &path->old[i - path->on_count];
		if (!r->on_path || r->leg > row->leg || r->joint >= row->joint)
			continue;
		if (best == NULL || r->joint > best->joint || (r->joint == best->joint && r->leg > best->leg))
			best = r;
	}
	return best;
}

void sb_trace_superseded(const struct plane *p)
{
	const struct path *path = &p->s->path;
	const struct row *before = NULL; /* the row drawn last, if the line goes on from there */

	for (size_t i = 0; i < path->old_count; i++) {
		const struct row *row = &path->old[i];
		if (!row->on_path)
			continue;
		if (!sb_plane_near(p, row->deviation.station_m)) {
			before = NULL;
			continue;
		}
		bool goes_on = before && before->leg == row->leg && before->joint < row->joint;
		if (!goes_on) {
			before = parent_of(path, row);
			sb_scene_line(p->scene, MEANING_SUPERSEDED, LINE_DOTTED);
			if (before)
				point(p, sb_plane_row(p, before));
		}
		if (before)
			drilled(p, before, row);
		point(p, sb_plane_row(p, row));
		before = row;
	}
}

/* From a row to a bit ahead of it, along the arc between their headings. */
static void to_bit(const struct plane *p, const struct row *row, const struct bit *bit)
{
	point(p, sb_plane_row(p, row));
	course(p, row->at, row->deviation.station_m, &row->attitude, &bit->attitude,
		bit->md_m - row->survey_md_m);
	point(p, sb_plane_bit(p, bit));
}

void sb_trace_bit(const struct plane *p)
{
	const struct path *path = &p->s->path;
	const struct bit *bit = &p->s->bit;

	if (!bit->known || path->on_count == 0 || !sb_plane_near(p, bit->deviation.station_m))
		return;
	sb_scene_line(p->scene, MEANING_DRILLED, LINE_SOLID);
	to_bit(p, on_path(p, path->on_count - 1), bit);
	sb_scene_mark(p->scene, MEANING_BIT, sb_plane_bit(p, bit));
}

void sb_trace_fixes(const struct plane *p)
{
	const struct fixes *f = &p->s->fixes;

	for (size_t i = 0; i < f->count; i++) {
		double station = f->list[i].station_m;
		if (f->list[i].standing == FIX_STANDS && sb_plane_near(p, station))
			sb_scene_mark(p->scene, MEANING_FIX, sb_plane_ground(p, f->list[i].fixed, &station));
	}
}

/* How far the bore is drawn ahead, metres: past the joint at which it would leave the corridor, so that one
 * sees where; ten joints if it stays inside. */
static double reach(const struct plane *p)
{
	double joint = sb_frame_metres(&p->s->frame, p->job->joint_length.value);
	int last = p->s->path.count > 0 ? p->s->path.rows[p->s->path.count - 1].joint : 0;
	int joints = p->s->ahead.leaves_held > last ? p->s->ahead.leaves_held - last + 1 : 10;

	return joint * fmin(joints, SB_AHEAD_SIGHT);
}

void sb_trace_held(const struct plane *p)
{
	const struct bit *bit = &p->s->bit;
	const int pieces = 32;

	if (!bit->known || !(reach(p) > 0) || !sb_plane_near(p, bit->deviation.station_m))
		return;
	double station = bit->deviation.station_m, ahead = reach(p), ground;
	sb_scene_line(p->scene, MEANING_HELD, LINE_DASHED);
	point(p, sb_plane_bit(p, bit));
	for (int i = 1; i <= pieces; i++) {
		struct vec3 step = sb_vec3_scale(bit->attitude.heading, ahead * i / pieces);
		struct vec3 at = sb_vec3_add(bit->at, step);
		sb_plane_offset(p, at, &station);
		if (sb_design_ground(p->job, &p->s->frame, station, &ground) && at.u > ground)
			return; /* out of the ground: the bore ends */
		point(p, sb_plane_ground(p, at, &station));
	}
}

static void draw_joints(
	const struct plane *p, const struct plan *plan, enum meaning meaning, enum line_kind line)
{
	if (plan == NULL || plan->count == 0)
		return;
	double station = plan->joints[0].deviation.station_m;
	sb_scene_line(p->scene, meaning, line);
	point(p, sb_plane_ground(p, plan->bit, &station));
	for (size_t i = 0; i < plan->count; i++) {
		station = plan->joints[i].deviation.station_m;
		point(p, sb_plane_ground(p, plan->joints[i].at, &station));
	}
}

void sb_trace_plan(const struct plane *p)
{
	draw_joints(p, p->window.pinned, MEANING_PINNED, LINE_DOTTED);
	draw_joints(p, p->window.plan, MEANING_PLAN, LINE_DASHED);
}

void sb_trace_trial(const struct plane *p, const struct preview *trial)
{
	const struct path *path = &p->s->path;

	if (trial == NULL || !trial->bit.known)
		return;
	sb_scene_line(p->scene, MEANING_TRIAL, LINE_SOLID);
	if (trial->row.on_path && path->on_count > 0) {
		const struct row *last = on_path(p, path->on_count - 1);
		point(p, sb_plane_row(p, last));
		course(p, last->at, last->deviation.station_m, &last->attitude, &trial->row.attitude,
			trial->row.course_m);
		to_bit(p, &trial->row, &trial->bit);
	} else {
		if (p->s->bit.known)
			point(p, sb_plane_bit(p, &p->s->bit));
		point(p, sb_plane_bit(p, &trial->bit));
	}
	sb_scene_mark(p->scene, MEANING_TRIAL, sb_plane_bit(p, &trial->bit));
}

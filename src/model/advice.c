/* The bit, where the bore goes from there, and what the next joint may still turn. */
#include "model/advice.h"

#include "geom/angle.h"
#include "geom/bend.h"

#include <math.h>
#include <stdio.h>

static const struct row *end_row(const struct path *p, const struct row *trial)
{
	return trial ? trial : &p->rows[p->count - 1];
}

static bool counts(const struct row *trial)
{
	return trial && trial->on_path;
}

/* The row on the path n before the end, the trial counting as the end if it is on the path. */
static const struct row *back(const struct path *p, const struct row *trial, size_t n)
{
	if (!counts(trial))
		return sb_path_back(p, n);
	return n == 0 ? trial : sb_path_back(p, n - 1);
}

static size_t on_path(const struct path *p, const struct row *trial)
{
	return p->on_count + counts(trial);
}

static bool end_attitude(const struct path *p, const struct row *trial, struct attitude *out)
{
	if (trial && trial->taken && (trial->on_path || (p->on_count == 1 && !p->entry_known))) {
		*out = trial->attitude;
		return true;
	}
	return sb_path_attitude(p, out);
}

/* The last course as an arc to go on along; false when there is none that bends. */
static bool last_arc(const struct path *p, const struct row *trial, struct arc *arc)
{
	if (on_path(p, trial) < 2)
		return false;
	const struct row *end = back(p, trial, 0), *start = back(p, trial, 1);
	/* The course from an entry that was not staked has no bend of its own. */
	if (end->dogleg_rad == 0)
		return false;
	return sb_arc_between(&start->attitude, &end->attitude, end->course_m, arc) == ARC_OK &&
		arc->length_m > 0;
}

/* A point s_m past the end of the path: straight on, or along the last curve. */
static void project(const struct vec3 *from, const struct attitude *held, const struct arc *arc, double s_m,
	struct vec3 *at, struct vec3 *heading)
{
	struct vec3 step = sb_vec3_scale(held->heading, s_m), turned = held->heading;

	if (arc) {
		sb_arc_at(arc, arc->length_m + s_m, &step, &turned);
		step = sb_vec3_sub(step, arc->step);
	}
	*at = sb_vec3_add(*from, step);
	*heading = turned;
}

struct bit sb_advice_bit(const struct setup *s, const struct path *p, const struct row *trial)
{
	struct bit bit = { .by = s->job->projection, .md_m = end_row(p, trial)->bit_md_m };
	const struct row *from = back(p, trial, 0);
	struct attitude held;
	struct arc arc;
	struct vec3 straight, curved, heading, bent;
	double gap = bit.md_m - fmax(from->survey_md_m, 0);

	bit.known = end_attitude(p, trial, &held);
	if (!bit.known)
		held = from->attitude;
	bool bends = last_arc(p, trial, &arc);
	project(&from->at, &held, NULL, gap, &straight, &heading);
	project(&from->at, &held, bends ? &arc : NULL, gap, &curved, &bent);
	bit.apart_m = sb_vec3_length(sb_vec3_sub(curved, straight));
	bit.at = bit.by == PROJECTION_CURVE ? curved : straight;
	if (bit.by == PROJECTION_CURVE)
		heading = bent;
	double inc, azi;
	sb_vec3_attitude(heading, &inc, &azi);
	bit.attitude = sb_attitude(inc, azi);
	bit.deviation = sb_deviation(s->design, bit.at, &heading, from->deviation.station_m);
	struct corridor_limits limits = sb_corridor_at(s->corridor, bit.deviation.station_m);
	bit.use = sb_corridor_use(&limits, bit.deviation.offset_m, bit.deviation.height_m);
	bit.level = bit.use.share > 1 + 1e-9	     ? LEVEL_BREACH
		: bit.use.share >= s->corridor->near ? LEVEL_WATCH
						     : LEVEL_OK;
	return bit;
}

static enum level chance_level(const struct setup *s, const struct bit *bit)
{
	struct chance_limit l = sb_uncertainty_limit(s);

	return bit->outside > l.limit ? LEVEL_BREACH : bit->outside > l.near ? LEVEL_WATCH : LEVEL_OK;
}

void sb_advice_doubt(const struct setup *s, const struct uncertainty *u, const struct response *response,
	const struct path *p, const struct row *trial, struct bit *bit)
{
	const struct row *from = back(p, trial, 0);
	double begin = fmax(from->survey_md_m, 0), gap = bit->md_m - begin, up, right;
	struct attitude held;

	if (!end_attitude(p, trial, &held))
		held = from->attitude;
	sb_response_unsure(s, p, response, begin, bit->md_m, &up, &right);
	/* A curve that goes on doubles the noise of its two readings. */
	double bend = bit->by == PROJECTION_CURVE && from->course_m > 0
		? from->dogleg_sigma_rad * gap / from->course_m
		: 0;
	bit->doubt = sb_uncertainty_ahead(s, u, from, &held, gap, hypot(up, bend) * gap / 2,
		hypot(right, bend) * gap / 2, &bit->deviation);
	bit->outside = sb_uncertainty_outside(s, &bit->deviation, &bit->doubt);
	enum level by_chance = chance_level(s, bit);
	if (by_chance > bit->level)
		bit->level = by_chance;
}

static bool outside(const struct setup *s, struct vec3 at, double *station_m)
{
	double offset;

	*station_m = sb_design_station(s->design, at, *station_m, &offset);
	double height = at.u - sb_chain_height(s->design->profile, s->design->profile_count, *station_m).y;
	struct corridor_limits limits = sb_corridor_at(s->corridor, *station_m);
	return sb_corridor_use(&limits, offset, height).share > 1 + 1e-9;
}

/* How often a joint ahead is looked at: a corridor that narrows and widens within a quarter of a joint is not
 * a corridor. */
#define LOOKS 4

/* The joint in which the corridor would be left, going on from the bit; 0 if not within sight or before
 * the exit. */
static int find_leaving(
	const struct setup *s, const struct bit *bit, const struct arc *arc, int joint, int sight)
{
	double gone = 0, station = bit->deviation.station_m;

	if (outside(s, bit->at, &station))
		return joint > 0 ? joint : 1;
	for (int k = 1; k <= sight; k++) {
		double length = sb_frame_metres(s->frame, sb_job_tally(s->job, joint + k).value);
		for (int i = 1; i <= LOOKS; i++) {
			struct vec3 at, heading;
			project(&bit->at, &bit->attitude, arc, gone + length * i / LOOKS, &at, &heading);
			bool left = outside(s, at, &station);
			if (station > s->design->length_m)
				return 0;
			if (left)
				return joint + k;
		}
		gone += length;
	}
	return 0;
}

static bool drifted_out(const struct setup *s, const struct deviation *d)
{
	struct corridor_limits limits = sb_corridor_at(s->corridor, d->station_m);

	return sb_corridor_use(&limits, d->offset_m, d->height_m).share > 1 + 1e-9;
}

/* One step along a hole that keeps its difference to the design's heading. */
static void drift(const struct design *design, double step_m, struct deviation *d)
{
	double slope = sb_chain_height(design->profile, design->profile_count, d->station_m).slope;
	double rise = atan(slope) + d->inc_off_rad, level = step_m * cos(rise);

	d->station_m += level * cos(d->azi_off_rad);
	d->offset_m += level * sin(d->azi_off_rad);
	d->height_m += step_m * sin(rise) - level * cos(d->azi_off_rad) * slope;
}

/* The same with the bore following the design and keeping its difference in heading. */
static int find_drifting(const struct setup *s, const struct bit *bit, int joint, int sight)
{
	struct deviation d = bit->deviation;

	if (drifted_out(s, &d))
		return joint > 0 ? joint : 1;
	for (int k = 1; k <= sight; k++) {
		double length = sb_frame_metres(s->frame, sb_job_tally(s->job, joint + k).value);
		for (int i = 0; i < LOOKS; i++) {
			drift(s->design, length / LOOKS, &d);
			if (d.station_m > s->design->length_m)
				return 0;
			if (drifted_out(s, &d))
				return joint + k;
		}
	}
	return 0;
}

/* From which station on the design runs straight to the exit; where it ends in a curve, the last two
 * joints. Before it a held heading says nothing of the exit. */
static double last_tangent(const struct setup *s)
{
	const struct design *d = s->design;
	const struct chain_part *plan = &d->alignment[d->alignment_count - 1],
				*profile = &d->profile[d->profile_count - 1];
	double two = d->length_m - 2 * sb_frame_metres(s->frame, s->job->joint_length.value);

	return fmax(plan->curvature == 0 ? plan->at : two, profile->curvature == 0 ? profile->x : two);
}

/* Where the hole that is drilled came up through the exit's elevation: between the last row below it and the
 * next, or the bit. The course is short and nearly straight, so in proportion. */
static struct vec3 came_out(
	const struct setup *s, const struct bit *bit, const struct path *p, const struct row *trial)
{
	double level = s->design->exit_elevation_m;
	struct vec3 above = bit->at;

	for (size_t n = 0; n < on_path(p, trial); n++) {
		struct vec3 at = back(p, trial, n)->at;
		if (at.u < level) {
			double t = (level - at.u) / (above.u - at.u);
			return sb_vec3_add(at, sb_vec3_scale(sb_vec3_sub(above, at), t));
		}
		above = at;
	}
	return above;
}

/* Where the bore comes out, on the last tangent: where it did, or where the heading from the bit meets the
 * exit's elevation while it rises. */
static void find_exit(const struct setup *s, const struct bit *bit, const struct path *p,
	const struct row *trial, struct ahead *a)
{
	double rise = bit->attitude.heading.u, up = s->design->exit_elevation_m - bit->at.u;
	double reach = 10 * sb_frame_metres(s->frame, s->job->joint_length.value);
	struct vec3 at;
	double station;

	if (bit->deviation.station_m < last_tangent(s))
		return;
	if (up <= 0)
		at = came_out(s, bit, p, trial);
	else if (rise >= 0.01 && up / rise <= reach)
		at = sb_vec3_add(bit->at, sb_vec3_scale(bit->attitude.heading, up / rise));
	else
		return;
	station = sb_design_station(s->design, at, s->design->length_m, &a->exit_right_m);
	a->exit_known = true;
	a->exit_long_m = station - s->design->length_m;
}

/* The last curvature as an arc that ends where the bit heads: where the bit was projected along it, the same
 * circle further on. False when there is none that bends. */
static bool arc_at_bit(const struct bit *bit, const struct path *p, const struct row *trial, struct arc *arc)
{
	struct vec3 start;
	double inc, azi;

	if (!last_arc(p, trial, arc))
		return false;
	if (bit->by == PROJECTION_HOLD)
		return true;
	sb_arc_at(arc, bit->md_m - back(p, trial, 0)->survey_md_m, NULL, &start);
	sb_vec3_attitude(start, &inc, &azi);
	struct attitude begin = sb_attitude(inc, azi);
	return sb_arc_between(&begin, &bit->attitude, arc->length_m, arc) == ARC_OK;
}

struct ahead sb_advice_ahead(const struct setup *s, const struct bit *bit, const struct path *p,
	const struct row *trial, int sight)
{
	int joint = end_row(p, trial)->joint;
	struct ahead a = { 0 };
	struct arc arc;

	if (!bit->known)
		return a;
	a.leaves_held = find_leaving(s, bit, NULL, joint, sight);
	a.leaves_kept = find_drifting(s, bit, joint, sight);
	bool bends = arc_at_bit(bit, p, trial, &arc);
	a.leaves_curved = bends ? find_leaving(s, bit, &arc, joint, sight) : a.leaves_held;
	find_exit(s, bit, p, trial, &a);
	return a;
}

static void narrow(struct budget *b, struct bend_room room, const char *by)
{
	if (!b->known || room.least < b->least_rad) {
		b->least_rad = room.least;
		b->by = by;
	}
	b->up_rad = b->known ? fmin(b->up_rad, room.up) : room.up;
	b->down_rad = b->known ? fmin(b->down_rad, room.down) : room.down;
	b->left_rad = b->known ? fmin(b->left_rad, room.left) : room.left;
	b->right_rad = b->known ? fmin(b->right_rad, room.right) : room.right;
	b->known = true;
}

static struct bend_room even_room(double least)
{
	double room = fmax(least, 0);

	return (struct bend_room){ least, room, room, room, room };
}

/* The attitude at the start of the nth course back. A trial that is the first on the path stands for the
 * entry too, where none was staked. */
static struct attitude start_back(const struct path *p, const struct row *trial, size_t n)
{
	const struct row *row = back(p, trial, n + 1);

	return row->joint == 0 && !p->entry_known ? trial->attitude : row->attitude;
}

/* What the window that the next reading will end already holds: its length and doglegs so far, and where it
 * begins (`from` comes in as where the hole heads now). False while there are too few courses for a window.
 */
static bool open_window(const struct setup *s, const struct path *p, const struct row *trial, double next_m,
	double *length_m, double *sum_rad, struct attitude *from)
{
	const double touch = 1e-9; /* five joints of 20 make 100 */
	bool by_length = sb_number_given(&s->job->window_length);
	double want = by_length ? sb_frame_metres(s->frame, s->job->window_length.value) - next_m : HUGE_VAL;
	size_t courses = by_length ? SIZE_MAX : (size_t)s->job->window_joints.value - 1;

	*length_m = *sum_rad = 0;
	for (size_t n = 0; n < courses; n++) {
		if (*length_m >= want - touch)
			return true;
		if (n + 1 >= on_path(p, trial))
			return false;
		const struct row *end = back(p, trial, n);
		double take = fmin(end->course_m, want - *length_m);
		double share = end->course_m > 0 ? take / end->course_m : 1;
		*length_m += take;
		*sum_rad += end->dogleg_rad * share;
		*from = start_back(p, trial, n);
		struct arc arc;
		if (share < 1 && sb_arc_between(from, &end->attitude, end->course_m, &arc) != ARC_RANGE) {
			struct vec3 heading;
			double inc, azi;
			sb_arc_at(&arc, end->course_m - take, NULL, &heading);
			sb_vec3_attitude(heading, &inc, &azi);
			*from = sb_attitude(inc, azi);
			return true;
		}
	}
	return true;
}

struct budget sb_advice_budget(const struct setup *s, const struct path *p, const struct row *trial)
{
	const struct job *job = s->job;
	double next_m = sb_frame_metres(s->frame, sb_job_tally(job, end_row(p, trial)->joint + 1).value);
	struct budget b = { 0 };
	struct attitude now, from;
	double length_m, sum_rad;

	if (!end_attitude(p, trial, &now))
		return b;
	if (sb_number_given(&job->drill_pipe_minimum_radius))
		narrow(&b,
			even_room(next_m / sb_frame_metres(s->frame, job->drill_pipe_minimum_radius.value)),
			"drill pipe");
	if (sb_number_given(&job->joint_minimum))
		narrow(&b, even_room(next_m / sb_frame_metres(s->frame, job->joint_minimum.value)),
			"joint limit");
	from = now;
	if (sb_number_given(&job->window_minimum) &&
		open_window(s, p, trial, next_m, &length_m, &sum_rad, &from)) {
		double limit = (length_m + next_m) / sb_frame_metres(s->frame, job->window_minimum.value);
		if (job->method == METHOD_SUM)
			narrow(&b, even_room(limit - sum_rad), "window limit");
		else
			narrow(&b, sb_bend_room(&from, &now, limit), "window limit");
	}
	return b;
}

static void judge_leaves(
	const struct setup *s, const struct bit *bit, const struct ahead *a, int joint, struct verdict *v)
{
	int within = (int)s->job->look_ahead.value, joints = a->leaves_kept - joint;
	double off = sb_frame_typed(s->frame, bit->use.value_m);

	v->limit = within;
	v->value = a->leaves_kept ? joints : 0;
	if (a->leaves_kept == 0 || joints > within || joint == 0)
		return;
	v->level = LEVEL_WATCH;
	if (joints <= 0)
		snprintf(v->text, sizeof v->text,
			"The bit itself is outside the corridor by now: %.*f %s %s, carried on from the reading. Stop and look.",
			sb_warning_decimals(s, off, sb_frame_typed(s->frame, bit->use.limit_m)), off,
			sb_unit_short(s->job->unit), sb_side_word(bit->use.side));
	else
		snprintf(v->text, sizeof v->text,
			"If it keeps heading off the design as it does, the corridor is left in joint %d, %d ahead. Turn back now.",
			a->leaves_kept, joints);
}

void sb_advice_judge(const struct setup *s, const struct bit *bit, const struct ahead *ahead, int joint,
	struct verdict verdicts[WARNING_KINDS])
{
	judge_leaves(s, bit, ahead, joint, &verdicts[WARNING_LEAVES]);
}

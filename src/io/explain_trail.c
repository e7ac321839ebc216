/* The path, worked out again from what was typed. It knows nothing of the rows that the program keeps but
 * which of them stand for which reading, and which of them are on the path. */
#include "base/mem.h"
#include "geom/angle.h"
#include "geom/bend.h"

#include <assert.h>
#include <math.h>

#include "explain_parts.h"

static const struct reading *reading_of(const struct explaining *x, size_t i)
{
	const struct row *row = x->trail[i];

	return row->reading ? sb_job_reading(x->job, row->reading) : NULL;
}

/* The row of a joint as it was in the ground while a leg was drilled: of that leg, or of one before it that
 * was left there. */
static const struct row *row_in_leg(const struct solution *s, const struct job *job, int leg, int joint)
{
	for (; leg > 1; leg--) {
		const struct leg *l = NULL;
		for (size_t i = 0; i < job->leg_count; i++)
			if (job->legs[i].number == leg)
				l = &job->legs[i];
		if (l && joint > l->to_joint)
			break;
	}
	return sb_path_row(&s->path, leg, joint);
}

static const struct row *row_at(const struct explaining *x, int leg, int joint)
{
	if (leg > sb_job_leg(x->job))
		return NULL;
	if (joint == 0)
		return &x->s->path.rows[0];
	return leg ? row_in_leg(x->s, x->job, leg, joint) : sb_path_row(&x->s->path, 0, joint);
}

int explain_trail(struct explaining *x, int leg, int joint, struct sb_err *err)
{
	size_t count = (size_t)joint + 1;

	if (row_at(x, leg, joint) == NULL)
		return leg ? sb_fail(err, SB_MISSING, "Leg %d has no joint %d.", leg, joint)
			   : sb_fail(err, SB_MISSING, "Joint %d is not in the log: %s%d in the ground.",
				     joint, x->s->path.count == 1 ? "there are " : "the last one is joint ",
				     (int)x->s->path.count - 1);
	x->trail = sb_alloc(count * sizeof(void *));
	x->bit_depth_m = sb_alloc(count * sizeof *x->bit_depth_m);
	for (size_t i = 0; i < count; i++) {
		const struct reading *r;
		x->trail[i] = row_at(x, leg, (int)i);
		assert(x->trail[i]);
		x->bit_depth_m[i] = i ? x->bit_depth_m[i - 1] : 0;
		if ((r = reading_of(x, i)) != NULL)
			x->bit_depth_m[i] += sb_frame_metres(&x->s->frame, r->joint_length.value);
	}
	x->trail_count = count;
	x->row = x->trail[count - 1];
	x->r = reading_of(x, count - 1);
	x->then = explain_frame(x, count - 1);
	return 0;
}

void explain_trail_clear(struct explaining *x)
{
	sb_free(x->trail);
	sb_free(x->bit_depth_m);
	x->trail = NULL;
	x->bit_depth_m = NULL;
}

size_t explain_before(const struct explaining *x, size_t i)
{
	while (i-- > 0)
		if (x->trail[i]->on_path)
			return i;
	return SIZE_MAX;
}

struct frame explain_frame(const struct explaining *x, size_t i)
{
	const struct reading entry = { .leg = 1, .joint = 0, .logged = 1 };
	const struct reading *r = reading_of(x, i);
	struct frame then;

	sb_frame_for(x->job, &x->s->frame, r ? r : &entry, &then);
	return then;
}

static bool staked(const struct explaining *x)
{
	return sb_number_given(&x->job->entry_inclination) && sb_number_given(&x->job->entry_azimuth);
}

/* The row whose azimuth a reading holds on to: the last attitude before it. SIZE_MAX: there was none yet. */
static size_t held_from(const struct explaining *x, size_t i)
{
	size_t from = explain_before(x, i);

	if (from != SIZE_MAX && (from > 0 || staked(x)))
		return from;
	for (size_t k = i; k-- > 1;)
		if (x->trail[k]->taken)
			return k;
	return SIZE_MAX;
}

static double azimuth_at(const struct explaining *x, size_t i)
{
	while (i != SIZE_MAX) {
		const struct reading *r = reading_of(x, i);
		struct frame then = explain_frame(x, i);
		if (r == NULL)
			return staked(x) ? sb_frame_azi(&then, x->job->entry_azimuth.value)
					 : x->trail[i]->attitude.azi_rad;
		if (r->azimuth_by != AZIMUTH_BY_HOLD)
			return sb_frame_azi_by(&then, r->azimuth_by, r->azimuth.value);
		i = held_from(x, i);
	}
	return sb_design_at(&x->s->design, 0).azi_rad;
}

struct attitude explain_attitude(const struct explaining *x, size_t i)
{
	const struct reading *r = reading_of(x, i);
	struct frame then = explain_frame(x, i);

	if (r == NULL && !staked(x))
		return x->trail[i]->attitude;
	double inc = r ? r->inclination.value : x->job->entry_inclination.value;
	return sb_attitude(sb_frame_inc(&then, inc), azimuth_at(x, i));
}

double explain_survey_depth(const struct explaining *x, size_t i)
{
	struct frame then = explain_frame(x, i);

	return i == 0 ? 0 : x->bit_depth_m[i] - then.sensor_to_bit_m;
}

/* What the slides shift, where they are the record: as the ground was known when the course was laid. */
static struct vec3 slides_shift(const struct explaining *x, const struct explain_course *c)
{
	const struct row *row = x->trail[c->to];
	struct course course;

	if (x->job->course != COURSE_BY_SLIDES || row->slides.count == 0)
		return (struct vec3){ 0 };
	sb_course_between(&c->start, &c->end, c->length_m, x->s->path.laid + row->slides.first,
		row->slides.count, &course);
	return sb_vec3_scale(course.shift, c->stretch);
}

struct explain_course explain_course(const struct explaining *x, size_t to)
{
	struct explain_course c = { .from = explain_before(x, to), .to = to };

	assert(c.from != SIZE_MAX);
	c.end = explain_attitude(x, to);
	c.borrowed = c.from == 0 && !staked(x);
	c.start = c.borrowed ? c.end : explain_attitude(x, c.from);
	c.length_m = explain_survey_depth(x, to) - explain_survey_depth(x, c.from);
	sb_arc_between(&c.start, &c.end, c.length_m, &c.arc);
	c.dogleg_rad = c.arc.dogleg_rad;
	c.stretch = explain_frame(x, to).stretch;
	c.shift = slides_shift(x, &c);
	c.step = sb_vec3_add(sb_vec3_scale(c.arc.step, c.stretch), c.shift);
	return c;
}

struct vec3 explain_place(const struct explaining *x, size_t i)
{
	struct vec3 at = { 0, 0, sb_frame_metres(&x->s->frame, x->job->entry.elevation.value) };

	for (size_t k = 1; k <= i; k++)
		if (x->trail[k]->on_path) {
			struct explain_course c = explain_course(x, k);
			/* in two sums, as the path is laid */
			at = sb_vec3_add(at, sb_vec3_scale(c.arc.step, c.stretch));
			at = sb_vec3_add(at, c.shift);
		}
	return at;
}

/* ---- the window ---- */

/* The window begins inside a course: where it heads there. */
static struct attitude inside(const struct explain_course *c, double left_m)
{
	struct vec3 heading;
	double inc, azi;

	sb_arc_at(&c->arc, c->length_m - left_m, NULL, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	return sb_attitude(inc, azi);
}

struct explain_window explain_window(const struct explaining *x, size_t to, double next_m)
{
	const double touch = 1e-9; /* five joints of 20 make 100 */
	bool by_length = sb_number_given(&x->job->window_length);
	double want =
		by_length ? sb_frame_metres(&x->s->frame, x->job->window_length.value) - next_m : HUGE_VAL;
	int courses = by_length ? -1 : (int)x->job->window_joints.value - (next_m > 0);
	struct explain_window w = {
		.to = explain_attitude(x, to), .from = explain_attitude(x, to), .first = to
	};

	for (size_t i = to; w.joints != courses; i = explain_before(x, i)) {
		if (w.length_m >= want - touch)
			break;
		if (i == 0 || i == SIZE_MAX || explain_before(x, i) == SIZE_MAX)
			return (struct explain_window){ 0 };
		struct explain_course c = explain_course(x, i);
		double left = want - w.length_m;
		w.joints++;
		w.first = i;
		w.inside = c.length_m > left + touch;
		w.from = w.inside ? inside(&c, left) : c.start;
		w.length_m += w.inside ? left : c.length_m;
		w.sum_rad += w.inside ? c.dogleg_rad * left / c.length_m : c.dogleg_rad;
	}
	w.full = true;
	w.ends_rad = sb_arc_dogleg(&w.from, &w.to);
	return w;
}

/* ---- as it was ---- */

/* The act by which the joint after these was logged: what changed later was not known. */
static int64_t next_act(const struct job *job, size_t joints)
{
	int64_t act = joints < job->joint_count ? job->readings[job->joints[joints]].logged : 0;

	return act ? act : INT64_MAX;
}

int explain_as_of(
	const struct job *job, const struct explaining *x, struct explain_then *out, struct sb_err *err)
{
	struct job *then = &out->job;
	size_t joints = 0;

	*out = (struct explain_then){ .job = *job };
	out->ground = sb_alloc(x->trail_count * sizeof *out->ground);
	for (size_t i = 1; i < x->trail_count; i++)
		out->ground[i - 1] = (size_t)(reading_of(x, i) - job->readings);
	for (size_t i = 0; x->r && i < job->joint_count; i++)
		if (&job->readings[job->joints[i]] == x->r)
			joints = i + 1;
	then->ground_joints = out->ground;
	then->in_ground = x->trail_count - 1;
	then->joint_count = joints;
	while (then->leg_count > 0 && then->legs[then->leg_count - 1].number > x->row->leg)
		then->leg_count--;
	while (then->change_count > 0 &&
		then->changes[then->change_count - 1].fact.act >= next_act(job, joints))
		then->change_count--;
	return sb_solve(then, &out->solution, NULL, err);
}

void explain_as_of_clear(struct explain_then *t)
{
	sb_solution_clear(&t->solution);
	sb_free(t->ground);
}

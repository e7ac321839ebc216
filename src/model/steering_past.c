/* What lies behind the bit, as the plan needs it: headings at the readings, smoothed, the turns that a window
 * still has in it, and how sure those are.
 */
#include "response_filter.h"
#include "steering_parts.h"

#include "geom/angle.h"

double sb_steering_drilled_length(const struct laying *l, int n)
{
	if (l->given && n == l->given->joint)
		return l->given->length_m;
	return l->path->rows[n].bit_md_m - l->path->rows[n - 1].bit_md_m;
}

static struct attitude between(const struct attitude *a, const struct attitude *b, double t)
{
	return sb_attitude(a->inc_rad + t * (b->inc_rad - a->inc_rad),
		a->azi_rad + t * sb_wrap_half(b->azi_rad - a->azi_rad));
}

void sb_steering_look_back(struct laying *l)
{
	l->past_count = sb_response_smooth(l->setup, l->path, l->response, l->past, STEER_PAST);
	l->sure = 1;
}

/* The reading at a depth, or the last before it. */
static const struct smoothed *reading_at(const struct laying *l, double md_m)
{
	size_t i = 0;

	while (i + 1 < l->past_count && l->past[i].md_m > md_m)
		i++;
	return &l->past[i];
}

struct attitude sb_steering_heading_at(const struct laying *l, double md_m)
{
	const struct smoothed *a = reading_at(l, md_m), *b = a - 1;
	struct vec3 heading;
	double inc, azi;

	if (l->past_count && a > l->past && a->md_m <= md_m)
		return between(&a->heading, &b->heading, (md_m - a->md_m) / (b->md_m - a->md_m));
	if (l->past_count && a == l->past)
		return a->heading;
	sb_path_at(l->path, fmax(md_m, 0), NULL, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	return sb_attitude(inc, azi);
}

/* The heading of the hole at a bit depth of the present path: by the readings, or as the response carries it
 * on. */
static struct attitude heading_at(const struct laying *l, double md_m)
{
	const struct row *last = sb_path_back(l->path, 0);

	if (md_m >= l->bit_md_m)
		return l->heading;
	if (md_m <= last->survey_md_m)
		return sb_steering_heading_at(l, md_m);
	/* Between sensor and bit: in proportion. */
	struct attitude from = sb_response_heading(l->path, l->response);
	return between(&from, &l->heading, (md_m - last->survey_md_m) / (l->bit_md_m - last->survey_md_m));
}

void sb_steering_set_past(const struct laying *l, struct steer_problem *p)
{
	struct attitude after = l->heading;
	double md = l->bit_md_m;

	for (int i = 0; i < STEER_PAST && l->joint - i >= 1; i++) {
		md -= sb_steering_drilled_length(l, l->joint - i);
		struct attitude before = heading_at(l, md);
		p->past[i] = sb_steering_turn(&before, &after);
		after = before;
		p->past_count = (size_t)i + 1;
		if (!sb_number_given(&l->setup->job->window_length) &&
			i + 1 >= (int)l->setup->job->window_joints.value)
			break;
	}
}

/* Where the window begins that ends with the next joint. */
static double window_begin(const struct laying *l)
{
	const struct job *job = l->setup->job;
	bool by_length = sb_number_given(&job->window_length);
	int joints = by_length ? STEER_PAST : (int)job->window_joints.value;
	double begin = l->bit_md_m;

	if (by_length)
		return fmax(begin + sb_steering_joint_length(l, 0) -
				sb_frame_metres(l->setup->frame, job->window_length.value),
			0);
	for (int n = 1; n < joints && l->joint - n >= 0; n++)
		begin -= sb_steering_drilled_length(l, l->joint - n + 1);
	return begin;
}

/* The heading at the window's beginning and at the last reading come of the same readings, so their errors
 * have a part in common; what was drilled past that reading comes on top. */
void sb_steering_set_turned(struct laying *l)
{
	const struct response *r = l->response;
	double last = fmax(sb_path_back(l->path, 0)->survey_md_m, 0), past_m = l->bit_md_m - last;
	double carried[2] = { 0 }, begin = window_begin(l);

	if (past_m > 0) {
		struct drilled d = sb_response_drilled(l->setup, l->path, last, l->bit_md_m);
		struct response_case then = r->all;
		response_filter_predict(&then, r->guess_yield, &d, past_m, carried);
		for (int axis = 0; axis < 2; axis++)
			carried[axis] = then.covariance[axis][axis] - r->all.covariance[axis][axis];
	}
	for (int axis = 0; axis < 2; axis++) {
		double known = 0;
		if (l->past_count && begin < last) {
			const struct smoothed *from = reading_at(l, begin), *to = reading_at(l, l->bit_md_m);
			known = from->var[axis] + to->var[axis] * (1 - 2 * from->tie[axis] / to->tie[axis]);
		}
		l->turned_var[axis] = fmax(known + carried[axis], 0);
	}
}

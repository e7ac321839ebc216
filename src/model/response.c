/* The response: what goes into its filter (response_filter.c) from the log, and what is made of it: figures
 * for people, orders, the bit, and whether the ground answers as ordered.
 */
#include "response_filter.h"

#include "geom/angle.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static double guess_of(const struct setup *s, const struct number *n)
{
	return sb_number_given(n) ? sb_rad(n->value) / s->frame->metre : 0;
}

/* Without a guess in the sheet: a joint slid all through bends as far as the contract lets one joint bend. */
static double guess_yield(const struct setup *s)
{
	const struct job *job = s->job;
	const struct number *const radii[] = { &job->joint_minimum, &job->window_minimum,
		&job->product_minimum_radius, &job->drill_pipe_minimum_radius };

	if (job->slide_turn.value > 0)
		return sb_rad(job->slide_turn.value) / s->frame->metre;
	for (size_t i = 0; i < 4; i++)
		if (sb_number_given(radii[i]))
			return 1 / sb_frame_metres(s->frame, radii[i]->value);
	return sb_rad(0.2); /* a degree over five metres */
}

static double squared(double x)
{
	return x * x;
}

static double reading_variance_right(const struct setup *s, const struct attitude *a)
{
	/* Azimuth counts as much as the hole is level; never quite nothing, so that the filter stays regular.
	 */
	return squared(s->frame->sigma_azi_rad * fmax(a->sin_inc, 0.01)) + 1e-12;
}

static double reading_variance_up(const struct setup *s)
{
	return squared(s->frame->sigma_inc_rad) + 1e-12;
}

void response_reading_variance(const struct setup *s, const struct attitude *a, double var[2])
{
	var[0] = reading_variance_up(s);
	var[1] = reading_variance_right(s, a);
}

/* Along and across the tool face, as size and direction. */
static struct ground_ahead ground_of(const struct response_case *c, double guess_yield)
{
	double a = c->state[ALONG], b = c->state[ACROSS], y = hypot(a, b);
	const double(*p)[STATES] = c->covariance;
	double along = a * a * p[ALONG][ALONG] + 2 * a * b * p[ALONG][ACROSS] + b * b * p[ACROSS][ACROSS];

	return (struct ground_ahead){
		/* Never nothing: a plan divides by it. A hundredth of the guess means that slides do not turn
		 * at all. */
		.yield = fmax(y, 0.01 * guess_yield),
		.yield_sigma = y > 0 ? sqrt(fmax(along, 0)) / y : sqrt(p[ALONG][ALONG]),
		.face_error_rad = y > 0 ? atan2(b, a) : 0,
		.drift_up = c->state[DRIFT_UP],
		.drift_right = c->state[DRIFT_RIGHT],
	};
}

/* Figures for people from the filter's state. */
static void summarise(struct response *r)
{
	double a = r->all.state[ALONG], b = r->all.state[ACROSS], y = hypot(a, b);
	double(*p)[STATES] = r->all.covariance;
	double across = b * b * p[ALONG][ALONG] - 2 * a * b * p[ALONG][ACROSS] + a * a * p[ACROSS][ACROSS];
	struct ground_ahead g = ground_of(&r->all, r->guess_yield);

	r->yield = g.yield;
	r->yield_sigma = g.yield_sigma;
	r->face_error_rad = g.face_error_rad;
	r->face_error_sigma_rad = y > 0 ? sqrt(fmax(across, 0)) / (y * y) : SB_PI;
	r->drift_up = g.drift_up;
	r->drift_right = g.drift_right;
	r->drift_up_sigma = sqrt(p[DRIFT_UP][DRIFT_UP]);
	r->drift_right_sigma = sqrt(p[DRIFT_RIGHT][DRIFT_RIGHT]);
}

void sb_response_begin(const struct setup *s, struct response *r)
{
	memset(r, 0, sizeof *r);
	double y = r->guess_yield = guess_yield(s);
	r->guess_given = s->job->slide_turn.value > 0;
	r->all.state[ALONG] = y;
	r->all.state[DRIFT_UP] = -guess_of(s, &s->job->droop);
	r->all.state[DRIFT_RIGHT] = guess_of(s, &s->job->walk);
	response_cases_begin(r, reading_variance_up(s), squared(s->frame->sigma_azi_rad) + 1e-12);
	r->short_answer = 1;
	r->usual_yield = y;
	summarise(r);
}

void sb_response_withdrawn(const struct setup *s, struct response *r)
{
	response_cases_heading(r, reading_variance_up(s), squared(s->frame->sigma_azi_rad) + 1e-12);
	summarise(r);
}

/* ---- what a stretch was drilled with ---- */

/* The part of a joint's stretch that lies in the course. */
static void add_stretch(const struct stretch *t, double from_m, double to_m, struct drilled *d)
{
	double length = fmin(t->to_m, to_m) - fmax(t->from_m, from_m);

	if (length <= 0)
		return;
	double slid = t->slid_m * (length / (t->to_m - t->from_m));
	d->slid_up += slid * cos(t->face_rad);
	d->slid_right += slid * sin(t->face_rad);
	d->slid_m += slid;
	d->rotated_m += length - slid;
}

/* from_m, to_m: from the joint's start. */
static void add_joint(const struct setup *s, const struct reading *r, bool blank_is_none, double from_m,
	double to_m, struct drilled *d)
{
	struct stretch list[SB_STRETCHES];
	struct frame then; /* the tool that showed the face */

	sb_frame_for(s->job, s->frame, r, &then);
	size_t count = sb_slides_of(r, &then, blank_is_none, list);
	if (count == 0)
		d->known = false;
	for (size_t i = 0; i < count; i++)
		add_stretch(&list[i], from_m, to_m, d);
	if (!sb_slides_written(r))
		d->unsaid_m += fmin(to_m, sb_frame_metres(&then, r->joint_length.value)) - fmax(from_m, 0);
}

struct drilled sb_response_drilled(const struct setup *s, const struct path *p, double from_m, double to_m)
{
	struct drilled d = { .known = true };

	for (size_t j = p->count; j-- > 1 && p->rows[j].bit_md_m > from_m;) {
		double begin = p->rows[j - 1].bit_md_m, end = p->rows[j].bit_md_m;
		const struct reading *r = sb_job_reading(s->job, p->rows[j].reading);
		if (fmin(end, to_m) <= fmax(begin, from_m) || r == NULL)
			continue;
		add_joint(s, r, sb_path_writes_slides(p, j), from_m - begin, to_m - begin, &d);
	}
	return d;
}

struct ground_gives sb_response_gives(const struct response *r)
{
	return (struct ground_gives){ true, r->all.state[ALONG], r->all.state[ACROSS], r->all.state[DRIFT_UP],
		r->all.state[DRIFT_RIGHT] };
}

struct drilled sb_response_drilled_next(
	const struct setup *s, const struct path *p, const struct reading *next, double from_m, double to_m)
{
	struct drilled d = sb_response_drilled(s, p, from_m, to_m);
	double begin = p->rows[p->count - 1].bit_md_m;

	if (to_m > begin)
		add_joint(s, next, sb_slides_written(next) || sb_path_writes_slides(p, p->count - 1),
			from_m - begin, to_m - begin, &d);
	return d;
}

static struct response_case case_ahead(const struct response *r, double past_m)
{
	struct response_case then = r->all;

	if (!r->told)
		response_filter_ahead(&then, r->guess_yield, past_m);
	return then;
}

struct ground_ahead sb_response_ahead(const struct response *r, double past_m)
{
	struct response_case then = case_ahead(r, past_m);
	struct ground_ahead g = ground_of(&then, r->guess_yield);

	if (r->told)
		g.yield_sigma = 0;
	return g;
}

static void expect(const struct response_case *c, const struct drilled *d, double *up, double *right)
{
	double a = c->state[ALONG], b = c->state[ACROSS];

	*up = a * d->slid_up - b * d->slid_right + c->state[DRIFT_UP] * d->rotated_m;
	*right = a * d->slid_right + b * d->slid_up + c->state[DRIFT_RIGHT] * d->rotated_m;
}

void sb_response_expect(const struct response *r, const struct drilled *d, double *up, double *right)
{
	expect(&r->all, d, up, right);
}

void sb_response_expect_ahead(
	const struct response *r, const struct drilled *d, double past_m, double *up, double *right)
{
	struct response_case then = case_ahead(r, past_m);

	expect(&then, d, up, right);
}

void sb_response_unsure(const struct setup *s, const struct path *p, const struct response *r, double from_m,
	double to_m, double *up, double *right)
{
	struct drilled d = sb_response_drilled(s, p, from_m, to_m);
	double length = fmax(to_m - from_m, 0), unknown = fmax(length - d.slid_m - d.rotated_m, 0);

	if (!d.known) {
		d = (struct drilled){ .known = false };
		unknown = length;
	}
	double any_way = r->yield * unknown / sqrt(2), slid = d.slid_m * r->yield_sigma;
	double by_itself = response_wander * sqrt(length);
	double rest = any_way * any_way + slid * slid + by_itself * by_itself;
	sb_response_expect(r, &d, up, right);
	*up = sqrt(*up * *up + rest + pow(d.rotated_m * r->drift_up_sigma, 2));
	*right = sqrt(*right * *right + rest + pow(d.rotated_m * r->drift_right_sigma, 2));
}

/* ---- learning ---- */

/* How far the readings turned, up and right in the plane square to the hole. */
void response_turned(const struct attitude *from, const struct attitude *to, double *up, double *right)
{
	double middle = (from->inc_rad + to->inc_rad) / 2;

	*up = to->inc_rad - from->inc_rad;
	*right = sb_wrap_half(to->azi_rad - from->azi_rad) * sin(middle);
}

/* Whether slides still turn: of those large enough to tell, how much came of the turn that slides usually
 * bring here. The usual follows the estimate slowly, so that ground that fails is not at once taken for the
 * rule. */
static void note_answer(struct response *r, const struct row_answer *a)
{
	double ordered = hypot(a->ordered_up, a->ordered_right), expected = r->usual_yield * a->slid_m;

	if (a->slid_m <= 0 || ordered <= 0 || expected < 2 * a->reading_sigma)
		return;
	double came = (a->got_up * a->ordered_up + a->got_right * a->ordered_right) / (ordered * expected);
	r->short_answer += (came - r->short_answer) / 2;
	r->short_count = came < 0.5 ? r->short_count + 1 : 0;
	r->usual_yield += (r->yield - r->usual_yield) / 10;
}

void sb_response_course(const struct setup *s, struct path *p, struct response *r)
{
	if (p->on_count < 2 || !p->rows[p->count - 1].on_path)
		return;
	struct row *to = &p->rows[p->count - 1];
	const struct row *from = sb_path_back(p, 1);
	struct drilled d = sb_response_drilled(s, p, fmax(from->survey_md_m, 0), to->survey_md_m);
	struct row_answer *a = &to->answer;
	const struct reading *reading = sb_job_reading(s->job, to->reading);
	bool held = reading && reading->azimuth_by == AZIMUTH_BY_HOLD; /* an azimuth that nobody read */
	double variance_up = reading_variance_up(s),
	       variance_right = reading_variance_right(s, &to->attitude);

	sb_response_expect(r, &d, &a->ordered_up, &a->ordered_right);
	response_turned(&from->attitude, &to->attitude, &a->got_up, &a->got_right);
	a->known = d.known;
	a->slid_m = d.slid_m;
	if (!d.known) {
		/* What was done is not known, so the hole may have gone anywhere: only the new reading holds.
		 */
		response_cases_heading(r, variance_up, variance_right);
		summarise(r);
		return;
	}
	const double got[2] = { a->got_up, a->got_right }, noise = r->all.noise;
	response_cases_predict(r, &d, to->course_m, got);
	a->sigma = sqrt(fmax(r->all.covariance[0][0] + noise * variance_up,
		r->all.covariance[1][1] + noise * variance_right));
	a->reading_sigma = sqrt(2 * noise * fmax(variance_up, variance_right));
	note_answer(r, a);
	response_cases_update(r, got, variance_up, variance_right, held);
	r->courses++;
	r->slides += d.slid_m > 0.5;
	summarise(r);
}

/* ---- what follows ---- */

double sb_response_face(const struct setup *s, double face_error_rad, double up, double right)
{
	return sb_wrap_turn(atan2(right, up) - face_error_rad - s->frame->tool_face_offset_rad);
}

struct attitude response_turn_by(const struct attitude *a, double up, double right)
{
	double inc = fmin(fmax(a->inc_rad + up, 0), SB_PI);

	return sb_attitude(inc, a->azi_rad + right / fmax(sin(inc), 0.05));
}

struct forecast sb_response_forecast(const struct setup *s, const struct attitude *from,
	const struct response *r, const struct drilled *d, double length_m, double any_m)
{
	struct response_case then = r->all;
	double any = squared(r->yield * any_m) / 2;

	response_filter_predict(&then, r->guess_yield, d, length_m, (const double[]){ 0, 0 });
	struct forecast f = {
		.up_rad = then.state[HEADING_UP],
		.right_rad = then.state[HEADING_RIGHT],
		.together_var = then.covariance[HEADING_UP][HEADING_RIGHT],
	};
	f.heading = response_turn_by(from, f.up_rad, f.right_rad);
	f.up_var = then.covariance[HEADING_UP][HEADING_UP] + any + r->all.noise * reading_variance_up(s);
	f.right_var = then.covariance[HEADING_RIGHT][HEADING_RIGHT] + any +
		r->all.noise * reading_variance_right(s, &f.heading);
	return f;
}

struct attitude sb_response_heading(const struct path *p, const struct response *r)
{
	return response_turn_by(
		&sb_path_back(p, 0)->attitude, r->all.state[HEADING_UP], r->all.state[HEADING_RIGHT]);
}

void sb_response_bit(const struct setup *s, const struct path *p, const struct response *r, struct vec3 *at,
	struct attitude *heading)
{
	const struct row *last = sb_path_back(p, 0);
	double from = fmax(last->survey_md_m, 0), to = p->rows[p->count - 1].bit_md_m, up, right;
	struct attitude start;
	struct arc arc;

	/* With no reading and no staked entry, the design's attitude at the entry has to do: the rig is set
	 * up to it. */
	if (!sb_path_attitude(p, &start))
		start = p->rows[0].attitude;
	if (p->on_count > 1)
		start = sb_response_heading(p, r);
	struct drilled d = sb_response_drilled(s, p, from, to);
	sb_response_expect_ahead(r, &d, (to - from) / 2, &up, &right);
	*heading = d.known ? response_turn_by(&start, up, right) : start;
	*at = last->at;
	at->u += r->all.state[PLACE_UP];
	at->n -= r->all.state[PLACE_RIGHT] * sin(start.azi_rad);
	at->e += r->all.state[PLACE_RIGHT] * cos(start.azi_rad);
	if (sb_arc_between(&start, heading, to - from, &arc) != ARC_RANGE)
		*at = sb_vec3_add(*at, arc.step);
}

void sb_response_judge(const struct response *r, int joint, struct verdict *v)
{
	const double face_watch = sb_rad(15);
	double e = fabs(r->face_error_rad);

	v->limit = sb_deg(face_watch);
	v->value = sb_deg(e);
	if (r->slides >= 3 && e > face_watch && e > 3 * r->face_error_sigma_rad) {
		v->level = LEVEL_WATCH;
		snprintf(v->text, sizeof v->text,
			"The hole turns %.0f degrees %s of the tool face that is shown, give or take %.0f (joint %d). Check the tool-face "
			"offset; the orders count it in.",
			sb_deg(e), r->face_error_rad > 0 ? "clockwise" : "anticlockwise",
			sb_deg(r->face_error_sigma_rad), joint);
	} else if (r->short_count >= 3) {
		v->level = LEVEL_WATCH;
		v->value = r->short_answer * 100;
		v->limit = 50;
		snprintf(v->text, sizeof v->text,
			"The ground no longer answers: the last %d slides gave %.0f %% of the turn expected (joint %d). Slide longer, or look at "
			"bit and jets.",
			r->short_count, fmax(r->short_answer, 0) * 100, joint);
	}
}

void sb_response_tell(struct response *r)
{
	r->told = true;
	r->all.state[ALONG] = r->yield * cos(r->face_error_rad);
	r->all.state[ACROSS] = r->yield * sin(r->face_error_rad);
	r->all.state[DRIFT_UP] = r->drift_up;
	r->all.state[DRIFT_RIGHT] = r->drift_right;
	r->yield_sigma = r->face_error_sigma_rad = r->drift_up_sigma = r->drift_right_sigma = 0;
}

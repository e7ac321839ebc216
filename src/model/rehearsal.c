/* The truth of a rehearsal: ground in zones, drilled in short steps.
 *
 * Numbers at random come from one 64-bit state (splitmix64, Steele, Lea and Flood 2014: integers only, so the
 * same on every machine); normal ones are sums of twelve uniform ones less six, which needs no function of
 * libm.
 */
#include "model/rehearsal.h"

#include "base/mem.h"
#include "base/str.h"
#include "geom/angle.h"
#include "rehearsal_parts.h"

#include <math.h>
#include <string.h>

static const double step_most_m = 0.25;

#define DEGREE (SB_PI / 180)
/* Nominal ground and tool; common practice, no source: soil that gives what was hoped within a sixth, a slow
 * droop, readings as good tools give them. */
#define GROUND(yield, noise) \
	.yield_share = (yield), .yield_scatter = 0.15, .zone_length_m = 60, .droop = 0.013 * DEGREE, \
	.walk = 0.004 * DEGREE, .drift_scatter = 0.003 * DEGREE, .face_scatter_rad = 6 * DEGREE, \
	.wander = 0.03 * DEGREE, .pushes = 3, .noise_inc_rad = 0.1 * (noise)*DEGREE, \
	.noise_azi_rad = 0.3 * (noise)*DEGREE

const struct rehearsal_scenario sb_rehearsal_scenarios[] = {
	{ "nominal", "ground and tool as the job sheet hopes", { GROUND(1, 1) } },
	{ "face-error", "the hole turns 20 degrees clockwise of every tool face",
		{ GROUND(1, 1), .face_error_rad = 20 * DEGREE } },
	{ "weak-soil", "slides give 60 % of the turn that the sheet hopes for", { GROUND(0.6, 1) } },
	{ "noisy", "readings two and a half times as noisy", { GROUND(1, 2.5) } },
	{ "azimuth-bias", "every azimuth reads 0.4 degrees too high",
		{ GROUND(1, 1), .bias_azi_rad = 0.4 * DEGREE } },
};
const size_t sb_rehearsal_scenario_count = sizeof sb_rehearsal_scenarios / sizeof *sb_rehearsal_scenarios;

const struct rehearsal_scenario *sb_rehearsal_scenario(const char *name)
{
	for (size_t i = 0; i < sb_rehearsal_scenario_count; i++)
		if (sb_same(sb_rehearsal_scenarios[i].name, name))
			return &sb_rehearsal_scenarios[i];
	return NULL;
}

static unsigned long long next(struct rehearsal *r)
{
	unsigned long long z = r->state += 0x9E3779B97F4A7C15ull;

	z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9ull;
	z = (z ^ z >> 27) * 0x94D049BB133111EBull;
	return z ^ z >> 31;
}

double sb_rehearsal_uniform(struct rehearsal *r)
{
	return (double)(next(r) >> 11) * 0x1p-53;
}

double sb_rehearsal_normal(struct rehearsal *r)
{
	double sum = -6;

	for (int i = 0; i < 12; i++)
		sum += sb_rehearsal_uniform(r);
	return sum;
}

/* Shifts the ground's means themselves, so that steering cannot be made for one simulator. */
static void vary_ground(struct rehearsal *r)
{
	static const int pushes[] = { 1, 2, 4, 50 };
	struct rehearsal_ground *g = &r->ground;

	g->yield_share *= 0.8 + 0.4 * sb_rehearsal_uniform(r);
	g->yield_scatter *= 0.7 + sb_rehearsal_uniform(r);
	g->zone_length_m *= 0.5 + sb_rehearsal_uniform(r);
	g->droop *= 2 * sb_rehearsal_uniform(r);
	g->walk *= 4 * sb_rehearsal_uniform(r) - 2;
	g->wander *= 0.7 + 0.8 * sb_rehearsal_uniform(r);
	g->noise_inc_rad *= 0.8 + 0.6 * sb_rehearsal_uniform(r);
	g->noise_azi_rad *= 0.8 + 0.6 * sb_rehearsal_uniform(r);
	g->pushes = pushes[next(r) % 4];
}

static void push(struct rehearsal *r, const struct true_station *s)
{
	r->stations = sb_grow(r->stations, r->count, &r->room, sizeof *r->stations);
	r->stations[r->count++] = *s;
}

static void end_joint(struct rehearsal *r, double md_m)
{
	r->joint_ends = sb_grow(r->joint_ends, r->joint_count, &r->joint_room, sizeof *r->joint_ends);
	r->joint_ends[r->joint_count++] = md_m;
}

static void begin(struct rehearsal *r)
{
	struct design_place entry = sb_design_at(&r->design, 0);
	struct true_station s = { .at = entry.at, .inc_rad = entry.inc_rad, .azi_rad = entry.azi_rad };
	const struct job *job = r->job;

	s.at.u = sb_frame_metres(&r->frame, job->entry.elevation.value);
	if (sb_number_given(&job->entry_inclination) && sb_number_given(&job->entry_azimuth)) {
		s.inc_rad = sb_frame_inc(&r->frame, job->entry_inclination.value);
		s.azi_rad = sb_frame_azi(&r->frame, job->entry_azimuth.value);
	}
	push(r, &s);
	end_joint(r, 0);
}

struct rehearsal *sb_rehearsal_new(const struct job *job, const struct rehearsal_ground *ground,
	unsigned long long seed, bool vary, struct sb_err *err)
{
	struct rehearsal *r = sb_alloc(sizeof *r);
	struct sb_problems problems = { 0 };

	r->job = job;
	r->ground = *ground;
	r->seed = r->state = seed;
	int bad = sb_frame_init(job, &r->frame, err);
	if (bad == 0 &&
		(sb_design_build(job, &r->frame, &r->design, &problems) ||
			sb_corridor_build(job, &r->frame, &r->corridor, &problems)))
		bad = sb_fail(err, SB_FORMAT, "The design or the corridor does not hold together.");
	sb_problems_clear(&problems);
	if (bad) {
		sb_rehearsal_free(r);
		return NULL;
	}
	struct setup setup = { job, &r->frame, &r->design, &r->corridor };
	struct response guess;
	sb_response_begin(&setup, &guess);
	r->guess_yield = guess.yield;
	if (vary)
		vary_ground(r);
	begin(r);
	return r;
}

void sb_rehearsal_free(struct rehearsal *r)
{
	sb_design_clear(&r->design);
	sb_corridor_clear(&r->corridor);
	sb_free(r->stations);
	sb_free(r->joint_ends);
	sb_free(r);
}

static void enter_zone(struct rehearsal *r, double md_m)
{
	const struct rehearsal_ground *g = &r->ground;

	r->zone.end_m = md_m + g->zone_length_m * (0.5 + sb_rehearsal_uniform(r));
	r->zone.yield =
		r->guess_yield * g->yield_share * fmax(1 + g->yield_scatter * sb_rehearsal_normal(r), 0.2);
	r->zone.droop = g->droop + g->drift_scatter * sb_rehearsal_normal(r);
	r->zone.walk = g->walk + g->drift_scatter * sb_rehearsal_normal(r);
}

/* One step along the hole: turned so far up and right, as an arc. */
static void advance(struct rehearsal *r, double step_m, double up, double right, bool sliding)
{
	struct true_station s = r->stations[r->count - 1];
	struct attitude from = sb_attitude(s.inc_rad, s.azi_rad);
	struct arc arc;

	s.inc_rad = fmin(fmax(s.inc_rad + up, 0), SB_PI);
	s.azi_rad += right / fmax(from.sin_inc, 0.05);
	struct attitude to = sb_attitude(s.inc_rad, s.azi_rad);
	if (sb_arc_between(&from, &to, step_m, &arc) != ARC_RANGE)
		s.at = sb_vec3_add(s.at, arc.step);
	s.md_m += step_m;
	s.turn_rad += hypot(up, right);
	s.slid_m += sliding ? step_m : 0;
	push(r, &s);
}

/* Whether the place x (0..1) of a joint that is slid by this share is slid. One push: all at the joint's
 * start, so that the hole bends before a reading between joints can show it. Several: each in the middle of
 * its part of the joint. */
static bool in_a_push(double x, double share, int pushes)
{
	double part = x * pushes;

	return pushes == 1 ? x < share : fabs(part - floor(part) - 0.5) < share / 2;
}

struct attitude sb_rehearsal_attitude(const struct rehearsal *r, double md_m)
{
	size_t low = 0, high = r->count;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (r->stations[middle].md_m <= md_m)
			low = middle;
		else
			high = middle;
	}
	const struct true_station *a = &r->stations[low],
				  *b = &r->stations[low + 1 < r->count ? low + 1 : low];
	double t = b->md_m > a->md_m ? fmin(fmax((md_m - a->md_m) / (b->md_m - a->md_m), 0), 1) : 0;
	return sb_attitude(
		a->inc_rad + t * (b->inc_rad - a->inc_rad), a->azi_rad + t * (b->azi_rad - a->azi_rad));
}

static double steel_error(const struct rehearsal *r, double md_m)
{
	const struct rehearsal_ground *g = &r->ground;

	if (!(g->steel_reach_m > 0))
		return 0;
	double away = (md_m - g->steel_station_m) / g->steel_reach_m;
	return fabs(away) < 1 ? g->steel_azi_rad * (1 - away * away) : 0;
}

/* What the sensor shows, as it would be typed: to a tenth of a degree. */
static void read_sensor(struct rehearsal *r, struct reading *out)
{
	const struct rehearsal_ground *g = &r->ground;
	double md = r->joint_ends[r->joint_count - 1] - r->frame.sensor_to_bit_m;
	struct attitude truth = sb_rehearsal_attitude(r, fmax(md, 0));
	double inc = truth.inc_rad + g->bias_inc_rad + g->noise_inc_rad * sb_rehearsal_normal(r);
	double azi = truth.azi_rad + g->bias_azi_rad + steel_error(r, md) +
		g->noise_azi_rad * sb_rehearsal_normal(r);

	out->inclination = sb_number_of(sb_frame_inc_typed(&r->frame, inc), 1);
	out->azimuth = sb_number_of(sb_frame_azi_typed(&r->frame, azi), 1);
	if (out->azimuth.value >= 360)
		out->azimuth = sb_number_of(0, 1);
}

void sb_rehearsal_drill(
	struct rehearsal *r, double length_m, double tool_face_rad, double slid_m, struct reading *out)
{
	const struct rehearsal_ground *g = &r->ground;
	int steps = (int)ceil(length_m / step_most_m);
	double step = length_m / steps, share = slid_m / length_m;
	double face = tool_face_rad + sb_rad(r->job->tool_face_offset.value) + g->face_error_rad +
		g->face_scatter_rad * sb_rehearsal_normal(r);

	for (int i = 0; i < steps; i++) {
		double md = r->stations[r->count - 1].md_m, wander = g->wander * sqrt(step);
		if (md >= r->zone.end_m)
			enter_zone(r, md);
		bool sliding = in_a_push((i + 0.5) / steps, share, g->pushes);
		double up = sliding ? r->zone.yield * step * cos(face) : -r->zone.droop * step;
		double right = sliding ? r->zone.yield * step * sin(face) : r->zone.walk * step;
		up += wander * sb_rehearsal_normal(r);
		right += wander * sb_rehearsal_normal(r);
		advance(r, step, up, right, sliding);
	}
	end_joint(r, r->stations[r->count - 1].md_m);
	memset(out, 0, sizeof *out);
	out->joint = (int)r->joint_count - 1;
	out->joint_length = sb_number_of(sb_frame_typed(&r->frame, length_m), 2);
	out->slid = sb_number_of(sb_frame_typed(&r->frame, slid_m), 1);
	if (slid_m > 0)
		out->tool_face = sb_number_of(sb_deg(sb_wrap_turn(tool_face_rad)), 0);
	read_sensor(r, out);
}

void sb_rehearsal_withdraw(struct rehearsal *r, int to_joint)
{
	double end = r->joint_ends[to_joint];

	r->joint_count = (size_t)to_joint + 1;
	while (r->count > 1 && r->stations[r->count - 1].md_m > end + 1e-9)
		r->count--;
	r->zone.end_m = 0; /* other ground beside the old hole */
}

void sb_rehearsal_true_response(const struct rehearsal *r, struct response *out)
{
	const struct rehearsal_ground *g = &r->ground;

	out->yield = r->guess_yield * g->yield_share;
	out->face_error_rad = g->face_error_rad;
	out->drift_up = -g->droop;
	out->drift_right = g->walk;
	sb_response_tell(out);
}

/* Bores drilled by chance that every run repeats: a crossing for a pipe, a hand who steers it along the
 * design with turns that scatter and stay within the contract's limit for one joint, and a tool whose
 * readings are noisy and typed to a tenth of a degree. All invented.
 */
#ifndef TESTS_MODEL_DRILL_H
#define TESTS_MODEL_DRILL_H

#include "geom/angle.h"
#include "geom/random.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdlib.h>
#include <string.h>

struct drill_pipe {
	const char *name, *unit, *incline;
	double joint, radius;		      /* of a joint; of the design's curves */
	double joint_minimum, window_minimum; /* 0: not given */
	double drill_minimum;
	double slope, depth, level; /* degrees of the tangents, how deep, length of the level part */
};

static const struct drill_pipe pipes[] = {
	{ "8 in", "ft", "down", 31, 800, 400, 600, 300, 10, 30, 600 },
	{ "12 in", "ft", "down", 31, 1200, 600, 900, 300, 10, 40, 800 },
	{ "12 in, nothing of the drill pipe", "ft", "down", 31, 1200, 600, 900, 0, 10, 40, 800 },
	{ "24 in", "ft", "down", 31, 2400, 1200, 1800, 600, 10, 60, 1200 },
	{ "24 in, window only", "ft", "down", 31, 2400, 0, 1800, 600, 10, 60, 1200 },
	{ "36 in", "ft", "down", 31, 3600, 1800, 2880, 600, 8, 60, 1500 },
	{ "36 in, strict", "ft", "down", 31, 3600, 2880, 3240, 600, 8, 60, 1500 },
	{ "42 in", "ft", "down", 31, 4200, 2100, 3360, 600, 8, 60, 1500 },
	{ "PE, metres", "m", "level", 9.6, 200, 120, 170, 110, 14, 12, 250 },
	{ "steel, metres", "m", "level", 9.6, 700, 350, 560, 200, 10, 20, 500 },
	{ "no bend limits", "ft", "grade", 31, 2400, 0, 0, 0, 10, 60, 1200 },
	{ "short rods", "m", "level", 3, 45, 0, 0, 30, 18, 4, 80 },
};
#define PIPES (sizeof pipes / sizeof *pipes)

/* The text of a number, in one of a few buffers. */
static inline const char *typed(double value, int decimals)
{
	static char texts[16][32];
	static size_t next;
	char *text = texts[next++ % 16];

	snprintf(text, sizeof *texts, "%.*f", decimals, value);
	return text;
}

static inline void drill_set(struct job *job, const char *section, const char *key, double value)
{
	if (value > 0)
		jobs_set(job, section, key, typed(value, 2));
}

/* Down a tangent, level, up a tangent, along a bearing; the sensor one joint behind the bit. */
static inline void drill_job(struct job *job, const struct drill_pipe *p, double bearing_deg)
{
	double a = sb_rad(p->slope), tangent = p->radius * tan(a / 2);
	double run = fmax(p->depth / tan(a), 1.05 * tangent), depth = run * tan(a);
	double length = 2 * run + 2 * tangent + p->level;
	char exit[100];

	sb_setting_init(job);
	jobs_set(job, "job", "unit", p->unit);
	jobs_set(job, "job", "inclination", p->incline);
	snprintf(exit, sizeof exit, "%.4f, %.4f, 100", 5000 + length * sin(sb_rad(bearing_deg)),
		5000 + length * cos(sb_rad(bearing_deg)));
	jobs_set(job, "control", "entry", "5000, 5000, 100");
	jobs_set(job, "control", "exit", exit);
	jobs_set(job, "azimuth", "reference", "grid");
	drill_set(job, "tool", "sensor_to_bit", p->joint);
	drill_set(job, "drill_pipe", "joint_length", p->joint);
	drill_set(job, "drill_pipe", "minimum_radius", p->drill_minimum);
	drill_set(job, "bend", "joint_minimum", p->joint_minimum);
	drill_set(job, "bend", "window_minimum", p->window_minimum);
	const char *bottom = typed(100 - depth, 4), *radius = typed(p->radius, 2);
	jobs_row(job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(job, "profile", (const char *const[]){ typed(run, 4), bottom, radius });
	jobs_row(job, "profile", (const char *const[]){ typed(length - run, 4), bottom, radius });
	jobs_row(job, "profile", (const char *const[]){ typed(length, 4), "100", "" });
}

/* A bore as it is drilled: where the hole really heads, and how far the sensor has come. */
struct bore {
	struct job job;
	struct solution s;
	const struct drill_pipe *pipe;
	double inc_rad, azi_rad, station_m;
	double most_rad; /* the hand never turns further in a joint */
	double scatter;	 /* one sigma of what it turns without meaning to, as a share of most_rad */
	double sigma_inc_deg, sigma_azi_deg;
};

/* steer: share of the contract's turn for one joint that the hand takes at most. */
static inline void bore_begin(struct bore *b, const struct drill_pipe *p, double bearing_deg, double steer)
{
	memset(b, 0, sizeof *b);
	drill_job(&b->job, p, bearing_deg);
	jobs_solve(&b->job, &b->s);
	b->pipe = p;
	double radius = p->joint_minimum > 0 ? p->joint_minimum
		: p->window_minimum > 0	     ? p->window_minimum
					     : 0.75 * p->radius;
	b->most_rad = steer * p->joint / radius;
	b->scatter = 0.3;
	b->sigma_inc_deg = 0.1;
	b->sigma_azi_deg = 0.3;
	struct design_place start = sb_design_at(&b->s.design, 0);
	b->inc_rad = start.inc_rad;
	b->azi_rad = start.azi_rad;
}

static inline void bore_end(struct bore *b)
{
	sb_solution_clear(&b->s);
	sb_job_clear(&b->job);
}

static inline bool bore_goes_on(const struct bore *b)
{
	return b->station_m < b->s.design.length_m;
}

/* Drills a joint: parallel to the design, back to it within eight joints, and some scatter. */
static inline void bore_drill(struct bore *b, struct random *r)
{
	double joint_m = sb_frame_metres(&b->s.frame, b->pipe->joint);
	const struct row *last = sb_solution_last_on_path(&b->s);
	struct design_place to = sb_design_at(&b->s.design, b->station_m);
	double up = to.inc_rad - last->deviation.height_m / (8 * joint_m) - b->inc_rad;
	double aside = sb_wrap_half(to.azi_rad - b->azi_rad) - last->deviation.offset_m / (8 * joint_m);

	up += b->scatter * b->most_rad * random_normal(r);
	aside += b->scatter * b->most_rad * random_normal(r);
	double share = fmin(1, b->most_rad / fmax(hypot(up, aside), 1e-12));
	b->inc_rad += share * up;
	b->azi_rad += share * aside / sin(b->inc_rad);
	b->station_m += joint_m * sin(b->inc_rad);
}

/* What the tool reads of it, as typed. */
static inline struct reading bore_read(const struct bore *b, struct random *r)
{
	double inc = b->inc_rad + sb_rad(b->sigma_inc_deg) * random_normal(r);
	double azi = b->azi_rad + sb_rad(b->sigma_azi_deg) * random_normal(r);
	double shown = round(sb_frame_azi_typed(&b->s.frame, azi) * 10) / 10;

	return jobs_reading(&b->job, "", typed(sb_frame_inc_typed(&b->s.frame, inc), 1),
		typed(shown >= 360 ? 0 : shown, 1));
}

static inline void bore_log(struct bore *b, const struct reading *r)
{
	struct reading copy = *r;
	size_t changed;

	copy.id = (int64_t)b->job.reading_count + 1;
	sb_job_add_reading(&b->job, &copy);
	assert_int_equal(sb_solve_joint(&b->job, &b->s, &changed, NULL), 0);
}

#endif

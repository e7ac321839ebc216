/* How much solving a path costs beside what it cannot do without.
 *
 * Ours: sb_path_begin and sb_path_append, joint by joint, from readings as typed to full rows: position,
 * station, offset, height, the distance square to the line in space, both heading differences, dogleg and
 * window of three joints with their noise, and the share of the corridor.
 * Bare: one flat loop over arrays of radians with the same formulae and so the same libm calls, each sine
 * taken once; no rows, no checks, no units, no corridor; it knows that the bore goes forward and never
 * searches for the part of the design that it is beside. Both must give the same figures to 1e-9.
 * The crossing: metres, a horizontal curve and two vertical ones, 38 joints, readings that scatter.
 */
#include "geom/angle.h"
#include "geom/bend.h"
#include "support/jobs.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { JOINTS = 38, ROUNDS = 25, REPEATS = 100, WINDOW = 3 };

/* What is compared of a row. */
struct figures {
	double n, e, u, station, offset, height, square, inc_off, azi_off;
	double dogleg, sigma, window, window_sigma;
};

struct bare {
	double inc[JOINTS + 1], azi[JOINTS + 1], course[JOINTS + 1];
	double sin_inc[JOINTS + 1], cos_inc[JOINTS + 1];
	double sigma_inc, sigma_azi, elevation;
	const struct design *design;
};

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* The angle between readings i and k, and its noise. */
static double bare_turn(const struct bare *b, int i, int k, double *noise)
{
	double hi = (b->inc[k] - b->inc[i]) / 2, ha = (b->azi[k] - b->azi[i]) / 2;
	double si = sin(hi), ci = cos(hi), sa = sin(ha), ca = cos(ha), v = 2 * sa * sa;
	double level = b->sin_inc[i] * b->sin_inc[k], square = si * si + level * sa * sa;
	double up1 = b->cos_inc[i] * b->sin_inc[k] * v - 2 * si * ci, right1 = b->sin_inc[k] * 2 * sa * ca;
	double up2 = b->sin_inc[i] * b->cos_inc[k] * v + 2 * si * ci, right2 = b->sin_inc[i] * 2 * sa * ca;
	double n = up2 * up2 + right2 * right2, cosine = 1 - 2 * square;
	double vi = b->sigma_inc * b->sigma_inc, va = b->sigma_azi * b->sigma_azi;
	double v1 = va * b->sin_inc[i] * b->sin_inc[i], v2 = va * b->sin_inc[k] * b->sin_inc[k];
	double along = (up1 * up1 * vi + right1 * right1 * v1 + up2 * up2 * vi + right2 * right2 * v2) / n;
	double a1 = (right1 * right1 * vi + up1 * up1 * v1) / n;
	double a2 = (right2 * right2 * vi + up2 * up2 * v2) / n;
	double all = along + (cosine * cosine * (a1 * a1 + a2 * a2) + 2 * a1 * a2) / (2 * n);
	double most = (vi > v1 ? vi : v1) + (vi > v2 ? vi : v2);

	*noise = sqrt(all < most ? all : most);
	return 2 * asin(sqrt(square));
}

static void bare_height(const struct chain_part *p, double x, double *y, double *slope)
{
	double sine = p->sin_bearing + p->curvature * (x - p->x), cosine = sqrt(1 - sine * sine);

	*y = p->y + (x - p->x) * (p->sin_bearing + sine) / (p->cos_bearing + cosine);
	*slope = sine / cosine;
}

/* Distance along a part and off it. */
static double bare_foot(const struct chain_part *p, double n, double e, double *offset)
{
	double u = (n - p->x) * p->cos_bearing + (e - p->y) * p->sin_bearing, k = p->curvature;
	double v = (e - p->y) * p->cos_bearing - (n - p->x) * p->sin_bearing;

	*offset = v;
	if (k == 0)
		return u;
	*offset = (2 * v - k * (u * u + v * v)) / (1 + sqrt(k * u * k * u + (1 - k * v) * (1 - k * v)));
	return atan2(k * u, 1 - k * v) / k;
}

/* Square to the line in space: one step of Newton's from the foot in plan, and the distance there. `along` is
 * of the plan's part, `station` of the line. */
static double bare_square(const struct chain_part *plan, const struct chain_part *profile, double along,
	const struct figures *f, double slope)
{
	double bend = profile->curvature * (1 + slope * slope) * sqrt(1 + slope * slope);
	double stiff = 1 + slope * slope - f->offset * plan->curvature - f->height * bend;
	double step = f->height * slope / stiff, at = along + step, half = plan->curvature * at / 2, y,
	       unused;
	double c = cos(half), s = sin(half), chord = half != 0 ? at * s / half : at;
	double dn = f->n - plan->x - chord * (plan->cos_bearing * c - plan->sin_bearing * s);
	double de = f->e - plan->y - chord * (plan->sin_bearing * c + plan->cos_bearing * s);

	bare_height(profile, f->station + step, &y, &unused);
	return sqrt(dn * dn + de * de + (f->u - y) * (f->u - y));
}

/* Long, because flat is the point of it. */
static void bare_loop(struct bare *b, struct figures *out)
{
	const struct chain_part *plan = b->design->alignment, *profile = b->design->profile;
	const struct chain_part *plan_end = plan + b->design->alignment_count - 1;
	const struct chain_part *profile_end = profile + b->design->profile_count - 1;
	double n = 0, e = 0, u = b->elevation, tn = 0, te = 0, tu = 0;

	for (int i = 0; i <= JOINTS; i++) {
		struct figures *f = &out[i];
		double si = sin(b->inc[i]), ci = cos(b->inc[i]), sa = sin(b->azi[i]), ca = cos(b->azi[i]);
		double hn = si * ca, he = si * sa, y, slope;
		b->sin_inc[i] = si;
		b->cos_inc[i] = ci;
		if (i > 0) {
			f->dogleg = bare_turn(b, i - 1, i, &f->sigma);
			double half = f->dogleg / 2;
			double k = b->course[i] / 2 * (half > 1e-9 ? tan(half) / half : 1);
			n += k * (tn + hn);
			e += k * (te + he);
			u += k * (tu - ci);
		}
		if (i >= WINDOW)
			f->window = bare_turn(b, i - WINDOW, i, &f->window_sigma);
		tn = hn;
		te = he;
		tu = -ci;
		double along = bare_foot(plan, n, e, &f->offset);
		while (along > plan->length && plan < plan_end)
			along = bare_foot(++plan, n, e, &f->offset);
		f->station = plan->at + along;
		while (profile < profile_end && f->station > profile[1].x)
			profile++;
		bare_height(profile, f->station, &y, &slope);
		f->n = n;
		f->e = e;
		f->u = u;
		f->height = u - y;
		f->inc_off = b->inc[i] - SB_PI / 2 - atan(slope);
		f->azi_off = b->azi[i] - plan->bearing - plan->curvature * along;
		f->square = bare_square(plan, profile, along, f, slope);
	}
}

static void our_loop(const struct setup *setup, struct path *p)
{
	const struct job *job = setup->job;

	p->count = p->on_count = 0;
	sb_path_begin(setup, p);
	for (size_t i = 0; i < job->joint_count; i++)
		sb_path_append(setup, p, &job->readings[job->joints[i]]);
}

static void check(double ours, double bare, const char *what, int joint)
{
	if (fabs(ours - bare) <= 1e-9)
		return;
	printf("path_bench: joint %d: %s is %.12g and %.12g: the two do not do the same\n", joint, what, ours,
		bare);
	exit(1);
}

static void compare(const struct path *p, const struct figures *figures)
{
	for (int i = 1; i <= JOINTS; i++) {
		const struct row *r = &p->rows[i];
		const struct figures *f = &figures[i];
		check(r->at.n, f->n, "north", i);
		check(r->at.e, f->e, "east", i);
		check(r->at.u, f->u, "elevation", i);
		check(r->deviation.station_m, f->station, "station", i);
		check(r->deviation.offset_m, f->offset, "offset", i);
		check(r->deviation.height_m, f->height, "height", i);
		check(r->deviation.square_m, f->square, "square distance", i);
		check(r->deviation.inc_off_rad, f->inc_off, "inclination difference", i);
		check(r->deviation.azi_off_rad, f->azi_off, "azimuth difference", i);
		check(r->dogleg_rad, f->dogleg, "dogleg", i);
		check(r->dogleg_sigma_rad, f->sigma, "dogleg noise", i);
		if (i < WINDOW)
			continue;
		check(r->window.ends_rad, f->window, "window", i);
		check(r->window.sigma_rad, f->window_sigma, "window noise", i);
	}
}

/* A bore along the design, with readings that scatter by a tenth of a degree. */
static void drill(struct job *job)
{
	jobs_curved(job);
	jobs_follow(job, JOINTS);
	for (int i = 0; i < JOINTS; i++) {
		struct reading *r = &job->readings[i];
		r->inclination = sb_number_of(r->inclination.value + 0.1 * sin(2.3 * i), 2);
		r->azimuth = sb_number_of(r->azimuth.value + 0.1 * sin(3.1 * i), 2);
	}
}

static void gather(const struct job *job, const struct solution *s, struct bare *b)
{
	b->design = &s->design;
	b->sigma_inc = s->frame.sigma_inc_rad;
	b->sigma_azi = s->frame.sigma_azi_rad;
	b->elevation = job->entry.elevation.value;
	for (int i = 1; i <= JOINTS; i++) {
		const struct row *r = &s->path.rows[i];
		b->inc[i] = r->attitude.inc_rad;
		b->azi[i] = r->attitude.azi_rad;
		b->course[i] = r->course_m;
	}
	b->inc[0] = b->inc[1]; /* the first reading stands for the entry's */
	b->azi[0] = b->azi[1];
}

int main(void)
{
	static struct bare bare;
	static struct figures figures[JOINTS + 1];
	struct job job;
	struct solution s = { 0 };
	struct path path = { 0 };
	double ours = HUGE_VAL, least = HUGE_VAL;

	drill(&job);
	jobs_solve(&job, &s);
	gather(&job, &s, &bare);
	struct setup setup = sb_solution_setup(&job, &s);
	for (int round = 0; round < ROUNDS; round++) {
		double t0 = seconds();
		for (int i = 0; i < REPEATS; i++)
			our_loop(&setup, &path);
		double t1 = seconds();
		for (int i = 0; i < REPEATS; i++)
			bare_loop(&bare, figures);
		double t2 = seconds();
		ours = fmin(ours, t1 - t0);
		least = fmin(least, t2 - t1);
	}
	compare(&path, figures);
	const double stations = REPEATS * (double)JOINTS;
	printf("Solving a path and its deviations, per station, against a bare loop of the same libm calls.\n"
	       "  Method: %d joints with curves both ways; the quickest of %d rounds of %d each; both give the\n"
	       "  same figures to 1e-9, which is checked.\n"
	       "  ours %.0f ns, bare %.0f ns, ratio %.2f (reach: under 3)\n",
		JOINTS, ROUNDS, REPEATS, ours / stations * 1e9, least / stations * 1e9, ours / least);
	sb_path_clear(&path);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

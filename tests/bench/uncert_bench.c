/* What being sure costs: the covariance at each of 1,000 joints against the bare path of the same joints, and
 * the long run of the Monte Carlo.
 *
 * Ours: sb_uncert_next and sb_uncert_covariance for every station, all terms set, arcs handed in as a path
 * has them. Bare: minimum curvature alone, each sine taken once, from arrays of radians; nothing else. Both
 * run in the same rounds, and the quickest round of each counts.
 */
#include "geom/angle.h"
#include "geom/random.h"
#include "geom/uncert.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

enum { JOINTS = 1000, ROUNDS = 25, REPEATS = 20, LONG_JOINTS = 60, LONG_DRAWS = 1000000 };

static double inc[JOINTS + 1], azi[JOINTS + 1];
static struct attitude attitudes[JOINTS + 1];
static struct arc arcs[JOINTS + 1];

static const struct uncert_model model = {
	.sigma = { [UNCERT_INCLINATION_BIAS] = 0.002,
		[UNCERT_AZIMUTH_BIAS] = 0.005,
		[UNCERT_DECLINATION] = 0.006,
		[UNCERT_INTERFERENCE] = 0.01,
		[UNCERT_DEPTH_SCALE] = 0.001,
		[UNCERT_INCLINATION_NOISE] = 0.002,
		[UNCERT_AZIMUTH_NOISE] = 0.005,
		[UNCERT_DEPTH_NOISE] = 0.02,
		[UNCERT_LENGTH_NOISE] = 0.01 },
	.to_magnetic_rad = 0.1,
};

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Joints of 9.6 m that wander by some tenths of a degree. */
static void drill(void)
{
	for (int i = 0; i <= JOINTS; i++) {
		inc[i] = SB_PI / 2 + 0.1 * sin(i / 80.0) + 0.003 * sin(2.3 * i);
		azi[i] = 1 + 0.2 * sin(i / 150.0) + 0.005 * sin(3.1 * i);
		attitudes[i] = sb_attitude(inc[i], azi[i]);
		if (i > 0)
			sb_arc_between(&attitudes[i - 1], &attitudes[i], 9.6, &arcs[i]);
	}
}

static double bare_path(void)
{
	double n = 0, e = 0, u = 0, tn = 0, te = 0, tu = 0, si1 = 0;

	for (int i = 0; i <= JOINTS; i++) {
		double si = sin(inc[i]), ci = cos(inc[i]), hn = si * cos(azi[i]), he = si * sin(azi[i]);
		if (i > 0) {
			double di = sin((inc[i] - inc[i - 1]) / 2), da = sin((azi[i] - azi[i - 1]) / 2);
			double half = asin(sqrt(di * di + si1 * si * da * da));
			double k = 4.8 * (half > 1e-9 ? tan(half) / half : 1);
			n += k * (tn + hn);
			e += k * (te + he);
			u += k * (tu - ci);
		}
		tn = hn;
		te = he;
		tu = -ci;
		si1 = si;
	}
	return n + e + u;
}

static struct uncert ours(double *sum)
{
	struct uncert u = sb_uncert_begin();

	for (int i = 1; i <= JOINTS; i++) {
		struct uncert_station from = { &attitudes[i - 1], 9.6 * (i - 1), false, false };
		struct uncert_station to = { &attitudes[i], 9.6 * i, false, false };
		u = sb_uncert_next(&model, &u, &from, &to, &arcs[i], 1);
		struct sym3 c = sb_uncert_covariance(&model, &u);
		*sum += c.nn + c.ee + c.uu;
	}
	return u;
}

/* One bore of LONG_JOINTS with a draw of every error; its end against the true one. */
static void draw(struct random *r, double at[3])
{
	double bias_i = 0.002 * random_normal(r), bias_a = 0.005 * random_normal(r),
	       dec = 0.006 * random_normal(r), string = 0.01 * random_normal(r),
	       scale = 0.001 * random_normal(r), length = 0, before = 0;
	struct attitude from = { 0 };
	struct vec3 p = { 0, 0, 0 };

	for (int i = 0; i <= LONG_JOINTS; i++) {
		double across = sin(inc[i]) * sin(azi[i] + 0.1);
		struct attitude to = sb_attitude(inc[i] + bias_i + 0.002 * random_normal(r),
			azi[i] + bias_a + dec + across * string + 0.005 * random_normal(r));
		length += i > 0 ? 0.01 * random_normal(r) : 0;
		double md = 9.6 * i * (1 + scale) + length + 0.02 * random_normal(r);
		struct arc arc = { 0 };
		if (i > 0)
			sb_arc_between(&from, &to, md - before, &arc);
		p = sb_vec3_add(p, arc.step);
		from = to;
		before = md;
	}
	at[0] = p.n;
	at[1] = p.e;
	at[2] = p.u;
}

/* The largest share by which the sigmas of a long run differ from ours. */
static double long_run(void)
{
	struct random r = { 2026 };
	struct uncert u = sb_uncert_begin();
	struct vec3 p = { 0, 0, 0 };
	double sum[3] = { 0 }, squares[3] = { 0 }, worst = 0;

	for (int i = 1; i <= LONG_JOINTS; i++) {
		struct uncert_station from = { &attitudes[i - 1], 9.6 * (i - 1), false, false };
		struct uncert_station to = { &attitudes[i], 9.6 * i, false, false };
		u = sb_uncert_next(&model, &u, &from, &to, &arcs[i], 1);
		p = sb_vec3_add(p, arcs[i].step);
	}
	struct sym3 c = sb_uncert_covariance(&model, &u);
	const double want[3] = { c.nn, c.ee, c.uu }, mean[3] = { p.n, p.e, p.u };
	for (int k = 0; k < LONG_DRAWS; k++) {
		double at[3];
		draw(&r, at);
		for (int i = 0; i < 3; i++) {
			sum[i] += at[i] - mean[i];
			squares[i] += (at[i] - mean[i]) * (at[i] - mean[i]);
		}
	}
	for (int i = 0; i < 3; i++) {
		double m = sum[i] / LONG_DRAWS, sigma = sqrt(squares[i] / LONG_DRAWS - m * m);
		worst = fmax(worst, fabs(sigma / sqrt(want[i]) - 1));
	}
	return worst;
}

int main(void)
{
	double best = HUGE_VAL, least = HUGE_VAL, sink = 0;

	drill();
	for (int round = 0; round < ROUNDS; round++) {
		double t0 = seconds();
		for (int i = 0; i < REPEATS; i++)
			ours(&sink);
		double t1 = seconds();
		for (int i = 0; i < REPEATS; i++)
			sink += bare_path();
		double t2 = seconds();
		best = fmin(best, t1 - t0);
		least = fmin(least, t2 - t1);
	}
	const double stations = REPEATS * (double)JOINTS;
	printf("Covariance at each of %d joints, per joint, against the bare path of the same joints.\n"
	       "  Method: all terms, arcs as the path has them; the quickest of %d rounds of %d each.\n"
	       "  ours %.0f ns, bare path %.0f ns, ratio %.2f (reach: under 10)%s\n",
		JOINTS, ROUNDS, REPEATS, best / stations * 1e9, least / stations * 1e9, best / least,
		best / least < 10 && isfinite(sink) ? "" : " NOT REACHED");
	double worst = long_run();
	printf("Sigmas at the end of %d joints against %d draws of every error.\n"
	       "  the worst of north, east and up differs by %.2f %% (reach: under 2)%s\n",
		LONG_JOINTS, LONG_DRAWS, worst * 100, worst < 0.02 ? "" : " NOT REACHED");
	return 0;
}

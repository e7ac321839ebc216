/* For the tests of the plan: bores on a level line and on the plain job's, ground that answers exactly as it
 * is said to, and an integration of the plan that shares no code with the program.
 */
#ifndef TESTS_MODEL_PLAN_H
#define TESTS_MODEL_PLAN_H

#include "geom/angle.h"
#include "model/setting.h"
#include "model/steering.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdlib.h>
#include <string.h>

static const double foot = 0.3048;

static struct job job;
static struct solution solution;
static struct plan plan;

static inline int plan_begin(void **state)
{
	(void)state;
	memset(&solution, 0, sizeof solution);
	memset(&job, 0, sizeof job);
	return 0;
}

static inline int plan_end(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

static inline struct setup plan_setup(void)
{
	return sb_solution_setup(&job, &solution);
}

/* Due east and level, 3000 ft, in joints of 31 ft, with no limit but a joint's smallest radius; readings that
 * are trusted. */
static inline void level_job(const char *joint_minimum)
{
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "down");
	jobs_set(&job, "control", "entry", "5000, 1000, 100");
	jobs_set(&job, "control", "exit", "8000, 1000, 100");
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "tool", "sigma_inclination", "0.001");
	jobs_set(&job, "tool", "sigma_azimuth", "0.001");
	jobs_set(&job, "drill_pipe", "joint_length", "31");
	if (joint_minimum)
		jobs_set(&job, "bend", "joint_minimum", joint_minimum);
	jobs_set(&job, "steering", "slide_turn", "0.2");
	jobs_row(&job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(&job, "profile", (const char *const[]){ "3000", "100", "" });
}

static inline void log_course(double inclination, double azimuth)
{
	char inc[24], azi[24];

	snprintf(inc, sizeof inc, "%.5f", inclination);
	snprintf(azi, sizeof azi, "%.5f", azimuth);
	jobs_log(&job, "", inc, azi);
}

/* So many feet to the right of the level line and parallel to it, after 6 joints: one straight, two turned
 * out, two back, one straight. */
static inline void log_beside(double feet)
{
	double out = sb_deg(feet / (4 * 31)); /* t / 2, 3 t / 2, 3 t / 2, t / 2 times 31 ft */

	log_course(90, 90);
	log_course(90, 90 + out);
	log_course(90, 90 + 2 * out);
	log_course(90, 90 + out);
	log_course(90, 90);
	log_course(90, 90);
}

/* Ground that answers exactly as the sheet guesses, and is known to. */
static inline void plan_solve(void)
{
	jobs_solve(&job, &solution);
	sb_response_tell(&solution.response);
}

static inline void plan_make(void)
{
	struct setup s = plan_setup();

	plan_solve();
	sb_steering_make(&s, &solution.path, &solution.response, &plan);
}

/* ---- without the program's arcs ---- */

static inline struct vec3 unit_of(const struct attitude *a)
{
	return (struct vec3){ sin(a->inc_rad) * cos(a->azi_rad), sin(a->inc_rad) * sin(a->azi_rad),
		-cos(a->inc_rad) };
}

/* Heading a share t of the way from one to another, along the great circle; for turns well below a half. */
static inline struct vec3 heading_between(struct vec3 a, struct vec3 b, double t)
{
	double cn = a.e * b.u - a.u * b.e, ce = a.u * b.n - a.n * b.u, cu = a.n * b.e - a.e * b.n;
	double angle = atan2(sqrt(cn * cn + ce * ce + cu * cu), a.n * b.n + a.e * b.e + a.u * b.u);
	double from = angle < 1e-9 ? 1 - t : sin((1 - t) * angle) / sin(angle),
	       to = angle < 1e-9 ? t : sin(t * angle) / sin(angle);

	return (struct vec3){ from * a.n + to * b.n, from * a.e + to * b.e, from * a.u + to * b.u };
}

/* Place a share of a joint further on: Simpson's rule over the headings. */
static inline struct vec3 walked(
	struct vec3 at, struct vec3 from, struct vec3 to, double length, double share)
{
	const int steps = 16;
	double h = share / steps;

	for (int i = 0; i <= steps; i++) {
		double weight = length * h / 3 * (i == 0 || i == steps ? 1 : i % 2 ? 4 : 2);
		struct vec3 d = heading_between(from, to, i * h);
		at = (struct vec3){ at.n + weight * d.n, at.e + weight * d.e, at.u + weight * d.u };
	}
	return at;
}

/* The plan's headings walked from the bit: every joint must end where the plan says. */
static inline void assert_lands_where_it_says(const struct plan *p)
{
	struct vec3 at = p->bit, from = unit_of(&p->heading);

	for (size_t k = 0; k < p->count; k++) {
		const struct plan_joint *j = &p->joints[k];
		struct vec3 to = unit_of(&j->target);
		at = walked(at, from, to, j->length_m, 1);
		from = to;
		assert_near(at.n, j->at.n, 1e-6);
		assert_near(at.e, j->at.e, 1e-6);
		assert_near(at.u, j->at.u, 1e-6);
	}
}

static inline double turn_size(const struct plan_joint *j)
{
	return hypot(j->turn_up, j->turn_right);
}

#endif

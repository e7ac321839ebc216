/* A straight level hole, to reckon clearance and cover by: feet, due east from 5000, 1000 at elevation 100,
 * joints of 31 ft; the final hole is 24 inches, so its wall lies 1 ft from its centre line.
 */
#ifndef TESTS_MODEL_LEVEL_HOLE_H
#define TESTS_MODEL_LEVEL_HOLE_H

#include "model/solve.h"

#include "drill.h"

static struct job job;
static struct solution s;

static const double foot = 0.3048;

static inline int setup(void **state)
{
	(void)state;
	memset(&s, 0, sizeof s);
	sb_setting_init(&job);
	jobs_set(&job, "job", "unit", "ft");
	jobs_set(&job, "job", "inclination", "down");
	jobs_set(&job, "control", "entry", "5000, 1000, 100");
	jobs_set(&job, "control", "exit", "6000, 1000, 100");
	jobs_set(&job, "azimuth", "reference", "grid");
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_set(&job, "drill_pipe", "joint_length", "31");
	jobs_set(&job, "entry", "inclination", "90");
	jobs_set(&job, "entry", "azimuth", "90");
	jobs_set(&job, "hole", "pilot_diameter", "12");
	jobs_set(&job, "hole", "final_diameter", "24");
	jobs_row(&job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(&job, "profile", (const char *const[]){ "1000", "100", "" });
	return 0;
}

static inline int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static inline void obstacle(const char *name, const char *easting, const char *northing,
	const char *elevation, const char *diameter, const char *clearance)
{
	jobs_row(&job, "obstacles",
		(const char *const[]){ name, "main", easting, northing, elevation, diameter, clearance });
}

/* A pipe square across the line at a station. */
static inline void crossing(
	double station, const char *elevation, const char *diameter, const char *clearance)
{
	obstacle("gas main", typed(5000 + station, 3), "900", elevation, diameter, clearance);
	obstacle("gas main", typed(5000 + station, 3), "1100", elevation, diameter, clearance);
}

static inline void ground(const char *station, const char *elevation)
{
	jobs_row(&job, "ground", (const char *const[]){ station, elevation });
}

static inline void drill(int joints)
{
	for (int i = 0; i < joints; i++)
		jobs_log(&job, "", "90", "90");
	jobs_solve(&job, &s);
}

static inline struct clearance_ask ask(void)
{
	return sb_solution_clearance(&job, &s);
}

static inline struct passing drilled(size_t i)
{
	struct clearance_ask a = ask();

	return sb_clearance_drilled(&a, i);
}

static inline const struct warning *warned(enum warning_kind kind)
{
	for (size_t i = 0; i < s.warning_count; i++)
		if (s.warnings[i].kind == kind)
			return &s.warnings[i];
	return NULL;
}

#endif

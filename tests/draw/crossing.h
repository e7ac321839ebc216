/* A river crossing to draw: 2400 ft due east, 31 ft joints. Ten degrees down, 2400 ft radius, level at 440
 * ft, eight degrees up; a corridor that narrows at 15+00; a gas main square across the line at 3+00, a pile
 * 12 ft to the right of it at 20+00. All invented. */
#ifndef DRAW_CROSSING_H
#define DRAW_CROSSING_H

#include "geom/angle.h"
#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define FOOT 0.3048

#define CROSSING_ROW(job, table, ...) jobs_row(job, table, (const char *const[]){ __VA_ARGS__ })

/* Readings without error, so that a picture shows what it is about; tests of give or take set some. */
static inline void crossing_sure(struct job *job)
{
	static const char *const terms[][2] = { { "tool", "sigma_inclination" }, { "tool", "sigma_azimuth" },
		{ "tool", "sigma_depth" }, { "tool", "bias_inclination" }, { "tool", "bias_azimuth" },
		{ "uncertainty", "declination" }, { "uncertainty", "declination_by_field" },
		{ "uncertainty", "string_field" }, { "uncertainty", "depth_scale" },
		{ "uncertainty", "carried_bias" }, { "uncertainty", "carried_noise" } };

	for (size_t i = 0; i < sizeof terms / sizeof *terms; i++)
		jobs_set(job, terms[i][0], terms[i][1], "0");
}

static inline void crossing_settings(struct job *job)
{
	sb_setting_init(job);
	jobs_set(job, "job", "name", "Tern Slough");
	jobs_set(job, "job", "unit", "ft");
	jobs_set(job, "job", "inclination", "down");
	jobs_set(job, "control", "entry", "5000, 8000, 500");
	jobs_set(job, "control", "exit", "7400, 8000, 496");
	jobs_set(job, "azimuth", "reference", "grid");
	jobs_set(job, "tool", "sensor_to_bit", "15");
	jobs_set(job, "drill_pipe", "joint_length", "31");
	jobs_set(job, "corridor", "up", "6");
	jobs_set(job, "corridor", "down", "6");
	jobs_set(job, "corridor", "left", "8");
	jobs_set(job, "corridor", "right", "8");
	jobs_set(job, "entry", "inclination", "80");
	jobs_set(job, "entry", "azimuth", "90");
	crossing_sure(job);
}

static inline void crossing_tables(struct job *job)
{
	CROSSING_ROW(job, "profile", "0", "500", "");
	CROSSING_ROW(job, "profile", "340.277", "440", "2400");
	CROSSING_ROW(job, "profile", "2001.539", "440", "2400");
	CROSSING_ROW(job, "profile", "2400", "496", "");
	CROSSING_ROW(job, "corridor", "1500", "2400", "3", "3", "4", "4", "");
	CROSSING_ROW(job, "ground", "0", "500");
	CROSSING_ROW(job, "ground", "420", "498");
	CROSSING_ROW(job, "ground", "560", "476");
	CROSSING_ROW(job, "ground", "800", "468");
	CROSSING_ROW(job, "ground", "1200", "462");
	CROSSING_ROW(job, "ground", "1550", "466");
	CROSSING_ROW(job, "ground", "1750", "484");
	CROSSING_ROW(job, "ground", "1900", "497");
	CROSSING_ROW(job, "ground", "2400", "496");
	CROSSING_ROW(job, "obstacles", "gas main", "pipe", "5300", "7900", "489", "2", "6");
	CROSSING_ROW(job, "obstacles", "gas main", "pipe", "5300", "8100", "489", "2", "6");
	CROSSING_ROW(job, "obstacles", "pile", "pile", "7000", "7988", "470", "3", "5");
}

static inline void crossing_sheet(struct job *job)
{
	crossing_settings(job);
	crossing_tables(job);
}

/* The design's slope at a station, degrees: from the figures above. */
static inline double crossing_slope(double station)
{
	if (station < 133.5)
		return -10;
	if (station < 550.25)
		return -sb_deg(asin((550.25 - station) / 2400));
	if (station < 1833.7)
		return 0;
	return station < 2167.7 ? sb_deg(asin((station - 1833.7) / 2400)) : 8;
}

/* Drills on to a joint, so many degrees lower and more to the left than the design. */
static inline void crossing_drill(struct job *job, int to, double low, double left)
{
	char inclination[16], azimuth[16];

	for (int j = sb_job_in_ground(job) + 1; j <= to; j++) {
		snprintf(inclination, sizeof inclination, "%.2f", 90 + crossing_slope(31.0 * j - 15) - low);
		snprintf(azimuth, sizeof azimuth, "%.2f", 90 - left);
		jobs_log(job, "", inclination, azimuth);
	}
}

/* 30 joints a little low and left; six that build too much, withdrawn; on to joint 41. */
static inline void crossing_drilled(struct job *job, struct solution *s)
{
	crossing_sheet(job);
	crossing_drill(job, 30, 0.12, 0.1);
	crossing_drill(job, 36, -1.5, -0.3);
	jobs_withdraw(job, 30);
	crossing_drill(job, 41, 0.2, 0.2);
	*s = (struct solution){ 0 };
	jobs_solve(job, s);
}

#endif

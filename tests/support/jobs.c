/* Ready jobs. All names and coordinates are invented. */
#include "support/jobs.h"

#include "base/str.h"
#include "model/setting.h"
#include "support/near.h"

#include <stdio.h>
#include <string.h>

void jobs_set(struct job *job, const char *section, const char *key, const char *text)
{
	const struct setting *s = sb_setting(section, key);
	struct sb_err err = { 0 };

	if (s == NULL || sb_setting_put(s, job, text, &err)) {
		print_error("[%s] %s = %s: %s\n", section, key, text, s ? err.text : "no such key");
		fail();
	}
}

void jobs_row(struct job *job, const char *table, const char *const *cells)
{
	const struct sheet_table *t = sb_sheet_table(table);
	struct sb_err err = { 0 };
	void *row;

	assert_non_null(t);
	row = sb_sheet_row_new(t, job);
	for (size_t i = 0; i < t->column_count; i++)
		if (sb_sheet_cell_put(&t->columns[i], row, cells[i], &err)) {
			print_error("%s.%s: %s\n", table, t->columns[i].name, err.text);
			fail();
		}
}

static void common(struct job *job, const char *name, const char *unit, const char *incline)
{
	sb_setting_init(job);
	jobs_set(job, "job", "name", name);
	jobs_set(job, "job", "owner", "Larkmoor Water");
	jobs_set(job, "job", "contractor", "Osier Crossings");
	jobs_set(job, "job", "unit", unit);
	jobs_set(job, "job", "inclination", incline);
	jobs_set(job, "control", "crs", "local");
	jobs_set(job, "control", "vertical_datum", "site datum");
	jobs_set(job, "product_pipe", "material", "steel");
	jobs_set(job, "product_pipe", "outside_diameter", "12.75");
	jobs_set(job, "product_pipe", "wall", "0.375");
}

void jobs_plain(struct job *job)
{
	common(job, "Plain", "ft", "down");
	jobs_set(job, "control", "entry", "5000, 1000, 100");
	jobs_set(job, "control", "exit", "6200, 1000, 100");
	jobs_set(job, "azimuth", "reference", "grid");
	jobs_set(job, "tool", "sensor_to_bit", "0");
	jobs_set(job, "tool", "sigma_inclination", "0.1");
	jobs_set(job, "tool", "sigma_azimuth", "0.3");
	jobs_set(job, "drill_pipe", "joint_length", "31");
	jobs_set(job, "drill_pipe", "minimum_radius", "300");
	jobs_set(job, "bend", "joint_minimum", "600");
	jobs_set(job, "bend", "window_minimum", "900");
	jobs_set(job, "corridor", "up", "2");
	jobs_set(job, "corridor", "down", "3");
	jobs_set(job, "corridor", "left", "4");
	jobs_set(job, "corridor", "right", "5");
	jobs_set(job, "corridor", "exit_long", "30");
	jobs_set(job, "corridor", "exit_short", "10");
	jobs_set(job, "corridor", "exit_left", "10");
	jobs_set(job, "corridor", "exit_right", "10");
	jobs_set(job, "entry", "inclination", "80");
	jobs_set(job, "entry", "azimuth", "90");
	/* 10 degrees down to elevation 45, level, 10 degrees up; tan 10 = 0.17632698 */
	jobs_row(job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(job, "profile", (const char *const[]){ "311.920499", "45", "1200" });
	jobs_row(job, "profile", (const char *const[]){ "888.079501", "45", "1200" });
	jobs_row(job, "profile", (const char *const[]){ "1200", "100", "" });
	jobs_row(job, "ground", (const char *const[]){ "0", "100" });
	jobs_row(job, "ground", (const char *const[]){ "600", "70" });
	jobs_row(job, "ground", (const char *const[]){ "1200", "100" });
}

void jobs_curved(struct job *job)
{
	common(job, "Curved", "m", "level");
	jobs_set(job, "control", "entry", "300000.00, 5000000.00, 20.00");
	jobs_set(job, "control", "exit", "300280.00, 5000260.00, 20.00");
	jobs_set(job, "azimuth", "reference", "magnetic");
	jobs_set(job, "azimuth", "declination", "3.40");
	jobs_set(job, "azimuth", "convergence", "-1.20");
	jobs_set(job, "azimuth", "scale_factor", "0.9996");
	jobs_set(job, "tool", "sensor_to_bit", "6.5");
	jobs_set(job, "drill_pipe", "joint_length", "9.6");
	jobs_set(job, "bend", "joint_minimum", "150");
	jobs_set(job, "bend", "window_minimum", "250");
	jobs_set(job, "corridor", "up", "1");
	jobs_set(job, "corridor", "down", "1");
	jobs_set(job, "corridor", "left", "1.5");
	jobs_set(job, "corridor", "right", "1.5");
	jobs_row(job, "alignment", (const char *const[]){ "300000.00", "5000000.00", "" });
	jobs_row(job, "alignment", (const char *const[]){ "300120.00", "5000160.00", "500" });
	jobs_row(job, "alignment", (const char *const[]){ "300280.00", "5000260.00", "" });
	jobs_row(job, "profile", (const char *const[]){ "0", "20.00", "" });
	jobs_row(job, "profile", (const char *const[]){ "80", "6.00", "400" });
	jobs_row(job, "profile", (const char *const[]){ "300", "6.00", "400" });
	/* The alignment's length in the ground: 386.718. */
	jobs_row(job, "profile", (const char *const[]){ "386.72", "20.00", "" });
}

void jobs_graded(struct job *job)
{
	common(job, "Graded", "ftUS", "grade");
	jobs_set(job, "control", "entry", "2000, 2000, 50");
	jobs_set(job, "control", "exit", "2000, 2800, 50");
	jobs_set(job, "azimuth", "reference", "bore");
	jobs_set(job, "azimuth", "bore_azimuth_read", "4.5");
	jobs_set(job, "tool", "sensor_to_bit", "40");
	jobs_set(job, "drill_pipe", "joint_length", "20");
	jobs_set(job, "bend", "joint_minimum", "500");
	jobs_set(job, "bend", "window_length", "100");
	jobs_set(job, "bend", "window_minimum", "800");
	jobs_set(job, "bend", "method", "sum");
	jobs_set(job, "corridor", "up", "0");
	jobs_set(job, "corridor", "down", "4");
	jobs_row(job, "profile", (const char *const[]){ "0", "50", "" });
	jobs_row(job, "profile", (const char *const[]){ "400", "10", "1500" });
	jobs_row(job, "profile", (const char *const[]){ "800", "50", "" });
}

struct reading jobs_reading(
	const struct job *job, const char *length, const char *inclination, const char *azimuth)
{
	struct reading r = { .leg = sb_job_leg(job), .joint = sb_job_in_ground(job) + 1, .at_ms = 1000 };
	struct sb_err err = { 0 };

	sb_copy(r.who, sizeof r.who, "Ida");
	r.joint_length = sb_job_tally(job, r.joint);
	if ((*length && sb_row_field_put(sb_row_field("joint_length"), &r, job->incline, length, &err)) ||
		sb_row_field_put(sb_row_field("inclination"), &r, job->incline, inclination, &err) ||
		sb_row_field_put(sb_row_field("azimuth"), &r, job->incline, azimuth, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
	return r;
}

static int64_t add(struct job *job, struct reading *r)
{
	r->id = job->reading_count ? job->readings[job->reading_count - 1].id + 1 : 1;
	sb_job_add_reading(job, r);
	return r->id;
}

int64_t jobs_log(struct job *job, const char *length, const char *inclination, const char *azimuth)
{
	struct reading r = jobs_reading(job, length, inclination, azimuth);

	return add(job, &r);
}

int64_t jobs_correct(struct job *job, int joint, const char *inclination, const char *azimuth)
{
	const struct reading *old = sb_job_joint(job, joint);
	struct reading r;

	assert_non_null(old);
	r = jobs_reading(job, old->joint_length.text, inclination, azimuth);
	r.leg = old->leg;
	r.joint = old->joint;
	r.corrects = old->id;
	sb_copy(r.reason, sizeof r.reason, "misread");
	return add(job, &r);
}

void jobs_withdraw(struct job *job, int to_joint)
{
	struct leg leg = {
		.number = sb_job_leg(job) + 1, .to_joint = to_joint, .who = "Ida", .reason = "off line"
	};

	sb_job_add_leg(job, &leg);
}

void jobs_solve(const struct job *job, struct solution *out)
{
	struct sb_problems problems = { 0 };
	struct sb_err err = { 0 };

	if (sb_solve(job, out, &problems, &err)) {
		for (size_t i = 0; i < problems.count; i++)
			print_error("%s:%d %s: %s\n", problems.list[i].file, problems.list[i].line,
				problems.list[i].column, problems.list[i].text);
		print_error("%s\n", err.text);
		fail();
	}
	sb_problems_clear(&problems);
}

void jobs_follow(struct job *job, int joints)
{
	struct solution s = { 0 };

	jobs_solve(job, &s);
	for (int i = 0; i < joints; i++) {
		int joint = sb_job_in_ground(job) + 1;
		double md = 0;
		for (int k = 1; k <= joint; k++)
			md += sb_frame_metres(&s.frame,
				k < joint ? sb_job_joint(job, k)->joint_length.value
					  : sb_job_tally(job, k).value);
		md -= s.frame.sensor_to_bit_m;
		/* The design by measured depth: small steps along it. */
		double station = 0;
		for (int k = 0; md > 0 && k < 2000; k++) {
			struct design_place p = sb_design_at(&s.design, station);
			station += md / 2000 * hypot(p.heading.n, p.heading.e);
		}
		struct design_place p = sb_design_at(&s.design, station);
		struct number inc = sb_number_of(sb_frame_inc_typed(&s.frame, p.inc_rad), 4);
		struct number azi = sb_number_of(sb_frame_azi_typed(&s.frame, p.azi_rad), 4);
		jobs_log(job, "", inc.text, azi.text);
	}
	sb_solution_clear(&s);
}

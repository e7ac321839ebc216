/* Fixes against paths that are known: what they are off by, what they propose, and how sure the corrected
 * path is. */
#include "geom/angle.h"
#include "geom/random.h"
#include "model/fact.h"
#include "support/jobs.h"
#include "support/near.h"

#include "model/fixes.h"

#include <stdlib.h>
#include <string.h>

static struct job job;
static struct solution solved;
static const double foot = 0.3048;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solved);
	sb_job_clear(&job);
	return 0;
}

/* ---- facts ---- */

static int64_t acts; /* grows over all that is put into the job */

static struct fact fact(int64_t id)
{
	return (struct fact){
		.id = id, .act = 1000000 + ++acts, .leg = sb_job_leg(&job), .joint = sb_job_in_ground(&job)
	};
}

static void put(void *to, enum act_kind kind, const char *column, double value)
{
	char text[32];

	snprintf(text, sizeof text, "%.6f", value);
	if (sb_fact_put(sb_fact_sort(kind), to, column, text, NULL))
		fail_msg("%s cannot be %s", column, text);
}

/* By station and offset; NAN: not observed. Feet. */
static void add_fix(double depth, double station, double offset, double elevation, double sigma)
{
	struct fix f = { .fact = fact((int64_t)job.fix_count + 1), .kind = FIX_COIL };

	put(&f, ACT_FIX, "depth", depth);
	if (!isnan(station)) {
		put(&f, ACT_FIX, "station", station);
		put(&f, ACT_FIX, "sigma_along", sigma);
	}
	if (!isnan(offset)) {
		put(&f, ACT_FIX, "offset", offset);
		put(&f, ACT_FIX, "sigma_across", sigma);
	}
	if (!isnan(elevation)) {
		put(&f, ACT_FIX, "elevation", elevation);
		put(&f, ACT_FIX, "sigma_up", sigma);
	}
	sb_fact_add(&job, ACT_FIX, &f);
}

static void take_proposal(void)
{
	struct adjustment a;

	sb_fixes_adjustment(&solved.fixes, &a);
	a.fact = fact((int64_t)job.adjustment_count + 1);
	sb_fact_add(&job, ACT_ADJUST, &a);
}

static void take_back(void)
{
	struct adjustment none = { .fact = fact((int64_t)job.adjustment_count + 1) };

	sb_fact_add(&job, ACT_ADJUST, &none);
}

static void solve(void)
{
	jobs_solve(&job, &solved);
}

/* The path at a depth, feet: where a fix without error would put it. */
static struct deviation path_at(double depth, double *elevation)
{
	struct vec3 at;
	int joint = sb_path_at(&solved.path, depth * foot, &at, NULL);
	struct deviation d =
		sb_deviation(&solved.design, at, NULL, solved.path.rows[joint].deviation.station_m);

	*elevation = at.u / foot;
	return d;
}

/* ---- one fix ---- */

static void a_fix_is_off_by_what_it_says_more_than_the_path(void **state)
{
	double elevation;

	(void)state;
	jobs_follow(&job, 12);
	solve();
	struct deviation d = path_at(250, &elevation);
	add_fix(250, d.station_m / foot + 0.7, d.offset_m / foot - 1.25, elevation + 0.4, 0.5);
	solve();
	const struct fix_view *v = &solved.fixes.list[0];
	assert_int_equal(v->standing, FIX_STANDS);
	assert_near(v->off_m[FIX_ALONG] / foot, 0.7, 1e-5);
	assert_near(v->off_m[FIX_ACROSS] / foot, -1.25, 1e-5);
	assert_near(v->off_m[FIX_UP] / foot, 0.4, 1e-5);
	assert_int_equal(v->freedom, 3);
	assert_true(v->agrees);
}

/* The line runs due east from 1000, 5000 or wherever the sheet says: right of it is south. */
static void coordinates_say_the_same_as_station_and_offset(void **state)
{
	struct fix f = { .fact = { .id = 2 }, .kind = FIX_BEACON };
	double elevation;

	(void)state;
	jobs_follow(&job, 12);
	solve();
	struct deviation d = path_at(250, &elevation);
	add_fix(250, d.station_m / foot + 0.7, d.offset_m / foot - 1.25, NAN, 0.5);
	f.fact = fact(2);
	put(&f, ACT_FIX, "depth", 250);
	put(&f, ACT_FIX, "easting", job.entry.easting.value + d.station_m / foot + 0.7);
	put(&f, ACT_FIX, "northing", job.entry.northing.value - (d.offset_m / foot - 1.25));
	put(&f, ACT_FIX, "sigma_along", 0.5);
	put(&f, ACT_FIX, "sigma_across", 0.5);
	sb_fact_add(&job, ACT_FIX, &f);
	solve();
	for (int k = 0; k < FIX_AXES; k++)
		assert_near(solved.fixes.list[1].off_m[k], solved.fixes.list[0].off_m[k], 2e-6);
	assert_false(solved.fixes.list[1].seen[FIX_UP]);
}

/* Two sides that claim sigma each: the fix's own and the path's, which is the covariance of uncert.h. */
static void both_claims_are_those_of_path_and_fix(void **state)
{
	double elevation;

	(void)state;
	jobs_follow(&job, 12);
	solve();
	const struct row *row = &solved.path.rows[9];
	double depth = row->survey_md_m / foot, path_sigma = row->doubt.across_m;
	struct deviation d = path_at(depth, &elevation);
	add_fix(depth, NAN, d.offset_m / foot + 3, NAN, 0.8);
	solve();
	const struct fix_view *v = &solved.fixes.list[0];
	double both = hypot(path_sigma, 0.8 * foot);
	assert_near(v->both_sigma_m[FIX_ACROSS], both, 1e-6);
	assert_near(v->chi_square, pow(3 * foot / both, 2), 1e-5);
}

static void where_a_fix_stands_is_said(void **state)
{
	(void)state;
	jobs_follow(&job, 10);
	add_fix(100, NAN, 0, NAN, 0.5);
	add_fix(300, NAN, 0, NAN, 0.5);
	add_fix(0, NAN, 0, NAN, 0.5);
	jobs_withdraw(&job, 6);
	job.legs[0].act = 1000000 + ++acts;
	solve();
	assert_int_equal(solved.fixes.list[0].standing, FIX_STANDS);
	assert_int_equal(solved.fixes.list[1].standing, FIX_PULLED_BACK);
	assert_int_equal(solved.fixes.list[2].standing, FIX_AT_ENTRY);
	assert_int_equal((int)solved.fixes.proposal.count, 1);
	struct fix_use aside = { .fact = fact(1), .fix = 1, .used = 0 };
	sb_fact_add(&job, ACT_FIX_USE, &aside);
	solve();
	assert_int_equal(solved.fixes.list[0].standing, FIX_ASIDE);
	assert_int_equal(solved.fixes.proposal.status, PROPOSAL_NO_FIX);
}

/* ---- the correction ---- */

/* Every azimuth is read one degree too far to the left; two fixes know better. */
static void a_bias_is_found_and_taken_away(void **state)
{
	struct job truth;
	double elevation, offset[2];

	(void)state;
	jobs_follow(&job, 20);
	sb_job_copy(&job, &truth);
	solve();
	offset[0] = path_at(300, &elevation).offset_m / foot;
	offset[1] = path_at(590, &elevation).offset_m / foot;
	double bit = solved.bit.deviation.offset_m;
	for (size_t i = 0; i < job.reading_count; i++)
		if (sb_number_given(&job.readings[i].azimuth))
			job.readings[i].azimuth = sb_number_of(job.readings[i].azimuth.value - 1, 4);
	if (sb_number_given(&job.entry_azimuth))
		job.entry_azimuth = sb_number_of(job.entry_azimuth.value - 1, 4);
	add_fix(300, NAN, offset[0], NAN, 0.05);
	add_fix(590, NAN, offset[1], NAN, 0.05);
	solve();
	assert_near(sb_deg(solved.fixes.proposal.estimate[CORRECT_AZIMUTH]), 1, 0.03);
	assert_false(solved.fixes.proposal.told[CORRECT_INCLINATION]);
	double wrong = solved.bit.deviation.offset_m, doubt = solved.bit.doubt.across_m;
	assert_true(fabs(wrong - bit) > 3);
	take_proposal();
	solve();
	assert_near(solved.bit.deviation.offset_m, bit, 0.1);
	assert_true(solved.bit.doubt.across_m < 0.3 * doubt);
	/* and back: to the last bit */
	take_back();
	solve();
	assert_near(solved.bit.deviation.offset_m, wrong, 0);
	assert_near(solved.bit.doubt.across_m, doubt, 0);
	sb_job_clear(&truth);
}

static void the_path_as_read_stays_to_be_had(void **state)
{
	struct solution as_read = { 0 };
	struct sb_err err;

	(void)state;
	jobs_follow(&job, 12);
	add_fix(200, NAN, 4, NAN, 0.3);
	solve();
	double before = solved.bit.deviation.offset_m;
	take_proposal();
	solve();
	assert_true(solved.bit.deviation.offset_m > before + 0.3);
	assert_int_equal(sb_solve_with(&job, NULL, &as_read, &err), 0);
	assert_near(as_read.bit.deviation.offset_m, before, 0);
	/* misclosures as read are the same before and after */
	assert_near(solved.fixes.list[0].read_m[FIX_ACROSS], as_read.fixes.list[0].read_m[FIX_ACROSS], 1e-9);
	assert_true(
		fabs(solved.fixes.list[0].off_m[FIX_ACROSS]) < 0.3 * solved.fixes.list[0].read_m[FIX_ACROSS]);
	sb_solution_clear(&as_read);
}

/* Nothing can be corrected where the sheet says that there is no error to share. */
static void a_sheet_without_doubt_has_nothing_to_correct(void **state)
{
	static const char *const none[][2] = { { "tool", "bias_azimuth" }, { "tool", "bias_inclination" },
		{ "uncertainty", "declination" }, { "uncertainty", "declination_by_field" },
		{ "uncertainty", "string_field" }, { "uncertainty", "depth_scale" } };
	struct sb_str words = { 0 };

	(void)state;
	for (size_t i = 0; i < sizeof none / sizeof *none; i++)
		jobs_set(&job, none[i][0], none[i][1], "0");
	jobs_follow(&job, 12);
	add_fix(200, NAN, 0.4, NAN, 0.3);
	solve();
	assert_int_equal(solved.fixes.proposal.status, PROPOSAL_CERTAIN);
	assert_int_equal(solved.fixes.list[0].freedom, 1);
	sb_fixes_say_fit(&job, &solved.fixes, &words);
	assert_non_null(strstr(words.text, "there is nothing to correct"));
	sb_str_clear(&words);
}

/* Three of four agree; the fourth was read at another depth. Of two alone neither can be told to be wrong. */
static void the_one_that_stands_out_is_named(void **state)
{
	struct sb_str words = { 0 };

	(void)state;
	jobs_follow(&job, 18);
	add_fix(150, NAN, 0, NAN, 0.3);
	add_fix(250, NAN, 5, NAN, 0.3);
	solve();
	assert_false(solved.fixes.proposal.fits);
	assert_int_equal((int)solved.fixes.proposal.suspects, 2);
	sb_fixes_say_fit(&job, &solved.fixes, &words);
	assert_non_null(
		strstr(words.text, "(fix 1) and the coil at 250.000000 ft (fix 2) contradict one another"));
	add_fix(350, NAN, 0, NAN, 0.3);
	add_fix(450, NAN, 0, NAN, 0.3);
	solve();
	assert_int_equal((int)solved.fixes.proposal.suspects, 1);
	assert_true(solved.fixes.proposal.fixes[1].suspect);
	words.length = 0;
	sb_fixes_say_fit(&job, &solved.fixes, &words);
	assert_non_null(strstr(words.text, "(fix 2) stands out"));
	sb_str_clear(&words);
}

/* ---- chance ---- */

enum { JOINTS = 22, DRAWS = 3000, LOOKS = 5 };
static const double fix_depths[3] = { 217, 400, 640 };
static const int looks[LOOKS] = { 4, 7, 13, 18, 22 };

struct drawn {
	struct job truth, read;
	double sigma[UNCERT_TERMS];
};

static struct number angle(double degrees)
{
	return sb_number_of(degrees, 8);
}

/* Readings as a tool with these errors would give them on the true bore, that of the staked entry too. */
static void draw_readings(struct random *r, struct drawn *d)
{
	double inc = sb_deg(d->sigma[UNCERT_INCLINATION_BIAS] * random_normal(r));
	double azi = sb_deg(d->sigma[UNCERT_AZIMUTH_BIAS] * random_normal(r)) +
		sb_deg(d->sigma[UNCERT_DECLINATION] * random_normal(r));
	double string = sb_deg(d->sigma[UNCERT_INTERFERENCE] * random_normal(r));
	double scale = d->sigma[UNCERT_DEPTH_SCALE] * random_normal(r);

	d->read.entry_inclination =
		angle(80 + inc + sb_deg(d->sigma[UNCERT_INCLINATION_NOISE] * random_normal(r)));
	d->read.entry_azimuth = angle(90 + azi + string * sin(sb_rad(80)) +
		sb_deg(d->sigma[UNCERT_AZIMUTH_NOISE] * random_normal(r)));
	for (size_t i = 0; i < d->read.reading_count; i++) {
		const struct reading *t = &d->truth.readings[i];
		struct reading *o = &d->read.readings[i];
		double level = sin(sb_rad(t->inclination.value)) * sin(sb_rad(t->azimuth.value));
		o->inclination = angle(t->inclination.value + inc +
			sb_deg(d->sigma[UNCERT_INCLINATION_NOISE] * random_normal(r)));
		o->azimuth = angle(t->azimuth.value + azi + string * level +
			sb_deg(d->sigma[UNCERT_AZIMUTH_NOISE] * random_normal(r)));
		o->joint_length = angle(t->joint_length.value * (1 + scale) +
			d->sigma[UNCERT_LENGTH_NOISE] / foot * random_normal(r));
	}
}

/* What the doubt of the corrected path claims is what it scatters by: before, between and after the fixes. */
static void the_corrected_path_scatters_as_its_doubt_says(void **state)
{
	struct random r = { 83 };
	struct drawn d;
	struct solution truth = { 0 };
	double square[LOOKS][2] = { { 0 } }, claim[LOOKS][2] = { { 0 } }, place[3][2];
	int agreeing = 0;

	(void)state;
	jobs_set(&job, "tool", "sensor_to_bit", "0");
	jobs_follow(&job, JOINTS);
	sb_job_copy(&job, &d.truth);
	jobs_solve(&job, &truth);
	solve();
	memcpy(d.sigma, truth.uncertainty.model.sigma, sizeof d.sigma);
	for (int k = 0; k < 3; k++)
		place[k][0] = path_at(fix_depths[k], &place[k][1]).offset_m / foot;
	for (int round = 0; round < DRAWS; round++) {
		sb_job_clear(&job);
		sb_job_copy(&d.truth, &job);
		sb_job_copy(&d.truth, &d.read);
		draw_readings(&r, &d);
		job.entry_inclination = d.read.entry_inclination;
		job.entry_azimuth = d.read.entry_azimuth;
		memcpy(job.readings, d.read.readings, job.reading_count * sizeof *job.readings);
		sb_job_clear(&d.read);
		for (int k = 0; k < 3; k++)
			add_fix(fix_depths[k], NAN, place[k][0] + 0.6 * random_normal(&r),
				place[k][1] + 0.6 * random_normal(&r), 0.6);
		solve();
		agreeing += solved.fixes.proposal.probability >= 0.05;
		take_proposal();
		solve();
		for (int k = 0; k < LOOKS; k++) {
			const struct row *got = &solved.path.rows[looks[k]],
					 *want = &truth.path.rows[looks[k]];
			square[k][0] += pow(got->deviation.offset_m - want->deviation.offset_m, 2) / DRAWS;
			square[k][1] += pow(got->deviation.height_m - want->deviation.height_m, 2) / DRAWS;
			claim[k][0] += pow(got->doubt.across_m, 2) / DRAWS;
			claim[k][1] += pow(got->doubt.up_m, 2) / DRAWS;
		}
	}
	/* 3,000 draws: a variance scatters by 2.6 percent. The fixes' depths are what the crew says, so that
	 * along slopes the depth's error is in their height too. */
	for (int k = 0; k < LOOKS; k++) {
		assert_near(square[k][0] / claim[k][0], 1, 0.11);
		assert_near(square[k][1] / claim[k][1], 1, 0.11);
	}
	assert_near(agreeing / (double)DRAWS, 0.95, 0.016);
	sb_job_clear(&d.truth);
	sb_solution_clear(&truth);
}

/* ---- warnings ---- */

static void a_joint_more_solved_alone_is_the_same_with_fixes(void **state)
{
	struct solution again = { 0 };
	struct sb_err err;
	size_t from;

	(void)state;
	jobs_set(&job, "tool", "sensor_to_bit", "20");
	jobs_follow(&job, 10);
	add_fix(305, NAN, 9, NAN, 0.2); /* past the sensor */
	solve();
	assert_true(solved.open[WARNING_FIX] >= 0);
	assert_false(solved.fixes.settled);
	for (int more = 0; more < 4; more++) {
		jobs_log(&job, "", "85.0", "90.2");
		job.readings[job.reading_count - 1].logged = 1000000 + ++acts;
		assert_int_equal(sb_solve_joint(&job, &solved, &from, &err), 0);
		jobs_solve(&job, &again);
		assert_int_equal((int)solved.warning_count, (int)again.warning_count);
		for (size_t i = 0; i < again.warning_count; i++)
			assert_memory_equal(&solved.warnings[i], &again.warnings[i], sizeof *again.warnings);
		assert_memory_equal(&solved.fixes.list[0], &again.fixes.list[0], sizeof *again.fixes.list);
	}
	assert_true(solved.fixes.settled);
	assert_true(solved.warnings[solved.open[WARNING_FIX]].last_joint == 14);
	sb_solution_clear(&again);
}

static void too_long_without_a_fix_is_said_until_there_is_one(void **state)
{
	double elevation;

	(void)state;
	jobs_set(&job, "uncertainty", "fix_every", "8");
	jobs_follow(&job, 7);
	solve();
	assert_int_equal(solved.open[WARNING_NO_FIX], -1);
	sb_job_clear(&job);
	jobs_plain(&job);
	jobs_set(&job, "uncertainty", "fix_every", "8");
	jobs_follow(&job, 12);
	solve();
	assert_true(solved.open[WARNING_NO_FIX] >= 0);
	const struct warning *w = &solved.warnings[solved.open[WARNING_NO_FIX]];
	assert_int_equal(w->joint, 8);
	assert_near(w->value, 12, 0);
	assert_string_equal(w->text,
		"No independent fix for 12 joints, since the entry; one every 8 joints is asked for. Get a fix before much more is drilled.");
	struct deviation d = path_at(290, &elevation);
	add_fix(290, NAN, d.offset_m / foot, NAN, 0.5);
	solve();
	assert_int_equal(solved.open[WARNING_NO_FIX], -1);
}

int main(void)
{
#define HERE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)
	const struct CMUnitTest tests[] = {
		HERE(a_fix_is_off_by_what_it_says_more_than_the_path),
		HERE(coordinates_say_the_same_as_station_and_offset),
		HERE(both_claims_are_those_of_path_and_fix),
		HERE(where_a_fix_stands_is_said),
		HERE(a_bias_is_found_and_taken_away),
		HERE(the_path_as_read_stays_to_be_had),
		HERE(a_sheet_without_doubt_has_nothing_to_correct),
		HERE(the_one_that_stands_out_is_named),
		HERE(the_corrected_path_scatters_as_its_doubt_says),
		HERE(a_joint_more_solved_alone_is_the_same_with_fixes),
		HERE(too_long_without_a_fix_is_said_until_there_is_one),
	};
	return run_tests(tests);
}

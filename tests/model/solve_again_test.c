/* Adding joints one by one and solving from the start give the same bits: in every kind of job, with what was
 * pulled back, corrected and not read, at every joint. And a refusal leaves nothing behind.
 */
#include "model/solve.h"

#include "drill.h"

#define same(a, b, member) assert_memory_equal(&(a)->member, &(b)->member, sizeof(a)->member)

static void same_attitude(const struct attitude *a, const struct attitude *b)
{
	same(a, b, inc_rad);
	same(a, b, azi_rad);
	same(a, b, heading);
}

static void same_deviation(const struct deviation *a, const struct deviation *b)
{
	same(a, b, station_m);
	same(a, b, offset_m);
	same(a, b, height_m);
	same(a, b, square_m);
	same(a, b, inc_off_rad);
	same(a, b, azi_off_rad);
	assert_int_equal(a->doubtful, b->doubtful);
}

static void same_use(const struct corridor_use *a, const struct corridor_use *b)
{
	same(a, b, share);
	same(a, b, value_m);
	same(a, b, limit_m);
	assert_int_equal(a->side, b->side);
}

static void same_row(const struct row *a, const struct row *b)
{
	assert_int_equal(a->reading, b->reading);
	assert_int_equal(a->leg, b->leg);
	assert_int_equal(a->joint, b->joint);
	same(a, b, bit_md_m);
	same(a, b, survey_md_m);
	assert_int_equal(a->taken, b->taken);
	assert_int_equal(a->on_path, b->on_path);
	same_attitude(&a->attitude, &b->attitude);
	same(a, b, at);
	same_deviation(&a->deviation, &b->deviation);
	same_use(&a->use, &b->use);
	same(a, b, course_m);
	same(a, b, dogleg_rad);
	same(a, b, dogleg_sigma_rad);
	same(a, b, radius_m);
	assert_int_equal(a->window.joints, b->window.joints);
	same(a, b, window.length_m);
	same(a, b, window.ends_rad);
	same(a, b, window.sum_rad);
	same(a, b, window.sigma_rad);
	same(a, b, window.radius_m);
}

static void same_path(const struct path *a, const struct path *b)
{
	assert_int_equal(a->count, b->count);
	assert_int_equal(a->old_count, b->old_count);
	assert_int_equal(a->on_count, b->on_count);
	assert_int_equal(a->entry_known, b->entry_known);
	for (size_t i = 0; i < a->count; i++)
		same_row(&a->rows[i], &b->rows[i]);
	for (size_t i = 0; i < a->old_count; i++)
		same_row(&a->old[i], &b->old[i]);
	assert_memory_equal(a->on_path, b->on_path, a->on_count * sizeof *a->on_path);
}

static void same_warning(const struct warning *a, const struct warning *b)
{
	assert_int_equal(a->kind, b->kind);
	assert_int_equal(a->level, b->level);
	assert_int_equal(a->leg, b->leg);
	assert_int_equal(a->joint, b->joint);
	assert_int_equal(a->worst_joint, b->worst_joint);
	assert_int_equal(a->last_joint, b->last_joint);
	same(a, b, station_m);
	same(a, b, value);
	same(a, b, limit);
	assert_int_equal(a->open, b->open);
	assert_int_equal(a->superseded, b->superseded);
	assert_int_equal(a->acknowledged, b->acknowledged);
	assert_string_equal(a->acknowledged_by, b->acknowledged_by);
	assert_string_equal(a->text, b->text);
}

static void same_solution(const struct solution *a, const struct solution *b)
{
	same_path(&a->path, &b->path);
	assert_int_equal(a->warning_count, b->warning_count);
	for (size_t i = 0; i < a->warning_count; i++)
		same_warning(&a->warnings[i], &b->warnings[i]);
	assert_memory_equal(a->open, b->open, sizeof a->open);
	same(a, b, bit.at);
	same(a, b, bit.apart_m);
	same_attitude(&a->bit.attitude, &b->bit.attitude);
	same_deviation(&a->bit.deviation, &b->bit.deviation);
	assert_int_equal(a->ahead.leaves_held, b->ahead.leaves_held);
	assert_int_equal(a->ahead.leaves_curved, b->ahead.leaves_curved);
	assert_int_equal(a->ahead.leaves_kept, b->ahead.leaves_kept);
	assert_int_equal(a->ahead.exit_known, b->ahead.exit_known);
	same(a, b, ahead.exit_long_m);
	same(a, b, budget.least_rad);
	same(a, b, budget.up_rad);
	same(a, b, budget.right_rad);
	assert_int_equal(a->level, b->level);
}

static void acknowledge(struct job *job, const struct solution *s)
{
	struct acknowledgement a = { .who = "Una", .reason = "seen" };

	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		if (!w->open || w->acknowledged)
			continue;
		snprintf(a.kind, sizeof a.kind, "%s", sb_warning_sorts[w->kind].name);
		a.leg = w->leg;
		a.joint = w->joint;
		a.to_joint = w->last_joint;
		a.level = (int)w->level;
		sb_job_add_acknowledgement(job, &a);
		return;
	}
}

static struct number typed_number(double value)
{
	return sb_number_of(value, 1);
}

/* One act of chance: mostly a joint, sometimes a correction, a pull-back or an acknowledgement. */
static void act(struct bore *b, struct random *r)
{
	double chance = random_unit(r);
	size_t changed;

	if (chance < 0.04 && b->job.in_ground > 3) {
		jobs_withdraw(&b->job, (int)(random_unit(r) * (double)b->job.in_ground));
		jobs_solve(&b->job, &b->s);
	} else if (chance < 0.08 && b->job.in_ground > 3) {
		int joint = 1 + (int)(random_unit(r) * ((double)b->job.in_ground - 1));
		const struct reading *old = sb_job_joint(&b->job, joint);
		jobs_correct(&b->job, joint, sb_reading_taken(old) ? old->inclination.text : "84", "77.7");
		jobs_solve(&b->job, &b->s);
	} else if (chance < 0.15) {
		acknowledge(&b->job, &b->s);
		sb_solve_acknowledged(&b->job, &b->s);
	} else {
		bore_drill(b, r);
		struct reading reading = bore_read(b, r);
		if (chance > 0.93)
			memset(&reading.azimuth, 0, sizeof reading.azimuth);
		reading.returns = (enum returns)(random_unit(r) * 4);
		if (random_unit(r) > 0.5)
			reading.annular = typed_number(random_between(r, 0, 200));
		reading.id = b->job.reading_count ? b->job.readings[b->job.reading_count - 1].id + 1 : 1;
		sb_job_add_reading(&b->job, &reading);
		assert_int_equal(sb_solve_joint(&b->job, &b->s, &changed, NULL), 0);
		assert_true(changed <= b->s.warning_count);
	}
}

/* Something to keep clear of every hundred feet or so, to either side of the design, and cover that is a
 * little less than the ground gives: both are broken now and then. */
static void surround(struct job *job, const struct drill_pipe *p, struct random *r)
{
	struct solution s = { 0 };
	double easting, northing, elevation;

	jobs_solve(job, &s);
	bool metres = job->unit == UNIT_M;
	for (int i = 0; i < 12; i++) {
		struct design_place at = sb_design_at(&s.design, random_between(r, 0, s.design.length_m));
		at.at.n += random_between(r, -2, 2);
		at.at.e += random_between(r, -2, 2);
		at.at.u += random_between(r, -2, 2);
		sb_frame_grid(&s.frame, at.at, &easting, &northing, &elevation);
		jobs_row(job, "obstacles",
			(const char *const[]){ i % 3 ? typed(i, 0) : "a line of several", "main",
				typed(easting, 3), typed(northing, 3), typed(elevation, 3),
				i % 2 ? "0.5" : "", typed(p->joint / 20, 2) });
	}
	for (int i = 0; i <= 20; i++)
		jobs_row(job, "ground",
			(const char *const[]){ typed(sb_frame_typed(&s.frame, s.design.length_m) * i / 25, 3),
				typed(100 + random_between(r, -1, 1) * p->joint / 8, 3) });
	jobs_row(job, "soil",
		(const char *const[]){ "-50", "4000", "200", "silt", metres ? "17" : "110",
			metres ? "10" : "1.5", "10", metres ? "2000" : "300", "" });
	jobs_set(job, "fluid", "weight", metres ? "1100" : "9.2");
	jobs_set(job, "hole", "pilot_diameter", metres ? "300" : "12");
	jobs_set(job, "hole", "final_diameter", metres ? "500" : "20");
	jobs_set(job, "cover", "minimum", typed(p->depth * 0.9, 2));
	jobs_set(job, "cover", "from", typed(p->joint * 6, 2));
	sb_solution_clear(&s);
}

static void one_by_one_and_from_the_start_give_the_same_bits(void **state)
{
	struct random r = { 404 };
	size_t warnings = 0, old = 0, kinds[WARNING_KINDS] = { 0 };

	(void)state;
	for (size_t i = 0; i < PIPES; i++) {
		struct solution again = { 0 };
		struct bore b;
		bore_begin(&b, &pipes[i], random_between(&r, 0, 360), 1.6);
		jobs_set(&b.job, "corridor", "down", typed(b.pipe->joint / 20, 2));
		jobs_set(&b.job, "corridor", "right", typed(b.pipe->joint / 10, 2));
		jobs_set(&b.job, "corridor", "exit_long", "1");
		if (i % 2)
			jobs_set(&b.job, "bend", "window_length", typed(3.3 * b.pipe->joint, 2));
		if (i % 3 == 0)
			jobs_set(&b.job, "tool", "projection", "curve");
		if (i % 4 == 1)
			jobs_set(&b.job, "uncertainty", "judge", "confidence");
		surround(&b.job, b.pipe, &r);
		jobs_solve(&b.job, &b.s);
		for (int k = 0; k < 90; k++) {
			act(&b, &r);
			jobs_solve(&b.job, &again);
			same_solution(&b.s, &again);
		}
		warnings += again.warning_count;
		for (size_t k = 0; k < again.warning_count; k++)
			kinds[again.warnings[k].kind]++;
		old += again.path.old_count;
		sb_solution_clear(&again);
		bore_end(&b);
	}
	assert_true(warnings > 100);
	assert_true(old > 100);
	for (int k = WARNING_CLEARANCE; k <= WARNING_COVER_AHEAD; k++)
		assert_true(kinds[k] > 3);
	assert_true(kinds[WARNING_ANNULAR] > 3 && kinds[WARNING_RETURNS] > 3);
}

/* ---- refusals ---- */

static void a_sheet_that_does_not_hold_together_is_refused_in_words(void **state)
{
	struct sb_problems problems = { 0 };
	struct solution s = { 0 };
	struct sb_err err;
	struct job job;

	(void)state;
	jobs_plain(&job);
	/* A doubtful end comes first in the list, and the error is what is said. Once it was the doubt. */
	job.exit.elevation = sb_number_of(104, 0);
	jobs_row(&job, "corridor", (const char *const[]){ "500", "400", "1", "", "", "", "" });
	assert_int_equal(sb_solve(&job, &s, NULL, &err), -1);
	assert_string_equal(
		err.text, "corridor.csv: the range ends at 400, which is not past its beginning at 500.");
	assert_null(s.path.rows);
	assert_null(s.design.profile);
	assert_int_equal(sb_solve(&job, &s, &problems, &err), -1);
	assert_string_equal(err.text, "The design or the corridor does not hold together.");
	assert_int_equal(problems.count, 2);
	assert_int_equal(problems.errors, 1);
	sb_problems_clear(&problems);
	job.reference = REFERENCE_TRUE;
	assert_int_equal(sb_solve(&job, &s, &problems, &err), -1);
	assert_int_equal(problems.errors, 1);
	assert_string_equal(problems.list[0].file, "job.ini");
	assert_string_equal(problems.list[0].text, err.text);
	assert_int_equal(sb_solve(&job, &s, NULL, NULL), -1);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
}

static void a_joint_that_was_not_the_last_to_be_solved_is_refused(void **state)
{
	struct solution s = { 0 };
	struct sb_err err;
	struct job job;
	size_t changed = 7;

	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &s);
	jobs_log(&job, "", "80", "90");
	jobs_log(&job, "", "80", "90");
	assert_int_equal(sb_solve_joint(&job, &s, &changed, &err), -1);
	assert_int_equal(err.code, SB_STATE);
	assert_string_equal(err.text, "the path has 0 joints and the log 2: solve it from the start.");
	assert_int_equal(changed, 7);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void a_joint_of_no_length_is_not_tried(void **state)
{
	struct solution s = { 0 };
	struct preview p;
	struct sb_err err;
	struct job job;

	(void)state;
	jobs_plain(&job);
	jobs_solve(&job, &s);
	struct reading r = jobs_reading(&job, "", "80", "90");
	r.joint_length = sb_number_of(0, 2);
	assert_int_equal(sb_solve_preview(&job, &s, &r, &p, &err), -1);
	assert_string_equal(err.text, "A joint of length 0.00 cannot be.");
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(one_by_one_and_from_the_start_give_the_same_bits),
	cmocka_unit_test(a_sheet_that_does_not_hold_together_is_refused_in_words),
	cmocka_unit_test(a_joint_that_was_not_the_last_to_be_solved_is_refused),
	cmocka_unit_test(a_joint_of_no_length_is_not_tried),
};

int main(void)
{
	return run_tests(tests);
}

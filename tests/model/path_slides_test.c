/* The path through slides and rotations in the model: how a course takes its share of two joints, the second
 * path beside the record, which of them the contract chose, and that adding, trying, pulling back and solving
 * again agree. Figures are derived beside each test from the closed form of geom/course.h. */
#include "geom/angle.h"
#include "support/jobs.h"
#include "support/near.h"

#include <string.h>

static struct job job;
static struct solution s;

static const double foot = 0.3048;

/* The plain job made level, heading east; slides turn a tenth of a degree a foot. */
static void begin(const char *course, const char *sensor)
{
	jobs_plain(&job);
	jobs_set(&job, "entry", "inclination", "90");
	jobs_set(&job, "steering", "slide_turn", "0.1");
	jobs_set(&job, "tool", "sensor_to_bit", sensor);
	if (course)
		jobs_set(&job, "survey", "course", course);
	jobs_solve(&job, &s);
}

static int clear(void **state)
{
	(void)state;
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static void put(struct reading *r, const char *field, const char *text)
{
	struct sb_err err;

	if (sb_row_field_put(sb_row_field(field), r, job.incline, text, &err))
		fail_msg("%s", err.text);
}

static struct reading joint(const char *azimuth, const char *slid, const char *face, const char *pushes)
{
	struct reading r = jobs_reading(&job, "30", azimuth ? "90" : "", azimuth ? azimuth : "");

	put(&r, "slid", slid);
	put(&r, "tool_face", face);
	put(&r, "pushes", pushes);
	r.id = (int64_t)job.reading_count + 1;
	return r;
}

/* Logs it and adds it alone, as the program does. */
static const struct row *drill(const char *azimuth, const char *slid, const char *face, const char *pushes)
{
	struct reading r = joint(azimuth, slid, face, pushes);
	size_t changed;

	sb_job_add_reading(&job, &r);
	assert_int_equal(sb_solve_joint(&job, &s, &changed, NULL), 0);
	return sb_solution_last(&s);
}

static void a_push_at_the_start_shifts_the_joints_end_to_its_side(void **state)
{
	(void)state;
	begin(NULL, "0");
	const struct row *row = drill("91", "", "", "0:10@90");
	struct path_shift shift = sb_path_shift(&s.design, job.course, row);

	/* b (L - l) / 2 with b a degree: 10 feet at a tenth of a degree */
	assert_true(row->slides.known);
	assert_near(shift.offset_m, sb_rad(1) * 20 * foot / 2, 1e-4);
	/* the design falls at ten degrees, and the place lies a fraction of a millimetre less far along */
	assert_near(shift.height_m, 0, 2e-4);
	assert_near(row->slides.shifted.n, -shift.offset_m, 1e-9); /* drilled east: right is south */
}

static void even_pushes_shift_nothing_while_the_sensor_is_at_the_bit(void **state)
{
	(void)state;
	begin(NULL, "0");
	drill("91", "10", "90", "");
	const struct row *row = drill("92", "10", "90", "");

	assert_true(row->slides.known);
	assert_near(sb_vec3_length(row->slides.shifted), 0, 0);
}

/* With the sensor half a joint back, a course is the last half of one joint and the first half of the next.
 * After a rotated joint comes one slid all through: the course turns only over its second half. What is
 * expected turns 1.5 degrees over 15 feet; the shift is that b times -(L - l) / 2, whatever the readings say.
 */
static void a_course_between_two_readings_takes_its_share_of_two_joints(void **state)
{
	(void)state;
	begin(NULL, "15");
	drill("90", "0", "", "");
	const struct row *before = drill("90", "0", "", "");
	assert_near(sb_vec3_length(before->slides.shifted), 0, 0);
	double yield = s.path.gives.along;
	const struct row *row = drill("91.5", "30", "90", "");
	struct path_shift shift = sb_path_shift(&s.design, job.course, row);

	assert_near(yield, sb_rad(0.1) / foot, 1e-4);
	assert_near(shift.offset_m, -yield * 15 * foot * 15 * foot / 2, 2e-4);
}

static void pushes_are_counted_from_the_joints_start_and_not_from_the_sensor(void **state)
{
	(void)state;
	begin(NULL, "15");
	drill("90", "0", "", "");
	drill("90", "0", "", "");
	double yield = s.path.gives.along;
	/* the last 10 of a joint: the sensor has only seen its first half, all rotated */
	const struct row *row = drill("90", "", "", "20:10@0");
	assert_near(sb_vec3_length(row->slides.shifted), 0, 0);
	/* the next course begins 5 feet before that push and ends 15 feet after it: l 10, from 5 to 15 of 30
	 */
	row = drill("90", "0", "", "");
	struct path_shift shift = sb_path_shift(&s.design, job.course, row);
	assert_near(shift.height_m, yield * 10 * foot * (15 - 10) * foot, 3e-4);
}

static void the_shift_of_joints_adds_up(void **state)
{
	(void)state;
	struct vec3 sum = { 0 };
	char azimuth[16];

	begin(NULL, "0");
	for (int i = 1; i <= 12; i++) {
		snprintf(azimuth, sizeof azimuth, "%d", 90 + i);
		sum = sb_vec3_add(sum, drill(azimuth, "", "", "0:10@90")->slides.shift);
	}
	const struct row *row = sb_solution_last(&s);
	assert_near(sb_vec3_length(sb_vec3_sub(sum, row->slides.shifted)), 0, 1e-12);
	assert_true(sb_vec3_length(sum) > 12 * 0.9 * sb_rad(1) * 20 * foot / 2);
}

/* ---- what is not known ---- */

static void a_slide_without_a_tool_face_leaves_the_arc_and_is_marked(void **state)
{
	(void)state;
	size_t arcs;

	begin(NULL, "0");
	struct vec3 before = drill("91", "", "", "0:10@90")->slides.shifted;
	const struct row *row = drill("92", "10", "", "");
	assert_false(row->slides.known);
	assert_memory_equal(&row->slides.shifted, &before, sizeof before);
	assert_true(sb_path_by_slides(&s.path, &arcs));
	assert_int_equal(arcs, 1);
}

static void a_log_without_slides_is_arcs_to_the_last_bit(void **state)
{
	(void)state;
	size_t arcs;
	struct vec3 at[6];

	begin("slides", "0");
	for (int i = 0; i < 6; i++)
		at[i] = drill(i % 2 ? "91" : "92", "", "", "")->at;
	assert_false(sb_path_by_slides(&s.path, &arcs));
	assert_int_equal(arcs, 6);
	clear(NULL);
	begin("arc", "0");
	for (int i = 0; i < 6; i++)
		assert_memory_equal(&drill(i % 2 ? "91" : "92", "", "", "")->at, &at[i], sizeof at[i]);
}

static void a_blank_means_rotated_once_the_hand_has_written_a_slide(void **state)
{
	(void)state;
	begin(NULL, "0");
	assert_false(drill("90", "", "", "")->slides.known);
	drill("91", "10", "90", "");
	assert_true(drill("91", "", "", "")->slides.known);
}

static void an_entry_that_was_not_staked_gives_the_first_course_no_shape(void **state)
{
	(void)state;
	jobs_graded(&job);
	jobs_solve(&job, &s);
	bool staked = s.path.entry_known;
	struct reading r = jobs_reading(&job, "", "-10", "10");
	size_t changed;
	put(&r, "pushes", "0:5@90");
	r.id = 1;
	sb_job_add_reading(&job, &r);
	assert_int_equal(sb_solve_joint(&job, &s, &changed, NULL), 0);
	if (!staked)
		assert_false(sb_solution_last(&s)->slides.known);
}

static void a_joint_without_a_reading_gives_its_slides_to_the_course_over_it(void **state)
{
	(void)state;
	begin(NULL, "0");
	drill("90", "0", "", "");
	double yield = s.path.gives.along;
	assert_false(drill(NULL, "", "", "0:10@90")->on_path);
	const struct row *row = drill("91", "0", "", "");
	struct path_shift shift = sb_path_shift(&s.design, job.course, row);

	/* a slide of 10 at the start of 60 */
	assert_true(row->slides.known);
	assert_near(shift.offset_m, yield * 10 * foot * (60 - 10) * foot / 2, 1e-3);
}

/* ---- the record ---- */

/* A bore with everything: early and late pushes, even slides, rotations, a joint without a reading, another
 * leg. */
static void drill_all(void)
{
	static const char *const azimuths[] = { "90", "91", "92", "92", NULL, "93", "92.5", "92" };
	static const char *const pushes[] = { "0:8@60; 20:6@75", "", "20:10@90", "", "0:10@270", "", "",
		"2:3@180" };
	static const char *const slid[] = { "", "12", "", "0", "", "5", "", "3" };
	static const char *const faces[] = { "", "90", "", "", "", "300", "", "" };

	for (int i = 0; i < 8; i++)
		drill(azimuths[i], slid[i], faces[i], pushes[i]);
}

static void the_record_by_slides_is_the_arcs_and_the_shift_together(void **state)
{
	(void)state;
	struct vec3 arcs[9], shifted[9];

	begin("arc", "10");
	drill_all();
	for (int i = 0; i < 9; i++) {
		arcs[i] = s.path.rows[i].at;
		shifted[i] = s.path.rows[i].slides.shifted;
	}
	assert_true(sb_vec3_length(shifted[8]) > 0.02);
	struct path_shift by_arcs = sb_path_shift(&s.design, job.course, sb_solution_last(&s));
	double dogleg = sb_solution_last(&s)->dogleg_rad;
	clear(NULL);
	begin("slides", "10");
	drill_all();
	for (int i = 0; i < 9; i++) {
		struct vec3 want = sb_vec3_add(arcs[i], shifted[i]);
		assert_near(sb_vec3_length(sb_vec3_sub(s.path.rows[i].at, want)), 0, 1e-10);
	}
	/* how far apart the two are does not depend on which is the record, nor do bends */
	struct path_shift by_slides = sb_path_shift(&s.design, job.course, sb_solution_last(&s));
	assert_near(by_slides.offset_m, by_arcs.offset_m, 1e-10);
	assert_near(by_slides.height_m, by_arcs.height_m, 1e-10);
	assert_near(by_slides.station_m, by_arcs.station_m, 1e-10);
	assert_near(sb_solution_last(&s)->dogleg_rad, dogleg, 0);
}

static void the_path_between_readings_has_no_jump(void **state)
{
	(void)state;
	struct vec3 at, before, heading, ahead;

	for (int by_slides = 0; by_slides < 2; by_slides++) {
		begin(by_slides ? "slides" : "arc", "10");
		drill_all();
		double end = sb_solution_last(&s)->survey_md_m, step = 0.01;
		sb_path_at(&s.path, 0, &before, &ahead);
		for (double md = step; md <= end; md += step) {
			sb_path_at(&s.path, md, &at, &heading);
			/* a step of its own length, along the heading, which turns no more than a slide turns
			 * it */
			struct vec3 moved = sb_vec3_sub(at, before);
			assert_near(sb_vec3_length(moved), step, 1e-6);
			assert_near(sb_vec3_angle(heading, ahead), 0, step * 0.01);
			assert_near(sb_vec3_dot(moved, heading), step, 1e-6);
			before = at;
			ahead = heading;
		}
		for (size_t i = 0; i < s.path.on_count; i++) {
			const struct row *row = &s.path.rows[s.path.on_path[i]];
			sb_path_at(&s.path, row->survey_md_m, &at, &heading);
			assert_near(sb_vec3_length(sb_vec3_sub(at, row->at)), 0, 1e-12);
		}
		clear(NULL);
	}
}

static void trying_a_reading_gives_the_row_that_logging_it_gives(void **state)
{
	(void)state;
	struct preview p;

	begin("slides", "10");
	drill_all();
	struct reading r = joint("93", "", "", "0:8@60; 20:6@75");
	size_t laid = s.path.laid_count;
	assert_int_equal(sb_solve_preview(&job, &s, &r, &p, NULL), 0);
	assert_int_equal(s.path.laid_count, laid);
	const struct row *row = drill("93", "", "", "0:8@60; 20:6@75");
	assert_memory_equal(&row->at, &p.row.at, sizeof row->at);
	assert_memory_equal(&row->slides.shift, &p.row.slides.shift, sizeof row->slides.shift);
	assert_memory_equal(&row->slides.shifted, &p.row.slides.shifted, sizeof row->slides.shifted);
}

static void solving_again_gives_the_same_bits(void **state)
{
	(void)state;
	struct solution again = { 0 };

	for (int by_slides = 0; by_slides < 2; by_slides++) {
		begin(by_slides ? "slides" : "arc", "10");
		drill_all();
		jobs_withdraw(&job, 5);
		jobs_solve(&job, &s);
		drill("94", "", "", "0:8@60; 20:6@75");
		drill("94", "", "", "");
		jobs_solve(&job, &again);
		assert_int_equal(again.path.count, s.path.count);
		for (size_t i = 0; i < s.path.count; i++) {
			const struct row *a = &s.path.rows[i], *b = &again.path.rows[i];
			assert_memory_equal(&a->at, &b->at, sizeof a->at);
			assert_memory_equal(&a->slides.shifted, &b->slides.shifted, sizeof a->slides.shifted);
			assert_int_equal(a->slides.known, b->slides.known);
		}
		assert_memory_equal(
			&s.response.all.state, &again.response.all.state, sizeof s.response.all.state);
		sb_solution_clear(&again);
		clear(NULL);
	}
}

static void pulling_back_takes_the_shift_of_the_joints_with_it(void **state)
{
	(void)state;
	begin("slides", "0");
	struct vec3 first = drill("91", "", "", "0:10@90")->slides.shifted;
	drill("92", "", "", "0:10@90");
	jobs_withdraw(&job, 1);
	jobs_solve(&job, &s);
	assert_memory_equal(&sb_solution_last(&s)->slides.shifted, &first, sizeof first);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_teardown(a_push_at_the_start_shifts_the_joints_end_to_its_side, clear),
		cmocka_unit_test_teardown(even_pushes_shift_nothing_while_the_sensor_is_at_the_bit, clear),
		cmocka_unit_test_teardown(a_course_between_two_readings_takes_its_share_of_two_joints, clear),
		cmocka_unit_test_teardown(
			pushes_are_counted_from_the_joints_start_and_not_from_the_sensor, clear),
		cmocka_unit_test_teardown(the_shift_of_joints_adds_up, clear),
		cmocka_unit_test_teardown(a_slide_without_a_tool_face_leaves_the_arc_and_is_marked, clear),
		cmocka_unit_test_teardown(a_log_without_slides_is_arcs_to_the_last_bit, clear),
		cmocka_unit_test_teardown(a_blank_means_rotated_once_the_hand_has_written_a_slide, clear),
		cmocka_unit_test_teardown(
			an_entry_that_was_not_staked_gives_the_first_course_no_shape, clear),
		cmocka_unit_test_teardown(
			a_joint_without_a_reading_gives_its_slides_to_the_course_over_it, clear),
		cmocka_unit_test_teardown(the_record_by_slides_is_the_arcs_and_the_shift_together, clear),
		cmocka_unit_test_teardown(the_path_between_readings_has_no_jump, clear),
		cmocka_unit_test_teardown(trying_a_reading_gives_the_row_that_logging_it_gives, clear),
		cmocka_unit_test_teardown(solving_again_gives_the_same_bits, clear),
		cmocka_unit_test_teardown(pulling_back_takes_the_shift_of_the_joints_with_it, clear),
	};
	return run_tests(tests);
}

/* What a drawing on paper carries beside what a screen shows: the crossing of draw/crossing.h, whose joints
 * 31 to 36 build 1.6 degrees too much and are withdrawn. */
#include "draw/bends.h"
#include "draw/plan.h"
#include "draw/profile.h"

#include "base/mem.h"
#include "draw/crossing.h"
#include "draw/picture.h"
#include "model/nonconformance.h"

#include <math.h>

static struct job job;
static struct solution s;
static struct scene scene;

static int begin(void **state)
{
	(void)state;
	crossing_sheet(&job);
	jobs_set(&job, "bend", "joint_minimum", "1200");
	jobs_set(&job, "bend", "window_minimum", "3400");
	crossing_drill(&job, 30, 0.12, 0.1);
	crossing_drill(&job, 36, -1.5, -0.3);
	jobs_withdraw(&job, 30);
	crossing_drill(&job, 41, 0.2, 0.2);
	s = (struct solution){ 0 };
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static struct draw_window detailed(void)
{
	struct draw_window w = sb_window_whole(&s, 1000);

	w.detailed = true;
	return w;
}

static size_t marks(enum meaning m)
{
	size_t count = 0;

	for (size_t i = 0; i < scene.stroke_count; i++)
		count += scene.strokes[i].meaning == m && scene.strokes[i].kind == STROKE_MARK;
	return count;
}

/* The point of a text; not a number when there is no such text. */
static struct spot text_at(const char *words)
{
	for (size_t i = 0; i < scene.stroke_count; i++)
		if (scene.strokes[i].kind == STROKE_TEXT &&
			strcmp(sb_scene_text_get(&scene, &scene.strokes[i]), words) == 0)
			return scene.points[scene.strokes[i].first];
	return (struct spot){ NAN, NAN };
}

static void a_screen_is_spared_all_of_it(void **state)
{
	(void)state;
	struct draw_window w = sb_window_whole(&s, 1000);

	sb_profile_scene(&job, &s, &w, NULL, &scene);
	assert_int_equal(marks(MEANING_JOINT), 0);
	assert_int_equal(marks(MEANING_NONCONFORMANCE), 0);
	assert_int_equal(marks(MEANING_DESIGN), 0);
	assert_true(isnan(text_at("40").x));
}

static void each_reading_is_marked_where_it_lies_and_every_fifth_named(void **state)
{
	(void)state;
	struct draw_window w = detailed();

	sb_profile_scene(&job, &s, &w, NULL, &scene);
	assert_int_equal(marks(MEANING_JOINT), 41);
	assert_near(text_at("40").x, s.path.rows[40].deviation.station_m, 0);
	assert_near(text_at("40").y, s.path.rows[40].at.u, 0);
	assert_true(isnan(text_at("41").x));
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_near(text_at("40").x, s.path.rows[40].at.e, 0);
	assert_near(text_at("40").y, s.path.rows[40].at.n, 0);
	sb_plan_along(&job, &s, &w, NULL, &scene); /* beside the line there is no room for them */
	assert_int_equal(marks(MEANING_JOINT), 0);
}

/* 2400 ft, ten degrees to level: the figures of draw/crossing.h. PC at 340.277 - 2400 tan 5 deg = 130.30,
 * PT at PC + 2400 sin 10 deg = 547.05. */
static void curves_have_their_ends_and_radius(void **state)
{
	(void)state;
	struct draw_window w = detailed();
	double tangent = 2400 * tan(sb_rad(5)), begins = 340.277 - tangent * cos(sb_rad(10));

	sb_profile_scene(&job, &s, &w, NULL, &scene);
	assert_int_equal(marks(MEANING_DESIGN), 4);
	assert_near(text_at("R 2400 ft").x / FOOT, begins + 2400 * sin(sb_rad(10)) / 2, 0.01);
	char words[64];
	snprintf(words, sizeof words, "PC 1+%.2f el %.2f", begins - 100, 440 + tangent * sin(sb_rad(10)));
	assert_near(text_at(words).x / FOOT, begins, 0.01);
	sb_plan_map(&job, &s, &w, NULL, &scene); /* the line is straight seen from above */
	assert_int_equal(marks(MEANING_DESIGN), 0);
}

static void what_was_withdrawn_is_named_with_its_leg(void **state)
{
	(void)state;
	struct draw_window w = detailed();
	const struct row *last = &s.path.old[s.path.old_count - 1];

	sb_profile_scene(&job, &s, &w, NULL, &scene);
	assert_near(text_at("leg 1: joints 31 to 36 withdrawn").x, last->deviation.station_m, 0);
	assert_near(text_at("leg 1: joints 31 to 36 withdrawn").y, last->at.u, 0);
}

static void non_conformances_stand_with_their_numbers_where_they_were_worst(void **state)
{
	(void)state;
	struct draw_window w = detailed();
	struct nonconformance *list;
	size_t count = sb_nonconformances(&job, &s, &list), bends = 0, withdrawn = 0;

	assert_true(count > 1);
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_int_equal(marks(MEANING_NONCONFORMANCE), count);
	for (size_t k = 0; k < count; k++) {
		const struct warning *w0 = list[k].warning;
		const struct row *row = w0->superseded ? s.path.old : &s.path.rows[w0->worst_joint];
		while (w0->superseded && row->joint != w0->worst_joint)
			row++;
		char number[8];
		snprintf(number, sizeof number, "%d", list[k].number);
		struct spot at = text_at(number); /* joints 5, 10 ... have such names too, and come before */
		withdrawn += w0->superseded;
		if (list[k].number % 5 != 0) {
			assert_near(at.x, row->at.e, 0);
			assert_near(at.y, row->at.n, 0);
		}
	}
	assert_true(withdrawn > 0);
	for (size_t i = 0; i < count; i++)
		bends += list[i].warning->kind == WARNING_JOINT_BEND ||
			list[i].warning->kind == WARNING_WINDOW_BEND;
	assert_true(bends > 0);
	sb_bends_scene(&job, &s, &w, &scene);
	assert_int_equal(marks(MEANING_NONCONFORMANCE), bends);
	sb_free(list);
}

/* Both legs leave the corridor upwards: what began in the first goes on in the second, whose joint 39 is the
 * worst. The mark stood at joint 39 of the first. */
static void a_breach_that_goes_on_in_the_next_leg_stands_at_that_leg(void **state)
{
	(void)state;
	struct solution both = { 0 };

	sb_job_clear(&job);
	crossing_sheet(&job);
	crossing_drill(&job, 30, 0.12, 0.1);
	crossing_drill(&job, 39, -3, 0);
	jobs_withdraw(&job, 37);
	crossing_drill(&job, 39, -4, 0);
	jobs_solve(&job, &both);
	struct draw_window w = sb_window_whole(&both, 1000);
	w.detailed = true;
	struct nonconformance *list;
	size_t count = sb_nonconformances(&job, &both, &list), over = 0;
	sb_plan_map(&job, &both, &w, NULL, &scene);
	for (size_t i = 0; i < count; i++) {
		const struct warning *w0 = list[i].warning;
		char number[8];
		if (w0->superseded || w0->leg != 1 || w0->worst_joint != 39 || list[i].number % 5 == 0)
			continue;
		snprintf(number, sizeof number, "%d", list[i].number);
		assert_near(text_at(number).x, both.path.rows[39].at.e, 0);
		over++;
	}
	assert_true(over > 0);
	sb_free(list);
	sb_solution_clear(&both);
}

/* A line is kept clear of on both sides of it, a point all round. */
static void clearances_are_drawn_from_above(void **state)
{
	(void)state;
	struct draw_window w = detailed();
	size_t lines = 0, rings = 0;

	sb_plan_map(&job, &s, &w, NULL, &scene);
	for (size_t i = 0; i < scene.stroke_count; i++) {
		const struct stroke *stroke = &scene.strokes[i];
		if (stroke->meaning != MEANING_OBSTACLE || stroke->line != LINE_DOTTED)
			continue;
		const struct spot *p = &scene.points[stroke->first];
		if (stroke->kind == STROKE_LINE) { /* the main runs north at 300 ft: 2 ft thick, 6 ft clear */
			assert_near(fabs(p[0].x - 300 * FOOT), 7 * FOOT, 1e-9);
			assert_near(p[1].x, p[0].x, 1e-9);
			lines++;
		} else {
			rings++;
		}
	}
	assert_int_equal(lines, 2);
	assert_int_equal(rings, 3); /* two ends of the main, one pile */
}

/* Ten feet between 5+00 and 9+00: the river bed of draw/crossing.h is 468 ft high at 8+00. */
static void the_cover_that_is_asked_for_lies_below_the_ground(void **state)
{
	struct job asked;
	struct solution none = { 0 };

	(void)state;
	crossing_sheet(&asked);
	jobs_set(&asked, "cover", "minimum", "10");
	jobs_set(&asked, "cover", "from", "500");
	jobs_set(&asked, "cover", "to", "900");
	jobs_solve(&asked, &none);
	struct draw_window w = sb_window_whole(&none, 1000);
	w.detailed = true;
	sb_profile_scene(&asked, &none, &w, NULL, &scene);
	const struct stroke *line = picture_stroke(&scene, MEANING_LIMIT, 0);
	assert_non_null(line);
	bool found = false;
	for (size_t i = 0; i < line->count; i++) {
		struct spot at = picture_point(&scene, line, i);
		assert_true(at.x >= 500 * FOOT - 1e-9 && at.x <= 900 * FOOT + 1e-9);
		found |= fabs(at.x - 800 * FOOT) < 1e-9 && fabs(at.y - 458 * FOOT) < 1e-9;
	}
	assert_true(found);
	assert_near(text_at("cover 10 ft").x, 700 * FOOT, 1e-9);
	sb_plan_map(&asked, &none, &w, NULL, &scene);
	assert_true(isnan(text_at("cover 10 ft").x));
	sb_solution_clear(&none);
	sb_job_clear(&asked);
}

static void bends_stand_at_what_was_solved(void **state)
{
	(void)state;
	struct draw_window w = detailed();

	sb_bends_scene(&job, &s, &w, &scene);
	const struct stroke *window = picture_stroke(&scene, MEANING_DRILLED, 0);
	const struct stroke *joints = picture_stroke(&scene, MEANING_JOINT, 0);
	const struct stroke *limit = picture_stroke(&scene, MEANING_LIMIT, 0);
	assert_near(1 / picture_point(&scene, limit, 0).y, 1200 * FOOT, 1e-9);
	assert_near(
		1 / picture_point(&scene, picture_stroke(&scene, MEANING_LIMIT, 1), 0).y, 3400 * FOOT, 1e-9);
	const struct row *tenth =
		&s.path.rows[10]; /* in the curve; the sensor is past the entry from joint 1 on */
	size_t at = 10 - (41 - window->count + 1);
	assert_near(picture_point(&scene, window, at).x, tenth->deviation.station_m, 0);
	assert_near(picture_point(&scene, window, at).y * tenth->window.radius_m, 1, 1e-12);
	assert_near(picture_point(&scene, joints, 2 * 9).x, s.path.rows[9].deviation.station_m, 0);
	assert_near(picture_point(&scene, joints, 2 * 9 + 1).y * tenth->radius_m, 1, 1e-12);
	/* the design: level in the middle, 2400 ft in its curves */
	const struct stroke *design = picture_stroke(&scene, MEANING_DESIGN, 0);
	double most = 0, least = 1;
	for (size_t i = 0; i < design->count; i++) {
		most = fmax(most, picture_point(&scene, design, i).y);
		least = fmin(least, picture_point(&scene, design, i).y);
	}
	assert_near(1 / most, 2400 * FOOT, 1e-6);
	assert_near(least, 0, 0);
	assert_true(scene.view.high.y >= 1 / (1200 * FOOT));
}

static void a_bore_that_is_not_begun_has_its_limits_and_its_design(void **state)
{
	struct job fresh;
	struct solution none = { 0 };

	(void)state;
	crossing_sheet(&fresh);
	jobs_solve(&fresh, &none);
	struct draw_window w = sb_window_whole(&none, 1000);
	w.detailed = true;
	sb_bends_scene(&fresh, &none, &w, &scene);
	assert_int_equal(picture_stroke(&scene, MEANING_DRILLED, 0)->count, 0);
	assert_true(picture_stroke(&scene, MEANING_DESIGN, 0)->count > 4);
	sb_profile_scene(&fresh, &none, &w, NULL, &scene);
	assert_int_equal(marks(MEANING_JOINT), 0);
	assert_near(text_at("ENTRY, rig side").x, 0, 0);
	sb_solution_clear(&none);
	sb_job_clear(&fresh);
}

int main(void)
{
#define TEST(t) cmocka_unit_test_setup_teardown(t, begin, tidy)
	const struct CMUnitTest tests[] = {
		TEST(a_screen_is_spared_all_of_it),
		TEST(each_reading_is_marked_where_it_lies_and_every_fifth_named),
		TEST(curves_have_their_ends_and_radius),
		TEST(what_was_withdrawn_is_named_with_its_leg),
		TEST(non_conformances_stand_with_their_numbers_where_they_were_worst),
		TEST(a_breach_that_goes_on_in_the_next_leg_stands_at_that_leg),
		TEST(clearances_are_drawn_from_above),
		TEST(the_cover_that_is_asked_for_lies_below_the_ground),
		TEST(bends_stand_at_what_was_solved),
		TEST(a_bore_that_is_not_begun_has_its_limits_and_its_design),
	};
#undef TEST

	return run_tests(tests);
}

#include "draw/plan.h"

#include "draw/crossing.h"
#include "draw/picture.h"

#include <locale.h>
#include <math.h>

static void the_plan_along_the_line_is_readable_in_forty_columns(void **state)
{
	struct job job;
	struct solution s;
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	sb_scene_init(&scene);
	struct draw_window w = sb_window_whole(&s, 80);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	assert_picture(&scene, 40, 8, RASTER_PLAIN,
		"    .....#.................\n"
		"         #                .\n"
		"     entry      ******O~~~~........exit.\n"
		"  0 >************----------------------<\n"
		"         #gas main        ..............\n"
		"         #                .\n"
		"    .....#.................\n"
		"x50 |0+00          |10+00        |20+00\n");
	assert_picture(&scene, 54, 9, RASTER_BRAILLE,
		"      ⠁⠈ ⠁⠈⡇⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⢈\n"
		"5 L        ⡇                      ⠠\n"
		"           ⡇              ⣀⣀⣠⣤O⠴ ⠒⠊ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈\n"
		"     ⣀⣀⣀⣀⣀⣀⣧⣤⣤⣤⣤⣤⠶⠶⠶⠶⠶⠞⠛⠛⠛⠉⠉⠉                   exit\n"
		"  0  >⠉⠉⠉⠉⠉⡇⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉<\n"
		"      entry⡇gas main              ⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀\n"
		"5 R        ⡇                      ⢈\n"
		"      ⡀⢀ ⡀⢀⡇⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢠\n"
		"x50  |0+00               |10+00             |20+00  ft\n");
	w = sb_window_near(&s, 250 * FOOT, 120 * FOOT, 200);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	assert_picture(&scene, 54, 9, RASTER_BLOCKS,
		"\n"
		"      ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀  ▀\n"
		"                                            ▄▄  ▄▄▄▄\n"
		"    ████████████████████████████████▀O▀▀  ▀▀\n"
		"  0   ▀▀▀▀  ▀▀▀▀  ▀▀▀▀  ▀▀▀▀  ▀▀▀▀  ▀▀▀▀  ▀▀▀▀  ▀▀▀▀\n"
		"\n"
		"      ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄  ▄\n"
		"\n"
		"x5             |11+00       |12+00        |13+00    ft\n");
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void the_map_has_true_proportions_and_north_upwards(void **state)
{
	struct job job;
	struct solution s;
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	sb_scene_init(&scene);
	struct draw_window w = sb_window_whole(&s, 80);
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_picture(&scene, 54, 9, RASTER_PLAIN,
		"\n"
		"\n"
		"       gas main\n"
		"      ************************O~~~~~~      pile  exit\n"
		"   0 >-----#---------------------------------#-------<\n"
		"      entry\n"
		"\n"
		"\n"
		"true |0                  |1000 E             |2000 E\n");
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void a_curved_line_is_curved_on_the_map_and_straight_along_itself(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	jobs_curved(&job);
	jobs_follow(&job, 30);
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	struct draw_window w = sb_window_whole(&s, 100);
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_picture(&scene, 50, 14, RASTER_BRAILLE,
		"                                       ⢀⠤< exit\n"
		"                                    ⣀⠔ ⠁\n"
		"                                 O⠔\n"
		"200 N                         ⣠⡴⠛\n"
		"                           ⢀⣤⠞⠁\n"
		"                         ⣀⡴⠏\n"
		"                       ⢀⡴⠋\n"
		"100 N                 ⣴⠏\n"
		"                    ⣠⡞⠁\n"
		"                  ⢀⣴⠋\n"
		"                 ⢠⡞⠁\n"
		"                ⣴⠋\n"
		"    0   entry >⠞⠁\n"
		"true          |0                 |200 E          m\n");
	const struct stroke *design = picture_stroke(&scene, MEANING_DESIGN, 0);
	assert_true(design->count > 4);
	for (size_t i = 0; i < design->count; i++) {
		struct spot p = picture_point(&scene, design, i);
		double station = 0, offset = 9;
		sb_chain_project(
			s.design.alignment, s.design.alignment_count, p.y, p.x, 0, &station, &offset);
		assert_near(offset, 0, 1e-9);
	}
	sb_plan_along(&job, &s, &w, NULL, &scene);
	design = picture_stroke(&scene, MEANING_DESIGN, 0);
	for (size_t i = 0; i < design->count; i++)
		assert_near(picture_point(&scene, design, i).y, 0, 0);
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* Drills the crossing with a drift to one side; positive: left. */
static void drifting(struct job *job, struct solution *s, double left)
{
	crossing_sheet(job);
	crossing_drill(job, 20, 0, left);
	*s = (struct solution){ 0 };
	jobs_solve(job, s);
}

static void right_of_the_line_is_below_it_and_left_its_mirror_image(void **state)
{
	struct job job[2];
	struct solution s[2];
	struct scene scene[2];

	(void)state;
	for (int i = 0; i < 2; i++) {
		drifting(&job[i], &s[i], i == 0 ? -0.4 : 0.4);
		sb_scene_init(&scene[i]);
		struct draw_window w = sb_window_whole(&s[i], 200);
		sb_plan_along(&job[i], &s[i], &w, NULL, &scene[i]);
	}
	const struct stroke *right = picture_stroke(&scene[0], MEANING_DRILLED, 0);
	const struct stroke *left = picture_stroke(&scene[1], MEANING_DRILLED, 0);
	assert_int_equal(right->count, left->count);
	for (size_t i = 0; i < right->count; i++) {
		struct spot r = picture_point(&scene[0], right, i), l = picture_point(&scene[1], left, i);
		assert_near(r.x, l.x, 1e-9);
		assert_near(r.y, -l.y, 1e-9);
	}
	struct spot bit = picture_point(&scene[0], picture_stroke(&scene[0], MEANING_BIT, 0), 0);
	assert_true(s[0].bit.deviation.offset_m > 0.5);
	assert_near(bit.y, -s[0].bit.deviation.offset_m, 1e-12);
	/* right of a line due east is south */
	struct draw_window w = sb_window_whole(&s[0], 200);
	sb_plan_map(&job[0], &s[0], &w, NULL, &scene[0]);
	bit = picture_point(&scene[0], picture_stroke(&scene[0], MEANING_BIT, 0), 0);
	assert_true(bit.y < -0.5 && bit.x > 100);
	for (int i = 0; i < 2; i++) {
		sb_scene_clear(&scene[i]);
		sb_solution_clear(&s[i]);
		sb_job_clear(&job[i]);
	}
}

static void the_corridor_edges_are_on_their_sides_and_narrow(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	jobs_plain(&job); /* left 4, right 5 */
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	struct draw_window w = sb_window_whole(&s, 200);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	assert_near(picture_point(&scene, picture_stroke(&scene, MEANING_CORRIDOR, 0), 0).y, 4 * FOOT, 1e-9);
	assert_near(picture_point(&scene, picture_stroke(&scene, MEANING_CORRIDOR, 1), 0).y, -5 * FOOT, 1e-9);
	/* the exit window: 10 short, 30 long, 10 to each side */
	const struct stroke *window = picture_stroke(&scene, MEANING_CORRIDOR, 2);
	assert_near(picture_point(&scene, window, 0).x, 1190 * FOOT, 1e-6);
	assert_near(picture_point(&scene, window, 0).y, 10 * FOOT, 1e-9);
	assert_near(picture_point(&scene, window, 2).x, 1230 * FOOT, 1e-6);
	assert_near(picture_point(&scene, window, 2).y, -10 * FOOT, 1e-9);
	/* on the map, due east: left is north */
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_near(picture_point(&scene, picture_stroke(&scene, MEANING_CORRIDOR, 0), 0).y, 4 * FOOT, 1e-9);
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	crossing_sheet(&job);
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	w = (struct draw_window){ 1400 * FOOT, 1600 * FOOT, 0.1, true, NULL, NULL, false };
	sb_plan_along(&job, &s, &w, NULL, &scene);
	const struct stroke *left = picture_stroke(&scene, MEANING_CORRIDOR, 0);
	assert_near(picture_point(&scene, left, 0).y, 8 * FOOT, 1e-9);
	assert_near(picture_point(&scene, left, left->count - 1).y, 4 * FOOT, 1e-9);
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void a_line_that_crosses_is_named_where_it_crosses(void **state)
{
	struct job job;
	struct solution s;
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	sb_scene_init(&scene);
	struct draw_window w = sb_window_whole(&s, 200);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	for (size_t i = 0; i < scene.stroke_count; i++) {
		const struct stroke *stroke = &scene.strokes[i];
		if (stroke->kind == STROKE_TEXT &&
			strcmp(sb_scene_text_get(&scene, stroke), "gas main") == 0) {
			assert_near(scene.points[stroke->first].x, 300 * FOOT, 1e-9);
			assert_near(scene.points[stroke->first].y, 0, 1e-9);
		}
	}
	assert_true(picture_says(&scene, 80, 12, RASTER_PLAIN, "gas main"));
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void nothing_drilled_and_no_design_are_drawn_without_failing(void **state)
{
	struct job job = { 0 };
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	sb_scene_init(&scene);
	struct draw_window w = sb_window_whole(&s, 80);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_int_equal(scene.stroke_count, 0);
	assert_true(picture_says(&scene, 40, 8, RASTER_PLAIN, "true"));
	crossing_sheet(&job);
	jobs_solve(&job, &s);
	w = sb_window_near(&s, 50, 30, 80);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	assert_true(picture_says(&scene, 40, 8, RASTER_PLAIN, "O~~~"));
	s.path.rows[0].deviation.offset_m = NAN;
	s.bit.deviation.offset_m = NAN;
	s.bit.at.e = HUGE_VAL;
	sb_plan_along(&job, &s, &w, NULL, &scene);
	sb_plan_map(&job, &s, &w, NULL, &scene);
	assert_true(isfinite(scene.view.low.x) && isfinite(scene.view.high.y));
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* Derived: give or take at 95 percent is 1.95996 sigmas to each side. */
static void the_band_lies_on_both_sides_of_what_was_drilled(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	jobs_set(&job, "tool", "bias_azimuth", "0.3");
	sb_solve(&job, &s, NULL, NULL);
	struct draw_window w = sb_window_whole(&s, 2000);
	sb_scene_init(&scene);
	sb_plan_along(&job, &s, &w, NULL, &scene);
	for (int side = 0; side < 2; side++) {
		const struct stroke *edge = picture_stroke(&scene, MEANING_DOUBT, (size_t)side);
		assert_non_null(edge);
		assert_int_equal(edge->count, s.path.on_count + 1);
		for (size_t i = 0; i < s.path.on_count; i++) {
			const struct row *row = &s.path.rows[s.path.on_path[i]];
			double off = (side ? -1 : 1) * 1.959964 * row->doubt.across_m;
			assert_near(picture_point(&scene, edge, i).x, row->deviation.station_m, 1e-9);
			assert_near(picture_point(&scene, edge, i).y, -(row->deviation.offset_m + off), 1e-6);
		}
	}
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_plan_along_the_line_is_readable_in_forty_columns),
		cmocka_unit_test(the_map_has_true_proportions_and_north_upwards),
		cmocka_unit_test(a_curved_line_is_curved_on_the_map_and_straight_along_itself),
		cmocka_unit_test(right_of_the_line_is_below_it_and_left_its_mirror_image),
		cmocka_unit_test(the_corridor_edges_are_on_their_sides_and_narrow),
		cmocka_unit_test(a_line_that_crosses_is_named_where_it_crosses),
		cmocka_unit_test(nothing_drilled_and_no_design_are_drawn_without_failing),
		cmocka_unit_test(the_band_lies_on_both_sides_of_what_was_drilled),
	};
	setlocale(LC_CTYPE, "C.UTF-8");
	return run_tests(tests);
}

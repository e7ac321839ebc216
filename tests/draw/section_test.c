#include "draw/section.h"

#include "draw/crossing.h"
#include "draw/picture.h"

#include <locale.h>
#include <math.h>

static void the_section_shows_the_corridor_with_its_figures(void **state)
{
	struct job job;
	struct solution s;
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s); /* 2.8 ft left, 2.5 ft low in 6 by 8 */
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene);
	assert_picture(&scene, 24, 9, RASTER_BRAILLE,
		" ⢠⠤⠤⠤⠤⠤ 6 ft high ⠤⠤⠤⠤⡄\n"
		" ⢸                    ⡇\n"
		" ⢸                    ⡇\n"
		" ⢸                    ⡇\n"
		" 8 L        +        8 R\n"
		" ⢸      ⢀⠴            ⡇\n"
		" ⢸     ⠐O             ⡇\n"
		" ⢸                    ⡇\n"
		" ⠘⠒⠒⠒⠒⠒ 6 ft low ⠒⠒⠒⠒⠒⠃\n");
	assert_picture(&scene, 24, 8, RASTER_PLAIN,
		"  ..... 6 ft high ....\n"
		"  .                  .\n"
		"  .                  .\n"
		"  .                  .\n"
		" 8 L     ** +       8 R\n"
		"  .     O*           .\n"
		"  .                  .\n"
		"  ..... 6 ft low .....\n");
	struct reading r = jobs_reading(&job, "", "92.5", "93");
	struct preview p;
	assert_int_equal(sb_solve_preview(&job, &s, &r, &p, NULL), 0);
	sb_section_scene(&job, &s, &p, &scene);
	assert_picture(&scene, 24, 8, RASTER_PLAIN,
		"  ..... 6 ft high ....\n"
		"  .                  .\n"
		"  .                  .\n"
		"  .                  .\n"
		" 8 L     *? +       8 R\n"
		"  .     O*           .\n"
		"  .                  .\n"
		"  ..... 6 ft low .....\n");
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void proportions_are_true_and_right_is_right(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;
	struct raster raster = { 0 };
	struct axis a;

	(void)state;
	crossing_sheet(&job);
	crossing_drill(&job, 20, 0.3, -0.4); /* low and to the right */
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene);
	struct spot bit = picture_point(&scene, picture_stroke(&scene, MEANING_BIT, 0), 0);
	assert_true(bit.x > 0.5 && bit.y < -0.3);
	assert_near(bit.x, s.bit.deviation.offset_m, 0);
	assert_near(bit.y, s.bit.deviation.height_m, 0);
	sb_raster_resize(&raster, 60, 20);
	sb_braille_fit(&scene, &raster, &a);
	assert_near(a.exaggeration, 1, 0);
	assert_true(sb_axis_x(&a, bit.x) > sb_axis_x(&a, 0));
	assert_true(sb_axis_y(&a, bit.y) > sb_axis_y(&a, 0));
	sb_raster_clear(&raster);
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void the_box_is_the_corridor_at_the_station_of_the_bit(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	crossing_sheet(&job);
	crossing_drill(&job, 52, 0, 0); /* past 15+00, where it is 3 by 4 */
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene);
	assert_near(picture_point(&scene, picture_stroke(&scene, MEANING_CORRIDOR, 0), 0).y, 3 * FOOT, 1e-9);
	assert_near(picture_point(&scene, picture_stroke(&scene, MEANING_CORRIDOR, 2), 0).x, -4 * FOOT, 1e-9);
	assert_true(picture_says(&scene, 24, 9, RASTER_PLAIN, "3 ft high"));
	assert_true(picture_says(&scene, 24, 9, RASTER_PLAIN, "4 R"));
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void a_side_without_a_limit_is_left_open_and_gets_a_scale(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	jobs_graded(&job); /* up 0, down 4, no limit to the sides */
	jobs_solve(&job, &s);
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene);
	assert_non_null(picture_stroke(&scene, MEANING_CORRIDOR, 1));
	assert_null(picture_stroke(&scene, MEANING_CORRIDOR, 2));
	assert_false(scene.bare);
	assert_true(picture_says(&scene, 40, 12, RASTER_PLAIN, "true"));
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void a_bit_far_outside_is_still_in_the_picture(void **state)
{
	struct job job;
	struct solution s;
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	sb_scene_init(&scene);
	s.bit.deviation.offset_m = 40;
	sb_section_scene(&job, &s, NULL, &scene);
	assert_true(picture_says(&scene, 24, 9, RASTER_PLAIN, "O"));
	assert_true(picture_says(&scene, 24, 9, RASTER_PLAIN, "+"));
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void without_joints_or_bit_or_design_there_is_still_a_picture(void **state)
{
	struct job job = { 0 };
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene); /* nothing at all */
	assert_true(picture_says(&scene, 24, 8, RASTER_PLAIN, "+"));
	crossing_sheet(&job);
	jobs_solve(&job, &s);
	sb_section_scene(&job, &s, NULL, &scene); /* a bit at the entry */
	assert_true(picture_says(&scene, 24, 8, RASTER_PLAIN, "O"));
	s.bit.known = false;
	sb_section_scene(&job, &s, NULL, &scene);
	assert_false(picture_says(&scene, 24, 8, RASTER_PLAIN, "O"));
	assert_true(picture_says(&scene, 24, 8, RASTER_PLAIN, "8 L"));
	s.bit.known = true;
	s.bit.deviation.offset_m = NAN;
	s.bit.deviation.height_m = HUGE_VAL;
	s.bit.deviation.station_m = NAN;
	s.bit.at.n = NAN;
	sb_section_scene(&job, &s, NULL, &scene);
	assert_false(picture_says(&scene, 24, 8, RASTER_PLAIN, "O"));
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

static void the_trail_is_the_last_dozen_joints_and_ends_at_the_bit(void **state)
{
	struct job job;
	struct solution s;
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene);
	const struct stroke *trail = picture_stroke(&scene, MEANING_DRILLED, 0);
	assert_int_equal(trail->count, 13);
	const struct row *first = &s.path.rows[s.path.on_path[s.path.on_count - 12]];
	assert_near(picture_point(&scene, trail, 0).x, first->deviation.offset_m, 0);
	assert_near(picture_point(&scene, trail, 12).y, s.bit.deviation.height_m, 0);
	/* ahead: three joints, drifting on to the left and down */
	const struct stroke *held = picture_stroke(&scene, MEANING_HELD, 0);
	assert_int_equal(held->count, 4);
	assert_true(picture_point(&scene, held, 3).x < s.bit.deviation.offset_m);
	assert_true(picture_point(&scene, held, 3).y < s.bit.deviation.height_m);
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* Derived: the half axes of an ellipse that holds 95 percent are 2.4477 sigmas; the bore is due east, so an
 * azimuth bias is all across and the bit's own doubt is small beside it. */
static void the_ellipse_holds_the_bit_at_the_contracts_confidence(void **state)
{
	struct job job;
	struct solution s = { 0 };
	struct scene scene;

	(void)state;
	crossing_drilled(&job, &s);
	jobs_set(&job, "tool", "bias_azimuth", "0.1");
	sb_solve(&job, &s, NULL, NULL);
	sb_scene_init(&scene);
	sb_section_scene(&job, &s, NULL, &scene);
	const struct stroke *e = picture_stroke(&scene, MEANING_DOUBT, 0);
	assert_non_null(e);
	struct spot centre = picture_point(&scene, e, 0), one = picture_point(&scene, e, 1),
		    other = picture_point(&scene, e, 2);
	assert_near(centre.x, s.bit.deviation.offset_m, 0);
	assert_near(centre.y, s.bit.deviation.height_m, 0);
	double k = 2.447747, across = s.bit.doubt.across_m, up = s.bit.doubt.up_m;
	assert_true(across > 0.5);
	assert_near(hypot(one.x, other.x), k * across, 1e-5);
	assert_near(hypot(one.y, other.y), k * up, 1e-5);
	/* a large one does not press the corridor flat: it takes half of the picture */
	jobs_set(&job, "tool", "bias_azimuth", "3");
	sb_solve(&job, &s, NULL, NULL);
	sb_section_scene(&job, &s, NULL, &scene);
	assert_true(scene.view.high.x - scene.view.low.x <= 2 * 1.15 * 16 * FOOT + 1e-9);
	sb_scene_clear(&scene);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_section_shows_the_corridor_with_its_figures),
		cmocka_unit_test(proportions_are_true_and_right_is_right),
		cmocka_unit_test(the_box_is_the_corridor_at_the_station_of_the_bit),
		cmocka_unit_test(a_side_without_a_limit_is_left_open_and_gets_a_scale),
		cmocka_unit_test(a_bit_far_outside_is_still_in_the_picture),
		cmocka_unit_test(without_joints_or_bit_or_design_there_is_still_a_picture),
		cmocka_unit_test(the_trail_is_the_last_dozen_joints_and_ends_at_the_bit),
		cmocka_unit_test(the_ellipse_holds_the_bit_at_the_contracts_confidence),
	};
	setlocale(LC_CTYPE, "C.UTF-8");
	return run_tests(tests);
}

/* Values along the bore: they fill the height whatever they are, say their unit, and break where nothing is
 * known.
 */
#include "draw/along.h"
#include "picture.h"

#include <math.h>

static struct scene scene;

static int ready(void **state)
{
	(void)state;
	sb_scene_init(&scene);
	return 0;
}

static int done(void **state)
{
	(void)state;
	sb_scene_clear(&scene);
	return 0;
}

static const struct along_point force[] = { { 0, 0 }, { 50, 40000 }, { 100, 80000 } };
static const struct along_point limit[] = { { 0, 100000 }, { 100, 100000 } };
static const struct along_point measured[] = { { 50, 60000 } };
static const struct along_line lines[] = {
	{ MEANING_LIMIT, LINE_SOLID, limit, 2, false },
	{ MEANING_ESTIMATE, LINE_SOLID, force, 3, false },
	{ MEANING_MEASURED, LINE_SOLID, measured, 1, true },
};

static void values_fill_the_height_and_say_their_unit(void **state)
{
	(void)state;
	sb_along_scene(0, 100, "lbf", 0, lines, 3, UNIT_M, &scene);
	assert_picture(&scene, 40, 8, RASTER_PLAIN,
		"100000 _________________________________\n"
		"                                    ++++\n"
		"                       m       +++++\n"
		" 50000                   ++++++\n"
		"                   ++++++\n"
		"             ++++++\n"
		"     0 ++++++\n"
		"lbf    |0+00           |0+50           m\n");
}

static void a_value_of_any_size_is_drawn_alike(void **state)
{
	(void)state;
	struct along_point small[] = { { 0, 0 }, { 100, 0.8e-3 } }, large[] = { { 0, 0 }, { 100, 0.8e9 } };
	struct along_line line = { MEANING_ESTIMATE, LINE_SOLID, small, 2, false };
	struct raster r = { 0 };
	struct axis a, b;
	sb_raster_resize(&r, 40, 10);
	sb_along_scene(0, 100, "", 0, &line, 1, UNIT_FT, &scene);
	sb_braille_fit(&scene, &r, &a);
	line.points = large;
	sb_along_scene(0, 100, "", 0, &line, 1, UNIT_FT, &scene);
	sb_braille_fit(&scene, &r, &b);
	assert_near(sb_axis_y(&a, 0.4e-3), sb_axis_y(&b, 0.4e9), 1e-6);
	assert_near(sb_axis_y(&a, 0.8e-3), 0, 1e-6);
	sb_raster_clear(&r);
}

static void nothing_but_zero_is_still_a_picture(void **state)
{
	(void)state;
	struct along_point flat[] = { { 0, 0 }, { 100, 0 } };
	struct along_line line = { MEANING_ESTIMATE, LINE_SOLID, flat, 2, false };
	sb_along_scene(0, 100, "psi", 0, &line, 1, UNIT_M, &scene);
	assert_true(picture_says(&scene, 40, 8, RASTER_PLAIN, "psi"));
	assert_true(picture_says(&scene, 40, 8, RASTER_PLAIN, "+++"));
	sb_along_scene(0, 100, "psi", 0, NULL, 0, UNIT_M, &scene);
	assert_true(picture_says(&scene, 40, 8, RASTER_PLAIN, "psi"));
}

static void a_line_breaks_where_nothing_is_known(void **state)
{
	(void)state;
	struct along_point gap[] = { { 0, 1 }, { 30, 1 }, { 40, NAN }, { 60, 1 }, { 90, HUGE_VAL },
		{ 95, 1 } };
	struct along_line line = { MEANING_LIMIT, LINE_SOLID, gap, 6, false };
	sb_along_scene(0, 100, "psi", 0, &line, 1, UNIT_M, &scene);
	assert_int_equal(scene.stroke_count, 3);
	assert_near(scene.view.high.y, 1, 0);
}

static void what_is_far_over_the_top_is_cut_there(void **state)
{
	(void)state;
	struct along_point high[] = { { 0, 10 }, { 50, 1e6 }, { 100, 10 } };
	struct along_line line = { MEANING_LIMIT, LINE_SOLID, high, 3, false };
	sb_along_scene(0, 100, "psi", 20, &line, 1, UNIT_M, &scene);
	assert_near(scene.view.high.y, 20, 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(values_fill_the_height_and_say_their_unit),
		cmocka_unit_test(a_value_of_any_size_is_drawn_alike),
		cmocka_unit_test(nothing_but_zero_is_still_a_picture),
		cmocka_unit_test(a_line_breaks_where_nothing_is_known),
		cmocka_unit_test(what_is_far_over_the_top_is_cut_there),
	};

	return cmocka_run_group_tests(tests, ready, done);
}

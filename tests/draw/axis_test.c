#include "draw/axis.h"

#include "support/near.h"

#include <float.h>
#include <math.h>
#include <string.h>

static struct scene viewing(double x0, double y0, double x1, double y1, double exaggerated)
{
	return (struct scene){
		.across = QUANTITY_STATION,
		.up = QUANTITY_ELEVATION,
		.unit = UNIT_M,
		.exaggerated = exaggerated,
		.view = { { x0, y0 }, { x1, y1 } },
	};
}

static const struct paper sheet = { 10, 20, 100, 40 };

static struct axis fit(struct scene s)
{
	struct axis a;

	sb_axis_fit(&s, &sheet, &a);
	return a;
}

static void metres_go_to_paper_and_back(void **state)
{
	struct axis a = fit(viewing(-50, 3, 950, 44, 20));

	(void)state;
	for (double x = -50; x <= 950; x += 77)
		assert_near(sb_axis_x_metres(&a, sb_axis_x(&a, x)), x, 1e-9);
	for (double y = 3; y <= 44; y += 5)
		assert_near(sb_axis_y_metres(&a, sb_axis_y(&a, y)), y, 1e-9);
	assert_near(sb_axis_x(&a, a.view.low.x), 10, 1e-9);
	assert_near(sb_axis_x(&a, a.view.high.x), 110, 1e-9);
	assert_near(sb_axis_y(&a, a.view.high.y), 20, 1e-9);
	assert_near(sb_axis_y(&a, a.view.low.y), 60, 1e-9);
}

static void what_must_be_seen_is_on_the_paper_whatever_its_shape(void **state)
{
	(void)state;
	for (double wide = 1; wide < 1e5; wide *= 3.7)
		for (double tall = 1; tall < 1e5; tall *= 2.9) {
			struct axis a = fit(viewing(5, -7, 5 + wide, -7 + tall, 100));
			assert_true(sb_axis_x(&a, 5) >= 10 - 1e-9);
			assert_true(sb_axis_x(&a, 5 + wide) <= 110 + 1e-9);
			assert_true(sb_axis_y(&a, -7 + tall) >= 20 - 1e-9);
			assert_true(sb_axis_y(&a, -7) <= 60 + 1e-9);
		}
}

static void the_exaggeration_is_a_round_number_that_keeps_the_picture_wide(void **state)
{
	(void)state;
	for (double tall = 0.5; tall < 4000; tall *= 1.13) {
		struct axis a = fit(viewing(0, 0, 1000, tall, 100));
		double e = a.exaggeration;
		assert_true(e == 1 || e == 2 || e == 5 || e == 10 || e == 20 || e == 50 || e == 100);
		if (e > 1)
			assert_true(1000 * a.scale >= 0.75 * sheet.width - 1e-9);
	}
	/* 1000 by 40 m on 100 by 40: ten times fills it both ways. */
	assert_near(fit(viewing(0, 0, 1000, 40, 100)).exaggeration, 10, 0);
	/* 30 m: twenty times would leave a third of the width unused. */
	assert_near(fit(viewing(0, 0, 1000, 30, 100)).exaggeration, 10, 0);
	assert_near(fit(viewing(0, 0, 1000, 25, 100)).exaggeration, 20, 0);
}

static void true_proportions_stay_true(void **state)
{
	struct axis a = fit(viewing(-3, -2, 3, 2, 1));
	char text[SB_AXIS_TEXT];

	(void)state;
	assert_near(a.exaggeration, 1, 0);
	assert_near(sb_axis_x(&a, 1) - sb_axis_x(&a, 0), sb_axis_y(&a, 0) - sb_axis_y(&a, 1), 1e-12);
	sb_axis_exaggeration(&a, text);
	assert_string_equal(text, "true");
	a = fit(viewing(0, 0, 1000, 10, 20));
	sb_axis_exaggeration(&a, text);
	assert_string_equal(text, "x20");
}

static void a_view_without_extent_is_widened_to_a_metre(void **state)
{
	struct axis a = fit(viewing(100, 7, 100, 7, 20));

	(void)state;
	assert_near(sb_axis_x_metres(&a, 60), 100, 1e-9);
	assert_near(sb_axis_y_metres(&a, 40), 7, 1e-9);
	assert_true(isfinite(a.scale) && a.scale > 0);
}

static void a_view_that_is_not_finite_counts_as_none(void **state)
{
	const double bad[] = { NAN, HUGE_VAL, -HUGE_VAL };

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		struct axis a = fit(viewing(bad[i], bad[i], 5, 5, 20));
		assert_true(isfinite(a.scale) && a.scale > 0);
		assert_true(isfinite(a.view.low.x) && isfinite(a.view.high.y));
	}
	struct axis a = fit(viewing(HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL, 20)); /* nothing seen yet */
	assert_near(sb_axis_x_metres(&a, 60), 0.5, 1e-9);
}

static void assert_station(double metres, enum unit unit, int decimals, const char *want)
{
	char text[SB_AXIS_TEXT];

	sb_axis_station(metres, unit, decimals, text);
	assert_string_equal(text, want);
}

static void stations_are_written_by_the_hundred(void **state)
{
	(void)state;
	assert_station(0, UNIT_M, 0, "0+00");
	assert_station(1240.5, UNIT_M, 1, "12+40.5");
	assert_station(1241.2 * 0.3048, UNIT_FT, 1, "12+41.2");
	assert_station(7, UNIT_M, 2, "0+07.00");
	assert_station(1200.0 / 3937 * 1300, UNIT_FTUS, 0, "13+00");
	assert_station(123456, UNIT_M, 0, "1234+56");
}

static void a_station_carries_over_when_it_is_rounded(void **state)
{
	(void)state;
	assert_station(99.96, UNIT_M, 1, "1+00.0");
	assert_station(1199.7, UNIT_M, 0, "12+00");
	assert_station(99.94, UNIT_M, 1, "0+99.9");
}

static void a_station_before_the_entry_has_its_sign_in_front(void **state)
{
	(void)state;
	assert_station(-30, UNIT_M, 0, "-0+30");
	assert_station(-0.3, UNIT_M, 0, "0+00");
	assert_station(-130.25, UNIT_M, 2, "-1+30.25");
}

static void a_wild_station_is_written_and_breaks_nothing(void **state)
{
	char text[SB_AXIS_TEXT];

	(void)state;
	assert_station(HUGE_VAL, UNIT_M, 0, "inf");
	sb_axis_station(NAN, UNIT_M, 0, text);
	assert_non_null(strstr(text, "nan"));
	sb_axis_station(DBL_MAX, UNIT_M, 6, text);
	sb_axis_station(1e14, UNIT_M, 99, text);
	assert_true(strlen(text) < SB_AXIS_TEXT);
}

static void ticks_are_round_and_keep_their_distance(void **state)
{
	struct tick ticks[SB_AXIS_TICKS];
	struct axis a = fit(viewing(0, 0, 1000, 40, 10));
	size_t count = sb_axis_ticks_across(&a, 15, ticks);

	(void)state;
	assert_int_equal(count, 6);
	for (size_t i = 0; i < count; i++) {
		assert_near(ticks[i].at, 200.0 * (double)i, 1e-9);
		assert_near(ticks[i].paper, sb_axis_x(&a, ticks[i].at), 1e-9);
	}
	assert_string_equal(ticks[3].text, "6+00");
	count = sb_axis_ticks_up(&a, 8, ticks);
	assert_int_equal(count, 5);
	assert_string_equal(ticks[1].text, "10");
}

static void ticks_are_round_in_the_unit_of_the_job(void **state)
{
	struct tick ticks[SB_AXIS_TICKS];
	struct scene s = viewing(0, 0, 1000 * 0.3048, 40 * 0.3048, 10);

	(void)state;
	s.unit = UNIT_FT;
	struct axis a = fit(s);
	size_t count = sb_axis_ticks_across(&a, 15, ticks);
	assert_int_equal(count, 6);
	assert_near(ticks[1].at, 200 * 0.3048, 1e-9);
	assert_string_equal(ticks[5].text, "10+00");
}

static void small_steps_show_their_decimals(void **state)
{
	struct tick ticks[SB_AXIS_TICKS];
	struct axis a = fit(viewing(12.04, 0, 13.26, 1, 1));

	(void)state;
	a.up = QUANTITY_ELEVATION;
	size_t count = sb_axis_ticks_up(&a, 7, ticks);
	assert_true(count >= 2);
	assert_string_equal(ticks[1].text, "0.2");
	count = sb_axis_ticks_across(&a, 5, ticks);
	assert_non_null(strchr(ticks[0].text, '.'));
}

static void sides_are_named_by_words_never_by_bare_signs(void **state)
{
	static const struct {
		enum quantity quantity;
		const char *below, *above;
	} sides[] = {
		{ QUANTITY_RIGHT, "10 L", "10 R" },
		{ QUANTITY_LEFT, "10 R", "10 L" },
		{ QUANTITY_HEIGHT, "10 low", "10 high" },
		{ QUANTITY_EAST, "10 W", "10 E" },
		{ QUANTITY_NORTH, "10 S", "10 N" },
	};
	struct tick ticks[SB_AXIS_TICKS];

	(void)state;
	for (size_t i = 0; i < sizeof sides / sizeof *sides; i++) {
		struct scene s = viewing(-12, -12, 12, 12, 1);
		s.up = sides[i].quantity;
		struct axis a = fit(s);
		size_t count = sb_axis_ticks_up(&a, 15, ticks);
		assert_int_equal(count, 3);
		assert_string_equal(ticks[0].text, sides[i].below);
		assert_string_equal(ticks[1].text, "0");
		assert_string_equal(ticks[2].text, sides[i].above);
	}
}

static void the_number_of_ticks_is_bounded_for_any_view_and_gap(void **state)
{
	struct tick ticks[SB_AXIS_TICKS];

	(void)state;
	for (double size = 1e-3; size < 1e300; size *= 1e7)
		for (double gap = 1e-9; gap < 1e9; gap *= 1e3) {
			struct axis a = fit(viewing(-size, -size, size * 3, size, 20));
			assert_true(sb_axis_ticks_across(&a, gap, ticks) <= SB_AXIS_TICKS);
			assert_true(sb_axis_ticks_up(&a, gap, ticks) <= SB_AXIS_TICKS);
		}
}

static void a_scale_that_is_given_is_kept(void **state)
{
	struct scene scene = viewing(0, 0, 7, 3, 20);
	struct paper paper = { 100, 50, 200, 80 };
	struct axis a;

	(void)state;
	sb_axis_scaled(&scene, &paper, 2, 5, (struct spot){ 400, 30 }, &a); /* 1:500 in millimetres */
	assert_near(sb_axis_x(&a, 400), 200, 1e-9);
	assert_near(sb_axis_y(&a, 30), 90, 1e-9);
	assert_near(sb_axis_x(&a, 410), 220, 1e-9);
	assert_near(sb_axis_y(&a, 31), 80, 1e-9);
	assert_near(a.view.low.x, 350, 1e-9);
	assert_near(a.view.high.y, 34, 1e-9);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(metres_go_to_paper_and_back),
		cmocka_unit_test(what_must_be_seen_is_on_the_paper_whatever_its_shape),
		cmocka_unit_test(the_exaggeration_is_a_round_number_that_keeps_the_picture_wide),
		cmocka_unit_test(true_proportions_stay_true),
		cmocka_unit_test(a_view_without_extent_is_widened_to_a_metre),
		cmocka_unit_test(a_view_that_is_not_finite_counts_as_none),
		cmocka_unit_test(stations_are_written_by_the_hundred),
		cmocka_unit_test(a_station_carries_over_when_it_is_rounded),
		cmocka_unit_test(a_station_before_the_entry_has_its_sign_in_front),
		cmocka_unit_test(a_wild_station_is_written_and_breaks_nothing),
		cmocka_unit_test(ticks_are_round_and_keep_their_distance),
		cmocka_unit_test(ticks_are_round_in_the_unit_of_the_job),
		cmocka_unit_test(small_steps_show_their_decimals),
		cmocka_unit_test(sides_are_named_by_words_never_by_bare_signs),
		cmocka_unit_test(the_number_of_ticks_is_bounded_for_any_view_and_gap),
		cmocka_unit_test(a_scale_that_is_given_is_kept),
	};
	return run_tests(tests);
}

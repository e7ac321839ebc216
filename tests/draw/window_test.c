#include "draw/window.h"

#include "support/near.h"

#include <math.h>

static struct solution at(double station_m, double length_m)
{
	return (struct solution){
		.design.length_m = length_m,
		.bit = { .known = true, .deviation.station_m = station_m },
	};
}

static void the_whole_reaches_a_little_past_both_ends(void **state)
{
	struct solution s = at(200, 400);
	struct draw_window w = sb_window_whole(&s, 100);

	(void)state;
	assert_near(w.from_m, -10, 1e-9);
	assert_near(w.to_m, 410, 1e-9);
	assert_near(w.dot_m, 4.2, 1e-9);
	assert_false(w.close);
}

static void the_whole_holds_a_bit_that_went_past_the_exit(void **state)
{
	struct solution s = at(600, 400);

	(void)state;
	assert_true(sb_window_whole(&s, 100).to_m > 600);
	s = at(-30, 400);
	assert_true(sb_window_whole(&s, 100).from_m < -30);
}

static void near_is_around_the_bit(void **state)
{
	struct solution s = at(200, 400);
	struct draw_window w = sb_window_near(&s, 80, 40, 120);

	(void)state;
	assert_near(w.from_m, 120, 1e-9);
	assert_near(w.to_m, 240, 1e-9);
	assert_true(w.close);
}

static void near_the_ends_it_keeps_its_length_and_moves_inwards(void **state)
{
	struct solution s = at(10, 400);
	struct draw_window w = sb_window_near(&s, 80, 40, 120);

	(void)state;
	assert_near(w.from_m, -6, 1e-9);
	assert_near(w.to_m, 114, 1e-9);
	s = at(395, 400);
	w = sb_window_near(&s, 80, 40, 120);
	assert_near(w.to_m, 406, 1e-9);
	assert_near(w.from_m, 286, 1e-9);
	s = at(450, 400); /* past the exit it follows the bit */
	w = sb_window_near(&s, 80, 40, 120);
	assert_near(w.from_m, 370, 1e-9);
}

static void without_a_bit_near_is_at_the_entry(void **state)
{
	struct solution s = at(0, 400);

	(void)state;
	s.bit.known = false;
	struct draw_window w = sb_window_near(&s, 80, 40, 120);
	assert_true(w.from_m <= 0 && w.to_m > 40);
}

static void what_is_not_finite_becomes_the_whole(void **state)
{
	const double bad[] = { NAN, HUGE_VAL, -HUGE_VAL, 1e300 };
	struct solution s = at(200, 400);

	(void)state;
	for (size_t i = 0; i < 4; i++) {
		struct draw_window w = { bad[i], 100, 1, true, NULL, NULL, false };
		w = sb_window_sound(&w, &s);
		assert_near(w.from_m, -10, 1e-9);
		assert_true(w.close);
		w = sb_window_near(&s, bad[i], 5, 100);
		assert_near(w.to_m, 410, 1e-9);
		struct solution lost = at(bad[i], bad[i]);
		w = sb_window_whole(&lost, 0);
		assert_true(isfinite(w.from_m) && isfinite(w.to_m) && w.to_m >= w.from_m + 1);
		assert_true(w.dot_m > 0);
	}
	struct draw_window back = { 100, 50, 1, false, NULL, NULL, false };
	assert_near(sb_window_sound(&back, &s).to_m, 410, 1e-9);
	struct draw_window dotless = { 0, 100, NAN, false, NULL, NULL, false };
	assert_true(sb_window_sound(&dotless, &s).dot_m > 0);
	struct draw_window fine = { 0, 100, 1e-30, false, NULL, NULL, false };
	assert_true(sb_window_sound(&fine, &s).dot_m >= 0.01);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_whole_reaches_a_little_past_both_ends),
		cmocka_unit_test(the_whole_holds_a_bit_that_went_past_the_exit),
		cmocka_unit_test(near_is_around_the_bit),
		cmocka_unit_test(near_the_ends_it_keeps_its_length_and_moves_inwards),
		cmocka_unit_test(without_a_bit_near_is_at_the_entry),
		cmocka_unit_test(what_is_not_finite_becomes_the_whole),
	};
	return run_tests(tests);
}

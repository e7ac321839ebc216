/* Cover by hand on a straight level hole: under a river bed, by ranges, within the give or take, and where
 * the ground is not known.
 */
#include "level_hole.h"

/* 19.9 ft under 20 is flagged at the right station. The bed is lowest at 503 ft, 120.9: the top of
 * the hole is at 101. It is in the middle of joint 17, and both ends of the joint have more than 20. */
static void cover_of_19_9_under_20_is_flagged_where_it_is_least(void **state)
{
	(void)state;
	ground("0", "130");
	ground("480", "130");
	ground("503", "120.9");
	ground("530", "130");
	ground("1000", "130");
	jobs_set(&job, "cover", "minimum", "20");
	drill(25);
	const struct warning *w = warned(WARNING_COVER);
	assert_non_null(w);
	assert_int_equal(w->level, LEVEL_BREACH);
	assert_int_equal(w->worst_joint, 17);
	assert_near(w->value, 19.9, 1e-3);
	assert_near(w->limit, 20, 1e-9);
	assert_string_equal(w->text,
		"Joint 17 has 19.9 ft of cover at station 503.0; 20.0 is required. Stop and ask the engineer; steer down, or "
		"pull back and redrill.");
	struct clearance_ask a = ask();
	struct cover c = sb_cover_drilled(&a);
	assert_near(c.station_m / foot, 503, 0.01);
	assert_near(c.cover_m / foot, 19.9, 1e-3);
	assert_int_equal(c.level, LEVEL_BREACH);
	/* at the ends of the joint */
	assert_near(sb_cover_at(&a, &s.path.rows[16]).cover_m / foot, 130 - 9.1 * 16 / 23 - 101, 1e-6);
	assert_near(sb_cover_at(&a, &s.path.rows[17]).cover_m / foot, 120.9 + 9.1 * 24 / 27 - 101, 1e-6);
	assert_near(sb_cover_course(&a, &s.path.rows[17]).cover_m / foot, 19.9, 1e-3);
	assert_near(sb_cover_between(&a, &s.path.rows[16], &s.path.rows[17], 503 * foot).cover_m / foot, 19.9,
		1e-6);
	/* one sigma of it: height, and where along a bed that rises by 9.1 in 27 */
	assert_true(c.sigma_m > s.path.rows[16].doubt.up_m);
}

/* 20 ft under the river, 5 elsewhere, none on the ramps: by the ranges of corridor.csv before [cover]. */
static void each_range_asks_for_its_own_cover(void **state)
{
	(void)state;
	ground("0", "112");
	ground("1000", "112");
	jobs_set(&job, "cover", "minimum", "5");
	jobs_set(&job, "cover", "from", "100");
	jobs_set(&job, "cover", "to", "900");
	jobs_row(&job, "corridor", (const char *const[]){ "400", "450", "", "", "", "", "20" });
	jobs_row(&job, "corridor", (const char *const[]){ "600", "700", "", "", "", "", "0" });
	drill(12);
	assert_null(warned(WARNING_COVER));
	assert_true(isnan(sb_surroundings_cover(&s.around, 50 * foot)));
	assert_near(sb_surroundings_cover(&s.around, 350 * foot) / foot, 5, 1e-9);
	assert_near(sb_surroundings_cover(&s.around, 420 * foot) / foot, 20, 1e-9);
	assert_near(sb_surroundings_cover(&s.around, 650 * foot) / foot, 0, 1e-9);
	assert_near(sb_surroundings_cover(&s.around, 800 * foot) / foot, 5, 1e-9);
	assert_true(isnan(sb_surroundings_cover(&s.around, 950 * foot)));
	/* joint 12 ends at 372: within its look-ahead of three joints lies the river */
	assert_non_null(strstr(warned(WARNING_COVER_AHEAD)->text,
		"If the heading is held, joint 13 has 11.0 ft of cover at station 40"));
	drill(2);
	const struct warning *w = warned(WARNING_COVER);
	assert_int_equal(w->joint, 13);
	assert_near(w->limit, 20, 1e-9);
}

/* A hole whose top has 10.9 ft, within two sigma of the 10 that are asked for. */
static void cover_within_the_give_or_take_is_a_watch(void **state)
{
	(void)state;
	ground("0", "111.9");
	ground("1000", "111.9");
	jobs_set(&job, "cover", "minimum", "10");
	jobs_set(&job, "cover", "from", "560");
	drill(20);
	const struct warning *w = warned(WARNING_COVER);
	assert_int_equal(w->level, LEVEL_WATCH);
	assert_non_null(strstr(w->text, "ft of cover at station"));
	assert_non_null(strstr(w->text, "give or take"));
	struct clearance_ask a = ask();
	struct cover c = sb_cover_drilled(&a);
	assert_near(c.chance, sb_spread_below(-0.9 * foot / c.sigma_m), 1e-3);
	jobs_set(&job, "cover", "spare", "0.5");
	jobs_solve(&job, &s);
	assert_null(warned(WARNING_COVER));
}

static void ground_that_ends_early_is_not_judged_and_said_by_stretch(void **state)
{
	double from[4], to[4];

	(void)state;
	ground("200", "110");
	ground("700", "110");
	jobs_set(&job, "cover", "minimum", "5");
	drill(30);
	assert_null(warned(WARNING_COVER));
	assert_int_equal(sb_surroundings_unknown(&s.around, from, to, 4), 2);
	assert_near(from[0] / foot, 0, 1e-9);
	assert_near(to[0] / foot, 200, 1e-9);
	assert_near(from[1] / foot, 700, 1e-9);
	assert_near(to[1] / foot, 1000, 1e-9);
	struct clearance_ask a = ask();
	assert_false(sb_cover_at(&a, &s.path.rows[3]).known);
	assert_true(sb_cover_at(&a, &s.path.rows[10]).known);
	job.ground_count = 0;
	jobs_solve(&job, &s);
	assert_int_equal(sb_surroundings_unknown(&s.around, from, to, 4), 1);
	assert_near(to[0] / foot, 1000, 1e-9);
	a = ask();
	assert_false(sb_cover_drilled(&a).known);
}

#define HERE(test) cmocka_unit_test_setup_teardown(test, setup, teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		HERE(cover_of_19_9_under_20_is_flagged_where_it_is_least),
		HERE(each_range_asks_for_its_own_cover),
		HERE(cover_within_the_give_or_take_is_a_watch),
		HERE(ground_that_ends_early_is_not_judged_and_said_by_stretch),
	};

	return run_tests(tests);
}

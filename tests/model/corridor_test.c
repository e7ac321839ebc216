/* The corridor: ranges that touch, overlap and narrow, and how much of it is used. */
#include "model/corridor.h"

#include "model/setting.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct job job;
static struct frame frame;
static struct corridor corridor;
static struct sb_problems problems;

static int setup(void **state)
{
	(void)state;
	jobs_plain(&job);
	memset(&problems, 0, sizeof problems);
	memset(&corridor, 0, sizeof corridor);
	return sb_frame_init(&job, &frame, NULL);
}

static int teardown(void **state)
{
	(void)state;
	sb_corridor_clear(&corridor);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	return 0;
}

static void range(const char *from, const char *to, const char *up, const char *down, const char *left,
	const char *right)
{
	jobs_row(&job, "corridor", (const char *const[]){ from, to, up, down, left, right, "" });
	job.ranges[job.range_count - 1].line = (int)job.range_count + 1;
}

static int build(void)
{
	sb_corridor_clear(&corridor);
	sb_problems_clear(&problems);
	return sb_corridor_build(&job, &frame, &corridor, &problems);
}

/* up, down, left, right in feet */
static void assert_limits(double station_ft, double up, double down, double left, double right)
{
	struct corridor_limits l = sb_corridor_at(&corridor, station_ft * 0.3048);

	assert_near(l.up_m / 0.3048, up, 1e-12);
	assert_near(l.down_m / 0.3048, down, 1e-12);
	assert_near(l.left_m / 0.3048, left, 1e-12);
	assert_near(l.right_m / 0.3048, right, 1e-12);
}

static void without_ranges_the_sheets_limits_hold_everywhere(void **state)
{
	(void)state;
	assert_int_equal(build(), 0);
	assert_limits(-50, 2, 3, 4, 5);
	assert_limits(600, 2, 3, 4, 5);
	assert_limits(1300, 2, 3, 4, 5);
	assert_near(corridor.near, 0.7, 0);
	assert_near(corridor.exit_long_m, 30 * 0.3048, 1e-12);
	assert_near(corridor.exit_short_m, 10 * 0.3048, 1e-12);
}

static void a_side_that_nobody_limits_is_open(void **state)
{
	(void)state;
	memset(&job.up, 0, sizeof job.up);
	memset(&job.exit_long, 0, sizeof job.exit_long);
	assert_int_equal(build(), 0);
	assert_true(sb_corridor_at(&corridor, 100).up_m == HUGE_VAL);
	assert_true(corridor.exit_long_m == HUGE_VAL);
	struct corridor_limits l = sb_corridor_at(&corridor, 100);
	struct corridor_use use = sb_corridor_use(&l, 0, 1000);
	assert_near(use.share, 0, 0);
	assert_int_equal(use.side, SIDE_NONE);
}

static void a_range_overrides_what_it_says_and_only_there(void **state)
{
	(void)state;
	range("400", "500", "0.5", "", "", "1");
	assert_int_equal(build(), 0);
	assert_limits(399.99, 2, 3, 4, 5);
	assert_limits(400, 0.5, 3, 4, 1);
	assert_limits(450, 0.5, 3, 4, 1);
	assert_limits(500, 0.5, 3, 4, 1);
	assert_limits(500.01, 2, 3, 4, 5);
}

/* A range may widen the corridor too: it is the contract's word for those stations. */
static void where_ranges_touch_the_narrower_holds_on_each_side(void **state)
{
	(void)state;
	range("500", "600", "9", "1", "4", "5"); /* rows in any order */
	range("400", "500", "0.5", "8", "4", "1");
	assert_int_equal(build(), 0);
	assert_limits(499.999, 0.5, 8, 4, 1);
	assert_limits(500, 0.5, 1, 4, 1);
	assert_limits(500.001, 9, 1, 4, 5);
	assert_limits(600, 9, 1, 4, 5);
	assert_limits(600.001, 2, 3, 4, 5);
}

static void a_limit_of_nothing_is_a_limit(void **state)
{
	(void)state;
	range("400", "500", "0", "", "", "");
	assert_int_equal(build(), 0);
	assert_limits(450, 0, 3, 4, 5);
}

static void assert_problem(size_t i, int line, const char *column, const char *says)
{
	assert_true(i < problems.count);
	assert_string_equal(problems.list[i].file, "corridor.csv");
	assert_int_equal(problems.list[i].line, line);
	assert_string_equal(problems.list[i].column, column);
	assert_string_equal(problems.list[i].text, says);
	assert_false(problems.list[i].warning);
}

static void ranges_that_end_before_they_begin_are_refused_each_by_its_line(void **state)
{
	(void)state;
	range("400", "400", "1", "", "", "");
	range("500", "600", "1", "", "", "");
	range("700.5", "650", "1", "", "", "");
	assert_int_equal(build(), -1);
	assert_int_equal(problems.count, 2);
	assert_problem(0, 2, "to", "the range ends at 400, which is not past its beginning at 400.");
	assert_problem(1, 4, "to", "the range ends at 650, which is not past its beginning at 700.5.");
}

/* Once a range inside another hid the next one that overlapped it, and the end was said wrong. */
static void ranges_that_overlap_are_refused_all_of_them(void **state)
{
	(void)state;
	range("100", "500", "1", "", "", "");
	range("200", "300", "1", "", "", "");
	range("400", "600", "1", "", "", "");
	range("600", "700", "1", "", "", "");
	assert_int_equal(build(), -1);
	assert_int_equal(problems.count, 2);
	assert_problem(0, 0, "from",
		"two ranges overlap between stations 200.00 and 300.00: give each station one range.");
	assert_problem(1, 0, "from",
		"two ranges overlap between stations 400.00 and 500.00: give each station one range.");
}

/* Once it passed where nobody wanted to hear of the problems. */
static void a_bad_corridor_is_refused_also_when_nobody_listens(void **state)
{
	(void)state;
	range("400", "300", "1", "", "", "");
	assert_int_equal(sb_corridor_build(&job, &frame, &corridor, NULL), -1);
}

/* ---- how much is used ---- */

static const struct corridor_limits box = { .up_m = 2, .down_m = 3, .left_m = 4, .right_m = 5 };

static void assert_use(double offset, double height, double share, enum side side, double value, double limit)
{
	struct corridor_use u = sb_corridor_use(&box, offset, height);

	assert_near(u.share, share, 1e-15);
	assert_int_equal(u.side, side);
	assert_near(u.value_m, value, 1e-15);
	assert_near(u.limit_m, limit, 0);
}

static void the_worst_side_counts(void **state)
{
	(void)state;
	assert_use(0, 1, 0.5, SIDE_UP, 1, 2);
	assert_use(0, -1.5, 0.5, SIDE_DOWN, 1.5, 3);
	assert_use(-1, 0, 0.25, SIDE_LEFT, 1, 4);
	assert_use(1, 0, 0.2, SIDE_RIGHT, 1, 5);
	assert_use(4, 1, 0.8, SIDE_RIGHT, 4, 5);
	assert_use(-4, 1, 1, SIDE_LEFT, 4, 4);
	assert_use(2.5, 1, 0.5, SIDE_UP, 1, 2); /* even: height is said */
	assert_use(0, 3, 1.5, SIDE_UP, 3, 2);
	assert_use(0, 0, 0, SIDE_NONE, 0, 2);
}

static void past_a_limit_of_nothing_is_as_much_as_can_be(void **state)
{
	const struct corridor_limits none = { .up_m = 0, .down_m = 1, .left_m = 1, .right_m = 1 };

	(void)state;
	struct corridor_use u = sb_corridor_use(&none, 0, 0.01);
	assert_near(u.share, SB_SHARE_MOST, 0);
	assert_int_equal(u.side, SIDE_UP);
	assert_near(u.value_m, 0.01, 0);
	assert_near(u.limit_m, 0, 0);
	/* What arithmetic leaves over is on the line. */
	u = sb_corridor_use(&none, 0, 1e-12);
	assert_near(u.share, 0, 0);
	assert_int_equal(u.side, SIDE_NONE);
	u = sb_corridor_use(&none, 1e7, 0);
	assert_near(u.share, SB_SHARE_MOST, 0);
}

static void sides_have_their_words(void **state)
{
	(void)state;
	assert_string_equal(sb_side_word(SIDE_NONE), "on line");
	assert_string_equal(sb_side_word(SIDE_UP), "high");
	assert_string_equal(sb_side_word(SIDE_DOWN), "low");
	assert_string_equal(sb_side_word(SIDE_LEFT), "left");
	assert_string_equal(sb_side_word(SIDE_RIGHT), "right");
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

static const struct CMUnitTest tests[] = {
	HERE(without_ranges_the_sheets_limits_hold_everywhere),
	HERE(a_side_that_nobody_limits_is_open),
	HERE(a_range_overrides_what_it_says_and_only_there),
	HERE(where_ranges_touch_the_narrower_holds_on_each_side),
	HERE(a_limit_of_nothing_is_a_limit),
	HERE(ranges_that_end_before_they_begin_are_refused_each_by_its_line),
	HERE(ranges_that_overlap_are_refused_all_of_them),
	HERE(a_bad_corridor_is_refused_also_when_nobody_listens),
	HERE(the_worst_side_counts),
	HERE(past_a_limit_of_nothing_is_as_much_as_can_be),
	HERE(sides_have_their_words),
};

int main(void)
{
	return run_tests(tests);
}

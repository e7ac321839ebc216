/* Clock times without a date: across midnight, over a day that nothing was done, and where the clock is
 * silent.
 */
#include "model/clock.h"
#include "support/near.h"

#define MINUTE INT64_C(60000)

static struct clock_minutes between(
	const char *ended, int64_t ended_min, const char *from, const char *to, int64_t at_min)
{
	struct clocked before = { "", ended, ended_min * MINUTE }, joint = { from, to, at_min * MINUTE };

	return sb_clock_minutes(&before, &joint);
}

static void a_joint_over_midnight_takes_the_minutes_that_it_took(void **state)
{
	(void)state;
	struct clock_minutes m = between("23:40", 0, "23:50", "00:15", 35);
	assert_int_equal(m.source, TIME_TYPED);
	assert_near(m.wait_min, 10, 0);
	assert_near(m.work_min, 25, 0);
	assert_near(m.whole_min, 35, 0);
}

static void a_day_between_two_joints_is_told_by_when_they_were_entered(void **state)
{
	(void)state;
	assert_near(between("17:00", 0, "07:00", "07:30", 14 * 60 + 30).wait_min, 14 * 60, 0);
	assert_near(between("17:00", 0, "07:00", "07:30", 38 * 60 + 30).wait_min, 38 * 60, 0);
}

static void joints_that_overlap_by_a_slip_waited_for_nothing(void **state)
{
	(void)state;
	struct clock_minutes m = between("10:30", 0, "10:25", "10:50", 20);
	assert_near(m.wait_min, 0, 0);
	assert_near(m.whole_min, 25, 0);
}

static void without_a_clock_the_acts_tell_unless_they_came_all_at_once(void **state)
{
	(void)state;
	struct clock_minutes m = between("", 0, "", "", 22);
	assert_int_equal(m.source, TIME_LOGGED);
	assert_near(m.whole_min, 22, 0);
	assert_true(isnan(m.wait_min) && isnan(m.work_min));
	assert_int_equal(between("", 0, "", "", 0).source, TIME_UNKNOWN);
}

static void the_first_joint_waited_for_nobody_knows_how_long(void **state)
{
	(void)state;
	struct clocked first = { "08:00", "08:20", 0 };
	struct clock_minutes m = sb_clock_minutes(NULL, &first);
	assert_near(m.work_min, 20, 0);
	assert_true(isnan(m.wait_min) && isnan(m.whole_min));
}

static void the_middle_one_of_an_even_number_is_the_lower(void **state)
{
	(void)state;
	double four[] = { 9, 1, 7, 3 };
	assert_near(sb_clock_middle(four, 4), 3, 0);
	assert_near(sb_clock_middle(four, 3), 3, 0);
	assert_true(isnan(sb_clock_middle(four, 0)));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_joint_over_midnight_takes_the_minutes_that_it_took),
		cmocka_unit_test(a_day_between_two_joints_is_told_by_when_they_were_entered),
		cmocka_unit_test(joints_that_overlap_by_a_slip_waited_for_nothing),
		cmocka_unit_test(without_a_clock_the_acts_tell_unless_they_came_all_at_once),
		cmocka_unit_test(the_first_joint_waited_for_nobody_knows_how_long),
		cmocka_unit_test(the_middle_one_of_an_even_number_is_the_lower),
	};

	return run_tests(tests);
}

/* The azimuth chain in words: no bare sign, whose word each link is, and the one number that is added. */
#include "io/links.h"
#include "model/fact.h"

#include "geom/angle.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct job job;
static struct frame frame;
static struct azimuth_link links[SB_LINKS];
static size_t count;

static int teardown(void **state)
{
	(void)state;
	sb_job_clear(&job);
	return 0;
}

static void look(const struct reading *r)
{
	assert_int_equal(sb_frame_init(&job, &frame, NULL), 0);
	count = sb_links(&job, &frame, r, links);
}

static const struct azimuth_link *link_of(const char *label)
{
	for (size_t i = 0; i < count; i++)
		if (sb_same(links[i].label, label))
			return &links[i];
	fail_msg("no link '%s'", label);
	return NULL;
}

#define assert_link(label, text) assert_string_equal(link_of(label)->words, (text))

static void change(int64_t act, const char *section, const char *key, const char *value, int from)
{
	struct change c = { .fact = { .act = act, .leg = 1 }, .from_joint = from };

	sb_copy(c.section, sizeof c.section, section);
	sb_copy(c.key, sizeof c.key, key);
	sb_copy(c.value, sizeof c.value, value);
	sb_copy(c.fact.who, sizeof c.fact.who, "Ida");
	sb_job_add_change(&job, &c);
}

static void each_sign_is_a_side_and_the_sum_is_what_the_frame_adds(void **state)
{
	static const struct {
		const char *reference, *declination, *convergence, *correction, *sum;
	} table[] = {
		{ "magnetic", "3.40", "-1.20", "0", "add 4.60 degrees to what the tool shows" },
		{ "magnetic", "-13.7", "2.05", "0.5", "take off 15.25 degrees from what the tool shows" },
		{ "magnetic", "1.2", "1.2", "0", "add nothing to what the tool shows" },
		{ "true", "3.40", "-1.20", "0", "add 1.20 degrees to what the tool shows" },
		{ "grid", "3.40", "-1.20", "-0.4", "take off 0.40 degrees from what the tool shows" },
	};

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		jobs_curved(&job);
		jobs_set(&job, "azimuth", "reference", table[i].reference);
		jobs_set(&job, "azimuth", "declination", table[i].declination);
		jobs_set(&job, "azimuth", "convergence", table[i].convergence);
		jobs_set(&job, "tool", "azimuth_correction", table[i].correction);
		look(NULL);
		assert_link("to the grid", table[i].sum);
		assert_true(links[count - 1].sum);
		/* by the other way: what the frame makes of a reading of 100 */
		double turned = sb_deg(sb_frame_azi(&frame, 100)) - 100, said = 0;
		sscanf(strpbrk(table[i].sum, "0123456789") ? strpbrk(table[i].sum, "0123456789") : "0", "%lf",
			&said);
		assert_near(fabs(turned), said, 0.005);
		assert_int_equal(turned < -0.005, strncmp(table[i].sum, "take", 4) == 0);
		sb_job_clear(&job);
	}
	jobs_curved(&job);
	look(NULL);
	assert_link("declination", "magnetic north lies 3.40 degrees east of true north");
	assert_link("convergence", "grid north lies 1.20 degrees west of true north");
	assert_string_equal(link_of("declination")->source, "job sheet");
}

/* The line bears 36.87 and the tool read 32.00 on it. */
static void by_the_bore_the_rest_is_kept_to_compare(void **state)
{
	(void)state;
	jobs_curved(&job);
	jobs_set(&job, "azimuth", "reference", "bore");
	jobs_set(&job, "azimuth", "bore_azimuth_read", "32.00");
	jobs_set(&job, "tool", "azimuth_correction", "0.3");
	look(NULL);
	assert_link("tool on the line", "read 32.00 where the line bears 36.87 on the grid");
	assert_link("to the grid", "add 4.87 degrees to what the tool shows");
	assert_link("declination", "magnetic north lies 3.40 degrees east of true north; kept to compare");
	assert_link("tool correction", "add 0.30 degrees; not used: the line was read by the same tool");
}

static void what_the_fixes_correct_is_a_link_of_its_own(void **state)
{
	struct adjustment a = { .taken = 1 };

	(void)state;
	jobs_curved(&job);
	a.azimuth = sb_number_of(-0.84, 2);
	a.inclination = a.stretch = sb_number_of(0, 0);
	sb_copy(a.fact.who, sizeof a.fact.who, "Bea");
	sb_fact_add(&job, ACT_ADJUST, &a);
	look(NULL);
	assert_link("fixes", "take off 0.84 degrees: the correction that the fixes proposed");
	assert_string_equal(link_of("fixes")->source, "taken by Bea");
	assert_link("to the grid", "add 3.76 degrees to what the tool shows");
}

static void each_reading_has_what_held_for_it(void **state)
{
	struct sb_str changed = { 0 };

	(void)state;
	jobs_curved(&job);
	jobs_log(&job, "", "-10", "32");
	job.readings[job.joints[0]].logged = 2;
	change(50, "azimuth", "declination", "3.10", 2);
	change(50, "tool", "sensor_to_bit", "7.25", 2);
	change(60, "azimuth", "declination", "3.00", 2);
	look(sb_job_joint(&job, 1));
	assert_link("declination", "magnetic north lies 3.40 degrees east of true north");
	assert_int_equal(sb_links_changed(&job, sb_job_joint(&job, 1), &changed), 0);
	look(NULL);
	assert_link("declination", "magnetic north lies 3.00 degrees east of true north");
	assert_string_equal(link_of("declination")->source, "since joint 2, by Ida");
	assert_int_equal(sb_links_changed(&job, NULL, &changed), 2);
	assert_string_equal(sb_str_get(&changed),
		"azimuth declination 3.00, since joint 2, by Ida\ntool sensor_to_bit 7.25, since joint 2, by Ida");
	sb_str_clear(&changed);
	const struct change *acts[1] = { NULL };
	assert_int_equal(sb_links_acts(&job, acts, 1), 2);
	assert_string_equal(acts[0]->value, "3.00");
}

#define HERE(name) cmocka_unit_test_teardown(name, teardown)

int main(void)
{
	static const struct CMUnitTest tests[] = {
		HERE(each_sign_is_a_side_and_the_sum_is_what_the_frame_adds),
		HERE(by_the_bore_the_rest_is_kept_to_compare),
		HERE(what_the_fixes_correct_is_a_link_of_its_own),
		HERE(each_reading_has_what_held_for_it),
	};

	return run_tests(tests);
}

/* Two ways to the bore's azimuth that disagree: the watch stays until a named choice, ends with it, and comes
 * back when what was chosen between is another. And a gyro needs a convergence. */
#include "model/azimuth.h"

#include "geom/angle.h"
#include "store/stranger.h"

static struct sb_store *store;

/* The plain job bears 90 on the grid; the tool read 88.8 on its staked line. */
static void apart(struct job *job)
{
	jobs_plain(job);
	jobs_set(job, "azimuth", "bore_azimuth_read", "88.8");
}

static void change(const char *section, const char *key, const char *value, int from)
{
	struct change c = { .from_joint = from };

	sb_copy(c.section, sizeof c.section, section);
	sb_copy(c.key, sizeof c.key, key);
	sb_copy(c.value, sizeof c.value, value);
	must(sb_store_change(store, "Ida", &c, 1, "the line was taped", &book_err));
}

static void drill(int joints)
{
	for (int i = 0; i < joints; i++)
		must(book_log(store, "80", "90"));
}

static const struct warning *episode(size_t n)
{
	const struct solution *s = sb_store_solution(store);

	for (size_t i = 0; i < s->warning_count; i++)
		if (s->warnings[i].kind == WARNING_AZIMUTH && n-- == 0)
			return &s->warnings[i];
	return NULL;
}

static void begin(int joints)
{
	book_new(apart);
	store = book_open(STORE_WRITE);
	drill(joints);
}

static void end(void)
{
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void the_watch_stays_until_the_choice_and_ends_with_it(void **state)
{
	(void)state;
	begin(3);
	assert_true(episode(0)->open);
	assert_false(episode(0)->acknowledged);
	assert_near(episode(0)->value, 1.2, 1e-9);
	assert_int_equal(sb_store_solution(store)->level, LEVEL_WATCH);
	/* the figures still disagree: the choice alone ends it, though it chooses what was */
	change("azimuth", "reference", "grid", 4);
	assert_false(episode(0)->open);
	assert_int_equal(episode(0)->joint, 0);
	assert_int_equal(episode(0)->last_joint, 3);
	assert_true(episode(0)->acknowledged);
	assert_string_equal(episode(0)->acknowledged_by, "Ida");
	assert_int_equal(sb_store_solution(store)->level, LEVEL_OK);
	drill(2);
	assert_null(episode(1));
	assert_int_equal(episode(0)->last_joint, 3);
	end();
}

static void before_the_first_joint_a_choice_ends_it_at_once(void **state)
{
	(void)state;
	begin(0);
	assert_true(episode(0)->open);
	change("azimuth", "reference", "bore", 1);
	assert_false(episode(0)->open);
	drill(1);
	assert_false(episode(0)->open);
	assert_near(sb_deg(sb_store_solution(store)->path.rows[1].attitude.azi_rad), 91.2, 1e-9);
	end();
}

static void figures_that_agree_end_it_too(void **state)
{
	(void)state;
	begin(2);
	change("azimuth", "bore_azimuth_read", "89.8", 3);
	assert_false(episode(0)->open);
	assert_true(episode(0)->acknowledged);
	drill(1);
	assert_null(episode(1));
	end();
}

static void a_figure_that_changes_after_the_choice_asks_again(void **state)
{
	(void)state;
	begin(1);
	change("azimuth", "reference", "grid", 2);
	drill(1);
	/* what is no figure of either way asks nothing */
	change("azimuth", "dip", "67", 3);
	change("tool", "sensor_to_bit", "12", 3);
	assert_null(episode(1));
	change("azimuth", "bore_azimuth_read", "87.5", 3);
	assert_non_null(episode(1));
	assert_true(episode(1)->open);
	assert_int_equal(episode(1)->joint, 2);
	assert_near(episode(1)->value, 2.5, 1e-9);
	drill(1);
	assert_int_equal(episode(1)->last_joint, 3);
	change("azimuth", "reference", "grid", 4);
	assert_false(episode(1)->open);
	assert_true(episode(1)->acknowledged);
	end();
}

static void redone_from_the_entry_on_it_never_was(void **state)
{
	(void)state;
	begin(3);
	change("azimuth", "bore_azimuth_read", "90.1", 0);
	assert_null(episode(0));
	end();
}

static void redone_from_a_joint_on_it_ends_before_it(void **state)
{
	(void)state;
	begin(4);
	change("azimuth", "reference", "bore", 3);
	assert_int_equal(episode(0)->last_joint, 2);
	assert_false(episode(0)->open);
	assert_near(sb_deg(sb_store_solution(store)->path.rows[2].attitude.azi_rad), 90, 1e-9);
	assert_near(sb_deg(sb_store_solution(store)->path.rows[3].attitude.azi_rad), 91.2, 1e-9);
	end();
}

static void a_choice_outlives_pulling_back_and_an_acknowledgement_is_kept(void **state)
{
	(void)state;
	begin(3);
	must(sb_store_acknowledge(store, "Ben", 0, "the surveyor comes at noon", &book_err));
	assert_true(episode(0)->open);
	assert_string_equal(episode(0)->acknowledged_by, "Ben");
	change("azimuth", "reference", "grid", 4);
	assert_string_equal(episode(0)->acknowledged_by, "Ben");
	drill(1);
	must(sb_store_withdraw(store, "Ida", 1, "to redrill", &book_err));
	for (size_t i = 0; episode(i); i++)
		assert_false(episode(i)->open);
	drill(2);
	for (size_t i = 0; episode(i); i++)
		assert_false(episode(i)->open);
	end();
}

static void what_changed_and_what_was_chosen_is_found_for_each_reading(void **state)
{
	(void)state;
	begin(2);
	const struct job *job = sb_store_job(store);
	assert_null(sb_azimuth_change(job, NULL, "azimuth", "reference"));
	change("azimuth", "reference", "bore", 3);
	drill(1);
	change("tool", "azimuth_correction", "0.4", 4);
	drill(1);
	assert_null(sb_azimuth_change(job, sb_job_joint(job, 2), "azimuth", "reference"));
	assert_string_equal(
		sb_azimuth_change(job, sb_job_joint(job, 3), "azimuth", "reference")->value, "bore");
	assert_non_null(sb_azimuth_choice(job, sb_job_joint(job, 3)));
	assert_null(sb_azimuth_choice(job, sb_job_joint(job, 4)));
	assert_null(sb_azimuth_choice(job, sb_job_joint(job, 2)));
	end();
}

static void a_gyro_is_refused_until_there_is_a_convergence(void **state)
{
	(void)state;
	begin(1);
	struct reading r = book_reading(store, "90", "88");
	struct preview trial;
	r.azimuth_by = AZIMUTH_BY_GYRO;
	assert_int_equal(sb_store_log(store, "Ida", &r, &book_err), -1);
	assert_int_equal(book_err.code, SB_STATE);
	assert_non_null(strstr(book_err.text, "has no convergence"));
	assert_int_equal(
		sb_solve_preview(sb_store_job(store), sb_store_solution(store), &r, &trial, &book_err), -1);
	assert_int_equal(sb_store_job(store)->joint_count, 1);
	change("azimuth", "convergence", "-2", 2);
	must(sb_store_log(store, "Ida", &r, &book_err));
	assert_near(sb_deg(sb_store_solution(store)->path.rows[2].attitude.azi_rad), 90, 1e-9);
	/* joint 1 was read without one, and is corrected as it was read */
	sb_copy(r.reason, sizeof r.reason, "by gyro");
	assert_int_equal(
		sb_store_correct(store, "Ida", sb_job_joint(sb_store_job(store), 1)->id, &r, &book_err), -1);
	assert_non_null(strstr(book_err.text, "has no convergence"));
	end();
}

int main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_watch_stays_until_the_choice_and_ends_with_it),
		cmocka_unit_test(before_the_first_joint_a_choice_ends_it_at_once),
		cmocka_unit_test(figures_that_agree_end_it_too),
		cmocka_unit_test(a_figure_that_changes_after_the_choice_asks_again),
		cmocka_unit_test(redone_from_the_entry_on_it_never_was),
		cmocka_unit_test(redone_from_a_joint_on_it_ends_before_it),
		cmocka_unit_test(a_choice_outlives_pulling_back_and_an_acknowledgement_is_kept),
		cmocka_unit_test(what_changed_and_what_was_chosen_is_found_for_each_reading),
		cmocka_unit_test(a_gyro_is_refused_until_there_is_a_convergence),
	};

	return run_tests(tests);
}

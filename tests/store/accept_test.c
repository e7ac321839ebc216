/* The pilot's end: breaches and what came of them, the contract's checklist, the exit by land survey, and the
 * acceptance that closes the pilot. */
#include "model/acceptance.h"
#include "store/stranger.h"

#include "base/mem.h"

static struct nonconformance *list;
static size_t count;

static void look(const struct sb_store *store)
{
	sb_free(list);
	count = sb_nonconformances(sb_store_job(store), sb_store_solution(store), &list);
}

static const char *said(size_t i)
{
	static struct sb_str text;

	sb_str_clear(&text);
	sb_nonconformance_say(&list[i], &text);
	return sb_str_get(&text);
}

static size_t the(enum warning_kind kind)
{
	size_t i = 0;

	while (i < count && list[i].warning->kind != kind)
		i++;
	assert_true(i < count);
	return i;
}

static struct sb_store *opened(const char *exit_survey)
{
	struct job job;

	scratch("");
	scratch_empty();
	jobs_plain(&job);
	jobs_set(&job, "acceptance", "exit_survey", exit_survey);
	jobs_row(&job, "checklist", (const char *const[]){ "As-built drawing handed over" });
	jobs_row(&job, "checklist",
		(const char *const[]){ "Steering tool's calibration sheet, not older than a year" });
	must(sb_store_create(book_path(), &job, "Ida", &book_err));
	sb_job_clear(&job);
	return book_open(STORE_WRITE);
}

/* The design, joint by joint, from where the bore is; 1200 ft need 39 joints of 31. */
static void follow(struct sb_store *store, int to)
{
	struct job job;

	jobs_plain(&job);
	jobs_follow(&job, to);
	for (int joint = sb_job_in_ground(sb_store_job(store)) + 1; joint <= to; joint++) {
		struct reading r = *sb_job_joint(&job, joint);
		sb_copy(r.reason, sizeof r.reason, "as it is");
		must(sb_store_log(store, "Ida", &r, &book_err));
	}
	sb_job_clear(&job);
}

/* A land survey of where the bit came out, so far past the exit, to the right of it, above it. */
static int survey(struct sb_store *store, double past, double right, double high)
{
	struct fix f = { .kind = FIX_EXIT };

	f.depth = sb_number_of(sb_frame_typed(&sb_store_solution(store)->frame,
				       sb_solution_last(sb_store_solution(store))->bit_md_m) -
			0.005,
		2);
	f.easting = sb_number_of(6200 + past, 2); /* the line runs due east from easting 5000 */
	f.northing = sb_number_of(1000 - right, 2);
	f.elevation = sb_number_of(100 + high, 2);
	f.sigma_along = f.sigma_across = f.sigma_up = sb_number_of(0.05, 2);
	return sb_store_fix(store, "Bo", &f, "tied to points 3 and 4", &book_err);
}

static const struct hold_point *point(const struct sb_store *store, struct hold_points *h, const char *text)
{
	sb_acceptance_look(sb_store_job(store), sb_store_solution(store), h);
	for (size_t i = 0; i < h->count; i++)
		if (strncmp(h->list[i].text, text, strlen(text)) == 0)
			return &h->list[i];
	print_error("no point '%s'\n", text);
	fail();
	return NULL;
}

/* Two joints that turn 5 degrees each: 355 ft of radius where 600 is allowed. */
static void bend(struct sb_store *store)
{
	must(book_log(store, "80", "90"));
	must(book_log(store, "85", "90"));
	must(book_log(store, "80", "90"));
}

static void every_breach_opens_one_and_only_breaches_do(void **state)
{
	(void)state;
	struct sb_store *store = opened("yes");
	follow(store, 4);
	look(store);
	assert_int_equal(count, 0);
	sb_store_close(store);
	store = opened("yes");
	bend(store);
	look(store);
	assert_true(count >= 1);
	for (size_t i = 0; i < count; i++) {
		assert_int_equal(list[i].number, (int)i + 1);
		assert_int_equal(list[i].state, DISPOSITION_OPEN);
		assert_int_equal(list[i].warning->level, LEVEL_BREACH);
		assert_string_equal(said(i), "open");
	}
	assert_int_equal(list[0].warning->kind, WARNING_JOINT_BEND);
	assert_int_equal(list[0].warning->joint, 2);
	const struct job *job = sb_store_job(store);
	const struct solution *s = sb_store_solution(store);
	size_t of_joints = 0;
	for (size_t i = 0; i < count; i++)
		of_joints += list[i].warning->kind == WARNING_JOINT_BEND;
	assert_int_equal(sb_nonconformances_open(job, s), count);
	assert_int_equal(sb_nonconformances_open_of(job, s, WARNING_JOINT_BEND), of_joints);
	assert_int_equal(sb_nonconformances_open_of(job, s, WARNING_RELEASE), 0);
	sb_store_close(store);
}

static void the_engineer_accepts_one_with_a_reference_and_takes_it_back(void **state)
{
	(void)state;
	struct sb_store *store = opened("yes");
	bend(store);
	refused(sb_store_accept(store, "B. Hale", 1, "", "holds", &book_err), SB_RANGE);
	refused(sb_store_accept(store, "B. Hale", 1, "C-114", " ", &book_err), SB_RANGE);
	refused(sb_store_accept(store, "B. Hale", 99, "C-114", "holds", &book_err), SB_MISSING);
	refused(sb_store_accept_back(store, "B. Hale", 1, "not so", &book_err), SB_STATE);
	must(sb_store_accept(store, "B. Hale", 1, "C-114", "the pipe holds", &book_err));
	look(store);
	assert_int_equal(list[0].state, DISPOSITION_ACCEPTED);
	assert_string_equal(said(0),
		"accepted by B. Hale: bend of one joint, joints 2 to 3, reference C-114: the pipe holds");
	refused(sb_store_accept(store, "B. Hale", 1, "C-114", "again", &book_err), SB_STATE);
	assert_string_equal(stranger_reads("SELECT disposition || reference FROM nonconformances LIMIT 1"),
		"acceptedC-114");
	sb_store_close(store);
	store = book_open(STORE_WRITE); /* and it is in the file */
	look(store);
	assert_int_equal(list[0].state, DISPOSITION_ACCEPTED);
	must(sb_store_accept_back(store, "B. Hale", 1, "wrong load case", &book_err));
	book_equals_file(store);
	look(store);
	assert_int_equal(list[0].state, DISPOSITION_OPEN);
	assert_string_equal(said(0), "open");
	sb_store_close(store);
	book_verify(0);
}

/* 5 degrees in a joint were accepted; the engineer said nothing of 6. */
static void what_has_grown_since_it_was_accepted_is_open_again(void **state)
{
	(void)state;
	struct sb_store *store = opened("yes");
	bend(store);
	must(sb_store_accept(store, "B. Hale", 1, "C-114", "the pipe holds", &book_err));
	struct reading r = book_reading(store, "86", "90");
	sb_copy(r.reason, sizeof r.reason, "misread");
	must(sb_store_correct(store, "Ida", sb_job_joint(sb_store_job(store), 2)->id, &r, &book_err));
	look(store);
	size_t bent = the(WARNING_JOINT_BEND); /* the corridor is broken too now, which comes before it */
	assert_true(list[bent].grown);
	assert_int_equal(list[bent].state, DISPOSITION_OPEN);
	assert_non_null(strstr(said(bent), "worse than when B. Hale accepted it"));
	/* less than was accepted needs no new word */
	r = book_reading(store, "84", "90");
	sb_copy(r.reason, sizeof r.reason, "misread after all");
	must(sb_store_correct(store, "Ida", sb_job_joint(sb_store_job(store), 2)->id, &r, &book_err));
	look(store);
	assert_int_equal(list[the(WARNING_JOINT_BEND)].state, DISPOSITION_ACCEPTED);
	sb_store_close(store);
}

static void a_new_leg_closes_what_it_took_out_and_nothing_else(void **state)
{
	(void)state;
	struct sb_store *store = opened("yes");
	bend(store);
	must(sb_store_withdraw(store, "Ida", 1, "bent", &book_err));
	look(store);
	assert_int_equal(sb_nonconformances_open(sb_store_job(store), sb_store_solution(store)), 0);
	assert_int_equal(list[0].state, DISPOSITION_REDRILLED);
	assert_string_equal(said(0), "redrilled: leg 2 began behind it, after joint 1");
	refused(sb_store_accept(store, "B. Hale", 1, "C-114", "holds", &book_err), SB_STATE);
	sb_store_close(store);
	/* of joints 2 and 3 only the last is drilled again: what stays is open */
	store = opened("yes");
	bend(store);
	must(sb_store_withdraw(store, "Ida", 2, "bent", &book_err));
	look(store);
	size_t open = 0, redrilled = 0;
	for (size_t i = 0; i < count; i++) {
		open += list[i].state == DISPOSITION_OPEN && list[i].warning->kind == WARNING_JOINT_BEND;
		redrilled += list[i].state == DISPOSITION_REDRILLED;
	}
	assert_int_equal(open, 1);
	assert_true(redrilled >= 1);
	sb_store_close(store);
}

/* Exactly on the limit is inside; a tenth past it is not. */
static void the_exit_is_judged_by_land_survey(void **state)
{
	(void)state;
	const struct {
		double past, right;
		bool passes;
		const char *words;
	} cases[] = {
		{ 30.0, 0, true, "30.0 ft long; 30.0 is allowed." },
		{ 30.1, 0, false, "30.1 ft long; 30.0 is allowed." },
		{ -10.1, 0, false, "10.1 ft short; 10.0 is allowed." },
		{ 0, 10.0, true, "10.0 ft right; 10.0 is allowed." },
		{ 0, 10.1, false, "10.1 ft right; 10.0 is allowed." },
		{ 0, -10.1, false, "10.1 ft left; 10.0 is allowed." },
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct hold_points h = { 0 };
		struct sb_store *store = opened("yes");
		follow(store, 40);
		size_t before = sb_nonconformances_open(sb_store_job(store), sb_store_solution(store));
		assert_int_equal(before, 0);
		must(survey(store, cases[i].past, cases[i].right, 0.4));
		const struct hold_point *p = point(store, &h, "The exit lies");
		assert_int_equal(p->done, cases[i].passes);
		assert_string_equal(p->state, cases[i].words);
		assert_near(h.exit.miss.long_m / 0.3048, cases[i].past, 1e-9);
		assert_near(h.exit.miss.right_m / 0.3048, cases[i].right, 1e-9);
		assert_near(h.exit.miss.high_m / 0.3048, 0.4, 1e-9);
		assert_int_equal(sb_nonconformances_open(sb_store_job(store), sb_store_solution(store)),
			!cases[i].passes);
		/* solved from the start it is the same */
		book_equals_file(store);
		sb_acceptance_clear(&h);
		sb_store_close(store);
	}
}

static void the_checklist_is_ticked_by_name(void **state)
{
	(void)state;
	struct hold_points h = { 0 };
	struct sb_store *store = opened("yes");
	assert_false(point(store, &h, "As-built")->done);
	refused(sb_store_tick(store, "Bo", 3, true, "", "", &book_err), SB_MISSING);
	refused(sb_store_tick(store, "Bo", 1, false, "", "why", &book_err), SB_STATE);
	must(sb_store_tick(store, "Bo", 1, true, "drawing 7", "", &book_err));
	assert_true(point(store, &h, "As-built")->done);
	book_equals_file(store);
	assert_string_equal(point(store, &h, "As-built")->state, "point 1 done, reference drawing 7 (Bo)");
	refused(sb_store_tick(store, "Bo", 1, true, "", "", &book_err), SB_STATE);
	refused(sb_store_tick(store, "Bo", 1, false, "", "", &book_err), SB_RANGE);
	must(sb_store_tick(store, "Bo", 1, false, "", "the wrong sheet", &book_err));
	assert_false(point(store, &h, "As-built")->done);
	sb_acceptance_clear(&h);
	sb_store_close(store);
	book_verify(0);
}

static int sign(struct sb_store *store)
{
	return sb_store_sign(
		store, "B. Hale", "engineer of the owner", "The pilot is accepted for reaming.", &book_err);
}

static void the_pilot_is_accepted_only_when_nothing_is_missing(void **state)
{
	(void)state;
	struct sb_store *store = opened("yes");
	follow(store, 38);
	refused(sign(store), SB_STATE);
	assert_non_null(strstr(book_err.text, "4 points are missing. The bore is out: "));
	follow(store, 40);
	refused(sign(store), SB_STATE);
	assert_non_null(strstr(book_err.text, "3 points are missing. The exit is surveyed from land: "));
	must(survey(store, 0.3, 31, 0.1)); /* outside its window */
	must(sb_store_tick(store, "Bo", 1, true, "", "", &book_err));
	must(sb_store_tick(store, "Bo", 2, true, "", "", &book_err));
	refused(sign(store), SB_STATE);
	assert_non_null(strstr(book_err.text, "1 point is missing. No non-conformance is open: 1 open"));
	must(sb_store_accept(store, "B. Hale", 1, "C-9", "inside the right of way", &book_err));
	refused(sb_store_sign(store, "B. Hale", "", "yes", &book_err), SB_RANGE);
	refused(sb_store_sign(store, "B. Hale", "engineer", "", &book_err), SB_RANGE);
	must(sign(store));
	struct sb_str text = { 0 };
	sb_acceptance_say(sb_store_job(store), &text);
	assert_non_null(strstr(sb_str_get(&text), "Accepted by B. Hale, engineer of the owner, "));
	assert_non_null(strstr(sb_str_get(&text), ": The pilot is accepted for reaming."));
	sb_str_clear(&text);
	sb_store_close(store);
	book_verify(0);
}

static struct sb_store *accepted(void)
{
	struct sb_store *store = opened("no");

	follow(store, 40);
	must(sb_store_tick(store, "Bo", 1, true, "", "", &book_err));
	must(sb_store_tick(store, "Bo", 2, true, "", "", &book_err));
	must(sign(store));
	return store;
}

static void an_accepted_pilot_is_closed_until_somebody_opens_it_again(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	struct reading r = book_reading(store, "90", "90");
	struct repeat again = { .way = WAY_OUT };
	sb_copy(r.reason, sizeof r.reason, "late");
	refused(sb_store_log(store, "Ida", &r, &book_err), SB_STATE);
	assert_non_null(strstr(book_err.text, "B. Hale accepted the pilot: it is closed."));
	refused(sb_store_correct(store, "Ida", 1, &r, &book_err), SB_STATE);
	refused(sb_store_withdraw(store, "Ida", 3, "why", &book_err), SB_STATE);
	refused(survey(store, 0, 0, 0), SB_STATE);
	refused(sb_store_repeat(store, "Ida", &again, "", &book_err), SB_STATE);
	refused(sb_store_tick(store, "Bo", 1, false, "", "why", &book_err), SB_STATE);
	refused(sign(store), SB_STATE);
	/* words and shifts go on */
	must(sb_store_note(store, "Ida", "reamer arrives tomorrow", &book_err));
	must(sb_store_shift_begin(store, "Ida", "night crew", &book_err));
	sb_store_close(store);
	store = book_open(STORE_WRITE);
	refused(sb_store_log(store, "Ida", &r, &book_err), SB_STATE);
	refused(sb_store_reopen(store, "B. Hale", "", &book_err), SB_RANGE);
	must(sb_store_reopen(store, "B. Hale", "the exit has to be surveyed again", &book_err));
	must(sb_store_withdraw(store, "Ida", 38, "redrill the end", &book_err));
	refused(sb_store_reopen(store, "B. Hale", "again", &book_err), SB_STATE);
	sb_store_close(store);
	book_verify(0);
}

static void warnings_keep_nobody_from_it_unless_the_contract_says_so(void **state)
{
	(void)state;
	struct hold_points h = { 0 };
	struct sb_store *store = opened("no");
	follow(store, 40);
	assert_false(point(store, &h, "Every warning")->asked);
	sb_acceptance_clear(&h);
	sb_store_close(store);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_breach_opens_one_and_only_breaches_do),
		cmocka_unit_test(the_engineer_accepts_one_with_a_reference_and_takes_it_back),
		cmocka_unit_test(what_has_grown_since_it_was_accepted_is_open_again),
		cmocka_unit_test(a_new_leg_closes_what_it_took_out_and_nothing_else),
		cmocka_unit_test(the_exit_is_judged_by_land_survey),
		cmocka_unit_test(the_checklist_is_ticked_by_name),
		cmocka_unit_test(the_pilot_is_accepted_only_when_nothing_is_missing),
		cmocka_unit_test(an_accepted_pilot_is_closed_until_somebody_opens_it_again),
		cmocka_unit_test(warnings_keep_nobody_from_it_unless_the_contract_says_so),
	};
	return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}

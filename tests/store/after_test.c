/* Entries beside and after the pilot: each comes back as it was entered, may be entered when the pilot is
 * closed, is struck out by a later act and never erased, and opens its warnings in the order of time. */
#include "model/after.h"
#include "store/stranger.h"
#include "support/accept.h"

#include "base/mem.h"

#define NUMBER(text) \
	{ \
		0, text \
	}

static struct sb_store *opened(void)
{
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 5);
	return store;
}

static struct sb_store *accepted(void)
{
	struct sb_store *store = opened();

	must(accept_as_it_is(store, &book_err));
	return store;
}

static int enter(struct sb_store *store, enum act_kind kind, const void *fact)
{
	return sb_store_enter(store, "Ida", kind, fact, "entered", "so it was", &book_err);
}

static int64_t last_act(const struct sb_store *store)
{
	const struct job *job = sb_store_job(store);

	return job->acts[job->act_count - 1].id;
}

static const struct fluid_event release = { .kind = FLUID_RELEASE,
	.station = NUMBER("100.5"),
	.volume = NUMBER("40"),
	.place = "left bank",
	.receiving = "water" };
static const struct fluid_event record = { .kind = FLUID_RECORD, .told = "river authority, 14:10", .of = 1 };
static const struct pass ream = { .diameter = NUMBER("24.0"), .tool = "fly cutter" };
static const struct pass_joint through = { .pass = 1,
	.joint = 4,
	.pull = NUMBER("21000"),
	.started = "23:50",
	.ended = "00:15",
	.returns = RETURNS_PARTIAL };
static const struct pass_end ended = { .pass = 1 };
static const struct pipe first = { .joint = 1, .length = NUMBER("40.15"), .mark = "H 7731" };
static const struct pipe second = { .joint = 2, .length = NUMBER("40.22") };
static const struct pipe_record weld = { .kind = RECORD_WELD, .joint = 1, .outcome = OUTCOME_BAD };
static const struct pipe_record test = {
	.kind = RECORD_TEST, .pressure = NUMBER("1500"), .hours = NUMBER("8"), .reference = "T-4"
};
static const struct pull_begin begun = { .missing = "weld 1 is bad" };
static const struct pull_joint out = { .joint = 5, .force = NUMBER("91000") };
static const struct pull_end scratched = {
	.extra = NUMBER("12"), .coating = COATING_SCRATCHED, .survey = "S-9"
};

static void enter_all(struct sb_store *store)
{
	must(enter(store, ACT_RETURNS, &release));
	must(enter(store, ACT_RETURNS, &record));
	must(enter(store, ACT_PASS, &ream));
	must(enter(store, ACT_PASS_JOINT, &through));
	must(enter(store, ACT_PASS_END, &ended));
	must(enter(store, ACT_PIPE, &first));
	must(enter(store, ACT_PIPE, &second));
	must(enter(store, ACT_PIPE_RECORD, &weld));
	must(enter(store, ACT_PIPE_RECORD, &test));
	must(enter(store, ACT_PULL, &begun));
	must(enter(store, ACT_PULL_JOINT, &out));
	must(enter(store, ACT_PULL_END, &scratched));
}

static void every_entry_comes_back_as_it_was_entered(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	enter_all(store);
	book_equals_file(store);
	const struct job *job = sb_store_job(store);
	assert_string_equal(job->pass_joints[0].started, "23:50");
	assert_string_equal(job->fluid_events[1].told, "river authority, 14:10");
	assert_int_equal(job->pass_joints[0].returns, RETURNS_PARTIAL);
	assert_near(job->pull_joints[0].force.value, 91000, 0);
	assert_string_equal(job->pull_ends[0].fact.words, "entered: so it was");
	sb_store_close(store);
	book_verify(0);
	assert_string_equal(stranger_reads("SELECT pass || kind || to_side || joint || returns FROM opening"),
		"1reamentry4partial");
	assert_string_equal(stranger_reads("SELECT joint || ' ' || force FROM pullback"), "5 91000");
}

static void what_an_entry_names_must_be_there(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	size_t acts = sb_store_job(store)->act_count;
	refused(enter(store, ACT_RETURNS, &record), SB_MISSING);
	refused(enter(store, ACT_PASS_JOINT, &through), SB_MISSING);
	refused(enter(store, ACT_PASS_END, &ended), SB_MISSING);
	refused(enter(store, ACT_PULL_JOINT, &out), SB_STATE);
	refused(enter(store, ACT_PULL_END, &scratched), SB_STATE);
	assert_int_equal(sb_store_job(store)->act_count, acts);
	must(enter(store, ACT_PASS, &ream));
	struct pass_joint beyond = through;
	beyond.joint = 6;
	refused(enter(store, ACT_PASS_JOINT, &beyond), SB_RANGE);
	assert_non_null(strstr(book_err.text, "joints 1 to 5"));
	struct pass_joint clock = through;
	sb_copy(clock.ended, sizeof clock.ended, "24:1");
	refused(enter(store, ACT_PASS_JOINT, &clock), SB_FORMAT);
	must(enter(store, ACT_PASS_END, &ended));
	refused(enter(store, ACT_PASS_JOINT, &through), SB_STATE);
	must(enter(store, ACT_PULL, &begun));
	refused(enter(store, ACT_PULL, &begun), SB_STATE);
	book_equals_file(store);
	sb_store_close(store);
}

static void what_is_struck_out_stays_readable_and_counts_for_nothing(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	must(enter(store, ACT_PASS, &ream));
	int64_t pass = last_act(store);
	must(enter(store, ACT_PASS_JOINT, &through));
	int64_t joint = last_act(store);
	refused(sb_store_strike(store, "Ida", pass, "wrong tool", &book_err), SB_STATE);
	char number[40];
	snprintf(number, sizeof number, "while entry %lld", (long long)joint);
	assert_non_null(strstr(book_err.text, number));
	refused(sb_store_strike(store, "Ida", joint, "", &book_err), SB_RANGE);
	must(sb_store_strike(store, "Ida", joint, "it was joint 5", &book_err));
	assert_true(sb_store_job(store)->pass_joints[0].struck);
	refused(sb_store_strike(store, "Ida", joint, "again", &book_err), SB_STATE);
	must(sb_store_strike(store, "Ida", pass, "wrong tool", &book_err));
	refused(enter(store, ACT_PASS_JOINT, &through), SB_MISSING);
	book_equals_file(store);
	refused(sb_store_strike(store, "Ida", 2, "a reading", &book_err), SB_STATE);
	refused(sb_store_strike(store, "Ida", 999, "nothing", &book_err), SB_MISSING);
	sb_store_close(store);
	book_verify(0);
	assert_string_equal(stranger_reads("SELECT count(*) FROM pass_joint"), "1");
	assert_string_equal(stranger_reads("SELECT count(*) FROM opening"), "0");
}

/* Each of them stands under another: only the newest of a heap can go. */
static void heaps_are_struck_out_from_the_top(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	enter_all(store);
	const struct job *job = sb_store_job(store);
	size_t count = job->act_count, first_entry = count - 12;
	int64_t pass = job->passes[0].fact.act, pull = job->pull_begins[0].fact.act;
	refused(sb_store_strike(store, "Ida", pass, "under a heap", &book_err), SB_STATE);
	refused(sb_store_strike(store, "Ida", pull, "under a heap", &book_err), SB_STATE);
	for (size_t i = count; i-- > first_entry;)
		must(sb_store_strike(store, "Ida", job->acts[i].id, "all of it", &book_err));
	for (size_t i = first_entry; i < count; i++)
		assert_false(sb_after_strikable(job, job->acts[i].id));
	book_equals_file(store);
	sb_store_close(store);
}

static size_t warned(const struct sb_store *store, enum warning_kind kind, enum level level)
{
	const struct solution *s = sb_store_solution(store);
	size_t n = 0;

	for (size_t i = 0; i < s->warning_count; i++)
		n += s->warnings[i].kind == kind && s->warnings[i].level == level && s->warnings[i].open;
	return n;
}

static void an_entry_opens_its_warning_and_striking_it_out_takes_it_back(void **state)
{
	(void)state;
	struct sb_store *store = opened();
	must(enter(store, ACT_PULL, &begun));
	must(enter(store, ACT_PULL_END, &scratched));
	assert_int_equal(warned(store, WARNING_COATING, LEVEL_WATCH), 1);
	must(sb_store_strike(store, "Ida", last_act(store), "it was worse", &book_err));
	assert_int_equal(warned(store, WARNING_COATING, LEVEL_WATCH), 0);
	struct pull_end damaged = scratched;
	damaged.coating = COATING_DAMAGED;
	must(enter(store, ACT_PULL_END, &damaged));
	assert_int_equal(warned(store, WARNING_COATING, LEVEL_BREACH), 1);
	assert_int_equal(sb_store_solution(store)->level, LEVEL_BREACH);
	/* neither pulling joints back nor drilling on undoes what was seen */
	must(sb_store_withdraw(store, "Ida", 3, "to see", &book_err));
	assert_int_equal(warned(store, WARNING_COATING, LEVEL_BREACH), 1);
	must(book_log(store, "80", "90"));
	assert_int_equal(warned(store, WARNING_COATING, LEVEL_BREACH), 1);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void times_and_stations_that_cannot_well_be_need_a_reason(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	struct pass_joint j = through;
	struct fluid_event far = { .kind = FLUID_PARTIAL, .station = sb_number_of(99999, 0) };

	must(enter(store, ACT_PASS, &ream));
	j.joint = 5;
	sb_copy(j.started, sizeof j.started, "07:10");
	sb_copy(j.ended, sizeof j.ended, "06:10");
	refused(sb_store_enter(store, "Ida", ACT_PASS_JOINT, &j, "entered", "", &book_err), SB_STATE);
	assert_non_null(strstr(book_err.text, "From 07:10 to 06:10 joint 5 takes 23 h 0 min."));
	must(sb_store_enter(store, "Ida", ACT_PASS_JOINT, &j, "entered", "stuck all day", &book_err));
	refused(sb_store_enter(store, "Ida", ACT_RETURNS, &far, "entered", " ", &book_err), SB_RANGE);
	assert_non_null(strstr(book_err.text, "Station 99999 lies beyond the crossing"));
	must(sb_store_enter(store, "Ida", ACT_RETURNS, &far, "entered", "the neighbour's well", &book_err));
	book_equals_file(store);
	sb_store_close(store);
}

/* Nobody says the station at three in the morning: the tool says it. */
static void what_the_fluid_did_lies_at_the_tool(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	static const struct fluid_event partial = { .kind = FLUID_PARTIAL };
	const struct job *job = sb_store_job(store);
	struct pass_joint j = through;

	must(enter(store, ACT_RETURNS, &partial)); /* nothing runs: the bore's end */
	must(enter(store, ACT_PASS, &ream));
	for (j.joint = 5; j.joint >= 4; j.joint--)
		must(enter(store, ACT_PASS_JOINT, &j));
	must(enter(store, ACT_RETURNS, &partial)); /* joint 3 is being opened */
	for (; j.joint >= 1; j.joint--)
		must(enter(store, ACT_PASS_JOINT, &j));
	must(enter(store, ACT_RETURNS, &partial)); /* out at the rig */
	must(enter(store, ACT_PASS_END, &ended));
	must(enter(store, ACT_PULL, &begun));
	must(enter(store, ACT_PULL_JOINT, &out));
	must(enter(store, ACT_RETURNS, &partial));
	static const int joints[] = { 5, 3, 1, 4 };
	assert_int_equal(job->fluid_event_count, 4);
	for (size_t i = 0; i < 4; i++)
		assert_int_equal(job->fluid_events[i].fact.joint, joints[i]);
	book_equals_file(store);
	sb_store_close(store);
}

static const struct warning *opening_warning(const struct sb_store *store)
{
	const struct solution *s = sb_store_solution(store);

	assert_true(s->open[WARNING_OPENING] >= 0);
	return &s->warnings[s->open[WARNING_OPENING]];
}

/* An episode of entries goes on while anything is wrong; what was acknowledged was what it said then. */
static void what_is_said_after_an_acknowledgement_waits_for_another(void **state)
{
	(void)state;
	struct sb_store *store = accepted();
	must(enter(store, ACT_PASS, &ream));
	must(enter(store, ACT_PASS_END, &ended));
	const struct solution *s = sb_store_solution(store);
	assert_int_equal(opening_warning(store)->level, LEVEL_WATCH);
	must(sb_store_acknowledge(
		store, "Ida", (size_t)s->open[WARNING_OPENING], "cutters worn, goes on tomorrow", &book_err));
	assert_true(opening_warning(store)->acknowledged);
	struct pass again = ream;
	must(enter(store, ACT_PASS, &again)); /* the same size goes on: nothing new is wrong */
	assert_true(opening_warning(store)->acknowledged);
	struct pass_end second_end = { .pass = 2 };
	must(enter(store, ACT_PASS_END, &second_end));
	assert_false(opening_warning(store)->acknowledged);
	assert_non_null(strstr(opening_warning(store)->text, "Pass 2 was ended"));
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_entry_comes_back_as_it_was_entered),
		cmocka_unit_test(what_an_entry_names_must_be_there),
		cmocka_unit_test(what_is_struck_out_stays_readable_and_counts_for_nothing),
		cmocka_unit_test(times_and_stations_that_cannot_well_be_need_a_reason),
		cmocka_unit_test(what_the_fluid_did_lies_at_the_tool),
		cmocka_unit_test(heaps_are_struck_out_from_the_top),
		cmocka_unit_test(what_is_said_after_an_acknowledgement_waits_for_another),
		cmocka_unit_test(an_entry_opens_its_warning_and_striking_it_out_takes_it_back),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}

/* A disk that fails: the nth write, sync, open, delete or lock, once and for good, for every n until the act
 * succeeds. Whatever happens nothing is half done, the file opens and verifies, and memory equals disk.
 */
#include "store/book.h"
#include "support/fault.h"

#include <signal.h>
#include <sys/resource.h>

static const struct gate failing = { .schema = &sb_schema, .vfs = FAULT_VFS, .wait_ms = 10 };

typedef int act_call(struct sb_store *store);

static char *image; /* the job file as every trial finds it */
static size_t image_size;

static int act_log(struct sb_store *store)
{
	return book_log(store, "80.3", "90.1");
}

static int act_correct(struct sb_store *store)
{
	struct reading r = book_reading(store, "80.2", "90.4");

	sb_copy(r.reason, sizeof r.reason, "read again");
	return sb_store_correct(store, "Ida", sb_job_joint(sb_store_job(store), 2)->id, &r, &book_err);
}

static int act_withdraw(struct sb_store *store)
{
	return sb_store_withdraw(store, "Ida", 3, "off line", &book_err);
}

static int act_acknowledge(struct sb_store *store)
{
	return sb_store_acknowledge(store, "Ida", 0, "seen", &book_err);
}

static int act_note(struct sb_store *store)
{
	return sb_store_note(store, "Ida", "changed the bit", &book_err);
}

static struct fix coil_at(const char *depth, const char *offset)
{
	struct fix f = { .kind = FIX_COIL };

	sb_number_parse(depth, &f.depth, NULL);
	sb_number_parse(offset, &f.offset, NULL);
	sb_number_parse("0.5", &f.sigma_across, NULL);
	return f;
}

static int act_change(struct sb_store *store)
{
	const struct change two[] = {
		{ .section = "tool", .key = "azimuth_correction", .value = "0.4", .from_joint = 2 },
		{ .section = "tool", .key = "sensor_to_bit", .value = "12", .from_joint = 5 },
	};

	return sb_store_change(store, "Ida", two, 2, "another tool", &book_err);
}

static int act_adjust(struct sb_store *store)
{
	struct adjustment a = { .fixes = "1" };

	sb_number_parse("-0.35", &a.azimuth, NULL);
	return sb_store_adjust(store, "Ida", &a, "the coil says so", &book_err);
}

static int setup(void **state)
{
	(void)state;
	fault_register();
	book_in_memory();
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	book_drill(store, 4);
	must(book_log(store, "60", "110"));
	assert_true(sb_store_solution(store)->warning_count > 0);
	struct fix coil = coil_at("93", "0.8");
	must(sb_store_fix(store, "Ida", &coil, NULL, &book_err));
	sb_store_close(store);
	FILE *f = fopen(book_path(), "rb");
	assert_non_null(f);
	image = malloc(1 << 20);
	image_size = fread(image, 1, 1 << 20, f);
	fclose(f);
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	free(image);
	return 0;
}

static struct sb_store *open_failing(void)
{
	struct sb_store *store;

	scratch_empty();
	scratch_bytes("tern.bore", image, image_size);
	must(sb_handle_open(book_path(), true, "Ida", &failing, &store, &book_err));
	return store;
}

/* A store that could not read its file holds what it had before; once the disk works it reads again. */
static void find_again(struct sb_store *store)
{
	bool changed = false;
	struct sb_store *file = book_open(STORE_READ);
	bool not_in = sb_store_job(file)->act_count == sb_store_job(store)->act_count;

	sb_store_close(file);
	if (not_in)
		book_equals_file(store);
	assert_null(store->db);
	if (sb_store_refresh(store, &changed, &book_err))
		assert_int_equal(book_err.code, SB_STATE); /* "is in the file after all" */
	assert_true(changed);
	assert_non_null(store->db);
}

/* One fault in one act. Returns whether it was reached. */
static bool trial(act_call *act, enum fault_kind kind, int nth, bool for_good, bool late)
{
	struct sb_store *store = open_failing();
	const struct job *job = sb_store_job(store);
	size_t before = job->act_count;

	book_err = (struct sb_err){ 0 };
	fault_arm(kind, nth, for_good, late);
	int status = act(store);
	bool fired = fault_disarm();
	if (status)
		assert_true(book_err.code != SB_OK && strlen(book_err.text) > 20);
	if (status && kind == FAULT_FULL)
		assert_int_equal(book_err.code, SB_FULL);
	assert_int_equal(job->act_count, before + (status == 0));
	if (store->db == NULL) {
		assert_int_not_equal(status, 0);
		find_again(store);
	}
	book_equals_file(store);
	if (job->act_count == before)
		must(act(store));
	assert_int_equal(job->act_count, before + 1);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
	return fired;
}

static void try_all(act_call *act, enum fault_kind kind, bool for_good, bool late)
{
	int n = 1;

	while (trial(act, kind, n, for_good, late))
		n++;
	if (n == 1)
		print_error("no %s was reached\n", fault_name(kind));
	assert_true(n > 1);
}

/* The four ways of failing; a full disk or a file that does not open is the same early and late. */
static int ways(enum fault_kind kind)
{
	return kind == FAULT_FULL || kind == FAULT_OPEN ? 2 : 4;
}

static void a_joint_is_logged_whole_or_not_at_all(void **state)
{
	(void)state;
	for (int kind = 0; kind < FAULT_KINDS; kind++)
		for (int way = 0; way < ways((enum fault_kind)kind); way++)
			try_all(act_log, (enum fault_kind)kind, way & 1, way & 2);
}

static void a_correction_is_made_whole_or_not_at_all(void **state)
{
	(void)state;
	for (int kind = 0; kind < FAULT_KINDS; kind++)
		try_all(act_correct, (enum fault_kind)kind, kind & 1, false);
}

static void the_other_acts_are_done_whole_or_not_at_all(void **state)
{
	(void)state;
	static act_call *const acts[] = { act_withdraw, act_acknowledge, act_note, act_change, act_adjust };
	for (size_t i = 0; i < sizeof acts / sizeof *acts; i++)
		for (int kind = 0; kind < FAULT_KINDS; kind++)
			try_all(acts[i], (enum fault_kind)kind, !(kind & 1), true);
}

/* The last step of a commit is the removal of the journal; when it was removed and an error is reported all
 * the same, the act is in the file. */
static void a_commit_that_happened_but_reported_failure_is_found_and_not_repeated(void **state)
{
	(void)state;
	struct sb_store *store = open_failing();
	size_t before = sb_store_job(store)->reading_count;
	fault_arm(FAULT_DELETE, 1, false, true);
	assert_int_equal(act_log(store), 0);
	assert_true(fault_disarm());
	assert_int_equal(sb_store_job(store)->reading_count, before + 1);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void an_act_of_which_nothing_is_known_is_looked_for_before_the_next_one(void **state)
{
	(void)state;
	struct sb_store *store = open_failing();
	size_t before = sb_store_job(store)->reading_count;
	/* The journal is gone, so the joint is in; and then the file cannot be opened again. */
	fault_arm(FAULT_DELETE, 1, false, true);
	struct gate gone = { .schema = &sb_schema, .vfs = "no such vfs" };
	store->gate = gone;
	assert_int_equal(act_log(store), -1);
	fault_disarm();
	assert_non_null(strstr(book_err.text, "not known"));
	assert_int_equal(sb_store_job(store)->reading_count, before);
	store->gate = failing;
	refused(act_log(store), SB_STATE);
	assert_non_null(strstr(book_err.text, "after all"));
	assert_int_equal(sb_store_job(store)->reading_count, before + 1);
	book_equals_file(store);
	must(act_log(store));
	assert_int_equal(sb_store_job(store)->reading_count, before + 2);
	sb_store_close(store);
	book_verify(0);
}

static bool trial_create(enum fault_kind kind, int nth, bool for_good, bool late)
{
	struct job job;

	scratch_empty();
	jobs_curved(&job);
	book_err = (struct sb_err){ 0 };
	fault_arm(kind, nth, for_good, late);
	int status = sb_handle_create(book_path(), &job, "Ida", &failing, &book_err);
	bool fired = fault_disarm();
	sb_job_clear(&job);
	assert_int_equal(scratch_count(), status == 0);
	if (status == 0)
		book_verify(0);
	else
		assert_true(strlen(book_err.text) > 20);
	return fired;
}

static void making_a_job_leaves_a_whole_file_or_none(void **state)
{
	(void)state;
	for (int kind = 0; kind < FAULT_KINDS; kind++)
		for (int way = 0; way < ways((enum fault_kind)kind); way++) {
			int n = 1;
			while (trial_create((enum fault_kind)kind, n, way & 1, way & 2))
				n++;
			assert_true(n > 1);
		}
}

static int writes_of_a_joint(struct sb_store *store)
{
	fault_arm(FAULT_WRITE, 1000000, false, false);
	must(act_log(store));
	fault_disarm();
	return fault_seen();
}

/* A page more here and there where a table's page is full, or a level more in its tree; never more with every
 * joint. */
static void a_joint_more_writes_the_same_however_many_there_are(void **state)
{
	(void)state;
	struct sb_store *store = open_failing();
	int few = 0, many = 0;
	for (int i = 0; i < 20; i++)
		few += writes_of_a_joint(store);
	book_drill(store, 600);
	for (int i = 0; i < 20; i++)
		many += writes_of_a_joint(store);
	assert_true(few > 20 * 10);
	assert_true(many < few * 5 / 4);
	sb_store_close(store);
	book_verify(0);
}

/* A limit on file sizes stands for a disk that is full: the real file system refuses. */
static void on_a_full_disk_nothing_is_lost_and_reading_goes_on(void **state)
{
	(void)state;
	scratch_empty();
	scratch_bytes("tern.bore", image, image_size);
	struct sb_store *store = book_open(STORE_WRITE);
	struct rlimit old, limit;
	signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &old), 0);
	limit = old;
	limit.rlim_cur = image_size + 20000;
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
	int logged = 0, status;
	size_t before = sb_store_job(store)->reading_count;
	while ((status = act_log(store)) == 0 && logged < 10000)
		logged++;
	assert_int_equal(status, -1);
	assert_int_equal(book_err.code, SB_FULL);
	assert_int_equal(sb_store_job(store)->reading_count, before + (size_t)logged);
	book_equals_file(store);
	refused(act_log(store), SB_FULL);
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &old), 0);
	must(act_log(store));
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_joint_is_logged_whole_or_not_at_all),
		cmocka_unit_test(a_correction_is_made_whole_or_not_at_all),
		cmocka_unit_test(the_other_acts_are_done_whole_or_not_at_all),
		cmocka_unit_test(a_commit_that_happened_but_reported_failure_is_found_and_not_repeated),
		cmocka_unit_test(an_act_of_which_nothing_is_known_is_looked_for_before_the_next_one),
		cmocka_unit_test(making_a_job_leaves_a_whole_file_or_none),
		cmocka_unit_test(a_joint_more_writes_the_same_however_many_there_are),
		cmocka_unit_test(on_a_full_disk_nothing_is_lost_and_reading_goes_on),
	};

	return cmocka_run_group_tests_name(__FILE__, tests, setup, teardown) == 0 ? 0 : 1;
}

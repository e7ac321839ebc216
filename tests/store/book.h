/* A job file for a test, in a folder that goes away with it, and what every test asks of one. */
#ifndef TESTS_STORE_BOOK_H
#define TESTS_STORE_BOOK_H

#include "base/str.h"
#include "io/scratch.h"
#include "model/fact.h"
#include "store/backup.h"
#include "store/handle.h"
#include "store/store.h"
#include "support/jobs.h"
#include "support/near.h"

/* Ends the test with the words when `call` fails. */
#define must(call) must_check((call), &book_err, #call, __FILE__, __LINE__)
/* The call fails, with this code. */
#define refused(call, wanted) \
	do { \
		book_err = (struct sb_err){ 0 }; \
		assert_int_equal((call), -1); \
		if (book_err.code != (wanted)) \
			print_error("%s\n", book_err.text); \
		assert_int_equal(book_err.code, (wanted)); \
		assert_true(strlen(book_err.text) > 10); \
	} while (0)

static struct sb_err book_err;

static inline void must_check(
	int status, const struct sb_err *err, const char *call, const char *file, int line)
{
	if (status >= 0)
		return;
	print_error("%s: %s\n", call, err->text);
	_fail(file, line);
}

/* For tests that simulate the disk and make thousands of commits: the folder is in memory, where syncing
 * costs nothing. Where there is no such place it is where it is for all. Call first. */
static inline void book_in_memory(void)
{
	snprintf(scratch_folder, sizeof scratch_folder, "/dev/shm/sagbend-test-XXXXXX");
	if (mkdtemp(scratch_folder))
		atexit(scratch_remove);
	else
		scratch_folder[0] = '\0';
}

/* The path of the test's job file. */
static inline const char *book_path(void)
{
	static char path[PATH_MAX];

	sb_copy(path, sizeof path, scratch("tern.bore"));
	return path;
}

/* Makes the file afresh from one of the ready jobs. */
static inline const char *book_new(void (*ready)(struct job *))
{
	struct job job;

	scratch("");
	scratch_empty();
	ready(&job);
	must(sb_store_create(book_path(), &job, "Ida", &book_err));
	sb_job_clear(&job);
	return book_path();
}

static inline struct sb_store *book_open(enum store_mode mode)
{
	struct sb_store *store;

	must(sb_store_open(book_path(), mode, "Ida", &store, &book_err));
	return store;
}

static inline struct reading book_reading(
	const struct sb_store *store, const char *inclination, const char *azimuth)
{
	return jobs_reading(sb_store_job(store), "", inclination, azimuth);
}

static inline int book_log(struct sb_store *store, const char *inclination, const char *azimuth)
{
	struct reading r = book_reading(store, inclination, azimuth);

	return sb_store_log(store, "Ida", &r, &book_err);
}

/* So many joints that wander a little. */
static inline void book_drill(struct sb_store *store, int joints)
{
	for (int i = 0; i < joints; i++) {
		char inclination[16], azimuth[16];
		snprintf(inclination, sizeof inclination, "%.1f", 80 + (i * 37 % 11) * 0.1);
		snprintf(azimuth, sizeof azimuth, "%.1f", 90 + (i * 53 % 7) * 0.1);
		must(book_log(store, inclination, azimuth));
	}
}

/* The damages that verify finds; its report is printed when there are not as many as wanted. */
static inline void book_verify(size_t damages)
{
	struct verify_report report = { 0 };

	must(sb_store_verify(book_path(), &report, &book_err));
	if (report.damages != damages)
		print_error("%s", sb_str_get(&report.text));
	assert_int_equal(report.damages, damages);
	sb_verify_report_clear(&report);
}

static inline void book_same_fact(const struct fact *x, const struct fact *y)
{
	assert_true(x->id == y->id && x->act == y->act && x->at_ms == y->at_ms && x->leg == y->leg &&
		x->joint == y->joint);
	assert_string_equal(x->who, y->who);
	assert_string_equal(x->words, y->words);
}

static inline void book_same_sort(const struct fact_sort *sort, const struct job *a, const struct job *b)
{
	assert_int_equal(sb_fact_count(sort, a), sb_fact_count(sort, b));
	for (size_t i = 0; i < sb_fact_count(sort, a); i++) {
		const struct fact *x = sb_fact_row(sort, a, i), *y = sb_fact_row(sort, b, i);
		book_same_fact(x, y);
		assert_int_equal(sb_fact_struck(sort, x), sb_fact_struck(sort, y));
		for (size_t c = 0; c < sort->column_count; c++) {
			char p[SB_NUMBER_TEXT], q[SB_NUMBER_TEXT];
			assert_string_equal(sb_fact_column(sort, c, x, p), sb_fact_column(sort, c, y, q));
		}
	}
}

/* The facts that come one with an act, and changes. */
static inline void book_same_place(const struct job *a, const struct job *b)
{
	assert_int_equal(a->change_count, b->change_count);
	for (size_t i = 0; i < a->change_count; i++) {
		const struct change *x = &a->changes[i], *y = &b->changes[i];
		book_same_fact(&x->fact, &y->fact);
		assert_true(sb_same(x->section, y->section) && sb_same(x->key, y->key) &&
			sb_same(x->value, y->value) && x->from_joint == y->from_joint);
	}
	for (size_t i = 0; i < sb_fact_sort_count; i++)
		book_same_sort(&sb_fact_sorts[i], a, b);
	for (size_t i = 0; i < a->fix_count; i++)
		assert_int_equal(a->fixes[i].used, b->fixes[i].used);
}

/* Whether two jobs hold the same log, and two solutions the same results, to the bit. */
static inline void book_same(
	const struct job *a, const struct solution *sa, const struct job *b, const struct solution *sb)
{
	assert_int_equal(a->reading_count, b->reading_count);
	assert_int_equal(a->act_count, b->act_count);
	assert_int_equal(a->leg_count, b->leg_count);
	assert_int_equal(a->acknowledgement_count, b->acknowledgement_count);
	assert_int_equal(a->in_ground, b->in_ground);
	for (size_t i = 0; i < a->reading_count; i++) {
		const struct reading *x = &a->readings[i], *y = &b->readings[i];
		assert_true(x->id == y->id && x->act == y->act && x->corrects == y->corrects &&
			x->leg == y->leg && x->joint == y->joint && x->at_ms == y->at_ms);
		assert_string_equal(x->who, y->who);
		assert_string_equal(x->reason, y->reason);
		for (size_t f = 0; f < sb_row_field_count; f++)
			assert_string_equal(sb_row_field_get(&sb_row_fields[f], x),
				sb_row_field_get(&sb_row_fields[f], y));
	}
	for (size_t i = 0; i < a->act_count; i++) {
		const struct act *x = &a->acts[i], *y = &b->acts[i];
		assert_true(x->id == y->id && x->kind == y->kind && x->at_ms == y->at_ms &&
			x->offset_min == y->offset_min && x->leg == y->leg && x->joint == y->joint &&
			x->subject == y->subject);
		assert_string_equal(x->who, y->who);
		assert_string_equal(x->text, y->text);
	}
	for (size_t i = 0; i < a->leg_count; i++) {
		const struct leg *x = &a->legs[i], *y = &b->legs[i];
		assert_true(x->number == y->number && x->to_joint == y->to_joint && x->act == y->act &&
			x->at_ms == y->at_ms);
		assert_string_equal(x->who, y->who);
		assert_string_equal(x->reason, y->reason);
	}
	for (size_t i = 0; i < a->acknowledgement_count; i++) {
		const struct acknowledgement *x = &a->acknowledgements[i], *y = &b->acknowledgements[i];
		assert_true(x->act == y->act && x->leg == y->leg && x->joint == y->joint &&
			x->to_joint == y->to_joint && x->level == y->level && x->at_ms == y->at_ms);
		assert_string_equal(x->kind, y->kind);
		assert_string_equal(x->who, y->who);
		assert_string_equal(x->reason, y->reason);
	}
	book_same_place(a, b);
	assert_int_equal(sa->path.count, sb->path.count);
	assert_int_equal(sa->path.old_count, sb->path.old_count);
	assert_int_equal(sa->warning_count, sb->warning_count);
	for (size_t i = 0; i < sa->path.count; i++) {
		const struct row *x = &sa->path.rows[i], *y = &sb->path.rows[i];
		assert_true(x->reading == y->reading && x->at.n == y->at.n && x->at.e == y->at.e &&
			x->at.u == y->at.u && x->radius_m == y->radius_m && x->use.share == y->use.share);
	}
	for (size_t i = 0; i < sa->warning_count; i++) {
		const struct warning *x = &sa->warnings[i], *y = &sb->warnings[i];
		assert_true(x->kind == y->kind && x->level == y->level && x->joint == y->joint &&
			x->last_joint == y->last_joint && x->open == y->open &&
			x->acknowledged == y->acknowledged && x->superseded == y->superseded);
		assert_string_equal(x->text, y->text);
	}
}

/* What the store lends equals what the file says, solved again. */
static inline void book_equals_file(const struct sb_store *store)
{
	struct sb_store *fresh = book_open(STORE_READ);
	char ours[65], theirs[65];

	book_same(
		sb_store_job(store), sb_store_solution(store), sb_store_job(fresh), sb_store_solution(fresh));
	sb_store_head(store, ours);
	sb_store_head(fresh, theirs);
	assert_string_equal(ours, theirs);
	sb_store_close(fresh);
}

#endif

/* The door to SQLite: bound by name, sticky failures, nested transactions, hardened connections. */
#include "base/sql.h"

#include "base/str.h"
#include "io/scratch.h"
#include "support/fault.h"
#include "support/near.h"

#include <math.h>

static struct sb_err err;

#define must(call) must_check((call), #call, __LINE__)

static void must_check(int status, const char *call, int line)
{
	if (status == 0)
		return;
	print_error("%s: %s\n", call, err.text);
	_fail(__FILE__, line);
}

static struct sb_sql *open_at(const char *path, enum sql_mode mode)
{
	struct sb_sql *db;

	must(sb_sql_open(path, &(struct sql_options){ .mode = mode, .busy_ms = 20 }, &db, &err));
	return db;
}

static struct sb_sql *open_memory(void)
{
	struct sb_sql *db = open_at(NULL, SQL_MEMORY);

	must(sb_sql_do(db, "CREATE TABLE t (id INTEGER PRIMARY KEY, name TEXT, size REAL) STRICT", &err));
	return db;
}

/* A new file with a table and a row in it. */
static const char *file_with_row(void)
{
	const char *path = scratch_bytes("a.db", "", 0);
	struct sb_sql *db = open_at(path, SQL_WRITE);

	must(sb_sql_durable(db, &err));
	must(sb_sql_script(db, "CREATE TABLE t (id INTEGER PRIMARY KEY); INSERT INTO t VALUES (1)", &err));
	sb_sql_close(db);
	return scratch("a.db");
}

static int64_t count(struct sb_sql *db)
{
	int64_t n = -1;

	must(sb_sql_number(db, "SELECT count(*) FROM t", &n, &err));
	return n;
}

static int insert(struct sb_sql *db, int64_t id, const char *name, double size)
{
	struct sb_query *q = sb_sql_kept(db, "INSERT INTO t (id, name, size) VALUES (:id, :name, :size)");

	sb_sql_bind_int(q, ":id", id);
	sb_sql_bind_text(q, ":name", name);
	sb_sql_bind_real(q, ":size", size);
	return sb_sql_run(q, &err);
}

static void what_is_bound_by_name_comes_back(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	must(insert(db, 7, "Büchse", 0.1));
	must(insert(db, 8, NULL, NAN));
	struct sb_query *q = sb_sql_prepare(db, "SELECT id, name, size FROM t ORDER BY id");
	assert_true(sb_sql_row(q));
	assert_int_equal(sb_sql_columns(q), 3);
	assert_string_equal(sb_sql_name(q, 1), "name");
	assert_int_equal(sb_sql_int(q, 0), 7);
	assert_string_equal(sb_sql_text(q, 1), "Büchse");
	assert_near(sb_sql_real(q, 2), 0.1, 0);
	assert_true(sb_sql_row(q));
	assert_int_equal(sb_sql_type(q, 1), SQL_NULL);
	assert_string_equal(sb_sql_text(q, 1), "");
	assert_int_equal(sb_sql_type(q, 2), SQL_NULL); /* NaN is not a number, so it is not stored as one */
	assert_false(sb_sql_row(q));
	must(sb_sql_done(q, &err));
	sb_sql_close(db);
}

static void a_failure_waits_in_the_statement_and_later_calls_do_nothing(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	struct sb_query *q = sb_sql_prepare(db, "SELECT name FROM nowhere WHERE id = :id");
	sb_sql_bind_int(q, ":id", 1);
	sb_sql_bind_text(q, ":any", "x");
	assert_false(sb_sql_row(q));
	assert_false(sb_sql_row(q));
	assert_int_equal(sb_sql_done(q, &err), -1);
	assert_int_equal(err.code, SB_DAMAGED);
	assert_non_null(strstr(err.text, "nowhere"));
	sb_sql_close(db);
}

static void a_kept_statement_that_failed_works_the_next_time(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	must(insert(db, 1, "a", 1));
	assert_int_equal(insert(db, 1, "b", 2), -1);
	assert_int_equal(err.code, SB_STATE);
	must(insert(db, 2, "b", 2));
	assert_int_equal(count(db), 2);
	sb_sql_close(db);
}

static void text_after_the_statement_is_a_failure(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	assert_int_equal(sb_sql_do(db, "SELECT 1; DROP TABLE t", &err), -1);
	assert_int_equal(count(db), 0);
	assert_int_equal(sb_sql_do(db, "", &err), -1);
	must(sb_sql_do(db, "SELECT 1;\n", &err));
	sb_sql_close(db);
}

static void a_kept_statement_in_use_gives_a_spare_that_is_finalised(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	must(insert(db, 1, "a", 1));
	must(insert(db, 2, "b", 1));
	static const char text[] = "SELECT id FROM t ORDER BY id";
	struct sb_query *outer = sb_sql_kept(db, text), *inner, *again;
	int seen = 0;
	while (sb_sql_row(outer)) {
		inner = sb_sql_kept(db, text);
		assert_ptr_not_equal(inner, outer);
		while (sb_sql_row(inner))
			seen++;
		must(sb_sql_done(inner, &err));
	}
	must(sb_sql_done(outer, &err));
	assert_int_equal(seen, 4);
	again = sb_sql_kept(db, text);
	assert_ptr_equal(again, outer);
	must(sb_sql_done(again, &err));
	sb_sql_close(db); /* asserts that no statement is left */
}

static void transactions_nest_and_only_the_outermost_counts(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	must(sb_sql_begin(db, "outer", &err));
	must(insert(db, 1, "a", 1));
	must(sb_sql_begin(db, "inner", &err));
	must(insert(db, 2, "b", 1));
	must(sb_sql_commit(db, &err));
	assert_true(sb_sql_within(db));
	sb_sql_rollback(db);
	assert_false(sb_sql_within(db));
	assert_int_equal(count(db), 0);
	sb_sql_close(db);
}

static void an_inner_rollback_takes_the_outer_commit_with_it(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	must(sb_sql_begin(db, "outer", &err));
	must(insert(db, 1, "a", 1));
	must(sb_sql_begin(db, "inner", &err));
	sb_sql_rollback(db);
	assert_int_equal(sb_sql_commit(db, &err), -1);
	assert_non_null(strstr(err.text, "outer"));
	assert_int_equal(count(db), 0);
	must(sb_sql_begin(db, "again", &err));
	must(insert(db, 1, "a", 1));
	must(sb_sql_commit(db, &err));
	assert_int_equal(count(db), 1);
	sb_sql_close(db);
}

static void a_write_that_somebody_else_holds_up_is_busy_not_silent(void **state)
{
	(void)state;
	const char *path = file_with_row();
	struct sb_sql *a = open_at(path, SQL_WRITE), *b = open_at(path, SQL_WRITE);
	must(sb_sql_begin(a, "a", &err));
	assert_int_equal(sb_sql_begin(b, "b", &err), -1);
	assert_int_equal(err.code, SB_BUSY);
	sb_sql_rollback(a);
	/* A reader holds up the commit; it fails and leaves no transaction behind. */
	must(sb_sql_begin_read(b, "read", &err));
	assert_int_equal(count(b), 1);
	must(sb_sql_begin(a, "a", &err));
	must(sb_sql_do(a, "INSERT INTO t VALUES (2)", &err));
	assert_int_equal(sb_sql_commit(a, &err), -1);
	assert_int_equal(err.code, SB_BUSY);
	assert_false(sb_sql_within(a));
	sb_sql_rollback(b);
	assert_int_equal(count(a), 1);
	sb_sql_close(a);
	sb_sql_close(b);
}

static void what_another_connection_commits_is_noticed(void **state)
{
	(void)state;
	const char *path = file_with_row();
	struct sb_sql *a = open_at(path, SQL_WRITE), *b = open_at(path, SQL_READ);
	int64_t first, second;
	must(sb_sql_changed(b, &first, &err));
	must(sb_sql_do(a, "INSERT INTO t VALUES (2)", &err));
	must(sb_sql_changed(b, &second, &err));
	assert_true(second != first);
	must(sb_sql_changed(b, &first, &err));
	assert_true(second == first);
	sb_sql_close(a);
	sb_sql_close(b);
}

static void a_file_moved_away_while_open_is_noticed(void **state)
{
	(void)state;
	const char *path = file_with_row();
	struct sb_sql *db = open_at(path, SQL_WRITE);
	assert_false(sb_sql_moved(db));
	assert_int_equal(rename(path, scratch("b.db")), 0);
	assert_true(sb_sql_moved(db));
	assert_int_equal(sb_sql_do(db, "INSERT INTO t VALUES (2)", &err), -1);
	assert_int_equal(err.code, SB_MISSING);
	sb_sql_close(db);
}

static int try_open(const char *path, enum sql_mode mode)
{
	struct sb_sql *db;

	return sb_sql_open(path, &(struct sql_options){ .mode = mode }, &db, &err);
}

static void only_a_file_is_opened_and_only_as_it_is_named(void **state)
{
	(void)state;
	file_with_row();
	assert_int_equal(try_open(scratch("none.db"), SQL_READ), -1);
	assert_int_equal(err.code, SB_MISSING);
	assert_int_equal(try_open("/tmp", SQL_READ), -1);
	assert_int_equal(err.code, SB_FOREIGN);
	assert_int_equal(mkfifo(scratch("pipe"), 0600), 0);
	assert_int_equal(try_open(scratch("pipe"), SQL_READ), -1);
	assert_int_equal(err.code, SB_FOREIGN);
	/* A name that begins like a URI is a name. */
	assert_int_equal(rename(scratch("a.db"), scratch("file:x?mode=memory")), 0);
	assert_int_equal(chdir(scratch_folder), 0);
	struct sb_sql *db = open_at("file:x?mode=memory", SQL_READ);
	assert_int_equal(count(db), 1);
	sb_sql_close(db);
}

static void nothing_is_written_through_a_reading_connection(void **state)
{
	(void)state;
	struct sb_sql *db = open_at(file_with_row(), SQL_READ);
	assert_int_equal(sb_sql_do(db, "INSERT INTO t VALUES (2)", &err), -1);
	assert_int_equal(err.code, SB_DENIED);
	sb_sql_close(db);
}

static void a_connection_for_writing_is_durable_or_says_so(void **state)
{
	(void)state;
	struct sb_sql *db = open_at(file_with_row(), SQL_WRITE);
	int64_t level = -1;
	must(sb_sql_durable(db, &err));
	must(sb_sql_number(db, "PRAGMA synchronous", &level, &err));
	assert_int_equal(level, 3);
	struct sb_query *q = sb_sql_prepare(db, "PRAGMA journal_mode");
	assert_true(sb_sql_row(q));
	assert_string_equal(sb_sql_text(q, 0), "delete");
	must(sb_sql_done(q, &err));
	sb_sql_close(db);
}

static void a_connection_is_hardened(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	/* double quotes are names only, writable_schema stays off, extensions cannot be loaded */
	assert_int_equal(sb_sql_do(db, "SELECT \"no such column\" FROM t", &err), -1);
	must(sb_sql_do(db, "PRAGMA writable_schema = ON", &err));
	assert_int_equal(sb_sql_do(db, "DELETE FROM sqlite_schema", &err), -1);
	assert_int_equal(sb_sql_do(db, "SELECT load_extension('x')", &err), -1);
	must(sb_sql_do(db, "CREATE TABLE c (t INTEGER REFERENCES t (id)) STRICT", &err));
	assert_int_equal(sb_sql_do(db, "INSERT INTO c VALUES (99)", &err), -1);
	assert_int_equal(sb_sql_do(db, "SELECT zeroblob(2000000)", &err), -1);
	sb_sql_close(db);
}

static void a_statement_that_would_not_end_is_stopped(void **state)
{
	(void)state;
	struct sb_sql *db = open_memory();
	sb_sql_limit(db, 1000000);
	assert_int_equal(
		sb_sql_do(db,
			"WITH RECURSIVE r(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM r) SELECT max(n) FROM r",
			&err),
		-1);
	assert_int_equal(err.code, SB_DAMAGED);
	sb_sql_limit(db, 0);
	assert_int_equal(count(db), 0);
	sb_sql_close(db);
}

static void failures_of_the_disk_have_their_code_and_a_sentence(void **state)
{
	(void)state;
	static const struct {
		enum fault_kind kind;
		enum sb_code code;
		const char *words;
	} cases[] = {
		{ FAULT_FULL, SB_FULL, "full" },
		{ FAULT_WRITE, SB_IO, "failed" },
		{ FAULT_SYNC, SB_IO, "failed" },
		{ FAULT_OPEN, SB_IO, "-journal" },
	};
	fault_register();
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct sql_options options = { .mode = SQL_WRITE, .vfs = FAULT_VFS };
		struct sb_sql *db;
		must(sb_sql_open(file_with_row(), &options, &db, &err));
		must(sb_sql_durable(db, &err));
		fault_arm(cases[i].kind, 1, false, false);
		assert_int_equal(sb_sql_do(db, "INSERT INTO t VALUES (2)", &err), -1);
		assert_true(fault_disarm());
		assert_int_equal(err.code, cases[i].code);
		assert_non_null(strstr(err.text, cases[i].words));
		assert_non_null(strstr(err.text, "a.db"));
		must(sb_sql_do(db, "INSERT INTO t VALUES (2)", &err));
		sb_sql_close(db);
	}
}

static void a_file_that_is_no_database_is_foreign(void **state)
{
	(void)state;
	struct sb_sql *db = open_at(
		scratch_text("notes.txt", "Dear all, this is not a database but a long letter."), SQL_READ);
	int64_t n;
	assert_int_equal(sb_sql_number(db, "PRAGMA user_version", &n, &err), -1);
	assert_int_equal(err.code, SB_FOREIGN);
	sb_sql_close(db);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_bound_by_name_comes_back),
		cmocka_unit_test(a_failure_waits_in_the_statement_and_later_calls_do_nothing),
		cmocka_unit_test(a_kept_statement_that_failed_works_the_next_time),
		cmocka_unit_test(text_after_the_statement_is_a_failure),
		cmocka_unit_test(a_kept_statement_in_use_gives_a_spare_that_is_finalised),
		cmocka_unit_test(transactions_nest_and_only_the_outermost_counts),
		cmocka_unit_test(an_inner_rollback_takes_the_outer_commit_with_it),
		cmocka_unit_test(a_write_that_somebody_else_holds_up_is_busy_not_silent),
		cmocka_unit_test(what_another_connection_commits_is_noticed),
		cmocka_unit_test(a_file_moved_away_while_open_is_noticed),
		cmocka_unit_test(only_a_file_is_opened_and_only_as_it_is_named),
		cmocka_unit_test(nothing_is_written_through_a_reading_connection),
		cmocka_unit_test(a_connection_for_writing_is_durable_or_says_so),
		cmocka_unit_test(a_connection_is_hardened),
		cmocka_unit_test(a_statement_that_would_not_end_is_stopped),
		cmocka_unit_test(failures_of_the_disk_have_their_code_and_a_sentence),
		cmocka_unit_test(a_file_that_is_no_database_is_foreign),
	};

	return run_tests(tests);
}

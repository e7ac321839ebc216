/* The clock: UTC to text and back against the C library's calendar, and what is not a time. */
#include "base/time.h"

#include "geom/random.h"
#include "support/near.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

static const int64_t hour = 3600000, day = 24 * 3600000;

static void a_frozen_clock_stands_until_it_runs_again(void **state)
{
	(void)state;
	sb_time_freeze(1700000000123);
	assert_true(sb_time_now() == 1700000000123);
	sb_time_freeze(0);
	assert_true(sb_time_now() == 0);
	sb_time_freeze(-1);
	assert_true(sb_time_now() / 1000 - (int64_t)time(NULL) <= 1);
	assert_true((int64_t)time(NULL) - sb_time_now() / 1000 <= 1);
	double tick = sb_time_tick();
	assert_true(sb_time_tick() >= tick);
}

static void known_moments_are_written_as_iso_8601(void **state)
{
	static const struct {
		int64_t ms;
		const char *text;
	} table[] = {
		{ 0, "1970-01-01T00:00:00.000Z" },
		{ -1, "1969-12-31T23:59:59.999Z" },
		{ 951782400000, "2000-02-29T00:00:00.000Z" }, /* a leap day of a century */
		{ 951868800000, "2000-03-01T00:00:00.000Z" },
		{ 4107542400000, "2100-03-01T00:00:00.000Z" }, /* the day after 28 February */
		{ 1764060592123, "2025-11-25T08:49:52.123Z" },
		{ 253402300799999, "9999-12-31T23:59:59.999Z" },
	};
	char text[SB_TIME_TEXT];
	int64_t ms;

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		sb_time_iso(table[i].ms, text);
		assert_string_equal(text, table[i].text);
		assert_int_equal(sb_time_parse(text, &ms, NULL), 0);
		assert_true(ms == table[i].ms);
	}
}

/* The C library knows the calendar too. */
static void any_moment_is_what_the_c_library_says_and_comes_back(void **state)
{
	struct random r = { 5 };

	(void)state;
	for (int i = 0; i < 20000; i++) {
		int64_t want = (int64_t)random_between(&r, -62135596800000.0, 253402300799999.0), got;
		time_t seconds = (time_t)(want / 1000 - (want % 1000 < 0));
		char text[SB_TIME_TEXT], other[SB_TIME_TEXT];
		struct tm utc;
		sb_time_iso(want, text);
		gmtime_r(&seconds, &utc);
		snprintf(other, sizeof other, "%04u-%02u-%02uT%02u:%02u:%02u.%03uZ",
			(unsigned)(utc.tm_year + 1900) % 10000, (unsigned)(utc.tm_mon + 1) % 100,
			(unsigned)utc.tm_mday % 100, (unsigned)utc.tm_hour % 100, (unsigned)utc.tm_min % 100,
			(unsigned)utc.tm_sec % 100, (unsigned)((want % 1000 + 1000) % 1000));
		assert_string_equal(text, other);
		assert_int_equal(sb_time_parse(text, &got, NULL), 0);
		assert_true(got == want);
	}
}

static int64_t parsed(const char *text)
{
	struct sb_err err = { 0 };
	int64_t ms;

	if (sb_time_parse(text, &ms, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
	return ms;
}

static void a_zone_and_a_fraction_are_read(void **state)
{
	int64_t noon = parsed("2026-11-25T12:00:00Z");

	(void)state;
	assert_true(parsed("2026-11-25T13:00:00+01:00") == noon);
	assert_true(parsed("2026-11-25T08:30:00-03:30") == noon);
	assert_true(parsed("2026-11-26T02:00:00+14:00") == noon);
	assert_true(parsed("2026-11-25T12:00:00.5Z") == noon + 500);
	assert_true(parsed("2026-11-25T12:00:00.05Z") == noon + 50);
	assert_true(parsed("2026-11-25T12:00:00.123987654321Z") == noon + 123);
	assert_true(parsed("2026-11-25T12:00:00.250-05:00") == noon + 5 * hour + 250);
}

/* Some of these were read as times once: scanf takes a blank or a sign for part of a number. */
static void what_is_not_a_time_is_refused_with_what_would_be(void **state)
{
	static const char *const table[] = { "", "now", "2026-11-25", "2026-11-25 14:32:00Z",
		"2026-11-25T14:32:00", "2026-11-25T14:32:00z", "2026-11-25T14:32:00Z ",
		"2026-11-25T14:32:00ZZ", " 2026-11-25T14:32:00Z", "2026- 1-25T14:32:00Z",
		"2026-+1-25T14:32:00Z", "+026-11-25T14:32:00Z", "-001-11-25T14:32:00Z",
		"2026-11-25T14:32: 0Z", "2026-1-25T14:32:00Z", "2026-11-25T14:32:00.Z",
		"2026-11-25T14:32:00,5Z", "2026-11-25T14:32:00.5", "2026-11-25T14:32:00+1:00",
		"2026-11-25T14:32:00+01", "2026-11-25T14:32:00+ 1:00", "2026-11-25T14:32:00+01:0x",
		"2026-11-25T14:32:00+01:00Z", "2026-11-25T14:32:00+15:00", "2026-11-25T14:32:00+01:60",
		"2026-00-25T14:32:00Z", "2026-13-25T14:32:00Z", "2026-11-00T14:32:00Z",
		"2026-11-31T14:32:00Z", "2026-02-29T14:32:00Z", "2100-02-29T14:32:00Z",
		"2026-11-25T24:00:00Z", "2026-11-25T14:60:00Z", "2026-11-25T14:32:60Z" };
	struct sb_err err;

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		char want[200];
		int64_t ms = 77;
		if (sb_time_parse(table[i], &ms, &err) == 0)
			print_error("'%s' was taken for a time\n", table[i]);
		assert_true(ms == 77);
		assert_int_equal(err.code, SB_FORMAT);
		snprintf(
			want, sizeof want, "'%s' is not a time. Write it as 2026-11-25T14:32:00Z.", table[i]);
		assert_string_equal(err.text, want);
	}
	assert_true(parsed("2024-02-29T00:00:00Z") - parsed("2024-02-28T00:00:00Z") == day);
}

static void people_read_local_time(void **state)
{
	int64_t ms = parsed("2026-11-25T13:32:10.900Z");
	char text[SB_TIME_TEXT];

	(void)state;
	sb_time_long(ms, 60, text);
	assert_string_equal(text, "25 Nov 14:32 +01:00");
	sb_time_short(ms, 60, text);
	assert_string_equal(text, "14:32");
	sb_time_long(ms, -210, text);
	assert_string_equal(text, "25 Nov 10:02 -03:30");
	sb_time_long(ms, 660, text);
	assert_string_equal(text, "26 Nov 00:32 +11:00");
	sb_time_short(ms, -14 * 60, text);
	assert_string_equal(text, "23:32");
	sb_time_long(parsed("2027-01-01T03:05:00Z"), -360, text);
	assert_string_equal(text, "31 Dec 21:05 -06:00");
	sb_time_long(parsed("2026-05-03T00:00:00Z"), 0, text);
	assert_string_equal(text, "3 May 00:00 +00:00");
}

/* POSIX zones, so that no zone file is needed; they are written west positive. */
static void the_offset_of_local_time_is_that_of_the_moment(void **state)
{
	static const struct {
		const char *zone;
		int winter, summer;
	} table[] = { { "UTC0", 0, 0 }, { "CET-1CEST,M3.5.0,M10.5.0/3", 60, 120 },
		{ "NST3:30NDT,M3.2.0,M11.1.0", -210, -150 }, { "<+0545>-5:45", 345, 345 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		setenv("TZ", table[i].zone, 1);
		tzset();
		assert_int_equal(sb_time_offset(parsed("2026-01-15T12:00:00Z")), table[i].winter);
		assert_int_equal(sb_time_offset(parsed("2026-07-15T12:00:00Z")), table[i].summer);
	}
	unsetenv("TZ");
	tzset();
}

static void a_year_is_shared_out_by_its_own_length(void **state)
{
	(void)state;
	assert_near(sb_time_year(parsed("2025-01-01T00:00:00Z")), 2025, 0);
	assert_near(sb_time_year(parsed("2025-07-02T12:00:00Z")), 2025.5, 1e-12); /* 182.5 of 365 days */
	assert_near(sb_time_year(parsed("2028-07-02T00:00:00Z")), 2028.5, 1e-12); /* 183 of 366 */
	assert_near(sb_time_year(parsed("2028-12-31T00:00:00Z")), 2028 + 365 / 366.0, 1e-12);
	assert_near(sb_time_year(parsed("2026-11-25T00:00:00Z")), 2026 + 328 / 365.0, 1e-12);
	assert_near(sb_time_year(parsed("1969-12-31T00:00:00Z")), 1969 + 364 / 365.0, 1e-12);
	double before = sb_time_year(parsed("2030-01-01T00:00:00Z") - 1);
	assert_true(before < 2030 && before > 2030 - 1e-9);
}

static void a_day_is_read_and_written(void **state)
{
	static const char *const wrong[] = { "", "2026", "2026-11", "2026-11-25T00:00:00Z", "2026-11-31",
		"2027-02-29", "2026-00-10", "2026-13-10", "2026-01-00", "26-11-25", "2026/11/25",
		"25.11.2026", "2026-11-25 ", " 2026-11-25", "+026-11-25" };
	char text[SB_TIME_TEXT];
	struct sb_err err;
	int64_t ms = 7;

	(void)state;
	assert_int_equal(sb_time_parse_day("2028-02-29", &ms, &err), 0);
	assert_true(ms == parsed("2028-02-29T00:00:00Z"));
	sb_time_day(ms + day - 1, text);
	assert_string_equal(text, "2028-02-29");
	for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
		assert_int_equal(sb_time_parse_day(wrong[i], &ms, &err), -1);
		assert_int_equal(err.code, SB_FORMAT);
		assert_non_null(strstr(err.text, "Write it as 2026-11-25."));
		assert_true(ms == parsed("2028-02-29T00:00:00Z"));
	}
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(a_frozen_clock_stands_until_it_runs_again),
	cmocka_unit_test(known_moments_are_written_as_iso_8601),
	cmocka_unit_test(any_moment_is_what_the_c_library_says_and_comes_back),
	cmocka_unit_test(a_zone_and_a_fraction_are_read),
	cmocka_unit_test(what_is_not_a_time_is_refused_with_what_would_be),
	cmocka_unit_test(people_read_local_time),
	cmocka_unit_test(the_offset_of_local_time_is_that_of_the_moment),
	cmocka_unit_test(a_year_is_shared_out_by_its_own_length),
	cmocka_unit_test(a_day_is_read_and_written),
};

int main(void)
{
	return run_tests(tests);
}

/* The clock. Calendar arithmetic is the days-from-civil algorithm, so that no time zone file is needed to
 * read or write UTC. */
#include "base/time.h"

#include "base/str.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#define DAY_MS ((int64_t)86400000)

static int64_t frozen = -1;

int64_t sb_time_now(void)
{
	struct timespec t;

	if (frozen >= 0)
		return frozen;
	clock_gettime(CLOCK_REALTIME, &t);
	return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

void sb_time_freeze(int64_t ms)
{
	frozen = ms;
}

double sb_time_tick(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

int sb_time_offset(int64_t ms)
{
	time_t seconds = (time_t)(ms / 1000);
	struct tm local;

	if (localtime_r(&seconds, &local) == NULL)
		return 0;
	return (int)(local.tm_gmtoff / 60);
}

struct civil {
	int year, month, day, hour, minute, second, milli;
};

static struct civil civil_of(int64_t ms)
{
	int64_t days = ms / 86400000, rest = ms % 86400000;

	if (rest < 0) {
		rest += 86400000;
		days--;
	}
	days += 719468;
	int64_t era = (days >= 0 ? days : days - 146096) / 146097;
	int64_t doe = days - era * 146097;
	int64_t yoe = (doe - doe / 1460 + doe / 36524 - doe / 146096) / 365;
	int64_t doy = doe - (365 * yoe + yoe / 4 - yoe / 100);
	int64_t mp = (5 * doy + 2) / 153;
	struct civil c = { .day = (int)(doy - (153 * mp + 2) / 5 + 1),
		.month = (int)(mp < 10 ? mp + 3 : mp - 9) };
	c.year = (int)(yoe + era * 400 + (c.month <= 2));
	c.hour = (int)(rest / 3600000);
	c.minute = (int)(rest / 60000 % 60);
	c.second = (int)(rest / 1000 % 60);
	c.milli = (int)(rest % 1000);
	return c;
}

static int64_t days_of(int year, int month, int day)
{
	int64_t y = year - (month <= 2);
	int64_t era = (y >= 0 ? y : y - 399) / 400;
	int64_t yoe = y - era * 400;
	int64_t doy = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
	int64_t doe = yoe * 365 + yoe / 4 - yoe / 100 + doy;

	return era * 146097 + doe - 719468;
}

void sb_time_iso(int64_t ms, char text[SB_TIME_TEXT])
{
	struct civil c = civil_of(ms);

	snprintf(text, SB_TIME_TEXT, "%04d-%02d-%02dT%02d:%02d:%02d.%03dZ", c.year % 10000, c.month, c.day,
		c.hour, c.minute, c.second, c.milli);
}

static int month_days(int year, int month)
{
	static const int days[] = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 };
	int leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;

	return days[month - 1] + (month == 2 && leap);
}

/* Whether the text begins as the pattern says: '0' stands for any digit, all else for itself. Digits alone:
 * what scanf takes for a number may begin with blanks or a sign. */
static bool looks_like(const char *text, const char *pattern)
{
	for (; *pattern; text++, pattern++)
		if (*pattern == '0' ? *text < '0' || *text > '9' : *text != *pattern)
			return false;
	return true;
}

static int digits(const char *text, int count)
{
	int value = 0;

	while (count-- > 0)
		value = value * 10 + (*text++ - '0');
	return value;
}

/* "Z", "+01:00", "-03:30". */
static int parse_zone(const char *rest, int *minutes)
{
	if (sb_same(rest, "Z")) {
		*minutes = 0;
		return 0;
	}
	if ((*rest != '+' && *rest != '-') || !looks_like(rest + 1, "00:00") || rest[6] != '\0')
		return -1;
	int hours = digits(rest + 1, 2), more = digits(rest + 4, 2);
	if (hours > 14 || more > 59)
		return -1;
	*minutes = (*rest == '-' ? -1 : 1) * (hours * 60 + more);
	return 0;
}

/* What follows the point, as milliseconds; more digits than three are dropped. Returns what follows them. */
static const char *parse_fraction(const char *rest, int *milli)
{
	int scale = 100;

	for (; *rest >= '0' && *rest <= '9'; rest++, scale /= 10)
		*milli += (*rest - '0') * scale;
	return rest;
}

int sb_time_parse(const char *iso, int64_t *ms, struct sb_err *err)
{
	int zone = 0;

	if (!looks_like(iso, "0000-00-00T00:00:00"))
		goto wrong;
	struct civil c = { .year = digits(iso, 4),
		.month = digits(iso + 5, 2),
		.day = digits(iso + 8, 2),
		.hour = digits(iso + 11, 2),
		.minute = digits(iso + 14, 2),
		.second = digits(iso + 17, 2) };
	const char *rest = iso + 19;
	if (looks_like(rest, ".0"))
		rest = parse_fraction(rest + 1, &c.milli);
	if (parse_zone(rest, &zone) || c.month < 1 || c.month > 12 || c.day < 1 ||
		c.day > month_days(c.year, c.month) || c.hour > 23 || c.minute > 59 || c.second > 59)
		goto wrong;
	*ms = ((days_of(c.year, c.month, c.day) * 24 + c.hour) * 60 + c.minute - zone) * 60000 +
		(int64_t)c.second * 1000 + c.milli;
	return 0;
wrong:
	return sb_fail(err, SB_FORMAT, "'%.40s' is not a time. Write it as 2026-11-25T14:32:00Z.", iso);
}

int sb_time_parse_day(const char *day, int64_t *ms, struct sb_err *err)
{
	int year, month, date;

	if (!looks_like(day, "0000-00-00") || day[10] != '\0')
		goto wrong;
	year = digits(day, 4);
	month = digits(day + 5, 2);
	date = digits(day + 8, 2);
	if (month < 1 || month > 12 || date < 1 || date > month_days(year, month))
		goto wrong;
	*ms = days_of(year, month, date) * DAY_MS;
	return 0;
wrong:
	return sb_fail(err, SB_FORMAT, "'%.40s' is not a day. Write it as 2026-11-25.", day);
}

void sb_time_day(int64_t ms, char text[SB_TIME_TEXT])
{
	struct civil c = civil_of(ms);

	snprintf(text, SB_TIME_TEXT, "%04d-%02d-%02d", c.year % 10000, c.month, c.day);
}

double sb_time_year(int64_t ms)
{
	int year = civil_of(ms).year;
	int64_t begins = days_of(year, 1, 1) * DAY_MS, ends = days_of(year + 1, 1, 1) * DAY_MS;

	return year + (double)(ms - begins) / (double)(ends - begins);
}

void sb_time_long(int64_t ms, int offset, char text[SB_TIME_TEXT])
{
	static const char *const months[] = { "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep",
		"Oct", "Nov", "Dec" };
	struct civil c = civil_of(ms + (int64_t)offset * 60000);
	int size = offset < 0 ? -offset : offset;

	snprintf(text, SB_TIME_TEXT, "%d %s %02d:%02d %c%02d:%02d", c.day, months[c.month - 1], c.hour,
		c.minute, offset < 0 ? '-' : '+', size / 60 % 100, size % 60);
}

void sb_time_short(int64_t ms, int offset, char text[SB_TIME_TEXT])
{
	struct civil c = civil_of(ms + (int64_t)offset * 60000);

	snprintf(text, SB_TIME_TEXT, "%02d:%02d", c.hour, c.minute);
}

int sb_time_clock(const char *typed, char clock[SB_CLOCK_TEXT], struct sb_err *err)
{
	const char *word = typed + strspn(typed, " \t");
	size_t length = strlen(word);
	int seen[4] = { 0 }, count = 0;

	while (length > 0 && (word[length - 1] == ' ' || word[length - 1] == '\t'))
		length--;
	size_t colon = length >= 3 && word[length - 3] == ':' ? length - 3 : length;
	for (size_t i = length; i-- > 0 && count < 4;) {
		if (i == colon)
			continue;
		if (word[i] < '0' || word[i] > '9')
			goto wrong;
		seen[count++] = word[i] - '0';
	}
	int hour = seen[3] * 10 + seen[2], minute = seen[1] * 10 + seen[0];
	if (length < 3 || (size_t)count != length - (colon < length) || count < 3 || hour > 23 || minute > 59)
		goto wrong;
	snprintf(clock, SB_CLOCK_TEXT, "%02u:%02u", (unsigned)hour % 100, (unsigned)minute % 100);
	return 0;
wrong:
	return sb_fail(err, SB_FORMAT, "'%.20s' is not a time of day: write it as 14:32.", typed);
}

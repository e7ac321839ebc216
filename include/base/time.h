/* The clock: UTC in the file, local time for people, and a way to stop it for tests. */
#ifndef SB_BASE_TIME_H
#define SB_BASE_TIME_H

#include "base/err.h"

#include <stdint.h>

#define SB_TIME_TEXT 32

int64_t sb_time_now(void);	 /* milliseconds since 1970 UTC */
void sb_time_freeze(int64_t ms); /* tests only: from now on it is always ms; negative: run again */
int sb_time_offset(int64_t ms);	 /* minutes that local time is ahead of UTC at ms */
double sb_time_tick(void);	 /* seconds on a clock that only runs forward */

/* "2026-11-25T08:49:52.123Z". */
void sb_time_iso(int64_t ms, char text[SB_TIME_TEXT]);
int sb_time_parse(const char *iso, int64_t *ms, struct sb_err *err);

/* A day, "2026-11-25": its first moment. */
int sb_time_parse_day(const char *day, int64_t *ms, struct sb_err *err);
void sb_time_day(int64_t ms, char text[SB_TIME_TEXT]);

/* A time of day as people type it, to "14:32": "7:05", "07:05", "0705" and "705" are all five past seven. Two
 * digits alone are minutes of no hour, "1:2" may be anything: refused. */
#define SB_CLOCK_TEXT 6
int sb_time_clock(const char *typed, char clock[SB_CLOCK_TEXT], struct sb_err *err);

/* The year with its share gone by: 2026.0 is its first moment, whether it has 365 days or 366. */
double sb_time_year(int64_t ms);

/* "25 Nov 14:32 +01:00" and "14:32", at an offset in minutes. */
void sb_time_long(int64_t ms, int offset, char text[SB_TIME_TEXT]);
void sb_time_short(int64_t ms, int offset, char text[SB_TIME_TEXT]);

#endif

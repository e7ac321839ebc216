/* Minutes around the clock, and the days that the clock does not say. */
#include "model/clock.h"

#include <math.h>
#include <stdlib.h>

#define DAY 1440
/* Joints that follow one another faster than this in the log were brought in from a file, or written down
 * later. */
#define LOGGED_LEAST 1
/* A joint whose clock begins less than this before the end of the one before it overlaps it by a slip: it did
 * not wait for a day. */
#define OVERLAP 60

static int minutes_of(const char *clock)
{
	if (clock[0] == '\0')
		return -1;
	return (clock[0] - '0') * 600 + (clock[1] - '0') * 60 + (clock[3] - '0') * 10 + (clock[4] - '0');
}

static int since(int from, int to)
{
	return (to - from + DAY) % DAY;
}

static double logged_since(const struct clocked *before, const struct clocked *joint)
{
	return (double)(joint->at_ms - before->at_ms) / 60000;
}

static void take_typed(const struct clocked *before, const struct clocked *joint, struct clock_minutes *out)
{
	int start = minutes_of(joint->started), end = minutes_of(joint->ended);
	int ended = before ? minutes_of(before->ended) : -1;

	out->source = TIME_TYPED;
	out->work_min = since(start, end);
	if (ended < 0)
		return;
	out->wait_min = since(ended, start);
	double logged = logged_since(before, joint);
	double days = round((logged - out->wait_min - out->work_min) / DAY);
	if (days < 0 && logged >= LOGGED_LEAST && out->wait_min > DAY - OVERLAP)
		out->wait_min = 0;
	out->wait_min += fmax(days, 0) * DAY;
	out->whole_min = out->wait_min + out->work_min;
}

struct clock_minutes sb_clock_minutes(const struct clocked *before, const struct clocked *joint)
{
	double unknown = (double)NAN;
	struct clock_minutes out = { TIME_UNKNOWN, unknown, unknown, unknown };

	if (joint->started[0] && joint->ended[0])
		take_typed(before, joint, &out);
	if (!isnan(out.whole_min) || before == NULL)
		return out;
	double logged = logged_since(before, joint);
	if (logged < LOGGED_LEAST)
		return out;
	out.whole_min = logged;
	if (out.source == TIME_UNKNOWN)
		out.source = TIME_LOGGED;
	return out;
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

double sb_clock_middle(double *values, size_t count)
{
	if (count == 0)
		return (double)NAN;
	qsort(values, count, sizeof *values, by_size);
	return values[(count - 1) / 2];
}

/* Units and typed numbers. Reading a number never depends on the locale: strtod runs on digits that were
 * checked here, with a decimal point, and the program never leaves the "C" numeric locale. */
#include "base/unit.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PI 3.14159265358979323846

static bool is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static int not_a_number(const char *typed, size_t at, struct sb_err *err)
{
	const char *rest = typed + at;

	if ((*rest >= 'a' && *rest <= 'z') || (*rest >= 'A' && *rest <= 'Z') ||
		(unsigned char)*rest >= 0x80 || *rest == '%' || *rest == '\'' || *rest == '"')
		return sb_fail(err, SB_FORMAT,
			"'%.40s' is not a number: leave out '%.12s' and type the number alone.", typed, rest);
	return sb_fail(err, SB_FORMAT,
		"'%.40s' is not a number: it goes wrong at '%.12s'. Type it like 88.4.", typed, rest);
}

/* Copies an optional sign, digits and at most one decimal sign; returns what follows them. */
static const char *take_digits(const char *from, char *to, size_t room, bool *digits, bool *too_long)
{
	size_t used = 0;
	bool point = false;

	*digits = *too_long = false;
	if (*from == '+')
		from++;
	else if (*from == '-')
		to[used++] = *from++;
	while (is_digit(*from) || ((*from == '.' || *from == ',') && !point)) {
		if (used + 2 >= room) {
			*too_long = true;
			break;
		}
		if (is_digit(*from))
			*digits = true;
		else
			point = true;
		to[used++] = *from == ',' ? '.' : *from;
		from++;
	}
	to[used] = '\0';
	return from;
}

int sb_number_parse(const char *typed, struct number *out, struct sb_err *err)
{
	char text[SB_NUMBER_TEXT] = "";
	bool digits, too_long;
	const char *start = typed + strspn(typed, " \t");

	if (*start == '\0')
		return sb_fail(err, SB_FORMAT, "There is no number here. Type one, like 88.4.");
	const char *rest = take_digits(start, text, sizeof text, &digits, &too_long);
	if (too_long)
		return sb_fail(err, SB_FORMAT, "'%.30s' has too many digits: 20 at most.", typed);
	if (!digits)
		return not_a_number(start, (size_t)(rest - start), err);
	rest += strspn(rest, " \t");
	if (*rest != '\0')
		return not_a_number(start, (size_t)(rest - start), err);
	out->value = strtod(text, NULL);
	sb_copy(out->text, sizeof out->text, text);
	return 0;
}

bool sb_number_given(const struct number *n)
{
	return n->text[0] != '\0';
}

struct number sb_number_of(double value, int decimals)
{
	struct number n;

	if (!(fabs(value) < 1e15))
		return (struct number){ 0, "" };
	snprintf(n.text, sizeof n.text, "%.*f", decimals, value);
	n.value = strtod(n.text, NULL);
	if (n.value == 0) {
		n.value = 0;
		snprintf(n.text, sizeof n.text, "%.*f", decimals, 0.0);
	}
	return n;
}

static const struct {
	const char *brief, *name, *words;
	double metres;
} units[] = {
	[UNIT_M] = { "m", "m", "metres", 1 },
	[UNIT_FT] = { "ft", "ft", "international feet", 0.3048 },
	[UNIT_FTUS] = { "ft", "ftUS", "US survey feet", 1200.0 / 3937.0 },
};

double sb_unit_metres(enum unit u)
{
	return units[u].metres;
}

const char *sb_unit_short(enum unit u)
{
	return units[u].brief;
}

const char *sb_unit_name(enum unit u)
{
	return units[u].name;
}

const char *sb_unit_long(enum unit u)
{
	return units[u].words;
}

int sb_unit_parse(const char *text, enum unit *out, struct sb_err *err)
{
	for (int i = UNIT_M; i <= UNIT_FTUS; i++)
		if (sb_same(text, units[i].name)) {
			*out = (enum unit)i;
			return 0;
		}
	return sb_fail(err, SB_FORMAT,
		"'%.20s' is not a unit. Write m, ft (international) or ftUS (US survey).", text);
}

static const struct {
	const char *name, *mark;
	double low, high;
} inclines[] = {
	[INCLINE_DOWN] = { "down", "deg", 0, 180 },
	[INCLINE_LEVEL] = { "level", "deg", -90, 90 },
	[INCLINE_GRADE] = { "grade", "%", -50000, 50000 },
};

const char *sb_incline_name(enum incline c)
{
	return inclines[c].name;
}

const char *sb_incline_mark(enum incline c)
{
	return inclines[c].mark;
}

void sb_incline_range(enum incline c, double *low, double *high)
{
	*low = inclines[c].low;
	*high = inclines[c].high;
}

int sb_incline_parse(const char *text, enum incline *out, struct sb_err *err)
{
	for (int i = INCLINE_DOWN; i <= INCLINE_GRADE; i++)
		if (sb_same(text, inclines[i].name)) {
			*out = (enum incline)i;
			return 0;
		}
	return sb_fail(err, SB_FORMAT,
		"'%.20s' is not an inclination convention. Write down (0 straight down, 90 level), level (0 level, rising "
		"positive) or grade (percent).",
		text);
}

double sb_incline_radians(enum incline c, double typed)
{
	switch (c) {
	case INCLINE_DOWN:
		return typed * (PI / 180);
	case INCLINE_LEVEL:
		return (typed + 90) * (PI / 180);
	case INCLINE_GRADE:
		break;
	}
	return PI / 2 + atan(typed / 100);
}

double sb_incline_typed(enum incline c, double radians)
{
	switch (c) {
	case INCLINE_DOWN:
		return radians * (180 / PI);
	case INCLINE_LEVEL:
		return radians * (180 / PI) - 90;
	case INCLINE_GRADE:
		break;
	}
	return 100 * tan(radians - PI / 2);
}

/* Units and typed numbers. Reading and writing a number never depends on the locale: strtod and printf run
 * in the "C" locale, whatever the program or a library has set. */
#include "base/unit.h"

#include "base/str.h"

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PI 3.14159265358979323846

#define LONGEST 20 /* characters of a typed number, sign and point too */

/* ---- the "C" locale, for as long as one call ---- */

struct plain {
	locale_t own, before;
};

static struct plain plain_begin(void)
{
	struct plain p = { .own = newlocale(LC_ALL_MASK, "C", (locale_t)0) };

	p.before = uselocale(p.own);
	return p;
}

static void plain_end(struct plain p)
{
	uselocale(p.before);
	if (p.own)
		freelocale(p.own);
}

static double plain_value(const char *text)
{
	struct plain p = plain_begin();
	double value = strtod(text, NULL);

	plain_end(p);
	return value;
}

static void plain_text(char text[SB_NUMBER_TEXT], double value, int decimals)
{
	struct plain p = plain_begin();

	snprintf(text, SB_NUMBER_TEXT, "%.*f", decimals, value);
	plain_end(p);
}

/* ---- typed numbers ---- */

static bool is_digit(char c)
{
	return c >= '0' && c <= '9';
}

static bool is_exponent(const char *rest)
{
	if (*rest != 'e' && *rest != 'E')
		return false;
	rest += rest[1] == '+' || rest[1] == '-' ? 2 : 1;
	return is_digit(*rest);
}

/* rest: where it goes wrong. */
static int not_a_number(const char *typed, bool digits, const char *rest, struct sb_err *err)
{
	if (!digits)
		return sb_fail(err, SB_FORMAT, "'%.40s' is not a number. Type it like 88.4.", typed);
	if (is_exponent(rest))
		return sb_fail(err, SB_FORMAT,
			"'%.40s' is a number with an exponent. Write it out, like 1500.", typed);
	if ((*rest == '.' || *rest == ',') && rest[-1] != ' ' && rest[-1] != '\t')
		return sb_fail(err, SB_FORMAT,
			"'%.40s' is not a number: it has more than one point or comma. Write thousands without any, like 1234.5.",
			typed);
	if ((*rest >= 'a' && *rest <= 'z') || (*rest >= 'A' && *rest <= 'Z') ||
		(unsigned char)*rest >= 0x80 || *rest == '%' || *rest == '\'' || *rest == '"')
		return sb_fail(err, SB_FORMAT,
			"'%.40s' is not a number: leave out '%.12s' and type the number alone.", typed, rest);
	return sb_fail(err, SB_FORMAT,
		"'%.40s' is not a number: it goes wrong at '%.12s'. Type it like 88.4.", typed, rest);
}

/* Copies an optional sign, digits and at most one decimal sign; returns what follows them. */
static const char *take_digits(const char *from, char to[SB_NUMBER_TEXT], bool *digits, bool *too_long)
{
	size_t used = 0;
	bool point = false;

	*digits = *too_long = false;
	if (*from == '+')
		from++;
	else if (*from == '-')
		to[used++] = *from++;
	while (is_digit(*from) || ((*from == '.' || *from == ',') && !point)) {
		if (used == LONGEST) {
			*too_long = true;
			break;
		}
		if (is_digit(*from))
			*digits = true;
		else
			point = true;
		to[used++] = (char)(*from == ',' ? '.' : *from);
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
	const char *rest = take_digits(start, text, &digits, &too_long);
	if (too_long)
		return sb_fail(err, SB_FORMAT, "'%.30s' has too many digits: %d at most.", start, LONGEST);
	rest += digits ? strspn(rest, " \t") : 0;
	if (!digits || *rest != '\0')
		return not_a_number(start, digits, rest, err);
	*out = (struct number){ .value = plain_value(text) };
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
	plain_text(n.text, value, decimals);
	n.value = plain_value(n.text);
	if (n.value == 0) {
		n.value = 0;
		plain_text(n.text, 0, decimals);
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

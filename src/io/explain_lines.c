/* The lines of an explanation: how values are shown, where they came from, and what is said when two ways to
 * one figure do not agree. */
#include "base/mem.h"
#include "base/time.h"
#include "geom/angle.h"
#include "io/figure.h"
#include "io/links.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "explain_parts.h"

#define DECIMALS 6 /* a micrometre, a microdegree: as path --csv has them */

/* Beyond this, in the job's unit, a radius is rounding of a straight line. */
#define STRAIGHT 1e9

static double shown(const struct explaining *x, enum explain_as as, double value)
{
	if (as >= AS_MEASURE)
		return sb_measure_typed(x->job->unit, (enum measure)(as - AS_MEASURE), value);
	switch ((int)as) {
	case AS_LENGTH:
		return fabs(sb_frame_typed(&x->s->frame, value)) < STRAIGHT
			? sb_frame_typed(&x->s->frame, value)
			: HUGE_VAL;
	case AS_ANGLE:
		return sb_deg(value);
	case AS_RATE:
		return sb_deg(value) * x->s->frame.metre;
	case AS_PERCENT:
		return 100 * value;
	case AS_NUMBER:
		break;
	}
	return value;
}

static void put_value(const struct explaining *x, enum explain_as as, double figure, char text[EXPLAIN_VALUE])
{
	const char *unit = sb_unit_short(x->job->unit);
	char number[SB_FIGURE_TEXT], behind[16] = "";

	if (as >= AS_MEASURE)
		snprintf(behind, sizeof behind, " %s",
			sb_measure_unit(x->job->unit, (enum measure)(as - AS_MEASURE)));
	else if (as == AS_LENGTH)
		snprintf(behind, sizeof behind, " %s", unit);
	else if (as == AS_RATE)
		snprintf(behind, sizeof behind, " deg/%s", unit);
	else if (as != AS_NUMBER)
		sb_copy(behind, sizeof behind, as == AS_ANGLE ? " deg" : " %");
	sb_figure_fixed(figure, DECIMALS, number);
	/* what would read as nothing and is not is given by its first digits */
	if (sb_same(number, "0") && fabs(figure) > 1e-15)
		snprintf(number, sizeof number, "%.2e", figure);
	snprintf(text, EXPLAIN_VALUE, "%s%s", number, behind);
	if (isinf(figure))
		sb_copy(text, EXPLAIN_VALUE, "straight");
}

const char *explain_value(
	const struct explaining *x, enum explain_as as, double value, char text[EXPLAIN_VALUE])
{
	put_value(x, as, shown(x, as, value), text);
	return text;
}

static struct explain_line *add(struct explaining *x, enum explain_kind kind, const char *symbol,
	const char *value, double number, const char *words)
{
	struct explanation *e = x->out;

	e->lines = sb_grow(e->lines, e->count, &e->room, sizeof *e->lines);
	struct explain_line *l = &e->lines[e->count++];
	*l = (struct explain_line){ kind, sb_strdup(symbol), sb_strdup(value), sb_strdup(words), number };
	sb_utf8_tame(l->words);
	e->differs |= kind == EXPLAIN_ALARM;
	return l;
}

#define WORDS 600
static void add_value(struct explaining *x, enum explain_kind kind, const char *symbol, enum explain_as as,
	double value, const char *words)
{
	char text[EXPLAIN_VALUE];

	add(x, kind, symbol, explain_value(x, as, value, text), shown(x, as, value), words);
}

void explain_input(
	struct explaining *x, const char *symbol, enum explain_as as, double value, const char *words, ...)
{
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add_value(x, EXPLAIN_INPUT, symbol, as, value, text);
}

void explain_typed(struct explaining *x, const char *symbol, const struct number *n, const char *unit,
	const char *words, ...)
{
	va_list list;
	char text[WORDS], value[EXPLAIN_VALUE];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	snprintf(value, sizeof value, "%s%s%s", n->text, *unit ? " " : "", unit);
	add(x, EXPLAIN_INPUT, symbol, value, n->value, text);
}

void explain_choice(struct explaining *x, const char *symbol, const char *value, const char *words, ...)
{
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add(x, EXPLAIN_INPUT, symbol, value, (double)NAN, text);
}

void explain_step(
	struct explaining *x, const char *symbol, enum explain_as as, double value, const char *words, ...)
{
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add_value(x, EXPLAIN_STEP, symbol, as, value, text);
}

void explain_words(struct explaining *x, enum explain_kind kind, const char *words, ...)
{
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add(x, kind, "", "", (double)NAN, text);
}

/* Whether two figures read the same; both straight, or both not there, is the same too. */
static bool same(double a, double b, double within)
{
	if (!isfinite(a) || !isfinite(b))
		return isnan(a) == isnan(b) && isinf(a) == isinf(b);
	return fabs(a - b) <= within;
}

static void alarm(struct explaining *x, const char *what, enum explain_as as, double one, double other)
{
	char a[EXPLAIN_VALUE], b[EXPLAIN_VALUE];

	put_value(x, as, one, a);
	put_value(x, as, other, b);
	explain_words(x, EXPLAIN_ALARM,
		"%s: %s here, %s there, %.3g apart. Either the job file was changed behind the program's back or the program is wrong. Run verify on the file, rely on neither figure, and report it.",
		what, a, b, fabs(one - other));
}

void explain_result(struct explaining *x, const char *name, enum explain_as as, double value, double kept,
	const char *words, ...)
{
	double figure = shown(x, as, value), is = shown(x, as, kept);
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add_value(x, EXPLAIN_RESULT, name, as, value, text);
	/* nine decimals are the most that any file shows; coordinates have no more digits than that */
	if (!same(figure, is, 1e-9 + 4e-15 * fabs(figure)))
		alarm(x, "This figure and the one that the program shows are not the same", as, figure, is);
}

void explain_as_typed(struct explaining *x, const char *name, const struct number *n, const char *words, ...)
{
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add(x, EXPLAIN_RESULT, name, n->text, n->value, text);
}

void explain_check(
	struct explaining *x, enum explain_as as, double second, double first, const char *words, ...)
{
	double figure = shown(x, as, second), is = shown(x, as, first);
	va_list list;
	char text[WORDS];

	va_start(list, words);
	vsnprintf(text, sizeof text, words, list);
	va_end(list);
	add_value(x, EXPLAIN_CHECK, "", as, second, text);
	if (!same(figure, is, 1e-6 * fmax(1, fabs(is))))
		alarm(x, "Two ways to this figure do not agree", as, figure, is);
}

const char *explain_reading(const struct row *row, const struct reading *r, char text[EXPLAIN_WHERE])
{
	char when[SB_TIME_TEXT];

	if (r == NULL) {
		sb_copy(text, EXPLAIN_WHERE, "the entry, staked: job sheet, [entry]");
		return text;
	}
	sb_time_long(r->at_ms, sb_time_offset(r->at_ms), when);
	snprintf(text, EXPLAIN_WHERE, "joint %d, leg %d, %s %lld, by %s, %s", row->joint, row->leg,
		r->corrects ? "corrected reading" : "reading", (long long)r->id, r->who, when);
	return text;
}

const char *explain_key(
	const struct explaining *x, const char *section, const char *key, char text[EXPLAIN_WHERE])
{
	char source[SB_LINK_SOURCE];

	sb_links_source(x->job, x->r, section, key, source);
	snprintf(text, EXPLAIN_WHERE, "[%s] %s, %s", section, key, source);
	return text;
}

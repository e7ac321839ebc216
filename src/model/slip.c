/* Slips of the pen undone. Each kind of slip is tried backwards on the text that was typed; of all that comes
 * out, the value that leaves least out of the ordinary stands.
 *
 * How likely the kinds are, and so their order, is common practice, no source.
 */
#include "model/slip.h"

#include "base/str.h"
#include "geom/angle.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct search {
	const struct slip_case *c;
	enum slip_reach reach;
	bool inclination; /* which angle is being tried */
	bool found;
	double score; /* of best */
	struct slip best;
};

static double out_of(double turn, double low, double high)
{
	return fmax(0, fmax(low - turn, turn - high));
}

struct slip_turn sb_slip_turn(const struct slip_case *c, double inclination, double azimuth)
{
	struct attitude to =
		sb_attitude(sb_frame_inc(c->frame, inclination), sb_frame_azi(c->frame, azimuth));
	double up = to.inc_rad - c->last.inc_rad;
	double aside = sb_wrap_half(to.azi_rad - c->last.azi_rad) * sin((to.inc_rad + c->last.inc_rad) / 2);
	struct slip_turn t = {
		.dogleg_rad = sb_arc_dogleg(&c->last, &to),
		.up_rad = out_of(up, c->ordinary.up_low, c->ordinary.up_high),
		.aside_rad = out_of(aside, c->ordinary.aside_low, c->ordinary.aside_high),
	};
	t.beyond_rad = hypot(t.up_rad, t.aside_rad);
	return t;
}

static bool possible(const struct search *s, double value)
{
	double low = 0, high = 360;

	if (s->inclination)
		sb_incline_range(s->c->job->incline, &low, &high);
	return value >= low && value <= high;
}

/* A slip costs a tenth of a degree for each rank, and where two leave the same out of the ordinary, the one
 * that turns less is taken. */
static void offer(struct search *s, const struct slip *slip, int rank)
{
	double score = slip->turn.beyond_rad + 0.1 * slip->turn.dogleg_rad + sb_rad(0.1) * rank;

	if (s->found && score >= s->score)
		return;
	s->found = true;
	s->score = score;
	s->best = *slip;
}

static void try_text(struct search *s, const char *text, const char *kind, int rank)
{
	const struct reading *trial = s->c->trial;
	double typed = s->inclination ? trial->inclination.value : trial->azimuth.value;
	struct slip slip = { .kind = kind, .field = s->inclination ? "inclination" : "azimuth" };

	if (sb_number_parse(text, &slip.value, NULL) || !possible(s, slip.value.value) ||
		slip.value.value == typed)
		return;
	slip.turn = s->inclination ? sb_slip_turn(s->c, slip.value.value, trial->azimuth.value)
				   : sb_slip_turn(s->c, trial->inclination.value, slip.value.value);
	offer(s, &slip, rank);
}

static bool digit(char c)
{
	return c >= '0' && c <= '9';
}

/* ---- on the digits ---- */

static void try_swapped(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; typed[i]; i++) {
		size_t j = typed[i + 1] == '.' ? i + 2 : i + 1;
		if (!digit(typed[i]) || !typed[i + 1] || !digit(typed[j]))
			continue;
		sb_copy(text, sizeof text, typed);
		text[i] = typed[j];
		text[j] = typed[i];
		try_text(s, text, "two digits swapped", 0);
	}
}

/* Puts a character in before typed[at]; false when that would be too long for a number. */
static bool insert(const char *typed, size_t at, char c, char text[SB_NUMBER_TEXT])
{
	size_t length = strlen(typed);

	if (length + 1 >= SB_NUMBER_TEXT)
		return false;
	memcpy(text, typed, at);
	text[at] = c;
	memcpy(text + at + 1, typed + at, length - at + 1);
	return true;
}

static void try_point(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT], digits[SB_NUMBER_TEXT];
	const char *point = strchr(typed, '.');
	const char *slip = point ? "decimal point in the wrong place" : "decimal point left out";

	sb_copy(digits, sizeof digits, typed);
	if (point)
		memmove(digits + (point - typed), digits + (point - typed) + 1, strlen(point));
	for (size_t i = 1; digits[i]; i++)
		if ((digit(digits[i - 1]) || digits[i - 1] == '.') && insert(digits, i, '.', text))
			try_text(s, text, slip, 1);
}

/* "8.4" for "88.4": the second of two alike. */
static void try_doubled(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; typed[i]; i++)
		if (digit(typed[i]) && insert(typed, i, typed[i], text))
			try_text(s, text, "a digit left out", 2);
}

/* What any hand can do to any digit: so many values that one of them fits nearly always. */
static void try_wild(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; i <= strlen(typed); i++) {
		for (int c = '0'; c <= '9'; c++) {
			if (insert(typed, i, (char)c, text))
				try_text(s, text, "a digit left out", 4);
			if (!digit(typed[i]))
				continue;
			sb_copy(text, sizeof text, typed);
			text[i] = (char)c;
			try_text(s, text, "one digit wrong", 5);
		}
		if (!digit(typed[i]))
			continue;
		sb_copy(text, sizeof text, typed);
		memmove(text + i, text + i + 1, strlen(text + i));
		try_text(s, text, "a digit too many", 4);
	}
}

/* ---- on conventions ---- */

/* A value made by arithmetic, written with as many decimals as the typed one. `from`: the reach from which
 * it is tried. */
static void try_made(
	struct search *s, const char *typed, double value, const char *kind, int rank, enum slip_reach from)
{
	if (s->reach < from)
		return;
	const char *point = strchr(typed, '.');
	struct number n = sb_number_of(value, point ? (int)strlen(point + 1) : 0);

	try_text(s, n.text, kind, rank);
}

static void try_azimuth_conventions(struct search *s, const char *typed, double v)
{
	const struct number *declination = &s->c->job->declination;

	try_made(s, typed, fmod(v + 180, 360), "read back to front, 180 degrees round", 2, SLIP_SURE);
	if (!sb_number_given(declination))
		return;
	try_made(s, typed, fmod(v - declination->value + 360, 360), "declination put in already", 2,
		SLIP_LIKELY);
	try_made(s, typed, fmod(v + declination->value + 360, 360), "declination taken out already", 2,
		SLIP_LIKELY);
}

static void try_inclination_conventions(struct search *s, const char *typed, double v)
{
	switch (s->c->job->incline) {
	case INCLINE_DOWN:
		try_made(s, typed, 90 + v, "read from level, not from straight down", 1, SLIP_SURE);
		try_made(s, typed, 90 - v, "read from level, sign lost", 1, SLIP_SURE);
		try_made(s, typed, 180 - v, "on the other side of level", 1, SLIP_ANY);
		return;
	case INCLINE_LEVEL:
		try_made(s, typed, -v, "sign slipped", 0, SLIP_LIKELY);
		try_made(s, typed, v - 90, "read from straight down, not from level", 1, SLIP_SURE);
		try_made(s, typed, sb_deg(atan(v / 100)), "in percent, not in degrees", 3, SLIP_LIKELY);
		return;
	case INCLINE_GRADE:
		break;
	}
	try_made(s, typed, -v, "sign slipped", 0, SLIP_LIKELY);
	if (fabs(v) < 89)
		try_made(s, typed, 100 * tan(sb_rad(v)), "in degrees, not in percent", 3, SLIP_LIKELY);
	if (v > 1 && v < 179)
		try_made(s, typed, 100 * tan(sb_rad(v - 90)), "read from straight down, not in percent", 3,
			SLIP_SURE);
}

static void try_angle(struct search *s, bool inclination)
{
	const struct number *typed = inclination ? &s->c->trial->inclination : &s->c->trial->azimuth;

	s->inclination = inclination;
	try_swapped(s, typed->text);
	try_point(s, typed->text);
	try_doubled(s, typed->text);
	if (inclination)
		try_inclination_conventions(s, typed->text, typed->value);
	else
		try_azimuth_conventions(s, typed->text, typed->value);
	if (s->reach == SLIP_ANY)
		try_wild(s, typed->text);
}

/* Both angles, each in the other's place. */
static void try_exchanged(struct search *s)
{
	const struct reading *trial = s->c->trial;
	double azimuth = trial->inclination.value;
	struct slip slip = {
		.value = trial->azimuth, .kind = "inclination and azimuth exchanged", .field = "inclination"
	};

	s->inclination = true;
	if (!possible(s, slip.value.value))
		return;
	slip.turn = sb_slip_turn(s->c, slip.value.value, azimuth < 0 ? 360 + azimuth : azimuth);
	offer(s, &slip, 0);
}

bool sb_slip_find(const struct slip_case *c, enum slip_reach reach, struct slip *out)
{
	struct search s = { .c = c, .reach = reach };

	try_angle(&s, true);
	try_angle(&s, false);
	try_exchanged(&s);
	if (s.found)
		*out = s.best;
	return s.found;
}

/* Slips of the pen undone. Each kind of slip is tried backwards on the text that was typed, and whoever asked
 * judges what comes out: by what is ordinary (here), or by what was expected (slip_likely.c).
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
	void (*visit)(void *context, const struct slip *slip);
	void *context;
};

/* In so many readings each is made. Common practice, no source: half the slips of a hand are on digits; a
 * convention slips once a bore, not once a shift. */
static const struct slip_kind swapped = { "two digits swapped", 0, 2e-3 },
			      point_wrong = { "decimal point in the wrong place", 1, 5e-4 },
			      point_out = { "decimal point left out", 1, 1e-3 },
			      doubled_out = { "a digit left out", 2, 5e-4 },
			      digit_out = { "a digit left out", 4, 1e-3 },
			      digit_wrong = { "one digit wrong", 5, 2e-3 },
			      digit_more = { "a digit too many", 4, 1e-3 },
			      sign = { "sign slipped", 0, 1e-3 },
			      from_level = { "read from level, not from straight down", 1, 5e-4 },
			      sign_lost = { "read from level, sign lost", 1, 2e-4 },
			      other_side = { "on the other side of level", 1, 2e-4 },
			      from_down = { "read from straight down, not from level", 1, 5e-4 },
			      in_percent = { "in percent, not in degrees", 3, 2e-4 },
			      in_degrees = { "in degrees, not in percent", 3, 2e-4 },
			      down_percent = { "read from straight down, not in percent", 3, 2e-4 },
			      reversed = { "read back to front, 180 degrees round", 2, 1e-3 };
const struct slip_kind sb_slip_exchanged = { "inclination and azimuth exchanged", 0, 1e-3 };

static double out_of(double turn, double low, double high)
{
	return fmax(0, fmax(low - turn, turn - high));
}

struct attitude sb_slip_attitude(const struct slip_case *c, double inclination, double azimuth)
{
	enum azimuth_by by = c->trial->azimuth_by;

	return sb_attitude(sb_frame_inc(c->frame, inclination),
		by == AZIMUTH_BY_HOLD ? c->last.azi_rad : sb_frame_azi_by(c->frame, by, azimuth));
}

struct slip_turn sb_slip_turn(const struct slip_case *c, double inclination, double azimuth)
{
	struct attitude to = sb_slip_attitude(c, inclination, azimuth);
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

/* ways: among how many slips of that kind on what was meant the hand had the choice. */
static void try_text(struct search *s, const char *text, const struct slip_kind *kind, double ways)
{
	const struct reading *trial = s->c->trial;
	double typed = s->inclination ? trial->inclination.value : trial->azimuth.value;
	struct slip slip = {
		.kind = kind,
		.field = s->inclination ? "inclination" : "azimuth",
		.inclination = trial->inclination.value,
		.azimuth = trial->azimuth.value,
		.chance = kind->usual / fmax(ways, 1),
	};

	if (sb_number_parse(text, &slip.value, NULL) || !possible(s, slip.value.value) ||
		slip.value.value == typed)
		return;
	*(s->inclination ? &slip.inclination : &slip.azimuth) = slip.value.value;
	s->visit(s->context, &slip);
}

static bool digit(char c)
{
	return c >= '0' && c <= '9';
}

static double digits_of(const char *typed)
{
	double count = 0;

	for (; *typed; typed++)
		count += digit(*typed);
	return count;
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
		try_text(s, text, &swapped, digits_of(typed) - 1);
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
	const struct slip_kind *kind = point ? &point_wrong : &point_out;

	sb_copy(digits, sizeof digits, typed);
	if (point)
		memmove(digits + (point - typed), digits + (point - typed) + 1, strlen(point));
	for (size_t i = 1; digits[i]; i++)
		if ((digit(digits[i - 1]) || digits[i - 1] == '.') && insert(digits, i, '.', text))
			try_text(s, text, kind, point ? digits_of(typed) : 1);
}

/* "8.4" for "88.4": the second of two alike. */
static void try_doubled(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; typed[i]; i++)
		if (digit(typed[i]) && insert(typed, i, typed[i], text))
			try_text(s, text, &doubled_out, digits_of(typed));
}

/* What any hand can do to any digit: so many values that one of them fits nearly always. */
static void try_wild(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; i <= strlen(typed); i++) {
		for (int c = '0'; c <= '9'; c++) {
			if (insert(typed, i, (char)c, text))
				try_text(s, text, &digit_out, digits_of(typed) + 1);
			if (!digit(typed[i]))
				continue;
			sb_copy(text, sizeof text, typed);
			text[i] = (char)c;
			try_text(s, text, &digit_wrong, 9 * digits_of(typed));
		}
		if (!digit(typed[i]))
			continue;
		sb_copy(text, sizeof text, typed);
		memmove(text + i, text + i + 1, strlen(text + i));
		try_text(s, text, &digit_more, 10 * digits_of(typed));
	}
}

/* ---- on conventions ---- */

/* A value made by arithmetic, written with as many decimals as the typed one. `from`: the reach from which
 * it is tried. */
static void try_made(struct search *s, double value, const struct slip_kind *kind, enum slip_reach from)
{
	const struct reading *trial = s->c->trial;
	const char *typed = s->inclination ? trial->inclination.text : trial->azimuth.text;

	if (s->reach < from)
		return;
	const char *point = strchr(typed, '.');
	struct number n = sb_number_of(value, point ? (int)strlen(point + 1) : 0);

	try_text(s, n.text, kind, 1);
}

static void try_azimuth_conventions(struct search *s)
{
	struct slip_link links[SB_SLIP_LINKS];
	double v = s->c->trial->azimuth.value;

	try_made(s, fmod(v + 180, 360), &reversed, SLIP_SURE);
	size_t count = sb_slip_links(s->c->job, s->c->trial, links);
	for (size_t i = 0; i < count; i++)
		try_made(s, fmod(v + links[i].add_deg + 720, 360), links[i].kind, SLIP_LIKELY);
}

static void try_inclination_conventions(struct search *s)
{
	double v = s->c->trial->inclination.value;

	switch (s->c->job->incline) {
	case INCLINE_DOWN:
		try_made(s, 90 + v, &from_level, SLIP_SURE);
		try_made(s, 90 - v, &sign_lost, SLIP_SURE);
		try_made(s, 180 - v, &other_side, SLIP_ANY);
		return;
	case INCLINE_LEVEL:
		try_made(s, -v, &sign, SLIP_LIKELY);
		try_made(s, v - 90, &from_down, SLIP_SURE);
		try_made(s, sb_deg(atan(v / 100)), &in_percent, SLIP_LIKELY);
		return;
	case INCLINE_GRADE:
		break;
	}
	try_made(s, -v, &sign, SLIP_LIKELY);
	if (fabs(v) < 89)
		try_made(s, 100 * tan(sb_rad(v)), &in_degrees, SLIP_LIKELY);
	if (v > 1 && v < 179)
		try_made(s, 100 * tan(sb_rad(v - 90)), &down_percent, SLIP_SURE);
}

static void try_angle(struct search *s, bool inclination)
{
	const struct number *typed = inclination ? &s->c->trial->inclination : &s->c->trial->azimuth;

	s->inclination = inclination;
	try_swapped(s, typed->text);
	try_point(s, typed->text);
	try_doubled(s, typed->text);
	if (inclination)
		try_inclination_conventions(s);
	else
		try_azimuth_conventions(s);
	if (s->reach == SLIP_ANY)
		try_wild(s, typed->text);
}

/* Both angles, each in the other's place. */
static void try_exchanged(struct search *s)
{
	const struct reading *trial = s->c->trial;
	double azimuth = trial->inclination.value;
	struct slip slip = {
		.kind = &sb_slip_exchanged,
		.field = "inclination",
		.value = trial->azimuth,
		.inclination = trial->azimuth.value,
		.azimuth = azimuth < 0 ? 360 + azimuth : azimuth,
		.chance = sb_slip_exchanged.usual,
	};

	s->inclination = true;
	if (possible(s, slip.value.value))
		s->visit(s->context, &slip);
}

void sb_slip_each(const struct slip_case *c, enum slip_reach reach,
	void (*visit)(void *context, const struct slip *slip), void *context)
{
	struct search s = { .c = c, .reach = reach, .visit = visit, .context = context };

	try_angle(&s, true);
	/* A held azimuth is not used, whatever it says. */
	if (c->trial->azimuth_by == AZIMUTH_BY_HOLD)
		return;
	try_angle(&s, false);
	try_exchanged(&s);
}

/* ---- by what is ordinary ---- */

struct best {
	const struct slip_case *c;
	bool found;
	double score;
	struct slip slip;
	struct slip_turn turn;
};

/* A slip costs a tenth of a degree for each rank, and where two leave the same out of the ordinary, the one
 * that turns less is taken. */
static void offer(void *context, const struct slip *slip)
{
	struct best *b = context;
	struct slip_turn turn = sb_slip_turn(b->c, slip->inclination, slip->azimuth);
	double score = turn.beyond_rad + 0.1 * turn.dogleg_rad + sb_rad(0.1) * slip->kind->rank;

	if (b->found && score >= b->score)
		return;
	*b = (struct best){ b->c, true, score, *slip, turn };
}

bool sb_slip_find(const struct slip_case *c, enum slip_reach reach, struct slip *out, struct slip_turn *turn)
{
	struct best b = { .c = c };

	sb_slip_each(c, reach, offer, &b);
	if (!b.found)
		return false;
	*out = b.slip;
	*turn = b.turn;
	return true;
}

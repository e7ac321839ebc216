/* The fields that a row of the log can carry. One table serves the command line, files, the screen's form,
 * the job file and the man page, so that a field added here is everywhere. */
#include "model/reading.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define AT(member) offsetof(struct reading, member), sizeof(((struct reading *)0)->member)

const struct row_field sb_row_fields[] = {
	{ "joint_length", "joint-length", "joint length", FIELD_NUMBER, AT(joint_length), 0.01, 1000, NULL,
		NULL, "length of this joint, shoulder to shoulder; the tally's when left out" },
	{ "inclination", "inclination", "inclination", FIELD_NUMBER, AT(inclination), -50000, 50000, "", "",
		"inclination as read, in the job's convention" },
	{ "azimuth", "azimuth", "azimuth", FIELD_NUMBER, AT(azimuth), 0, 360, "deg", "deg",
		"azimuth as the tool read it, degrees from 0 to 360" },
	{ "tool_face", "tool-face", "tool face", FIELD_NUMBER, AT(tool_face), 0, 360, "deg", "deg",
		"tool face while sliding, degrees clockwise from high side, looking ahead" },
	{ "slid", "slid", "slid", FIELD_NUMBER, AT(slid), 0, 1000, NULL, NULL,
		"length slid in this joint; the rest was rotated" },
	{ "thrust", "thrust", "thrust", FIELD_NUMBER, AT(thrust), -1e7, 1e7, "kN", "lbf",
		"axial load on the drill string, pushing positive" },
	{ "torque", "torque", "torque", FIELD_NUMBER, AT(torque), 0, 1e7, "kN m", "ft lbf", "rotary torque" },
	{ "flow", "flow", "flow", FIELD_NUMBER, AT(flow), 0, 1e5, "L/min", "gal/min",
		"drilling fluid pumped" },
	{ "standpipe", "standpipe", "standpipe pressure", FIELD_NUMBER, AT(standpipe), 0, 1e5, "kPa", "psi",
		"standpipe pressure" },
	{ "annular", "annular", "annular pressure", FIELD_NUMBER, AT(annular), 0, 1e5, "kPa", "psi",
		"annular pressure, measured at the tool" },
	{ "returns", "returns", "returns", FIELD_RETURNS, AT(returns), 0, 0, "", "",
		"returns: full, partial or none" },
	{ "started", "started", "started", FIELD_CLOCK, AT(started), 0, 0, "", "",
		"local time the joint began, hh:mm" },
	{ "ended", "ended", "ended", FIELD_CLOCK, AT(ended), 0, 0, "", "",
		"local time the joint was down, hh:mm" },
	{ "remarks", "remarks", "remarks", FIELD_TEXT, AT(remarks), 0, 0, "", "", "anything worth keeping" },
};
const size_t sb_row_field_count = sizeof sb_row_fields / sizeof *sb_row_fields;

static const char *const returns_names[] = { "", "full", "partial", "none" };

const char *sb_returns_name(enum returns r)
{
	return returns_names[r];
}

bool sb_reading_taken(const struct reading *r)
{
	return sb_number_given(&r->inclination) && sb_number_given(&r->azimuth);
}

const struct row_field *sb_row_field(const char *name)
{
	for (size_t i = 0; i < sb_row_field_count; i++)
		if (sb_same(sb_row_fields[i].name, name) || sb_same(sb_row_fields[i].option, name))
			return &sb_row_fields[i];
	return NULL;
}

const char *sb_row_field_unit(const struct row_field *f, enum unit unit)
{
	const char *own = unit == UNIT_M ? f->unit_m : f->unit_ft;

	return own ? own : sb_unit_short(unit);
}

/* What it would be if it had been read in the other convention; "" when it fits neither. */
static void other_convention(const struct number *n, enum incline incline, char text[80])
{
	const char *point = strchr(n->text, '.');
	int decimals = point ? (int)strlen(point + 1) : 0;

	text[0] = '\0';
	if (incline == INCLINE_DOWN && n->value >= -90 && n->value < 0)
		snprintf(text, 80, " If it was read from level, it is %.*f here.", decimals, 90 + n->value);
	if (incline == INCLINE_LEVEL && n->value > 90 && n->value <= 180)
		snprintf(text, 80, " If it was read from straight down, it is %.*f here.", decimals,
			n->value - 90);
}

static int check_inclination(const struct number *n, enum incline incline, struct sb_err *err)
{
	double low, high;
	char likely[80];

	sb_incline_range(incline, &low, &high);
	if (n->value >= low && n->value <= high)
		return 0;
	other_convention(n, incline, likely);
	switch (incline) {
	case INCLINE_DOWN:
		return sb_fail(err, SB_RANGE,
			"inclination %s cannot be: this job reads it from straight down, 0 to 180, and 90 is level.%s",
			n->text, likely);
	case INCLINE_LEVEL:
		return sb_fail(err, SB_RANGE,
			"inclination %s cannot be: this job reads it from level, -90 to 90, rising positive.%s",
			n->text, likely);
	case INCLINE_GRADE:
		break;
	}
	return sb_fail(err, SB_RANGE,
		"inclination %s %% cannot be: this job reads it in percent of grade, %.0f to %.0f.", n->text,
		low, high);
}

static int put_number(const struct row_field *f, struct number *to, enum incline incline, const char *typed,
	struct sb_err *err)
{
	struct number n;

	if (sb_number_parse(typed, &n, err))
		return sb_fail_within(err, "%s: ", f->label);
	if (sb_same(f->name, "inclination")) {
		if (check_inclination(&n, incline, err))
			return -1;
	} else if (!(n.value >= f->low && n.value <= f->high)) {
		return sb_fail(err, SB_RANGE, "%s %s cannot be: it lies between %.10g and %.10g.", f->label,
			n.text, f->low, f->high);
	}
	*to = n;
	return 0;
}

/* The text without blanks around it; empty when it does not fit, which nothing takes for a value. */
static void trim(const char *typed, char *word, size_t size)
{
	typed += strspn(typed, " \t");
	size_t length = strlen(typed);
	while (length > 0 && (typed[length - 1] == ' ' || typed[length - 1] == '\t'))
		length--;
	if (length >= size)
		length = 0;
	memcpy(word, typed, length);
	word[length] = '\0';
}

static int put_returns(enum returns *to, const char *typed, struct sb_err *err)
{
	char word[12];

	trim(typed, word, sizeof word);
	for (int i = RETURNS_FULL; i <= RETURNS_NONE; i++)
		if (sb_same_word(word, returns_names[i])) {
			*to = (enum returns)i;
			return 0;
		}
	return sb_fail(err, SB_FORMAT, "returns '%.20s' is not known: write full, partial or none.", typed);
}

/* "7:05", "07:05", "0705" and "705" are all five past seven. Two digits are the minutes: "1:2" may be
 * anything. */
static int put_clock(const struct row_field *f, char to[6], const char *typed, struct sb_err *err)
{
	char word[6];
	int digits[4] = { 0 }, count = 0;

	trim(typed, word, sizeof word);
	size_t length = strlen(word), colon = strcspn(word, ":");
	if (length < 3 || (colon < length && colon != length - 3))
		goto wrong;
	for (size_t i = length; i-- > 0;) {
		if (i == colon)
			continue;
		if (word[i] < '0' || word[i] > '9' || count == 4)
			goto wrong;
		digits[count++] = word[i] - '0';
	}
	int hour = digits[3] * 10 + digits[2], minute = digits[1] * 10 + digits[0];
	if (count < 3 || hour > 23 || minute > 59)
		goto wrong;
	snprintf(to, 6, "%02u:%02u", (unsigned)hour % 100, (unsigned)minute % 100);
	return 0;
wrong:
	return sb_fail(
		err, SB_FORMAT, "%s: '%.20s' is not a time of day: write it as 14:32.", f->label, typed);
}

static int put_text(const struct row_field *f, char *to, size_t size, const char *typed, struct sb_err *err)
{
	if (strlen(typed) >= size)
		return sb_fail(err, SB_RANGE, "%s: too long by %zu characters; %zu fit.", f->label,
			strlen(typed) - size + 1, size - 1);
	if (!sb_utf8_valid(typed, strlen(typed)))
		return sb_fail(err, SB_FORMAT, "%s: this is not UTF-8 text.", f->label);
	sb_copy(to, size, typed);
	sb_utf8_tame(to);
	return 0;
}

int sb_row_field_put(const struct row_field *f, struct reading *r, enum incline incline, const char *typed,
	struct sb_err *err)
{
	char *to = (char *)r + f->offset;

	if (typed[strspn(typed, " \t")] == '\0') {
		memset(to, 0, f->size);
		return 0;
	}
	switch (f->type) {
	case FIELD_NUMBER:
		return put_number(f, (struct number *)(void *)to, incline, typed, err);
	case FIELD_RETURNS:
		return put_returns((enum returns *)(void *)to, typed, err);
	case FIELD_CLOCK:
		return put_clock(f, to, typed, err);
	case FIELD_TEXT:
		break;
	}
	return put_text(f, to, f->size, typed, err);
}

const char *sb_row_field_get(const struct row_field *f, const struct reading *r)
{
	const char *from = (const char *)r + f->offset;

	switch (f->type) {
	case FIELD_NUMBER:
		return ((const struct number *)(const void *)from)->text;
	case FIELD_RETURNS:
		return returns_names[*(const enum returns *)(const void *)from];
	case FIELD_CLOCK:
	case FIELD_TEXT:
		break;
	}
	return from;
}

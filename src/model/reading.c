/* The fields that a row of the log can carry. One table serves the command line, files, the screen's form,
 * the job file and the man page, so that a field added here is everywhere. */
#include "model/reading.h"

#include "base/str.h"
#include "model/pushes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define AT(member) offsetof(struct reading, member), sizeof(((struct reading *)0)->member)

static const char *const returns_names[] = { "", "full", "partial", "none", NULL };
static const char *const azimuth_names[] = { "", "gyro", "coil", "hold", NULL };

#define NUMBER(name, option, label, low, high, unit_m, unit_ft, help) \
	{ \
#name, option, label, FIELD_NUMBER, AT(name), low, high, unit_m, unit_ft, help, NULL, NULL, \
			false \
	}
#define AXIS(name, option, label, help) \
	{ \
#name, option, label, FIELD_NUMBER, AT(name), -1e7, 1e7, "", "", help, NULL, NULL, true \
	}
#define CHOICE(name, option, label, choices, words, help) \
	{ \
#name, option, label, FIELD_CHOICE, AT(name), 0, 0, "", "", help, choices, words, false \
	}
#define CLOCK(name, help) \
	{ \
#name, #name, #name, FIELD_CLOCK, AT(name), 0, 0, "", "", help, NULL, NULL, false \
	}
#define TEXT(name, help) \
	{ \
#name, #name, #name, FIELD_TEXT, AT(name), 0, 0, "", "", help, NULL, NULL, false \
	}

const struct row_field sb_row_fields[] = {
	NUMBER(joint_length, "joint-length", "joint length", 0.01, 1000, NULL, NULL,
		"length of this joint, shoulder to shoulder; the tally's when left out"),
	NUMBER(inclination, "inclination", "inclination", -50000, 50000, "", "",
		"inclination as read, in the job's convention"),
	NUMBER(azimuth, "azimuth", "azimuth", 0, 360, "deg", "deg",
		"azimuth as the tool read it, degrees from 0 to 360"),
	NUMBER(tool_face, "tool-face", "tool face", 0, 360, "deg", "deg",
		"tool face while sliding, degrees clockwise from high side, looking ahead"),
	NUMBER(slid, "slid", "slid", 0, 1000, NULL, NULL, "length slid in this joint; the rest was rotated"),
	NUMBER(thrust, "thrust", "thrust", -1e7, 1e7, "kN", "lbf",
		"axial load on the drill string, pushing positive"),
	NUMBER(torque, "torque", "torque", 0, 1e7, "kN m", "ft lbf", "rotary torque"),
	NUMBER(flow, "flow", "flow", 0, 1e5, "L/min", "gal/min", "drilling fluid pumped"),
	NUMBER(standpipe, "standpipe", "standpipe pressure", 0, 1e5, "kPa", "psi", "standpipe pressure"),
	NUMBER(annular, "annular", "annular pressure", 0, 1e5, "kPa", "psi",
		"annular pressure, measured at the tool"),
	CHOICE(returns, "returns", "returns", "full|partial|none", returns_names,
		"returns: full, partial or none"),
	CLOCK(started, "local time the joint began, hh:mm"),
	CLOCK(ended, "local time the joint was down, hh:mm"),
	TEXT(remarks, "anything worth keeping"),
	CHOICE(azimuth_by, "azimuth-by", "azimuth by", "gyro|coil|hold", azimuth_names,
		"where steel or current disturbs the magnetic azimuth: gyro (from true north), coil (from grid north), hold (the heading before is carried on)"),
	TEXT(pushes,
		"slides that were not even, each FROM:LENGTH@FACE from the joint's start, like 0:8@60; 20:6@75"),
	AXIS(total_gravity, "total-gravity", "total gravity",
		"total gravity that the tool showed, in its unit"),
	NUMBER(total_field, "total-field", "total field", 0, 1e7, "", "",
		"total magnetic field that the tool showed, in its unit"),
	NUMBER(dip, "dip", "dip", -90, 90, "deg", "deg",
		"dip of the field that the tool showed, below level positive"),
	AXIS(gravity_x, "gravity-x", "gravity x", "gravity along the tool's x axis, in its unit"),
	AXIS(gravity_y, "gravity-y", "gravity y", "gravity along the tool's y axis"),
	AXIS(gravity_z, "gravity-z", "gravity z", "gravity along the tool's z axis"),
	AXIS(field_x, "field-x", "field x", "magnetic field along the tool's x axis, in its unit"),
	AXIS(field_y, "field-y", "field y", "magnetic field along the tool's y axis"),
	AXIS(field_z, "field-z", "field z", "magnetic field along the tool's z axis"),
};
const size_t sb_row_field_count = sizeof sb_row_fields / sizeof *sb_row_fields;

const char *sb_returns_name(enum returns r)
{
	return returns_names[r];
}

bool sb_reading_taken(const struct reading *r)
{
	return sb_number_given(&r->inclination) &&
		(sb_number_given(&r->azimuth) || r->azimuth_by == AZIMUTH_BY_HOLD);
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

/* "full, partial or none" */
static void list_words(const struct row_field *f, char *text, size_t size)
{
	size_t at = 0;

	for (int i = 1; f->words[i]; i++)
		at += (size_t)snprintf(text + at, size - at, "%s%s",
			i == 1			  ? ""
				: f->words[i + 1] ? ", "
						  : " or ",
			f->words[i]);
}

static int put_choice(const struct row_field *f, int *to, const char *typed, struct sb_err *err)
{
	char word[12], words[64];

	trim(typed, word, sizeof word);
	for (int i = 1; f->words[i]; i++)
		if (sb_same_word(word, f->words[i])) {
			*to = i;
			return 0;
		}
	list_words(f, words, sizeof words);
	return sb_fail(err, SB_FORMAT, "%s '%.20s' is not known: write %s.", f->label, typed, words);
}

static int put_clock(const struct row_field *f, char to[SB_CLOCK_TEXT], const char *typed, struct sb_err *err)
{
	return sb_time_clock(typed, to, err) ? sb_fail_within(err, "%s: ", f->label) : 0;
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

/* Pushes are text that has to be understood. */
static int check_text(const struct row_field *f, const char *typed, struct sb_err *err)
{
	struct pushes p;

	return sb_same(f->name, "pushes") ? sb_pushes_parse(typed, &p, err) : 0;
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
	case FIELD_CHOICE:
		return put_choice(f, (int *)(void *)to, typed, err);
	case FIELD_CLOCK:
		return put_clock(f, to, typed, err);
	case FIELD_TEXT:
		break;
	}
	return check_text(f, typed, err) || put_text(f, to, f->size, typed, err) ? -1 : 0;
}

const char *sb_row_field_get(const struct row_field *f, const struct reading *r)
{
	const char *from = (const char *)r + f->offset;

	switch (f->type) {
	case FIELD_NUMBER:
		return ((const struct number *)(const void *)from)->text;
	case FIELD_CHOICE: /* the enums of choices have the size of an int */
		return f->words[*(const int *)(const void *)from];
	case FIELD_CLOCK:
	case FIELD_TEXT:
		break;
	}
	return from;
}

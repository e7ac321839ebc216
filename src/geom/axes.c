/* Signed permutations: as text, as numbers, and done to a vector. */
#include "geom/axes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

double sb_triad_dot(struct triad a, struct triad b)
{
	return a.x * b.x + a.y * b.y + a.z * b.z;
}

struct triad sb_triad_scale(struct triad a, double k)
{
	return (struct triad){ a.x * k, a.y * k, a.z * k };
}

double sb_triad_length(struct triad a)
{
	return hypot(hypot(a.x, a.y), a.z);
}

/* ---- text ---- */

static const char *skip_gap(const char *at)
{
	while (*at == ' ' || *at == ',' || *at == '\t')
		at++;
	return at;
}

/* One axis word; NULL when it is none. */
static const char *take_axis(const char *at, int *axis, int *sign)
{
	static const char letters[] = "xyzXYZ";

	at = skip_gap(at);
	*sign = *at == '-' ? -1 : 1;
	if (*at == '-' || *at == '+')
		at++;
	const char *found = *at ? strchr(letters, *at) : NULL;
	if (!found)
		return NULL;
	*axis = (int)(found - letters) % 3;
	return at + 1;
}

static bool take_end(const char *at, bool *up)
{
	at = skip_gap(at);
	*up = strncmp(at, "up", 2) == 0;
	if (*up)
		at += 2;
	else if (strncmp(at, "down", 4) == 0)
		at += 4;
	return *skip_gap(at) == '\0';
}

enum axes_status sb_axes_parse(const char *text, struct sensor_axes *out)
{
	struct sensor_axes axes;
	const char *at = text;

	for (int i = 0; i < 3; i++) {
		at = take_axis(at, &axes.axis[i], &axes.sign[i]);
		if (!at)
			return AXES_FORM;
	}
	if (!take_end(at, &axes.gravity_up))
		return AXES_FORM;
	if (axes.axis[0] == axes.axis[1] || axes.axis[1] == axes.axis[2] || axes.axis[2] == axes.axis[0])
		return AXES_TWICE;
	if (sb_axes_hand(&axes) < 0)
		return AXES_MIRRORED;
	*out = axes;
	return AXES_OK;
}

const char *sb_axes_fault(enum axes_status status)
{
	switch (status) {
	case AXES_FORM:
		return "needs the tool's axis for each of x, y and z, such as \"x y z\" or \"-y x z\", and may end "
		       "in \"up\"";
	case AXES_TWICE:
		return "names one of the tool's axes twice; each of x, y and z belongs in it once";
	case AXES_MIRRORED:
		return "is a mirror image, which no turn of a tool makes; one sign is wrong, or two axes are exchanged";
	case AXES_OK:
		break;
	}
	return "";
}

void sb_axes_text(const struct sensor_axes *axes, char out[AXES_TEXT])
{
	char *at = out;

	for (int i = 0; i < 3; i++) {
		if (i > 0)
			*at++ = ' ';
		if (axes->sign[i] < 0)
			*at++ = '-';
		*at++ = "xyz"[axes->axis[i]];
	}
	snprintf(at, AXES_TEXT - (size_t)(at - out), "%s", axes->gravity_up ? " up" : "");
}

/* ---- numbers ---- */

struct triad sb_axes_turn(const struct sensor_axes *axes, struct triad t)
{
	const double of[3] = { t.x, t.y, t.z };

	return (struct triad){
		axes->sign[0] * of[axes->axis[0]],
		axes->sign[1] * of[axes->axis[1]],
		axes->sign[2] * of[axes->axis[2]],
	};
}

/* The hand of a permutation: 1 when each axis follows the one before in the round x, y, z. */
int sb_axes_hand(const struct sensor_axes *axes)
{
	int round = (axes->axis[1] - axes->axis[0] + 3) % 3 == 1 ? 1 : -1;
	return round * axes->sign[0] * axes->sign[1] * axes->sign[2];
}

struct sensor_axes sb_axes_nth(int which)
{
	static const int orders[6][3] = { { 0, 1, 2 }, { 1, 0, 2 }, { 0, 2, 1 }, { 2, 1, 0 }, { 1, 2, 0 },
		{ 2, 0, 1 } };
	struct sensor_axes axes = { .gravity_up = false };

	for (int i = 0; i < 3; i++) {
		axes.axis[i] = orders[which / 8][i];
		axes.sign[i] = which >> i & 1 ? -1 : 1;
	}
	return axes;
}

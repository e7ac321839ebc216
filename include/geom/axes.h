/* Which way the axes of a tool's sensors point, and how they are turned into ours.
 *
 * Ours, looked at from behind, along the hole towards the bit (z goes into the page):
 *
 *                 x   the tool's mark: the scribe line that tool face is read at
 *                 |
 *                 |
 *                (z)------ y        right-handed: x across y is z
 *
 * Tool face 0: x is at the high side. Tool face 90: x is to the right, where y was.
 *
 * Gravity is shown as the pull of the earth, downwards: hung straight down, z reads +1 g. An accelerometer at
 * rest shows the reverse, the push that holds it up; a tool that hands that on has the word `up` among its
 * axes.
 */
#ifndef SB_GEOM_AXES_H
#define SB_GEOM_AXES_H

#include <stdbool.h>

/* Three components along a tool's axes, in any unit. */
struct triad {
	double x, y, z;
};

double sb_triad_dot(struct triad a, struct triad b);
struct triad sb_triad_scale(struct triad a, double k);
double sb_triad_length(struct triad a); /* no overflow before the components themselves are near it */

/* Our x, y and z in turn: which of the tool's axes (0 x, 1 y, 2 z) each is, and its sign (1 or -1). */
struct sensor_axes {
	int axis[3], sign[3];
	bool gravity_up; /* the tool shows gravity upwards, as a bare accelerometer does */
};

#define AXES_OURS ((struct sensor_axes){ { 0, 1, 2 }, { 1, 1, 1 }, false })

enum axes_status {
	AXES_OK = 0,
	AXES_FORM = -1,	    /* not three of x, y, z */
	AXES_TWICE = -2,    /* one of the tool's axes twice */
	AXES_MIRRORED = -3, /* determinant -1: a mirror image, which no turn of a tool makes */
};

/* Purpose:  axes from text: three words for our x, y and z, each one of the tool's x, y, z with a sign before
 *           it if it is reversed, then `up` if the tool shows gravity upwards (`down` may be said).
 * Given:    text   "x y z", "-y x z", "Y,-X,Z up"; spaces or commas between
 * Returned: out    unchanged on failure
 * Status:   AXES_OK, AXES_FORM, AXES_TWICE, AXES_MIRRORED. */
enum axes_status sb_axes_parse(const char *text, struct sensor_axes *out);

/* What is wrong and what would be right, as the end of a sentence; "" for AXES_OK. */
const char *sb_axes_fault(enum axes_status status);

/* The text that parses to the same axes: "-y x z up". */
#define AXES_TEXT 16
void sb_axes_text(const struct sensor_axes *axes, char out[AXES_TEXT]);

/* The tool's components as ours. gravity_up plays no part: sb_sensor_turn applies it. */
struct triad sb_axes_turn(const struct sensor_axes *axes, struct triad t);

/* The signed permutations, each once, `which` 0..AXES_COUNT - 1: first as the axes are, signs alone changed
 * before letters. Half of them are mirror images. */
#define AXES_COUNT 48
struct sensor_axes sb_axes_nth(int which);
int sb_axes_hand(const struct sensor_axes *axes); /* determinant: 1, or -1 for a mirror image */

#endif

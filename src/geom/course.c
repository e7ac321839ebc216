/* The course by its stretches. A walker goes along with two axes that turn only as the hole does (no spin
 * about it), so a constant curvature in them is an arc of a circle. What has to be added so that the walk
 * ends at the second attitude is found by walking: the miss at the end, spread over the length, is nearly all
 * that is left to add, and each round leaves about the square of the turn of it.
 */
#include "geom/course.h"

#include "geom/angle.h"

#include <math.h>
#include <stdbool.h>

#define ROUNDS 20	 /* four do it for what a drill string turns */
#define CLOSED 1e-14	 /* rad: what is left of the miss */
#define TWIST_MOST 0.005 /* rad that the high side may turn about the hole in one piece */
#define PIECES_MOST 64

struct walk {
	struct vec3 at, ahead, up, right;
};

static struct walk begin(const struct attitude *a)
{
	double sine, cosine;

	sb_sin_cos(a->azi_rad, &sine, &cosine);
	return (struct walk){
		.ahead = a->heading,
		.up = { a->cos_inc * cosine, a->cos_inc * sine, a->sin_inc },
		.right = { -sine, cosine, 0 },
	};
}

/* Sine and 1 - cosine, by series for the small angles that they nearly always are (error under 1e-17). */
static void turn_of(double angle, double *sine, double *versine)
{
	double y = angle * angle;

	if (y < 0.0016) {
		*sine = angle * (1 - y / 6 * (1 - y / 20 * (1 - y / 42)));
		*versine = y / 2 * (1 - y / 12 * (1 - y / 30 * (1 - y / 56)));
		return;
	}
	double half = sin(angle / 2);
	*sine = sin(angle);
	*versine = 2 * half * half;
}

/* Along an arc that turns by up and right, rad per m, in the walker's own axes. */
static void go(struct walk *w, double up, double right, double length_m)
{
	double rate = sqrt(up * up + right * right), sine, versine;

	if (!(rate > 0)) {
		w->at = sb_vec3_add(w->at, sb_vec3_scale(w->ahead, length_m));
		return;
	}
	double a = up / rate, b = right / rate;
	turn_of(rate * length_m, &sine, &versine);
	struct vec3 aside = sb_vec3_add(sb_vec3_scale(w->up, a), sb_vec3_scale(w->right, b));
	struct vec3 back = sb_vec3_add(sb_vec3_scale(aside, versine), sb_vec3_scale(w->ahead, sine));
	w->at = sb_vec3_add(w->at,
		sb_vec3_add(sb_vec3_scale(w->ahead, sine / rate), sb_vec3_scale(aside, versine / rate)));
	w->ahead = sb_vec3_add(
		w->ahead, sb_vec3_sub(sb_vec3_scale(aside, sine), sb_vec3_scale(w->ahead, versine)));
	w->up = sb_vec3_sub(w->up, sb_vec3_scale(back, a));
	w->right = sb_vec3_sub(w->right, sb_vec3_scale(back, b));
}

/* What a stretch is expected to turn, in the walker's axes: the high side lies somewhere in them. */
static void in_axes(const struct walk *w, const struct course_stretch *s, double *up, double *right)
{
	double level = sqrt(w->ahead.n * w->ahead.n + w->ahead.e * w->ahead.e), cosine = 1, sine = 0;

	if (level > 0) {
		double k = -w->ahead.u / level;
		struct vec3 high = { w->ahead.n * k, w->ahead.e * k, level };
		cosine = sb_vec3_dot(high, w->up);
		sine = sb_vec3_dot(high, w->right);
	}
	*up = s->up * cosine - s->right * sine;
	*right = s->up * sine + s->right * cosine;
}

/* How many pieces a stretch needs, so that the high side hardly turns about the hole in one. */
static int pieces(
	const struct walk *w, const struct course_stretch *s, const struct course *add, double length_m)
{
	double level = sqrt(w->ahead.n * w->ahead.n + w->ahead.e * w->ahead.e);
	double rate = fabs(s->up) + fabs(s->right) + fabs(add->up) + fabs(add->right);
	double twist = rate * length_m * fabs(w->ahead.u) / fmax(level, 1e-3);

	return twist < TWIST_MOST ? 1 : (int)fmin(ceil(twist / TWIST_MOST), PIECES_MOST);
}

/* A piece turns as the axes lie at its middle. */
static void go_stretch(
	struct walk *w, const struct course_stretch *s, const struct course *add, double length_m)
{
	int count = pieces(w, s, add, length_m);
	double piece = length_m / count, up, right;

	for (int i = 0; i < count; i++) {
		struct walk middle = *w;
		in_axes(w, s, &up, &right);
		go(&middle, up + add->up, right + add->right, piece / 2);
		in_axes(&middle, s, &up, &right);
		go(w, up + add->up, right + add->right, piece);
	}
}

/* fit: metres of the course in one of the stretches'. */
static struct walk walk_to(const struct attitude *from, const struct course *add,
	const struct course_stretch *stretch, size_t count, double fit, double s_m)
{
	struct walk w = begin(from);
	double left = s_m;

	for (size_t i = 0; i < count && left > 0; i++) {
		double length = fmin(stretch[i].length_m * fit, left);
		if (i + 1 == count)
			length = left;
		go_stretch(&w, &stretch[i], add, length);
		left -= length;
	}
	return w;
}

/* How far a heading is from the walker's, as a turn in his axes. Returns its size. */
static double miss(const struct walk *w, struct vec3 heading, double *up, double *right)
{
	double a = sb_vec3_dot(heading, w->up), b = sb_vec3_dot(heading, w->right),
	       sine = sqrt(a * a + b * b);
	double angle = atan2(sine, sb_vec3_dot(heading, w->ahead));

	*up = sine > 0 ? angle * (a / sine) : 0;
	*right = sine > 0 ? angle * (b / sine) : 0;
	return angle;
}

static bool even(const struct course_stretch *stretch, size_t count)
{
	for (size_t i = 1; i < count; i++)
		if (stretch[i].up != stretch[0].up || stretch[i].right != stretch[0].right)
			return false;
	return true;
}

static bool upright(const struct attitude *a)
{
	return a->sin_inc < SB_COURSE_UPRIGHT;
}

/* Length of the stretches together, and what they turn in all; false when one is not a number. */
static bool measure(const struct course_stretch *stretch, size_t count, double *length_m, double *turn)
{
	*length_m = *turn = 0;
	for (size_t i = 0; i < count; i++) {
		if (!(stretch[i].length_m >= 0) || !isfinite(stretch[i].up) || !isfinite(stretch[i].right))
			return false;
		*length_m += stretch[i].length_m;
		*turn += stretch[i].length_m * hypot(stretch[i].up, stretch[i].right);
	}
	return isfinite(*length_m);
}

/* Finds what has to be added; false when it does not settle. */
static bool close_course(const struct attitude *from, const struct attitude *to,
	const struct course_stretch *stretch, size_t count, double fit, struct course *c)
{
	struct walk start = begin(from);
	double up, right;

	miss(&start, to->heading, &c->up, &c->right);
	for (size_t i = 0; i < count; i++) {
		c->up -= stretch[i].up * stretch[i].length_m * fit;
		c->right -= stretch[i].right * stretch[i].length_m * fit;
	}
	c->up /= c->length_m;
	c->right /= c->length_m;
	for (int i = 0; i < ROUNDS; i++) {
		struct walk w = walk_to(from, c, stretch, count, fit, c->length_m);
		c->step = w.at;
		if (miss(&w, to->heading, &up, &right) <= CLOSED)
			return true;
		c->up += up / c->length_m;
		c->right += right / c->length_m;
	}
	return false;
}

enum course_status sb_course_between(const struct attitude *from, const struct attitude *to, double length_m,
	const struct course_stretch *stretch, size_t count, struct course *out)
{
	double length, turn;
	struct arc arc;

	if (sb_arc_between(from, to, length_m, &arc) == ARC_RANGE || !measure(stretch, count, &length, &turn))
		return COURSE_RANGE;
	struct course c = { .length_m = length_m, .step = arc.step, .end = to->heading }, laid = c;
	enum course_status status = COURSE_OK;
	if (even(stretch, count) || !(length > 0) || !(length_m > 0))
		status = COURSE_EVEN;
	else if (!(turn * (length_m / length) <= SB_COURSE_MOST) || arc.dogleg_rad > SB_COURSE_MOST ||
		upright(from) || upright(to) ||
		!close_course(from, to, stretch, count, length_m / length, &laid))
		status = COURSE_WILD;
	if (status == COURSE_OK) {
		c = laid;
		c.shift = sb_vec3_sub(c.step, arc.step);
	}
	*out = c;
	return status;
}

void sb_course_at(const struct attitude *from, const struct course *course,
	const struct course_stretch *stretch, size_t count, double s_m, struct vec3 *offset,
	struct vec3 *heading)
{
	struct vec3 at = course->step, ahead = course->end;

	if (s_m != course->length_m) {
		double length, turn;
		measure(stretch, count, &length, &turn);
		struct walk w = walk_to(from, course, stretch, count, course->length_m / length, s_m);
		at = w.at;
		ahead = w.ahead;
	}
	if (offset)
		*offset = at;
	if (heading)
		*heading = ahead;
}

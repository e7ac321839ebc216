/* Gravity gives the plumb line, field gives magnetic north across it: east is down across field. Everything
 * is a component of the hole's axis, or of the mark, in those directions, taken in the tool's own frame.
 */
#include "geom/sensor.h"

#include "geom/angle.h"

#include <math.h>

/* Directions nearer than this are one and the same, radians: a thousand times the rounding of components that
 * were themselves computed. */
#define SAME 1e-12

struct sensor_vectors sb_sensor_turn(const struct sensor_axes *axes, const struct sensor_vectors *tool)
{
	struct triad gravity = sb_axes_turn(axes, tool->gravity);

	return (struct sensor_vectors){
		.gravity = sb_triad_scale(gravity, axes->gravity_up ? -1 : 1),
		.field = sb_axes_turn(axes, tool->field),
	};
}

/* Unit vectors, their lengths, and the sines that decide what can be told. */
struct pair {
	struct triad down, field;
	double gravity, total;
	double level;	    /* sine of the angle between hole and plumb line */
	double horizontal;  /* horizontal share of the field */
	double across;	    /* share of the field square to the hole */
	double east, north; /* of the hole's axis: times level and horizontal */
};

static bool finite_triad(struct triad t)
{
	return isfinite(t.x) && isfinite(t.y) && isfinite(t.z);
}

static struct triad cross(struct triad a, struct triad b)
{
	return (struct triad){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

static struct triad unit(struct triad t, double length)
{
	return (struct triad){ t.x / length, t.y / length, t.z / length };
}

static enum sensor_status refusal(const struct sensor_vectors *v)
{
	if (!finite_triad(v->gravity) || !finite_triad(v->field))
		return SENSOR_RANGE;
	double gravity = sb_triad_length(v->gravity), field = sb_triad_length(v->field);
	if (!isfinite(gravity) || !isfinite(field))
		return SENSOR_RANGE;
	/* subnormal numbers have too few digits left to be a direction */
	if (!isnormal(gravity))
		return SENSOR_NO_GRAVITY;
	return isnormal(field) ? SENSOR_OK : SENSOR_NO_FIELD;
}

static enum sensor_status told(const struct pair *p)
{
	if (p->level <= SAME)
		return SENSOR_PLUMB;
	if (p->horizontal <= SAME)
		return SENSOR_POLAR;
	return p->across <= SAME ? SENSOR_ALONG : SENSOR_OK;
}

static enum sensor_status take(const struct sensor_vectors *v, struct pair *p)
{
	enum sensor_status status = refusal(v);
	if (status < 0)
		return status;
	p->gravity = sb_triad_length(v->gravity);
	p->total = sb_triad_length(v->field);
	p->down = unit(v->gravity, p->gravity);
	p->field = unit(v->field, p->total);
	struct triad d = p->down, f = p->field, east = cross(d, f);
	p->level = hypot(d.x, d.y);
	p->horizontal = sb_triad_length(east);
	p->across = hypot(f.x, f.y);
	p->east = east.z;
	p->north = f.z * (d.x * d.x + d.y * d.y) - d.z * (d.x * f.x + d.y * f.y);
	return told(p);
}

enum sensor_status sb_sensor_attitude(const struct sensor_vectors *v, struct sensor_attitude *out)
{
	struct pair p;
	enum sensor_status status = take(v, &p);
	if (status < 0)
		return status;
	bool face = p.level > SAME, azi = face && p.horizontal > SAME, magnetic = p.across > SAME;
	*out = (struct sensor_attitude){
		.inc_rad = atan2(p.level, p.down.z),
		.azi_rad = azi ? sb_wrap_turn(atan2(p.east, p.north)) : 0,
		.face_rad = face ? sb_wrap_turn(atan2(p.down.y, -p.down.x)) : 0,
		.magnetic_face_rad = magnetic ? sb_wrap_turn(atan2(-p.field.y, p.field.x)) : 0,
		.gravity = p.gravity,
		.field = p.total,
		.dip_rad = atan2(sb_triad_dot(p.down, p.field), p.horizontal),
		.azi_known = azi,
		.face_known = face,
		.magnetic_face_known = magnetic,
	};
	return status;
}

/* ---- and back ---- */

static enum sensor_status attitude_refusal(const struct sensor_attitude *a)
{
	if (!isfinite(a->azi_rad) || !isfinite(a->face_rad) || !(a->inc_rad >= 0 && a->inc_rad <= SB_PI) ||
		!(fabs(a->dip_rad) <= SB_PI / 2) || !isfinite(a->gravity) || !isfinite(a->field))
		return SENSOR_RANGE;
	if (!(a->gravity > 0))
		return SENSOR_NO_GRAVITY;
	return a->field > 0 ? SENSOR_OK : SENSOR_NO_FIELD;
}

/* From components to high side, right and ahead into the tool's frame: turned back by the tool face. */
static struct triad rolled(double high, double right, double ahead, double face_rad)
{
	double s, c;
	sb_sin_cos(face_rad, &s, &c);
	return (struct triad){ high * c + right * s, right * c - high * s, ahead };
}

enum sensor_status sb_sensor_vectors(const struct sensor_attitude *a, struct sensor_vectors *out)
{
	enum sensor_status status = attitude_refusal(a);
	if (status < 0)
		return status;
	double si, ci, sa, ca, sd, cd;
	sb_sin_cos(a->inc_rad, &si, &ci);
	sb_sin_cos(a->azi_rad, &sa, &ca);
	sb_sin_cos(a->dip_rad, &sd, &cd);
	struct triad down = rolled(-si, 0, ci, a->face_rad);
	struct triad field = rolled(cd * ci * ca - sd * si, -cd * sa, cd * si * ca + sd * ci, a->face_rad);
	out->gravity = sb_triad_scale(down, a->gravity);
	out->field = sb_triad_scale(field, a->field);
	return SENSOR_OK;
}

/* ---- slopes ---- */

static struct triad blend(struct triad a, double ka, struct triad b, double kb)
{
	return (struct triad){ a.x * ka + b.x * kb, a.y * ka + b.y * kb, a.z * ka + b.z * kb };
}

/* All at unit length: an angle does not change with a vector's length, so its slope goes as 1 / length.
 * azimuth = atan2(S, C), S = |d| (d x f).z, C = f.z (d.x^2 + d.y^2) - d.z (d.x f.x + d.y f.y). */
static struct sensor_vectors azimuth_slope(const struct pair *p)
{
	struct triad d = p->down, f = p->field;
	double s = p->east, c = p->north, square = s * s + c * c;
	struct triad s_d = { d.x * s + f.y, d.y * s - f.x, d.z * s }, s_f = { -d.y, d.x, 0 };
	struct triad c_d = { 2 * f.z * d.x - d.z * f.x, 2 * f.z * d.y - d.z * f.y, -(d.x * f.x + d.y * f.y) };
	struct triad c_f = { -d.z * d.x, -d.z * d.y, p->level * p->level };

	return (struct sensor_vectors){
		.gravity = blend(s_d, c / square, c_d, -s / square),
		.field = blend(s_f, c / square, c_f, -s / square),
	};
}

static struct sensor_vectors dip_slope(const struct pair *p)
{
	double sine = sb_triad_dot(p->down, p->field), k = 1 / p->horizontal;

	return (struct sensor_vectors){
		.gravity = blend(p->field, k, p->down, -sine * k),
		.field = blend(p->down, k, p->field, -sine * k),
	};
}

static struct sensor_vectors per_unit(struct sensor_vectors slope, const struct pair *p)
{
	slope.gravity = sb_triad_scale(slope.gravity, 1 / p->gravity);
	slope.field = sb_triad_scale(slope.field, 1 / p->total);
	return slope;
}

enum sensor_status sb_sensor_slopes(const struct sensor_vectors *v, struct sensor_slopes *out)
{
	struct pair p;
	enum sensor_status status = take(v, &p);
	if (status != SENSOR_OK && status != SENSOR_ALONG)
		return status;
	struct triad d = p.down;
	double level = p.level, square = level * level;
	struct sensor_vectors inc = { .gravity = { d.z * d.x / level, d.z * d.y / level, -level } };
	struct sensor_vectors face = { .gravity = { d.y / square, -d.x / square, 0 } };
	out->inc = per_unit(inc, &p);
	out->azi = per_unit(azimuth_slope(&p), &p);
	out->face = per_unit(face, &p);
	out->dip = per_unit(dip_slope(&p), &p);
	return status;
}

static double spread(const struct sensor_vectors *slope, const struct sensor_vectors *sigma)
{
	struct triad g = { slope->gravity.x * sigma->gravity.x, slope->gravity.y * sigma->gravity.y,
		slope->gravity.z * sigma->gravity.z };
	struct triad f = { slope->field.x * sigma->field.x, slope->field.y * sigma->field.y,
		slope->field.z * sigma->field.z };
	return hypot(sb_triad_length(g), sb_triad_length(f));
}

enum sensor_status sb_sensor_sigmas(
	const struct sensor_vectors *v, const struct sensor_vectors *sigma, struct sensor_sigmas *out)
{
	struct sensor_slopes slopes;
	enum sensor_status status = sb_sensor_slopes(v, &slopes);
	if (status != SENSOR_OK && status != SENSOR_ALONG)
		return status;
	*out = (struct sensor_sigmas){
		.inc_rad = spread(&slopes.inc, sigma),
		.azi_rad = spread(&slopes.azi, sigma),
		.face_rad = spread(&slopes.face, sigma),
		.dip_rad = spread(&slopes.dip, sigma),
	};
	return status;
}

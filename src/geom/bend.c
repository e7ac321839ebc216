/* Bending: how tight, how sure, and how much is left. All from the two attitudes at the ends, in the plane
 * of the turn: its direction at each end, seen looking ahead, as so much up and so much right.
 */
#include "geom/bend.h"

#include "geom/angle.h"

#include <math.h>

/* The turn between two attitudes, as its growth when either is moved: the direction away from the other
 * one, up and right, times the sine of the whole angle. */
struct turn {
	double from_up, from_right, to_up, to_right;
	double sine_squared, cosine; /* of the angle */
};

static struct turn turn_between(const struct attitude *from, const struct attitude *to)
{
	double half_inc = (to->inc_rad - from->inc_rad) / 2;
	double half_azi = sb_wrap_half(to->azi_rad - from->azi_rad) / 2;
	double si = sin(half_inc), sa = sin(half_azi);
	double sin_inc = 2 * si * cos(half_inc), sin_azi = 2 * sa * cos(half_azi), versine = 2 * sa * sa;
	struct turn t = {
		.from_up = from->cos_inc * to->sin_inc * versine - sin_inc,
		.from_right = -to->sin_inc * sin_azi,
		.to_up = from->sin_inc * to->cos_inc * versine + sin_inc,
		.to_right = from->sin_inc * sin_azi,
		.cosine = 1 - 2 * si * si - from->sin_inc * to->sin_inc * versine,
	};
	t.sine_squared = t.to_up * t.to_up + t.to_right * t.to_right;
	return t;
}

double sb_bend_radius(double length_m, double angle_rad)
{
	return angle_rad > 0 ? length_m / angle_rad : HUGE_VAL;
}

/* The noise of one reading: variances up and right, then along the turn and across it. */
struct spread {
	double along, across, most;
};

static struct spread spread_at(const struct attitude *a, double up, double right, double sine_squared,
	double sigma_inc_rad, double sigma_azi_rad)
{
	double aside = sigma_azi_rad * a->sin_inc;
	double var_up = sigma_inc_rad * sigma_inc_rad, var_right = aside * aside;
	double share_up = up * up / sine_squared, share_right = right * right / sine_squared;
	return (struct spread){
		.along = share_up * var_up + share_right * var_right,
		.across = share_right * var_up + share_up * var_right,
		.most = fmax(var_up, var_right),
	};
}

/* The variance of the angle is what the noise along the turn gives, and what noise across it adds by the
 * angle's own curvature (second order: half the square of the second derivatives times the variances; they
 * are cot b for one end and 1 / sin b for both). It never passes the noisier axis: an angle cannot change by
 * more than its ends move. That bound takes over as the angle vanishes. */
double sb_bend_noise(
	const struct attitude *from, const struct attitude *to, double sigma_inc_rad, double sigma_azi_rad)
{
	struct turn t = turn_between(from, to);
	struct spread a =
		spread_at(from, t.from_up, t.from_right, t.sine_squared, sigma_inc_rad, sigma_azi_rad);
	struct spread b = spread_at(to, t.to_up, t.to_right, t.sine_squared, sigma_inc_rad, sigma_azi_rad);
	double own = t.cosine * t.cosine * (a.across * a.across + b.across * b.across);
	double second = (own + 2 * a.across * b.across) / (2 * t.sine_squared);
	double variance = a.along + b.along + second, most = a.most + b.most;
	return sqrt(variance < most ? variance : most); /* 0/0 when there is no angle: the most */
}

/* The largest turn t in a direction for which the end, from d that way, stays within the limit: the larger
 * root of |d + t e| = limit. `along` is d . e. */
static double room(double along, double angle, double limit)
{
	double under = along * along - (angle - limit) * (angle + limit);
	return under >= 0 && limit >= 0 ? fmax(0, sqrt(under) - along) : 0;
}

struct bend_room sb_bend_room(const struct attitude *from, const struct attitude *to, double limit_rad)
{
	struct turn t = turn_between(from, to);
	double angle = sb_arc_dogleg(from, to);
	double scale = t.sine_squared > 0 ? angle / sqrt(t.sine_squared) : 0;
	double up = t.to_up * scale, right = t.to_right * scale;
	return (struct bend_room){
		.least = limit_rad - angle,
		.up = room(up, angle, limit_rad),
		.down = room(-up, angle, limit_rad),
		.left = room(-right, angle, limit_rad),
		.right = room(right, angle, limit_rad),
	};
}

/* How tight the hole bends: radius from headings, over one joint or several, and how sure that is.
 *
 * Two methods over a window: the angle between its ends, or the sum of its doglegs. The ends hide an
 * S-bend; the sum counts reading noise as bending. Both are computed; the contract names the one that
 * judges.
 */
#ifndef SB_GEOM_BEND_H
#define SB_GEOM_BEND_H

#include "geom/arc.h"

#include <stddef.h>

/* R = length / angle; HUGE_VAL when the angle is 0. */
double sb_bend_radius(double length_m, double angle_rad);

/* One sigma of the angle between two attitudes from independent reading noise, radians.
 * Given:    from, to          the attitudes
 *           sigma_inc_rad, sigma_azi_rad   one reading's noise
 * Note:     along the turn to first order, across it to second (noise across a small turn lengthens it too).
 *           Within a few percent while the angle is over three times the noise across it; as the angle
 *           vanishes the turn has no direction, and the noise along the noisier axis is returned: never
 *           less than the truth. The same holds for the ends of a window of any length. */
double sb_bend_noise(
	const struct attitude *from, const struct attitude *to, double sigma_inc_rad, double sigma_azi_rad);

/* How far the heading may still turn before it is `limit_rad` away from `from`, now being at `to`.
 * Returned: least     in the worst direction: limit minus the angle; negative when already past it
 *           up, down, left, right   the largest turn that way (seen looking ahead) that ends within the
 *                     limit; 0 when there is none
 * Note:     on the plane square to the heading (angles are a few degrees: the error is below
 *           angle^3/6). */
struct bend_room {
	double least, up, down, left, right;
};
struct bend_room sb_bend_room(const struct attitude *from, const struct attitude *to, double limit_rad);

#endif

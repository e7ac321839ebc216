/* How far steel may have moved the azimuth, estimated from how far it moved total field and dip.
 *
 * The string's own steel, ahead of and behind the sensor, is magnetised along the hole: it adds to the field
 * along the hole and to nothing else. How strong it must be to move field and dip as they are says how far it
 * turned the azimuth. An estimate that stands on that assumption, on gravity being right, and on the
 * reference; it corrects nothing, and on a level bore to magnetic east or west it cannot be made: there such
 * steel hardly shows in field and dip, and turns the azimuth most.
 */
#ifndef SB_MODEL_DISTURBANCE_H
#define SB_MODEL_DISTURBANCE_H

#include "model/field.h"

struct disturbance {
	bool along;   /* it can lie along the hole: field and dip together agree with that */
	bool telling; /* and its size can be told well enough to speak of: else only the bound is */
	/* Along the hole: */
	double axial_nt, sigma_axial_nt;     /* added to the field ahead */
	double turned_rad, sigma_turned_rad; /* azimuth as read less azimuth without it */
	double misfit;			     /* in sigmas: what of field and dip it does not explain */
	/* Anywhere: what field and dip show is two of three components; a third of the same size turns the
	 * azimuth this far, either way. >= 0 */
	double may_turn_rad;
	char text[320];
};

/* Purpose:  the estimate, and the words for it.
 * Given:    v           as read, g and nT, in our axes
 *           reference   with both sigmas > 0
 * Returned: out         unchanged unless SENSOR_OK or SENSOR_ALONG
 * Status:   as sb_sensor_attitude
 * Notes:    least squares of both deviations over the disturbance along the hole, within a fifth of the
 * field; its sigma is half of the range in which the sum of squares stays within 1 of the least, so that a
 *           range which is not a bell, as near magnetic east, is as wide as it is. `along` asks for a misfit
 *           of at most 3, `telling` for a sigma of half a degree, or less than half of the turn. */
enum sensor_status sb_disturbance(
	const struct sensor_vectors *v, const struct field_reference *reference, struct disturbance *out);

#endif

/* What somebody should know who uses a point of a grid. */
#include "base/crs.h"

#include <math.h>
#include <stdio.h>

#define LOOSE_M 0.05 /* from here on a shift between datums is worth a word. Common practice, no source. */

size_t sb_crs_warnings(
	const struct sb_crs *c, const struct crs_point *p, char text[SB_CRS_WARNINGS][SB_CRS_WARNING_TEXT])
{
	const struct crs_about *a = sb_crs_about(c);
	size_t n = 0;

	if (a->withdrawn)
		snprintf(text[n++], SB_CRS_WARNING_TEXT,
			"%s is withdrawn by those who keep the table of systems: ask whether another was meant.",
			a->code);
	if (p->outside)
		snprintf(text[n++], SB_CRS_WARNING_TEXT,
			"The point lies outside the area that %s is made for, though by less than a degree: check the zone.",
			a->code);
	if (!p->conformal)
		snprintf(text[n++], SB_CRS_WARNING_TEXT,
			"On %s lengths and angles change with the direction: no one scale or convergence holds, and it is "
			"not fit for a survey.",
			a->code);
	if (isnan(p->accuracy_m))
		snprintf(text[n++], SB_CRS_WARNING_TEXT,
			"How %s lies to WGS84 is not known here: latitude and longitude are those of its own datum, and a "
			"GPS may differ by hundreds of metres. Grid coordinates are not touched by it.",
			a->datum);
	else if (p->accuracy_m > LOOSE_M)
		snprintf(text[n++], SB_CRS_WARNING_TEXT,
			"From %s to WGS84 is known to %.3g m only: so good are latitude and longitude. Grid coordinates are "
			"not touched by it.",
			a->datum, p->accuracy_m);
	return n;
}

/* What a file of surveys says of places, against what its readings make here. An export carries both; whoever
 * brings it in again wants the same bore, and readings alone do not make it when a setting changed on the
 * way, or a correction by fixes was in force: those are acts, and stand in the job file.
 */
#include "io/surveys.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>

/* Exports write six decimals of the job's unit. */
#define SAME 1e-5

void sb_surveys_compare(const struct surveys *list, const struct solution *s, struct surveys_places *out)
{
	*out = (struct surveys_places){ 0 };
	for (size_t i = 0; i < list->count; i++) {
		const struct survey *survey = &list->list[i];
		size_t joint = (size_t)survey->reading.joint;
		double e, n, up;
		if (!survey->placed || joint >= s->path.count)
			continue;
		sb_frame_grid(&s->frame, s->path.rows[joint].at, &e, &n, &up);
		double off = hypot(hypot(e - survey->easting, n - survey->northing), up - survey->elevation);
		out->compared++;
		if (!(off > SAME))
			continue;
		if (out->off++ == 0)
			out->first = survey->reading.joint;
		out->worst = fmax(out->worst, off);
	}
}

bool sb_surveys_places_say(const struct surveys_places *p, enum unit unit, char text[SB_SURVEYS_PLACES])
{
	text[0] = '\0';
	if (p->compared == 0)
		return false;
	if (p->off == 0)
		snprintf(text, SB_SURVEYS_PLACES, "The places in the file come out the same.");
	else
		snprintf(text, SB_SURVEYS_PLACES,
			"The file has places of its own, and %zu of %zu come out elsewhere, from joint %d on, by up to %.2f %s. "
			"What is not in the file: settings that changed on the way, corrections by fixes; or this job's sheet is another "
			"one.",
			p->off, p->compared, p->first, p->worst, sb_unit_short(unit));
	return true;
}

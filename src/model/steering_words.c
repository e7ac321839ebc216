/* The plan in words: what stands in the way, why the next joint is what it is, and its order as it is called
 * out at the rig.
 */
#include "steering_parts.h"

#include "geom/angle.h"

#include <stdio.h>

const char *sb_steering_limit_word(enum steer_limit limit)
{
	static const char *const words[] = { "", "the corridor", "the bend limit of one joint",
		"the bend limit over the window", "what this ground gives", "an obstacle",
		"the exit window" };

	return words[limit];
}

static bool slides(const struct plan *plan)
{
	for (size_t k = 0; k < plan->count; k++)
		if (plan->joints[k].slid_m > 0)
			return true;
	return false;
}

void sb_steering_explain(const struct laying *l, struct plan *out)
{
	const struct plan_joint *first = &out->joints[0];
	const char *unit = sb_unit_short(l->setup->job->unit);

	if (!out->feasible) {
		snprintf(out->words, sizeof out->words,
			"There is no way back inside every limit: %s stands in it at joint %d, short by %.0f %%.",
			sb_steering_limit_word(out->limit), out->limit_joint, out->short_by * 100);
		return;
	}
	if (out->for_exit) {
		snprintf(out->words, sizeof out->words,
			"The exit is %d joints ahead: the plan goes for its window.", l->to_exit);
		return;
	}
	double height = sb_frame_typed(l->setup->frame, l->deviation.height_m),
	       offset = sb_frame_typed(l->setup->frame, l->deviation.offset_m);
	char then[64] = "too little to steer for";
	if (out->rejoins_at_joint)
		snprintf(then, sizeof then, "back on the line at joint %d", out->rejoins_at_joint);
	else if (slides(out))
		snprintf(then, sizeof then, "nearly back on the line by joint %d",
			out->joints[out->count - 1].joint);
	if (fabs(height) < 0.05 && fabs(offset) < 0.05) {
		snprintf(out->words, sizeof out->words, "%s",
			first->slid_m > 0
				? "The bit is on the line: slide to hold it there, against what this ground drifts."
				: "The bit is on the line: hold it there.");
		return;
	}
	snprintf(out->words, sizeof out->words, "%s: the bit is %.1f %s %s and %.1f %s %s; %s.",
		first->slid_m > 0 ? "Turn" : "Hold", fabs(height), unit, height >= 0 ? "high" : "low",
		fabs(offset), unit, offset >= 0 ? "right" : "left", then);
}

void sb_steering_explain_order(struct plan *out)
{
	if (out->feasible)
		snprintf(out->words, sizeof out->words, "This joint comes to the exit.");
	else
		snprintf(out->words, sizeof out->words,
			"This order goes past a limit: %s, at joint %d, by %.0f %%.",
			sb_steering_limit_word(out->limit), out->limit_joint, out->short_by * 100);
}

void sb_steering_order(const struct setup *setup, const struct plan_joint *j, bool clock, char text[96])
{
	const char *unit = sb_unit_short(setup->job->unit);
	int decimals = setup->job->unit == UNIT_M ? 1 : 0;
	/* Rounded first, so that what is called out adds up to the joint. */
	double parts = decimals ? 10 : 1,
	       slid = round(sb_frame_typed(setup->frame, j->slid_m) * parts) / parts,
	       rest = round(sb_frame_typed(setup->frame, j->length_m) * parts) / parts - slid;
	char way[40], rotate[32] = "";

	if (!(j->slid_m > 0)) {
		snprintf(text, 96, "rotate the joint");
		return;
	}
	double degrees = sb_deg(sb_wrap_turn(j->tool_face_rad));
	if (clock) {
		int halves = (int)lround(degrees / 15) % 24, hour = halves / 2 ? halves / 2 : 12;
		snprintf(way, sizeof way, "%d%s", hour, halves % 2 ? ":30" : " o'clock");
	} else {
		snprintf(way, sizeof way, "tool face %.0f deg", fmod(round(degrees), 360));
	}
	if (rest > 0.5 / parts)
		snprintf(rotate, sizeof rotate, ", rotate %.*f %s", decimals, rest, unit);
	snprintf(text, 96, "slide %.*f %s at %s%s", decimals, slid, unit, way, rotate);
}

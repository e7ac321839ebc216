/* Slips on joints: their lengths, the depths that somebody read on the rig, what was slid. */
#include "blunder_parts.h"

#include "base/str.h"
#include "model/slides.h"

#include <math.h>
#include <stdio.h>

static void look_at_length(struct findings *f, const struct job *job, const struct reading *trial, int joint)
{
	struct number expected = sb_job_tally(job, joint);
	double ratio = trial->joint_length.value / expected.value;
	const char *unit = sb_unit_short(job->unit);
	struct suspicion *s;

	if (ratio >= 1.5 || ratio <= 0.5) {
		s = blunder_add(
			f, true, "joint_length", ratio >= 1.5 ? "two joints in one" : "less than a joint");
		snprintf(s->text, sizeof s->text, "Joint %d is %s %s by the tally, and %s %s was typed. %s",
			joint, expected.text, unit, trial->joint_length.text, unit,
			ratio >= 1.5 ? "Was a joint forgotten? Log each joint by itself."
				     : "Is the joint down?");
	} else if (fabs(ratio - 1) > 0.02) {
		s = blunder_add(f, false, "joint_length", "not the tally's length");
		snprintf(s->text, sizeof s->text, "Joint %d is %s %s by the tally, and %s %s was typed.",
			joint, expected.text, unit, trial->joint_length.text, unit);
	} else {
		return;
	}
	s->has_likely = true;
	s->likely = expected;
}

/* A depth that somebody read on the rig, beside the sum of the joints. All in the job's unit. */
struct depth {
	const struct number *given;
	bool bit;	    /* of the bit; else of the sensor */
	double expected;    /* by the joints */
	double behind;	    /* from the sensor to the bit */
	double joint, next; /* lengths of this joint, and of the one after it */
	double touch;	    /* what a rig's counter may be out by */
};

enum depth_slip { DEPTH_FITS, DEPTH_OTHER, DEPTH_FORGOTTEN, DEPTH_TWICE, DEPTH_BACK, DEPTH_OFF };

/* The slip that explains the depth best; one that explains it only to a tenth of a joint does not. */
static enum depth_slip depth_slip(const struct depth *d)
{
	const struct {
		double off;
		bool can;
	} kinds[] = {
		[DEPTH_FITS] = { 0, true },
		[DEPTH_OTHER] = { d->bit ? -d->behind : d->behind, d->behind > 2 * d->touch },
		[DEPTH_FORGOTTEN] = { d->next, true },
		[DEPTH_TWICE] = { -d->joint, true },
	};
	double off = d->given->value - d->expected, least = fmax(d->touch, 0.1 * d->joint);
	enum depth_slip best = off < -d->joint ? DEPTH_BACK : DEPTH_OFF;

	if (fabs(off) <= d->touch)
		return DEPTH_FITS;
	for (size_t i = DEPTH_OTHER; i < sizeof kinds / sizeof *kinds; i++)
		if (kinds[i].can && fabs(off - kinds[i].off) <= least) {
			least = fabs(off - kinds[i].off);
			best = (enum depth_slip)i;
		}
	return best;
}

static const char *depth_kind(enum depth_slip slip, bool bit)
{
	switch (slip) {
	case DEPTH_OTHER:
		return bit ? "sensor depth given as bit depth" : "bit depth given as sensor depth";
	case DEPTH_FORGOTTEN:
		return "a joint forgotten";
	case DEPTH_TWICE:
		return "a joint logged twice";
	case DEPTH_BACK:
		return "depth goes back";
	case DEPTH_FITS:
	case DEPTH_OFF:
		break;
	}
	return "depth and joints disagree";
}

static void say_depth(
	struct suspicion *s, enum depth_slip slip, const struct depth *d, int joint, const char *unit)
{
	const char *what = d->bit ? "Bit" : "Survey", *given = d->given->text;
	char joints[32];

	snprintf(joints, sizeof joints, joint == 1 ? "one joint makes" : "%d joints make", joint);
	if (slip == DEPTH_OTHER)
		snprintf(s->text, sizeof s->text, "%s depth %s %s is the depth of the %s: the %s is at %.2f.",
			what, given, unit, d->bit ? "sensor" : "bit", d->bit ? "bit" : "sensor", d->expected);
	else if (slip == DEPTH_FORGOTTEN)
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s is one joint deeper than the log: %s %.2f. Was joint %d forgotten? Log it first.",
			what, given, unit, joints, d->expected, joint);
	else if (slip == DEPTH_TWICE && joint > 1)
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s is where joint %d ended: that joint is logged already. To change it, correct joint %d.",
			what, given, unit, joint - 1, joint - 1);
	else if (slip == DEPTH_BACK)
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s goes back: %s %.2f. Count the joints in the ground.", what, given,
			unit, joints, d->expected);
	else
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s does not fit the tally: %s %.2f. Count the joints in the ground.",
			what, given, unit, joints, d->expected);
}

/* A quarter of a joint is a counter that drifts, or joints that were not measured: worth saying, and no
 * reason to stop a hand at every joint from then on. */
static void look_at_depth(struct findings *f, const struct depth *d, int joint)
{
	/* Behind the entry there is no depth to read. */
	if (!sb_number_given(d->given) || (d->expected <= 0 && d->given->value <= 0))
		return;
	enum depth_slip slip = depth_slip(d);
	if (slip == DEPTH_FITS)
		return;
	bool held = slip != DEPTH_OFF || fabs(d->given->value - d->expected) > 0.25 * d->joint;
	struct suspicion *s =
		blunder_add(f, held, d->bit ? "bit_depth" : "survey_depth", depth_kind(slip, d->bit));
	say_depth(s, slip, d, joint, sb_unit_short(f->unit));
	s->has_likely = true;
	s->likely = sb_number_of(d->expected, 2);
}

static void look_at_depths(struct findings *f, const struct job *job, const struct solution *sol,
	const struct depth_check *depths, double bit_m, double length)
{
	const struct frame *frame = &sol->frame;
	int joint = sb_job_in_ground(job) + 1;
	struct depth d = {
		.given = &depths->bit_depth,
		.bit = true,
		.expected = sb_frame_typed(frame, bit_m),
		.behind = sb_frame_typed(frame, frame->sensor_to_bit_m),
		.joint = length,
		.next = sb_job_tally(job, joint + 1).value,
		.touch = sb_frame_typed(frame, 0.15),
	};

	look_at_depth(f, &d, joint);
	d.given = &depths->survey_depth;
	d.bit = false;
	d.expected -= d.behind;
	look_at_depth(f, &d, joint);
}

/* Pushes that do not fit their joint are refused by every act; here a hand hears of it before he is asked. */
static void look_at_pushes(struct findings *f, const struct reading *trial)
{
	struct sb_err err;

	if (sb_slides_check(trial, &err) == 0)
		return;
	struct suspicion *s = blunder_add(f, true, "pushes", "pushes that do not fit the joint");
	sb_copy(s->text, sizeof s->text, err.text);
	blunder_capital(s->text);
}

static void look_at_slide(struct findings *f, const struct job *job, const struct reading *trial)
{
	struct suspicion *s;

	look_at_pushes(f, trial);
	if (sb_number_given(&trial->slid) && trial->slid.value > trial->joint_length.value) {
		s = blunder_add(f, true, "slid", "slid more than the joint");
		snprintf(s->text, sizeof s->text, "Slid %s %s of a joint of %s: more than there is.",
			trial->slid.text, sb_unit_short(job->unit), trial->joint_length.text);
	} else if (trial->pushes[0]) {
		return; /* they say which way and how far */
	} else if (trial->slid.value > 0 && !sb_number_given(&trial->tool_face)) {
		s = blunder_add(f, false, "tool_face", "slid without a tool face");
		snprintf(s->text, sizeof s->text, "Slid %s %s, but no tool face: which way is not known.",
			trial->slid.text, sb_unit_short(job->unit));
	} else if (sb_number_given(&trial->tool_face) && !sb_number_given(&trial->slid)) {
		s = blunder_add(f, false, "slid", "a tool face without a slide");
		snprintf(s->text, sizeof s->text,
			"A tool face of %s, but nothing slid: how far is not known.", trial->tool_face.text);
	}
}

void blunder_look_at_joint(struct findings *f, const struct job *job, const struct solution *s,
	const struct reading *trial, const struct depth_check *depths, double bit_m)
{
	if (depths)
		look_at_depths(f, job, s, depths, bit_m, trial->joint_length.value);
	look_at_length(f, job, trial, sb_solution_last(s)->joint + 1);
	look_at_slide(f, job, trial);
}

/* Slips of the pen. A reading is held when no drill string could have turned that far since the last one,
 * or when a common slip of the pen explains it far better than the ground does. The likely value is found by
 * undoing each kind of slip on the text that was typed and keeping what bends least.
 *
 * How likely slips are, and their order, is common practice, no source.
 */
#include "model/blunder.h"

#include "base/str.h"
#include "geom/angle.h"
#include "geom/bend.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what was meant: candidates by undoing one slip ---- */

struct candidate {
	struct number value;
	const char *slip;
	double dogleg_rad; /* from the last attitude, with the other angle as typed */
	const char *field;
};

struct search {
	const struct job *job;
	const struct frame *frame;
	const struct reading *trial;
	struct attitude last;
	bool inclination;      /* which angle is being tried */
	bool wild;	       /* one wrong digit counts too: only when the reading cannot be */
	struct candidate best; /* value.text "" while there is none */
	double best_score;
};

static double dogleg_of(const struct search *s, double inclination, double azimuth)
{
	struct attitude to =
		sb_attitude(sb_frame_inc(s->frame, inclination), sb_frame_azi(s->frame, azimuth));

	return sb_arc_dogleg(&s->last, &to);
}

static bool possible(const struct search *s, double value)
{
	double low = 0, high = 360;

	if (s->inclination)
		sb_incline_range(s->job->incline, &low, &high);
	return value >= low && value <= high;
}

/* rank: how unlikely this kind of slip is; each step costs a tenth of a degree of bend. */
static void try_value(struct search *s, const char *text, const char *slip, int rank)
{
	struct number n;

	if (sb_number_parse(text, &n, NULL) || !possible(s, n.value))
		return;
	double typed = s->inclination ? s->trial->inclination.value : s->trial->azimuth.value;
	if (n.value == typed)
		return;
	double dogleg = s->inclination ? dogleg_of(s, n.value, s->trial->azimuth.value)
				       : dogleg_of(s, s->trial->inclination.value, n.value);
	double score = dogleg + sb_rad(0.1) * rank;
	if (sb_number_given(&s->best.value) && score >= s->best_score)
		return;
	s->best = (struct candidate){ n, slip, dogleg, s->inclination ? "inclination" : "azimuth" };
	s->best_score = score;
}

static bool digit(char c)
{
	return c >= '0' && c <= '9';
}

static void try_swapped(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; typed[i]; i++) {
		size_t j = typed[i + 1] == '.' ? i + 2 : i + 1;
		if (!digit(typed[i]) || !typed[i + 1] || !digit(typed[j]))
			continue;
		sb_copy(text, sizeof text, typed);
		text[i] = typed[j];
		text[j] = typed[i];
		try_value(s, text, "two digits swapped", 0);
	}
}

static void try_point(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT + 1];
	size_t length = strlen(typed);

	if (strchr(typed, '.') || length + 1 >= SB_NUMBER_TEXT)
		return;
	for (size_t i = 1; i < length; i++) {
		snprintf(text, sizeof text, "%.*s.%s", (int)i, typed, typed + i);
		try_value(s, text, "decimal point left out", 1);
	}
}

static void try_doubled(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT + 1];
	size_t length = strlen(typed);

	if (length + 1 >= SB_NUMBER_TEXT)
		return;
	for (size_t i = 0; i < length; i++) {
		if (!digit(typed[i]))
			continue;
		snprintf(text, sizeof text, "%.*s%c%s", (int)i, typed, typed[i], typed + i);
		try_value(s, text, "a digit left out", 2);
	}
}

static void try_wrong_digit(struct search *s, const char *typed)
{
	char text[SB_NUMBER_TEXT];

	for (size_t i = 0; typed[i]; i++)
		for (char c = '0'; digit(typed[i]) && c <= '9'; c++) {
			sb_copy(text, sizeof text, typed);
			text[i] = c;
			try_value(s, text, "one digit wrong", 5);
		}
}

/* A value made by arithmetic, written with as many decimals as the typed one. */
static void try_made(struct search *s, const char *typed, double value, const char *slip, int rank)
{
	const char *point = strchr(typed, '.');
	struct number n = sb_number_of(value, point ? (int)strlen(point + 1) : 0);

	try_value(s, n.text, slip, rank);
}

static void try_conventions(struct search *s, const char *typed)
{
	double v = s->inclination ? s->trial->inclination.value : s->trial->azimuth.value;

	if (!s->inclination) {
		try_made(s, typed, fmod(v + 180, 360), "read back to front, 180 degrees round", 2);
		if (sb_number_given(&s->job->declination)) {
			double d = s->job->declination.value;
			try_made(s, typed, fmod(v - d + 360, 360), "declination put in already", 2);
			try_made(s, typed, fmod(v + d + 360, 360), "declination taken out already", 2);
		}
		return;
	}
	if (s->job->incline == INCLINE_DOWN) {
		try_made(s, typed, 90 + v, "read from level, not from straight down", 1);
		try_made(s, typed, 90 - v, "read from level, sign lost", 1);
		try_made(s, typed, 180 - v, "on the other side of level", 1);
		return;
	}
	try_made(s, typed, -v, "sign slipped", 0);
	if (s->job->incline == INCLINE_LEVEL)
		try_made(s, typed, v - 90, "read from straight down, not from level", 1);
}

static void try_angle(struct search *s, bool inclination)
{
	const char *typed = inclination ? s->trial->inclination.text : s->trial->azimuth.text;

	s->inclination = inclination;
	try_swapped(s, typed);
	try_point(s, typed);
	try_doubled(s, typed);
	try_conventions(s, typed);
	if (s->wild)
		try_wrong_digit(s, typed);
}

static void try_exchanged(struct search *s)
{
	const struct reading *t = s->trial;

	s->inclination = true;
	if (!possible(s, t->azimuth.value))
		return;
	double dogleg = dogleg_of(s, t->azimuth.value,
		t->inclination.value < 0 ? 360 + t->inclination.value : t->inclination.value);
	if (sb_number_given(&s->best.value) && dogleg >= s->best_score)
		return;
	s->best =
		(struct candidate){ t->azimuth, "inclination and azimuth exchanged", dogleg, "inclination" };
	s->best_score = dogleg;
}

/* ---- what is suspicious ---- */

struct findings {
	struct suspicion *out;
	size_t count;
};

static struct suspicion *add(struct findings *f, bool held, const char *field, const char *slip)
{
	if (f->count == SB_SUSPICIONS)
		return &f->out[SB_SUSPICIONS - 1];
	struct suspicion *s = &f->out[f->count++];
	*s = (struct suspicion){ .held = held, .field = field };
	sb_copy(s->slip, sizeof s->slip, slip);
	return s;
}

/* How far the string could turn over a course at all, and how far the contract lets it. */
static double physical_turn(const struct job *job, const struct frame *f, double course_m)
{
	const double otherwise =
		sb_rad(5); /* a joint; common practice, no source: only where the sheet gives no radius */
	const struct number *radius = &job->drill_pipe_minimum_radius;

	if (sb_number_given(radius))
		return course_m / sb_frame_metres(f, radius->value);
	radius = sb_number_given(&job->joint_minimum) ? &job->joint_minimum : &job->product_minimum_radius;
	if (sb_number_given(radius))
		return 2 * course_m / sb_frame_metres(f, radius->value);
	return otherwise;
}

static double contract_turn(const struct job *job, const struct frame *f, double course_m)
{
	const struct number *const radii[] = { &job->joint_minimum, &job->window_minimum,
		&job->product_minimum_radius };

	for (size_t i = 0; i < 3; i++)
		if (sb_number_given(radii[i]))
			return course_m / sb_frame_metres(f, radii[i]->value);
	return HUGE_VAL;
}

static void say_angle(
	struct findings *f, const struct search *s, double dogleg, double course_m, bool impossible)
{
	const struct job *job = s->job;
	double radius = sb_frame_typed(s->frame, sb_bend_radius(course_m, dogleg));
	bool likely = sb_number_given(&s->best.value) && s->best.dogleg_rad < 0.5 * dogleg;
	const char *field = likely ? s->best.field : "inclination";
	struct suspicion *out = add(f, true, field, likely ? s->best.slip : "turns further than it can");
	const char *typed = sb_same(field, "azimuth") ? s->trial->azimuth.text : s->trial->inclination.text;

	if (!likely) {
		snprintf(out->text, sizeof out->text,
			"Turned %.1f degrees since the last reading, a radius of %.0f %s: more than this string can do. Read it "
			"again.",
			sb_deg(dogleg), radius, sb_unit_short(job->unit));
		return;
	}
	out->has_likely = true;
	out->likely = s->best.value;
	snprintf(out->text, sizeof out->text,
		"%s %s would turn %.1f degrees since the last reading (radius %.0f %s)%s. Meant %s? (%s)",
		field, typed, sb_deg(dogleg), radius, sb_unit_short(job->unit),
		impossible ? ", more than this string can do" : "", out->likely.text, s->best.slip);
}

static void look_at_angles(struct findings *f, const struct job *job, const struct solution *sol,
	const struct reading *trial, double course_m)
{
	struct search s = { .job = job, .frame = &sol->frame, .trial = trial };
	bool known = sb_path_attitude(&sol->path, &s.last);

	if (!known)
		s.last = sol->path.rows[0].attitude; /* the design's, at the entry */
	double dogleg = dogleg_of(&s, trial->inclination.value, trial->azimuth.value);
	struct attitude to = sb_attitude(
		sb_frame_inc(s.frame, trial->inclination.value), sb_frame_azi(s.frame, trial->azimuth.value));
	double sigma = sb_bend_noise(&s.last, &to, s.frame->sigma_inc_rad, s.frame->sigma_azi_rad);
	/* The rig is staked to a few degrees of the drawing; a convention taken for another is far more. */
	double can = known ? physical_turn(job, s.frame, course_m) : sb_rad(10);
	double may = known ? contract_turn(job, s.frame, course_m) : HUGE_VAL;
	bool impossible = dogleg - 2 * sigma > can;
	if (!impossible && (dogleg < 0.6 * may || dogleg < 3 * sigma))
		return;
	s.wild = impossible;
	try_angle(&s, true);
	try_angle(&s, false);
	try_exchanged(&s);
	/* Below what cannot be, only a slip that explains nearly all of it is worth stopping a hand for, and
	 * only the kinds that hands make: a changed convention would have turned much further. */
	bool slip = sb_number_given(&s.best.value) && s.best.dogleg_rad < 0.25 * dogleg;
	if (impossible || slip)
		say_angle(f, &s, dogleg, course_m, impossible);
}

static void look_at_length(struct findings *f, const struct job *job, const struct reading *trial, int joint)
{
	struct number expected = sb_job_tally(job, joint);
	double ratio = trial->joint_length.value / expected.value;
	const char *unit = sb_unit_short(job->unit);
	struct suspicion *s;

	if (ratio >= 1.5 || ratio <= 0.5) {
		s = add(f, true, "joint_length", ratio >= 1.5 ? "two joints in one" : "less than a joint");
		snprintf(s->text, sizeof s->text, "Joint %d is %s %s by the tally, and %s %s was typed. %s",
			joint, expected.text, unit, trial->joint_length.text, unit,
			ratio >= 1.5 ? "Was a joint forgotten? Log each joint by itself."
				     : "Is the joint down?");
	} else if (fabs(ratio - 1) > 0.02) {
		s = add(f, false, "joint_length", "not the tally's length");
		snprintf(s->text, sizeof s->text, "Joint %d is %s %s by the tally, and %s %s was typed.",
			joint, expected.text, unit, trial->joint_length.text, unit);
	} else {
		return;
	}
	s->has_likely = true;
	s->likely = expected;
}

static bool near_depth(double a, double b, const struct frame *f)
{
	return fabs(a - b) <= sb_frame_typed(f, 0.15);
}

/* Compares a depth that somebody read on the rig with the sum of the joints. */
static void look_at_depth(struct findings *f, const struct job *job, const struct solution *sol,
	double expected, const struct number *given, bool bit, double length)
{
	const struct frame *frame = &sol->frame;
	double behind = sb_frame_typed(frame, frame->sensor_to_bit_m),
	       other = bit ? expected - behind : expected + behind;
	int joint = sb_job_in_ground(job) + 1;
	double next = sb_job_tally(job, joint + 1).value;
	const char *field = bit ? "bit_depth" : "survey_depth", *what = bit ? "bit" : "survey",
		   *unit = sb_unit_short(job->unit);
	struct suspicion *s;

	if (!sb_number_given(given) || near_depth(given->value, expected, frame))
		return;
	if (behind > 0.3 && near_depth(given->value, other, frame)) {
		s = add(f, true, field,
			bit ? "sensor depth given as bit depth" : "bit depth given as sensor depth");
		snprintf(s->text, sizeof s->text, "%s depth %s %s is the depth of the %s: the %s is at %.2f.",
			bit ? "Bit" : "Survey", given->text, unit, bit ? "sensor" : "bit",
			bit ? "bit" : "sensor", expected);
	} else if (near_depth(given->value, expected + next, frame)) {
		s = add(f, true, field, "a joint forgotten");
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s is one joint deeper than the log: %d joints make %.2f. Was joint %d forgotten? Log it first.",
			what, given->text, unit, joint, expected, joint);
	} else if (near_depth(given->value, expected - length, frame)) {
		s = add(f, true, field, "a joint logged twice");
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s is where joint %d ended: that joint is logged already. To change it, correct joint %d.",
			what, given->text, unit, joint - 1, joint - 1);
	} else {
		bool back = given->value < expected - length;
		s = add(f, true, field, back ? "depth goes back" : "depth and joints disagree");
		snprintf(s->text, sizeof s->text,
			"%s depth %s %s %s: %d joints make %.2f. Count the joints in the ground.", what,
			given->text, unit, back ? "goes back" : "does not fit the tally", joint, expected);
	}
	s->has_likely = true;
	s->likely = sb_number_of(expected, 2);
}

static void look_at_slide(struct findings *f, const struct job *job, const struct reading *trial)
{
	struct suspicion *s;

	if (sb_number_given(&trial->slid) && trial->slid.value > trial->joint_length.value) {
		s = add(f, true, "slid", "slid more than the joint");
		snprintf(s->text, sizeof s->text, "Slid %s %s of a joint of %s: more than there is.",
			trial->slid.text, sb_unit_short(job->unit), trial->joint_length.text);
	} else if (trial->slid.value > 0 && !sb_number_given(&trial->tool_face)) {
		s = add(f, false, "tool_face", "slid without a tool face");
		snprintf(s->text, sizeof s->text, "Slid %s %s, but no tool face: which way is not known.",
			trial->slid.text, sb_unit_short(job->unit));
	} else if (sb_number_given(&trial->tool_face) && !sb_number_given(&trial->slid)) {
		s = add(f, false, "slid", "a tool face without a slide");
		snprintf(s->text, sizeof s->text,
			"A tool face of %s, but nothing slid: how far is not known.", trial->tool_face.text);
	}
}

size_t sb_blunder_look(const struct job *job, const struct solution *sol, const struct reading *trial,
	const struct depth_check *depths, struct suspicion out[SB_SUSPICIONS])
{
	struct findings f = { out, 0 };
	const struct row *last = sb_solution_last(sol);
	struct reading r = *trial;

	if (!sb_number_given(&r.joint_length))
		r.joint_length = sb_job_tally(job, last->joint + 1);
	double length_m = sb_frame_metres(&sol->frame, r.joint_length.value);
	double bit_m = last->bit_md_m + length_m, survey_m = bit_m - sol->frame.sensor_to_bit_m;
	if (sb_reading_taken(&r)) {
		double course = survey_m - sb_solution_last_on_path(sol)->survey_md_m;
		look_at_angles(&f, job, sol, &r, course > 0 ? course : length_m);
	}
	if (depths) {
		double bit = sb_frame_typed(&sol->frame, bit_m),
		       survey = sb_frame_typed(&sol->frame, survey_m);
		look_at_depth(&f, job, sol, bit, &depths->bit_depth, true, r.joint_length.value);
		look_at_depth(&f, job, sol, survey, &depths->survey_depth, false, r.joint_length.value);
	}
	look_at_length(&f, job, &r, last->joint + 1);
	look_at_slide(&f, job, &r);
	/* Held ones first: there are at most two that are not, and they come last but for length and slide.
	 */
	for (size_t i = 1; i < f.count; i++)
		for (size_t j = i; j > 0 && out[j].held && !out[j - 1].held; j--) {
			struct suspicion swap = out[j];
			out[j] = out[j - 1];
			out[j - 1] = swap;
		}
	return f.count;
}

size_t sb_blunder_look_again(const struct job *job, const struct reading *old,
	const struct reading *corrected, struct suspicion out[SB_SUSPICIONS])
{
	struct solution s = { 0 };
	struct job before;
	size_t count = 0;

	if (sb_job_joint(job, old->joint) != old)
		return 0;
	sb_job_copy(job, &before);
	struct leg pulled_back = { .number = sb_job_leg(job) + 1, .to_joint = old->joint - 1 };
	sb_job_add_leg(&before, &pulled_back);
	if (sb_solve(&before, &s, NULL, NULL) == 0)
		count = sb_blunder_look(&before, &s, corrected, NULL, out);
	for (size_t i = 0; i < count; i++)
		out[i].held = false;
	sb_solution_clear(&s);
	sb_job_clear(&before);
	return count;
}

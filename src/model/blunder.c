/* Slips of the pen. A reading is held when no drill string could have turned that far since the last one, or
 * when it turns in a way that is out of the ordinary for this bore and a common slip of the pen explains it
 * away (model/slip.c). What is ordinary is taken from the last courses, from the design and from what
 * steering back to it takes; so a wild bore and a calm one are each measured by themselves.
 *
 * The shares below were set with simulated bores (tests/model/blunder_rates_test.c): an ordinary reading is
 * held in far less than one joint of a hundred. No source.
 */
#include "model/blunder.h"

#include "base/str.h"
#include "geom/angle.h"
#include "geom/bend.h"
#include "model/slides.h"
#include "model/slip.h"

#include <math.h>
#include <stdio.h>

/* ---- what is suspicious ---- */

struct findings {
	struct suspicion *out;
	size_t count;
	enum unit unit;
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
	/* Only where the sheet gives no radius: five degrees a joint; common practice, no source. */
	double otherwise = sb_rad(5) * course_m / sb_frame_metres(f, job->joint_length.value);
	const struct number *radius = &job->drill_pipe_minimum_radius;

	if (sb_number_given(radius))
		return course_m / sb_frame_metres(f, radius->value);
	radius = sb_number_given(&job->joint_minimum) ? &job->joint_minimum : &job->product_minimum_radius;
	if (sb_number_given(radius))
		return 2 * course_m / sb_frame_metres(f, radius->value);
	return otherwise;
}

/* Where the contract says nothing, twice what the design turns at its tightest. */
static double contract_turn(const struct job *job, const struct solution *sol, double course_m)
{
	const struct number *const radii[] = { &job->joint_minimum, &job->window_minimum,
		&job->product_minimum_radius };

	for (size_t i = 0; i < 3; i++)
		if (sb_number_given(radii[i]))
			return course_m / sb_frame_metres(&sol->frame, radii[i]->value);
	return isinf(sol->design.tightest_m) ? HUGE_VAL : 2 * course_m / sol->design.tightest_m;
}

/* ---- angles ---- */

/* How many courses back show what is ordinary. */
#define RECENT 4

static void widen(double turn, double most, double *low, double *high)
{
	turn = fmin(fmax(turn, -most), most);
	*low = fmin(*low, turn);
	*high = fmax(*high, turn);
}

/* Takes a turn for ordinary, but no more of it than `most`: a slip that was logged as it is must not excuse
 * the next one. */
static void take_turn(struct ordinary *o, double up, double aside, double most)
{
	widen(up, most, &o->up_low, &o->up_high);
	widen(aside, most, &o->aside_low, &o->aside_high);
}

static void take_course(
	struct ordinary *o, const struct row *from, const struct row *to, double course_m, double most)
{
	double share = to->course_m > 0 ? course_m / to->course_m : 0;
	double aside = sb_wrap_half(to->attitude.azi_rad - from->attitude.azi_rad) * to->attitude.sin_inc;

	take_turn(o, share * (to->attitude.inc_rad - from->attitude.inc_rad), share * aside, most);
}

/* What the design turns over the course, and what brings the heading parallel to it again. */
static void take_design(struct ordinary *o, const struct solution *sol, const struct attitude *last,
	double course_m, double most)
{
	double station = sb_solution_last_on_path(sol)->deviation.station_m;
	struct design_place here = sb_design_at(&sol->design, station),
			    there = sb_design_at(&sol->design, station + course_m * last->sin_inc);

	take_turn(o, there.inc_rad - here.inc_rad, sb_wrap_half(there.azi_rad - here.azi_rad) * last->sin_inc,
		most);
	take_turn(o, there.inc_rad - last->inc_rad,
		sb_wrap_half(there.azi_rad - last->azi_rad) * last->sin_inc, most);
}

static struct ordinary ordinary_turns(
	const struct solution *sol, const struct attitude *last, double course_m, double most)
{
	const struct path *p = &sol->path;
	struct ordinary o = { 0 };

	for (size_t n = 0; n < RECENT && n + 1 < p->on_count; n++)
		take_course(&o, sb_path_back(p, n + 1), sb_path_back(p, n), course_m, most);
	take_design(&o, sol, last, course_m, most);
	return o;
}

/* What a reading is measured against, and in what words. */
struct start {
	bool known;	   /* there is an attitude to start from; else the design's is taken */
	const char *since; /* "since the last reading" */
};

static struct start start_of(const struct solution *sol, struct attitude *last)
{
	const struct path *p = &sol->path;
	struct start s = { .known = sb_path_attitude(p, last), .since = "since the last reading" };

	if (!s.known) {
		*last = p->rows[0].attitude;
		s.since = "from the design's heading at the entry";
	} else if (p->on_count == 1 && p->entry_known) {
		s.since = "from the heading staked at the entry";
	}
	return s;
}

static void capital(char *text)
{
	if (*text >= 'a' && *text <= 'z')
		*text = (char)(*text - 'a' + 'A');
}

static void say_impossible(struct findings *f, const struct solution *sol, const struct start *start,
	const struct slip_turn *turn, double course_m)
{
	struct suspicion *out = add(f, true, turn->aside_rad > turn->up_rad ? "azimuth" : "inclination",
		"turns further than it can");

	if (start->known)
		snprintf(out->text, sizeof out->text,
			"Turned %.1f degrees %s, a radius of %.0f %s: more than this string can do. Read it again.",
			sb_deg(turn->dogleg_rad), start->since,
			sb_frame_typed(&sol->frame, sb_bend_radius(course_m, turn->dogleg_rad)),
			sb_unit_short(f->unit));
	else
		snprintf(out->text, sizeof out->text,
			"This is %.1f degrees away %s. Read it again; if it holds, look at the azimuth reference and "
			"the inclination convention.",
			sb_deg(turn->dogleg_rad), start->since);
}

static void say_slip(struct findings *f, const struct slip_case *c, const struct start *start,
	const struct slip *slip, const struct slip_turn *turn, bool impossible)
{
	struct suspicion *out = add(f, true, slip->field, slip->kind);
	const struct reading *trial = c->trial;
	const char *cannot = impossible && start->known ? ", more than this string can do" : "";

	out->has_likely = true;
	out->likely = slip->value;
	if (sb_same(slip->kind, "inclination and azimuth exchanged"))
		snprintf(out->text, sizeof out->text,
			"Inclination %s and azimuth %s would be a turn of %.1f degrees %s%s. Meant inclination %s and azimuth %s? "
			"(exchanged)",
			trial->inclination.text, trial->azimuth.text, sb_deg(turn->dogleg_rad), start->since,
			cannot, trial->azimuth.text, trial->inclination.text);
	else
		snprintf(out->text, sizeof out->text,
			"%s %s would be a turn of %.1f degrees %s%s. Meant %s? (%s)", slip->field,
			sb_same(slip->field, "azimuth") ? trial->azimuth.text : trial->inclination.text,
			sb_deg(turn->dogleg_rad), start->since, cannot, slip->value.text, slip->kind);
	capital(out->text);
}

static void look_at_angles(struct findings *f, const struct job *job, const struct solution *sol,
	const struct reading *trial, double course_m)
{
	struct slip_case c = { .job = job, .frame = &sol->frame, .trial = trial };
	struct start start = start_of(sol, &c.last);
	/* The rig is staked to a few degrees of the drawing; a convention taken for another is far more. */
	double can = start.known ? physical_turn(job, c.frame, course_m) : sb_rad(10);
	double may = start.known ? fmin(can, contract_turn(job, sol, course_m)) : HUGE_VAL;
	c.ordinary = ordinary_turns(sol, &c.last, course_m, fmin(may, can));
	struct slip_turn turn = sb_slip_turn(&c, trial->inclination.value, trial->azimuth.value);
	struct attitude to = sb_attitude(
		sb_frame_inc(c.frame, trial->inclination.value), sb_frame_azi(c.frame, trial->azimuth.value));
	double sigma = sb_bend_noise(&c.last, &to, c.frame->sigma_inc_rad, c.frame->sigma_azi_rad);
	bool impossible = turn.dogleg_rad - 2 * sigma > can;
	bool unusual = turn.dogleg_rad > 0.75 * may && turn.beyond_rad > fmax(3 * sigma, 0.4 * may);
	if (!impossible && !unusual)
		return;
	enum slip_reach reach = impossible ? SLIP_ANY : turn.beyond_rad > 0.6 * may ? SLIP_LIKELY : SLIP_SURE;
	/* What was meant can be, and stops a hand at an unusual turn only if it is quite ordinary itself. */
	double left = impossible ? 0.5 * turn.beyond_rad : fmin(2.5 * sigma, turn.beyond_rad / 3);
	struct slip slip;
	if (sb_slip_find(&c, reach, &slip) && slip.turn.beyond_rad <= left &&
		slip.turn.dogleg_rad - 2 * sigma <= can)
		say_slip(f, &c, &start, &slip, &turn, impossible);
	else if (impossible)
		say_impossible(f, sol, &start, &turn, course_m);
}

/* ---- lengths and depths ---- */

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
	struct suspicion *s = add(f, held, d->bit ? "bit_depth" : "survey_depth", depth_kind(slip, d->bit));
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
	struct suspicion *s = add(f, true, "pushes", "pushes that do not fit the joint");
	sb_copy(s->text, sizeof s->text, err.text);
	capital(s->text);
}

static void look_at_slide(struct findings *f, const struct job *job, const struct reading *trial)
{
	struct suspicion *s;

	look_at_pushes(f, trial);
	if (sb_number_given(&trial->slid) && trial->slid.value > trial->joint_length.value) {
		s = add(f, true, "slid", "slid more than the joint");
		snprintf(s->text, sizeof s->text, "Slid %s %s of a joint of %s: more than there is.",
			trial->slid.text, sb_unit_short(job->unit), trial->joint_length.text);
	} else if (trial->pushes[0]) {
		return; /* they say which way and how far */
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
	struct findings f = { .out = out, .unit = job->unit };
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
	if (depths)
		look_at_depths(&f, job, sol, depths, bit_m, r.joint_length.value);
	look_at_length(&f, job, &r, last->joint + 1);
	look_at_slide(&f, job, &r);
	/* Held ones first, else in the order found. */
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
	sb_solution_clear(&s);
	sb_job_clear(&before);
	return count;
}

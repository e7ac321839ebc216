/* The first sense: a reading is held when no drill string could have turned that far since the last one, or
 * when it turns in a way that is out of the ordinary for this bore and a common slip of the pen explains it
 * away (model/slip.c). What is ordinary is taken from the last courses, from the design and from what
 * steering back to it takes; so a wild bore and a calm one are each measured by themselves.
 *
 * The shares below were set with simulated bores (tests/model/blunder_rates_test.c): an ordinary reading is
 * held in far less than one joint of a hundred. No source.
 */
#include "blunder_parts.h"

#include "base/str.h"
#include "geom/angle.h"
#include "geom/bend.h"

#include <math.h>
#include <stdio.h>

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

static void say_impossible(struct findings *f, const struct solution *sol, const struct start *start,
	const struct slip_turn *turn, double course_m)
{
	struct suspicion *out = blunder_add(f, true,
		turn->aside_rad > turn->up_rad ? "azimuth" : "inclination", "turns further than it can");

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
	struct suspicion *out = blunder_add(f, true, slip->field, slip->kind->words);
	const struct reading *trial = c->trial;
	const char *cannot = impossible && start->known ? ", more than this string can do" : "";

	out->has_likely = true;
	out->likely = slip->value;
	if (slip->kind == &sb_slip_exchanged)
		snprintf(out->text, sizeof out->text,
			"Inclination %s and azimuth %s would be a turn of %.1f degrees %s%s. Meant inclination %s and azimuth %s? "
			"(exchanged)",
			trial->inclination.text, trial->azimuth.text, sb_deg(turn->dogleg_rad), start->since,
			cannot, trial->azimuth.text, trial->inclination.text);
	else
		snprintf(out->text, sizeof out->text,
			"%s %s would be a turn of %.1f degrees %s%s. Meant %s? (%s)", slip->field,
			sb_same(slip->field, "azimuth") ? trial->azimuth.text : trial->inclination.text,
			sb_deg(turn->dogleg_rad), start->since, cannot, slip->value.text, slip->kind->words);
	blunder_capital(out->text);
}

bool blunder_look_at_turn(struct findings *f, const struct setup *setup, const struct solution *sol,
	const struct reading *trial, double course_m, bool only_impossible)
{
	const struct job *job = setup->job;
	struct slip_case c = { .job = job, .frame = setup->frame, .trial = trial };
	struct start start = start_of(sol, &c.last);
	/* The rig is staked to a few degrees of the drawing; a convention taken for another is far more. */
	double can = start.known ? physical_turn(job, c.frame, course_m) : sb_rad(10);
	double may = start.known ? fmin(can, contract_turn(job, sol, course_m)) : HUGE_VAL;
	c.ordinary = ordinary_turns(sol, &c.last, course_m, fmin(may, can));
	struct slip_turn turn = sb_slip_turn(&c, trial->inclination.value, trial->azimuth.value);
	struct attitude to = sb_slip_attitude(&c, trial->inclination.value, trial->azimuth.value);
	double sigma = sb_bend_noise(&c.last, &to, c.frame->sigma_inc_rad, c.frame->sigma_azi_rad);
	bool impossible = turn.dogleg_rad - 2 * sigma > can;
	bool unusual = turn.dogleg_rad > 0.75 * may && turn.beyond_rad > fmax(3 * sigma, 0.4 * may);
	if (!impossible && (only_impossible || !unusual))
		return false;
	enum slip_reach reach = impossible ? SLIP_ANY : turn.beyond_rad > 0.6 * may ? SLIP_LIKELY : SLIP_SURE;
	/* What was meant can be, and stops a hand at an unusual turn only if it is quite ordinary itself. */
	double left = impossible ? 0.5 * turn.beyond_rad : fmin(2.5 * sigma, turn.beyond_rad / 3);
	struct slip slip;
	struct slip_turn meant;
	if (sb_slip_find(&c, reach, &slip, &meant) && meant.beyond_rad <= left &&
		meant.dogleg_rad - 2 * sigma <= can)
		say_slip(f, &c, &start, &slip, &turn, impossible);
	else if (impossible)
		say_impossible(f, sol, &start, &turn, course_m);
	else
		return false;
	return true;
}

/* The points of the handover, one function each: the same words for the page of text and for print. */
#include "draw/axis.h"
#include "geom/angle.h"
#include "io/courses.h"
#include "io/timeline.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "handover_parts.h"

static double typed(const struct handover_page *p, double metres)
{
	return sb_frame_typed(&p->s->frame, metres);
}

/* ---- 1: where is the bit ---- */

/* A corridor in metres is told by the centimetre, one in feet by the tenth. */
static int decimals(const struct handover_page *p)
{
	return p->job->unit == UNIT_M ? 2 : 1;
}

static void side_words(const struct handover_page *p, double value, const char *positive,
	const char *negative, const char *none, char to[32])
{
	if (fabs(value) < 0.5 * pow(10, -decimals(p)))
		snprintf(to, 32, "%s", none);
	else
		snprintf(to, 32, "%.*f %s %s", decimals(p), fabs(value), p->unit,
			value > 0 ? positive : negative);
}

void handover_bit(struct handover_page *p)
{
	const struct bit *b = &p->s->bit;
	const struct row *last = sb_solution_last(p->s);
	char station[SB_AXIS_TEXT], offset[32], height[32];

	if (!b->known) {
		handover_put(p, "bit", "not known: no reading was taken and no entry was staked");
		handover_put(p, "", "joint %d   depth %.2f %s", last->joint, typed(p, b->md_m), p->unit);
		return;
	}
	sb_axis_station(b->deviation.station_m, p->job->unit, 1, station);
	side_words(p, typed(p, b->deviation.offset_m), "right", "left", "on line", offset);
	side_words(p, typed(p, b->deviation.height_m), "high", "low", "on grade", height);
	handover_put(p, "bit", "station %s  %s  %s  elev %.1f  corridor %.0f %% %s", station, offset, height,
		typed(p, b->at.u), fmin(b->use.share, 9.99) * 100, sb_level_word(b->level));
	struct design_place design = sb_design_at(&p->s->design, b->deviation.station_m);
	handover_put(p, "", "joint %d leg %d  depth %.2f  heading %.1f, %.1f (design %.1f, %.1f)",
		last->joint, sb_job_leg(p->job), typed(p, b->md_m),
		sb_frame_inc_typed(&p->s->frame, b->attitude.inc_rad),
		sb_frame_azi_typed(&p->s->frame, b->attitude.azi_rad),
		sb_frame_inc_typed(&p->s->frame, design.inc_rad),
		sb_frame_azi_typed(&p->s->frame, design.azi_rad));
	double factor = p->s->uncertainty.line_factor;
	handover_put(p, "", "give or take %.*f %s across, %.*f in height (%s %%); %.0f %% chance outside",
		decimals(p), typed(p, factor * b->doubt.across_m), p->unit, decimals(p),
		typed(p, factor * b->doubt.up_m), p->job->confidence.text, b->outside * 100);
}

/* Where slides and arcs put the bit apart from one another, and which of them is the record. */
void handover_courses(struct handover_page *p)
{
	struct path_shift apart =
		sb_path_shift(&p->s->design, p->job->course, sb_solution_last_on_path(p->s));
	char words[SB_COURSES_TEXT];

	if (!sb_courses_words(p->job, &p->s->frame, &apart, words))
		return;
	handover_put(p, "", "by slides %s of arcs; %s are the record", words,
		p->job->course == COURSE_BY_SLIDES ? "slides" : "arcs");
	p->more++;
}

/* ---- 2: the worst of the shift ---- */

static void radius_words(const struct handover_page *p, double radius_m, char to[32])
{
	double radius = typed(p, radius_m);

	if (radius < 99999)
		snprintf(to, 32, "%.0f %s", radius, p->unit);
	else
		snprintf(to, 32, "straight");
}

/* "limit 1500, 27 % to spare". */
static void margin_words(double radius, const struct number *limit, char to[64])
{
	to[0] = '\0';
	if (!sb_number_given(limit))
		snprintf(to, 64, "no limit set");
	else if (radius >= 99999)
		snprintf(to, 64, "limit %s", limit->text);
	else
		snprintf(to, 64, "limit %s, %.0f %% %s", limit->text, fabs(radius / limit->value - 1) * 100,
			radius >= limit->value ? "to spare" : "too tight");
}

/* Of the tightest joint and the tightest window, the one that is worse against its own limit. */
static bool window_is_worst(const struct handover_page *p)
{
	const struct period *t = &p->shift;
	const struct number *joint = &p->job->joint_minimum, *window = &p->job->window_minimum;

	if (t->tightest == NULL || t->tightest_joint == NULL || !sb_number_given(joint))
		return t->tightest != NULL;
	if (!sb_number_given(window))
		return false;
	return t->tightest->window.radius_m / window->value <= t->tightest_joint->radius_m / joint->value;
}

void handover_worst(struct handover_page *p)
{
	const struct period *t = &p->shift;
	char radius[32], margin[64];

	if (window_is_worst(p)) {
		radius_words(p, t->tightest->window.radius_m, radius);
		margin_words(typed(p, t->tightest->window.radius_m), &p->job->window_minimum, margin);
		handover_put(p, "worst", "bend over %d joints: %s at joint %d (%s)",
			t->tightest->window.joints, radius, t->tightest->joint, margin);
	} else if (t->tightest_joint) {
		radius_words(p, t->tightest_joint->radius_m, radius);
		margin_words(typed(p, t->tightest_joint->radius_m), &p->job->joint_minimum, margin);
		handover_put(p, "worst", "bend of one joint: %s at joint %d (%s)", radius,
			t->tightest_joint->joint, margin);
	} else {
		handover_put(p, "worst", "no bend was measured in this shift");
	}
	if (t->farthest == NULL)
		handover_put(p, "", "no position was measured in this shift");
	else if (isinf(t->farthest->use.limit_m))
		handover_put(p, "", "no corridor is set");
	else
		handover_put(p, "", "off line: %.*f %s %s at joint %d (limit %.*f, %.0f %% used)",
			decimals(p), typed(p, t->farthest->use.value_m), p->unit,
			sb_side_word(t->farthest->use.side), t->farthest->joint, decimals(p),
			typed(p, t->farthest->use.limit_m), fmin(t->farthest->use.share, 9.99) * 100);
}

/* ---- 3: progress ---- */

static void put_drilled(struct handover_page *p)
{
	const struct period *t = &p->shift;
	char time[64] = "hours not known", withdrawn[48] = "";

	if (p->minutes > 0)
		snprintf(time, sizeof time, "in %.1f h, %.1f %s/h", p->minutes / 60,
			t->length / p->minutes * 60, p->unit);
	if (t->withdrawn)
		snprintf(withdrawn, sizeof withdrawn, " (%zu of them withdrawn)", t->withdrawn);
	handover_put(p, "drilled", "%zu joint%s%s, %.2f %s %s", t->joints, t->joints == 1 ? "" : "s",
		withdrawn, t->length, p->unit, time);
}

void handover_progress(struct handover_page *p)
{
	double left = typed(p, p->s->design.length_m - p->s->bit.deviation.station_m),
	       joint = p->job->joint_length.value, depth = typed(p, sb_solution_last(p->s)->bit_md_m);

	if (p->shift.joints == 0)
		handover_put(p, "drilled", "no joint in this shift");
	else
		put_drilled(p);
	if (left > 0 && joint > 0)
		handover_put(p, "", "to date %.2f %s in the ground; %.1f %s to the exit, about %.0f joints",
			depth, p->unit, left, p->unit, ceil(left / joint));
	else
		handover_put(p, "", "to date %.2f %s in the ground; the exit is reached", depth, p->unit);
}

/* ---- 4: returns and pressures ---- */

static void range_words(const struct range *r, const char *what, const char *unit, char to[64])
{
	if (r->known)
		snprintf(to, 64, "%s %.10g to %.10g %s", what, r->low, r->high, unit);
	else
		snprintf(to, 64, "%s not logged", what);
}

void handover_returns(struct handover_page *p)
{
	const struct period *t = &p->shift;
	const char *pressure = sb_row_field_unit(sb_row_field("standpipe"), p->job->unit);
	char standpipe[64], annular[64];

	if (t->returns == RETURNS_UNSAID)
		handover_put(p, "returns", "not logged");
	else if (t->returns_joint)
		handover_put(p, "returns", "now %s; less than full last at joint %d, at worst %s",
			sb_returns_name(t->returns), t->returns_joint, sb_returns_name(t->worst_returns));
	else
		handover_put(p, "returns", "now %s", sb_returns_name(t->returns));
	range_words(&t->standpipe, "standpipe", pressure, standpipe);
	range_words(&t->annular, "annular", pressure, annular);
	handover_put(p, "", "%s   %s", standpipe, annular);
}

/* ---- 8: time lost ---- */

/* What the log says of a stop, where there is room for it. */
static void put_why(struct handover_page *p, const struct period_stop *stop)
{
	struct sb_str why = { 0 };

	sb_timeline_why(p->job, &p->timeline, stop->at, &why);
	if (why.length)
		handover_put(p, "", "before joint %d: %s", stop->before, sb_str_get(&why));
	sb_str_clear(&why);
}

void handover_lost(struct handover_page *p)
{
	const struct period *t = &p->shift;
	char words[200] = "";

	if (t->stop_count == 0) {
		handover_put(p, "waits",
			t->timed ? "none longer than usual between joints"
				 : "not known: times were not logged with every joint");
		return;
	}
	for (size_t i = 0; i < SB_PERIOD_STOPS && i < t->stop_count; i++) {
		size_t used = strlen(words);
		snprintf(words + used, sizeof words - used, "%s%.0f before %s%d", i ? ", " : "",
			t->stops[i].minutes, i ? "" : "joint ", t->stops[i].before);
	}
	handover_put(p, "waits", "%.0f min: %s", t->stop_min, words);
	for (size_t i = 0; p->d && i < SB_PERIOD_STOPS && i < t->stop_count; i++)
		put_why(p, &t->stops[i]);
}

/* ---- 5: the last independent fix ---- */

void handover_fix(struct handover_page *p)
{
	const struct fixes *f = &p->s->fixes;
	struct setup setup = sb_solution_setup(p->job, p->s);
	const char *corrected = sb_job_adjustment(p->job) ? ", path corrected" : "";
	struct sb_str off = { 0 };
	size_t i = f->count;

	while (i > 0 && f->list[i - 1].standing != FIX_STANDS)
		i--;
	if (i == 0) {
		handover_put(p, "fix", "no independent fix%s%s", f->count ? " that stands" : ": none taken",
			corrected);
		return;
	}
	const struct fix_view *v = &f->list[i - 1];
	const struct fix *fix = sb_job_fix(p->job, v->fix);
	sb_fixes_off(&setup, v->seen, v->off_m, &off);
	handover_put(p, "fix", "%s at %s %s%s: %s", sb_fix_kind_name(fix->kind), fix->depth.text,
		sb_fixes_verdict(v), corrected, sb_str_get(&off));
	sb_str_clear(&off);
}

/* ---- 9: the next joints ---- */

static void put_next_rows(struct handover_page *p, const struct next_joints *n)
{
	for (size_t i = 0; i < n->count; i++)
		handover_put(p, i ? "" : "next", "joint %d: inclination %.1f, azimuth %.1f (%s)",
			n->list[i].joint, n->list[i].inclination, n->list[i].azimuth,
			n->planned ? "plan" : "design");
}

void handover_next(struct handover_page *p)
{
	struct next_joints n;

	next_take(p->job, p->s, &n);
	if (n.joints[0] == '\0') {
		handover_put(p, "next", "no joint before the exit");
		return;
	}
	if (p->d) {
		put_next_rows(p, &n);
		return;
	}
	handover_put(p, "next", "joint      %s", n.joints);
	handover_put(p, "", "inclination%s  (%s)", n.inclinations, n.planned ? "plan" : "design");
	handover_put(p, "", "azimuth    %s  (%s)", n.azimuths, n.planned ? "plan" : "design");
}

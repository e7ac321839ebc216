/* How the hole bends: the angle between two readings, radii over one joint and over the contract's window,
 * and what the next joint may still turn. */
#include "geom/angle.h"
#include "geom/bend.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

#define SOURCE_ANGLE \
	"minimum curvature: Taylor and Mason, SPE 3362 (1972); Zaremba, SPE 3664 (1973); the angle from half-angle sines, which are exact where arc cosines are not"

static void put_readings(struct explaining *x, const struct explain_course *c)
{
	char where[EXPLAIN_WHERE];
	const struct row *from = x->trail[c->from];

	explain_input(x, "i1", AS_ANGLE, c->start.inc_rad, "from straight down: %s",
		c->borrowed ? "nothing was staked at the entry, and this reading's stands for it"
			    : explain_reading(from,
				      from->reading ? sb_job_reading(x->job, from->reading) : NULL, where));
	explain_input(x, "a1", AS_ANGLE, c->start.azi_rad, "from grid north, of the same");
	explain_input(x, "i2", AS_ANGLE, c->end.inc_rad, "from straight down: %s",
		explain_reading(x->row, x->r, where));
	explain_input(x, "a2", AS_ANGLE, c->end.azi_rad, "from grid north, of the same");
}

static void put_noise(struct explaining *x, double sigma)
{
	char inc[EXPLAIN_WHERE], azi[EXPLAIN_WHERE];

	explain_input(x, "si", AS_ANGLE, x->then.sigma_inc_rad, "noise of one inclination, one sigma: %s",
		explain_key(x, "tool", "sigma_inclination", inc));
	explain_input(x, "sa", AS_ANGLE, x->then.sigma_azi_rad, "noise of one azimuth: %s",
		explain_key(x, "tool", "sigma_azimuth", azi));
	explain_step(x, "sb", AS_ANGLE, sigma,
		"one sigma of b, from the noise of both readings along and across the turn");
}

static void put_angle(struct explaining *x, const struct explain_course *c)
{
	double di = sin((c->end.inc_rad - c->start.inc_rad) / 2),
	       da = sin(sb_wrap_half(c->end.azi_rad - c->start.azi_rad) / 2);
	double s = sqrt(di * di + c->start.sin_inc * c->end.sin_inc * da * da);

	put_readings(x, c);
	explain_step(
		x, "s", AS_NUMBER, s, "square root of sin^2((i2-i1)/2) + sin i1 sin i2 sin^2((a2-a1)/2)");
}

void explain_dogleg(struct explaining *x)
{
	struct explain_course c = explain_course(x, x->trail_count - 1);

	explain_words(
		x, EXPLAIN_FORMULA, "b = 2 asin s;  s^2 = sin^2((i2-i1)/2) + sin i1 sin i2 sin^2((a2-a1)/2)");
	put_angle(x, &c);
	put_noise(x, sb_bend_noise(&c.start, &c.end, x->then.sigma_inc_rad, x->then.sigma_azi_rad));
	explain_result(x, sb_path_columns[PATH_DOGLEG].name, AS_ANGLE, c.dogleg_rad, x->row->dogleg_rad,
		"b, turned over the course of %.2f %s", sb_frame_typed(&x->s->frame, c.length_m),
		sb_unit_short(x->job->unit));
	explain_check(x, AS_ANGLE, sb_vec3_angle(c.start.heading, c.end.heading), c.dogleg_rad,
		"the angle between the two headings as vectors, by atan2(|t1 x t2|, t1 . t2)");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_ANGLE);
}

/* ---- radii ---- */

/* "1500 ft, [bend] window_minimum, job sheet" against the figure. */
static void put_limit(struct explaining *x, const char *key, const struct number *limit, double length_m,
	double angle, double sigma, double sure_sigmas)
{
	char where[EXPLAIN_WHERE], allowed_text[EXPLAIN_VALUE];

	if (!sb_number_given(limit)) {
		explain_words(x, EXPLAIN_LIMIT, "The contract sets none ([bend] %s is blank).", key);
		return;
	}
	double allowed = length_m / sb_frame_metres(&x->s->frame, limit->value);
	explain_words(x, EXPLAIN_LIMIT, "At least %s %s: %s. Over this length that is %s.", limit->text,
		sb_unit_short(x->job->unit), explain_key(x, "bend", key, where),
		explain_value(x, AS_ANGLE, allowed, allowed_text));
	bool past = angle > allowed * (1 + 1e-9);
	if (!past)
		explain_words(x, EXPLAIN_LIMIT,
			angle + sigma > allowed && sure_sigmas == 0
				? "watch: it is kept, but one sigma of reading noise would pass it."
				: "ok: it is kept.");
	else if (angle - sure_sigmas * sigma > allowed)
		explain_words(x, EXPLAIN_LIMIT, "breach: it is tighter than that%s.",
			sure_sigmas > 0 ? ", and two sigma of reading noise do not explain it" : "");
	else
		explain_words(x, EXPLAIN_LIMIT,
			"watch: it is tighter than that, within two sigma of reading noise.");
}

void explain_radius_joint(struct explaining *x)
{
	struct explain_course c = explain_course(x, x->trail_count - 1);
	double sigma = sb_bend_noise(&c.start, &c.end, x->then.sigma_inc_rad, x->then.sigma_azi_rad);
	double chord = sb_vec3_length(c.arc.step), half = sb_vec3_angle(c.start.heading, c.end.heading) / 2;

	explain_words(x, EXPLAIN_FORMULA, "R = L / b, b in radians");
	explain_input(x, "L", AS_LENGTH, c.length_m, "survey depth %.3f less %.3f (explain depth)",
		sb_frame_typed(&x->s->frame, explain_survey_depth(x, c.to)),
		sb_frame_typed(&x->s->frame, explain_survey_depth(x, c.from)));
	put_angle(x, &c);
	explain_step(x, "b", AS_ANGLE, c.dogleg_rad, "2 asin s: the angle turned (explain dogleg); %.9g rad",
		c.dogleg_rad);
	put_noise(x, sigma);
	explain_result(x, sb_path_columns[PATH_RADIUS_JOINT].name, AS_LENGTH,
		sb_bend_radius(c.length_m, c.dogleg_rad), x->row->radius_m,
		c.dogleg_rad > 0 ? "L / b" : "the two headings are the same: it did not turn");
	if (c.dogleg_rad > 0)
		explain_check(x, AS_LENGTH, chord / (2 * sin(half)), sb_bend_radius(c.length_m, c.dogleg_rad),
			"of the circle by its chord: chord / (2 sin(b/2)), chord %.6f",
			sb_frame_typed(&x->s->frame, chord));
	put_limit(x, "joint_minimum", &x->job->joint_minimum, c.length_m, c.dogleg_rad, sigma, 2);
	explain_words(x, EXPLAIN_NOTE,
		"One joint's radius is mostly reading noise where a design curve turns half a degree a joint: so the contract's window judges.");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_ANGLE);
}

static const char *window_key(const struct explaining *x)
{
	return sb_number_given(&x->job->window_length) ? "window_length" : "window_joints";
}

static void put_window_courses(struct explaining *x, const struct explain_window *w, size_t to)
{
	char symbol[24];

	for (size_t i = to; i != SIZE_MAX && i >= w->first; i = explain_before(x, i)) {
		struct explain_course c = explain_course(x, i);
		snprintf(symbol, sizeof symbol, "b%d", x->trail[i]->joint);
		explain_input(x, symbol, AS_ANGLE, c.dogleg_rad,
			"turned in joint %d over %.3f %s%s (explain dogleg --joint %d)", x->trail[i]->joint,
			sb_frame_typed(&x->s->frame, c.length_m), sb_unit_short(x->job->unit),
			w->inside && i == w->first ? ", of which the last part counts" : "",
			x->trail[i]->joint);
	}
}

static void put_window_ends(struct explaining *x, const struct explain_window *w)
{
	explain_input(x, "i1", AS_ANGLE, w->from.inc_rad, "where the window begins%s, from straight down",
		w->inside ? ", inside a course: on its arc" : "");
	explain_input(x, "a1", AS_ANGLE, w->from.azi_rad, "from grid north, there");
	explain_input(x, "i2", AS_ANGLE, w->to.inc_rad, "where it ends: joint %d", x->row->joint);
	explain_input(x, "a2", AS_ANGLE, w->to.azi_rad, "from grid north, there");
}

/* Both angles, and the one that judges. */
static void put_window_figure(struct explaining *x, const struct explain_window *w)
{
	bool by_sum = x->job->method == METHOD_SUM;
	char value[EXPLAIN_VALUE];
	double sigma = sb_bend_noise(&w->from, &w->to, x->then.sigma_inc_rad, x->then.sigma_azi_rad);
	double angle = by_sum ? w->sum_rad : w->ends_rad;
	explain_step(x, "L", AS_LENGTH, w->length_m, "length of the window: %d course%s", w->joints,
		w->joints == 1 ? "" : "s");
	explain_step(x, "sum", AS_ANGLE, w->sum_rad, "sum of the angles of its courses: radius %s",
		explain_value(x, AS_LENGTH, sb_bend_radius(w->length_m, w->sum_rad), value));
	explain_step(x, "ends", AS_ANGLE, w->ends_rad, "angle between the headings at its ends: radius %s",
		explain_value(x, AS_LENGTH, sb_bend_radius(w->length_m, w->ends_rad), value));
	explain_step(x, "sb", AS_ANGLE, sigma, "one sigma of the angle between the ends, from reading noise");
	explain_result(x, sb_path_columns[PATH_RADIUS_WINDOW].name, AS_LENGTH,
		sb_bend_radius(w->length_m, angle),
		x->row->window.joints ? x->row->window.radius_m : (double)NAN,
		angle > 0 ? "L / %s" : "it did not turn (%s)", by_sum ? "sum" : "ends");
	explain_check(x, AS_ANGLE, sb_vec3_angle(w->from.heading, w->to.heading), w->ends_rad,
		"the angle between the ends as vectors, by atan2(|t1 x t2|, t1 . t2)");
	put_limit(x, "window_minimum", &x->job->window_minimum, w->length_m, angle, sigma, 0);
}

void explain_radius_window(struct explaining *x)
{
	size_t to = x->trail_count - 1;
	struct explain_window w = explain_window(x, to, 0);
	bool by_sum = x->job->method == METHOD_SUM;
	char where[EXPLAIN_WHERE];
	const struct number *size =
		sb_number_given(&x->job->window_length) ? &x->job->window_length : &x->job->window_joints;

	explain_words(x, EXPLAIN_FORMULA,
		by_sum ? "R = L / sum of b over the window, in radians"
		       : "R = L / angle between the headings at its ends, in radians");
	explain_typed(x, "window", size,
		sb_number_given(&x->job->window_length) ? sb_unit_short(x->job->unit) : "joints", "%s",
		explain_key(x, "bend", window_key(x), where));
	explain_choice(x, "method", by_sum ? "sum" : "ends", "%s: %s",
		by_sum ? "the sum of the doglegs" : "the angle between the ends",
		explain_key(x, "bend", "method", where));
	if (!w.full) {
		explain_words(x, EXPLAIN_NOTE, "The window is not full yet at joint %d: there is no figure.",
			x->row->joint);
		explain_result(x, sb_path_columns[PATH_RADIUS_WINDOW].name, AS_LENGTH, (double)NAN,
			x->row->window.joints ? x->row->window.radius_m : (double)NAN,
			"blank until the window is full");
		return;
	}
	put_window_courses(x, &w, to);
	put_window_ends(x, &w);
	put_window_figure(x, &w);
	explain_words(x, EXPLAIN_NOTE,
		"The angle between the ends hides an S; the sum counts reading noise as bending. The contract names the one that judges.");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_ANGLE);
}

/* ---- what is left ---- */

/* The least of what each limit leaves. */
struct room {
	struct bend_room left;
	const char *by;
};

static void narrow(struct room *r, struct bend_room one, const char *by)
{
	bool first = r->by == NULL;

	if (first || one.least < r->left.least) {
		r->left.least = one.least;
		r->by = by;
	}
	r->left.up = first ? one.up : fmin(r->left.up, one.up);
	r->left.down = first ? one.down : fmin(r->left.down, one.down);
	r->left.left = first ? one.left : fmin(r->left.left, one.left);
	r->left.right = first ? one.right : fmin(r->left.right, one.right);
}

static struct bend_room even(double angle)
{
	double most = fmax(angle, 0);

	return (struct bend_room){ angle, most, most, most, most };
}

static void take_radius(struct explaining *x, struct room *r, const char *symbol, const char *section,
	const char *key, const struct number *least, double next_m, const char *by)
{
	char where[EXPLAIN_WHERE];

	if (!sb_number_given(least))
		return;
	double angle = next_m / sb_frame_metres(&x->s->frame, least->value);
	explain_typed(x, symbol, least, sb_unit_short(x->job->unit), "least radius: %s",
		explain_key(x, section, key, where));
	explain_step(x, by, AS_ANGLE, angle, "l / %s, whichever way", symbol);
	narrow(r, even(angle), by);
}

static void take_window(struct explaining *x, struct room *r, double next_m)
{
	size_t to = (size_t)sb_solution_last_on_path(x->s)->joint;
	struct explain_window w = explain_window(x, to, next_m);
	const struct number *least = &x->job->window_minimum;
	char where[EXPLAIN_WHERE];
	bool by_sum = x->job->method == METHOD_SUM;

	if (!sb_number_given(least))
		return;
	if (!w.full) {
		explain_words(x, EXPLAIN_NOTE,
			"The window would not be full with the next joint: its limit says nothing yet.");
		return;
	}
	double limit = (w.length_m + next_m) / sb_frame_metres(&x->s->frame, least->value);
	explain_typed(x, "Rw", least, sb_unit_short(x->job->unit), "least radius over the window: %s",
		explain_key(x, "bend", "window_minimum", where));
	explain_step(x, "Lw", AS_LENGTH, w.length_m, "of the window, drilled already: %d course%s", w.joints,
		w.joints == 1 ? "" : "s");
	explain_step(x, "allowed", AS_ANGLE, limit,
		"(Lw + l) / Rw: so far the window with the next joint may turn");
	explain_step(x, "turned", AS_ANGLE, by_sum ? w.sum_rad : w.ends_rad,
		by_sum ? "sum of its doglegs so far" : "between its start and here");
	struct bend_room left = by_sum ? even(limit - w.sum_rad) : sb_bend_room(&w.from, &w.to, limit);
	explain_step(x, "window limit", AS_ANGLE, left.least, "allowed less turned: in the worst direction");
	narrow(r, left, "window limit");
}

/* The turn in a direction, laid on the sphere: how far the far end then is from the start of the window. */
static void check_turn(struct explaining *x, double next_m, double up)
{
	size_t to = (size_t)sb_solution_last_on_path(x->s)->joint;
	struct explain_window w = explain_window(x, to, next_m);
	char allowed[EXPLAIN_VALUE], after_text[EXPLAIN_VALUE];

	if (!w.full || x->job->method == METHOD_SUM || !sb_number_given(&x->job->window_minimum))
		return;
	struct attitude after = sb_attitude(w.to.inc_rad + up, w.to.azi_rad);
	explain_words(x, EXPLAIN_CHECK,
		"Turned up by that much, the heading lies %s from where the window begins; %s is allowed over it.",
		explain_value(x, AS_ANGLE, sb_vec3_angle(w.from.heading, after.heading), after_text),
		explain_value(x, AS_ANGLE,
			(w.length_m + next_m) / sb_frame_metres(&x->s->frame, x->job->window_minimum.value),
			allowed));
}

void explain_budget(struct explaining *x)
{
	const struct budget *kept = &x->s->budget;
	struct number next = sb_job_tally(x->job, x->row->joint + 1);
	double next_m = sb_frame_metres(&x->s->frame, next.value);
	struct room r = { 0 };

	explain_words(x, EXPLAIN_FORMULA,
		"least of: l / R of drill pipe and joint; (Lw + l) / Rw less what the window has turned");
	explain_typed(x, "l", &next, sb_unit_short(x->job->unit),
		"length of joint %d, by tally or [drill_pipe] joint_length", x->row->joint + 1);
	if (!kept->known && !x->s->bit.known) {
		explain_words(x, EXPLAIN_NOTE,
			"Nothing was read yet, and nothing staked: no heading to turn from.");
		return;
	}
	take_radius(x, &r, "Rp", "drill_pipe", "minimum_radius", &x->job->drill_pipe_minimum_radius, next_m,
		"drill pipe");
	take_radius(x, &r, "Rj", "bend", "joint_minimum", &x->job->joint_minimum, next_m, "joint limit");
	take_window(x, &r, next_m);
	if (r.by == NULL) {
		explain_words(x, EXPLAIN_LIMIT,
			"Nobody sets a limit of bending ([bend], [drill_pipe]): there is no budget.");
		return;
	}
	explain_result(x, "degrees", AS_ANGLE, fmax(r.left.least, 0), fmax(kept->least_rad, 0),
		"in the worst direction, by the %s", r.by);
	explain_result(x, "up", AS_ANGLE, r.left.up, kept->up_rad, "the most that it may turn up");
	explain_result(x, "down", AS_ANGLE, r.left.down, kept->down_rad, "down");
	explain_result(x, "left", AS_ANGLE, r.left.left, kept->left_rad, "left, looking ahead");
	explain_result(x, "right", AS_ANGLE, r.left.right, kept->right_rad, "right");
	if (r.left.least < 0)
		explain_words(x, EXPLAIN_LIMIT, "breach: the %s is passed already; hold straight.", r.by);
	check_turn(x, next_m, r.left.up);
	explain_words(x, EXPLAIN_NOTE,
		"By direction: how far the heading may move on the plane square to it before it is further from where the window began than is allowed (geom/bend.h).");
	explain_words(x, EXPLAIN_SOURCE, "derived from the definition of the radius; no publication");
}

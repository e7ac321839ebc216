/* Where the bore goes from the bit: the joint at which the corridor would be left, three ways, and where it
 * comes out. */
#include "geom/angle.h"
#include "model/exit.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

/* How often a joint ahead is looked at. */
#define LOOKS 4
/* How many joints are told of in full. */
#define TOLD 6

/* Going on from the bit: straight, along the last curve, or following the design with its difference kept. */
enum way { WAY_HELD, WAY_CURVED, WAY_KEPT };

struct walk {
	enum way way;
	struct explain_bit bit;
	struct arc arc; /* at the bit, of WAY_CURVED */
	struct deviation at;
	double gone_m;
};

static struct deviation place_of(const struct explaining *x, const struct walk *w, double s_m)
{
	struct vec3 step = sb_vec3_scale(w->bit.attitude.heading, s_m);

	if (w->way == WAY_CURVED) {
		sb_arc_at(&w->arc, w->arc.length_m + s_m, &step, NULL);
		step = sb_vec3_sub(step, w->arc.step);
	}
	return sb_deviation(&x->s->design, sb_vec3_add(w->bit.at, step), NULL, w->at.station_m);
}

/* A step beside the design: so far along, across and up as the difference in heading says. */
static void go(const struct explaining *x, struct walk *w, double step_m)
{
	w->gone_m += step_m;
	if (w->way != WAY_KEPT) {
		w->at = place_of(x, w, w->gone_m);
		return;
	}
	struct design_place d = sb_design_at(&x->s->design, w->at.station_m);
	double rise = d.inc_rad - SB_PI / 2 + w->at.inc_off_rad, level = step_m * cos(rise);
	double along = level * cos(w->at.azi_off_rad);
	w->at.station_m += along;
	w->at.offset_m += level * sin(w->at.azi_off_rad);
	w->at.height_m += step_m * sin(rise) - along / tan(SB_PI - d.inc_rad);
}

static double share_at(const struct explaining *x, const struct walk *w)
{
	struct corridor_limits l = sb_corridor_at(&x->s->corridor, w->at.station_m);

	return sb_corridor_use(&l, w->at.offset_m, w->at.height_m).share;
}

static void tell(struct explaining *x, const struct walk *w, int joint, bool out)
{
	char symbol[24], offset[EXPLAIN_VALUE], height[EXPLAIN_VALUE], station[EXPLAIN_VALUE];

	snprintf(symbol, sizeof symbol, "joint %d", joint);
	explain_step(x, symbol, AS_NUMBER, share_at(x, w), "share%s; station %s, offset %s, height %s",
		out ? ": outside" : " at its end", explain_value(x, AS_LENGTH, w->at.station_m, station),
		explain_value(x, AS_LENGTH, w->at.offset_m, offset),
		explain_value(x, AS_LENGTH, w->at.height_m, height));
}

/* The joint at which the corridor is left; 0 if not within sight, or before the exit. told: how many joints
 * are told of. */
static int leaves(struct explaining *x, struct walk *w, int told)
{
	int joint = x->row->joint;

	if (share_at(x, w) > 1 + 1e-9) {
		if (told)
			tell(x, w, joint, true);
		return joint > 0 ? joint : 1;
	}
	for (int k = 1; k <= SB_AHEAD_SIGHT; k++) {
		double length = sb_frame_metres(&x->s->frame, sb_job_tally(x->job, joint + k).value),
		       begin = w->gone_m;
		for (int i = 1; i <= LOOKS; i++) {
			go(x, w,
				w->way == WAY_KEPT ? length / LOOKS : begin + length * i / LOOKS - w->gone_m);
			bool out = share_at(x, w) > 1 + 1e-9;
			if (w->at.station_m > x->s->design.length_m)
				return 0;
			if (out && told)
				tell(x, w, joint + k, true);
			if (out)
				return joint + k;
		}
		if (k <= told)
			tell(x, w, joint + k, false);
	}
	return 0;
}

/* The last curve, begun again where the bit is. */
static bool arc_at_bit(const struct explaining *x, const struct explain_bit *b, struct arc *arc)
{
	struct vec3 start;
	double inc, azi;

	*arc = b->arc;
	if (!b->bends || x->job->projection == PROJECTION_HOLD)
		return b->bends;
	sb_arc_at(&b->arc, b->gap_m, NULL, &start);
	sb_vec3_attitude(start, &inc, &azi);
	struct attitude begin = sb_attitude(inc, azi);
	return sb_arc_between(&begin, &b->attitude, b->arc.length_m, arc) == ARC_OK;
}

/* 0 is nowhere. */
static double joint_number(int joint)
{
	return joint ? joint : (double)NAN;
}

static void put_leaving(struct explaining *x, const char *name, int joint, int kept, const char *how)
{
	explain_result(x, name, AS_NUMBER, joint_number(joint), joint_number(kept), "%s%s", how,
		joint ? "" : ": stays inside, as far as it looks (40 joints, or the exit)");
}

void explain_leaves(struct explaining *x)
{
	const struct ahead *kept = &x->s->ahead;
	struct walk w = { .bit = explain_bit_place(x) };
	char where[EXPLAIN_WHERE];

	explain_words(x, EXPLAIN_FORMULA,
		"the first joint of which a quarter ends with a corridor share over 1, going on from the bit");
	if (!w.bit.known) {
		explain_words(x, EXPLAIN_NOTE,
			"Nothing was read yet, and nothing staked: it is not known where the bore heads.");
		return;
	}
	w.at = w.bit.deviation;
	explain_input(x, "station", AS_LENGTH, w.at.station_m, "of the bit (explain bit)");
	explain_input(x, "offset", AS_LENGTH, w.at.offset_m, "of the bit, right positive");
	explain_input(x, "height", AS_LENGTH, w.at.height_m, "of the bit, high positive");
	explain_input(x, "i", AS_ANGLE, w.bit.attitude.inc_rad, "heading of the bit, from straight down");
	explain_input(x, "a", AS_ANGLE, w.bit.attitude.azi_rad, "from grid north");
	struct walk held = w, curved = w, drift = w;
	int one = leaves(x, &held, TOLD), two = one;
	curved.way = WAY_CURVED;
	if (arc_at_bit(x, &w.bit, &curved.arc))
		two = leaves(x, &curved, 0);
	drift.way = WAY_KEPT;
	drift.at = sb_deviation(&x->s->design, w.bit.at, &w.bit.attitude.heading, w.at.station_m);
	explain_step(x, "up by", AS_ANGLE, drift.at.inc_off_rad, "the bit heads so far above the design");
	explain_step(x, "right by", AS_ANGLE, drift.at.azi_off_rad, "and so far to the right of it");
	int three = leaves(x, &drift, 0);
	put_leaving(x, "leaves_at_joint", one, kept->leaves_held, "if the heading is held");
	put_leaving(x, "curved", two, kept->leaves_curved, "if the last curve goes on");
	put_leaving(x, "kept", three, kept->leaves_kept,
		"if the design's bends are followed and the difference to its heading is kept: what is warned of");
	explain_words(x, EXPLAIN_LIMIT, "A watch within %s joints (%s); this is %s.", x->job->look_ahead.text,
		explain_key(x, "corridor", "look_ahead", where),
		three && three - x->row->joint <= (int)x->job->look_ahead.value && x->row->joint > 0
			? "a watch"
			: "ok");
	explain_words(x, EXPLAIN_SOURCE, "definition of this program; common practice, no source");
}

/* ---- the exit ---- */

/* The reading below the exit's elevation and the place above it that the hole came up between. */
static struct vec3 came_up(struct explaining *x, const struct explain_bit *b)
{
	double level = x->s->design.exit_elevation_m;
	struct vec3 above = b->at;

	for (size_t i = x->trail_count; i-- > 0;) {
		if (!x->trail[i]->on_path)
			continue;
		struct vec3 below = explain_place(x, i);
		if (below.u < level) {
			double t = (level - below.u) / (above.u - below.u);
			explain_input(x, "below", AS_LENGTH, below.u,
				"elevation at joint %d, the last one below it", x->trail[i]->joint);
			explain_input(x, "above", AS_LENGTH, above.u, "elevation of the place after it");
			explain_step(x, "t", AS_NUMBER, t, "share of the way between the two");
			return sb_vec3_add(below, sb_vec3_scale(sb_vec3_sub(above, below), t));
		}
		above = below;
	}
	return above;
}

static struct vec3 goes_on(struct explaining *x, const struct explain_bit *b)
{
	double rise = b->attitude.heading.u, up = x->s->design.exit_elevation_m - b->at.u;

	explain_input(x, "bit z", AS_LENGTH, b->at.u, "elevation of the bit (explain bit)");
	explain_input(x, "rise", AS_NUMBER, rise, "of its heading: -cos i");
	explain_step(x, "way", AS_LENGTH, up / rise, "(exit's elevation - bit z) / rise: still to go");
	return sb_vec3_add(b->at, sb_vec3_scale(b->attitude.heading, up / rise));
}

static void put_side(struct explaining *x, const char *key, const struct number *limit, const char *word)
{
	if (sb_number_given(limit)) {
		char where[EXPLAIN_WHERE];
		explain_words(x, EXPLAIN_LIMIT, "At most %s %s %s: %s.", limit->text,
			sb_unit_short(x->job->unit), word, explain_key(x, "corridor", key, where));
	}
}

static void put_window(struct explaining *x, const struct exit_miss *miss)
{
	double value_m, limit_m;
	const char *word;

	put_side(x, "exit_long", &x->job->exit_long, "past the stake");
	put_side(x, "exit_short", &x->job->exit_short, "short of it");
	put_side(x, "exit_left", &x->job->exit_left, "left of it");
	put_side(x, "exit_right", &x->job->exit_right, "right of it");
	bool outside = sb_exit_outside(&x->s->corridor, miss, &value_m, &limit_m, &word);
	explain_words(x, EXPLAIN_LIMIT,
		*word == '\0'	  ? "The contract sets no window."
			: outside ? "outside the window, on the side called %s."
				  : "ok: inside; nearest to its limit on the side called %s.",
		word);
}

/* By land survey, once there is one: it judges from then on. True when it says where the hole came out. */
static bool put_survey(struct explaining *x)
{
	const struct setup setup = sb_solution_setup(x->job, x->s);
	struct exit_survey e = sb_exit_survey(&setup, &x->s->fixes, x->row, true);
	struct sb_str words = { 0 };

	if (!e.known)
		return false;
	sb_exit_say(&setup, &e, &words);
	explain_words(x, EXPLAIN_CHECK,
		"By land survey (fix %lld) it came out %s of the design's exit; explain misclosure --fix %lld.",
		(long long)e.fix, sb_str_get(&words), (long long)e.fix);
	sb_str_clear(&words);
	if (e.plan)
		put_window(x, &e.miss);
	return e.plan;
}

void explain_exit(struct explaining *x)
{
	const struct ahead *kept = &x->s->ahead;
	const struct design *d = &x->s->design;
	struct explain_bit b = explain_bit_place(x);
	struct exit_miss miss = { 0 };
	double station;

	explain_words(x, EXPLAIN_FORMULA,
		"exit = where the heading of the bit, or the hole itself, meets the exit's elevation; long = its station - the design's length");
	explain_input(x, "exit z", AS_LENGTH, d->exit_elevation_m, "the design's last point, profile.csv");
	explain_input(x, "length", AS_LENGTH, d->length_m, "station of the design's exit");
	if (!kept->exit_known) {
		explain_words(x, EXPLAIN_NOTE,
			"The bore does not head up on the design's last tangent yet, or not within ten joints: a held heading says nothing of the exit.");
		put_survey(x);
		return;
	}
	struct vec3 at = b.at.u >= d->exit_elevation_m ? came_up(x, &b) : goes_on(x, &b);
	station = sb_design_station(d, at, d->length_m, &miss.right_m);
	miss.long_m = station - d->length_m;
	explain_step(x, "n", AS_LENGTH, at.n, "north of the entry, where it comes out");
	explain_step(x, "e", AS_LENGTH, at.e, "east of the entry");
	explain_step(x, "station", AS_LENGTH, station, "along the design");
	explain_result(x, "exit_long", AS_LENGTH, miss.long_m, kept->exit_long_m, "%s the stake",
		miss.long_m < 0 ? "short of" : "past");
	explain_result(x, "exit_right", AS_LENGTH, miss.right_m, kept->exit_right_m, "%s of it",
		miss.right_m < 0 ? "left" : "right");
	if (!put_survey(x))
		put_window(x, &miss);
	explain_words(
		x, EXPLAIN_SOURCE, "common practice, no source; a land survey of the exit stands above it");
}

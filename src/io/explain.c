/* The table of figures, and what each asks for before it can be explained. A new figure is a row here and a
 * function that puts its lines. */
#include "io/explain.h"

#include "base/mem.h"
#include "io/nearest.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"

const struct explain_figure sb_explain_figures[] = {
	{ "depth", "measured depth of bit and sensor", EXPLAIN_OF_ROW, explain_depth },
	{ "inclination", "inclination", EXPLAIN_OF_ROW, explain_inclination },
	{ "azimuth", "azimuth, from the reading to the grid", EXPLAIN_OF_ROW, explain_azimuth },
	{ "northing", "northing", EXPLAIN_OF_PLACE, explain_northing },
	{ "easting", "easting", EXPLAIN_OF_PLACE, explain_easting },
	{ "elevation", "elevation", EXPLAIN_OF_PLACE, explain_elevation },
	{ "station", "station along the design alignment", EXPLAIN_OF_PLACE, explain_station },
	{ "offset", "offset from the design alignment", EXPLAIN_OF_PLACE, explain_offset },
	{ "height", "height against the design line", EXPLAIN_OF_PLACE, explain_height },
	{ "dogleg", "turn since the reading before", EXPLAIN_OF_COURSE, explain_dogleg },
	{ "radius-joint", "radius since the reading before", EXPLAIN_OF_COURSE, explain_radius_joint },
	{ "radius-window", "radius over the contract's window", EXPLAIN_OF_COURSE, explain_radius_window },
	{ "shift", "the path through slides beside the arcs", EXPLAIN_OF_COURSE, explain_shift },
	{ "corridor-share", "share of the corridor used", EXPLAIN_OF_PLACE, explain_share },
	{ "clearance", "clearance from the nearest obstacle", EXPLAIN_OF_COURSE, explain_clearance },
	{ "cover", "ground over the top of the hole", EXPLAIN_OF_PLACE, explain_cover },
	{ "bending", "stress of bending in the product pipe", EXPLAIN_OF_COURSE, explain_bending },
	{ "pull", "force of the pull with its head here", EXPLAIN_OF_PLACE, explain_pull },
	{ "pipe-share", "share of what the product pipe may bear", EXPLAIN_OF_PLACE, explain_pipe_share },
	{ "fluid-pressure", "pressure of the fluid around the pipe", EXPLAIN_OF_PLACE, explain_annular },
	{ "formation-limit", "pressure that the ground may bear", EXPLAIN_OF_PLACE, explain_formation },
	{ "give-or-take", "how sure the place is", EXPLAIN_OF_PLACE, explain_give },
	{ "chance-outside", "chance of being outside the corridor", EXPLAIN_OF_PLACE, explain_chance },
	{ "bit", "the bit, carried on from the sensor", EXPLAIN_OF_END, explain_bit },
	{ "bit-give-or-take", "how sure the bit's place is", EXPLAIN_OF_END, explain_bit_give },
	{ "leaves-at", "the joint at which the corridor is left", EXPLAIN_OF_END, explain_leaves },
	{ "clearance-ahead", "clearance if the heading is held", EXPLAIN_OF_END, explain_clearance_ahead },
	{ "cover-ahead", "cover if the heading is held", EXPLAIN_OF_END, explain_cover_ahead },
	{ "exit", "where the bore comes out", EXPLAIN_OF_END, explain_exit },
	{ "bend-budget", "how much the next joint may still turn", EXPLAIN_OF_END, explain_budget },
	{ "slide-turn", "what a slide turns here", EXPLAIN_OF_END, explain_slide_turn },
	{ "drift", "what rotating turns here", EXPLAIN_OF_END, explain_drift },
	{ "face-error", "how far off the tool face the hole turns", EXPLAIN_OF_END, explain_face_error },
	{ "next-joint", "the order for the next joint", EXPLAIN_OF_END, explain_next_joint },
	{ "withdraw", "how far to pull back where there is no way on", EXPLAIN_OF_END, explain_withdraw },
	{ "misclosure", "an independent fix against the path", EXPLAIN_OF_FIX, explain_misclosure },
	{ "adjustment", "the correction that the fixes propose", EXPLAIN_OF_JOB, explain_adjustment },
	{ "final-hole", "how large the hole has to be at last", EXPLAIN_OF_JOB, explain_final_hole },
	{ "cuttings", "ground that the newest reamer has cut", EXPLAIN_OF_JOB, explain_cuttings },
	{ "field-gate", "gravity, field and dip of a reading", EXPLAIN_OF_ROW, explain_field_gate },
	{ "declination", "magnetic north from true north", EXPLAIN_OF_JOB, explain_declination },
	{ "convergence", "grid north from true north", EXPLAIN_OF_JOB, explain_convergence },
	{ "scale", "grid distance over ground distance", EXPLAIN_OF_JOB, explain_scale },
};
const size_t sb_explain_figure_count = sizeof sb_explain_figures / sizeof *sb_explain_figures;

const struct explain_figure *sb_explain_figure(const char *name, struct sb_err *err)
{
	struct nearest near = sb_nearest_to(name);

	for (size_t i = 0; i < sb_explain_figure_count; i++) {
		if (sb_nearest_same(sb_explain_figures[i].name, name))
			return &sb_explain_figures[i];
		sb_nearest_try(&near, sb_explain_figures[i].name);
	}
	if (near.best)
		sb_fail(err, SB_USAGE, "There is no figure '%.40s'. Did you mean %s?", name, near.best);
	else
		sb_fail(err, SB_USAGE,
			"There is no figure '%.40s'. `sagbend explain JOB.bore` lists those that there are.",
			name);
	return NULL;
}

/* ---- is there such a figure ---- */

static bool is_there(enum explain_of of, const struct row *row)
{
	switch (of) {
	case EXPLAIN_OF_PLACE:
		return row->on_path;
	case EXPLAIN_OF_COURSE:
		return row->on_path && row->joint > 0;
	case EXPLAIN_OF_ROW:
	case EXPLAIN_OF_END:
	case EXPLAIN_OF_JOB:
	case EXPLAIN_OF_FIX:
		break;
	}
	return true;
}

/* The last joint that the figure is there for; 0 when none is. */
static int last_with(enum explain_of of, const struct solution *s)
{
	int joint = (int)s->path.count - 1;

	while (joint > 0 && !is_there(of, &s->path.rows[joint]))
		joint--;
	return joint;
}

static int not_there(const struct explaining *x, const char *title, struct sb_err *err)
{
	size_t i = x->trail_count - 1;

	if (i == 0)
		return sb_fail(err, SB_STATE,
			"%s: the entry has none, because no course ends there. Ask for a joint that was read (--joint N).",
			title);
	size_t before = explain_before(x, i);
	const char *why = x->row->taken ? "was read while the sensor was no further than before"
					: "was drilled without a reading";
	if (before > 0 && before != SIZE_MAX)
		return sb_fail(err, SB_STATE,
			"%s: joint %d %s, and has none. Joint %zu is the last one before it that has.", title,
			x->row->joint, why, before);
	return sb_fail(err, SB_STATE, "%s: joint %d %s, and has none; nor has one before it.", title,
		x->row->joint, why);
}

/* "Radius over ...": a title at the head of a sentence. */
static void capital(const char *title, char text[80])
{
	sb_copy(text, 80, title);
	if (text[0] >= 'a' && text[0] <= 'z')
		text[0] = (char)(text[0] - 'a' + 'A');
}

/* ---- explaining ---- */

static void say_about(const struct explaining *x, bool end)
{
	struct sb_str text = { 0 };

	if (x->row->joint == 0)
		sb_str_add(&text, end ? "before the first joint" : "at the entry");
	else
		sb_str_add(&text, "%sjoint %d, leg %d%s", end ? "after " : "", x->row->joint, x->row->leg,
			sb_path_present(&x->s->path, x->row) ? "" : ", pulled back");
	x->out->about = sb_strdup(sb_str_get(&text));
	sb_str_clear(&text);
}

/* Of the bore as it was when the joint was its last; the present one needs no solving again. */
static int explain_end(struct explaining *x, struct sb_err *err)
{
	const struct job *job = x->job;
	struct explain_then then = { 0 };

	say_about(x, true);
	if (x->row != sb_solution_last(x->s)) {
		int failed = explain_as_of(job, x, &then, err);
		struct explaining past = { .job = &then.job, .s = &then.solution, .out = x->out };
		if (failed == 0)
			failed = explain_trail(&past, 0, x->row->joint, err);
		if (failed == 0)
			x->out->figure->explain(&past);
		explain_trail_clear(&past);
		explain_as_of_clear(&then);
		return failed;
	}
	x->out->figure->explain(x);
	return 0;
}

static int explain_row(struct explaining *x, const struct explain_ask *ask, struct sb_err *err)
{
	enum explain_of of = ask->figure->of;
	int last = ask->leg ? 0 : last_with(of, x->s);
	int joint = ask->joint == SB_EXPLAIN_LAST ? last : ask->joint;
	char title[80];

	if (ask->leg && ask->joint == SB_EXPLAIN_LAST)
		return sb_fail(err, SB_USAGE, "--leg goes with --joint: which joint of leg %d?", ask->leg);
	if (explain_trail(x, ask->leg, joint, err))
		return -1;
	capital(ask->figure->title, title);
	if (!is_there(of, x->row) && x->s->path.count == 1)
		return sb_fail(err, SB_STATE, "%s: nothing was drilled yet, so there is none.", title);
	if (!is_there(of, x->row))
		return not_there(x, title, err);
	if (of == EXPLAIN_OF_END)
		return explain_end(x, err);
	say_about(x, false);
	ask->figure->explain(x);
	return 0;
}

static int explain_fix(struct explaining *x, int number, struct sb_err *err)
{
	char about[48];

	if (x->job->fix_count == 0)
		return sb_fail(
			err, SB_STATE, "No independent fix was entered yet: there is none to explain.");
	x->fix = number ? number - 1 : (int)x->job->fix_count - 1;
	if (x->fix < 0 || x->fix >= (int)x->job->fix_count)
		return sb_fail(err, SB_MISSING, "There is no fix %d: they go from 1 to %zu.", number,
			x->job->fix_count);
	snprintf(about, sizeof about, "fix %d", x->fix + 1);
	if (explain_trail(x, 0, sb_solution_last(x->s)->joint, err))
		return -1;
	x->out->about = sb_strdup(about);
	x->out->figure->explain(x);
	return 0;
}

int sb_explain(const struct job *job, const struct solution *s, const struct explain_ask *ask,
	struct explanation *out, struct sb_err *err)
{
	struct explaining x = {
		.job = job, .s = s, .out = out, .then = s->frame, .row = sb_solution_last(s)
	};
	int failed = 0;

	sb_explanation_clear(out);
	out->figure = ask->figure;
	if (ask->figure->of == EXPLAIN_OF_FIX) {
		failed = explain_fix(&x, ask->fix, err);
	} else if (ask->figure->of == EXPLAIN_OF_JOB) {
		out->about = sb_strdup("the job as it stands");
		ask->figure->explain(&x);
	} else {
		failed = explain_row(&x, ask, err);
	}
	explain_trail_clear(&x);
	if (failed)
		sb_explanation_clear(out);
	return failed;
}

void sb_explanation_clear(struct explanation *e)
{
	for (size_t i = 0; i < e->count; i++) {
		sb_free(e->lines[i].symbol);
		sb_free(e->lines[i].value);
		sb_free(e->lines[i].words);
	}
	sb_free(e->lines);
	sb_free(e->about);
	memset(e, 0, sizeof *e);
}

/* ---- from a warning ---- */

/* By what is judged; NULL where nothing is measured. */
static const char *const judged[WARNING_KINDS] = {
	[WARNING_CORRIDOR] = "corridor-share",
	[WARNING_JOINT_BEND] = "radius-joint",
	[WARNING_WINDOW_BEND] = "radius-window",
	[WARNING_CLEARANCE] = "clearance",
	[WARNING_COVER] = "cover",
	[WARNING_CLEARANCE_AHEAD] = "clearance-ahead",
	[WARNING_COVER_AHEAD] = "cover-ahead",
	[WARNING_ANNULAR] = "fluid-pressure",
	[WARNING_RESPONSE] = "slide-turn",
	[WARNING_FIX] = "misclosure",
	[WARNING_AZIMUTH] = "azimuth",
	[WARNING_FIELD] = "field-gate",
	[WARNING_LEAVES] = "leaves-at",
	[WARNING_EXIT] = "exit",
	[WARNING_OPENING] = "final-hole",
	[WARNING_PIPE_SHARE] = "pipe-share",
	[WARNING_PULL_FORCE] = "pull",
};

struct explain_ask sb_explain_warning(const struct solution *s, const struct warning *w)
{
	const struct row *row = sb_warning_row(&s->path, w);
	const char *name = judged[w->kind];

	/* degrees off the tool face, or percent of the turn expected: the limit says which */
	if (w->kind == WARNING_RESPONSE && w->limit < 50)
		name = "face-error";
	/* the head has come to where the joint began that came out: to the end of the one before it */
	int joint = w->kind == WARNING_PULL_FORCE && w->worst_joint > 0 ? w->worst_joint - 1 : w->worst_joint;
	return (struct explain_ask){ name ? sb_explain_figure(name, NULL) : NULL, joint,
		w->superseded && row ? row->leg : 0, 0 };
}

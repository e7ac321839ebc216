/* What a joint says of the limits, in words that end with what to do. */
#include "model/warning.h"

#include "base/str.h"
#include "geom/angle.h"
#include "model/sixaxis.h"
#include "model/uncertainty.h"

#include <math.h>
#include <stdio.h>

const struct warning_sort sb_warning_sorts[WARNING_KINDS] = {
	[WARNING_CORRIDOR] = { "corridor", "corridor", 0, 0,
		"the hole against the contract's corridor around the design line, joint by joint" },
	[WARNING_EXIT] = { "exit-window", "exit window", 1, 0,
		"where the bore comes out, or would come out as it heads" },
	[WARNING_JOINT_BEND] = { "joint-bend", "bend of one joint", 0, 1,
		"the radius of one joint; a breach only when reading noise (two sigma) cannot explain it" },
	[WARNING_WINDOW_BEND] = { "window-bend", "bend over the window", 0, 1,
		"the radius over the contract's window, by the contract's method; a watch within one sigma of the limit" },
	[WARNING_LEAVES] = { "leaves-corridor", "leaves the corridor ahead", 1, 1,
		"the joint at which the corridor would be left if the bore keeps heading off the design as it does" },
	[WARNING_BLUNDER] = { "blunder", "logged as it is", 0, 0,
		"a reading that looked like a slip and was logged with a reason" },
	[WARNING_MISSING] = { "missing-survey", "missing survey", 0, 0, "a joint drilled without a reading" },
	[WARNING_AZIMUTH] = { "azimuth-reference", "azimuth reference", 1, 0,
		"the tool on the staked centreline against declination and convergence, over 0.5 degrees apart; until somebody settles which holds" },
	[WARNING_RESPONSE] = { "response", "response not as ordered", 1, 0,
		"what the slides gave against what was ordered: a tool-face error over 15 degrees, or slides that no longer turn" },
	[WARNING_FIX] = { "fix", "fix does not agree", 1, 0,
		"an independent fix further from the path than both claim together" },
	[WARNING_NO_FIX] = { "no-fix", "no independent fix", 1, 0,
		"how many joints were drilled since the last independent fix" },
	[WARNING_FIELD] = { "magnetic-field", "magnetic field", 0, 0,
		"gravity, field or dip of a reading beyond the gates of the sheet: steel near, moved while read, axes, units" },
	[WARNING_CLEARANCE] = { "clearance", "clearance", 0, 1,
		"the drilled hole's distance to an obstacle, wall to wall, against what the sheet asks for; a watch within the give or take, or the sheet's spare" },
	[WARNING_CLEARANCE_AHEAD] = { "clearance-ahead", "clearance ahead", 1, 1,
		"the same of the way from the reading through the bit and on as it heads, over the joints of look_ahead" },
	[WARNING_COVER] = { "cover", "cover", 0, 1,
		"the ground over the top of the drilled hole against what the sheet asks for there; a watch within the give or take, or the sheet's spare" },
	[WARNING_COVER_AHEAD] = { "cover-ahead", "cover ahead", 1, 1,
		"the same of the way from the reading through the bit and on as it heads, over the joints of look_ahead" },
	[WARNING_OPENING] = { "opening", "opening the hole", 1, 0,
		"the passes against the contract and the trade: sizes from pass to pass, the final hole, the swab, joints left behind; "
		"the value is how many rules of that level are not kept",
		EVENT_EPISODE },
	[WARNING_ANNULAR] = { "annular-pressure", "annular pressure", 0, 0,
		"pressure around the pipe, in the pilot, the passes and the pull, against what the ground is estimated to bear: measured, from the contract's share of it a watch and over it a breach; where nothing was measured the estimate is a watch at most",
		EVENT_EPISODE, 1 },
	[WARNING_RETURNS] = { "returns", "returns", 1, 0,
		"drilling fluid that does not all come back, until it is said that returns are full again",
		EVENT_EPISODE, 1 },
	[WARNING_RELEASE] = { "release", "release to the surface", 0, 0,
		"drilling fluid that came to the surface: how many releases while the bore stood at that joint, and what is still to be recorded of them",
		EVENT_ALONE, 0 },
	[WARNING_PIPE_SHARE] = { "pipe-share", "product pipe", 1, 0,
		"the largest share of what the product pipe may bear in this hole, by estimate, when a pass begins or ends and when the pull begins: over 1 a breach, from [pull] watch or at the top of the force's band a watch; the engineer decides before the pull",
		EVENT_EPISODE, 0 },
	[WARNING_PIPE_STRING] = { "pipe-string", "pipe string", 0, 0,
		"the pull began with something missing of what it waits for", EVENT_ALONE, 0 },
	[WARNING_PULL_FORCE] = { "pull-force", "pull force", 0, 0,
		"the force at the rig, joint by joint: a breach over the contract's safe pull limit, a watch outside the estimate's band",
		EVENT_EPISODE, 0 },
	[WARNING_COATING] = { "coating", "coating", 0, 0,
		"how the product pipe's coating came out of the hole: scratched is a watch, damaged a breach",
		EVENT_ALONE, 0 },
};

static const char *const level_words[] = { "ok", "watch", "breach" };

const char *sb_level_word(enum level l)
{
	return level_words[l];
}

int sb_warning_kind_parse(const char *name, enum warning_kind *kind)
{
	for (int i = 0; i < WARNING_KINDS; i++)
		if (sb_same(sb_warning_sorts[i].name, name)) {
			*kind = (enum warning_kind)i;
			return 0;
		}
	return -1;
}

bool sb_warning_counts(const struct warning *w)
{
	return !w->superseded && (w->open || !sb_warning_sorts[w->kind].passing);
}

double sb_warning_past(enum warning_kind kind, double value, double limit)
{
	return sb_warning_sorts[kind].least ? limit - value : value - limit;
}

int sb_warning_decimals(const struct setup *s, double value, double limit)
{
	int decimals = s->job->unit == UNIT_M || fabs(value) < 0.1 ? 2 : 1;
	double scale = decimals == 2 ? 100 : 10;

	for (; decimals < 4 && fabs(value - limit) > 1e-9 && round(value * scale) == round(limit * scale);
		scale *= 10)
		decimals++;
	return decimals;
}

static void judge_corridor(const struct setup *s, const struct row *row, struct verdict *v)
{
	const struct corridor_use *use = &row->use;
	const char *unit = sb_unit_short(s->job->unit), *side = sb_side_word(use->side);

	v->value = sb_frame_typed(s->frame, use->value_m);
	v->limit = isinf(use->limit_m) ? 0 : sb_frame_typed(s->frame, use->limit_m);
	int d = sb_warning_decimals(s, v->value, v->limit);
	/* A billionth over is arithmetic, not a breach. */
	if (use->share > 1 + 1e-9) {
		v->level = LEVEL_BREACH;
		snprintf(v->text, sizeof v->text,
			"%.*f %s %s at joint %d; %.*f is allowed. Outside the corridor: steer back if the contract lets you, or pull "
			"back and redrill.",
			d, v->value, unit, side, row->joint, d, v->limit);
	} else if (use->share >= s->corridor->near) {
		v->level = LEVEL_WATCH;
		snprintf(v->text, sizeof v->text,
			"%.*f %s %s at joint %d: %.0f %% of the %.*f allowed. Steer back in good time.", d,
			v->value, unit, side, row->joint, use->share * 100, d, v->limit);
	}
}

/* The same where the contract judges on confidence: value and limit are the chance of being outside, percent.
 * A mean near its limit is a watch all the same. */
static void judge_chance(const struct setup *s, const struct row *row, struct verdict *v)
{
	struct chance_limit limit = sb_uncertainty_limit(s);
	double factor = sb_spread_line_factor(s->job->confidence.value / 100);
	bool breach = row->outside > limit.limit;
	int d = s->job->unit == UNIT_M ? 2 : 1;

	v->value = row->outside * 100;
	v->limit = limit.limit * 100;
	if (!breach && row->outside <= limit.near && row->use.share < s->corridor->near)
		return;
	v->level = breach ? LEVEL_BREACH : LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		"Joint %d: %.2g %% chance of being outside the corridor, %.3g %% is left. It lies there give or take %.*f %s "
		"across, %.*f in height (%.4g %%). Get an independent fix, or %s.",
		row->joint, v->value, v->limit, d, sb_frame_typed(s->frame, factor * row->doubt.across_m),
		sb_unit_short(s->job->unit), d, sb_frame_typed(s->frame, factor * row->doubt.up_m),
		s->job->confidence.value, breach ? "pull back and redrill" : "steer to the middle");
}

/* Radius for people: whole units, and "straight" beyond what an angle can tell. */
static void radius_words(const struct setup *s, double radius_m, char text[32])
{
	double r = sb_frame_typed(s->frame, radius_m);

	if (r > 99999)
		snprintf(text, 32, "straight");
	else
		snprintf(text, 32, "%.0f %s", r, sb_unit_short(s->job->unit));
}

static void judge_joint_bend(const struct setup *s, const struct row *row, struct verdict *v)
{
	double limit_m = sb_frame_metres(s->frame, s->job->joint_minimum.value);
	char radius[32];

	v->limit = s->job->joint_minimum.value;
	v->value = isinf(row->radius_m) ? 0 : sb_frame_typed(s->frame, row->radius_m);
	if (!sb_number_given(&s->job->joint_minimum) || !(row->course_m > 0))
		return;
	double allowed = row->course_m / limit_m;
	if (row->dogleg_rad <= allowed * (1 + 1e-9))
		return;
	radius_words(s, row->radius_m, radius);
	bool sure = row->dogleg_rad - 2 * row->dogleg_sigma_rad > allowed;
	v->level = sure ? LEVEL_BREACH : LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		sure ? "Joint %d bends to %s; at least %s is allowed. Read it again; if it holds, pull back and redrill it."
		     : "Joint %d seems to bend to %s (%s allowed), within what reading noise can do. Read it again.",
		row->joint, radius, s->job->joint_minimum.text);
}

static void window_words(const struct setup *s, const struct window *w, char text[48])
{
	if (sb_number_given(&s->job->window_length))
		snprintf(text, 48, "%s %s that end", s->job->window_length.text, sb_unit_short(s->job->unit));
	else
		snprintf(text, 48, w->joints == 1 ? "%d joint that ends" : "%d joints that end", w->joints);
}

static void judge_window_bend(const struct setup *s, const struct row *row, struct verdict *v)
{
	double limit_m = sb_frame_metres(s->frame, s->job->window_minimum.value);
	const struct window *w = &row->window;
	double angle = s->job->method == METHOD_SUM ? w->sum_rad : w->ends_rad;
	char radius[32], over[48];

	v->limit = s->job->window_minimum.value;
	v->value = isinf(w->radius_m) ? 0 : sb_frame_typed(s->frame, w->radius_m);
	if (!sb_number_given(&s->job->window_minimum) || w->joints == 0)
		return;
	double allowed = w->length_m / limit_m;
	radius_words(s, w->radius_m, radius);
	window_words(s, w, over);
	if (angle > allowed * (1 + 1e-9)) {
		v->level = LEVEL_BREACH;
		snprintf(v->text, sizeof v->text,
			"Over the %s at joint %d the radius is %s; at least %s is allowed. Straighten; ask the engineer, or "
			"pull back and redrill.",
			over, row->joint, radius, s->job->window_minimum.text);
	} else if (angle + w->sigma_rad > allowed) {
		v->level = LEVEL_WATCH;
		snprintf(v->text, sizeof v->text,
			"Over the %s at joint %d the radius is %s: within reading noise of the %s allowed. Turn less in the "
			"next joint.",
			over, row->joint, radius, s->job->window_minimum.text);
	}
}

static void judge_missing(const struct setup *s, const struct row *row, struct verdict *v)
{
	(void)s;
	if (row->joint == 0 || row->taken)
		return;
	v->level = LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		"Joint %d was drilled without a reading: the path is carried over it. Read it if the string is still there.",
		row->joint);
}

/* The reason with a first reading says that it was held and logged all the same; a correction settles it. */
static void judge_blunder(const struct row *row, const struct reading *r, struct verdict *v)
{
	if (r == NULL || r->corrects || r->reason[0] == '\0' || !row->taken)
		return;
	v->level = LEVEL_WATCH;
	snprintf(v->text, sizeof v->text,
		"Joint %d was logged as typed although it looked like a slip: \"%.120s\" (%.40s).",
		row->joint, r->reason, r->who);
}

/* How many times its gate that is off which is furthest beyond it: the three have no unit in common. */
static double times_its_gate(const struct job *job, const struct reading *r, const struct field_verdict *f)
{
	double total_nt = r->total_field.value * sb_field_units[job->field_unit].size;
	double beyond_nt = isnan(f->field_off_nt) ? fmax(SB_FIELD_LEAST - total_nt, total_nt - SB_FIELD_MOST)
						  : fabs(f->field_off_nt);
	double most = 0;

	if (f->gravity_out)
		most = fmax(most, fabs(f->gravity_off_share) / job->gravity_gate.value);
	if (f->field_out)
		most = fmax(most, beyond_nt / job->field_gate.value);
	if (f->dip_out)
		most = fmax(most, fabs(sb_deg(f->dip_off_rad)) / job->dip_gate.value);
	return fmin(most, 1e6);
}

/* An azimuth that was read otherwise, or carried on, does not hang on the field. */
static void judge_field(const struct setup *s, const struct reading *r, struct verdict *v)
{
	struct sixaxis_verdict six;

	if (r == NULL ||
		(!sb_number_given(&r->total_field) && !sb_number_given(&r->dip) &&
			!sb_number_given(&r->total_gravity)))
		return;
	struct job then = sb_frame_settings(s->job, r);
	if (!sb_sixaxis_judge(&then, r, &six) || six.field.cause == CAUSE_NONE)
		return;
	bool steel = six.field.cause == CAUSE_STEEL;
	const struct field_verdict *f = &six.field;
	if (steel && r->azimuth_by != AZIMUTH_BY_TOOL)
		return;
	v->level = LEVEL_WATCH;
	v->value = times_its_gate(&then, r, f);
	v->limit = 1;
	if (steel && !isnan(six.may_turn_rad))
		snprintf(v->text, sizeof v->text,
			"Field off by %.0f nT, dip by %.1f deg, gravity right: steel likely near, and the azimuth off by %.1f deg or so. Read it again; if it stays, take it by gyro or coil, or hold the heading (azimuth by).",
			f->field_off_nt, sb_deg(f->dip_off_rad), sb_deg(six.may_turn_rad));
	else
		sb_copy(v->text, sizeof v->text, f->text);
}

void sb_warning_judge(const struct setup *s, const struct row *row, const struct reading *r,
	struct verdict verdicts[WARNING_KINDS])
{
	judge_missing(s, row, &verdicts[WARNING_MISSING]);
	judge_blunder(row, r, &verdicts[WARNING_BLUNDER]);
	judge_field(s, r, &verdicts[WARNING_FIELD]);
	if (!row->on_path)
		return;
	if (row->joint > 0)
		(s->job->judge == JUDGE_MEAN ? judge_corridor : judge_chance)(
			s, row, &verdicts[WARNING_CORRIDOR]);
	judge_joint_bend(s, row, &verdicts[WARNING_JOINT_BEND]);
	judge_window_bend(s, row, &verdicts[WARNING_WINDOW_BEND]);
}

static bool worst_here(const struct warning *w, const struct row *row)
{
	return row->joint == w->worst_joint && row->leg >= w->leg && row->deviation.station_m == w->station_m;
}

const struct row *sb_warning_row(const struct path *p, const struct warning *w)
{
	const struct row *present = sb_path_row(p, 0, w->worst_joint);

	if (!w->superseded)
		return present;
	for (size_t i = 0; i < p->old_count; i++)
		if (worst_here(w, &p->old[i]))
			return &p->old[i];
	return present && worst_here(w, present) ? present : NULL; /* its end alone was withdrawn */
}

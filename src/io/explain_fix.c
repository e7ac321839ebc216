/* An independent fix against the path, and the correction that all of them together propose. */
#include "base/time.h"
#include "geom/angle.h"
#include "geom/odds.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

static const char *const axis_names[FIX_AXES] = { "along", "across", "up" };
static const char *const axis_words[FIX_AXES] = { "along the alignment", "to the right of it",
	"in elevation" };

/* ---- misclosure ---- */

/* Where the path is at a depth, from the readings: on the arc of the course, or on the held heading past the
 * last one. Where slides are the record the course is theirs. */
static struct vec3 path_at(struct explaining *x, double md_m)
{
	size_t last = explain_before(x, x->trail_count), to = SIZE_MAX;
	struct vec3 step, at;

	for (size_t i = last; i != SIZE_MAX && i > 0 && explain_survey_depth(x, i) > md_m;
		i = explain_before(x, i))
		to = i;
	if (to == SIZE_MAX) {
		double past = md_m - explain_survey_depth(x, last);
		explain_step(x, "past", AS_LENGTH, past,
			"past the last reading, at joint %d: the heading there is held",
			x->trail[last]->joint);
		return sb_vec3_add(
			explain_place(x, last), sb_vec3_scale(explain_attitude(x, last).heading, past));
	}
	struct explain_course c = explain_course(x, to);
	double in = md_m - explain_survey_depth(x, c.from);
	explain_step(x, "in", AS_LENGTH, in, "along the course from joint %d to joint %d, of %.3f",
		x->trail[c.from]->joint, x->trail[to]->joint, sb_frame_typed(&x->s->frame, c.length_m));
	if (x->job->course == COURSE_BY_SLIDES) {
		sb_path_at(&x->s->path, md_m, &at, NULL);
		return at;
	}
	sb_arc_at(&c.arc, in, &step, NULL);
	return sb_vec3_add(explain_place(x, c.from), sb_vec3_scale(step, c.stretch));
}

static void put_fix(struct explaining *x, const struct fix *f)
{
	const char *unit = sb_unit_short(x->job->unit);
	char when[SB_TIME_TEXT];

	sb_time_long(f->fact.at_ms, sb_time_offset(f->fact.at_ms), when);
	explain_typed(x, "depth", &f->depth, unit, "along the hole: fix %lld, %s, by %s, %s",
		(long long)f->fact.id, sb_fix_kind_name(f->kind), f->fact.who, when);
	if (sb_number_given(&f->easting)) {
		explain_typed(x, "easting", &f->easting, unit, "of the fix, grid");
		explain_typed(x, "northing", &f->northing, unit, "likewise");
	} else if (sb_number_given(&f->station)) {
		explain_typed(x, "station", &f->station, unit, "of the fix, along the design");
		explain_typed(x, "offset", &f->offset, unit, "likewise, right positive");
	}
	if (sb_number_given(&f->elevation))
		explain_typed(x, "elevation", &f->elevation, unit, "of the fix");
}

/* Fix minus path, along the alignment, to its right, up. */
static void misclose(const struct explaining *x, const struct fix *f, struct vec3 at, double near_m,
	double off_m[FIX_AXES])
{
	const struct design *d = &x->s->design;
	const struct frame *frame = &x->s->frame;
	double offset, station = sb_design_station(d, at, near_m, &offset);

	if (sb_number_given(&f->easting)) {
		struct chain_place line = sb_chain_at(d->alignment, d->alignment_count, station);
		struct vec3 off =
			sb_vec3_sub(sb_frame_ground(frame, f->easting.value, f->northing.value, 0), at);
		off_m[FIX_ALONG] = off.n * line.cos_bearing + off.e * line.sin_bearing;
		off_m[FIX_ACROSS] = off.e * line.cos_bearing - off.n * line.sin_bearing;
	} else {
		off_m[FIX_ALONG] = sb_frame_metres(frame, f->station.value) - station;
		off_m[FIX_ACROSS] = sb_frame_metres(frame, f->offset.value) - offset;
	}
	off_m[FIX_UP] = sb_frame_metres(frame, f->elevation.value) - at.u;
}

/* What both claim, and how likely it is to be that far apart by chance. */
static void put_odds(struct explaining *x, const struct fix_view *v)
{
	int seen = 0;
	double square = 0;
	char level[EXPLAIN_VALUE];

	for (int k = 0; k < FIX_AXES; k++) {
		if (!v->seen[k])
			continue;
		seen++;
		explain_input(x, axis_names[k], AS_LENGTH, v->own_sigma_m[k],
			"one sigma of the fix %s, as entered", axis_words[k]);
		explain_step(x, axis_names[k], AS_LENGTH, v->both_sigma_m[k],
			"one sigma of the difference: fix and path together");
		square += v->both_sigma_m[k] > 0 ? pow(v->off_m[k] / v->both_sigma_m[k], 2) : 0;
	}
	explain_step(x, "plain", AS_NUMBER, square,
		"sum of the squares of difference over sigma, as if the axes were independent");
	if (seen == 1)
		explain_result(x, "chi_square", AS_NUMBER, square, v->chi_square,
			"the same: one component was observed");
	else
		explain_step(x, "chi square", AS_NUMBER, v->chi_square, "with what the axes have in common");
	explain_result(x, "probability", AS_NUMBER,
		v->freedom ? sb_odds_chi_square(v->chi_square, v->freedom) : 1, v->probability,
		"of being that far apart by chance, of %d component%s", v->freedom,
		v->freedom == 1 ? "" : "s");
	explain_words(x, EXPLAIN_LIMIT, "At least %s: what a confidence of %s %% leaves. %s",
		explain_value(x, AS_NUMBER, 1 - x->s->fixes.confidence, level), x->job->confidence.text,
		v->agrees ? "ok: fix and path agree."
			  : "It does not agree: either the fix or the readings are wrong.");
}

void explain_misclosure(struct explaining *x)
{
	const struct fix *f = &x->job->fixes[x->fix];
	const struct fix_view *v = &x->s->fixes.list[x->fix];
	double off_m[FIX_AXES];
	char name[24];

	explain_words(x, EXPLAIN_FORMULA,
		"misclosure = fix - path at the fix's depth, along the alignment, to its right, and up");
	put_fix(x, f);
	if (v->standing != FIX_STANDS && v->standing != FIX_ASIDE) {
		explain_words(x, EXPLAIN_NOTE, "It is not held against the path: %s.", sb_fixes_verdict(v));
		return;
	}
	struct vec3 at = path_at(x, v->md_m);
	explain_step(x, "n", AS_LENGTH, at.n, "of the path there, north of the entry");
	explain_step(x, "e", AS_LENGTH, at.e, "east of the entry");
	explain_step(x, "z", AS_LENGTH, at.u, "elevation");
	misclose(x, f, at, v->station_m, off_m);
	for (int k = 0; k < FIX_AXES; k++) {
		snprintf(name, sizeof name, "off_%s", axis_names[k]);
		if (v->seen[k])
			explain_result(x, name, AS_LENGTH, off_m[k], v->off_m[k], "fix less path, %s",
				axis_words[k]);
	}
	if (sb_job_adjustment(x->job))
		explain_words(x, EXPLAIN_NOTE,
			"The path is the one with the correction in force; path --as-read has the other.");
	put_odds(x, v);
	explain_words(x, EXPLAIN_SOURCE,
		"chi-square test of a difference: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.4; the path's part: explain give-or-take");
}

/* ---- the correction ---- */

static void put_term(struct explaining *x, const struct proposal *p, int term, const char *name,
	enum explain_as as, const char *words)
{
	if (p->told[term])
		explain_step(x, name, as, p->estimate[term], "%s, give or take %.3g (one sigma)", words,
			as == AS_ANGLE ? sb_deg(p->sigma[term]) : p->sigma[term]);
	else
		explain_choice(x, name, "-", "%s: these fixes say nothing of it", words);
}

/* The bore laid anew with the proposal: what is left at each fix, beside what the linear equations say. */
static void put_left(struct explaining *x, const struct proposal *p)
{
	struct adjustment a;
	struct solution with = { 0 };
	char anew[EXPLAIN_VALUE], linear[EXPLAIN_VALUE], before[EXPLAIN_VALUE];

	sb_fixes_adjustment(&x->s->fixes, &a);
	if (sb_solve_with(x->job, &a, &with, NULL))
		return;
	for (size_t i = 0; i < p->count; i++) {
		const struct fix_view *v = &x->s->fixes.list[p->fixes[i].view],
				      *w = &with.fixes.list[p->fixes[i].view];
		for (int k = 0; k < FIX_AXES; k++)
			if (v->seen[k])
				explain_words(x, EXPLAIN_CHECK,
					"Fix %lld, %s: %s off as read; with the correction the bore laid anew leaves %s, the equations say %s.",
					(long long)v->fix, axis_names[k],
					explain_value(x, AS_LENGTH, v->read_m[k], before),
					explain_value(x, AS_LENGTH, w->off_m[k], anew),
					explain_value(x, AS_LENGTH, p->fixes[i].left_m[k], linear));
	}
	sb_solution_clear(&with);
}

static void put_proposal(struct explaining *x, const struct proposal *p)
{
	struct sb_str fit = { 0 };

	put_term(x, p, CORRECT_AZIMUTH, "azimuth", AS_ANGLE, "to be added to every azimuth");
	put_term(x, p, CORRECT_INCLINATION, "inclination", AS_ANGLE, "to be added to every inclination");
	put_term(x, p, CORRECT_STRETCH, "stretch", AS_NUMBER, "lengths grow by this share");
	put_left(x, p);
	explain_step(x, "chi square", AS_NUMBER, p->chi_square, "of what is left, %d degree%s of freedom",
		p->freedom, p->freedom == 1 ? "" : "s");
	if (p->freedom > 0)
		explain_result(x, "probability", AS_NUMBER, sb_odds_chi_square(p->chi_square, p->freedom),
			p->probability, "of so much by chance");
	sb_fixes_say_fit(x->job, &x->s->fixes, &fit);
	explain_words(x, EXPLAIN_NOTE, "%s", sb_str_get(&fit));
	sb_str_clear(&fit);
}

void explain_adjustment(struct explaining *x)
{
	static const char *const why[] = { "There is no fix that stands: nothing is proposed.", "",
		"The sheet claims that the readings share no error: nothing can be corrected.",
		"The equations could not be solved: a fix claims to be without error." };
	const struct adjustment *a = sb_job_adjustment(x->job);
	const struct proposal *p = &x->s->fixes.proposal;

	explain_words(x, EXPLAIN_FORMULA,
		"least squares: the azimuth, inclination and stretch that all fixes together ask for, each term held back by what the sheet says it may err");
	for (size_t i = 0; i < x->job->fix_count; i++)
		if (x->s->fixes.list[i].standing == FIX_STANDS)
			put_fix(x, &x->job->fixes[i]);
	if (p->status == PROPOSAL_MADE)
		put_proposal(x, p);
	else
		explain_words(x, EXPLAIN_NOTE, "%s", why[p->status]);
	if (a)
		explain_words(x, EXPLAIN_LIMIT,
			"In force, taken by %s (%s): azimuth %s deg, inclination %s deg, stretch %s; it rests on fix %s.",
			a->fact.who, a->fact.words, a->azimuth.text, a->inclination.text, a->stretch.text,
			a->fixes);
	else
		explain_words(x, EXPLAIN_LIMIT, "None is in force: the path is as it was read.");
	explain_words(x, EXPLAIN_SOURCE,
		"weighted least squares with prior weights, in linear equations (geom/adjust.h); test for a fix that stands out: Sidak, J. Am. Stat. Assoc. 62 (1967) 626");
}

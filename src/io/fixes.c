/* Fixes as a list and the adjustment as a page. The figures are those of the solution; only where the bit
 * would be is solved here, on a path with the proposal in it. */
#include "io/fixes.h"

#include "geom/angle.h"
#include "io/json.h"
#include "model/fact.h"

#include <math.h>

static const char *const axis_names[FIX_AXES] = { "along", "across", "up" };

/* ---- the list ---- */

static void put_axes(struct sb_json *j, const struct frame *f, const char *name, const bool seen[FIX_AXES],
	const double m[FIX_AXES])
{
	sb_json_object(j, name);
	for (int k = 0; k < FIX_AXES; k++)
		sb_json_exact(j, axis_names[k], seen[k] ? sb_frame_typed(f, m[k]) : (double)NAN);
	sb_json_end(j);
}

static void put_view(
	struct sb_json *j, const struct job *job, const struct solution *s, const struct fix_view *v)
{
	const struct fix *f = sb_job_fix(job, v->fix);
	struct setup setup = sb_solution_setup(job, s);
	struct sb_str words = { 0 };
	bool placed = v->standing == FIX_STANDS || v->standing == FIX_ASIDE;

	sb_json_object(j, NULL);
	sb_json_whole(j, "fix", v->fix);
	sb_json_text(j, "kind", sb_fix_kind_name(f->kind));
	sb_json_typed(j, "depth", &f->depth);
	sb_json_whole(j, "joint", v->joint);
	sb_json_exact(j, "station", sb_frame_typed(&s->frame, v->station_m));
	sb_json_bool(j, "used", f->used);
	sb_json_text(j, "verdict", sb_fixes_verdict(v));
	put_axes(j, &s->frame, "off_as_read", v->seen, v->read_m);
	put_axes(j, &s->frame, "off", v->seen, v->off_m);
	put_axes(j, &s->frame, "sigma_fix", v->seen, v->own_sigma_m);
	put_axes(j, &s->frame, "sigma_both", v->seen, v->both_sigma_m);
	sb_json_exact(j, "chi_square", placed ? v->chi_square : (double)NAN);
	sb_json_whole(j, "freedom", v->freedom);
	sb_json_exact(j, "probability", placed ? v->probability : (double)NAN);
	sb_json_bool(j, "agrees", v->agrees);
	sb_json_text(j, "who", f->fact.who);
	sb_fixes_say(&setup, &s->fixes, v, &words);
	sb_json_text(j, "text", sb_str_get(&words));
	sb_json_end(j);
	sb_str_clear(&words);
}

void sb_fixes_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	sb_json_exact(&j, "confidence", s->fixes.confidence);
	sb_json_array(&j, "fixes");
	for (size_t i = 0; i < s->fixes.count; i++)
		put_view(&j, job, s, &s->fixes.list[i]);
	sb_json_end(&j);
	sb_json_end(&j);
	*out = j.text;
}

void sb_fixes_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct setup setup = sb_solution_setup(job, s);

	if (s->fixes.count == 0)
		sb_str_add(out, "There is no independent fix yet.\n");
	for (size_t i = 0; i < s->fixes.count; i++) {
		const struct fix_view *v = &s->fixes.list[i];
		sb_str_add(out, "%3lld  %-14s  ", (long long)v->fix, sb_fixes_verdict(v));
		sb_fixes_say(&setup, &s->fixes, v, out);
		sb_str_add(out, "\n");
	}
}

/* ---- the adjustment ---- */

static int solve_corrected(
	const struct job *job, const struct solution *s, struct solution *with, struct sb_err *err)
{
	struct adjustment a;

	*with = (struct solution){ 0 };
	if (s->fixes.proposal.status != PROPOSAL_MADE)
		return 0;
	sb_fixes_adjustment(&s->fixes, &a);
	return sb_solve_with(job, &a, with, err);
}

static void put_bit(struct sb_json *j, const struct frame *f, const char *name, const struct bit *b)
{
	sb_json_object(j, name);
	sb_json_exact(j, "station", sb_frame_typed(f, b->deviation.station_m));
	sb_json_exact(j, "offset", sb_frame_typed(f, b->deviation.offset_m));
	sb_json_exact(j, "height", sb_frame_typed(f, b->deviation.height_m));
	sb_json_text(j, "corridor", sb_level_word(b->level));
	sb_json_end(j);
}

static void put_term(struct sb_json *j, const struct proposal *p, const char *name, int term)
{
	double unit = term == CORRECT_STRETCH ? 1 : sb_deg(1);

	sb_json_object(j, name);
	sb_json_exact(j, "value", p->told[term] ? p->estimate[term] * unit : (double)NAN);
	sb_json_exact(j, "sigma", p->told[term] ? p->sigma[term] * unit : (double)NAN);
	sb_json_end(j);
}

static void put_residuals(struct sb_json *j, const struct solution *s)
{
	const struct proposal *p = &s->fixes.proposal;

	sb_json_array(j, "residuals");
	for (size_t k = 0; k < p->count; k++) {
		const struct fix_view *v = &s->fixes.list[p->fixes[k].view];
		sb_json_object(j, NULL);
		sb_json_whole(j, "fix", v->fix);
		put_axes(j, &s->frame, "left", v->seen, p->fixes[k].left_m);
		put_axes(j, &s->frame, "sigma", v->seen, p->fixes[k].sigma_m);
		sb_json_object(j, "normalised");
		for (int axis = 0; axis < FIX_AXES; axis++)
			sb_json_exact(j, axis_names[axis],
				v->seen[axis] ? p->fixes[k].normalised[axis] : (double)NAN);
		sb_json_end(j);
		sb_json_exact(j, "probability", p->fixes[k].probability);
		sb_json_bool(j, "suspect", p->fixes[k].suspect);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_in_force(struct sb_json *j, const struct adjustment *a)
{
	if (a == NULL) {
		sb_json_null(j, "in_force");
		return;
	}
	sb_json_object(j, "in_force");
	sb_json_typed(j, "azimuth", &a->azimuth);
	sb_json_typed(j, "inclination", &a->inclination);
	sb_json_typed(j, "stretch", &a->stretch);
	sb_json_text(j, "fixes", a->fixes);
	sb_json_text(j, "who", a->fact.who);
	sb_json_text(j, "words", a->fact.words);
	sb_json_end(j);
}

int sb_adjust_json(const struct job *job, const struct solution *s, struct sb_str *out, struct sb_err *err)
{
	static const char *const status[] = { "no-fix", "made", "certain", "unsolved" };
	const struct proposal *p = &s->fixes.proposal;
	struct sb_json j = { .text = *out };
	struct sb_str words = { 0 };
	struct solution with;

	if (solve_corrected(job, s, &with, err))
		return -1;
	bool made = p->status == PROPOSAL_MADE;
	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	put_in_force(&j, sb_job_adjustment(job));
	sb_json_object(&j, "proposal");
	sb_json_text(&j, "status", status[p->status]);
	put_term(&j, p, "azimuth", CORRECT_AZIMUTH);
	put_term(&j, p, "inclination", CORRECT_INCLINATION);
	put_term(&j, p, "stretch", CORRECT_STRETCH);
	sb_json_exact(&j, "chi_square", made ? p->chi_square : (double)NAN);
	sb_json_whole(&j, "freedom", p->freedom);
	sb_json_exact(&j, "probability", made ? p->probability : (double)NAN);
	sb_json_bool(&j, "fits", made && p->fits);
	sb_fixes_say_fit(job, &s->fixes, &words);
	sb_json_text(&j, "text", sb_str_get(&words));
	put_residuals(&j, s);
	sb_json_end(&j);
	put_bit(&j, &s->frame, "bit_now", &s->bit);
	if (made)
		put_bit(&j, &s->frame, "bit_corrected", &with.bit);
	else
		sb_json_null(&j, "bit_corrected");
	sb_json_end(&j);
	sb_str_clear(&words);
	sb_solution_clear(&with);
	*out = j.text;
	return 0;
}

/* "2.1 ft right, 0.3 ft low" */
static void say_bit(const struct job *job, const struct solution *s, struct sb_str *out)
{
	double right = sb_frame_typed(&s->frame, s->bit.deviation.offset_m);
	double high = sb_frame_typed(&s->frame, s->bit.deviation.height_m);
	int d = job->unit == UNIT_M ? 2 : 1;
	const char *unit = sb_unit_short(job->unit);

	sb_str_add(out, "%.*f %s %s, %.*f %s %s (corridor: %s)", d, fabs(right), unit,
		right < 0 ? "left" : "right", d, fabs(high), unit, high < 0 ? "low" : "high",
		sb_level_word(s->bit.level));
}

static void say_residuals(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct setup setup = sb_solution_setup(job, s);
	const struct proposal *p = &s->fixes.proposal;

	sb_str_add(out, "What each fix would still be off by:\n");
	for (size_t k = 0; k < p->count; k++) {
		const struct fix_view *v = &s->fixes.list[p->fixes[k].view];
		sb_str_add(out, "  ");
		sb_fixes_name(job, sb_job_fix(job, v->fix), out);
		sb_str_add(out, ": ");
		sb_fixes_off(&setup, v->seen, p->fixes[k].left_m, out);
		sb_str_add(out, "%s\n", p->fixes[k].suspect ? ": suspect" : "");
	}
}

int sb_adjust_text(const struct job *job, const struct solution *s, struct sb_str *out, struct sb_err *err)
{
	const struct adjustment *a = sb_job_adjustment(job);
	struct solution with;

	if (solve_corrected(job, s, &with, err))
		return -1;
	if (a)
		sb_str_add(out, "In force, taken by %s: %s.\n", a->fact.who, a->fact.words);
	else
		sb_str_add(out, "No correction is in force: the path is as it was read.\n");
	sb_fixes_say_fit(job, &s->fixes, out);
	sb_str_add(out, "\n");
	if (s->fixes.proposal.status == PROPOSAL_MADE) {
		sb_str_add(out, "Proposed, to be added to the readings:\n");
		for (int t = 0; t < CORRECT_TERMS; t++) {
			sb_str_add(out, "  ");
			sb_fixes_say_term(&s->fixes, t, out);
			sb_str_add(out, "\n");
		}
		say_residuals(job, s, out);
		sb_str_add(out, "The bit is now ");
		say_bit(job, s, out);
		sb_str_add(out, ".\nCorrected it would be ");
		say_bit(job, &with, out);
		sb_str_add(out, ".\n");
	}
	sb_solution_clear(&with);
	return 0;
}

/* Fixes, one by one and all together. Each fix is turned into one to three observations, fix minus path,
 * along the alignment, to the right of it and up; geom/adjust.h does the rest. */
#include "model/fixes.h"

#include "base/mem.h"
#include "base/str.h"
#include "geom/angle.h"
#include "geom/odds.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fixes_parts.h"

/* ---- where a fix stands ---- */

/* How deep the hole still is the one that the fix was taken in. */
static double deepest_kept(const struct job *job, const struct path *path, const struct fix *f)
{
	double deepest = HUGE_VAL;

	for (size_t i = 0; i < job->leg_count; i++) {
		size_t joint = (size_t)job->legs[i].to_joint;
		if (job->legs[i].number > f->fact.leg && joint < path->count)
			deepest = fmin(deepest, path->rows[joint].bit_md_m);
	}
	return deepest;
}

static enum fix_standing standing(
	const struct job *job, const struct path *path, const struct fix *f, double md_m)
{
	const double touch = 1e-6;

	if (!f->used)
		return FIX_ASIDE;
	if (md_m > deepest_kept(job, path, f) + touch)
		return FIX_PULLED_BACK;
	if (md_m > path->rows[path->count - 1].bit_md_m + touch)
		return FIX_BEYOND;
	if (!(md_m > 0))
		return FIX_AT_ENTRY;
	return path->on_count > 1 || path->entry_known ? FIX_STANDS : FIX_NO_PATH;
}

static int joint_at(const struct path *path, double md_m)
{
	size_t i = 0;

	while (i + 1 < path->count && path->rows[i].bit_md_m < md_m - 1e-6)
		i++;
	return path->rows[i].joint;
}

/* ---- where it lies ---- */

static void lay_axes(const struct design *d, double station_m, struct fix_view *v)
{
	struct chain_place line = sb_chain_at(d->alignment, d->alignment_count, station_m);

	v->axis[FIX_ALONG] = (struct vec3){ line.cos_bearing, line.sin_bearing, 0 };
	v->axis[FIX_ACROSS] = (struct vec3){ -line.sin_bearing, line.cos_bearing, 0 };
	v->axis[FIX_UP] = (struct vec3){ 0, 0, 1 };
}

/* Fix minus place. A fix by coordinates is a point; one by station and offset says them alone. */
static void misclosure(const struct setup *s, const struct fix *f, const struct fix_view *v, struct vec3 at,
	double off_m[FIX_AXES])
{
	double elevation = sb_frame_metres(s->frame, f->elevation.value);

	if (sb_number_given(&f->easting)) {
		struct vec3 from =
			sb_vec3_sub(sb_frame_ground(s->frame, f->easting.value, f->northing.value, 0), at);
		off_m[FIX_ALONG] = sb_vec3_dot(from, v->axis[FIX_ALONG]);
		off_m[FIX_ACROSS] = sb_vec3_dot(from, v->axis[FIX_ACROSS]);
	} else {
		double offset, station = sb_design_station(s->design, at, v->station_m, &offset);
		off_m[FIX_ALONG] = sb_frame_metres(s->frame, f->station.value) - station;
		off_m[FIX_ACROSS] = sb_frame_metres(s->frame, f->offset.value) - offset;
	}
	off_m[FIX_UP] = elevation - at.u;
	for (int k = 0; k < FIX_AXES; k++)
		if (!v->seen[k])
			off_m[k] = 0;
}

static void take_components(const struct setup *s, const struct fix *f, struct fix_view *v)
{
	const struct number *sigma[FIX_AXES] = { &f->sigma_along, &f->sigma_across, &f->sigma_up };

	for (int k = 0; k < FIX_AXES; k++) {
		v->seen[k] = sb_number_given(sigma[k]) && sigma[k]->value > 0;
		v->own_sigma_m[k] = v->seen[k] ? sb_frame_metres(s->frame, sigma[k]->value) : 0;
	}
}

void sb_fixes_look(
	const struct fixes_ask *ask, const struct carried_path *c, const struct fix *f, struct fix_view *v)
{
	const struct setup *s = ask->setup;
	struct vec3 now;

	*v = (struct fix_view){ .fix = f->fact.id,
		.md_m = sb_frame_metres(s->frame, f->depth.value),
		.probability = 1,
		.agrees = true };
	v->standing = standing(s->job, ask->path, f, v->md_m);
	v->joint = joint_at(ask->path, v->md_m);
	v->ahead = v->md_m > sb_path_back(ask->path, 0)->survey_md_m;
	sb_path_at(ask->path, v->md_m, &now, NULL);
	sb_path_at(c->path, v->md_m, &v->at, NULL);
	v->station_m = sb_design_station(s->design, now, ask->path->rows[v->joint].deviation.station_m, NULL);
	lay_axes(s->design, v->station_m, v);
	take_components(s, f, v);
	misclosure(s, f, v, v->at, v->read_m);
	misclosure(s, f, v, now, v->off_m);
	v->fixed = v->at;
	for (int k = 0; k < FIX_AXES; k++)
		v->fixed = sb_vec3_add(v->fixed, sb_vec3_scale(v->axis[k], v->read_m[k]));
}

/* ---- does a fix agree ---- */

/* v' C^-1 v over the components that were seen, by Cholesky. */
static double chi_square(double c[3][3], const double v[3], const bool seen[3], int *freedom)
{
	double l[3][3] = { { 0 } }, y[3] = { 0 }, sum = 0;

	*freedom = 0;
	for (int i = 0; i < 3; i++) {
		double pivot = c[i][i], rest = v[i];
		for (int k = 0; k < i; k++) {
			if (!seen[i] || !(l[k][k] > 0))
				continue;
			l[i][k] = c[i][k];
			for (int m = 0; m < k; m++)
				l[i][k] -= l[i][m] * l[k][m];
			l[i][k] /= l[k][k];
			pivot -= l[i][k] * l[i][k];
			rest -= l[i][k] * y[k];
		}
		if (!seen[i] || !(pivot > 1e-12 * c[i][i]))
			continue;
		l[i][i] = sqrt(pivot);
		y[i] = rest / l[i][i];
		sum += y[i] * y[i];
		++*freedom;
	}
	return sum;
}

/* What is to be added to the path at a fix: the effect of the terms, the noise (the fix's own error in it),
 * and how that goes with what the adjustment observed. */
static void point_of(const struct carried_path *c, const struct fix_view *list, size_t at,
	const struct normal *n, struct adjust_point *point, double *with)
{
	const struct fix_view *v = &list[at];
	struct carried_place place = sb_carried_place(c, v->md_m);
	double rest[3][3];

	sb_carried_rest(c, &place, &place, rest);
	for (int k = 0; k < FIX_AXES; k++) {
		for (size_t j = 0; j < n->problem.terms; j++)
			point->effect[k][j] =
				sb_vec3_dot(v->axis[k], sb_carried_effect(c, &place, n->term[j]));
		for (int l = 0; l < FIX_AXES; l++)
			point->noise[k][l] = sb_carried_between(rest, v->axis[k], v->axis[l]);
		point->noise[k][k] += v->own_sigma_m[k] * v->own_sigma_m[k];
	}
	for (size_t i = 0; i < n->problem.count; i++) {
		size_t other = (size_t)n->fix[i];
		sb_carried_rest(c, &place, &n->places[other], rest);
		for (int k = 0; k < FIX_AXES; k++) {
			bool itself = n->view[other] == at && n->axis[i] == k;
			with[(size_t)k * n->problem.count + i] =
				sb_carried_between(rest, v->axis[k], list[n->view[other]].axis[n->axis[i]]) +
				(itself ? v->own_sigma_m[k] * v->own_sigma_m[k] : 0);
		}
	}
	point->with = with;
}

/* The covariance of fix minus path: of the path that the adjustment corrected, or as it was before any. */
static void claim(const struct carried_path *c, const struct fix_view *list, size_t at,
	const struct normal *n, bool corrected, double out[3][3])
{
	double with[3 * ADJUST_COUNT];
	struct adjust_point point = { 0 };

	point_of(c, list, at, n, &point, with);
	if (corrected) {
		sb_adjust_point(&n->problem, n->work, &n->answer, &point, out, NULL, NULL);
		return;
	}
	for (int k = 0; k < FIX_AXES; k++)
		for (int l = 0; l < FIX_AXES; l++) {
			out[k][l] = point.noise[k][l];
			for (size_t j = 0; j < n->problem.terms; j++)
				out[k][l] +=
					point.effect[k][j] * point.effect[l][j] * n->prior[j] * n->prior[j];
		}
}

static void judge_fix(const struct fixes *f, double c[3][3], struct fix_view *v)
{
	for (int k = 0; k < FIX_AXES; k++)
		v->both_sigma_m[k] = v->seen[k] ? sqrt(fmax(c[k][k], 0)) : 0;
	v->chi_square = chi_square(c, v->off_m, v->seen, &v->freedom);
	v->probability = v->freedom ? sb_odds_chi_square(v->chi_square, v->freedom) : 1;
	v->agrees = v->probability >= 1 - f->confidence;
}

bool sb_fixes_rest_on(const struct adjustment *a, int64_t fix)
{
	char number[24];
	size_t length = (size_t)snprintf(number, sizeof number, "%lld", (long long)fix);

	for (const char *at = a->fixes; *at; at += strcspn(at, " "), at += strspn(at, " "))
		if (strcspn(at, " ") == length && strncmp(at, number, length) == 0)
			return true;
	return false;
}

static void judge_all(const struct carried_path *c, struct fixes *f)
{
	const struct adjustment *a = sb_job_adjustment(c->setup->job);
	bool *wanted = sb_alloc(f->count * sizeof *wanted);
	struct normal n;

	for (size_t i = 0; i < f->count; i++)
		wanted[i] = a && f->list[i].standing == FIX_STANDS && sb_fixes_rest_on(a, f->list[i].fix);
	sb_normal_solve(c, f, wanted, &n);
	for (size_t i = 0; i < f->count; i++) {
		double both[3][3];
		if (f->list[i].standing != FIX_STANDS && f->list[i].standing != FIX_ASIDE)
			continue;
		claim(c, f->list, i, &n, n.status == ADJUST_OK, both);
		judge_fix(f, both, &f->list[i]);
	}
	sb_normal_clear(&n);
	sb_free(wanted);
}

/* ---- the proposal ---- */

/* A term that the fixes leave nearly as it was is not told by them. */
#define TOLD 0.98

static void take_estimate(const struct normal *n, struct proposal *p)
{
	for (size_t j = 0; j < n->problem.terms; j++) {
		int t = n->term[j];
		p->sigma[t] = sqrt(n->answer.covariance[j][j]);
		p->told[t] = p->sigma[t] < TOLD * n->prior[j];
		p->estimate[t] = p->told[t] ? n->answer.estimate[j] : 0;
	}
	p->chi_square = n->answer.chi_square;
	p->freedom = n->answer.freedom;
	p->probability = n->answer.probability;
	p->count = n->fixes;
	for (size_t k = 0; k < n->fixes; k++) {
		p->fixes[k].view = n->view[k];
		p->fixes[k].probability = n->answer.tests[k].probability;
	}
	for (size_t i = 0; i < n->problem.count; i++) {
		struct proposal_fix *fix = &p->fixes[n->fix[i]];
		fix->left_m[n->axis[i]] = n->answer.residual[i];
		fix->sigma_m[n->axis[i]] = n->answer.residual_sigma[i];
		fix->normalised[n->axis[i]] = n->answer.normalised[i];
	}
}

/* Odds beyond which one fix is more likely the wrong one than another. Common practice, no source. */
#define ODDS 100

/* A fix is suspect when all others agree without it, and no other is far more likely to be the wrong one. */
static void find_suspects(const struct normal *n, double least, struct proposal *p)
{
	double worst = 1;

	p->fits = p->probability >= least && n->answer.outlier < 0;
	for (size_t k = 0; k < p->count && !p->fits; k++)
		worst = fmin(worst, p->fixes[k].probability);
	for (size_t k = 0; k < p->count && !p->fits; k++) {
		const struct adjust_test *t = &n->answer.tests[k];
		int freedom = p->freedom - t->freedom;
		double rest = freedom > 0 ? sb_odds_chi_square(p->chi_square - t->statistic, freedom) : 1;
		p->fixes[k].suspect = t->freedom > 0 && rest >= least && t->probability < least &&
			t->probability <= ODDS * worst;
		p->suspects += p->fixes[k].suspect;
	}
}

static void propose(const struct carried_path *c, struct fixes *f)
{
	bool *wanted = sb_alloc(f->count * sizeof *wanted), any = false;
	struct proposal *p = &f->proposal;
	struct normal n;

	for (size_t i = 0; i < f->count; i++)
		any |= wanted[i] = f->list[i].standing == FIX_STANDS;
	sb_normal_solve(c, f, wanted, &n);
	p->status = !any		? PROPOSAL_NO_FIX
		: n.problem.terms == 0	? PROPOSAL_CERTAIN
		: n.status != ADJUST_OK ? PROPOSAL_UNSOLVED
					: PROPOSAL_MADE;
	if (p->status == PROPOSAL_MADE) {
		take_estimate(&n, p);
		find_suspects(&n, 1 - f->confidence, p);
	}
	sb_normal_clear(&n);
	sb_free(wanted);
}

void sb_fixes_clear(struct fixes *f)
{
	sb_free(f->list);
	memset(f, 0, sizeof *f);
}

void sb_fixes_solve(const struct fixes_ask *ask, struct fixes *f)
{
	const struct job *job = ask->setup->job;
	struct carried_path c;
	struct path own;
	double deepest = 0;

	sb_fixes_clear(f);
	f->confidence = ask->confidence;
	f->factor = sqrt(sb_odds_chi_square_critical(1 - ask->confidence, 1));
	f->settled = true;
	while (f->count < job->fix_count && job->fixes[f->count].fact.act < ask->before_act)
		f->count++;
	if (f->count == 0)
		return;
	f->list = sb_alloc(f->count * sizeof *f->list);
	sb_carried_begin(ask, &own, &c);
	for (size_t i = 0; i < f->count; i++) {
		sb_fixes_look(ask, &c, &job->fixes[i], &f->list[i]);
		bool stands = f->list[i].standing == FIX_STANDS || f->list[i].standing == FIX_NO_PATH;
		f->settled &= !stands || !f->list[i].ahead;
		if (f->list[i].standing == FIX_STANDS)
			deepest = fmax(deepest, f->list[i].md_m);
	}
	sb_carried_lean(&c, deepest);
	judge_all(&c, f);
	propose(&c, f);
	sb_carried_clear(&c);
	sb_path_clear(&own);
}

void sb_fixes_adjustment(const struct fixes *f, struct adjustment *out)
{
	const struct proposal *p = &f->proposal;
	struct sb_str numbers = { 0 };

	*out = (struct adjustment){ .taken = 1 };
	if (p->told[CORRECT_AZIMUTH])
		out->azimuth = sb_number_of(sb_deg(p->estimate[CORRECT_AZIMUTH]), 3);
	if (p->told[CORRECT_INCLINATION])
		out->inclination = sb_number_of(sb_deg(p->estimate[CORRECT_INCLINATION]), 3);
	if (p->told[CORRECT_STRETCH])
		out->stretch = sb_number_of(p->estimate[CORRECT_STRETCH], 6);
	for (size_t k = 0; k < p->count; k++)
		sb_str_add(&numbers, "%s%lld", k ? " " : "", (long long)f->list[p->fixes[k].view].fix);
	/* numbers that find no room are left out whole */
	if (!sb_copy(out->fixes, sizeof out->fixes, sb_str_get(&numbers)))
		*strrchr(out->fixes, ' ') = '\0';
	sb_str_clear(&numbers);
}

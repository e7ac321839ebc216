/* How sure the corrected path is. The adjustment behind the correction in force is solved once; each place is
 * then a point of it (geom/adjust.h). Places at readings that the adjustment knew go together with its fixes
 * both ways; those after them only through what came before them. */
#include "base/mem.h"

#include <math.h>
#include <string.h>

#include "fixes_parts.h"

struct fixes_tie {
	struct setup setup;
	struct frame frame;
	struct uncert_model model;
	struct path path; /* as read, when the correction was taken */
	struct carried_path carried;
	struct fixes fixes;
	struct normal normal;
};

/* The joints now in the ground that were there when the correction was taken. */
static void lay(const struct setup *s, int joints, struct path *out)
{
	struct path rows = { 0 };
	size_t count = s->job->in_ground < (size_t)joints ? s->job->in_ground : (size_t)joints;

	rows.count = count + 1;
	rows.rows = sb_alloc(rows.count * sizeof *rows.rows);
	for (size_t i = 0; i < count; i++)
		rows.rows[i + 1].reading = s->job->readings[s->job->ground_joints[i]].id;
	sb_fixes_as_read(s, &rows, out);
	sb_path_clear(&rows);
}

static void look(struct fixes_tie *t, const struct adjustment *a)
{
	struct fixes_ask ask = { &t->setup, &t->path, &t->model, t->fixes.confidence, a->fact.act };
	const struct job *job = t->setup.job;
	bool *wanted = sb_alloc((job->fix_count + 1) * sizeof *wanted);
	double deepest = 0;

	t->fixes.list = sb_alloc((job->fix_count + 1) * sizeof *t->fixes.list);
	for (size_t i = 0; i < job->fix_count && job->fixes[i].fact.act < a->fact.act; i++) {
		struct fix_view *v = &t->fixes.list[t->fixes.count++];
		sb_fixes_look(&ask, &t->carried, &job->fixes[i], v);
		wanted[i] = v->standing == FIX_STANDS && sb_fixes_rest_on(a, v->fix);
		if (wanted[i])
			deepest = fmax(deepest, v->md_m);
	}
	sb_carried_lean(&t->carried, deepest);
	sb_normal_solve(&t->carried, &t->fixes, wanted, &t->normal);
	sb_free(wanted);
}

struct fixes_tie *sb_fixes_tie_new(const struct setup *s, const struct uncert_model *model, double confidence)
{
	const struct adjustment *a = sb_job_adjustment(s->job);

	if (a == NULL)
		return NULL;
	struct fixes_tie *t = sb_alloc(sizeof *t);
	t->frame = *s->frame;
	t->setup = *s;
	t->setup.frame = &t->frame;
	t->model = *model;
	t->fixes.confidence = confidence;
	lay(s, a->fact.joint, &t->path);
	struct fixes_ask ask = { &t->setup, &t->path, &t->model, confidence, a->fact.act };
	sb_carried_over(&ask, &t->carried);
	look(t, a);
	if (t->normal.status == ADJUST_OK)
		return t;
	sb_fixes_tie_free(t);
	return NULL;
}

void sb_fixes_tie_free(struct fixes_tie *t)
{
	if (t == NULL)
		return;
	sb_normal_clear(&t->normal);
	sb_fixes_clear(&t->fixes);
	sb_carried_clear(&t->carried);
	sb_path_clear(&t->path);
	sb_free(t);
}

/* Whether the adjustment knew the reading. */
static bool knew(const struct fixes_tie *t, int64_t reading, const struct carried_place *place)
{
	const struct path *path = t->carried.path;

	return reading && path->rows[path->on_path[place->before]].reading == reading;
}

/* How the noise of one observation's place goes with that of the place that is asked for. */
static void together(const struct fixes_tie *t, const struct carried_place *known, double md_m,
	const struct uncert *at, const struct carried_place *observed, double out[3][3])
{
	if (known)
		sb_carried_rest(&t->carried, observed, known, out);
	else if (md_m >= observed->md_m)
		sb_carried_later(&t->carried, observed, at, out);
	else
		memset(out, 0, 9 * sizeof(double));
}

struct sym3 sb_fixes_tied(const void *tie, int64_t reading, double md_m, const struct uncert *at)
{
	static const enum uncert_term shared[CORRECT_TERMS] = { UNCERT_AZIMUTH_BIAS, UNCERT_INCLINATION_BIAS,
		UNCERT_DEPTH_SCALE };
	static const struct vec3 axes[3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
	const struct fixes_tie *t = tie;
	const struct normal *n = &t->normal;
	double with[3 * ADJUST_COUNT], common[3][3], c[3][3];
	struct adjust_point point = { 0 };
	struct carried_place place = sb_carried_place(&t->carried, md_m);
	const struct carried_place *known = knew(t, reading, &place) ? &place : NULL;

	sb_carried_itself(&t->carried, at, point.noise);
	for (int k = 0; k < 3; k++)
		for (size_t j = 0; j < n->problem.terms; j++)
			point.effect[k][j] = sb_vec3_dot(axes[k], at->shared[shared[n->term[j]]]);
	for (size_t i = 0; i < n->problem.count; i++) {
		if (i == 0 || n->fix[i] != n->fix[i - 1])
			together(t, known, md_m, at, &n->places[n->fix[i]], common);
		struct vec3 axis = t->fixes.list[n->view[n->fix[i]]].axis[n->axis[i]];
		for (size_t k = 0; k < 3; k++)
			with[k * n->problem.count + i] = sb_carried_between(common, axis, axes[k]);
	}
	point.with = with;
	sb_adjust_point(&n->problem, n->work, &n->answer, &point, c, NULL, NULL);
	return (struct sym3){ c[0][0], c[1][1], c[2][2], c[0][1], c[0][2], c[1][2] };
}

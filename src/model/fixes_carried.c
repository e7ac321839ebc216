/* What the readings' errors do to the path at any depth, and how two depths go together. Between two readings
 * a place moves as the share-weighted mean of them (geom/uncert.h); past the last one it is carried on by a
 * held heading, whose error is that of the last reading. */
#include "fixes_parts.h"

#include "base/mem.h"

#include <math.h>
#include <string.h>

void sb_fixes_as_read(const struct setup *s, const struct path *in_force, struct path *out)
{
	struct job job = *s->job; /* borrows all its lists */
	struct frame base, then;
	struct setup setup = *s;

	job.adjustment_count = 0;
	setup.job = &job;
	sb_frame_init(&job, &base, NULL); /* the sheet's: it made a frame before */
	setup.frame = &base;
	memset(out, 0, sizeof *out);
	sb_path_begin(&setup, out);
	setup.frame = &then;
	for (size_t i = 1; i < in_force->count; i++) {
		const struct reading *r = sb_job_reading(&job, in_force->rows[i].reading);
		sb_frame_for(&job, &base, r, &then);
		sb_path_append(&setup, out, r);
	}
}

static const struct row *row_of(const struct carried_path *c, size_t i)
{
	return &c->path->rows[c->path->on_path[i]];
}

static void add_row(struct carried_path *c, size_t i)
{
	const struct row *from = row_of(c, i - 1), *to = row_of(c, i);
	bool borrowed = from->joint == 0 && !from->taken; /* heads as the first reading says */
	const struct attitude *start = borrowed ? &to->attitude : &from->attitude;
	struct uncert_station begins = { start, from->survey_md_m, from->carried, borrowed };
	struct uncert_station ends = { &to->attitude, to->survey_md_m, to->carried, false };
	struct arc arc;

	c->sums[i] = c->sums[i - 1];
	if (sb_arc_between(start, &to->attitude, to->course_m, &arc) != ARC_RANGE)
		c->sums[i] = sb_uncert_next(
			c->model, &c->sums[i - 1], &begins, &ends, &arc, to->joint - from->joint);
}

/* What follows the last row is not drilled yet. For what its reading does to all that comes, a course of
 * ordinary length straight on stands for it. */
static void go_on(struct carried_path *c)
{
	const double ordinary_m = 10;
	size_t last = c->path->on_count - 1;
	const struct row *row = row_of(c, last);
	bool carried = row->carried;
	struct uncert_station from = { &row->attitude, row->survey_md_m, carried, false };
	struct uncert_station to = { &row->attitude, row->survey_md_m + ordinary_m, carried, true };
	struct arc arc;

	c->sums[last + 1] = c->sums[last];
	if (sb_arc_between(&row->attitude, &row->attitude, ordinary_m, &arc) == ARC_OK)
		c->sums[last + 1] = sb_uncert_next(c->model, &c->sums[last], &from, &to, &arc, 1);
}

void sb_carried_over(const struct fixes_ask *ask, struct carried_path *c)
{
	*c = (struct carried_path){ .setup = ask->setup, .model = ask->model, .path = ask->path };
	c->sums = sb_alloc((c->path->on_count + 1) * sizeof *c->sums);
	c->sums[0] = sb_uncert_begin();
	for (size_t i = 1; i < c->path->on_count; i++)
		add_row(c, i);
	go_on(c);
}

void sb_carried_begin(const struct fixes_ask *ask, struct path *own, struct carried_path *c)
{
	struct fixes_ask as_read = *ask;

	memset(own, 0, sizeof *own);
	if (sb_job_adjustment(ask->setup->job)) {
		sb_fixes_as_read(ask->setup, ask->path, own);
		as_read.path = own;
	}
	sb_carried_over(&as_read, c);
}

void sb_carried_clear(struct carried_path *c)
{
	sb_free(c->sums);
	c->sums = NULL;
}

static size_t row_before(const struct carried_path *c, double md_m)
{
	size_t low = 0, high = c->path->on_count;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (row_of(c, middle)->survey_md_m <= md_m)
			low = middle;
		else
			high = middle;
	}
	return low;
}

struct carried_place sb_carried_place(const struct carried_path *c, double md_m)
{
	struct carried_place p = { .md_m = md_m, .before = row_before(c, md_m) };
	const struct row *from = row_of(c, p.before);
	double past = md_m - fmax(from->survey_md_m, 0);
	struct arc arc;

	if (p.before + 1 < c->path->on_count) {
		p.share = past / (row_of(c, p.before + 1)->survey_md_m - fmax(from->survey_md_m, 0));
		return p;
	}
	p.ahead = past > 1e-9;
	p.beyond = c->sums[p.before];
	bool carried = from->carried;
	struct uncert_station begins = { &from->attitude, from->survey_md_m, carried, false };
	struct uncert_station ends = { &from->attitude, md_m, carried, true };
	if (p.ahead && sb_arc_between(&from->attitude, &from->attitude, past, &arc) == ARC_OK)
		p.beyond = sb_uncert_next(c->model, &p.beyond, &begins, &ends, &arc, 0);
	return p;
}

struct vec3 sb_carried_shared(const struct carried_path *c, const struct carried_place *p, enum uncert_term t)
{
	if (p->ahead)
		return p->beyond.shared[t];
	struct vec3 at = sb_vec3_scale(c->sums[p->before].shared[t], 1 - p->share);
	if (p->share > 0)
		at = sb_vec3_add(at, sb_vec3_scale(c->sums[p->before + 1].shared[t], p->share));
	return at;
}

/* How far the string's magnetism moves a place more than the mean of it does. */
static struct vec3 uneven(const struct carried_path *c, const struct carried_place *p)
{
	struct vec3 mean = sb_vec3_scale(sb_carried_shared(c, p, UNCERT_AZIMUTH_BIAS), c->lean);

	return sb_vec3_sub(sb_carried_shared(c, p, UNCERT_INTERFERENCE), mean);
}

void sb_carried_lean(struct carried_path *c, double md_m)
{
	struct carried_place p = sb_carried_place(c, md_m);
	struct vec3 azimuth = sb_carried_shared(c, &p, UNCERT_AZIMUTH_BIAS);
	double square = sb_vec3_dot(azimuth, azimuth);

	c->lean =
		square > 0 ? sb_vec3_dot(azimuth, sb_carried_shared(c, &p, UNCERT_INTERFERENCE)) / square : 0;
}

/* ---- noise ---- */

static void add(double out[3][3], double c[3][3], double weight, bool turned)
{
	for (int i = 0; i < 3; i++)
		for (int j = 0; j < 3; j++)
			out[i][j] += weight * (turned ? c[j][i] : c[i][j]);
}

static void whole(const struct uncert *at, double c[3][3])
{
	struct sym3 s = sb_uncert_noise(at);
	const double full[3][3] = { { s.nn, s.ne, s.nu }, { s.ne, s.ee, s.eu }, { s.nu, s.eu, s.uu } };

	memcpy(c, full, sizeof full);
}

/* One end of the mean that a place is: a row on the path, or the place itself past the last of them, which
 * counts as the row that follows. */
struct end {
	size_t row;
	const struct uncert *sums;
	double weight;
};

static size_t ends_of(const struct carried_path *c, const struct carried_place *p, struct end ends[2])
{
	if (p->ahead) {
		ends[0] = (struct end){ p->before + 1, &p->beyond, 1 };
		return 1;
	}
	ends[0] = (struct end){ p->before, &c->sums[p->before], 1 - p->share };
	if (!(p->share > 0))
		return 1;
	ends[1] = (struct end){ p->before + 1, &c->sums[p->before + 1], p->share };
	return 2;
}

/* The noise of two rows. Of two places past the last row the nearer one's is in the farther one's too. */
static void add_ends(const struct carried_path *c, const struct end *a, const struct end *b, double out[3][3])
{
	double common[3][3];
	double weight = a->weight * b->weight;

	if (a->row == b->row) {
		bool nearer = sb_uncert_noise(a->sums).nn + sb_uncert_noise(a->sums).ee <=
			sb_uncert_noise(b->sums).nn + sb_uncert_noise(b->sums).ee;
		whole(nearer ? a->sums : b->sums, common);
		add(out, common, weight, false);
		return;
	}
	const struct end *first = a->row < b->row ? a : b, *second = a->row < b->row ? b : a;
	const struct uncert *next = first->row + 1 == second->row ? second->sums : &c->sums[first->row + 1];
	sb_uncert_common(first->sums, next, common);
	add(out, common, weight, first == b);
}

static void add_outer(double out[3][3], struct vec3 a, struct vec3 b, double variance)
{
	const double x[3] = { a.n, a.e, a.u }, y[3] = { b.n, b.e, b.u };

	for (int i = 0; i < 3; i++)
		for (int j = 0; j < 3; j++)
			out[i][j] += x[i] * y[j] * variance;
}

void sb_carried_rest(const struct carried_path *c, const struct carried_place *a,
	const struct carried_place *b, double out[3][3])
{
	struct end of_a[2], of_b[2];
	size_t count_a = ends_of(c, a, of_a), count_b = ends_of(c, b, of_b);

	memset(out, 0, 9 * sizeof(double));
	for (size_t i = 0; i < count_a; i++)
		for (size_t j = 0; j < count_b; j++)
			add_ends(c, &of_a[i], &of_b[j], out);
	const double *sigma = c->model->sigma;
	add_outer(out, uneven(c, a), uneven(c, b), sigma[UNCERT_INTERFERENCE] * sigma[UNCERT_INTERFERENCE]);
	add_outer(out, sb_carried_shared(c, a, UNCERT_CARRIED_BIAS),
		sb_carried_shared(c, b, UNCERT_CARRIED_BIAS),
		sigma[UNCERT_CARRIED_BIAS] * sigma[UNCERT_CARRIED_BIAS]);
}

static struct vec3 uneven_at(const struct carried_path *c, const struct uncert *at)
{
	return sb_vec3_sub(
		at->shared[UNCERT_INTERFERENCE], sb_vec3_scale(at->shared[UNCERT_AZIMUTH_BIAS], c->lean));
}

void sb_carried_later(const struct carried_path *c, const struct carried_place *p, const struct uncert *at,
	double out[3][3])
{
	const double *sigma = c->model->sigma;
	struct end ends[2];
	double common[3][3];
	size_t count = ends_of(c, p, ends);

	memset(out, 0, 9 * sizeof(double));
	for (size_t i = 0; i < count; i++) {
		/* of a place past the last row, what that row does to it it does to all that comes */
		const struct uncert *from = p->ahead ? &c->sums[p->before] : ends[i].sums;
		sb_uncert_common(from, p->ahead ? &p->beyond : &c->sums[ends[i].row + 1], common);
		add(out, common, ends[i].weight, false);
	}
	add_outer(
		out, uneven(c, p), uneven_at(c, at), sigma[UNCERT_INTERFERENCE] * sigma[UNCERT_INTERFERENCE]);
	add_outer(out, sb_carried_shared(c, p, UNCERT_CARRIED_BIAS), at->shared[UNCERT_CARRIED_BIAS],
		sigma[UNCERT_CARRIED_BIAS] * sigma[UNCERT_CARRIED_BIAS]);
}

void sb_carried_itself(const struct carried_path *c, const struct uncert *at, double out[3][3])
{
	const double *sigma = c->model->sigma;
	struct vec3 bias = at->shared[UNCERT_CARRIED_BIAS], odd = uneven_at(c, at);

	whole(at, out);
	add_outer(out, odd, odd, sigma[UNCERT_INTERFERENCE] * sigma[UNCERT_INTERFERENCE]);
	add_outer(out, bias, bias, sigma[UNCERT_CARRIED_BIAS] * sigma[UNCERT_CARRIED_BIAS]);
}

double sb_carried_between(double c[3][3], struct vec3 a, struct vec3 b)
{
	const double x[3] = { a.n, a.e, a.u }, y[3] = { b.n, b.e, b.u };
	double sum = 0;

	for (int i = 0; i < 3; i++)
		for (int j = 0; j < 3; j++)
			sum += x[i] * c[i][j] * y[j];
	return sum;
}

/* ---- what a correction can take away ---- */

double sb_carried_prior(const struct carried_path *c, int term)
{
	const struct uncert_model *m = c->model;

	switch (term) {
	case CORRECT_AZIMUTH:
		return hypot(hypot(m->sigma[UNCERT_AZIMUTH_BIAS], m->sigma[UNCERT_DECLINATION]),
			c->lean * m->sigma[UNCERT_INTERFERENCE]);
	case CORRECT_INCLINATION:
		return m->sigma[UNCERT_INCLINATION_BIAS];
	default:
		return m->sigma[UNCERT_DEPTH_SCALE];
	}
}

struct vec3 sb_carried_effect(const struct carried_path *c, const struct carried_place *p, int term)
{
	static const enum uncert_term shared[CORRECT_TERMS] = { UNCERT_AZIMUTH_BIAS, UNCERT_INCLINATION_BIAS,
		UNCERT_DEPTH_SCALE };

	return sb_carried_shared(c, p, shared[term]);
}

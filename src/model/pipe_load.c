/* The pull of the product pipe, for every place of its head and every variation. The line's geometry and its
 * legs are made once; a variation costs one march over the legs for each place of the head. */
#include "model/pipe_load.h"

#include "base/mem.h"
#include "geom/angle.h"
#include "geom/bend.h"
#include "geom/runs.h"

#include <math.h>
#include <string.h>

const char *const sb_load_vary_words[] = { "friction in the hole", "weight of the fluid", "drag of the fluid",
	"friction outside" };
const char *const sb_pipe_check_words[] = { "tension", "bending", "outside pressure", "tension and bending",
	"all three" };

/* ---- legs ---- */

static const struct vec3 up = { 0, 0, 1 };

static struct vec3 back(struct vec3 a)
{
	return sb_vec3_scale(a, -1);
}

static double length_between(const struct pipe_load *load, size_t first, size_t last)
{
	return load->stations[last].md_m - load->stations[first].md_m;
}

static void add_leg(struct pipe_load *load, size_t first, size_t last, struct pull_leg leg)
{
	load->legs[load->leg_count++] =
		(struct load_leg){ first, last, leg, sb_bend_radius(leg.length_m, leg.turn_rad) };
	load->turn_rad += leg.turn_rad;
}

static struct pull_leg by_headings(const struct pipe_load *load, size_t first, size_t last, double room_m)
{
	const struct bore_stretch *b = load->line.stretches;

	return sb_pull_leg(length_between(load, first, last), back(b[last - 1].heading_to),
		back(b[first].heading_from), room_m);
}

static void legs_of_design(struct pipe_load *load)
{
	const struct bore_line *line = &load->line;

	for (size_t last = line->count; last > 0;) {
		size_t first = last - 1;
		while (first > 0 && line->stretches[first - 1].part == line->stretches[last - 1].part)
			first--;
		add_leg(load, first, last, by_headings(load, first, last, 0));
		last = first;
	}
}

/* A run's curvature comes from all its places; of one stretch alone only its headings tell. */
static struct pull_leg leg_of_run(const struct pipe_load *load, const struct run *r, double room_m)
{
	if (r->last - r->first < 2)
		return by_headings(load, r->first, r->last, room_m);
	double length = length_between(load, r->first, r->last), bend = sb_vec3_length(r->bend);
	struct vec3 span = sb_vec3_sub(load->stations[r->first].at, load->stations[r->last].at);
	struct pull_leg leg = {
		.length_m = length,
		.along = sb_vec3_scale(span, 1 / sb_vec3_length(span)),
		.inside = bend > 0 ? sb_vec3_scale(r->bend, 1 / bend) : up,
		.turn_rad = bend * length,
	};
	double quarter = sin(leg.turn_rad / 4);
	leg.aside_m = bend > 0 ? 2 * quarter * quarter / bend : 0;
	leg.bent = leg.aside_m > room_m;
	return leg;
}

static void legs_of_drilled(struct pipe_load *load, double room_m)
{
	struct run_point *points = sb_alloc(load->count * sizeof *points);
	struct run *runs = sb_alloc(load->count * sizeof *runs);
	size_t made = 0;

	for (size_t i = 0; i < load->count; i++)
		points[i] = (struct run_point){ .s_m = load->stations[i].md_m, .at = load->stations[i].at };
	sb_runs_find(points, load->count, room_m / 2, runs, &made);
	while (made-- > 0)
		add_leg(load, runs[made].first, runs[made].last, leg_of_run(load, &runs[made], room_m));
	sb_free(points);
	sb_free(runs);
}

/* ---- along the hole ---- */

/* What a variation makes of the pipe along the hole, summed from the exit to each station. */
struct along {
	double weight_n, lift_n, wet_m;
};

/* The share of a stretch that lies below a level. */
static double share_below(double a, double b, double level)
{
	double low = fmin(a, b), high = fmax(a, b);

	return high - low > 1e-9 ? fmin(fmax((level - low) / (high - low), 0), 1) : low <= level;
}

static void sum_along(const struct pipe_load *load, double fluid, struct along *sums)
{
	const struct load_given *g = &load->given;

	sums[load->count - 1] = (struct along){ 0, 0, 0 };
	for (size_t i = load->count - 1; i-- > 0;) {
		double z = load->stations[i].at.u, below = load->stations[i + 1].at.u;
		double length = length_between(load, i, i + 1), wet = share_below(z, below, g->level_m);
		double full = g->water ? share_below(z, below, g->water_to_m) : 0;
		double weight = sb_pipe_weight(&g->section, fluid, wet, full);
		sums[i] = (struct along){ sums[i + 1].weight_n + weight * length,
			sums[i + 1].lift_n + weight * (z - below), sums[i + 1].wet_m + wet * length };
	}
}

/* ---- the march ---- */

struct march {
	const struct pipe_load *load;
	const struct along *sums;
	double friction, drag_pa, rollers;
	bool runs;
};

/* The string that still lies outside, drawn over its rollers; polyethylene around the edge of the hole too
 * (ASTM F1962). */
static double outside(const struct march *m, size_t head)
{
	const struct pipe_load *load = m->load;
	const struct load_given *g = &load->given;
	double in_hole = load->line.length_m - load->stations[head].md_m;
	double edge = asin(fmin(fmax(load->line.stretches[load->line.count - 1].heading_to.u, 0), 1));
	double around = g->steel ? 1 : exp(m->rollers * edge);

	return m->rollers * g->section.air_n_m * fmax(g->string_m - in_hole, 0) * around;
}

static double across(struct march *m, const struct load_leg *leg, size_t to, double tension)
{
	const struct along *a = &m->sums[leg->last], *b = &m->sums[to];
	const struct load_given *g = &m->load->given;
	double length = length_between(m->load, to, leg->last), lift = b->lift_n - a->lift_n;
	double weight = (b->weight_n - a->weight_n) / length, out;

	if (g->steel) {
		double drag = SB_PI * g->section.outer_m * m->drag_pa * (b->wet_m - a->wet_m) / length;
		const struct pull_terms terms = { m->friction, drag, g->section.stiffness };
		out = sb_pull_across(&leg->leg, &terms, tension, length, weight, lift);
	} else {
		out = sb_pull_capstan(&leg->leg, m->friction, tension, length, weight, lift);
	}
	m->runs |= !(out > 0) && lift < 0;
	return out;
}

/* The force at the head when it is at a station. */
static double force_at(struct march *m, size_t head)
{
	const struct pipe_load *load = m->load;
	const struct load_given *g = &load->given;
	double tension = outside(m, head);

	for (size_t i = 0; i < load->leg_count && load->legs[i].last > head; i++) {
		size_t first = load->legs[i].first;
		tension = across(m, &load->legs[i], first > head ? first : head, tension);
	}
	if (!g->steel && head + 1 < load->count)
		tension += sb_pull_hydrokinetic(m->drag_pa, g->hole_m, g->section.outer_m);
	return tension;
}

/* ---- variations and the band ---- */

static double most_of(const double *forces, size_t count)
{
	double most = 0;

	for (size_t i = 0; i < count; i++)
		most = fmax(most, forces[i]);
	return most;
}

static void vary(struct pipe_load *load, enum load_vary what, enum load_degree degree, double *forces,
	struct along *sums)
{
	const struct load_given *g = &load->given;
	enum load_degree of[LOAD_VARIES] = { DEGREE_GIVEN, DEGREE_GIVEN, DEGREE_GIVEN, DEGREE_GIVEN };

	of[what] = degree;
	sum_along(load, g->fluid[of[VARY_FLUID]], sums);
	struct march m = { load, sums, g->friction[of[VARY_FRICTION]], g->drag_pa[of[VARY_DRAG]],
		g->rollers[of[VARY_ROLLERS]], false };
	for (size_t i = 0; i < load->count; i++)
		forces[i] = force_at(&m, i);
	load->vary_n[what][degree] = most_of(forces, load->count);
	if (degree == DEGREE_GIVEN)
		load->runs = m.runs;
}

/* low_n and high_n gather squares until the end. */
static void gather_band(struct pipe_load *load, const double *one, const double *other)
{
	for (size_t i = 0; i < load->count; i++) {
		struct load_station *s = &load->stations[i];
		double down = fmax(s->force_n - fmin(one[i], other[i]), 0);
		double over = fmax(fmax(one[i], other[i]) - s->force_n, 0);
		s->low_n += down * down;
		s->high_n += over * over;
	}
}

static void find_forces(struct pipe_load *load)
{
	double *forces = sb_alloc(2 * load->count * sizeof *forces), *other = forces + load->count;
	struct along *sums = sb_alloc(load->count * sizeof *sums);

	vary(load, VARY_FRICTION, DEGREE_GIVEN, forces, sums);
	for (size_t i = 0; i < load->count; i++) {
		size_t before = i > 0 ? i - 1 : 0;
		load->stations[i].force_n = forces[i];
		load->stations[i].weight_n_m = (sums[before].weight_n - sums[before + 1].weight_n) /
			length_between(load, before, before + 1);
	}
	for (int what = 0; what < LOAD_VARIES; what++) {
		load->vary_n[what][DEGREE_GIVEN] = load->vary_n[VARY_FRICTION][DEGREE_GIVEN];
		vary(load, (enum load_vary)what, DEGREE_LOW, forces, sums);
		vary(load, (enum load_vary)what, DEGREE_HIGH, other, sums);
		gather_band(load, forces, other);
	}
	for (size_t i = 0; i < load->count; i++) {
		struct load_station *s = &load->stations[i];
		s->low_n = fmax(s->force_n - sqrt(s->low_n), 0);
		s->high_n = s->force_n + sqrt(s->high_n);
	}
	sb_free(forces);
	sb_free(sums);
}

/* ---- stations ---- */

/* Over the contract's window where the joint has one; else the stretch's own. */
static double window_radius(const struct clearance_ask *ask, const struct bore_stretch *b)
{
	const struct path *p = ask->path;

	if (b->projected || b->part >= 0 || b->joint <= 0 || (size_t)b->joint >= p->count ||
		p->rows[b->joint].window.joints == 0)
		return b->radius_m;
	return p->rows[b->joint].window.radius_m;
}

static void make_stations(const struct clearance_ask *ask, struct pipe_load *load)
{
	const struct bore_line *line = &load->line;

	load->count = line->count + 1;
	load->stations = sb_alloc(load->count * sizeof *load->stations);
	load->legs = sb_alloc(load->count * sizeof *load->legs);
	for (size_t i = 0; i < load->count; i++) {
		const struct bore_stretch *ends = &line->stretches[i > 0 ? i - 1 : 0];
		const struct bore_stretch *begins = &line->stretches[i < line->count ? i : i - 1];
		load->stations[i] = (struct load_station){
			.md_m = i < line->count ? begins->md_m : line->length_m,
			.at = i < line->count ? begins->from : ends->to,
			.joint = ends->joint,
			.projected = ends->projected,
			.radius_joint_m =
				line->design ? fmin(ends->radius_m, begins->radius_m) : ends->radius_m,
			.radius_m = fmin(window_radius(ask, ends), window_radius(ask, begins)),
		};
		load->stations[i].station_m = sb_bore_line_station(line, load->stations[i].md_m);
	}
}

/* ---- checks ---- */

void sb_pipe_load_check(const struct load_given *g, struct load_station *s)
{
	double *ratio = s->ratio, tension_pa = s->force_n / g->section.area_m2;
	double inside = g->water ? fmax(fmin(g->water_to_m, g->level_m) - s->at.u, 0) * SB_WATER : 0;

	s->pressure_pa = SB_GRAVITY * (g->fluid[DEGREE_GIVEN] * fmax(g->level_m - s->at.u, 0) - inside);
	s->bending_joint_pa = sb_pipe_bending(&g->section, s->radius_joint_m);
	s->bending_pa = sb_pipe_bending(&g->section, s->radius_m);
	s->buckles_pa = (double)NAN;
	for (int k = 0; k < PIPE_CHECKS; k++)
		ratio[k] = (double)NAN;
	if (g->steel) {
		if (g->yield_pa > 0)
			sb_pipe_steel_checks(&g->section, g->yield_pa, g->poisson, s->force_n, s->bending_pa,
				s->pressure_pa, ratio);
		return;
	}
	s->buckles_pa = sb_pipe_pe_buckles(&g->section, g->poisson, g->ovality,
		g->pull_stress_pa > 0 ? tension_pa : 0, g->pull_stress_pa > 0 ? g->pull_stress_pa : 1);
	ratio[CHECK_TENSION] = tension_pa / g->pull_stress_pa;
	ratio[CHECK_BENDING] = g->minimum_radius_m / s->radius_m;
	ratio[CHECK_HOOP] = fmax(s->pressure_pa, 0) / s->buckles_pa;
	ratio[CHECK_TENSION_BENDING] = (tension_pa + s->bending_pa) / g->pull_stress_pa;
}

static void check_all(struct pipe_load *load)
{
	for (int k = 0; k < PIPE_CHECKS; k++)
		load->worst[k] = SIZE_MAX;
	for (size_t i = 0; i < load->count; i++) {
		struct load_station *s = &load->stations[i];
		sb_pipe_load_check(&load->given, s);
		if (s->force_n > load->stations[load->most].force_n)
			load->most = i;
		if (s->high_n > load->stations[load->highest].high_n)
			load->highest = i;
		for (int k = 0; k < PIPE_CHECKS; k++)
			if (!isnan(s->ratio[k]) &&
				(load->worst[k] == SIZE_MAX ||
					s->ratio[k] > load->stations[load->worst[k]].ratio[k]))
				load->worst[k] = i;
	}
}

/* ---- ASTM F1962 ---- */

static double lowest(const struct bore_line *line)
{
	double low = HUGE_VAL;

	for (size_t i = 0; i < line->count; i++)
		low = fmin(low, fmin(line->stretches[i].from.u, line->stretches[i].to.u));
	return low;
}

/* The shape that the standard knows: two ramps and a level bottom, from the angles at the ends of the line,
 * and the depth below where the pipe enters. Pipe and contents as at the bottom. */
static void idealise(struct pipe_load *load)
{
	const struct load_given *g = &load->given;
	const struct bore_stretch *first = load->line.stretches, *last = first + load->line.count - 1;
	double bottom = lowest(&load->line);
	double cross = load->stations[load->count - 1].station_m - load->stations[0].station_m;

	load->hydrokinetic_n = sb_pull_hydrokinetic(g->drag_pa[DEGREE_GIVEN], g->hole_m, g->section.outer_m);
	load->f1962 = (struct f1962){
		.in_rad = asin(fmin(last->heading_to.u, 1)),
		.out_rad = asin(fmin(-first->heading_from.u, 1)),
		.depth_m = last->to.u - bottom,
		.cross_m = cross,
		.extra_m = fmax(g->string_m - load->line.length_m, 0),
		.friction_ground = g->rollers[DEGREE_GIVEN],
		.friction_hole = g->friction[DEGREE_GIVEN],
		.air_n_m = g->section.air_n_m,
		.float_n_m = -sb_pipe_weight(&g->section, g->fluid[DEGREE_GIVEN], bottom < g->level_m,
			g->water && bottom < g->water_to_m),
	};
	load->f1962_status = sb_pull_f1962(&load->f1962, &load->f1962_forces);
}

/* ---- all ---- */

int sb_pipe_load_make(const struct clearance_ask *ask, bool design, struct pipe_load *out, struct sb_err *err)
{
	sb_pipe_load_clear(out);
	if (sb_load_given(ask, &out->given, err))
		return -1;
	if (design)
		sb_bore_line_design(ask, &out->line);
	else
		sb_bore_line_drilled(ask, &out->line);
	make_stations(ask, out);
	if (isnan(out->given.string_m))
		out->given.string_m = out->line.length_m;
	/* Readings' own noise over a joint wavers the line too, and bends nothing. */
	const struct frame *f = ask->setup.frame;
	double noise = sb_frame_metres(f, ask->setup.job->joint_length.value) * f->sigma_inc_rad;
	if (design)
		legs_of_design(out);
	else
		legs_of_drilled(out, fmax((out->given.hole_m - out->given.section.outer_m) / 2, 2 * noise));
	find_forces(out);
	check_all(out);
	if (!out->given.steel)
		idealise(out);
	return 0;
}

void sb_pipe_load_clear(struct pipe_load *load)
{
	sb_bore_line_clear(&load->line);
	sb_free(load->stations);
	sb_free(load->legs);
	memset(load, 0, sizeof *load);
}

/* ---- asking ---- */

/* The last station at or before a depth; one before the end. */
static size_t station_before(const struct pipe_load *load, double md_m)
{
	return sb_bore_line_find(&load->line, md_m);
}

bool sb_pipe_load_at(
	const struct pipe_load *load, double md_m, double *force_n, double *low_n, double *high_n)
{
	const double touch = 1e-6;

	if (!(md_m >= -touch && md_m <= load->line.length_m + touch))
		return false;
	const struct load_station *a = &load->stations[station_before(load, md_m)], *b = a + 1;
	double t = fmin(fmax((md_m - a->md_m) / (b->md_m - a->md_m), 0), 1);
	*force_n = a->force_n + t * (b->force_n - a->force_n);
	if (low_n)
		*low_n = a->low_n + t * (b->low_n - a->low_n);
	if (high_n)
		*high_n = a->high_n + t * (b->high_n - a->high_n);
	return true;
}

size_t sb_pipe_load_find(const struct pipe_load *load, double md_m)
{
	size_t i = station_before(load, md_m);

	return load->stations[i + 1].md_m - md_m < md_m - load->stations[i].md_m ? i + 1 : i;
}

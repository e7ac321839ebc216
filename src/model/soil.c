/* The layers are sorted by their tops once, so that one look down through them finds what lies over a place.
 */
#include "model/soil.h"

#include "base/measure.h"
#include "base/mem.h"
#include "geom/angle.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Of water, kN/m3: fresh, common practice. */
#define WATER 9.81e3

static double length_of(const struct frame *f, const struct number *n)
{
	return sb_number_given(n) ? sb_frame_metres(f, n->value) : (double)NAN;
}

static double measure_of(const struct job *job, enum measure m, const struct number *n)
{
	return sb_number_given(n) ? sb_measure_si(job->unit, m, n->value) : (double)NAN;
}

static struct soil_bed bed_of(const struct job *job, const struct frame *f, const struct soil_layer *l)
{
	return (struct soil_bed){
		.from_m = sb_frame_metres(f, l->from.value),
		.to_m = sb_frame_metres(f, l->to.value),
		.top_m = sb_frame_metres(f, l->top.value),
		.water_m = length_of(f, &l->ground_water),
		.weight_nm3 = measure_of(job, MEASURE_UNIT_WEIGHT, &l->unit_weight),
		.cohesion_pa = measure_of(job, MEASURE_PRESSURE, &l->cohesion),
		.friction_rad = sb_number_given(&l->friction) ? sb_rad(l->friction.value) : (double)NAN,
		.shear_pa = measure_of(job, MEASURE_PRESSURE, &l->shear_modulus),
		.name = l->name,
	};
}

/* The highest first; of two that are as high, the one further down the sheet, which then hides the other. */
static int by_top(const void *one, const void *other)
{
	const struct soil_bed *a = one, *b = other;

	if (a->top_m != b->top_m)
		return a->top_m > b->top_m ? -1 : 1;
	return a->name > b->name ? 1 : -1; /* names lie in the order of the sheet's rows */
}

void sb_soil_build(const struct job *job, const struct frame *f, struct soil *out)
{
	*out = (struct soil){ 0 };
	if (job->soil_count == 0)
		return;
	out->beds = sb_alloc(job->soil_count * sizeof *out->beds);
	out->count = job->soil_count;
	for (size_t i = 0; i < job->soil_count; i++)
		out->beds[i] = bed_of(job, f, &job->soil[i]);
	qsort(out->beds, out->count, sizeof *out->beds, by_top);
}

void sb_soil_clear(struct soil *s)
{
	sb_free(s->beds);
	memset(s, 0, sizeof *s);
}

/* A micrometre past the end of a layer is arithmetic. */
#define TOUCH 1e-6

static const struct soil_bed *next_bed(const struct soil *s, size_t *i, double station_m)
{
	while (*i < s->count) {
		const struct soil_bed *b = &s->beds[(*i)++];
		if (station_m >= b->from_m - TOUCH && station_m <= b->to_m + TOUCH)
			return b;
	}
	return NULL;
}

/* The bed that the ground is made of, and the one below it. */
static const struct soil_bed *uppermost(
	const struct soil *s, size_t *i, double station_m, double ground_m, const struct soil_bed **below)
{
	const struct soil_bed *b = next_bed(s, i, station_m);

	*below = b ? next_bed(s, i, station_m) : NULL;
	while (*below && (*below)->top_m >= ground_m) {
		b = *below;
		*below = next_bed(s, i, station_m);
	}
	return b;
}

static double pore_at(const struct soil_bed *b, double elevation_m, double ground_m)
{
	return fmax(WATER * ((isnan(b->water_m) ? ground_m : b->water_m) - elevation_m), 0);
}

struct soil_place sb_soil_at(const struct soil *s, double station_m, double elevation_m, double ground_m)
{
	struct soil_place p = { .known = SOIL_ABOVE };
	const struct soil_bed *below;
	size_t i = 0;

	if (!(elevation_m < ground_m))
		return p;
	const struct soil_bed *b = uppermost(s, &i, station_m, ground_m, &below);
	p.known = SOIL_NO_LAYER;
	if (b == NULL)
		return p;
	p.raised_m = fmax(ground_m - b->top_m, 0);
	if (b->water_m > ground_m) {
		p.flooded_m = b->water_m - ground_m;
		p.total_pa = WATER * p.flooded_m;
	}
	for (double from = ground_m; b; b = below, below = next_bed(s, &i, station_m)) {
		double to = below ? fmin(below->top_m, from) : -HUGE_VAL;
		p.bed = b;
		p.known = isnan(b->weight_nm3) && from > to ? SOIL_NO_WEIGHT : SOIL_KNOWN;
		if (p.known != SOIL_KNOWN)
			return p;
		if (from > to)
			p.total_pa += b->weight_nm3 * (from - fmax(to, elevation_m));
		from = to;
		if (to < elevation_m)
			break;
	}
	p.water_assumed = isnan(p.bed->water_m);
	p.pore_pa = pore_at(p.bed, elevation_m, ground_m);
	return p;
}

/* From the sheet's ground and soil to what the formula of cavity expansion is asked. */
#include "model/formation.h"

#include "base/measure.h"

#include <math.h>
#include <stdio.h>

struct formation_place sb_formation_place(double md_m, double station_m, struct vec3 at, struct vec3 heading)
{
	return (struct formation_place){ md_m, station_m, at.u, hypot(heading.n, heading.e) };
}

/* As in model/cover.c: the radius square to the hole, straight up; one that stands nearly upright has no top.
 */
static double crown(double hole_m, const struct formation_place *place)
{
	return hole_m / fmax(place->level, 0.2);
}

static enum formation_known of_soil(const struct soil_place *p)
{
	static const enum formation_known as[] = {
		[SOIL_KNOWN] = FORMATION_KNOWN,
		[SOIL_NO_LAYER] = FORMATION_NO_LAYER,
		[SOIL_NO_WEIGHT] = FORMATION_NO_WEIGHT,
		[SOIL_ABOVE] = FORMATION_ABOVE,
	};

	if (p->known != SOIL_KNOWN)
		return as[p->known];
	if (isnan(p->bed->cohesion_pa) && isnan(p->bed->friction_rad))
		return FORMATION_NO_STRENGTH;
	return p->bed->shear_pa > 0 ? FORMATION_KNOWN : FORMATION_NO_SHEAR; /* NAN too */
}

/* Where one of the two strengths is left out, the ground is taken to have none of it. */
static double or_none(double strength)
{
	return isnan(strength) ? 0 : strength;
}

static enum formation_known ask_cavity(const struct job *job, double hole_m, struct formation *f)
{
	const struct soil_bed *bed = f->soil.bed;
	bool clay = or_none(bed->cohesion_pa) > 0;

	f->share = clay ? job->clay_share.value : job->sand_share.value;
	f->cavity = (struct cavity){
		.pore_pa = f->soil.pore_pa,
		.stress_pa = f->soil.total_pa - f->soil.pore_pa,
		.cohesion_pa = or_none(bed->cohesion_pa),
		.friction_rad = or_none(bed->friction_rad),
		.shear_pa = bed->shear_pa,
		.hole_m = hole_m,
		.plastic_m = f->share * f->cover_m,
		.tension_pa = sb_number_given(&job->tension_cutoff)
			? sb_measure_si(job->unit, MEASURE_PRESSURE, job->tension_cutoff.value)
			: HUGE_VAL,
	};
	return sb_cavity_limit(&f->cavity, &f->limit) == CAVITY_OK ? FORMATION_KNOWN : FORMATION_AFLOAT;
}

struct formation sb_formation_at(
	const struct clearance_ask *ask, double hole_m, const struct formation_place *place)
{
	struct formation f = { .known = FORMATION_NO_HOLE };
	double slope;

	if (!(hole_m > 0))
		return f;
	f.known = FORMATION_NO_GROUND;
	if (!sb_cover_ground(&ask->around->ground, place->station_m, &f.ground_m, &slope))
		return f;
	f.cover_m = f.ground_m - place->elevation_m - crown(hole_m, place);
	f.known = FORMATION_ABOVE;
	if (!(f.cover_m > 0))
		return f;
	f.soil = sb_soil_at(&ask->around->soil, place->station_m, place->elevation_m, f.ground_m);
	f.known = ask->around->soil.count ? of_soil(&f.soil) : FORMATION_NO_SOIL;
	if (f.known == FORMATION_KNOWN)
		f.known = ask_cavity(ask->setup.job, hole_m, &f);
	return f;
}

void sb_formation_missing(const struct formation *f, char text[200])
{
	static const char *const lacks[] = {
		[FORMATION_NO_WEIGHT] = "unit_weight",
		[FORMATION_NO_STRENGTH] = "cohesion or friction",
		[FORMATION_NO_SHEAR] = "shear_modulus",
	};
	static const char *const words[] = {
		[FORMATION_KNOWN] = "",
		[FORMATION_NO_HOLE] = "[hole] pilot_diameter or the tool's diameter is missing",
		[FORMATION_NO_GROUND] = "ground.csv does not say where the ground is there",
		[FORMATION_ABOVE] = "the top of the hole is not under the ground",
		[FORMATION_NO_SOIL] = "the sheet has no soil.csv",
		[FORMATION_NO_LAYER] = "soil.csv has no layer there",
		[FORMATION_AFLOAT] = "by soil.csv the ground water carries all the ground above",
	};

	if (f->known == FORMATION_NO_WEIGHT || f->known == FORMATION_NO_STRENGTH ||
		f->known == FORMATION_NO_SHEAR)
		snprintf(text, 200, "layer '%.100s' has no %s in soil.csv", f->soil.bed->name,
			lacks[f->known]);
	else
		snprintf(text, 200, "%s", words[f->known]);
}

/* A billionth of a metre outside is arithmetic. */
bool sb_formation_judged(const struct setup *s, double station_m)
{
	const struct job *job = s->job;
	const struct number *from = sb_number_given(&job->fluid_from) ? &job->fluid_from : &job->cover_from;
	const struct number *to = sb_number_given(&job->fluid_to) ? &job->fluid_to : &job->cover_to;
	const double touch = 1e-9;

	return (!sb_number_given(from) || station_m >= sb_frame_metres(s->frame, from->value) - touch) &&
		(!sb_number_given(to) || station_m <= sb_frame_metres(s->frame, to->value) + touch);
}

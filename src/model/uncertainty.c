/* From the sheet's sigmas to metres beside the design line, row by row. */
#include "model/uncertainty.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>

/* What joint lengths err where the sheet is silent, as a share of the nominal length: a tape read to a
 * centimetre on a joint of ten metres. Common practice, no source. */
#define LENGTH_SHARE 0.001

static double radians(const struct number *degrees)
{
	return sb_rad(degrees->value);
}

/* From an azimuth of the path back to what a compass shows. */
static double to_magnetic(const struct job *job, const struct frame *f)
{
	if (job->reference == REFERENCE_BORE)
		return -f->azimuth_turn_rad;
	return radians(&job->convergence) - radians(&job->declination);
}

static double declination_sigma(const struct job *job)
{
	if (job->reference == REFERENCE_BORE)
		return 0;
	return sb_rad(hypot(
		job->declination_sigma.value, job->declination_by_field.value / job->horizontal_field.value));
}

static double length_sigma(const struct job *job)
{
	return sb_number_given(&job->sigma_depth) ? job->sigma_depth.value
						  : LENGTH_SHARE * job->joint_length.value;
}

void sb_uncertainty_begin(const struct setup *s, struct uncertainty *u)
{
	/* One tool's errors stand for the whole bore: those of the tool that reads now. */
	struct job now = sb_frame_settings(s->job, NULL);
	const struct job *job = &now;

	*u = (struct uncertainty){ .confidence = job->confidence.value / 100 };
	u->line_factor = sb_spread_line_factor(u->confidence);
	u->plane_factor = sb_spread_plane_factor(u->confidence);
	u->model.to_magnetic_rad = to_magnetic(job, s->frame);
	double *sigma = u->model.sigma;
	sigma[UNCERT_INCLINATION_BIAS] = radians(&job->bias_inclination);
	sigma[UNCERT_AZIMUTH_BIAS] = radians(&job->bias_azimuth);
	sigma[UNCERT_DECLINATION] = declination_sigma(job);
	sigma[UNCERT_INTERFERENCE] = job->string_field.value / job->horizontal_field.value;
	sigma[UNCERT_CARRIED_BIAS] = radians(&job->carried_bias);
	sigma[UNCERT_CARRIED_NOISE] = radians(&job->carried_noise);
	sigma[UNCERT_DEPTH_SCALE] = job->depth_scale.value;
	sigma[UNCERT_INCLINATION_NOISE] = s->frame->sigma_inc_rad;
	sigma[UNCERT_AZIMUTH_NOISE] = s->frame->sigma_azi_rad;
	sigma[UNCERT_DEPTH_NOISE] = sb_frame_metres(s->frame, job->reading_depth.value);
	sigma[UNCERT_LENGTH_NOISE] = sb_frame_metres(s->frame, length_sigma(job));
}

/* The covariance beside the design line. A place that moves along a sloping line has another height above it,
 * though it has not moved up: heights are measured at the place's own station. */
static struct doubt doubt_of(const struct setup *s, const struct sym3 *c, double station_m)
{
	struct design_place design = sb_design_at(s->design, station_m);
	double sine = sin(design.azi_rad), cosine = cos(design.azi_rad);
	double slope = -1 / tan(design.inc_rad);
	struct vec3 right = { -sine, cosine, 0 }, up = { -slope * cosine, -slope * sine, 1 };
	struct doubt d = {
		.along_m = sb_uncert_along(c, design.heading),
		.across_m = sb_uncert_along(c, right),
		.up_m = sb_uncert_along(c, up),
	};

	if (d.across_m > 0 && d.up_m > 0)
		d.correlation = fmin(fmax(sb_uncert_between(c, right, up) / (d.across_m * d.up_m), -1), 1);
	return d;
}

double sb_uncertainty_outside(const struct setup *s, const struct deviation *deviation, const struct doubt *d)
{
	struct corridor_limits l = sb_corridor_at(s->corridor, deviation->station_m);
	struct spread spread = { d->across_m * d->across_m, d->up_m * d->up_m,
		d->correlation * d->across_m * d->up_m };
	struct spread_box box = { -l.left_m, l.right_m, -l.down_m, l.up_m };

	return sb_spread_outside(deviation->offset_m, deviation->height_m, &spread, &box);
}

struct chance_limit sb_uncertainty_limit(const struct setup *s)
{
	double left = 1 - s->job->confidence.value / 100;

	if (s->job->judge == JUDGE_MEAN)
		return (struct chance_limit){ 1, 1 };
	return (struct chance_limit){ left, left * s->corridor->near };
}

/* The course that ends at the row. An entry that was not staked heads as its first reading says, error and
 * all. */
static void add_course(const struct uncertainty *u, const struct row *before, struct row *row)
{
	bool borrowed = before->joint == 0 && !before->taken;
	const struct attitude *start = borrowed ? &row->attitude : &before->attitude;
	struct uncert_station from = { start, before->survey_md_m, before->carried, borrowed };
	struct uncert_station to = { &row->attitude, row->survey_md_m, row->carried, false };
	struct arc arc;

	enum arc_status status = sb_arc_between(start, &row->attitude, row->course_m, &arc);
	assert(status != ARC_RANGE);
	(void)status;
	row->uncert =
		sb_uncert_next(&u->model, &before->uncert, &from, &to, &arc, row->joint - before->joint);
}

/* Arcs are the record, and the slides say that the hole lies elsewhere: by so much they are wrong, one sigma.
 */
static struct sym3 with_shift(struct sym3 c, struct vec3 shifted)
{
	return (struct sym3){ c.nn + shifted.n * shifted.n, c.ee + shifted.e * shifted.e,
		c.uu + shifted.u * shifted.u, c.ne + shifted.n * shifted.e, c.nu + shifted.n * shifted.u,
		c.eu + shifted.e * shifted.u };
}

/* of: the row, or the one that a place is carried on from. Behind a correction that rests on fixes, these
 * have told of the shift as well. */
static struct sym3 covariance(const struct setup *s, const struct uncertainty *u, int64_t reading,
	const struct row *of, double md_m, const struct uncert *at)
{
	if (u->better)
		return u->better(u->known, reading, md_m, at);
	struct sym3 c = sb_uncert_covariance(&u->model, at);
	return s->job->course == COURSE_BY_ARC ? with_shift(c, of->slides.shifted) : c;
}

void sb_uncertainty_row(
	const struct setup *s, const struct uncertainty *u, const struct row *before, struct row *row)
{
	row->uncert = before->uncert;
	row->doubt = before->doubt;
	row->outside = before->outside;
	if (!row->on_path)
		return;
	add_course(u, before, row);
	struct sym3 c = covariance(s, u, row->reading, row, row->survey_md_m, &row->uncert);
	row->doubt = doubt_of(s, &c, row->deviation.station_m);
	row->outside = sb_uncertainty_outside(s, &row->deviation, &row->doubt);
}

struct sym3 sb_uncertainty_place(const struct setup *s, const struct uncertainty *u, const struct row *row)
{
	return covariance(s, u, row->reading, row, row->survey_md_m, &row->uncert);
}

struct sym3 sb_uncertainty_carried(const struct setup *s, const struct uncertainty *u, const struct row *from,
	const struct attitude *held, double length_m)
{
	struct uncert_station sensor = { held, from->survey_md_m, from->carried, false };
	struct uncert_station ahead = { held, from->survey_md_m + length_m, from->carried, true };
	struct uncert at = from->uncert;
	struct arc arc;

	if (sb_arc_between(held, held, length_m, &arc) == ARC_OK)
		at = sb_uncert_next(&u->model, &from->uncert, &sensor, &ahead, &arc, 0);
	return covariance(s, u, 0, from, from->survey_md_m + length_m, &at);
}

struct doubt sb_uncertainty_ahead(const struct setup *s, const struct uncertainty *u, const struct row *from,
	const struct attitude *held, double length_m, double own_up_m, double own_right_m,
	const struct deviation *deviation)
{
	struct sym3 c = sb_uncertainty_carried(s, u, from, held, length_m);
	struct doubt d = doubt_of(s, &c, deviation->station_m);
	double across = hypot(d.across_m, own_right_m), up = hypot(d.up_m, own_up_m);
	/* what carrying on adds is its own: the part that goes together stays as large as it was */
	if (across > 0 && up > 0)
		d.correlation *= d.across_m / across * (d.up_m / up);
	d.across_m = across;
	d.up_m = up;
	return d;
}

/* The azimuth chain, the units and the scale, in one place.
 *
 *   reading + tool correction -> magnetic; + declination -> true; - convergence -> grid
 *   or: what the tool read on the staked centreline stands for the design bearing
 */
#include "model/frame.h"

#include "geom/angle.h"
#include "model/setting.h"

#include <math.h>
#include <stdlib.h>

/* The bearing of the alignment's first tangent, from grid coordinates. */
static int first_bearing(const struct job *job, double *bearing, struct sb_err *err)
{
	double from_e = job->entry.easting.value, from_n = job->entry.northing.value;
	double to_e = job->exit.easting.value, to_n = job->exit.northing.value;

	if (job->alignment_count >= 2) {
		from_e = job->alignment[0].easting.value;
		from_n = job->alignment[0].northing.value;
		to_e = job->alignment[1].easting.value;
		to_n = job->alignment[1].northing.value;
	}
	if (to_e == from_e && to_n == from_n)
		return sb_fail(err, SB_FORMAT, "%s are the same point: there is no line to drill along.",
			job->alignment_count >= 2 ? "alignment.csv: the first two points"
						  : "[control] entry and exit");
	*bearing = atan2(to_e - from_e, to_n - from_n);
	return 0;
}

static int need(const struct number *n, const char *key, const char *reference, struct sb_err *err)
{
	if (sb_number_given(n))
		return 0;
	return sb_fail(err, SB_FORMAT,
		"[azimuth] reference = %s needs %s: write it, and write 0 only if somebody looked it up and it is 0.",
		reference, key);
}

static double degrees_of(const struct number *n)
{
	return sb_rad(n->value);
}

static int azimuth_turn(const struct job *job, double bearing, double *turn, struct sb_err *err)
{
	double correction = degrees_of(&job->azimuth_correction);

	switch (job->reference) {
	case REFERENCE_GRID:
		*turn = correction;
		return 0;
	case REFERENCE_TRUE:
		*turn = correction - degrees_of(&job->convergence);
		return need(&job->convergence, "convergence", "true", err);
	case REFERENCE_MAGNETIC:
		*turn = correction + degrees_of(&job->declination) - degrees_of(&job->convergence);
		if (need(&job->declination, "declination", "magnetic", err))
			return -1;
		return need(&job->convergence, "convergence", "magnetic", err);
	case REFERENCE_BORE:
		break;
	}
	*turn = bearing - degrees_of(&job->bore_azimuth_read);
	return need(&job->bore_azimuth_read, "bore_azimuth_read", "bore", err);
}

int sb_frame_init(const struct job *job, struct frame *f, struct sb_err *err)
{
	struct frame made = {
		.metre = sb_unit_metres(job->unit),
		.scale = sb_number_given(&job->scale_factor) ? job->scale_factor.value : 1,
		.east0 = job->entry.easting.value,
		.north0 = job->entry.northing.value,
		.incline = job->incline,
		.sigma_inc_rad = degrees_of(&job->sigma_inclination),
		.sigma_azi_rad = degrees_of(&job->sigma_azimuth),
		.tool_face_offset_rad = degrees_of(&job->tool_face_offset),
		.convergence_rad =
			sb_number_given(&job->convergence) ? degrees_of(&job->convergence) : (double)NAN,
		.stretch = 1,
	};

	made.sensor_to_bit_m = job->sensor_to_bit.value * made.metre;
	if (first_bearing(job, &made.design_bearing_rad, err) ||
		azimuth_turn(job, made.design_bearing_rad, &made.azimuth_turn_rad, err))
		return -1;
	*f = made;
	return 0;
}

struct job sb_frame_settings(const struct job *job, const struct reading *r)
{
	struct job as = *job;

	for (size_t i = 0; i < job->change_count; i++) {
		const struct change *c = &job->changes[i];
		const struct setting *s = sb_setting(c->section, c->key);
		if (s && (r == NULL || sb_job_change_holds(job, c, r)))
			sb_setting_put(s, &as, c->value, NULL); /* it was looked at before it was kept */
	}
	return as;
}

static void adjust(const struct adjustment *a, struct frame *f)
{
	f->inc_add_rad = degrees_of(&a->inclination);
	f->azimuth_turn_rad += degrees_of(&a->azimuth);
	f->stretch = 1 + a->stretch.value;
}

void sb_frame_for(const struct job *job, const struct frame *base, const struct reading *r, struct frame *out)
{
	const struct adjustment *a = sb_job_adjustment(job);

	*out = *base;
	if (job->change_count == 0 && a == NULL)
		return;
	struct job as = sb_frame_settings(job, r);
	sb_frame_init(&as, out, NULL); /* a change that makes no frame is refused */
	if (a)
		adjust(a, out);
}

double sb_frame_metres(const struct frame *f, double typed)
{
	return typed * f->metre;
}

double sb_frame_typed(const struct frame *f, double metres)
{
	return metres / f->metre;
}

struct vec3 sb_frame_ground(const struct frame *f, double easting, double northing, double elevation)
{
	double k = f->metre / f->scale;

	return (struct vec3){ (northing - f->north0) * k, (easting - f->east0) * k, elevation * f->metre };
}

void sb_frame_grid(
	const struct frame *f, struct vec3 ground, double *easting, double *northing, double *elevation)
{
	double k = f->scale / f->metre;

	*easting = f->east0 + ground.e * k;
	*northing = f->north0 + ground.n * k;
	*elevation = ground.u / f->metre;
}

double sb_frame_inc(const struct frame *f, double typed)
{
	return sb_incline_radians(f->incline, typed) + f->inc_add_rad;
}

double sb_frame_azi(const struct frame *f, double typed)
{
	return sb_wrap_turn(sb_rad(typed) + f->azimuth_turn_rad);
}

double sb_frame_azi_by(const struct frame *f, enum azimuth_by by, double typed)
{
	switch (by) {
	case AZIMUTH_BY_GYRO:
		return sb_wrap_turn(sb_rad(typed) - (isnan(f->convergence_rad) ? 0 : f->convergence_rad));
	case AZIMUTH_BY_COIL:
		return sb_wrap_turn(sb_rad(typed));
	case AZIMUTH_BY_TOOL:
	case AZIMUTH_BY_HOLD:
		break;
	}
	return sb_frame_azi(f, typed);
}

double sb_frame_inc_typed(const struct frame *f, double radians)
{
	return sb_incline_typed(f->incline, radians - f->inc_add_rad);
}

double sb_frame_azi_typed(const struct frame *f, double radians)
{
	double degrees = sb_deg(sb_wrap_turn(radians - f->azimuth_turn_rad));

	return degrees >= 360 ? 0 : degrees;
}

double sb_frame_azi_typed_by(const struct frame *f, enum azimuth_by by, double radians)
{
	struct frame straight = *f;

	/* What sb_frame_azi_by adds to such a reading, in place of what a magnetic one is turned by. */
	if (by == AZIMUTH_BY_GYRO || by == AZIMUTH_BY_COIL)
		straight.azimuth_turn_rad = sb_frame_azi_by(f, by, 0);
	return sb_frame_azi_typed(&straight, radians);
}

bool sb_frame_azimuth_disagrees(const struct job *job, const struct frame *f, double *degrees)
{
	bool from_magnetic = job->reference == REFERENCE_MAGNETIC || job->reference == REFERENCE_BORE;
	bool from_true = from_magnetic || job->reference == REFERENCE_TRUE;
	if (!sb_number_given(&job->bore_azimuth_read) ||
		(from_magnetic && !sb_number_given(&job->declination)) ||
		(from_true && !sb_number_given(&job->convergence)))
		return false;
	double chain = job->bore_azimuth_read.value + job->azimuth_correction.value;
	if (from_magnetic)
		chain += job->declination.value;
	if (from_true)
		chain -= job->convergence.value;
	*degrees = sb_deg(sb_wrap_half(sb_rad(chain) - f->design_bearing_rad));
	return true;
}

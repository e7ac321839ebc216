/* From the tool's numbers to angles and totals, and to a verdict. */
#include "model/sixaxis.h"

#include "geom/angle.h"
#include "model/disturbance.h"

#include <math.h>

static const double agree =
	0.1; /* degrees: what is typed beside the vectors may differ by, rounding and all */

static const struct tool_unit *gravity_unit(const struct job *job)
{
	return &sb_gravity_units[job->gravity_unit];
}

static const struct tool_unit *field_unit(const struct job *job)
{
	return &sb_field_units[job->field_unit];
}

static int given_count(const struct reading *r)
{
	const struct number *const six[] = { &r->gravity_x, &r->gravity_y, &r->gravity_z, &r->field_x,
		&r->field_y, &r->field_z };
	int count = 0;

	for (size_t i = 0; i < 6; i++)
		count += sb_number_given(six[i]);
	return count;
}

bool sb_sixaxis_any(const struct reading *r)
{
	return given_count(r) > 0;
}

bool sb_sixaxis_all(const struct reading *r)
{
	return given_count(r) == 6;
}

/* In our axes, g and nT, freed from what a roll test found. */
static struct sensor_vectors vectors_of(const struct job *job, const struct reading *r)
{
	struct sensor_vectors tool = {
		.gravity = { r->gravity_x.value, r->gravity_y.value, r->gravity_z.value },
		.field = { r->field_x.value, r->field_y.value, r->field_z.value },
	};
	struct sensor_axes axes = AXES_OURS;

	sb_axes_parse(job->sensor_axes, &axes); /* the sheet holds no others */
	struct sensor_vectors v = sb_sensor_turn(&axes, &tool);
	v.gravity.x -= job->gravity_bias_x.value;
	v.gravity.y -= job->gravity_bias_y.value;
	v.field.x -= job->field_bias_x.value;
	v.field.y -= job->field_bias_y.value;
	v.gravity = sb_triad_scale(v.gravity, gravity_unit(job)->size);
	v.field = sb_triad_scale(v.field, field_unit(job)->size);
	return v;
}

static int fail_vectors(enum sensor_status status, struct sb_err *err)
{
	switch (status) {
	case SENSOR_NO_GRAVITY:
		return sb_fail(err, SB_RANGE,
			"The gravity vector has no length: its three sensors show nothing. Take the reading again.");
	case SENSOR_NO_FIELD:
		return sb_fail(err, SB_RANGE,
			"The field vector has no length: its three sensors show nothing. Take the reading again.");
	case SENSOR_PLUMB:
		return sb_fail(err, SB_RANGE,
			"By these vectors the hole is straight up or down, where there is no azimuth. Are the tool's axes right ([tool] sensor_axes)?");
	case SENSOR_POLAR:
		return sb_fail(err, SB_RANGE,
			"By these vectors the field is straight up or down, and shows no azimuth. Read it by gyro.");
	case SENSOR_OK:
	case SENSOR_ALONG:
	case SENSOR_RANGE:
		break;
	}
	return sb_fail(err, SB_RANGE, "The vectors hold a number that cannot be. Take the reading again.");
}

/* What is typed stands. That it says something else than the vectors do takes a reason. */
static int settle(struct number *typed, double worked_out, int decimals, double wrap, const char *what,
	bool reason, struct sb_err *err)
{
	if (!sb_number_given(typed)) {
		*typed = sb_number_of(worked_out, decimals);
		if (wrap > 0 && typed->value >= wrap)
			*typed = sb_number_of(0, decimals);
		return 0;
	}
	double off =
		wrap > 0 ? fabs(remainder(typed->value - worked_out, wrap)) : fabs(typed->value - worked_out);
	if (off <= agree || reason)
		return 0;
	return sb_fail(err, SB_HELD,
		"%s %s was typed, but the vectors say %.*f. Leave it out, or look at the tool's axes, units and convention.",
		what, typed->text, decimals, worked_out);
}

static int put_angles(
	const struct job *job, const struct sensor_attitude *a, struct reading *r, struct sb_err *err)
{
	double inclination = sb_incline_typed(job->incline, a->inc_rad);
	struct number face = r->tool_face;
	bool reason = r->reason[0] != '\0';

	if (settle(&r->inclination, inclination, 2, 0, "Inclination", reason, err) ||
		settle(&r->azimuth, sb_deg(a->azi_rad), 2, 360, "Azimuth", reason, err))
		return -1;
	/* The tool face of a reading is that of the slide only where somebody slid and said no other. */
	if (!sb_number_given(&face) && r->slid.value > 0 && a->face_known)
		r->tool_face = sb_number_of(fmod(sb_deg(a->face_rad) + 360, 360), 1);
	return 0;
}

static void put_totals(const struct job *job, const struct sensor_attitude *a, struct reading *r)
{
	if (!sb_number_given(&r->total_gravity))
		r->total_gravity =
			sb_number_of(a->gravity / gravity_unit(job)->size, gravity_unit(job)->decimals);
	if (!sb_number_given(&r->total_field))
		r->total_field = sb_number_of(a->field / field_unit(job)->size, field_unit(job)->decimals);
	if (!sb_number_given(&r->dip))
		r->dip = sb_number_of(sb_deg(a->dip_rad), 2);
}

int sb_sixaxis_fill(const struct job *job, struct reading *r, struct sb_err *err)
{
	struct sensor_attitude a;

	if (!sb_sixaxis_any(r))
		return 0;
	if (!sb_sixaxis_all(r))
		return sb_fail(err, SB_RANGE,
			"%d of the six components of gravity and field are given: all of them are needed, or none.",
			given_count(r));
	struct sensor_vectors v = vectors_of(job, r);
	struct sixaxis_verdict units;
	struct reading trial = *r;
	enum sensor_status status = sb_sensor_attitude(&v, &a);
	if (status != SENSOR_OK && status != SENSOR_ALONG)
		return fail_vectors(status, err);
	put_totals(job, &a, &trial);
	/* numbers in another unit, or exchanged, are held until somebody says why they are logged all the
	 * same */
	if (r->reason[0] == '\0' && sb_sixaxis_judge(job, &trial, &units) &&
		(units.field.cause == CAUSE_GRAVITY_UNIT || units.field.cause == CAUSE_FIELD_UNIT ||
			units.field.cause == CAUSE_EXCHANGED))
		return sb_fail(err, SB_HELD, "%.400s", units.field.text);
	if (put_angles(job, &a, &trial, err))
		return -1;
	*r = trial;
	return 0;
}

/* A typed number in g, nT or rad; else what stands for it. */
static double typed_or(bool given, const struct number *n, double size, double other)
{
	return given ? n->value * size : other;
}

static void estimate_turn(
	const struct sensor_vectors *v, const struct field_reference *reference, struct sixaxis_verdict *out)
{
	struct disturbance d;
	enum sensor_status status = sb_disturbance(v, reference, &d);

	if (status != SENSOR_OK && status != SENSOR_ALONG)
		return;
	out->may_turn_rad = d.along && d.telling ? fabs(d.turned_rad) : d.may_turn_rad;
}

bool sb_sixaxis_judge(const struct job *job, const struct reading *r, struct sixaxis_verdict *out)
{
	bool field = sb_number_given(&r->total_field), site_field = sb_number_given(&job->site_field);
	bool dip = sb_number_given(&r->dip) && sb_number_given(&job->site_dip);
	bool gravity = sb_number_given(&r->total_gravity);
	double g = gravity_unit(job)->size, nt = field_unit(job)->size, none = (double)NAN;
	struct field_reading reading = {
		.gravity_g = typed_or(gravity, &r->total_gravity, g, none),
		.field_nt = typed_or(field, &r->total_field, nt, none),
		.dip_rad = typed_or(dip, &r->dip, sb_rad(1), none),
		.gravity = gravity_unit(job),
		.field = field_unit(job),
	};
	/* Where the sheet names no field, the earth's own bounds are all there is; without a dip any will do.
	 */
	struct field_reference reference = {
		.gravity_g = typed_or(sb_number_given(&job->site_gravity), &job->site_gravity, g, 1),
		.field_nt = typed_or(site_field, &job->site_field, nt, none),
		.dip_rad = typed_or(dip, &job->site_dip, sb_rad(1), sb_rad(60)),
		.sigma_field_nt = job->field_gate.value / 2,
		.sigma_dip_rad = sb_rad(job->dip_gate.value) / 2,
	};
	struct field_gates gates = { job->gravity_gate.value, job->field_gate.value,
		sb_rad(job->dip_gate.value) };

	if (!gravity && !field && !dip)
		return false;
	if (field && site_field && dip && sb_sixaxis_all(r)) {
		reading.has_vectors = true;
		reading.vectors = vectors_of(job, r);
	}
	*out = (struct sixaxis_verdict){ .may_turn_rad = (double)NAN };
	out->field = sb_field_judge(&reading, &reference, &gates);
	if (out->field.cause == CAUSE_STEEL && reading.has_vectors)
		estimate_turn(&reading.vectors, &reference, out);
	return true;
}

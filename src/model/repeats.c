/* Readings taken again: compared, never averaged. */
#include "model/repeats.h"

#include "geom/angle.h"

#include <math.h>

static const double far = 3; /* sigmas; one pair in some 400 by chance */

/* The frame that the repeat was read in: as a joint logged by the same act would be. */
static void frame_of(const struct job *job, const struct solution *s, const struct repeat *r, struct frame *f)
{
	const struct reading as = { .leg = r->fact.leg, .joint = r->fact.joint + 1, .logged = r->fact.act };

	sb_frame_for(job, &s->frame, &as, f);
}

struct repeat_difference sb_repeat_compare(
	const struct job *job, const struct solution *s, const struct repeat *r)
{
	struct repeat_difference d = { .azi_rad = (double)NAN, .agrees = true };
	struct frame f;
	struct vec3 heading;
	double inc, azi, two = sqrt(2);

	frame_of(job, s, r, &f);
	d.joint = sb_path_at(&s->path, sb_frame_metres(&f, r->depth.value), NULL, &heading);
	sb_vec3_attitude(heading, &inc, &azi);
	d.inc_rad = sb_frame_inc(&f, r->inclination.value) - inc;
	d.inc_sigma_rad = two * f.sigma_inc_rad;
	d.azi_sigma_rad = two * f.sigma_azi_rad;
	if (sb_number_given(&r->azimuth))
		d.azi_rad = sb_wrap_half(sb_frame_azi(&f, r->azimuth.value) - azi);
	d.agrees = fabs(d.inc_rad) <= far * d.inc_sigma_rad &&
		(isnan(d.azi_rad) || fabs(d.azi_rad) <= far * d.azi_sigma_rad);
	return d;
}

static void add_angle(struct sb_str *words, const char *what, double rad)
{
	double degrees = sb_deg(fabs(rad));

	if (degrees < 0.005)
		sb_str_add(words, "%s the same", what);
	else
		sb_str_add(words, "%s %.2f deg %s", what, degrees, rad > 0 ? "more" : "less");
}

void sb_repeat_words(
	const struct job *job, const struct solution *s, const struct repeat *r, struct sb_str *words)
{
	struct repeat_difference d = sb_repeat_compare(job, s, r);

	sb_str_add(words, "Joint %d, sensor at %s %s, read %s. Against the path there: ", d.joint,
		r->depth.text, sb_unit_short(job->unit), r->way == WAY_OUT ? "on the way out" : "again");
	add_angle(words, "inclination", d.inc_rad);
	if (!isnan(d.azi_rad)) {
		sb_str_add(words, ", ");
		add_angle(words, "azimuth", d.azi_rad);
	}
	sb_str_add(words, ". %s",
		d.agrees
			? "The noise of two readings explains that; the path stays as it is."
			: "That is more than the noise of two readings explains: take it once more, with the string still and the pumps off, and look for steel nearby. The path stays as it is.");
}

struct repeat_noise sb_repeat_noise(const struct job *job, const struct solution *s)
{
	struct repeat_noise n = { .inc_count = 0 };
	double inc = 0, azi = 0;

	for (size_t i = 0; i < job->repeat_count; i++) {
		struct repeat_difference d = sb_repeat_compare(job, s, &job->repeats[i]);
		inc += d.inc_rad * d.inc_rad / 2;
		n.inc_count++;
		if (isnan(d.azi_rad))
			continue;
		azi += d.azi_rad * d.azi_rad / 2;
		n.azi_count++;
	}
	n.inc_rad = n.inc_count > 1 ? sqrt(inc / n.inc_count) : (double)NAN;
	n.azi_rad = n.azi_count > 1 ? sqrt(azi / n.azi_count) : (double)NAN;
	return n;
}

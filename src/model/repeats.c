/* Readings taken again: compared, never averaged. */
#include "model/repeats.h"

#include "geom/angle.h"
#include "geom/odds.h"

#include <math.h>

static const double far = 3; /* sigmas; one pair in some 400 by chance */
/* A depth is typed to the hundredth: where two joints meet, it is the one that ends there that was read. */
static const double touch_m = 0.01;

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
	double md = sb_frame_metres(&f, r->depth.value);
	sb_path_at(&s->path, md, NULL, &heading);
	d.joint = sb_path_at(&s->path, fmax(md - touch_m, 0), NULL, NULL);
	d.stands = r->fact.act == 0 || s->path.rows[d.joint].leg <= r->fact.leg;
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

	sb_str_add(words, "Joint %d, sensor at %s %s, read %s: ", d.joint, r->depth.text,
		sb_unit_short(job->unit), r->way == WAY_OUT ? "on the way out" : "again");
	if (!d.stands) {
		sb_str_add(words, "the hole there was given up since, and drilled again.");
		return;
	}
	sb_str_add(words, "against the path there ");
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

/* Of all that was read at one place, the path's reading among it, the sum of squares about their mean: with
 * the differences d from the path, sum d^2 - (sum d)^2 / (k + 1). It has k degrees of freedom. */
struct scatter {
	double sum, squares;
	int count;
};

static void take(struct scatter *s, double difference)
{
	if (isnan(difference))
		return;
	s->sum += difference;
	s->squares += difference * difference;
	s->count++;
}

static double about_mean(const struct scatter *s)
{
	return s->squares - s->sum * s->sum / (s->count + 1);
}

static bool same_place(const struct repeat *a, const struct repeat *b)
{
	return a->depth.value == b->depth.value;
}

static bool first_there(const struct job *job, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (same_place(&job->repeats[k], &job->repeats[i]))
			return false;
	return true;
}

struct repeat_noise sb_repeat_noise(const struct job *job, const struct solution *s)
{
	struct repeat_noise n = { .inc_count = 0 };
	double inc = 0, azi = 0;

	for (size_t i = 0; i < job->repeat_count; i++) {
		struct scatter at_inc = { 0 }, at_azi = { 0 };
		for (size_t k = i; first_there(job, i) && k < job->repeat_count; k++) {
			if (!same_place(&job->repeats[k], &job->repeats[i]))
				continue;
			struct repeat_difference d = sb_repeat_compare(job, s, &job->repeats[k]);
			take(&at_inc, d.stands ? d.inc_rad : (double)NAN);
			take(&at_azi, d.stands ? d.azi_rad : (double)NAN);
		}
		inc += about_mean(&at_inc);
		azi += about_mean(&at_azi);
		n.inc_count += at_inc.count;
		n.azi_count += at_azi.count;
	}
	n.inc_rad = n.inc_count > 1 ? sqrt(inc / n.inc_count) : (double)NAN;
	n.azi_rad = n.azi_count > 1 ? sqrt(azi / n.azi_count) : (double)NAN;
	return n;
}

/* One sentence on one angle, where chance does not explain the difference. */
static bool say_noise(struct sb_str *words, const char *angle, double noise_rad, int count, double sheet_rad)
{
	const double unlikely = 1.0 / 200;
	const int few = 3;

	if (count <= few || !(sheet_rad > 0))
		return false;
	double chance = sb_odds_chi_square(count * (noise_rad / sheet_rad) * (noise_rad / sheet_rad), count);
	if (chance >= unlikely && chance <= 1 - unlikely)
		return false;
	sb_str_add(words,
		"%sRepeats show %s noise of %.2f deg (from %d differences) where the sheet's sigma_%s is %.2f: %s "
		"than chance explains. %s",
		words->length ? " " : "", angle, sb_deg(noise_rad), count, angle, sb_deg(sheet_rad),
		chance < unlikely ? "more" : "less",
		chance < unlikely ? "Take readings with the string still, or change the sigma: all that is "
				    "said of doubt rests on it."
				  : "The sigma may be changed: doubts are said larger than they are.");
	return true;
}

bool sb_repeat_noise_words(const struct job *job, const struct solution *s, struct sb_str *words)
{
	struct repeat_noise n = sb_repeat_noise(job, s);
	bool said = say_noise(words, "inclination", n.inc_rad, n.inc_count, s->frame.sigma_inc_rad);

	return say_noise(words, "azimuth", n.azi_rad, n.azi_count, s->frame.sigma_azi_rad) || said;
}

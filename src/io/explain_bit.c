/* The bit, carried on from the sensor behind it, and how sure its place is. */
#include "geom/angle.h"
#include "io/rows.h"

#include <math.h>

#include "explain_parts.h"

bool explain_held(const struct explaining *x, size_t *from, struct attitude *held)
{
	bool staked = sb_number_given(&x->job->entry_inclination) && sb_number_given(&x->job->entry_azimuth);

	*from = explain_before(x, x->trail_count);
	*held = explain_attitude(x, *from);
	if (*from > 0 || staked)
		return true;
	/* read while the sensor was behind the entry: it says where the hole heads, though not where it is */
	for (size_t i = x->trail_count; i-- > 1;)
		if (x->trail[i]->taken) {
			*held = explain_attitude(x, i);
			return true;
		}
	return false;
}

static bool last_arc(const struct explaining *x, size_t from, struct arc *arc)
{
	if (from == 0)
		return false;
	*arc = explain_course(x, from).arc;
	return arc->dogleg_rad > 0 && arc->length_m > 0;
}

struct explain_bit explain_bit_place(const struct explaining *x)
{
	struct explain_bit b = { 0 };
	struct vec3 step, heading;
	double inc, azi;

	b.known = explain_held(x, &b.from, &b.held);
	b.sensor = explain_place(x, b.from);
	b.gap_m = x->bit_depth_m[x->trail_count - 1] - fmax(explain_survey_depth(x, b.from), 0);
	b.bends = last_arc(x, b.from, &b.arc);
	struct vec3 straight = sb_vec3_scale(b.held.heading, b.gap_m), curved = straight;
	heading = b.held.heading;
	if (b.bends) {
		struct vec3 bent;
		sb_arc_at(&b.arc, b.arc.length_m + b.gap_m, &step, &bent);
		curved = sb_vec3_sub(step, b.arc.step);
		heading = x->job->projection == PROJECTION_CURVE ? bent : heading;
	}
	b.apart_m = sb_vec3_length(sb_vec3_sub(curved, straight));
	b.at = sb_vec3_add(b.sensor, x->job->projection == PROJECTION_CURVE ? curved : straight);
	sb_vec3_attitude(heading, &inc, &azi);
	b.attitude = sb_attitude(inc, azi);
	b.deviation = sb_deviation(&x->s->design, b.at, NULL, x->trail[b.from]->deviation.station_m);
	return b;
}

static void put_sensor(struct explaining *x, const struct explain_bit *b)
{
	char where[EXPLAIN_WHERE];
	const struct row *from = x->trail[b->from];
	const struct reading *r = from->reading ? sb_job_reading(x->job, from->reading) : NULL;

	explain_input(x, "n", AS_LENGTH, b->sensor.n,
		"north of the entry, of the sensor at the last reading: %s", explain_reading(from, r, where));
	explain_input(x, "e", AS_LENGTH, b->sensor.e, "east of the entry, likewise");
	explain_input(x, "z", AS_LENGTH, b->sensor.u, "elevation, likewise");
	explain_input(x, "i", AS_ANGLE, b->held.inc_rad, "heading there, from straight down");
	explain_input(x, "a", AS_ANGLE, b->held.azi_rad, "from grid north");
	explain_input(x, "g", AS_LENGTH, b->gap_m,
		"from the sensor to the bit: bit depth %.3f less %.3f (explain depth)",
		sb_frame_typed(&x->s->frame, x->bit_depth_m[x->trail_count - 1]),
		sb_frame_typed(&x->s->frame, fmax(explain_survey_depth(x, b->from), 0)));
	explain_choice(x, "projection", x->job->projection == PROJECTION_CURVE ? "curve" : "hold", "%s",
		explain_key(x, "tool", "projection", where));
}

void explain_bit(struct explaining *x)
{
	struct explain_bit b = explain_bit_place(x);
	const struct bit *kept = &x->s->bit;
	const struct frame *f = &x->s->frame;

	explain_words(x, EXPLAIN_FORMULA,
		x->job->projection == PROJECTION_CURVE
			? "bit = sensor + g further along the circle of the last course"
			: "bit = sensor + g (sin i cos a north, sin i sin a east, -cos i up)");
	put_sensor(x, &b);
	if (!b.known)
		explain_words(x, EXPLAIN_NOTE,
			"Nothing was read yet, and nothing staked at the entry: the design's heading stands for it, and the screen gives no answer.");
	explain_step(x, "bit n", AS_LENGTH, b.at.n, "north of the entry");
	explain_step(x, "bit e", AS_LENGTH, b.at.e, "east of the entry");
	explain_step(x, "bit z", AS_LENGTH, b.at.u, "elevation");
	explain_step(x, "apart", AS_LENGTH, b.apart_m, "so far the other way (%s) puts it from there",
		x->job->projection == PROJECTION_CURVE ? "the heading held" : "the last curve going on");
	explain_result(x, "depth", AS_LENGTH, x->bit_depth_m[x->trail_count - 1], kept->md_m, "of the bit");
	explain_result(x, "station", AS_LENGTH, b.deviation.station_m, kept->deviation.station_m,
		"along the design (as explain station does it for the sensor)");
	explain_result(x, "offset", AS_LENGTH, b.deviation.offset_m, kept->deviation.offset_m, "%s",
		b.deviation.offset_m < 0 ? "left" : "right");
	explain_result(x, "height", AS_LENGTH, b.deviation.height_m, kept->deviation.height_m, "%s",
		b.deviation.height_m < 0 ? "low" : "high");
	explain_result(x, "inclination", AS_NUMBER, sb_frame_inc_typed(f, b.attitude.inc_rad),
		sb_frame_inc_typed(f, kept->attitude.inc_rad), "in the job's convention (%s)",
		sb_incline_mark(x->job->incline));
	explain_result(x, "azimuth", AS_NUMBER, sb_frame_azi_typed(f, b.attitude.azi_rad),
		sb_frame_azi_typed(f, kept->attitude.azi_rad), "as the tool would read it (deg)");
	struct corridor_limits l = sb_corridor_at(&x->s->corridor, b.deviation.station_m);
	struct corridor_use use = sb_corridor_use(&l, b.deviation.offset_m, b.deviation.height_m);
	explain_result(x, "share", AS_NUMBER, use.share, kept->use.share, "of the corridor, at the bit: %s",
		sb_side_word(use.side));
	explain_words(x, EXPLAIN_NOTE,
		"The bit was not measured: what the hole did since the reading is not in it (explain bit-give-or-take).");
	explain_words(x, EXPLAIN_SOURCE,
		"common practice, no source; the circle: minimum curvature (explain northing)");
}

/* ---- how sure ---- */

/* The doubt of the sensor's place and heading, carried to the bit. */
static struct doubt carried(const struct explaining *x, const struct explain_bit *b)
{
	const struct row *from = x->trail[b->from];
	double begin = explain_survey_depth(x, b->from);
	struct uncert at = explain_sums(x, &x->s->uncertainty.model);
	struct uncert_station sensor = { &b->held, begin, from->carried, false };
	struct uncert_station bit = { &b->held, begin + b->gap_m, from->carried, true };
	struct arc arc;

	if (sb_arc_between(&b->held, &b->held, b->gap_m, &arc) == ARC_OK)
		at = sb_uncert_next(&x->s->uncertainty.model, &at, &sensor, &bit, &arc, 0);
	struct sym3 c = explain_covariance(x, from, 0, begin + b->gap_m, &at);
	struct explain_beside beside = explain_beside(x, b->deviation.station_m);
	return explain_doubt(&c, &beside);
}

void explain_bit_give(struct explaining *x)
{
	const struct setup setup = { x->job, &x->then, &x->s->design, &x->s->corridor };
	struct explain_bit b = explain_bit_place(x);
	const struct bit *kept = &x->s->bit;
	double up, right, begin = fmax(explain_survey_depth(x, b.from), 0), bend = 0;
	struct doubt d = carried(x, &b);

	explain_words(x, EXPLAIN_FORMULA,
		"sigma^2 = (what the readings may err, carried on)^2 + (what the hole may have turned since, times g/2)^2");
	explain_step(x, "along", AS_LENGTH, d.along_m,
		"one sigma from the readings, carried on to the bit (terms: explain give-or-take)");
	explain_step(x, "across", AS_LENGTH, d.across_m, "likewise across");
	explain_step(x, "in height", AS_LENGTH, d.up_m, "likewise in height");
	sb_response_unsure(&setup, &x->s->path, &x->s->response, begin, begin + b.gap_m, &up, &right);
	explain_input(x, "g", AS_LENGTH, b.gap_m, "from the sensor to the bit");
	explain_step(x, "turned up", AS_ANGLE, up,
		"one sigma of what the hole may have turned up or down over g: slides as written, the ground's response and its own wandering (explain slide-turn)");
	explain_step(x, "turned right", AS_ANGLE, right, "likewise to the sides");
	if (x->job->projection == PROJECTION_CURVE && b.from > 0) {
		const struct row *from = x->trail[b.from];
		bend = from->course_m > 0 ? from->dogleg_sigma_rad * b.gap_m / from->course_m : 0;
		explain_step(x, "curve", AS_ANGLE, bend,
			"a curve that goes on repeats the noise of its two readings");
	}
	double own_across = hypot(right, bend) * b.gap_m / 2, own_up = hypot(up, bend) * b.gap_m / 2;
	struct doubt all = { d.along_m, hypot(d.across_m, own_across), hypot(d.up_m, own_up), d.correlation };
	if (all.across_m > 0 && all.up_m > 0)
		all.correlation *= d.across_m / all.across_m * (d.up_m / all.up_m);
	explain_result(
		x, "sigma_along", AS_LENGTH, all.along_m, kept->doubt.along_m, "one sigma along the design");
	explain_result(x, "sigma_across", AS_LENGTH, all.across_m, kept->doubt.across_m, "of the offset");
	explain_result(x, "sigma_up", AS_LENGTH, all.up_m, kept->doubt.up_m, "of the height");
	explain_outside(x, &b.deviation, &all, kept->outside);
	explain_step(x, "k", AS_NUMBER, x->s->uncertainty.line_factor,
		"sigmas of give or take, at %s %%: the screen says k sigma", x->job->confidence.text);
	explain_words(x, EXPLAIN_SOURCE,
		"readings as explain give-or-take; half the turn over the length, in the mean: derived");
}

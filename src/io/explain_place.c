/* Where a joint is, by minimum curvature: course by course from the entry. */
#include "geom/angle.h"

#include <math.h>

#include "explain_parts.h"

#define SOURCE_ARC \
	"minimum curvature: Taylor and Mason, SPE 3362 (1972); Zaremba, SPE 3664 (1973); with the angle from half-angle sines"

/* The same place by chords: each course as long as the chord of its arc, along the middle of its two
 * headings. */
static struct vec3 place_by_chords(const struct explaining *x, size_t last)
{
	struct vec3 at = { 0, 0, sb_frame_metres(&x->s->frame, x->job->entry.elevation.value) };

	for (size_t i = 1; i <= last; i++) {
		if (!x->trail[i]->on_path)
			continue;
		struct explain_course c = explain_course(x, i);
		struct vec3 middle = sb_vec3_add(c.start.heading, c.end.heading);
		double half = sb_vec3_angle(c.start.heading, c.end.heading) / 2;
		double chord = c.length_m * (half > 0 ? sin(half) / half : 1) * c.stretch;
		at = sb_vec3_add(at, sb_vec3_scale(middle, chord / sb_vec3_length(middle)));
		at = sb_vec3_add(at, c.shift);
	}
	return at;
}

static void put_course(struct explaining *x, const struct explain_course *c)
{
	char where[EXPLAIN_WHERE];
	const struct row *from = x->trail[c->from];

	explain_input(x, "i1", AS_ANGLE, c->start.inc_rad, "%s",
		c->borrowed ? "nothing was staked at the entry: this reading's stands for it"
			    : explain_reading(from,
				      from->reading ? sb_job_reading(x->job, from->reading) : NULL, where));
	explain_input(x, "a1", AS_ANGLE, c->start.azi_rad, "from grid north, of the same (explain azimuth)");
	explain_input(x, "i2", AS_ANGLE, c->end.inc_rad, "%s", explain_reading(x->row, x->r, where));
	explain_input(x, "a2", AS_ANGLE, c->end.azi_rad, "from grid north, of the same");
	explain_input(x, "L", AS_LENGTH, c->length_m, "survey depth %.3f less %.3f (explain depth)",
		sb_frame_typed(&x->s->frame, explain_survey_depth(x, c->to)),
		sb_frame_typed(&x->s->frame, explain_survey_depth(x, c->from)));
}

/* Which of the three coordinates is asked for. */
struct axis_of {
	const char *column, *step; /* "northing", "north" */
	double (*ground)(struct vec3 v);
	bool plan; /* a grid coordinate: scaled */
};

static double north_of(struct vec3 v)
{
	return v.n;
}
static double east_of(struct vec3 v)
{
	return v.e;
}
static double up_of(struct vec3 v)
{
	return v.u;
}

static double coordinate(const struct explaining *x, const struct axis_of *a, struct vec3 at)
{
	double easting, northing, elevation;

	sb_frame_grid(&x->s->frame, at, &easting, &northing, &elevation);
	return sb_frame_metres(&x->s->frame,
		a->ground == north_of	       ? northing
			: a->ground == east_of ? easting
					       : elevation);
}

/* The last course, step by step. */
static void put_steps(struct explaining *x, const struct axis_of *a, const struct explain_course *c)
{
	double b = c->dogleg_rad, ratio = b > 0 ? tan(b / 2) / (b / 2) : 1;

	put_course(x, c);
	explain_step(x, "b", AS_ANGLE, b, "angle between the two headings (explain dogleg)");
	explain_step(x, "RF", AS_NUMBER, ratio, "tan(b/2) / (b/2)");
	explain_step(x, "t1", AS_NUMBER, a->ground(c->start.heading),
		"the part of the first heading that goes %s", a->step);
	explain_step(x, "t2", AS_NUMBER, a->ground(c->end.heading), "of the second");
	explain_step(x, "step", AS_LENGTH,
		c->stretch * c->length_m / 2 * ratio *
			(a->ground(c->start.heading) + a->ground(c->end.heading)),
		"L/2 (t1 + t2) RF: this course goes so far %s%s", a->step,
		c->stretch == 1 ? "" : ", with the stretch of the correction by fixes");
	if (x->job->course == COURSE_BY_SLIDES)
		explain_step(x, "slides", AS_LENGTH, a->ground(c->shift),
			"what this course's slides and rotations shift it %s; by slides is the record ([survey] course)",
			a->step);
}

static void put_position(struct explaining *x, const struct axis_of *a)
{
	const struct number *entry = a->ground == north_of ? &x->job->entry.northing
		: a->ground == east_of			   ? &x->job->entry.easting
							   : &x->job->entry.elevation;
	size_t i = x->trail_count - 1;
	struct vec3 at = explain_place(x, i);
	double result = coordinate(x, a, at), kept = coordinate(x, a, x->row->at);

	explain_words(x, EXPLAIN_FORMULA,
		a->plan ? "%s = entry + k (sum of steps %s)" : "%s = entry + sum of steps %s", a->column,
		a->step);
	explain_words(x, EXPLAIN_FORMULA,
		"step = L/2 (t1 + t2) RF;  t = (sin i cos a north, sin i sin a east, -cos i up)");
	explain_typed(x, "entry", entry, sb_unit_short(x->job->unit), "[control] entry, job sheet; %s",
		a->plan ? x->job->crs : x->job->vertical_datum);
	if (a->plan)
		explain_input(x, "k", AS_NUMBER, x->s->frame.scale,
			"grid over ground, [azimuth] scale_factor, job sheet");
	if (i > 0) {
		struct explain_course c = explain_course(x, i);
		put_steps(x, a, &c);
		struct vec3 before = explain_place(x, c.from);
		explain_step(x, "before", AS_LENGTH, coordinate(x, a, before),
			"%s at joint %d, from the courses before it (explain --joint %d)", a->column,
			x->trail[c.from]->joint, x->trail[c.from]->joint);
		explain_step(x, "sum", AS_LENGTH,
			a->ground(at) - (a->plan ? 0 : sb_frame_metres(&x->s->frame, entry->value)),
			"all courses from the entry, in the ground, %s", a->step);
	}
	explain_result(
		x, a->column, AS_LENGTH, result, kept, "at the sensor%s", i ? "" : ": the entry, as staked");
	if (i > 0)
		explain_check(x, AS_LENGTH, coordinate(x, a, place_by_chords(x, i)), result,
			"all courses laid again along their chords: L sin(b/2) / (b/2), the angle from the headings' vectors");
	explain_words(x, EXPLAIN_SOURCE, SOURCE_ARC);
}

void explain_northing(struct explaining *x)
{
	put_position(x, &(struct axis_of){ "northing", "north", north_of, true });
}

void explain_easting(struct explaining *x)
{
	put_position(x, &(struct axis_of){ "easting", "east", east_of, true });
}

void explain_elevation(struct explaining *x)
{
	put_position(x, &(struct axis_of){ "elevation", "up", up_of, false });
}

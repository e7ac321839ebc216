/* Headings at past readings, smoothed: a reading is noisy, but what was drilled since, and how the hole
 * headed then, tell of it too. The filter keeps the heading at the last reading only; here the readings
 * before it are gone through once more, each axis by itself, with the response as it is known now: forward by
 * the filter's equations, backward by those of Rauch, Tung and Striebel (1965, "Maximum likelihood estimates
 * of linear dynamic systems", AIAA Journal 3). What a window has turned in the ground already is taken from
 * these.
 */
#include "response_filter.h"

#include "base/mem.h"
#include "geom/angle.h"

#include <math.h>
#include <string.h>

/* Readings before those that are asked for: what is known of the heading there no longer matters. */
enum { RUN_IN = 12 };

/* One reading on one axis; angles count from the first reading of the run. */
struct knot {
	double read, read_var;	   /* HUGE_VAL: not read */
	double turn, turn_var;	   /* that the course to it should have brought */
	double before, before_var; /* ahead of the reading */
	double after, after_var;   /* with it */
};

static void forward(struct knot *k, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		k[i].before = i ? k[i - 1].after + k[i].turn : k[i].read;
		k[i].before_var = i ? k[i - 1].after_var + k[i].turn_var : k[i].read_var;
		double gain = i ? k[i].before_var / (k[i].before_var + k[i].read_var) : 0;
		k[i].after = k[i].before + gain * (k[i].read - k[i].before);
		k[i].after_var = (1 - gain) * k[i].before_var;
	}
}

/* From the last knot, which the filter knows best, back. tie: as in struct smoothed. */
static void backward(struct knot *k, size_t count, double *tie)
{
	tie[count - 1] = 1;
	for (size_t i = count - 1; i-- > 0;) {
		double gain = k[i].after_var / k[i + 1].before_var;
		k[i].after += gain * (k[i + 1].after - k[i + 1].before);
		k[i].after_var += gain * gain * (k[i + 1].after_var - k[i + 1].before_var);
		tie[i] = gain * tie[i + 1];
	}
}

/* The run of knots of both axes that ends with the last reading, oldest first. */
static void lay_knots(const struct setup *s, const struct path *p, const struct response *r, size_t count,
	struct knot *knots[2])
{
	for (size_t i = 0; i < count; i++) {
		const struct row *to = sb_path_back(p, count - 1 - i);
		const struct reading *reading = sb_job_reading(s->job, to->reading);
		double turn[2] = { 0 }, got[2] = { 0 }, turn_var = 0, var[2];
		response_reading_variance(s, &to->attitude, var);
		if (i > 0) {
			const struct row *from = sb_path_back(p, count - i);
			struct drilled d =
				sb_response_drilled(s, p, fmax(from->survey_md_m, 0), to->survey_md_m);
			response_turned(&from->attitude, &to->attitude, &got[0], &got[1]);
			sb_response_expect(r, &d, &turn[0], &turn[1]);
			turn_var = response_filter_wander(&r->all, &d, to->course_m) +
				response_filter_unlike(&r->all, r->guess_yield, &d);
			if (!d.known)
				turn_var = HUGE_VAL;
		}
		for (int axis = 0; axis < 2; axis++) {
			struct knot *k = &knots[axis][i];
			k->read = (i ? k[-1].read : 0) + got[axis];
			k->read_var = r->all.noise * var[axis];
			k->turn = turn[axis];
			k->turn_var = fmin(turn_var, 1);
			if (axis && reading && reading->azimuth_by == AZIMUTH_BY_HOLD)
				k->read_var = 1; /* a radian: nobody read it */
		}
	}
}

size_t sb_response_smooth(const struct setup *s, const struct path *p, const struct response *r,
	struct smoothed *out, size_t most)
{
	size_t count = p->on_count < most + RUN_IN ? p->on_count : most + RUN_IN;

	if (p->on_count < 2)
		return 0;
	struct knot *knots[2] = { sb_alloc(count * sizeof **knots), sb_alloc(count * sizeof **knots) };
	double *ties = sb_alloc(count * sizeof *ties);
	lay_knots(s, p, r, count, knots);
	if (most > count)
		most = count;
	for (int axis = 0; axis < 2; axis++) {
		struct knot *last = &knots[axis][count - 1];
		forward(knots[axis], count);
		last->after = last->read + r->all.state[HEADING_UP + axis];
		last->after_var = r->all.covariance[HEADING_UP + axis][HEADING_UP + axis];
		backward(knots[axis], count, ties);
		for (size_t i = 0; i < most; i++) {
			out[i].var[axis] = knots[axis][count - 1 - i].after_var;
			out[i].tie[axis] = ties[count - 1 - i];
		}
	}
	for (size_t i = 0; i < most; i++) {
		const struct knot *up = &knots[0][count - 1 - i], *right = &knots[1][count - 1 - i];
		out[i].md_m = sb_path_back(p, i)->survey_md_m;
		out[i].heading = response_turn_by(
			&sb_path_back(p, i)->attitude, up->after - up->read, right->after - right->read);
	}
	sb_free(knots[0]);
	sb_free(knots[1]);
	sb_free(ties);
	return most;
}

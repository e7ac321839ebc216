/* Between the files of the response: the filter's state, and its two steps. */
#ifndef SB_SRC_MODEL_RESPONSE_FILTER_H
#define SB_SRC_MODEL_RESPONSE_FILTER_H

#include "model/response.h"

/* Two by two (up, right) but for the response: four figures of the ground where the bit is, then the same
 * four as this bore has them on the whole. */
enum {
	HEADING_UP,
	HEADING_RIGHT,
	ALONG,
	ACROSS,
	DRIFT_UP,
	DRIFT_RIGHT,
	PLACE_UP,
	PLACE_RIGHT,
	MEAN,
	GROUND = 4,
	STATES = MEAN + GROUND
};
_Static_assert((int)STATES == (int)RESPONSE_STATES, "the header's room is the filter's");

/* What a hole turns beside its response, one sigma where the ground scatters as usual: rad per root m, and as
 * a share of what a slide turns. */
extern const double response_wander, response_wander_of_slide;

/* Before there is data: what the ground gives is known as well as a guess is; the heading as one reading. The
 * state of the response is set. */
void response_filter_begin(
	struct response_case *c, double guess_yield, double variance_up, double variance_right);

/* The heading is as uncertain as one reading, and tied to nothing. */
void response_filter_heading(struct response_case *c, double variance_up, double variance_right);

/* A course is drilled: its length, what it was drilled with, and how far the readings turned over it. */
void response_filter_predict(struct response_case *c, double guess_yield, const struct drilled *d,
	double length_m, const double got[2]);

/* The ground so far ahead of where it stands now, and how sure that is; the heading and the place stay. */
void response_filter_ahead(struct response_case *c, double guess_yield, double length_m);

/* A reading of the heading on one axis (HEADING_UP, HEADING_RIGHT), as far beside the last reading. Returned:
 * the logarithm of how likely it was, but for a constant. */
double response_filter_update(struct response_case *c, int axis, double observed, double variance);

/* Variance of what a course turns beside its response, on either axis; and beside what the bore gives on the
 * whole, by the stretch that it lies in. */
double response_filter_wander(const struct response_case *c, const struct drilled *d, double length_m);
double response_filter_unlike(const struct response_case *c, double guess_yield, const struct drilled *d);

/* Of a reading by the sheet, up and right. */
void response_reading_variance(const struct setup *s, const struct attitude *a, double var[2]);

/* How far the readings turned, up and right in the plane square to the hole, and an attitude turned so far.
 */
void response_turned(const struct attitude *from, const struct attitude *to, double *up, double *right);
struct attitude response_turn_by(const struct attitude *a, double up, double right);

/* ---- the cases (response_cases.c) ---- */

/* All of them start from all.state, each as likely as the sheet makes it. */
void response_cases_begin(struct response *r, double variance_up, double variance_right);
void response_cases_heading(struct response *r, double variance_up, double variance_right);
void response_cases_predict(
	struct response *r, const struct drilled *d, double length_m, const double got[2]);

/* The reading that ends the course, and the sheet's variances for it; held: an azimuth that nobody read. The
 * headings are beside this reading from then on. */
void response_cases_update(
	struct response *r, const double got[2], double variance_up, double variance_right, bool held);

#endif

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

/* What a hole turns beside its response, rad per root m, one sigma. */
extern const double response_wander;

/* Before there is data: what the ground gives is known as well as a guess is; the heading as one reading. The
 * state of the response is set. */
void response_filter_begin(struct response *r, double variance_up, double variance_right);

/* The heading is as uncertain as one reading, and tied to nothing. */
void response_filter_heading(struct response *r, double variance_up, double variance_right);

/* A course is drilled: its length, what it was drilled with, and how far the readings turned over it. */
void response_filter_predict(
	struct response *r, const struct drilled *d, double length_m, const double got[2]);

/* A reading of the heading on one axis (HEADING_UP, HEADING_RIGHT), as far beside the last reading. */
void response_filter_update(struct response *r, int axis, double observed, double variance);

#endif

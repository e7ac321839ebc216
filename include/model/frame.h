/* From what is typed and drawn to what is computed with: one place for units, scale and the azimuth chain.
 *
 * Inside: metres in the ground, north and east from the entry, up as elevation; radians; inclination from
 * straight down; azimuth from grid north. Coordinates of drawings are grid distances: ground = grid /
 * combined scale factor.
 */
#ifndef SB_MODEL_FRAME_H
#define SB_MODEL_FRAME_H

#include "geom/vec3.h"
#include "model/job.h"

struct frame {
	double metre;	      /* metres in the job's unit */
	double scale;	      /* grid over ground */
	double east0, north0; /* entry, grid, in the job's unit */
	enum incline incline;
	double azimuth_turn_rad; /* what is added to an azimuth as read to make it a grid azimuth */
	double convergence_rad;	 /* grid north from true north; NAN when the job does not say */
	double inc_add_rad; /* what an adjustment adds to an inclination; azimuth_turn_rad has its part */
	double stretch;	    /* true length over measured length; 1 without an adjustment */
	double design_bearing_rad; /* of the first tangent of the alignment */
	double sensor_to_bit_m, tool_face_offset_rad;
	double sigma_inc_rad, sigma_azi_rad;
};

/* Returned: frame; -1 with err when entry and exit do not make a line. Needs the job's alignment (or
 * entry and exit). */
int sb_frame_init(const struct job *job, struct frame *frame, struct sb_err *err);

/* The settings as they stood for a reading (NULL: as they stand for the next joint): a job that borrows all
 * its lists from this one. */
struct job sb_frame_settings(const struct job *job, const struct reading *r);

/* The frame in which a reading (NULL: the next joint) is understood: with the changes that hold for it, and
 * the adjustment in force. base: of the sheet alone, or of any other reading of the job. */
void sb_frame_for(
	const struct job *job, const struct frame *base, const struct reading *r, struct frame *out);

double sb_frame_metres(const struct frame *f, double typed); /* job unit to metres */
double sb_frame_typed(const struct frame *f, double metres);
struct vec3 sb_frame_ground(const struct frame *f, double easting, double northing, double elevation);
void sb_frame_grid(
	const struct frame *f, struct vec3 ground, double *easting, double *northing, double *elevation);
/* An attitude as read to an attitude inside, and back (azimuth back in [0, 360)). */
double sb_frame_inc(const struct frame *f, double typed);
double sb_frame_azi(const struct frame *f, double typed);
/* The same for an azimuth that was not read magnetically; with AZIMUTH_BY_HOLD there is none to turn. */
double sb_frame_azi_by(const struct frame *f, enum azimuth_by by, double typed);
double sb_frame_inc_typed(const struct frame *f, double radians);
double sb_frame_azi_typed(const struct frame *f, double radians);
double sb_frame_azi_typed_by(const struct frame *f, enum azimuth_by by, double radians);

/* How far the two ways to the bore's azimuth disagree, degrees: the tool laid on the staked centreline
 * against declination and convergence. False when the job does not give both. */
bool sb_frame_azimuth_disagrees(const struct job *job, const struct frame *f, double *degrees);

#endif

/* From metres to paper and back, for any paper or screen, and the scale that is written beside a picture.
 *
 * Paper has its origin at the top left, y downwards, and units that are as long across as down: points or
 * millimetres on a sheet; on a terminal the width of a character cell, which is taken to be twice as high as
 * wide (braille.h).
 */
#ifndef SB_DRAW_AXIS_H
#define SB_DRAW_AXIS_H

#include "draw/scene.h"

struct paper {
	double left, top, width, height;
};

struct axis {
	struct paper paper;
	struct box view;     /* what is shown, metres; all of the paper */
	double scale;	     /* paper units per metre across */
	double exaggeration; /* paper units per metre upwards, over scale; 1: true proportions */
	enum quantity across, up;
	enum unit unit;
	char value_unit[16]; /* of QUANTITY_VALUE */
};

/* Purpose:  the scale at which a scene's view fills a paper best.
 * Given:    scene    its view, and how much it may be exaggerated
 *           paper    width and height above 0
 * Returned: out
 * Notes:    the exaggeration is one of 1 2 5 10 20 50 100, not above scene->exaggerated: the largest with
 *           which the view still takes three quarters of the paper's width. What is left over is shown on
 *           both sides of the view alike. A view without extent (or with none at all) is widened to a
 *           metre; what is not finite counts as no view. */
void sb_axis_fit(const struct scene *scene, const struct paper *paper, struct axis *out);

/* The same at a scale that is given, with `middle` of the scene in the middle of the paper. */
void sb_axis_scaled(const struct scene *scene, const struct paper *paper, double scale, double exaggeration,
	struct spot middle, struct axis *out);

double sb_axis_x(const struct axis *a, double x); /* metres to paper */
double sb_axis_y(const struct axis *a, double y);
double sb_axis_x_metres(const struct axis *a, double paper_x);
double sb_axis_y_metres(const struct axis *a, double paper_y);

/* "x5"; "true" for true proportions; of a value its unit. */
#define SB_AXIS_TEXT 32
void sb_axis_exaggeration(const struct axis *a, char text[SB_AXIS_TEXT]);

/* A station in full hundreds of the job's unit and the rest: 1240.5 is "12+40.5", before the entry
 * "-0+30".
 *
 * Feet are stationed by the hundred everywhere. Metres are stationed by the hundred on some drawings and by
 * the kilometre (1+240) on others; a bore of some hundred metres would read 0+... throughout by the
 * kilometre, and one way of reading stations in both units is one less thing to get wrong. So: by the
 * hundred in both. */
void sb_axis_station(double metres, enum unit unit, int decimals, char text[SB_AXIS_TEXT]);

/* Round values along a side, with what is to be written at them. */
struct tick {
	double at;    /* metres, along the side */
	double paper; /* where that is */
	char text[SB_AXIS_TEXT];
};
#define SB_AXIS_TICKS 64

/* Given:    gap   the least distance between two ticks, paper units
 * Returned: out   ticks at multiples of 1, 2 or 5 times a power of ten of the job's unit, ascending; the
 *                 count. Never more than SB_AXIS_TICKS. */
size_t sb_axis_ticks_across(const struct axis *a, double gap, struct tick out[SB_AXIS_TICKS]);
size_t sb_axis_ticks_up(const struct axis *a, double gap, struct tick out[SB_AXIS_TICKS]);

#endif

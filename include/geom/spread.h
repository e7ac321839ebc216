/* A normal spread: how far it reaches at a confidence, along a line and in a plane, and how much of it lies
 * outside a box.
 *
 * x and y are any two axes square to one another; in the plane across a bore x is right and y is up.
 */
#ifndef SB_GEOM_SPREAD_H
#define SB_GEOM_SPREAD_H

/* Covariance in a plane, m^2. xx and yy >= 0, xy^2 <= xx yy. */
struct spread {
	double xx, yy, xy;
};

/* How many sigmas hold a share of a normal spread: to both sides along a line; within the ellipse in a plane.
 * Given:    confidence   0 <= c < 1
 * Note:     95 percent is 1.960 along a line and 2.448 in a plane. */
double sb_spread_line_factor(double confidence);
double sb_spread_plane_factor(double confidence);

/* The share of a normal spread along a line that lies below z sigmas from its mean; exact far out too. */
double sb_spread_below(double z);

/* The ellipse that holds the share of the spread that `factor` stands for (sb_spread_plane_factor).
 * Returned: half axes as vectors from its centre, the longer one first */
struct spread_ellipse {
	double major_x, major_y, minor_x, minor_y;
};
struct spread_ellipse sb_spread_ellipse(const struct spread *s, double factor);

/* Purpose:  the share of a bivariate normal spread that lies outside a box.
 * Given:    x, y       its mean
 *           s          its covariance; a sigma of 0 is a spread that has no width that way
 *           box        low < high each; HUGE_VAL with its sign: no limit on that side
 * Returned: 0..1
 * Notes:    conditioned on x: the share left and right of the box, plus the integral over the box's width of
 *           phi(x) (1 - [Phi(high | x) - Phi(low | x)]), by Gauss and Legendre's rule of 12 points in panels
 *           of at most 2 sigma, narrower where a strong correlation makes the inner share jump. Right to
 *           1e-9; small shares keep their digits, as everything is a sum of positive parts.
 * Source:   derived. */
struct spread_box {
	double low_x, high_x, low_y, high_y;
};
double sb_spread_outside(double x, double y, const struct spread *s, const struct spread_box *box);

#endif

/* How likely it is to be that far out by chance: the normal and the chi-square distribution. */
#ifndef SB_GEOM_ODDS_H
#define SB_GEOM_ODDS_H

/* The chance that a figure with a mean of 0 and a sigma of 1 is at least z away from 0, either side. */
double sb_odds_normal(double z);

/* Purpose:  the chance that the sum of squares of `freedom` such figures is at least x.
 * Given:    x >= 0, freedom >= 1
 * Returned: 1 at x = 0, falling to 0; relative error below 1e-10 while it is over 1e-300
 * Notes:    the upper incomplete gamma function of freedom / 2 at x / 2: in closed form, by terms that are
 *           all positive, from e^-x/2 for even and erfc for odd freedoms
 * Source:   Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.4.4 and 26.4.5. */
double sb_odds_chi_square(double x, int freedom);

/* Purpose:  the chance that one figure, or two independent ones, lie that far out when their sigma is itself
 * known from `freedom` others alone: Student's distribution, and Hotelling's of two.
 * Given:    square    the sum of squares of figures / sigma, >= 0
 *           figures   1 or 2
 *           freedom   even, >= 2
 * Returned: 1 at 0, falling as a power of the distance: far surprises are less surprising than the normal has
 *           them. Absolute error below 1e-15.
 * Source:   Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.4, for one; for two the F
 * distribution with 2 and `freedom`, in closed form (26.6.4). */
double sb_odds_student(double square, int figures, int freedom);

/* The x that is reached with that chance (0 < chance < 1): the critical value. */
double sb_odds_chi_square_critical(double chance, int freedom);

/* The chance to allow each of `tests` independent tests so that all together cry wolf with `chance`:
 * 1 - (1 - chance)^(1/tests). Source: Sidak, J. Am. Stat. Assoc. 62 (1967) 626. */
double sb_odds_each(double chance, int tests);

#endif

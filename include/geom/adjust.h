/* What independent positions say of the path: least squares over a handful of bias terms.
 *
 * A path that is computed from readings is off by x in its bias terms and by what the noise of the readings
 * adds up to; a fix is off by its own error. What is observed is fix minus path, one number for each
 * component that a fix gives:
 *
 *     l = A x + e        e: zero mean, covariance C = noise of the path at the fixes (which correlates
 *                           them) + the fixes' own errors
 *     x: zero mean, independent one-sigmas from before any fix (the job's, the tool's), or nothing known
 *
 * The estimate is the least e' C^-1 e + sum (x/sigma)^2, which is also the mean of x given l if all is
 * normal. C is made into a unit matrix by its Cholesky factor, the rest is Householder's QR on columns of
 * like size: no normal equations, so half of the digits are not lost. Sources: Bjorck, Numerical Methods for
 * Least Squares Problems (1996), 1.3 and 4.2; for the tests, Teunissen, Testing Theory, chapter 4 (a shift of
 * some observations as the alternative; with correlated observations), after Baarda (1968).
 *
 * Sizes: up to 40 fixes; cost count^3 for solving, count^2 for a point of the path.
 */
#ifndef SB_GEOM_ADJUST_H
#define SB_GEOM_ADJUST_H

#include <stddef.h>

#define ADJUST_TERMS 8
#define ADJUST_FIXES 40
#define ADJUST_COUNT 120 /* observations: three of each fix */

enum adjust_status {
	ADJUST_OK = 0,
	ADJUST_RANGE = -1, /* a count out of range, a figure that is not finite, a sigma that is not positive,
			    * fixes not in order, a fix with more than three components */
	ADJUST_COVARIANCE = -2, /* C is not positive definite: somebody claims to be without error */
	ADJUST_SINGULAR = -3,	/* a term without a prior that these fixes cannot tell, or not from another */
};

/* All borrowed. Unit of a length: the caller's. */
struct adjust_problem {
	size_t terms;		  /* 1..ADJUST_TERMS */
	const double *prior;	  /* [terms] one sigma, > 0; HUGE_VAL: nothing is known */
	size_t count;		  /* of observations, 1..ADJUST_COUNT */
	const double *observed;	  /* [count] fix minus path */
	const double *effect;	  /* [count][terms] A: what one unit of each term adds to the path there */
	const double *covariance; /* [count][count] C, symmetric: the lower half is read */
	const int *fix;		  /* [count] which fix each belongs to: 0, 1, 2 ... without gaps */
	double false_alarm; /* the chance that the search for outliers may find one where there is none */
};

/* One fix held against all others and the priors. */
struct adjust_test {
	double statistic;   /* chi-square: how much better all agrees without it */
	int freedom;	    /* components that the others can check; 0: none */
	double probability; /* to be that far out by chance; 1 where freedom is 0 */
};

struct adjust_answer {
	double estimate[ADJUST_TERMS];
	double covariance[ADJUST_TERMS][ADJUST_TERMS];
	double residual[ADJUST_COUNT];	     /* observed minus A x */
	double residual_sigma[ADJUST_COUNT]; /* what it scatters by; 0 where it cannot but be 0 */
	/* The residual weighted by C^-1, over what that scatters by: unit normal when nothing is wrong,
	 * largest in the mean at the one that is. Equal to residual / residual_sigma where C has no
	 * correlations. 0 where no other observation checks this one. */
	double normalised[ADJUST_COUNT];
	double redundancy[ADJUST_COUNT]; /* the share of a blunder here that the residual shows */
	double chi_square;		 /* of the whole: residuals and priors */
	int freedom;			 /* count less the terms that have no prior */
	double probability;		 /* of a chi-square as large by chance; 1 where freedom is 0 */
	size_t fixes;
	struct adjust_test tests[ADJUST_FIXES];
	double critical; /* a test with a smaller probability names an outlier */
	int outlier;	 /* the fix that stands out most, if one does; -1 */
};

/* Purpose:  the adjustment.
 * Given:    problem; work   sb_adjust_work(count, terms) doubles
 * Returned: out             unchanged unless ADJUST_OK; work keeps what sb_adjust_point needs
 * Note:     chi_square without fix k is chi_square - tests[k].statistic, with freedom - tests[k].freedom. */
enum adjust_status sb_adjust_solve(
	const struct adjust_problem *problem, double *work, struct adjust_answer *out);
size_t sb_adjust_work(size_t count, size_t terms);

/* A point of the path: what the terms add to it, the covariance of its own noise (random errors, and what the
 * terms do not hold), and how that noise goes with the noise e of each observation. Signs: as the
 * observations, i.e. of what must be added to the path to reach the truth. */
struct adjust_point {
	double effect[3][ADJUST_TERMS];
	double noise[3][3];
	const double *with; /* [3][count] */
};

/* Purpose:  how sure a point is after the adjustment.
 * Given:    the problem, work and answer of sb_adjust_solve; point
 * Returned: corrected   covariance of the point once the terms are corrected by the estimate, and only they
 *           best        covariance of the point once it is also moved by what the fixes tell of its noise
 *           shift       by how much in all that would be: terms and noise. Any of the three may be NULL
 * Note:     best <= corrected, and best <= before, in every direction. */
void sb_adjust_point(const struct adjust_problem *problem, double *work, const struct adjust_answer *answer,
	const struct adjust_point *point, double corrected[3][3], double best[3][3], double shift[3]);

#endif

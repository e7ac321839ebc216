/* What the magnetic model is made of: its terms, by degree and order. */
#ifndef SB_GEOM_MAGNET_TERMS_H
#define SB_GEOM_MAGNET_TERMS_H

enum { MAGNET_DEGREE = 12, MAGNET_TERMS = MAGNET_DEGREE * (MAGNET_DEGREE + 3) / 2 };

/* Schmidt semi-normalised Gauss coefficients at the epoch, nT, and their change, nT a year. */
struct magnet_term {
	int degree, order;
	double g_nt, h_nt;
	double g_nt_per_year, h_nt_per_year;
};

/* By degree 1 to MAGNET_DEGREE, and in each by order 0 to degree. */
extern const struct magnet_term sb_magnet_terms[MAGNET_TERMS];

/* Where the term stands. */
static inline int sb_magnet_term(int degree, int order)
{
	return degree * (degree + 1) / 2 + order - 1;
}

#endif

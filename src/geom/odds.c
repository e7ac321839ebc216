/* Chances, by the closed forms for whole degrees of freedom; their inverse by halving. */
#include "geom/odds.h"

#include "geom/angle.h"

#include <math.h>
#include <stdbool.h>

double sb_odds_normal(double z)
{
	return erfc(fabs(z) / sqrt(2));
}

/* Each term is the one before times x over the next of the row freedom - 2, freedom - 4 ...; begun in
 * logarithms, where the first would be too small for a double and the sum is not. */
double sb_odds_chi_square(double x, int freedom)
{
	bool odd = freedom % 2 != 0;
	double half = x / 2;

	if (!(x > 0))
		return 1;
	double sum = odd ? erfc(sqrt(half)) : 0;
	double log_term = odd ? log(2 * x / SB_PI) / 2 - half : -half;
	for (int k = odd ? 3 : 2; k <= freedom; k += 2) {
		sum += exp(log_term);
		log_term += log(x / k);
	}
	return fmin(1, sum);
}

static double student_one(double square, int freedom)
{
	double sine = sqrt(square / (freedom + square)), cosine2 = freedom / (freedom + square);
	double term = 1, sum = 1;

	for (int k = 2; k <= freedom - 2; k += 2)
		sum += term *= cosine2 * (k - 1) / k;
	return fmax(0, 1 - sine * sum);
}

double sb_odds_student(double square, int figures, int freedom)
{
	if (!(square > 0))
		return 1;
	return figures == 1 ? student_one(square, freedom) : pow(1 + square / freedom, -freedom / 2.0);
}

double sb_odds_chi_square_critical(double chance, int freedom)
{
	double low = 0, high = freedom + 1;

	while (sb_odds_chi_square(high, freedom) > chance)
		high *= 2;
	for (int i = 0; i < 200 && high - low > 1e-14 * high; i++) {
		double middle = (low + high) / 2;
		if (sb_odds_chi_square(middle, freedom) > chance)
			low = middle;
		else
			high = middle;
	}
	return (low + high) / 2;
}

double sb_odds_each(double chance, int tests)
{
	return -expm1(log1p(-chance) / tests);
}

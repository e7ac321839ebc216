/* Comparing numbers: cmocka's own compares as float and lets NaN pass. */
#ifndef SUPPORT_NEAR_H
#define SUPPORT_NEAR_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>

#define assert_near(got, want, tolerance) near_check((got), (want), (tolerance), #got, __FILE__, __LINE__)

static inline void near_check(
	double got, double want, double tolerance, const char *what, const char *file, int line)
{
	if (fabs(got - want) <= tolerance || (isinf(got) && isinf(want) && signbit(got) == signbit(want)))
		return;
	print_error(
		"%s = %.17g, wanted %.17g within %g (off by %g)\n", what, got, want, tolerance, got - want);
	_fail(file, line);
}

/* Closing a test program: cmocka's count of failures is not an exit status (256 of them would be 0). */
#undef run_tests /* deprecated macro of cmocka */
#define run_tests(tests) (cmocka_run_group_tests_name(__FILE__, tests, NULL, NULL) == 0 ? 0 : 1)

#endif

/* Libraries found by name while the program runs. */
#include "base/library.h"

#include "support/near.h"

struct table {
	double (*cosine)(double);
	double (*root)(double);
};

static struct table table;

static void functions_are_found_in_the_order_of_their_names(void **state)
{
	(void)state;
	const char *const files[] = { "libnowhere.so.9", "libm.so.6", NULL }; /* the first is passed over */
	const char *const functions[] = { "cos", "sqrt" };

	assert_int_equal(sb_library_load(files, functions, 2, &table), LIBRARY_HERE);
	assert_near(table.cosine(0), 1, 0);
	assert_near(table.root(9), 3, 0);
}

static void what_is_not_installed_is_told_from_what_is_of_another_version(void **state)
{
	(void)state;
	const char *const nowhere[] = { "libnowhere.so.9", NULL };
	const char *const here[] = { "libm.so.6", NULL };
	const char *const functions[] = { "cos", "no_such_function" };

	assert_int_equal(sb_library_load(nowhere, functions, 2, &table), LIBRARY_MISSING);
	assert_int_equal(sb_library_load(here, functions, 2, &table), LIBRARY_OTHER);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(functions_are_found_in_the_order_of_their_names),
		cmocka_unit_test(what_is_not_installed_is_told_from_what_is_of_another_version),
	};

	return run_tests(tests);
}

/* Loading cairo. The table is written once and stays: it is the same for everybody. */
#include "paper_cairo.h"

#include "base/library.h"

#include <assert.h>
#include <stdbool.h>

static struct paper_cairo table;
static bool loaded;

static const char *const files[] = { "libcairo.so.2", "libcairo.so", NULL };

#define PAPER_NAME(member, function) #function,
static const char *const functions[] = { PAPER_FUNCTIONS(PAPER_NAME) };
#undef PAPER_NAME
#define COUNT (sizeof functions / sizeof *functions)
_Static_assert(sizeof table == COUNT * sizeof(void *), "the table is its functions, one after the other");

int paper_cairo_load(struct sb_err *err)
{
	if (loaded)
		return 0;
	enum library_found found = sb_library_load(files, functions, COUNT, &table);
	loaded = found == LIBRARY_HERE;
	if (loaded)
		return 0;
	return sb_fail(err, SB_MISSING,
		"Cairo %s, so no sheet or report can be drawn. Install packages libcairo2 and fonts-dejavu-core.",
		found == LIBRARY_OTHER ? "is older than 1.16" : "is not installed");
}

const struct paper_cairo *paper_cairo(void)
{
	assert(loaded);
	return &table;
}

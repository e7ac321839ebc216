/* Loading PROJ. The table is written once and stays: it is the same for everybody. */
#include "base/late.h"

#include "base/library.h"

#include <assert.h>
#include <stdbool.h>

static struct late table;
static bool loaded;

/* The version that Debian 12 has, then whatever the linker's own name stands for. */
static const char *const files[] = { "libproj.so.25", "libproj.so", NULL };

#define LATE_NAME(member, function) #function,
static const char *const functions[] = { LATE_FUNCTIONS(LATE_NAME) };
#undef LATE_NAME
#define COUNT (sizeof functions / sizeof *functions)
_Static_assert(sizeof table == COUNT * sizeof(void *), "the table is its functions, one after the other");

int sb_late_load(struct sb_err *err)
{
	if (loaded)
		return 0;
	enum library_found found = sb_library_load(files, functions, COUNT, &table);
	loaded = found == LIBRARY_HERE;
	if (loaded)
		return 0;
	return sb_fail(err, SB_MISSING,
		"PROJ %s, so no coordinate system can be looked up. Install packages libproj25 and proj-data, or write local.",
		found == LIBRARY_OTHER ? "is not of a version that this program knows" : "is not installed");
}

const struct late *sb_late(void)
{
	assert(loaded);
	return &table;
}

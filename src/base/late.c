/* Loading PROJ. The table is written once and stays: it is the same for everybody. */
#include "base/late.h"

#include <assert.h>
#include <dlfcn.h>
#include <string.h>

static struct late table;
static void *library;

/* The version that Debian 12 has, then whatever the linker's own name stands for. */
static const char *const names[] = { "libproj.so.25", "libproj.so" };

/* A pointer to data becomes one to a function: POSIX says that this may be done, ISO C does not. */
static int take(void *to, const char *name)
{
	void *found = dlsym(library, name);

	memcpy(to, &found, sizeof found);
	return found ? 0 : -1;
}

static int fill(void)
{
	int missing = 0;

#define LATE_TAKE(member, function) missing |= take(&table.member, #function);
	LATE_FUNCTIONS(LATE_TAKE)
#undef LATE_TAKE
	return missing;
}

int sb_late_load(struct sb_err *err)
{
	if (library)
		return 0;
	for (size_t i = 0; i < sizeof names / sizeof *names && library == NULL; i++)
		library = dlopen(names[i], RTLD_NOW | RTLD_LOCAL);
	if (library && fill() == 0)
		return 0;
	const char *what = library ? "is not of a version that this program knows" : "is not installed";
	if (library)
		dlclose(library);
	library = NULL;
	return sb_fail(err, SB_MISSING,
		"PROJ %s, so no coordinate system can be looked up. Install packages libproj25 and proj-data, or write local.",
		what);
}

const struct late *sb_late(void)
{
	assert(library);
	return &table;
}

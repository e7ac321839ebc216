/* A pointer to data becomes one to a function: POSIX says that this may be done, ISO C does not; so the bytes
 * are copied.
 */
#include "base/library.h"

#include <dlfcn.h>
#include <string.h>

static int fill(void *library, const char *const *functions, size_t count, void *table)
{
	char *to = table;

	for (size_t i = 0; i < count; i++) {
		void *found = dlsym(library, functions[i]);
		if (found == NULL)
			return -1;
		memcpy(to + i * sizeof found, &found, sizeof found);
	}
	return 0;
}

enum library_found sb_library_load(
	const char *const *files, const char *const *functions, size_t count, void *table)
{
	void *library = NULL;

	for (; *files && library == NULL; files++)
		library = dlopen(*files, RTLD_NOW | RTLD_LOCAL);
	if (library == NULL)
		return LIBRARY_MISSING;
	if (fill(library, functions, count, table) == 0)
		return LIBRARY_HERE;
	dlclose(library);
	return LIBRARY_OTHER;
}

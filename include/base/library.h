/* Libraries that are loaded when they are first asked for: a hand who opens the screen to log a joint must
 * not wait for those that draw sheets or know the world's coordinate systems. A library's functions are
 * called through a table of pointers, filled once by name.
 */
#ifndef SB_BASE_LIBRARY_H
#define SB_BASE_LIBRARY_H

#include <stddef.h>

enum library_found {
	LIBRARY_HERE,
	LIBRARY_MISSING, /* not installed */
	LIBRARY_OTHER,	 /* installed, but without one of the functions: of another version */
};

/* Given:    files       names of the library for the dynamic linker, the best first, NULL at the end
 *           functions   names, count of them
 * Returned: table       count pointers to functions in the same order, of which some are filled unless
 *                       LIBRARY_HERE
 * Note:     once found, a library stays until the program ends. */
enum library_found sb_library_load(
	const char *const *files, const char *const *functions, size_t count, void *table);

#endif

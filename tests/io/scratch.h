/* A folder of one's own for a test, gone when the test program ends. */
#ifndef TESTS_IO_SCRATCH_H
#define TESTS_IO_SCRATCH_H

#include "support/near.h"

#include <dirent.h>
#include <ftw.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char scratch_folder[64];

static int scratch_drop(const char *path, const struct stat *s, int type, struct FTW *at)
{
	(void)s;
	(void)type;
	return at->level > 0 ? remove(path) : 0;
}

static inline void scratch_empty(void)
{
	nftw(scratch_folder, scratch_drop, 8, FTW_DEPTH | FTW_PHYS);
}

static inline void scratch_remove(void)
{
	scratch_empty();
	rmdir(scratch_folder);
}

/* The path of a file in the folder; good until the next call but one. */
static inline const char *scratch(const char *name)
{
	static char paths[2][PATH_MAX];
	static int turn;

	if (scratch_folder[0] == '\0') {
		snprintf(scratch_folder, sizeof scratch_folder, "/tmp/sagbend-test-XXXXXX");
		assert_non_null(mkdtemp(scratch_folder));
		atexit(scratch_remove);
	}
	turn = !turn;
	snprintf(paths[turn], sizeof paths[turn], "%s/%s", scratch_folder, name);
	return paths[turn];
}

static inline const char *scratch_bytes(const char *name, const char *bytes, size_t length)
{
	const char *path = scratch(name);
	FILE *f = fopen(path, "wb");

	assert_non_null(f);
	assert_int_equal(fwrite(bytes, 1, length, f), length);
	assert_int_equal(fclose(f), 0);
	return path;
}

static inline const char *scratch_text(const char *name, const char *text)
{
	return scratch_bytes(name, text, strlen(text));
}

/* The file's text, to be freed; NULL if there is none. */
static inline char *scratch_read(const char *path)
{
	FILE *f = fopen(path, "rb");
	size_t used = 0, room = 1 << 16;
	char *text = malloc(room);

	if (f == NULL || text == NULL) {
		free(text);
		return NULL;
	}
	for (size_t got; (got = fread(text + used, 1, room - used - 1, f)) > 0;) {
		used += got;
		if (used + 1 == room)
			text = realloc(text, room *= 2);
	}
	text[used] = '\0';
	fclose(f);
	return text;
}

/* How many files the folder holds, those with a dot too. */
static inline int scratch_count(void)
{
	DIR *d = opendir(scratch_folder);
	int count = 0;

	for (struct dirent *e; d && (e = readdir(d)) != NULL;)
		count += strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0;
	if (d)
		closedir(d);
	return count;
}

#endif

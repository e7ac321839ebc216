/* Checked memory. See the header for why there is no failure to handle. */
#include "base/mem.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void (*before_end)(void);

void sb_mem_hook(void (*restore)(void))
{
	before_end = restore;
}

static void out_of_memory(void)
{
	if (before_end)
		before_end();
	fputs("sagbend: this machine has no memory left. Everything acknowledged is in the job file.\n",
		stderr);
	exit(71);
}

void *sb_alloc(size_t size)
{
	void *p = calloc(1, size ? size : 1);

	if (p == NULL)
		out_of_memory();
	return p;
}

char *sb_strdup(const char *text)
{
	size_t size = strlen(text) + 1;

	return memcpy(sb_alloc(size), text, size);
}

void sb_free(void *p)
{
	free(p);
}

void *sb_grow(void *array, size_t count, size_t *room, size_t size)
{
	if (count < *room)
		return array;
	if (*room > SIZE_MAX / 4 / size)
		out_of_memory();
	size_t more = *room ? *room * 2 : 8;
	char *grown = realloc(array, more * size);
	if (grown == NULL)
		out_of_memory();
	memset(grown + *room * size, 0, (more - *room) * size);
	*room = more;
	return grown;
}

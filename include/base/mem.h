/* Memory that is either there or ends the program: nobody can log a joint without it, and everything
 * acknowledged is on disk already. The hook lets the screen restore the terminal first.
 */
#ifndef SB_BASE_MEM_H
#define SB_BASE_MEM_H

#include <stddef.h>

void *sb_alloc(size_t size); /* zeroed; never NULL */
char *sb_strdup(const char *text);
void sb_free(void *p);

/* Makes room for one more item of `size` bytes in a growing array; returns the array, maybe moved.
 * Doubles, so that appending n items costs O(n). New room is zeroed. */
void *sb_grow(void *array, size_t count, size_t *room, size_t size);

/* Called once, before the program ends for want of memory. */
void sb_mem_hook(void (*restore)(void));

#endif

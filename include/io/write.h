/* A result goes to a file whole, or not at all.
 *
 * Written beside the target under another name, every write checked, synced, then renamed; so whoever opens
 * the target finds the old one or all of the new one. "-" and NULL are standard output; a device or a pipe is
 * written to as it is.
 */
#ifndef SB_IO_WRITE_H
#define SB_IO_WRITE_H

#include "base/err.h"

#include <stdbool.h>
#include <stddef.h>

struct sb_write; /* a target being written */

/* Given:    path      of the target; NULL and "-": standard output
 *           replace   whether a file that is there may be replaced
 * -1 with err: it exists, it is a folder, its folder is missing or may not be written to. Otherwise it has to
 * be ended or abandoned. */
int sb_write_begin(const char *path, bool replace, struct sb_write **out, struct sb_err *err);

/* Adds bytes; a failure is remembered, later calls do nothing, and the end says what it was. */
void sb_write_put(struct sb_write *w, const char *bytes, size_t length);

/* Brings all of it to the disk beside its place, so that nothing but the name is left to fail: for files that
 * belong together. -1 with err; it has to be ended or abandoned all the same. */
int sb_write_sync(struct sb_write *w, struct sb_err *err);

/* 0: all of it is on the disk under its name. -1: nothing changed there. Frees w. */
int sb_write_end(struct sb_write *w, struct sb_err *err);

void sb_write_abandon(struct sb_write *w); /* nothing changed there; NULL is fine */

/* All of it in one call. */
int sb_write_whole(const char *path, bool replace, const char *bytes, size_t length, struct sb_err *err);

#endif

/* Files that come into being whole: made beside their place under another name, and moved there when all of
 * them is on the disk. Whoever opens the place finds the old file or the new one, never a part.
 */
#ifndef SB_BASE_BESIDE_H
#define SB_BASE_BESIDE_H

#include "base/err.h"

#include <stdbool.h>

/* Makes an empty file in the folder of target, open for writing (*fd, to be closed).
 * Returned: its name, to be freed; NULL with err. Its name begins with a dot and says whose it is, so that
 * one left by a power cut can be known and deleted. */
char *sb_beside_make(const char *target, int *fd, struct sb_err *err);

/* Moves it to its place and syncs the folder's list of names. Without `replace` a file that is there stays,
 * and this fails (SB_EXISTS). The file itself must be synced already, where that matters. */
int sb_beside_place(const char *made, const char *target, bool replace, bool sync, struct sb_err *err);

/* Makes names in the folder of this file durable: what was made, moved or deleted there. */
int sb_beside_sync(const char *path, struct sb_err *err);

/* What the system's error number means for this file, in words. Returns -1. */
int sb_beside_say(int number, const char *path, struct sb_err *err);

#endif

/* The gate that a file has to pass before anything of it is believed. */
#ifndef SB_STORE_GATE_H
#define SB_STORE_GATE_H

#include "base/sql.h"
#include "store/schema.h"

#include <stdbool.h>
#include <stdint.h>

/* How files are opened; tests and measurements have other ways. */
struct gate {
	const struct schema *schema;
	const char *vfs; /* NULL: the system's */
	bool unsynced;
	int wait_ms; /* for the locks of other programs; 0: as long as usual */
};
extern const struct gate sb_gate_usual;

/* Opens the file and sees whose it is.
 * Returned: out, version   1 .. the present one
 * -1: SB_MISSING, SB_DENIED, SB_FOREIGN, SB_NEWER, SB_DAMAGED ... A write that was cut off is taken back
 * first, as every SQLite reader does; without leave to write, that fails. */
int sb_gate_look(const char *path, bool write, const struct gate *gate, struct sb_sql **out, int64_t *version,
	struct sb_err *err);

/* The whole check: whose it is, its schema text for text, its pages and rows. */
int sb_gate_open(const char *path, bool write, const struct gate *gate, struct sb_sql **out, int64_t *version,
	struct sb_err *err);

/* A file is whole pages; SQLite reads what is missing of the last one as zeros, and may find nothing wrong
 * with them. -1: SB_DAMAGED. To be asked within a transaction, so that nobody makes it longer. */
int sb_gate_length(struct sb_sql *db, const char *path, struct sb_err *err);

#endif

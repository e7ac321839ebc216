/* The shape of a job file, as the list of steps that made it. */
#ifndef SB_STORE_SCHEMA_H
#define SB_STORE_SCHEMA_H

#include "base/sql.h"

#include <stddef.h>
#include <stdint.h>

#define SB_SCHEMA_ID 0x53424F52 /* application_id: "SBOR" */

/* Step i (from 0) makes version i + 1 out of version i,. */
struct migration {
	const char *what;	/* for messages: "the first version" */
	const char *const *sql; /* statements, closed by NULL; one of them sets user_version */
	const char *made; /* digest of all objects that are there after this step; NULL: not written down */
};

/* The steps that a store goes by; tests may give more of them. */
struct schema {
	const struct migration *steps;
	size_t count; /* the present version */
};
extern const struct schema sb_schema;

/* Takes the file from a version (0: nothing in it yet) to the present one, each step in a transaction. */
int sb_schema_migrate(struct sb_sql *db, const struct schema *schema, int64_t from, struct sb_err *err);

/* BLAKE2b of every object of the file, name and text, in an order that does not depend on how it was made. */
int sb_schema_digest(struct sb_sql *db, char hex[65], struct sb_err *err);

/* Compares every object of the file, text for text, with what the steps up to `version` make. A planted
 * trigger would run with our own writes, a changed view would lie to a stranger: so nothing may differ.
 * 0: the same; -1: SB_DAMAGED saying which object (or another failure). */
int sb_schema_compare(struct sb_sql *db, const struct schema *schema, int64_t version, struct sb_err *err);

#endif

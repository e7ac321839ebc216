/* Opening a job file of any version that this program knows, to be used in the present one. */
#ifndef SB_STORE_UPGRADE_H
#define SB_STORE_UPGRADE_H

#include "store/gate.h"

/* Through the gate. To write, an older file is brought to the present version, after a checked copy of it was
 * kept beside it (JOB.bore.v1); to read it is refused. A connection to write is durable. */
int sb_upgrade_open(
	const char *path, bool write, const struct gate *gate, struct sb_sql **out, struct sb_err *err);

#endif

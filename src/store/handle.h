/* An open job: the file, the lock on it, and the job and solution that equal it. */
#ifndef SB_STORE_HANDLE_H
#define SB_STORE_HANDLE_H

#include "model/job.h"
#include "model/solve.h"
#include "store/chain.h"
#include "store/gate.h"
#include "store/lock.h"
#include "store/publish.h"

#include <stdbool.h>

struct sb_store {
	char *path; /* without links in it */
	bool writes;
	struct gate gate;
	struct sb_lock *lock; /* NULL when reading */
	struct sb_sql *db;    /* NULL: lost; to be opened again before anything else */
	struct job job;
	struct solution solution;
	struct chain_end end;
	int64_t seen; /* sb_sql_changed when job was read */
	bool stale;   /* the computed tables are not what solving gives: write all of them next */
	struct published published; /* the warnings that the file has */
	char unclear[SB_CHAIN_UID]; /* of an act of which it is not known whether it is in the file; "" none
				     */
};

/* The last part of the path, for messages. */
const char *sb_handle_name(const struct sb_store *store);

/* As sb_store_open and sb_store_create, through another gate: tests and measurements. */
int sb_handle_open(const char *path, bool write, const char *who, const struct gate *gate,
	struct sb_store **out, struct sb_err *err);
void sb_handle_close(struct sb_store *store);
int sb_handle_create(const char *path, const struct job *sheet, const char *who, const struct gate *gate,
	struct sb_err *err);

/* Reads job and solution from the file again; both stay as they were on failure. */
int sb_handle_load(struct sb_store *store, struct sb_err *err);

/* Closes the connection and opens it again, through the gate, then loads. On failure the store is lost. */
int sb_handle_reopen(struct sb_store *store, struct sb_err *err);

/* Whether the act of this uid is in the file: 1, 0, -1 with err. */
int sb_handle_find(struct sb_store *store, const char *uid, struct sb_err *err);

/* For a lost store: opens it again. When the act that was unclear turns out to be in the file: SB_STATE, so
 * that nobody enters it a second time. 0 when the store was not lost. */
int sb_handle_revive(struct sb_store *store, struct sb_err *err);

/* SB_MISSING when the file is no longer the one that was opened. */
int sb_handle_there(const struct sb_store *store, struct sb_err *err);

/* A name for an act: given, of a length that fits, UTF-8 without control characters. */
int sb_handle_check_who(const char *who, struct sb_err *err);

#endif

/* The job file: one SQLite database of facts that only grow, and what is computed from them beside it.
 *
 * 1. Facts are append-only: triggers refuse UPDATE, DELETE and REPLACE.
 * 2. One act of one person is one transaction: the act, its facts, their journal rows (each hashed with the
 *    one before), the path and the warnings that follow.
 * 3. The job and solution that the store lends always equal what is on disk.
 * 4. Acknowledged means on disk: the functions below return 0 only after the commit is durable.
 */
#ifndef SB_STORE_STORE_H
#define SB_STORE_STORE_H

#include "model/job.h"
#include "model/solve.h"

#include <stdbool.h>

struct sb_store;

enum store_mode { STORE_WRITE, STORE_READ };

/* Makes the file from a sheet's job; refuses to overwrite. Nothing stays behind when it fails. The
 * computed tables and the first act are in it. Closed again when it returns. */
int sb_store_create(const char *path, const struct job *sheet, const char *who, struct sb_err *err);

/* STORE_WRITE takes the job for this process until it is closed; when somebody else has it: SB_BUSY, with
 * who, since when, and on which machine. STORE_READ never waits for anybody and never writes. Both check the
 * file (integrity, schema text, version) before anything else of it is believed; neither checks the whole
 * chain (sb_store_verify does). */
int sb_store_open(
	const char *path, enum store_mode mode, const char *who, struct sb_store **out, struct sb_err *err);
void sb_store_close(struct sb_store *store); /* NULL is fine */

const struct job *sb_store_job(const struct sb_store *store); /* borrowed until the next act or refresh */
const struct solution *sb_store_solution(const struct sb_store *store); /* likewise */
const char *sb_store_path(const struct sb_store *store);
bool sb_store_writes(const struct sb_store *store);
/* The chain's last hash, hex: printed on what is handed over, so that a cut-off end is found too. */
void sb_store_head(const struct sb_store *store, char hex[65]);

/* Reads again when somebody else has written. *changed says whether anything did. */
int sb_store_refresh(struct sb_store *store, bool *changed, struct sb_err *err);

/* Who reads how the file is refreshed: the room left on its disk, bytes; negative when not known. */
long long sb_store_room(const struct sb_store *store);

/* The acts. 0: on disk, job and solution already hold it. -1: nothing happened; err says why. `who` must not
 * be empty. Each refuses (SB_STATE, SB_RANGE) what the job does not allow, whatever the caller checked
 * before. */

/* One joint. Given: r with the fields of the row; leg and joint are set here: the next joint.
 * r->reason says why a reading is logged that looks like a blunder; the store does not judge that. */
int sb_store_log(struct sb_store *store, const char *who, const struct reading *r, struct sb_err *err);

/* Replaces a joint's reading: r is the full new row; r->reason is required. */
int sb_store_correct(struct sb_store *store, const char *who, int64_t reading, const struct reading *r,
	struct sb_err *err);

/* Pulls back: to_joint is the last joint left in the ground (0: all out). reason is required. */
int sb_store_withdraw(
	struct sb_store *store, const char *who, int to_joint, const char *reason, struct sb_err *err);

int sb_store_note(struct sb_store *store, const char *who, const char *text, struct sb_err *err);

/* Acknowledges a warning of the present solution by its index; reason is required. */
int sb_store_acknowledge(
	struct sb_store *store, const char *who, size_t warning, const char *reason, struct sb_err *err);

/* Settings of [azimuth], [tool] or [steering] change. Given: section, key, value and
 * from_joint of each; the rest is set here. They hold for what is logged from now on, and for the joints in
 * the ground from from_joint on (the next joint's number: for none of them). reason is required. */
#define SB_CHANGES 16
int sb_store_change(struct sb_store *store, const char *who, const struct change *changes, size_t count,
	const char *reason, struct sb_err *err);

/* A reading taken again. It is kept beside the path and never moves it. */
int sb_store_repeat(struct sb_store *store, const char *who, const struct repeat *r, const char *remarks,
	struct sb_err *err);

/* An independent position; every component that is given needs its sigma. */
int sb_store_fix(struct sb_store *store, const char *who, const struct fix *f, const char *remarks,
	struct sb_err *err);
/* Sets a fix aside, or uses it again; reason is required. */
int sb_store_fix_use(struct sb_store *store, const char *who, int64_t id, bool used, const char *reason,
	struct sb_err *err);

/* Takes a correction of the path, in place of the one in force; takes the one in force back. */
int sb_store_adjust(struct sb_store *store, const char *who, const struct adjustment *a, const char *reason,
	struct sb_err *err);
int sb_store_adjust_back(struct sb_store *store, const char *who, const char *reason, struct sb_err *err);

/* A non-conformance, by its number (model/nonconformance.h), is accepted by the engineer as it stands now,
 * with the calculation or letter that it rests on; or is open again. Reference and reason are required. */
int sb_store_accept(struct sb_store *store, const char *who, int number, const char *reference,
	const char *reason, struct sb_err *err);
int sb_store_accept_back(
	struct sb_store *store, const char *who, int number, const char *reason, struct sb_err *err);

/* A point of the contract's checklist, from 1, is done, or is not after all (which needs a reason). */
int sb_store_tick(struct sb_store *store, const char *who, int point, bool done, const char *reference,
	const char *reason, struct sb_err *err);

/* The pilot is accepted: refused while anything that is asked for is missing (model/acceptance.h). From then
 * on it is closed: every act but notes, acknowledgements, shifts and opening it again is refused. */
int sb_store_sign(struct sb_store *store, const char *who, const char *capacity, const char *statement,
	struct sb_err *err);
int sb_store_reopen(struct sb_store *store, const char *who, const char *reason, struct sb_err *err);

/* An entry beside or after the pilot: of the sorts of model/fact.h that can be struck out. Given: fact, its
 * columns; what was done, for the act's line ("pass 2, joint 41"); why, remarks or a reason, NULL for none.
 */
int sb_store_enter(struct sb_store *store, const char *who, enum act_kind kind, const void *fact,
	const char *what, const char *why, struct sb_err *err);
/* Strikes out what an act of these entered (model/entry.h); reason is required. */
int sb_store_strike(
	struct sb_store *store, const char *who, int64_t entry, const char *reason, struct sb_err *err);

/* A shift: names of the crew, remarks. Beginning one ends the one that runs. */
int sb_store_shift_begin(struct sb_store *store, const char *who, const char *names, struct sb_err *err);
int sb_store_shift_end(struct sb_store *store, const char *who, const char *remarks, struct sb_err *err);

#endif

/* What is half typed, kept beside the job file so that a hang-up, a kill or a power cut loses none of it.
 *
 * One small file JOB.bore.draft: lines `name=text`. Written at each key without syncing (a kill or a dead
 * link loses nothing), synced when the hand pauses (a power cut loses a moment).
 */
#ifndef SB_STORE_DRAFT_H
#define SB_STORE_DRAFT_H

#include "base/err.h"
#include "base/str.h"

#include <stdbool.h>
#include <stdint.h>

#define SB_DRAFT_FIELDS 32

struct draft {
	int leg, joint; /* what it was typed for */
	int64_t at_ms;
	size_t count;
	struct {
		char name[32];
		char text[256];
	} fields[SB_DRAFT_FIELDS];
};

/* job_path: of the job file. */
int sb_draft_save(const char *job_path, const struct draft *d, bool sync, struct sb_err *err);
/* 1 found, 0 none (or one that cannot be read: set aside as JOB.bore.draft.bad), -1 failed. */
int sb_draft_load(const char *job_path, struct draft *d, struct sb_err *err);
void sb_draft_discard(const char *job_path);

#endif

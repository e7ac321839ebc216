/* Job files for tests: made in a folder of their own, from the ready jobs. */
#ifndef SUPPORT_FILES_H
#define SUPPORT_FILES_H

#include "store/store.h"

struct files {
	char folder[64];
	char job[96]; /* of the job file in it */
};

/* A job file of a ready job (support/jobs.h: the function that makes it), with so many joints that follow
 * the design, scattered a little. */
void files_make(struct files *f, void (*make)(struct job *job), int joints);
void files_remove(struct files *f);

/* Logs joints one after the other, scattered around the design. */
void files_log(struct sb_store *store, int joints);

#endif

/* Reading the facts back: the job as it was said, from the file. */
#ifndef SB_STORE_RECALL_H
#define SB_STORE_RECALL_H

#include "base/sql.h"
#include "model/job.h"

/* Fills an empty job. Nothing of the file is believed: what no program of this kind would have written is
 * SB_DAMAGED, what only a later one would is SB_NEWER. To be called within a transaction, so that all tables
 * are of one moment. On failure the job is empty again. */
int sb_recall_job(struct sb_sql *db, struct job *job, struct sb_err *err);

#endif

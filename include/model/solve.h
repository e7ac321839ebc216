/* The spine: from the job's facts to everything that is known about the bore. Read this first.
 *
 * reading -> row (attitude, arc, position) -> deviation -> corridor, bend -> warnings -> advice
 *
 * sb_solve goes through all facts in the order of time; sb_solve_joint adds the last joint alone, in time
 * that does not depend on how many there are, and gives the same bits as solving again from the start.
 */
#ifndef SB_MODEL_SOLVE_H
#define SB_MODEL_SOLVE_H

#include "model/solution.h"

/* Solves all. Returned: out (cleared first; sb_solution_clear when done). -1 when the sheet itself does
 * not hold together; problems (may be NULL) then lists everything, warnings too. */
int sb_solve(const struct job *job, struct solution *out, struct sb_problems *problems, struct sb_err *err);

/* Solves all as it would be with another correction of the path in force; NULL: with none, as it was read.
 * job is not changed; out as above. */
int sb_solve_with(
	const struct job *job, const struct adjustment *a, struct solution *out, struct sb_err *err);

/* The job has just had one joint appended by sb_job_add_reading: adds its row, its warnings, its advice.
 * Returned: changed_from   the first warnings[] index that was added or changed; warning_count if none. */
int sb_solve_joint(const struct job *job, struct solution *out, size_t *changed_from, struct sb_err *err);

/* What if: the same for a reading that is not logged. `out` takes the row, the bit, the advice and the
 * level that it would have; nothing else changes. */
struct preview {
	struct row row;
	struct bit bit;
	struct ahead ahead;
	struct budget budget;
	enum level level; /* worst of what this reading itself would open or hold open */
	size_t warning_count;
	struct warning warnings[WARNING_KINDS]; /* those that would be open */
};
int sb_solve_preview(const struct job *job, const struct solution *s, const struct reading *trial,
	struct preview *out, struct sb_err *err);

/* The job has just had an acknowledgement appended: marks the warnings that it covers. An acknowledgement
 * covers an episode as far as the level it had then: what grows from watch to breach is open again. */
void sb_solve_acknowledged(const struct job *job, struct solution *s);

#endif

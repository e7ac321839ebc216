/* Between the files of the opening: how it stood at an act.
 */
#ifndef MODEL_OPENING_PARTS_H
#define MODEL_OPENING_PARTS_H

#include "model/opening.h"

/* Passes, their joints and the hole, of the acts up to one, when the bore had so many joints; times and
 * volumes are left out. */
void sb_opening_stand(const struct job *job, int bore_joints, int64_t until_act, struct opening *out);

/* Index of a pass by its number. */
bool sb_opening_find(const struct opening *o, int number, size_t *at);
/* The begin of the pull, if it was entered by then; NULL: it was not. */
const struct pull_begin *sb_opening_pulled(const struct job *job, int64_t until_act);

/* The rules that are not kept, put into o->faults. pulled: the pull has begun. */
void sb_opening_rules(const struct job *job, bool pulled, struct opening *o);
/* One more of them. */
void sb_opening_fault(struct opening *o, enum level level, int pass, const char *format, ...)
	__attribute__((format(printf, 4, 5)));

#endif

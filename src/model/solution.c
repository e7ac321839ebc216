/* What is asked of a solution everywhere. */
#include "model/solution.h"

#include "base/mem.h"

#include <string.h>

struct setup sb_solution_setup(const struct job *job, const struct solution *s)
{
	return (struct setup){ job, &s->frame, &s->design, &s->corridor };
}

struct clearance_ask sb_solution_clearance(const struct job *job, const struct solution *s)
{
	return (struct clearance_ask){ sb_solution_setup(job, s), &s->around, &s->uncertainty, &s->path,
		&s->bit, &s->fixes, NULL };
}

const struct row *sb_solution_last(const struct solution *s)
{
	return &s->path.rows[s->path.count - 1];
}

const struct row *sb_solution_last_on_path(const struct solution *s)
{
	return sb_path_back(&s->path, 0);
}

size_t sb_solution_unacknowledged(const struct solution *s)
{
	size_t count = 0;

	for (size_t i = 0; i < s->warning_count; i++)
		count += !s->warnings[i].acknowledged && !s->warnings[i].superseded;
	return count;
}

void sb_solution_clear(struct solution *s)
{
	sb_design_clear(&s->design);
	sb_corridor_clear(&s->corridor);
	sb_surroundings_clear(&s->around);
	sb_path_clear(&s->path);
	sb_fixes_clear(&s->fixes);
	sb_fixes_tie_free(s->tie);
	sb_free(s->warnings);
	memset(s, 0, sizeof *s);
	for (int k = 0; k < WARNING_KINDS; k++)
		s->open[k] = -1;
}

/* Rehearsals that a person drills: the job file holds ground, seed and log, and the truth is drilled anew
 * from them whenever it is asked, so that nothing of it has to be kept and nothing can be lost.
 */
#include "model/rehearsal.h"

#include "base/str.h"
#include "geom/angle.h"
#include "rehearsal_truth.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int sb_rehearsal_mark(struct job *job, const struct rehearsal_scenario *ground, int seed, struct sb_err *err)
{
	char name[SB_NAME_TEXT];

	if (snprintf(name, sizeof name, "REHEARSAL %s", job->name) >= (int)sizeof name)
		return sb_fail(err, SB_RANGE, "The job's name is too long to be marked as a rehearsal.");
	sb_copy(job->name, sizeof job->name, name);
	snprintf(job->rehearsal, sizeof job->rehearsal, "%s %d", ground->name, seed);
	return 0;
}

static int parse(const char *text, const struct rehearsal_scenario **ground, unsigned long long *seed,
	struct sb_err *err)
{
	char name[SB_NAME_TEXT];
	const char *space = strchr(text, ' ');
	char *end;

	if (*text == '\0')
		return sb_fail(err, SB_STATE, "This job is no rehearsal: its ground is out there.");
	sb_copy(name, sizeof name, text);
	name[strcspn(name, " ")] = '\0';
	*ground = sb_rehearsal_scenario(name);
	*seed = space ? strtoull(space + 1, &end, 10) : 0;
	if (*ground == NULL || space == NULL || end == space + 1 || *end != '\0')
		return sb_fail(err, SB_FORMAT,
			"[job] rehearsal '%.60s' is not a ground and a seed, like: nominal 42", text);
	return 0;
}

static void drill_again(struct rehearsal *r, const struct reading *logged)
{
	double length = sb_frame_metres(&r->frame, logged->joint_length.value);
	double slid = sb_frame_metres(&r->frame, logged->slid.value);
	struct reading out;

	sb_rehearsal_drill(r, length, sb_rad(logged->tool_face.value), slid < length ? slid : length, &out);
}

struct rehearsal *sb_rehearsal_of(const struct job *job, struct sb_err *err)
{
	const struct rehearsal_scenario *ground = NULL;
	unsigned long long seed = 0;
	size_t leg = 0;

	if (parse(job->rehearsal, &ground, &seed, err))
		return NULL;
	struct rehearsal *r = sb_rehearsal_new(job, &ground->ground, seed, false, err);
	for (size_t i = 0; r && i < job->joint_count; i++) {
		const struct reading *logged = &job->readings[job->joints[i]];
		while (leg < job->leg_count && job->legs[leg].number <= logged->leg)
			sb_rehearsal_withdraw(r, job->legs[leg++].to_joint);
		drill_again(r, logged);
	}
	while (r && leg < job->leg_count)
		sb_rehearsal_withdraw(r, job->legs[leg++].to_joint);
	return r;
}

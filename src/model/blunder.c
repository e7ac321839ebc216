/* Slips of the pen, by two senses. The first knows what a string can do and what is ordinary in this bore
 * (blunder_turn.c); the second, where slides are written down, knows what they should have brought
 * (blunder_expected.c). Where something is expected, what is ordinary has nothing to add: only what cannot
 * be.
 */
#include "blunder_parts.h"

#include "base/str.h"

struct suspicion *blunder_add(struct findings *f, bool held, const char *field, const char *slip)
{
	if (f->count == SB_SUSPICIONS)
		return &f->out[SB_SUSPICIONS - 1];
	struct suspicion *s = &f->out[f->count++];
	*s = (struct suspicion){ .held = held, .field = field };
	sb_copy(s->slip, sizeof s->slip, slip);
	return s;
}

void blunder_capital(char *text)
{
	if (*text >= 'a' && *text <= 'z')
		*text = (char)(*text - 'a' + 'A');
}

static void look_at_angles(struct findings *f, const struct setup *setup, const struct solution *s,
	const struct reading *trial, double survey_m, double joint_m)
{
	double course = survey_m - sb_solution_last_on_path(s)->survey_md_m;
	struct weighed w = blunder_weigh(setup, s, trial, survey_m, joint_m);

	if (!w.held && blunder_look_at_turn(f, setup, s, trial, course > 0 ? course : joint_m, w.known))
		return;
	if (w.remarked)
		blunder_say_weighed(f, setup, s, &w);
}

static void put_held_first(const struct findings *f)
{
	struct suspicion *out = f->out;

	for (size_t i = 1; i < f->count; i++)
		for (size_t j = i; j > 0 && out[j].held && !out[j - 1].held; j--) {
			struct suspicion swap = out[j];
			out[j] = out[j - 1];
			out[j - 1] = swap;
		}
}

/* frame: in which the trial was read. */
static size_t look(const struct job *job, const struct frame *frame, const struct solution *s,
	const struct reading *trial, const struct depth_check *depths, struct suspicion out[SB_SUSPICIONS])
{
	const struct setup setup = { job, frame, &s->design, &s->corridor };
	struct findings f = { .out = out, .unit = job->unit };
	const struct row *last = sb_solution_last(s);
	struct reading r = *trial;

	if (!sb_number_given(&r.joint_length))
		r.joint_length = sb_job_tally(job, last->joint + 1);
	double joint_m = sb_frame_metres(frame, r.joint_length.value), bit_m = last->bit_md_m + joint_m;
	if (sb_reading_taken(&r))
		look_at_angles(&f, &setup, s, &r, bit_m - frame->sensor_to_bit_m, joint_m);
	blunder_look_at_joint(&f, job, s, &r, depths, bit_m);
	put_held_first(&f);
	return f.count;
}

size_t sb_blunder_look(const struct job *job, const struct solution *s, const struct reading *trial,
	const struct depth_check *depths, struct suspicion out[SB_SUSPICIONS])
{
	return look(job, &s->frame, s, trial, depths, out);
}

size_t sb_blunder_look_again(const struct job *job, const struct reading *old,
	const struct reading *corrected, struct suspicion out[SB_SUSPICIONS])
{
	struct solution s = { 0 };
	struct job before;
	size_t count = 0;

	if (sb_job_joint(job, old->joint) != old)
		return 0;
	sb_job_copy(job, &before);
	struct leg pulled_back = { .number = sb_job_leg(job) + 1, .to_joint = old->joint - 1 };
	sb_job_add_leg(&before, &pulled_back);
	if (sb_solve(&before, &s, NULL, NULL) == 0) {
		struct frame then; /* the tool and the reference that the joint was read with */
		sb_frame_for(job, &s.frame, old, &then);
		count = look(&before, &then, &s, corrected, NULL, out);
	}
	sb_solution_clear(&s);
	sb_job_clear(&before);
	return count;
}

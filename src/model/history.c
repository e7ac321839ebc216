/* One table says of each kind of act how people call it and what sort of act it is. */
#include "model/history.h"

#include "base/mem.h"
#include "base/str.h"

enum sort { SORT_LOG, SORT_PLAIN, SORT_EDIT, SORT_ACCEPTED };

static const struct {
	const char *word;
	enum sort sort;
} sorts[] = {
	[ACT_NEW] = { "job made", SORT_PLAIN },
	[ACT_LOG] = { "logged", SORT_LOG }, /* with a reason: accepted */
	[ACT_CORRECT] = { "corrected", SORT_EDIT },
	[ACT_WITHDRAW] = { "pulled back", SORT_EDIT },
	[ACT_NOTE] = { "note", SORT_PLAIN },
	[ACT_ACKNOWLEDGE] = { "acknowledged", SORT_ACCEPTED },
	[ACT_SHIFT_BEGIN] = { "shift begun", SORT_PLAIN },
	[ACT_SHIFT_END] = { "shift ended", SORT_PLAIN },
	[ACT_CHANGE] = { "changed", SORT_EDIT },
	[ACT_REPEAT] = { "read again", SORT_PLAIN },
	[ACT_FIX] = { "fix", SORT_PLAIN },
	[ACT_FIX_USE] = { "use of a fix", SORT_EDIT },
	[ACT_ADJUST] = { "adjusted", SORT_EDIT },
	[ACT_ADJUST_BACK] = { "taken back", SORT_EDIT },
	[ACT_ACCEPT] = { "accepted", SORT_ACCEPTED },
	[ACT_ACCEPT_BACK] = { "not accepted", SORT_EDIT },
	[ACT_TICK] = { "ticked off", SORT_ACCEPTED },
	[ACT_TICK_BACK] = { "not done", SORT_EDIT },
	[ACT_SIGN] = { "signed", SORT_ACCEPTED },
	[ACT_REOPEN] = { "reopened", SORT_EDIT },
	[ACT_RETURNS] = { "fluid", SORT_PLAIN },
	[ACT_PASS] = { "pass begun", SORT_PLAIN },
	[ACT_PASS_JOINT] = { "opened", SORT_LOG },
	[ACT_PASS_END] = { "pass ended", SORT_PLAIN },
	[ACT_PIPE] = { "pipe", SORT_LOG },
	[ACT_PIPE_RECORD] = { "pipe record", SORT_PLAIN },
	[ACT_PULL] = { "pull begun", SORT_PLAIN },
	[ACT_PULL_JOINT] = { "pulled", SORT_LOG },
	[ACT_PULL_END] = { "pull ended", SORT_PLAIN },
	[ACT_STRIKE] = { "struck out", SORT_EDIT },
};

const char *sb_history_word(enum act_kind kind)
{
	return sorts[kind].word;
}

const char *sb_history_name(enum history_which w)
{
	static const char *const names[HISTORY_WHICH] = { "all", "decisions", "edits", "accepted" };

	return names[w];
}

bool sb_history_is(const struct act *a, enum history_which which)
{
	bool slip = a->kind == ACT_LOG && a->text[0] != '\0';

	switch (which) {
	case HISTORY_DECISIONS:
		return sorts[a->kind].sort != SORT_LOG || slip;
	case HISTORY_EDITS:
		return sorts[a->kind].sort == SORT_EDIT;
	case HISTORY_ACCEPTED:
		return slip || sorts[a->kind].sort == SORT_ACCEPTED;
	case HISTORY_ALL:
	case HISTORY_WHICH:
		break;
	}
	return true;
}

/* Going on from the act before: which shift runs, and how many were begun. */
struct shifts {
	int begun;
	bool runs;
};

static int step(struct shifts *s, const struct act *a)
{
	if (a->kind == ACT_SHIFT_BEGIN) {
		s->begun++;
		s->runs = true;
	}
	int here = s->runs ? s->begun : 0;
	if (a->kind == ACT_SHIFT_END)
		s->runs = false;
	return here;
}

size_t sb_history_pick(const struct job *job, const struct history_filter *f, size_t **out)
{
	size_t *list = sb_alloc((job->act_count + 1) * sizeof *list), count = 0;
	struct shifts s = { 0 };

	for (size_t i = 0; i < job->act_count; i++) {
		const struct act *a = &job->acts[i];
		int shift = step(&s, a);
		if (sb_history_is(a, f->which) &&
			(f->who == NULL || *f->who == '\0' || sb_same(f->who, a->who)) &&
			(f->shift == 0 || f->shift == shift))
			list[count++] = i;
	}
	*out = list;
	return count;
}

int sb_history_shift_of(const struct job *job, size_t act)
{
	struct shifts s = { 0 };
	int shift = 0;

	for (size_t i = 0; i <= act && i < job->act_count; i++)
		shift = step(&s, &job->acts[i]);
	return shift;
}

const struct act *sb_history_shift(const struct job *job, int shift)
{
	int begun = 0;

	for (size_t i = 0; i < job->act_count; i++)
		if (job->acts[i].kind == ACT_SHIFT_BEGIN && ++begun == shift)
			return &job->acts[i];
	return NULL;
}

int sb_history_shifts(const struct job *job)
{
	int begun = 0;

	for (size_t i = 0; i < job->act_count; i++)
		begun += job->acts[i].kind == ACT_SHIFT_BEGIN;
	return begun;
}

size_t sb_history_people(const struct job *job, const char ***out)
{
	const char **names = NULL;
	size_t count = 0, room = 0;

	for (size_t i = 0; i < job->act_count; i++) {
		size_t k = 0;
		while (k < count && !sb_same(names[k], job->acts[i].who))
			k++;
		if (k < count)
			continue;
		names = sb_grow(names, count, &room, sizeof *names);
		names[count++] = job->acts[i].who;
	}
	*out = names;
	return count;
}

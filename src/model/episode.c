/* One episode of a kind is open at a time, but for the kinds of which each stands alone. */
#include "episode.h"

#include "base/mem.h"
#include "base/str.h"
#include "model/azimuth.h"

struct episode_at episode_at(const struct row *row)
{
	return (struct episode_at){ row->leg, row->joint, row->deviation.station_m, 0 };
}

void episode_write(struct warning *w, const struct episode_at *at, const struct verdict *v)
{
	w->level = v->level;
	w->worst_joint = at->joint;
	w->station_m = at->station_m;
	w->value = v->value;
	w->limit = v->limit;
	if (at->act && !sb_same(w->text, v->text))
		w->act = at->act;
	sb_copy(w->text, sizeof w->text, v->text);
}

/* Whether a verdict is worse than what the episode says: a higher level, or further past the limit. */
static bool worse(const struct warning *w, const struct verdict *v)
{
	if (v->level != w->level)
		return v->level > w->level;
	return sb_warning_past(w->kind, v->value, v->limit) > sb_warning_past(w->kind, w->value, w->limit);
}

/* A passing kind speaks of now, so its episode always says the newest. */
static void extend(struct warning *w, const struct episode_at *at, const struct verdict *v)
{
	w->last_joint = at->joint;
	if (worse(w, v) || (sb_warning_sorts[w->kind].passing && v->level >= w->level))
		episode_write(w, at, v);
}

static size_t open_episode(
	struct solution *s, enum warning_kind kind, const struct episode_at *at, const struct verdict *v)
{
	s->warnings = sb_grow(s->warnings, s->warning_count, &s->warning_room, sizeof *s->warnings);
	struct warning *w = &s->warnings[s->warning_count];
	*w = (struct warning){
		.kind = kind, .leg = at->leg, .joint = at->joint, .last_joint = at->joint, .open = true
	};
	episode_write(w, at, v);
	s->open[kind] = (int)s->warning_count;
	return s->warning_count++;
}

/* Returned: the warnings[] index touched, SIZE_MAX if none. */
static size_t take_at(
	struct solution *s, enum warning_kind kind, const struct episode_at *spot, const struct verdict *v)
{
	int at = s->open[kind];

	if (v->level != LEVEL_OK && at < 0)
		return open_episode(s, kind, spot, v);
	if (at < 0)
		return SIZE_MAX;
	if (v->level != LEVEL_OK) {
		extend(&s->warnings[at], spot, v);
	} else {
		s->warnings[at].open = false;
		s->open[kind] = -1;
	}
	return (size_t)at;
}

size_t episode_take(
	struct solution *s, enum warning_kind kind, const struct row *row, const struct verdict *v)
{
	struct episode_at spot = episode_at(row);

	return take_at(s, kind, &spot, v);
}

size_t episode_take_all(struct solution *s, const struct row *row, const struct verdict *verdicts)
{
	size_t first = SIZE_MAX;

	for (int k = 0; k < WARNING_KINDS; k++) {
		if (sb_warning_sorts[k].event)
			continue;
		size_t touched = episode_take(s, (enum warning_kind)k, row, &verdicts[k]);
		if (touched < first)
			first = touched;
	}
	return first;
}

static bool covers(const struct acknowledgement *a, const struct warning *w)
{
	return a->leg == w->leg && a->joint == w->joint && a->level >= (int)w->level &&
		(w->act == 0 || a->act > w->act) && sb_same(a->kind, sb_warning_sorts[w->kind].name);
}

void episode_mark_acknowledged(const struct job *job, struct warning *w)
{
	w->acknowledged = false;
	w->acknowledged_by[0] = '\0';
	for (size_t i = job->acknowledgement_count; i-- > 0;)
		if (covers(&job->acknowledgements[i], w)) {
			w->acknowledged = true;
			sb_copy(w->acknowledged_by, sizeof w->acknowledged_by, job->acknowledgements[i].who);
			return;
		}
	/* a choice has a name and a reason as well */
	const struct change *c = sb_azimuth_settled(job, w);
	w->acknowledged = c != NULL;
	if (c)
		sb_copy(w->acknowledged_by, sizeof w->acknowledged_by, c->fact.who);
}

/* The one of its kind at that joint, of which there is only one. */
static struct warning *alone_at(struct solution *s, const struct finding *e, int leg)
{
	for (size_t i = s->warning_count; i-- > 0;) {
		struct warning *w = &s->warnings[i];
		if (w->kind == e->kind && w->leg == leg && w->joint == e->joint)
			return w;
	}
	return NULL;
}

size_t episode_take_finding(struct solution *s, const struct finding *e, int its_leg, int64_t act)
{
	int leg = e->leg ? e->leg : its_leg;
	struct episode_at spot = { leg, e->joint, e->station_m, act };
	bool alone = sb_warning_sorts[e->kind].event == EVENT_ALONE;
	struct warning *known = alone ? alone_at(s, e, leg) : NULL;

	if (known) {
		known->open = e->verdict.level != LEVEL_OK;
		if (known->open)
			episode_write(known, &spot, &e->verdict);
		return (size_t)(known - s->warnings);
	}
	size_t touched = take_at(s, e->kind, &spot, &e->verdict);
	if (alone)
		s->open[e->kind] = -1;
	return touched;
}

void episode_find_open(struct solution *s)
{
	for (size_t i = 0; i < s->warning_count; i++)
		if (s->warnings[i].open && sb_warning_sorts[s->warnings[i].kind].event == EVENT_EPISODE)
			s->open[s->warnings[i].kind] = (int)i;
}

/* Clearance and cover for people and for scripts, from one list. */
#include "io/passings.h"

#include "base/mem.h"
#include "draw/axis.h"

#include <math.h>
#include <stdio.h>

const char *const sb_passings_assumptions[] = {
	"Obstacles and ground lie where the sheet has them; only the hole's place is taken as unsure.",
	"The final hole is taken as centred on the pilot. Reaming can ride up or down: ask the engineer for that.",
	"Cover is measured to the ground over the design line.",
	NULL,
};

/* ---- the list ---- */

static enum level worst(enum level a, enum level b, enum level c)
{
	enum level ab = a > b ? a : b;

	return ab > c ? ab : c;
}

size_t sb_passings_list(const struct job *job, const struct solution *s, const struct plan *plan,
	struct passings **list, struct covers *covers)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	size_t count = s->around.count;

	*list = count ? sb_alloc(count * sizeof **list) : NULL;
	for (size_t i = 0; i < count; i++) {
		struct passings *p = &(*list)[i];
		*p = (struct passings){ .obstacle = &s->around.obstacles[i],
			.drilled = sb_clearance_drilled(&ask, i),
			.held = sb_clearance_held(&ask, i, SB_AHEAD_SIGHT),
			.planned = sb_clearance_planned(&ask, i, plan) };
		p->level = worst(p->drilled.level, p->held.level, p->planned.level);
	}
	*covers = (struct covers){ .drilled = sb_cover_drilled(&ask),
		.held = sb_cover_held(&ask, SB_AHEAD_SIGHT),
		.planned = sb_cover_planned(&ask, plan) };
	covers->level = worst(covers->drilled.level, covers->held.level, covers->planned.level);
	return count;
}

/* ---- for people ---- */

struct text {
	const struct job *job;
	const struct solution *s;
	struct sb_str *out;
	int decimals;
};

static double typed(const struct text *t, double metres)
{
	return sb_frame_typed(&t->s->frame, metres);
}

void sb_passings_words(
	const struct job *job, const struct solution *s, const struct passing *p, char text[SB_PASSINGS_TEXT])
{
	double wall = sb_frame_typed(&s->frame, p->wall_m);
	int d = job->unit == UNIT_M ? 2 : 1;
	char side[48];

	if (!p->known) {
		snprintf(text, SB_PASSINGS_TEXT, "-");
		return;
	}
	sb_passing_side(p, side);
	if (wall < 0)
		snprintf(text, SB_PASSINGS_TEXT, "walls overlap by %.*f %s", d, -wall,
			sb_unit_short(job->unit));
	else
		snprintf(text, SB_PASSINGS_TEXT, "%.*f %s %s it", d, wall, sb_unit_short(job->unit), side);
}

static void say_where(const struct text *t, int joint, double station_m)
{
	char station[SB_AXIS_TEXT];

	sb_axis_station(station_m, t->job->unit, 1, station);
	sb_str_add(t->out, ", joint %d, station %s", joint, station);
}

/* How sure: give or take, and the chance where something is required. */
static void say_sure(const struct text *t, double sigma_m, double chance)
{
	sb_str_add(t->out, "give or take %.*f %s (%s %%)", t->decimals,
		typed(t, t->s->uncertainty.line_factor * sigma_m), sb_unit_short(t->job->unit),
		t->job->confidence.text);
	if (!isnan(chance) && chance < 0.001)
		sb_str_add(t->out, ", under 0.1 %% chance of less");
	else if (!isnan(chance))
		sb_str_add(t->out, ", %.2g %% chance of less", chance * 100);
	sb_str_add(t->out, "\n");
}

static void say_passing(const struct text *t, const char *how, const struct passing *p)
{
	char words[SB_PASSINGS_TEXT];

	if (!p->known || p->leaves)
		return;
	sb_passings_words(t->job, t->s, p, words);
	sb_str_add(t->out, "  %-8s%s", how, words);
	say_where(t, p->joint, p->station_m);
	sb_str_add(t->out, "%s: %s\n", p->at_end ? ", so far" : "",
		isnan(p->required_m) ? "not judged" : sb_level_word(p->level));
	sb_str_add(t->out, "          ");
	if (!isnan(p->pilot_m) && !isnan(p->final_m))
		sb_str_add(t->out, "pilot %.*f; ", t->decimals, typed(t, p->pilot_m));
	say_sure(t, p->sigma_m, p->chance);
}

static struct text text_of(const struct job *job, const struct solution *s, struct sb_str *out)
{
	return (struct text){ job, s, out, job->unit == UNIT_M ? 2 : 1 };
}

static void say_obstacle(const struct text *t, const struct passings *p)
{
	const struct obstacle *o = p->obstacle;

	sb_str_add(t->out, "%s%s%s%s", o->name, *o->kind ? " (" : "", o->kind, *o->kind ? ")" : "");
	const struct passing *any = p->drilled.known ? &p->drilled : p->held.known ? &p->held : &p->planned;
	if (o->limited && any->known)
		sb_str_add(t->out, ", %.*f %s required", t->decimals, typed(t, any->required_m),
			sb_unit_short(t->job->unit));
	if (!o->limited)
		sb_str_add(t->out, ", nothing required");
	if (!o->sized)
		sb_str_add(t->out, ", no diameter in the sheet");
	sb_str_add(t->out, "\n");
	say_passing(t, "drilled", &p->drilled);
	say_passing(t, "held", &p->held);
	say_passing(t, "planned", &p->planned);
}

static void say_cover(const struct text *t, const char *how, const struct cover *c)
{
	if (!c->known)
		return;
	sb_str_add(t->out, "  %-8s%.*f %s of %.*f required", how, t->decimals, typed(t, c->cover_m),
		sb_unit_short(t->job->unit), t->decimals, typed(t, c->required_m));
	say_where(t, c->joint, c->station_m);
	sb_str_add(t->out, ": %s\n", sb_level_word(c->level));
	sb_str_add(t->out, "          ");
	say_sure(t, c->sigma_m, c->chance);
}

/* Where cover is asked for and the ground is not known. */
#define STRETCHES 16

static void say_unknown(const struct text *t)
{
	double from[STRETCHES], to[STRETCHES];
	size_t count = sb_surroundings_unknown(&t->s->around, from, to, STRETCHES);
	char one[SB_AXIS_TEXT], other[SB_AXIS_TEXT];

	for (size_t i = 0; i < count && i < STRETCHES; i++) {
		sb_axis_station(from[i], t->job->unit, 1, one);
		sb_axis_station(to[i], t->job->unit, 1, other);
		sb_str_add(t->out, "  not judged from station %s to %s: the sheet has no ground there\n", one,
			other);
	}
}

static void say_covers(const struct text *t, const struct covers *c)
{
	sb_str_add(t->out, "cover");
	if (t->s->around.range_count == 0)
		sb_str_add(t->out, ": the sheet asks for none");
	sb_str_add(t->out, "\n");
	say_cover(t, "drilled", &c->drilled);
	say_cover(t, "held", &c->held);
	say_cover(t, "planned", &c->planned);
	say_unknown(t);
}

void sb_passings_obstacle(
	const struct job *job, const struct solution *s, const struct passings *p, struct sb_str *out)
{
	struct text t = text_of(job, s, out);

	say_obstacle(&t, p);
}

void sb_passings_cover(
	const struct job *job, const struct solution *s, const struct covers *c, struct sb_str *out)
{
	struct text t = text_of(job, s, out);

	say_covers(&t, c);
}

static void say_hole(const struct text *t)
{
	const struct hole *h = &t->s->around.hole;
	const char *unit = t->job->unit == UNIT_M ? "mm" : "in";

	sb_str_add(
		t->out, "%s: what lies around the bore, wall to wall of %s", t->job->name, sb_hole_word(h));
	if (h->final_given || h->pilot_given)
		sb_str_add(t->out, " (%s %s)",
			h->final_given ? t->job->final_diameter.text : t->job->pilot_diameter.text, unit);
	sb_str_add(t->out, "\n");
}

void sb_passings_text(
	const struct job *job, const struct solution *s, const struct plan *plan, struct sb_str *out)
{
	struct text t = text_of(job, s, out);
	struct passings *list;
	struct covers covers;
	size_t count = sb_passings_list(job, s, plan, &list, &covers);

	say_hole(&t);
	for (size_t i = 0; i < count; i++)
		say_obstacle(&t, &list[i]);
	if (count == 0)
		sb_str_add(out, "The sheet has no obstacles.\n");
	say_covers(&t, &covers);
	for (size_t i = 0; sb_passings_assumptions[i]; i++)
		sb_str_wrap(out, sb_passings_assumptions[i], 0, 80);
	sb_free(list);
}

void sb_passings_plan(
	const struct job *job, const struct solution *s, const struct plan *plan, struct sb_str *out)
{
	struct clearance_ask ask = sb_solution_clearance(job, s);
	struct text t = text_of(job, s, out);
	struct cover c = sb_cover_planned(&ask, plan);
	char words[SB_PASSINGS_TEXT];

	for (size_t i = 0; i < s->around.count; i++) {
		struct passing p = sb_clearance_planned(&ask, i, plan);
		if (p.level == LEVEL_OK)
			continue;
		sb_passings_words(job, s, &p, words);
		sb_str_add(out, "near     %s: %s at joint %d, give or take %.*f; %.*f required\n",
			s->around.obstacles[i].name, words, p.joint, t.decimals,
			typed(&t, s->uncertainty.line_factor * p.sigma_m), t.decimals,
			typed(&t, p.required_m));
	}
	if (c.level != LEVEL_OK)
		sb_str_add(out, "cover    %.*f %s at joint %d, give or take %.*f; %.*f required\n",
			t.decimals, typed(&t, c.cover_m), sb_unit_short(job->unit), c.joint, t.decimals,
			typed(&t, s->uncertainty.line_factor * c.sigma_m), t.decimals,
			typed(&t, c.required_m));
}

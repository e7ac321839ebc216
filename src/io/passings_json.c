/* Clearance and cover as JSON. What is not known is null. */
#include "io/passings.h"

#include "base/mem.h"
#include "geom/angle.h"

#include <math.h>

static const double none = (double)NAN;

static void put_length(struct sb_json *j, const struct solution *s, const char *name, double metres)
{
	sb_json_exact(j, name, isnan(metres) ? none : sb_frame_typed(&s->frame, metres));
}

static void put_passing(
	struct sb_json *j, const struct solution *s, const char *name, const struct passing *p)
{
	char side[48];

	if (!p->known) {
		sb_json_null(j, name);
		return;
	}
	sb_passing_side(p, side);
	sb_json_object(j, name);
	sb_json_text(j, "level", sb_level_word(p->level));
	sb_json_whole(j, "joint", p->joint);
	put_length(j, s, "depth", p->md_m);
	put_length(j, s, "station", p->station_m);
	put_length(j, s, "clearance", p->wall_m);
	put_length(j, s, "clearance_pilot", p->pilot_m);
	put_length(j, s, "clearance_final", p->final_m);
	put_length(j, s, "required", p->required_m);
	put_length(j, s, "sigma", p->sigma_m);
	put_length(j, s, "give_or_take", s->uncertainty.line_factor * p->sigma_m);
	sb_json_exact(j, "chance_of_less", p->chance);
	sb_json_text(j, "side", side);
	put_length(j, s, "above", p->above_m);
	put_length(j, s, "right", p->right_m);
	put_length(j, s, "ahead", p->ahead_m);
	sb_json_bool(j, "so_far", p->at_end);
	sb_json_bool(j, "leaves", p->leaves);
	sb_json_end(j);
}

static void put_cover(struct sb_json *j, const struct solution *s, const char *name, const struct cover *c)
{
	if (!c->known) {
		sb_json_null(j, name);
		return;
	}
	sb_json_object(j, name);
	sb_json_text(j, "level", sb_level_word(c->level));
	sb_json_whole(j, "joint", c->joint);
	put_length(j, s, "depth", c->md_m);
	put_length(j, s, "station", c->station_m);
	put_length(j, s, "cover", c->cover_m);
	put_length(j, s, "required", c->required_m);
	put_length(j, s, "sigma", c->sigma_m);
	put_length(j, s, "give_or_take", s->uncertainty.line_factor * c->sigma_m);
	sb_json_exact(j, "chance_of_less", c->chance);
	sb_json_end(j);
}

static void put_obstacle(struct sb_json *j, const struct solution *s, const struct passings *p, bool drilled)
{
	sb_json_object(j, NULL);
	sb_json_text(j, "name", p->obstacle->name);
	sb_json_text_or_null(j, "kind", p->obstacle->kind);
	sb_json_text(j, "level", sb_level_word(p->level));
	if (drilled)
		put_passing(j, s, "drilled", &p->drilled);
	put_passing(j, s, "held", &p->held);
	put_passing(j, s, "planned", &p->planned);
	sb_json_end(j);
}

static void put_hole(struct sb_json *j, const struct job *job, const struct solution *s)
{
	sb_json_object(j, "hole");
	sb_json_typed(j, "pilot_diameter", &job->pilot_diameter);
	sb_json_typed(j, "final_diameter", &job->final_diameter);
	sb_json_text(j, "diameter_unit", job->unit == UNIT_M ? "mm" : "in");
	sb_json_text(j, "judged_by", sb_hole_word(&s->around.hole));
	sb_json_end(j);
}

#define STRETCHES 16

static void put_unknown(struct sb_json *j, const struct solution *s)
{
	double from[STRETCHES], to[STRETCHES];
	size_t count = sb_surroundings_unknown(&s->around, from, to, STRETCHES);

	sb_json_array(j, "not_judged");
	for (size_t i = 0; i < count && i < STRETCHES; i++) {
		sb_json_object(j, NULL);
		put_length(j, s, "from", from[i]);
		put_length(j, s, "to", to[i]);
		sb_json_end(j);
	}
	sb_json_end(j);
}

static void put_all(struct sb_json *j, const struct job *job, const struct solution *s,
	const struct plan *plan, bool drilled)
{
	struct passings *list;
	struct covers covers;
	size_t count = sb_passings_list(job, s, plan, &list, &covers);

	sb_json_array(j, drilled ? "obstacles" : "clearances");
	for (size_t i = 0; i < count; i++)
		put_obstacle(j, s, &list[i], drilled);
	sb_json_end(j);
	sb_json_object(j, "cover");
	if (drilled)
		put_cover(j, s, "drilled", &covers.drilled);
	put_cover(j, s, "held", &covers.held);
	put_cover(j, s, "planned", &covers.planned);
	put_unknown(j, s);
	sb_json_end(j);
	sb_free(list);
}

void sb_passings_ahead(
	struct sb_json *j, const struct job *job, const struct solution *s, const struct plan *plan)
{
	put_all(j, job, s, plan, false);
}

void sb_passings_json(
	const struct job *job, const struct solution *s, const struct plan *plan, struct sb_str *out)
{
	struct sb_json j = { .text = *out };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "unit", sb_unit_name(job->unit));
	put_hole(&j, job, s);
	sb_json_typed(&j, "confidence_percent", &job->confidence);
	put_all(&j, job, s, plan, true);
	sb_json_array(&j, "assumptions");
	for (size_t i = 0; sb_passings_assumptions[i]; i++)
		sb_json_text(&j, NULL, sb_passings_assumptions[i]);
	sb_json_end(&j);
	sb_json_end(&j);
	*out = j.text;
}

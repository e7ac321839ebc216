/* What the job takes from the map and the earth's field: declination, convergence, scale; and the gates that
 * a reading's field has to pass. */
#include "base/time.h"
#include "geom/angle.h"
#include "io/links.h"
#include "io/site.h"
#include "model/sixaxis.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

/* The settings in force for the next joint, and what map and model say of the place. */
struct place_asked {
	struct job as;
	struct site site;
	struct comparison held[HELD_COUNT];
};

static void ask_place(struct explaining *x, struct place_asked *p)
{
	p->as = sb_frame_settings(x->job, NULL);
	sb_site_find(&p->as, sb_time_now(), &p->site);
	sb_site_compare(&p->as, &x->s->frame, &p->site, p->held);
}

static void put_place(struct explaining *x, const struct site *s)
{
	if (!s->mapped) {
		explain_words(x, EXPLAIN_NOTE, "%s",
			s->local ? "The job's coordinates are local: there is no map to ask." : s->map_says);
		return;
	}
	explain_choice(x, "map", x->job->crs, "%s; %s", s->system, s->table);
	explain_input(x, "latitude", AS_ANGLE, s->grid.world.latitude_rad,
		"of the entry on WGS84, from [control] entry; north positive");
	explain_input(x, "longitude", AS_ANGLE, s->grid.world.longitude_rad, "likewise; east positive");
}

/* The job's own figure, which is what it computes with. */
static void put_own(
	struct explaining *x, const char *key, const struct number *n, const char *unit, const char *words)
{
	char source[SB_LINK_SOURCE];

	sb_links_source(x->job, NULL, "azimuth", key, source);
	if (sb_number_given(n))
		explain_typed(x, "job", n, unit, "%s: [azimuth] %s, %s", words, key, source);
	else
		explain_choice(x, "job", "-", "%s: not given ([azimuth] %s)", words, key);
}

static void put_comparison(struct explaining *x, const struct comparison *c)
{
	if (c->known)
		explain_words(x, EXPLAIN_LIMIT, "%s %s", c->words, c->level == LEVEL_OK ? "(ok)" : "(watch)");
}

void explain_declination(struct explaining *x)
{
	struct place_asked p;

	ask_place(x, &p);
	explain_words(x, EXPLAIN_FORMULA, "D = atan2(east, north) of the earth's field; true = magnetic + D");
	put_own(x, "declination", &p.as.declination, "deg", "true minus magnetic, east positive");
	put_place(x, &p.site);
	if (p.site.magnetic) {
		const struct magnet_field *f = &p.site.magnet.field;
		explain_input(x, "year", AS_NUMBER, sb_time_year(p.site.ms), "of this moment");
		explain_step(x, "north", AS_NUMBER, f->north_nt, "nT, by %s at the entry", SB_MAGNET_MODEL);
		explain_step(x, "east", AS_NUMBER, f->east_nt, "nT");
		explain_step(x, "total", AS_NUMBER, f->total_nt, "nT; dip %.2f deg", sb_deg(f->dip_rad));
		explain_step(x, "D", AS_ANGLE, f->declination_rad,
			"of the model, give or take %.2f deg (one sigma: iron in the ground and storms are not in it)",
			sb_deg(p.site.magnet.sigma.declination_rad));
		explain_check(x, AS_ANGLE, atan2(f->east_nt, f->north_nt), f->declination_rad,
			"atan2(east, north)");
	} else {
		explain_words(x, EXPLAIN_NOTE, "%s", p.site.magnet_says);
	}
	if (sb_number_given(&p.as.declination))
		explain_as_typed(x, "declination", &p.as.declination, "what the job computes with (deg)%s",
			p.as.reference == REFERENCE_MAGNETIC ? ""
							     : "; with its reference it is kept to compare");
	put_comparison(x, &p.held[HELD_DECLINATION]);
	explain_words(x, EXPLAIN_SOURCE,
		"NOAA NCEI and British Geological Survey, World Magnetic Model 2025-2030 (2024)");
}

void explain_convergence(struct explaining *x)
{
	struct place_asked p;

	ask_place(x, &p);
	explain_words(x, EXPLAIN_FORMULA,
		"g = direction of grid north from true north, east positive; grid = true - g");
	put_own(x, "convergence", &p.as.convergence, "deg", "grid north from true north");
	put_place(x, &p.site);
	if (p.site.mapped)
		explain_step(x, "map", AS_ANGLE, p.site.grid.convergence_rad,
			"of the map at the entry: two points 20 m up and down the meridian, projected");
	if (sb_number_given(&p.as.convergence))
		explain_as_typed(x, "convergence", &p.as.convergence, "what the job computes with (deg)");
	put_comparison(x, &p.held[HELD_CONVERGENCE]);
	explain_words(x, EXPLAIN_SOURCE, "the projection itself, as EPSG defines it (PROJ)");
}

void explain_scale(struct explaining *x)
{
	struct place_asked p;

	ask_place(x, &p);
	explain_words(
		x, EXPLAIN_FORMULA, "k = scale of the projection x R / (R + height); ground = grid / k");
	put_own(x, "scale_factor", &p.as.scale_factor, "", "grid distance over ground distance");
	put_place(x, &p.site);
	if (p.site.mapped) {
		const struct crs_point *g = &p.site.grid;
		explain_step(x, "projection", AS_NUMBER, g->scale,
			"length on the grid over that on the ellipsoid, at the entry");
		explain_step(x, "height", AS_NUMBER, g->height_factor,
			"R / (R + height), at the entry's elevation");
		explain_step(x, "entry", AS_NUMBER, g->combined, "combined, at the entry");
		explain_check(x, AS_NUMBER, g->scale * g->height_factor, g->combined, "the two multiplied");
		explain_step(x, "map", AS_NUMBER, p.site.combined, "mean of entry and exit");
	}
	explain_result(x, "scale_factor", AS_NUMBER,
		sb_number_given(&p.as.scale_factor) ? p.as.scale_factor.value : 1, x->s->frame.scale,
		"what the job computes with");
	put_comparison(x, &p.held[HELD_SCALE]);
	explain_words(x, EXPLAIN_SOURCE,
		"the projection itself, as EPSG defines it (PROJ); height factor: surveying practice");
}

/* ---- the gates ---- */

/* One total against what it must be at the site, in the tool's unit. */
static void put_gate(struct explaining *x, const struct number *read, const struct number *site,
	const char *symbol, const char *unit, const char *key, const char *section, double size,
	const struct number *gate, const char *gate_key, double kept)
{
	char where[EXPLAIN_WHERE], gate_where[EXPLAIN_WHERE];
	double off = (read->value - site->value) * size;

	if (!sb_number_given(read) || !sb_number_given(site))
		return;
	explain_typed(x, symbol, read, unit, "as the tool showed it");
	explain_typed(x, symbol, site, unit, "what it must be here: %s", explain_key(x, section, key, where));
	explain_result(x, symbol, AS_NUMBER, off, kept, "reading less site; at most %s either way, %s: %s",
		gate->text, explain_key(x, "tool", gate_key, gate_where),
		fabs(off) > gate->value ? "beyond it" : "ok");
}

void explain_field_gate(struct explaining *x)
{
	struct sixaxis_verdict v;
	char where[EXPLAIN_WHERE];

	explain_words(x, EXPLAIN_FORMULA,
		"total gravity, total field and dip of the reading, each less what it must be at the site, within its gate");
	if (x->r == NULL ||
		(!sb_number_given(&x->r->total_field) && !sb_number_given(&x->r->dip) &&
			!sb_number_given(&x->r->total_gravity))) {
		explain_words(x, EXPLAIN_NOTE,
			"No total of field or gravity and no dip was logged here: there is nothing to hold against the gates.");
		return;
	}
	struct job then = sb_frame_settings(x->job, x->r);
	explain_choice(x, "reading", x->r->who, "%s", explain_reading(x->row, x->r, where));
	if (!sb_sixaxis_judge(&then, x->r, &v)) {
		explain_words(x, EXPLAIN_NOTE,
			"The sheet does not say what field or dip must be here ([azimuth] total_field, dip): no gate.");
		return;
	}
	const struct number one_g = sb_number_of(1, 0);
	const struct tool_unit *gravity = &sb_gravity_units[then.gravity_unit],
			       *field = &sb_field_units[then.field_unit];
	put_gate(x, &x->r->total_field, &then.site_field, "field off", field->name, "total_field", "azimuth",
		field->size, &then.field_gate, "field_gate", v.field.field_off_nt);
	put_gate(x, &x->r->dip, &then.site_dip, "dip off", "deg", "dip", "azimuth", 1, &then.dip_gate,
		"dip_gate", sb_deg(v.field.dip_off_rad));
	const struct number *g = sb_number_given(&then.site_gravity) ? &then.site_gravity : &one_g;
	put_gate(x, &x->r->total_gravity, g, "gravity off", gravity->name, "total_gravity", "tool",
		sb_number_given(&then.site_gravity) ? 1 / then.site_gravity.value : gravity->size,
		&then.gravity_gate, "gravity_gate", v.field.gravity_off_share);
	explain_words(x, EXPLAIN_LIMIT, "%s: %s", v.field.cause == CAUSE_NONE ? "ok" : "watch", v.field.text);
	explain_words(x, EXPLAIN_SOURCE,
		"gates of field and dip: the trade's usual; of gravity: common practice, no source");
}

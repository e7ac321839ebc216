/* The walk over everything that has a place, and how a feature is added. */
#include "io/features.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"

#include <math.h>
#include <string.h>

#include "features_parts.h"

void features_begin(struct walk *w, enum feature_layer layer)
{
	struct features *f = w->out;

	f->list = sb_grow(f->list, f->count, &f->room, sizeof *f->list);
	f->list[f->count++] =
		(struct feature){ .layer = layer, .first = f->place_count, .values = f->value_count };
}

void features_put_place(struct walk *w, struct vec3 at)
{
	struct features *f = w->out;
	struct feature_place p = { 0 };

	sb_frame_grid(&w->s->frame, at, &p.e, &p.n, &p.z);
	if (w->plane == PLANE_PROFILE) {
		w->near_m = sb_design_station(&w->s->design, at, w->near_m, NULL);
		p = (struct feature_place){ sb_frame_typed(&w->s->frame, w->near_m), p.z, 0 };
	}
	f->places = sb_grow(f->places, f->place_count, &f->place_room, sizeof *f->places);
	f->places[f->place_count++] = p;
	f->list[f->count - 1].count++;
}

static void put_value(struct walk *w, struct feature_value v)
{
	struct features *f = w->out;

	f->values = sb_grow(f->values, f->value_count, &f->value_room, sizeof *f->values);
	f->values[f->value_count++] = v;
}

void features_put_number(struct walk *w, double value)
{
	put_value(w, (struct feature_value){ .given = isfinite(value), .number = value });
}

void features_put_length(struct walk *w, double metres)
{
	features_put_number(w, sb_frame_typed(&w->s->frame, metres));
}

void features_put_typed(struct walk *w, const struct number *n)
{
	features_put_number(w, sb_number_given(n) ? n->value : (double)NAN);
}

void features_put_text(struct walk *w, const char *text)
{
	struct features *f = w->out;
	struct feature_value v = { .given = *text != '\0' };

	if (v.given) {
		f->texts = sb_grow(f->texts, f->text_count, &f->text_room, sizeof *f->texts);
		v.text = f->texts[f->text_count++] = sb_strdup(text);
		sb_utf8_tame(f->texts[f->text_count - 1]);
	}
	put_value(w, v);
}

void features_put_time(struct walk *w, int64_t ms)
{
	char text[SB_TIME_TEXT];

	sb_time_iso(ms, text);
	features_put_text(w, text);
}

void sb_features_make(const struct export *e, enum feature_plane plane, struct features *out)
{
	struct walk w = { e->job, e->solution, plane, 0, out };

	memset(out, 0, sizeof *out);
	features_lay_out(out);
	features_path(&w);
	features_design(&w);
	features_marks(&w);
}

void sb_features_clear(struct features *f)
{
	for (size_t i = 0; i < f->text_count; i++)
		sb_free(f->texts[i]);
	sb_free(f->texts);
	sb_free(f->places);
	sb_free(f->values);
	sb_free(f->list);
	memset(f, 0, sizeof *f);
}

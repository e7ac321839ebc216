/* The walk over everything that has a place. */
#include "io/features.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "io/standing.h"
#include "model/fact.h"
#include "model/nonconformance.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A chord of a curve may lie so far beside it, m: a tenth of what a survey can tell. */
#define CHORD_OFF 0.005

/* ---- the layers and their fields ---- */

static const struct feature_field path_fields[] = {
	{ "leg", FEATURE_WHOLE, "1 until the string was pulled back to redrill, then 2 ..." },
	{ "standing", FEATURE_TEXT,
		"path: as it lies in the ground; withdrawn: pulled back, and drilled again" },
	{ "from_joint", FEATURE_WHOLE, "the joint that its first vertex is at; 0 is the entry" },
	{ "to_joint", FEATURE_WHOLE, "that of its last" },
	{ "length", FEATURE_REAL, "along the hole" },
};
static const struct feature_field design_fields[] = {
	{ "length", FEATURE_REAL, "horizontal, along the alignment" },
};
static const struct feature_field corridor_fields[] = {
	{ "side", FEATURE_TEXT, "up, down, left or right of the design line, looking from entry to exit" },
};
static const struct feature_field ground_fields[] = {
	{ "from_station", FEATURE_REAL, "where it begins" },
	{ "to_station", FEATURE_REAL, "where it ends" },
};
static const struct feature_field obstacle_fields[] = {
	{ "name", FEATURE_TEXT, "as the job sheet has it" },
	{ "kind", FEATURE_TEXT, "what it is" },
	{ "diameter", FEATURE_REAL, "the largest of its points" },
	{ "clearance", FEATURE_REAL, "to keep from it, wall to wall; the largest of its points" },
};
static const struct feature_field fix_fields[] = {
	{ "fix", FEATURE_WHOLE, "its number" },
	{ "kind", FEATURE_TEXT, "what gave it" },
	{ "depth", FEATURE_REAL, "along the hole" },
	{ "verdict", FEATURE_TEXT, "whether it agrees with the path, or why it is not held against it" },
	{ "off_along", FEATURE_REAL, "fix less path, along the design line; blank: not observed" },
	{ "off_across", FEATURE_REAL, "likewise to the right" },
	{ "off_up", FEATURE_REAL, "likewise up" },
	{ "sigma_along", FEATURE_REAL, "one sigma of the fix" },
	{ "sigma_across", FEATURE_REAL, "likewise" },
	{ "sigma_up", FEATURE_REAL, "likewise" },
	{ "who", FEATURE_TEXT, "entered it" },
	{ "time", FEATURE_TEXT, "when, UTC" },
	{ "words", FEATURE_TEXT, "what was said of it" },
};
static const struct feature_field breach_fields[] = {
	{ "number", FEATURE_WHOLE, "of the list of non-conformances" },
	{ "kind", FEATURE_TEXT, "which limit" },
	{ "leg", FEATURE_WHOLE, "where it began" },
	{ "from_joint", FEATURE_WHOLE, "where it began" },
	{ "to_joint", FEATURE_WHOLE, "where it ended" },
	{ "worst_joint", FEATURE_WHOLE, "where this point is" },
	{ "station", FEATURE_REAL, "of the worst joint" },
	{ "value", FEATURE_REAL, "at the worst joint" },
	{ "limit_value", FEATURE_REAL, "what is allowed" },
	{ "disposition", FEATURE_TEXT, "open, accepted or redrilled" },
	{ "disposition_words", FEATURE_TEXT, "by whom, with which reference" },
	{ "words", FEATURE_TEXT, "what was broken" },
};
/* Beside the columns of the path. Accuracy as utility records ask for it: at the job's confidence. */
static const struct feature_field more_joint_fields[] = {
	{ "standing", FEATURE_TEXT, "path, withdrawn, or entry" },
	{ "accuracy_horizontal", FEATURE_REAL,
		"give or take at the job's confidence: the larger of along and across" },
	{ "accuracy_vertical", FEATURE_REAL, "likewise of the elevation" },
	{ "accuracy_percent", FEATURE_REAL, "that confidence" },
	{ "who", FEATURE_TEXT, "logged it" },
	{ "time", FEATURE_TEXT, "when, UTC" },
	{ "remarks", FEATURE_TEXT, "" },
};

#define FIELDS(f) (f), sizeof(f) / sizeof *(f)

static void lay_out(struct features *f)
{
	const struct feature_sort sorts[LAYERS] = {
		[LAYER_PATH] = { "path", GEOMETRY_LINE, "the bore as drilled, a line a leg",
			FIELDS(path_fields) },
		[LAYER_JOINTS] = { "joints", GEOMETRY_POINT, "where each joint was read", f->joint_fields,
			PATH_COLUMNS + sizeof more_joint_fields / sizeof *more_joint_fields },
		[LAYER_DESIGN] = { "design", GEOMETRY_LINE, "the design line", FIELDS(design_fields) },
		[LAYER_CORRIDOR] = { "corridor", GEOMETRY_LINE,
			"what the contract allows beside the design line", FIELDS(corridor_fields) },
		[LAYER_GROUND] = { "ground", GEOMETRY_LINE,
			"original ground and river bed along the alignment", FIELDS(ground_fields) },
		[LAYER_OBSTACLES] = { "obstacles", GEOMETRY_ANY, "what the bore must keep clear of",
			FIELDS(obstacle_fields) },
		[LAYER_FIXES] = { "fixes", GEOMETRY_POINT, "independent positions", FIELDS(fix_fields) },
		[LAYER_NONCONFORMANCES] = { "nonconformances", GEOMETRY_POINT,
			"every breach of a limit, at its worst joint", FIELDS(breach_fields) },
	};

	memcpy(f->sorts, sorts, sizeof sorts);
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		f->joint_fields[i] = (struct feature_field){ sb_path_columns[i].name,
			i == PATH_JOINT || i == PATH_LEG ? FEATURE_WHOLE : FEATURE_REAL,
			sb_path_columns[i].help };
	memcpy(f->joint_fields + PATH_COLUMNS, more_joint_fields, sizeof more_joint_fields);
}

/* ---- adding ---- */

struct walk {
	const struct job *job;
	const struct solution *s;
	enum feature_plane plane;
	double near_m; /* the station of the place before: which foot is meant where two are */
	struct features *out;
};

static void begin(struct walk *w, enum feature_layer layer)
{
	struct features *f = w->out;

	f->list = sb_grow(f->list, f->count, &f->room, sizeof *f->list);
	f->list[f->count++] =
		(struct feature){ .layer = layer, .first = f->place_count, .values = f->value_count };
}

static void put_place(struct walk *w, struct vec3 at)
{
	const struct design *d = &w->s->design;
	struct features *f = w->out;
	struct feature_place p = { 0 };
	double offset_m;

	sb_frame_grid(&w->s->frame, at, &p.e, &p.n, &p.z);
	if (w->plane == PLANE_PROFILE) {
		sb_chain_project(
			d->alignment, d->alignment_count, at.n, at.e, w->near_m, &w->near_m, &offset_m);
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

static void put_number(struct walk *w, double value)
{
	put_value(w, (struct feature_value){ .given = isfinite(value), .number = value });
}

static void put_length(struct walk *w, double metres)
{
	put_number(w, sb_frame_typed(&w->s->frame, metres));
}

static void put_typed(struct walk *w, const struct number *n)
{
	put_number(w, sb_number_given(n) ? n->value : (double)NAN);
}

static void put_text(struct walk *w, const char *text)
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

static void put_time(struct walk *w, int64_t ms)
{
	char text[SB_TIME_TEXT];

	sb_time_iso(ms, text);
	put_text(w, text);
}

/* ---- the path and its joints ---- */

static void put_line_of(struct walk *w, const struct row **rows, size_t count, bool present, double length_m)
{
	begin(w, LAYER_PATH);
	w->near_m = rows[0]->deviation.station_m;
	for (size_t i = 0; i < count; i++)
		put_place(w, rows[i]->at);
	put_number(w, rows[count - 1]->leg);
	put_text(w, sb_standing_name(present ? STANDING_PATH : STANDING_WITHDRAWN));
	put_number(w, rows[0]->joint);
	put_number(w, rows[count - 1]->joint);
	put_length(w, length_m);
}

static void walk_present(struct walk *w)
{
	const struct path *p = &w->s->path;
	const struct row **rows = sb_alloc(p->on_count * sizeof(struct row *));

	for (size_t i = 0; i < p->on_count; i++)
		rows[i] = &p->rows[p->on_path[i]];
	if (p->on_count > 1)
		put_line_of(w, rows, p->on_count, true, rows[p->on_count - 1]->survey_md_m);
	sb_free(rows);
}

/* The row on which a withdrawn leg's first one followed: the last read before it, of its leg or one before.
 */
static const struct row *followed(const struct path *p, const struct row *first)
{
	const struct row *best = &p->rows[0];

	for (size_t i = 0; i < p->old_count; i++) {
		const struct row *r = &p->old[i];
		if (r->on_path && r->joint < first->joint && r->leg <= first->leg && r->joint >= best->joint)
			best = r;
	}
	for (size_t i = 0; i < p->on_count; i++) {
		const struct row *r = &p->rows[p->on_path[i]];
		if (r->joint < first->joint && r->leg <= first->leg && r->joint >= best->joint)
			best = r;
	}
	return best;
}

static void walk_withdrawn(struct walk *w)
{
	const struct path *p = &w->s->path;
	const struct row **rows = sb_alloc((p->old_count + 1) * sizeof(struct row *));

	for (size_t i = 0; i < p->old_count;) {
		size_t count = 1;
		int leg = p->old[i].leg;
		for (; i < p->old_count && p->old[i].leg == leg; i++)
			if (p->old[i].on_path)
				rows[count++] = &p->old[i];
		if (count == 1)
			continue;
		rows[0] = followed(p, rows[1]);
		put_line_of(w, rows, count, false, rows[count - 1]->survey_md_m - rows[0]->survey_md_m);
	}
	sb_free(rows);
}

static void put_cell(struct walk *w, const struct path_cell *c)
{
	put_number(w,
		c->kind == CELL_BLANK		? (double)NAN
			: c->kind == CELL_TYPED ? c->typed.value
						: c->value);
}

static void put_joint(struct walk *w, const struct row *row, bool present)
{
	const struct reading *r = row->reading ? sb_job_reading(w->job, row->reading) : NULL;
	struct path_cell cells[PATH_COLUMNS];
	double factor = w->s->uncertainty.line_factor;

	begin(w, LAYER_JOINTS);
	w->near_m = row->deviation.station_m;
	if (row->on_path)
		put_place(w, row->at);
	sb_rows_fill(w->job, w->s, row, cells);
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		put_cell(w, &cells[i]);
	put_text(w,
		sb_standing_name(row->joint == 0 ? STANDING_ENTRY
				: present	 ? STANDING_PATH
						 : STANDING_WITHDRAWN));
	put_length(w, row->on_path ? factor * fmax(row->doubt.along_m, row->doubt.across_m) : (double)NAN);
	put_length(w, row->on_path ? factor * row->doubt.up_m : (double)NAN);
	put_typed(w, &w->job->confidence);
	put_text(w, r ? r->who : "");
	if (r)
		put_time(w, r->at_ms);
	else
		put_text(w, "");
	put_text(w, r ? r->remarks : "");
}

static void walk_joints(struct walk *w)
{
	const struct path *p = &w->s->path;
	const struct row **rows;
	size_t count = sb_rows_list(w->s, true, &rows);

	for (size_t i = 0; i < count; i++)
		put_joint(w, rows[i], rows[i] >= p->rows && rows[i] < p->rows + p->count);
	sb_free(rows);
}

/* ---- the design ---- */

/* Stations at which the design line, or a line beside it, needs a vertex. */
struct stations {
	double *list;
	size_t count, room;
};

static void put_station(struct stations *at, double station_m)
{
	at->list = sb_grow(at->list, at->count, &at->room, sizeof *at->list);
	at->list[at->count++] = station_m;
}

static void add_station(struct stations *at, double station_m, double length_m)
{
	if (station_m >= 0 && station_m <= length_m)
		put_station(at, station_m);
}

/* Even pieces whose chords leave the curve by no more than that: chord squared over 8 radii. */
static void add_parts(
	struct stations *at, const struct chain_part *parts, size_t count, bool profile, double length_m)
{
	for (size_t i = 0; i < count; i++) {
		const struct chain_part *p = &parts[i];
		double from = profile ? p->x : p->at;
		double run = profile ? sb_chain_at(p, 1, p->at + p->length).x - p->x : p->length;
		double step = p->curvature != 0 ? sqrt(8 * CHORD_OFF / fabs(p->curvature)) : p->length;
		size_t pieces = step > 0 ? (size_t)ceil(1.1 * p->length / step) : 1;
		for (size_t k = 0; k < pieces && (p->curvature != 0 || k == 0); k++)
			add_station(at, from + run * (double)k / (double)pieces, length_m);
	}
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return x < y ? -1 : x > y;
}

static void find_stations(const struct solution *s, struct stations *at)
{
	const struct design *d = &s->design;
	size_t kept = 0;

	add_parts(at, d->alignment, d->alignment_count, false, d->length_m);
	add_parts(at, d->profile, d->profile_count, true, d->length_m);
	add_station(at, 0, d->length_m);
	add_station(at, d->length_m, d->length_m);
	/* a limit steps where its range ends: a vertex on either side */
	for (size_t i = 0; i < s->corridor.count; i++) {
		const struct corridor_piece *c = &s->corridor.pieces[i];
		const double ends[] = { c->from_m - 1e-6, c->from_m + 1e-6, c->to_m - 1e-6, c->to_m + 1e-6 };
		for (size_t k = 0; k < 4; k++)
			add_station(at, ends[k], d->length_m);
	}
	if (at->count)
		qsort(at->list, at->count, sizeof *at->list, by_size);
	for (size_t i = 0; i < at->count; i++)
		if (kept == 0 || at->list[i] > at->list[kept - 1] + 1e-9)
			at->list[kept++] = at->list[i];
	at->count = kept;
}

static void walk_design(struct walk *w, const struct stations *at)
{
	begin(w, LAYER_DESIGN);
	for (size_t i = 0; i < at->count; i++) {
		w->near_m = at->list[i];
		put_place(w, sb_design_at(&w->s->design, at->list[i]).at);
	}
	put_length(w, w->s->design.length_m);
}

static double limit_on(const struct corridor_limits *l, enum side side)
{
	switch (side) {
	case SIDE_UP:
		return l->up_m;
	case SIDE_DOWN:
		return l->down_m;
	case SIDE_LEFT:
		return l->left_m;
	case SIDE_RIGHT:
		return l->right_m;
	case SIDE_NONE:
		break;
	}
	return HUGE_VAL;
}

static struct vec3 beside(const struct solution *s, double station_m, enum side side, double by_m)
{
	struct vec3 at = sb_design_at(&s->design, station_m).at;
	struct chain_place line = sb_chain_at(s->design.alignment, s->design.alignment_count, station_m);

	if (side == SIDE_UP || side == SIDE_DOWN) {
		at.u += side == SIDE_UP ? by_m : -by_m;
		return at;
	}
	double right = side == SIDE_RIGHT ? by_m : -by_m;
	return (struct vec3){ at.n - right * line.sin_bearing, at.e + right * line.cos_bearing, at.u };
}

/* A line for each stretch on which the contract sets a limit on that side. */
static void walk_side(struct walk *w, const struct stations *at, enum side side, const char *word)
{
	bool open = false;

	for (size_t i = 0; i < at->count; i++) {
		struct corridor_limits l = sb_corridor_at(&w->s->corridor, at->list[i]);
		double by_m = limit_on(&l, side);
		if (isinf(by_m)) {
			open = false;
			continue;
		}
		if (!open) {
			begin(w, LAYER_CORRIDOR);
			put_text(w, word);
			open = true;
		}
		w->near_m = at->list[i];
		put_place(w, beside(w->s, at->list[i], side, by_m));
	}
}

/* The ground is known along the alignment only; between two points of it the line follows the curves. */
static void walk_ground(struct walk *w, const struct stations *at)
{
	const struct job *job = w->job;
	const struct frame *f = &w->s->frame;
	const struct design *d = &w->s->design;
	struct stations own = { 0 };
	double elevation_m;

	if (job->ground_count < 2)
		return;
	double first = sb_frame_metres(f, job->ground[0].station.value);
	double last = sb_frame_metres(f, job->ground[job->ground_count - 1].station.value);
	for (size_t i = 0; i < at->count; i++)
		if (at->list[i] > first && at->list[i] < last)
			put_station(&own, at->list[i]);
	for (size_t i = 0; i < job->ground_count; i++)
		put_station(&own, sb_frame_metres(f, job->ground[i].station.value));
	if (own.count)
		qsort(own.list, own.count, sizeof *own.list, by_size);
	begin(w, LAYER_GROUND);
	for (size_t i = 0; i < own.count; i++) {
		if ((i > 0 && own.list[i] - own.list[i - 1] < 1e-5) ||
			!sb_design_ground(job, f, own.list[i], &elevation_m))
			continue;
		struct chain_place on = sb_chain_at(d->alignment, d->alignment_count, own.list[i]);
		w->near_m = own.list[i];
		put_place(w, (struct vec3){ on.x, on.y, elevation_m });
	}
	put_length(w, first);
	put_length(w, last);
	sb_free(own.list);
}

/* ---- obstacles ---- */

static bool seen_before(const struct job *job, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (sb_same(job->obstacles[k].name, job->obstacles[i].name))
			return true;
	return false;
}

static void walk_obstacle(struct walk *w, size_t first)
{
	const struct obstacle_point *o = &w->job->obstacles[first];
	double diameter = (double)NAN, clearance = (double)NAN;

	begin(w, LAYER_OBSTACLES);
	for (size_t i = first; i < w->job->obstacle_count; i++) {
		const struct obstacle_point *p = &w->job->obstacles[i];
		if (!sb_same(p->name, o->name))
			continue;
		put_place(w,
			sb_frame_ground(
				&w->s->frame, p->easting.value, p->northing.value, p->elevation.value));
		if (sb_number_given(&p->diameter))
			diameter = fmax(p->diameter.value, diameter);
		if (sb_number_given(&p->clearance))
			clearance = fmax(p->clearance.value, clearance);
	}
	put_text(w, o->name);
	put_text(w, o->kind);
	put_number(w, diameter);
	put_number(w, clearance);
}

/* ---- fixes and breaches ---- */

static void walk_fix(struct walk *w, const struct fix_view *v)
{
	const struct fix *f = sb_job_fix(w->job, v->fix);
	bool placed = v->standing == FIX_STANDS || v->standing == FIX_ASIDE;

	begin(w, LAYER_FIXES);
	w->near_m = v->station_m;
	if (placed)
		put_place(w, v->fixed);
	put_number(w, (double)v->fix);
	put_text(w, sb_fix_kind_name(f->kind));
	put_typed(w, &f->depth);
	put_text(w, sb_fixes_verdict(v));
	for (int k = 0; k < FIX_AXES; k++)
		put_length(w, placed && v->seen[k] ? v->off_m[k] : (double)NAN);
	put_typed(w, &f->sigma_along);
	put_typed(w, &f->sigma_across);
	put_typed(w, &f->sigma_up);
	put_text(w, f->fact.who);
	put_time(w, f->fact.at_ms);
	put_text(w, f->fact.words);
}

static const struct row *row_of(const struct path *p, const struct warning *w)
{
	for (size_t i = 0; i < p->old_count && w->superseded; i++)
		if (p->old[i].joint == w->worst_joint && p->old[i].leg == w->leg)
			return &p->old[i];
	return w->worst_joint >= 0 && (size_t)w->worst_joint < p->count ? &p->rows[w->worst_joint] : NULL;
}

static void walk_breach(struct walk *w, const struct nonconformance *n)
{
	const struct warning *b = n->warning;
	const struct row *row = row_of(&w->s->path, b);
	struct sb_str words = { 0 };

	begin(w, LAYER_NONCONFORMANCES);
	w->near_m = b->station_m;
	if (row && row->on_path)
		put_place(w, row->at);
	put_number(w, n->number);
	put_text(w, sb_warning_sorts[b->kind].name);
	put_number(w, b->leg);
	put_number(w, b->joint);
	put_number(w, b->last_joint);
	put_number(w, b->worst_joint);
	put_length(w, b->station_m);
	put_number(w, b->value);
	put_number(w, b->limit);
	put_text(w, sb_disposition_word(n->state));
	sb_nonconformance_say(n, &words);
	put_text(w, sb_str_get(&words));
	sb_str_clear(&words);
	put_text(w, b->text);
}

static void walk_breaches(struct walk *w)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(w->job, w->s, &list);

	for (size_t i = 0; i < count; i++)
		walk_breach(w, &list[i]);
	sb_free(list);
}

void sb_features_make(const struct export *e, enum feature_plane plane, struct features *out)
{
	struct walk w = { e->job, e->solution, plane, 0, out };
	struct stations at = { 0 };

	memset(out, 0, sizeof *out);
	lay_out(out);
	walk_present(&w);
	walk_withdrawn(&w);
	walk_joints(&w);
	find_stations(e->solution, &at);
	walk_design(&w, &at);
	walk_side(&w, &at, SIDE_UP, "up");
	walk_side(&w, &at, SIDE_DOWN, "down");
	if (plane == PLANE_MAP) {
		walk_side(&w, &at, SIDE_LEFT, "left");
		walk_side(&w, &at, SIDE_RIGHT, "right");
	}
	walk_ground(&w, &at);
	sb_free(at.list);
	for (size_t i = 0; i < e->job->obstacle_count; i++)
		if (!seen_before(e->job, i))
			walk_obstacle(&w, i);
	for (size_t i = 0; i < e->solution->fixes.count; i++)
		walk_fix(&w, &e->solution->fixes.list[i]);
	walk_breaches(&w);
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

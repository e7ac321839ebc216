/* The path and its joints: the present one a line, each leg that was withdrawn another. */
#include "base/mem.h"
#include "base/str.h"
#include "io/standing.h"

#include <math.h>

#include "features_parts.h"

static void put_line_of(struct walk *w, const struct row **rows, size_t count, bool present, double length_m)
{
	features_begin(w, LAYER_PATH);
	w->near_m = rows[0]->deviation.station_m;
	for (size_t i = 0; i < count; i++)
		features_put_place(w, rows[i]->at);
	features_put_number(w, rows[count - 1]->leg);
	features_put_text(w, sb_standing_name(present ? STANDING_PATH : STANDING_WITHDRAWN));
	features_put_number(w, rows[0]->joint);
	features_put_number(w, rows[count - 1]->joint);
	features_put_length(w, length_m);
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
	features_put_number(w,
		c->kind == CELL_BLANK		? (double)NAN
			: c->kind == CELL_TYPED ? c->typed.value
						: c->value);
}

static void put_joint(struct walk *w, const struct row *row, bool present)
{
	const struct reading *r = row->reading ? sb_job_reading(w->job, row->reading) : NULL;
	struct path_cell cells[PATH_COLUMNS];
	double factor = w->s->uncertainty.line_factor;

	features_begin(w, LAYER_JOINTS);
	w->near_m = row->deviation.station_m;
	if (row->on_path)
		features_put_place(w, row->at);
	sb_rows_fill(w->job, w->s, row, cells);
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		put_cell(w, &cells[i]);
	features_put_text(w,
		sb_standing_name(row->joint == 0 ? STANDING_ENTRY
				: present	 ? STANDING_PATH
						 : STANDING_WITHDRAWN));
	features_put_length(
		w, row->on_path ? factor * fmax(row->doubt.along_m, row->doubt.across_m) : (double)NAN);
	features_put_length(w, row->on_path ? factor * row->doubt.up_m : (double)NAN);
	features_put_typed(w, &w->job->confidence);
	features_put_text(w, r ? r->who : "");
	if (r)
		features_put_time(w, r->at_ms);
	else
		features_put_text(w, "");
	features_put_text(w, r ? r->remarks : "");
}

static void walk_joints(struct walk *w)
{
	const struct path *p = &w->s->path;
	const struct row **rows;
	size_t count = sb_rows_list(w->s, true, &rows);

	for (size_t i = 0; i < count; i++)
		put_joint(w, rows[i], sb_path_present(p, rows[i]));
	sb_free(rows);
}

void features_path(struct walk *w)
{
	walk_present(w);
	walk_withdrawn(w);
	walk_joints(w);
}

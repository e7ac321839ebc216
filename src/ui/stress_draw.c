/* The big answers on the product pipe: each check, the pull, what the pilot's own bends cost; beside or below
 * them what happens with other friction, fluid and drag. */
#include "base/measure.h"
#include "draw/axis.h"
#include "geom/angle.h"
#include "model/pipe_verdict.h"
#include "ui/answers.h"
#include "ui/stress.h"

#include <math.h>
#include <stdio.h>

/* Columns of the answers. */
enum { NAME_AT = 1, VALUE_AT = 22, WHERE_AT = 30, DESIGN_AT = 58, TABLE_AT = 84 };

/* A sensitivity table: its rows and columns. */
enum { TABLE_ROWS = 2 + 2 * LOAD_VARIES, TABLE_COLUMNS = 70 };

const char *sb_stress_station(const struct job *job, double station_m, char text[32])
{
	sb_axis_station(station_m, job->unit, 1, text);
	return text;
}

/* ---- checks ---- */

/* Why a check is not judged: the key of the sheet. */
static const char *missing_for(const struct load_given *g, int check)
{
	if (g->steel)
		return "not judged: no [product_pipe] yield in the sheet";
	return check == CHECK_BENDING ? "not judged: no [product_pipe] minimum_radius in the sheet"
				      : "not judged: no [product_pipe] pull_stress in the sheet";
}

static void draw_check(const struct view *v, int check, struct cells *out, int row)
{
	const struct stress_state *s = v->state;
	struct pipe_verdict drilled = sb_pipe_verdict_check(&s->loads.drilled, (enum pipe_check)check);
	struct pipe_verdict design = sb_pipe_verdict_check(&s->loads.design, (enum pipe_check)check);
	char station[32], where[64];

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, sb_pipe_check_words[check]);
	if (!drilled.judged) {
		sb_cells_text(out, row, VALUE_AT, STYLE_WATCH, missing_for(&s->loads.drilled.given, check));
		return;
	}
	const struct load_station *at = &s->loads.drilled.stations[drilled.at];
	sb_cells_print(out, row, VALUE_AT, STYLE_STRONG, "%.2f", drilled.ratio);
	sb_stress_station(v->job, at->station_m, station);
	if (drilled.at == 0)
		snprintf(where, sizeof where, "%s, at the rig", station);
	else
		snprintf(where, sizeof where, "%s, joint %d%s", station, at->joint,
			at->projected ? ", unread" : "");
	sb_cells_text(out, row, WHERE_AT, STYLE_PLAIN, where);
	sb_cells_print(out, row, DESIGN_AT, STYLE_DIM, "design %.2f", design.ratio);
	sb_answers_verdict(out, row, drilled.level);
}

static int draw_checks(const struct view *v, struct cells *out, int row)
{
	const struct stress_state *s = v->state;

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, "share of allowed");
	sb_cells_text(out, row, VALUE_AT, STYLE_DIM, "largest at station");
	row++;
	for (int k = 0; k < PIPE_CHECKS; k++)
		if (k != CHECK_ALL || s->loads.drilled.given.steel)
			draw_check(v, k, out, row++);
	return row;
}

/* ---- the pull ---- */

static void draw_pull(const struct view *v, struct cells *out, int row)
{
	const struct pipe_load *load = &((const struct stress_state *)v->state)->loads.drilled;
	const struct load_station *end = &load->stations[0], *most = &load->stations[load->most];
	char force[SB_LOAD_TEXT], low[SB_LOAD_TEXT], high[SB_LOAD_TEXT];
	enum unit u = v->job->unit;

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, "pull at the rig");
	int column =
		sb_cells_text(out, row, VALUE_AT, STYLE_STRONG, sb_pipe_load_force(u, end->force_n, force));
	sb_cells_print(out, row, column, STYLE_PLAIN, " at the end; its band %s to %s",
		sb_pipe_load_force(u, end->low_n, low), sb_pipe_load_force(u, end->high_n, high));
	if (load->most > 0) {
		char station[32];
		sb_cells_print(out, row + 1, VALUE_AT, STYLE_PLAIN,
			"largest %s with the head at %s; up to %s",
			sb_pipe_load_force(u, most->force_n, force),
			sb_stress_station(v->job, most->station_m, station),
			sb_pipe_load_force(u, most->high_n, high));
	}
}

static void draw_safe(const struct view *v, struct cells *out, int row)
{
	const struct pipe_load *load = &((const struct stress_state *)v->state)->loads.drilled;
	struct pipe_verdict verdict = sb_pipe_verdict_force(load);
	char force[SB_LOAD_TEXT];

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, "safe force");
	if (!verdict.judged) {
		sb_cells_text(
			out, row, VALUE_AT, STYLE_WATCH, "not judged: no [pull] safe_force in the sheet");
		return;
	}
	sb_cells_print(out, row, VALUE_AT, STYLE_PLAIN, "%s: %.0f %%, at the top of the band %.0f %%",
		sb_pipe_load_force(v->job->unit, load->given.safe_n, force), verdict.ratio * 100,
		verdict.high * 100);
	sb_answers_verdict(out, row, verdict.level);
}

static void draw_cost(const struct view *v, struct cells *out, int row)
{
	const struct pipe_loads *l = &((const struct stress_state *)v->state)->loads;
	double design = l->design.stations[l->design.most].force_n;
	double more = l->drilled.stations[l->drilled.most].force_n - design;
	char force[SB_LOAD_TEXT];

	sb_cells_text(out, row, NAME_AT, STYLE_DIM, "the pilot's bends");
	sb_cells_print(out, row, VALUE_AT, STYLE_PLAIN, "%s %s than drawn: turns %.1f, not %.1f degrees",
		sb_pipe_load_force(v->job->unit, fabs(more), force), more < 0 ? "less" : "more",
		sb_deg(l->drilled.turn_rad), sb_deg(l->design.turn_rad));
}

/* What a reader must know beside the figures. Returned: the row after them. */
static int draw_notes(const struct view *v, struct cells *out, int row)
{
	const struct pipe_load *load = &((const struct stress_state *)v->state)->loads.drilled;

	if (!load->line.out && load->line.projected_from_m < load->line.length_m)
		sb_cells_print(out, row++, NAME_AT, STYLE_WATCH,
			"The hole is read to %.1f %s; from there to the exit it is projected.",
			sb_frame_typed(&v->solution->frame, load->line.projected_from_m),
			sb_unit_short(v->job->unit));
	if (load->runs)
		sb_cells_text(out, row++, NAME_AT, STYLE_PLAIN,
			"Somewhere it runs in by its own weight: there the force is held at 0.");
	return row;
}

static int draw_answers(const struct view *v, struct cells *out)
{
	const struct pipe_load *load = &((const struct stress_state *)v->state)->loads.drilled;
	int row = draw_checks(v, out, 1);

	draw_pull(v, out, row);
	row += load->most > 0 ? 2 : 1;
	draw_safe(v, out, row++);
	draw_cost(v, out, row++);
	return draw_notes(v, out, row);
}

/* ---- sensitivity ---- */

static void draw_vary(const struct view *v, int what, struct cells *out, int row)
{
	const struct pipe_load *load = &((const struct stress_state *)v->state)->loads.drilled;
	const struct load_given *g = &load->given;
	enum measure in;
	const double *values = sb_load_varied(g, (enum load_vary)what, &in);
	enum unit u = v->job->unit;

	sb_cells_print(out, row, 0, STYLE_DIM, "%s%s%s", sb_load_vary_words[what], in == MEASURES ? "" : ", ",
		in == MEASURES ? "" : sb_measure_unit(u, in));
	for (int d = 0; d < LOAD_DEGREES; d++) {
		double typed = in == MEASURES ? values[d] : sb_measure_typed(u, in, values[d]);
		char text[SB_LOAD_TEXT];
		snprintf(text, sizeof text, "%.4g", typed);
		sb_cells_right(out, row, 29 + 13 * d, 13, STYLE_DIM, text);
		sb_cells_right(out, row + 1, 29 + 13 * d, 13, STYLE_PLAIN,
			sb_pipe_load_force(u, load->vary_n[what][d], text));
	}
}

static void draw_sensitivity(const struct view *v, struct cells *out)
{
	static const char *const degrees[] = { "low", "as given", "high" };

	sb_cells_text(out, 0, 0, STYLE_DIM, "largest force, one thing varied:");
	for (int d = 0; d < LOAD_DEGREES; d++)
		sb_cells_right(out, 1, 29 + 13 * d, 13, STYLE_DIM, degrees[d]);
	for (int k = 0; k < LOAD_VARIES; k++)
		draw_vary(v, k, out, 2 + 2 * k);
}

/* ---- all ---- */

static void draw_unknown(const struct stress_state *s, struct cells *out)
{
	sb_cells_wrap(out, 2, NAME_AT, out->columns - 2, STYLE_WATCH, s->why);
}

/* One picture, or two where each has the room. */
static void draw_pictures(const struct view *v, struct cells *out)
{
	const struct stress_state *s = v->state;
	int first = out->rows >= 24 ? out->rows / 2 : out->rows;
	struct cells part = sb_cells_part(out, 0, 0, first, out->columns);

	sb_stress_picture(v, s->picture, &part);
	if (first == out->rows)
		return;
	part = sb_cells_part(out, first, 0, out->rows - first, out->columns);
	sb_stress_picture(v, (s->picture + 1) % sb_stress_pictures(s), &part);
}

void sb_stress_draw(const struct view *v, struct cells *out)
{
	const struct stress_state *s = v->state;

	sb_cells_rule(out, 0, "an estimate, for the engineer to verify: B says what it rests on");
	if (!s->known) {
		draw_unknown(s, out);
		return;
	}
	struct cells answers =
		sb_cells_part(out, 0, 0, out->rows, out->columns > TABLE_AT ? TABLE_AT - 4 : out->columns);
	int row = draw_answers(v, &answers);
	struct cells table = sb_cells_part(out, 1, TABLE_AT, TABLE_ROWS, out->columns - TABLE_AT);
	if (out->columns < TABLE_AT + TABLE_COLUMNS && out->rows >= row + TABLE_ROWS + 14) {
		table = sb_cells_part(out, row + 1, NAME_AT, TABLE_ROWS, out->columns - NAME_AT);
		row += TABLE_ROWS + 2;
	} else if (table.columns >= TABLE_COLUMNS && row < 1 + TABLE_ROWS) {
		row = 1 + TABLE_ROWS; /* beside the answers, all of it */
	}
	if (table.columns >= TABLE_COLUMNS)
		draw_sensitivity(v, &table);
	struct cells part = sb_cells_part(out, row, 0, out->rows - row, out->columns);
	draw_pictures(v, &part);
}

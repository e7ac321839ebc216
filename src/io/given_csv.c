/* A design from a CSV: points of intersection when there is a column of radii, else stations at intervals,
 * behind which the line is found when the drawing is placed (given_stations.c).
 */
#include "base/mem.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "given_table.h"

/* Points are never listed closer than they can be drilled along: a thousandth. */
#define FINEST 0.001

/* ---- cells ---- */

/* 12+41.20 in hundreds of feet, 1+241.20 in kilometres: the digits before the point tell them apart. */
static bool split_station(const char *cell, char plain[64])
{
	const char *plus = strchr(cell + 1, '+');
	size_t before = plus ? (size_t)(plus - cell) : 0;
	size_t digits = plus ? strspn(plus + 1, "0123456789") : 0;

	if (plus == NULL || (digits != 2 && digits != 3) || before > 20 || strlen(plus) > 20 ||
		strspn(cell, " \t-0123456789") != before)
		return false;
	snprintf(plain, 64, "%.*s%s", (int)before, cell, plus + 1);
	return true;
}

static int decimals_of(const struct number *n)
{
	const char *point = strchr(n->text, '.');

	return point ? (int)strlen(point + 1) : 0;
}

static double take_cell(struct table *t, const struct csv_row *row, enum column c)
{
	size_t column = (size_t)t->at[c];
	const char *cell = row->cells[column];
	char plain[64];
	struct number n;
	struct sb_err err;

	if (cell[strspn(cell, " \t")] == '\0') {
		if (c != RADIUS)
			sb_csv_wrong(
				t->csv, row->line, sb_csv_column(t->csv, column), "nothing is written here.");
		return NAN;
	}
	if (!sb_csv_decimal(t->csv, row, column))
		return NAN;
	if (c == STATION && split_station(cell, plain))
		cell = plain;
	if (sb_number_parse(cell, &n, &err)) {
		sb_csv_wrong(t->csv, row->line, sb_csv_column(t->csv, column), "%s", err.text);
		return NAN;
	}
	if (!(fabs(n.value) < 1e9) || (c == RADIUS && n.value < 0))
		sb_csv_wrong(t->csv, row->line, sb_csv_column(t->csv, column), "%s cannot be.", n.text);
	if (decimals_of(&n) > t->decimals[c])
		t->decimals[c] = decimals_of(&n);
	return n.value;
}

/* A row that only has words says nothing of the line. */
static bool is_empty(const struct table *t, const struct csv_row *row)
{
	for (int c = 0; c < COLUMNS; c++)
		if (t->at[c] >= 0 && row->cells[t->at[c]][strspn(row->cells[t->at[c]], " \t")] != '\0')
			return false;
	return true;
}

static void read_rows(struct table *t)
{
	for (const struct csv_row *row; (row = sb_csv_next(t->csv)) != NULL;) {
		if (is_empty(t, row))
			continue;
		if (t->count >= SB_GIVEN_POINTS) {
			sb_csv_wrong(t->csv, row->line, NULL,
				"more than %d rows: this is not a drawing of one crossing.", SB_GIVEN_POINTS);
			return;
		}
		t->lines = sb_grow(t->lines, t->count, &t->rooms[COLUMNS], sizeof *t->lines);
		t->lines[t->count] = row->line;
		t->marks = sb_grow(t->marks, t->count, &t->rooms[COLUMNS + 1], sizeof *t->marks);
		t->marks[t->count] = t->remark_at < 0 ? MARK_NONE : given_mark_of(row->cells[t->remark_at]);
		for (int c = 0; c < COLUMNS; c++) {
			t->cells[c] = sb_grow(t->cells[c], t->count, &t->rooms[c], sizeof *t->cells[c]);
			t->cells[c][t->count] =
				t->at[c] >= 0 ? take_cell(t, row, (enum column)c) : (double)NAN;
		}
		t->count++;
	}
}

/* ---- points of intersection ---- */

static void take_pis(struct table *t, struct given_line *to, enum column x, enum column y, double start)
{
	for (size_t i = 0; i < t->count; i++) {
		double radius = t->cells[RADIUS][i];
		given_add(
			to, t->cells[x][i] - start, t->cells[y][i], isnan(radius) ? 0 : radius, t->lines[i]);
	}
}

static int read_pis(struct table *t, struct given *d)
{
	if (given_is_plan(t)) {
		if (given_has(t, STATION))
			given_note(t->r->out, "The stations beside the points of intersection are not used.");
		take_pis(t, &d->alignment, NORTHING, EASTING, 0);
		return 0;
	}
	d->start = t->cells[STATION][0];
	take_pis(t, &d->profile, STATION, ELEVATION, d->start);
	return 0;
}

/* ---- stations ---- */

static void take_points(
	struct table *t, enum column x, enum column y, double start, enum column of, struct given_points *to)
{
	for (size_t i = 0; i < t->count; i++) {
		given_points_add(to, t->cells[x][i] - start, t->cells[y][i], t->lines[i]);
		to->marks[i] = t->marks[i];
	}
	const struct number *said = t->r->choice->within;
	to->within = said && sb_number_given(said) ? said->value : fmax(pow(10, -t->decimals[of]), FINEST);
	to->unit = 1;
	sb_copy(to->file, sizeof to->file, t->r->file);
}

static bool all_zero(const double *list, size_t count)
{
	for (size_t i = 0; i < count; i++)
		if (list[i] != 0)
			return false;
	return true;
}

/* Rows of stations: the alignment's from coordinates or offsets, the profile's from elevations. Where the
 * line bends and stations run along the straight, or are not listed, they follow from the alignment. */
static int read_stations(struct table *t, struct given *d)
{
	double start = given_has(t, STATION) ? t->cells[STATION][0] : 0;
	bool straight = given_has(t, OFFSET) && all_zero(t->cells[OFFSET], t->count);

	if (straight)
		given_note(t->r->out, "All offsets are 0: the alignment is straight from entry to exit.");
	d->start = start;
	d->offsets = given_has(t, OFFSET) && !straight;
	d->measured = d->offsets || (given_is_plan(t) && !given_has(t, STATION));
	if (d->offsets)
		take_points(t, STATION, OFFSET, start, OFFSET, &d->alignment_points);
	if (given_is_plan(t))
		take_points(t, NORTHING, EASTING, 0,
			t->decimals[NORTHING] < t->decimals[EASTING] ? NORTHING : EASTING,
			&d->alignment_points);
	if (given_has(t, ELEVATION))
		take_points(t, given_has(t, STATION) ? STATION : ELEVATION, ELEVATION, start, ELEVATION,
			&d->profile_points);
	return 0;
}

/* ---- the file ---- */

static bool is_line(const struct given_line *l, const struct given_points *p)
{
	return l->count || p->count;
}

static void take_line(struct given_line *from, struct given_points *from_points, struct given_line *to,
	struct given_points *to_points)
{
	if (!is_line(from, from_points))
		return;
	*to = *from;
	*to_points = *from_points;
	*from = (struct given_line){ 0 };
	*from_points = (struct given_points){ 0 };
}

/* What this file says joins what another has said; their units must not differ. */
static int hand_over(struct table *t, struct given *got)
{
	struct given *d = t->r->out;
	bool alignment = is_line(&d->alignment, &d->alignment_points);
	bool profile = is_line(&d->profile, &d->profile_points);
	bool again = (alignment && is_line(&got->alignment, &got->alignment_points)) ||
		(profile && is_line(&got->profile, &got->profile_points));

	if (again || (!d->offsets && got->offsets && profile)) {
		sb_csv_wrong(t->csv, 0, NULL, "another file has given the %s already.",
			alignment ? "alignment" : "profile");
		return -1;
	}
	if ((alignment || profile) &&
		(d->unit_said != t->unit_said || (d->unit_said && d->unit != t->unit))) {
		sb_csv_wrong(
			t->csv, 0, NULL, "the two files are not in the same unit. Read them one at a time.");
		return -1;
	}
	if (is_line(&got->profile, &got->profile_points))
		d->start = got->start;
	take_line(&got->alignment, &got->alignment_points, &d->alignment, &d->alignment_points);
	take_line(&got->profile, &got->profile_points, &d->profile, &d->profile_points);
	d->unit_said = t->unit_said;
	d->unit = t->unit;
	d->offsets |= got->offsets;
	d->measured |= got->measured;
	return 0;
}

static int read_table(struct table *t)
{
	struct given got = { 0 };
	size_t before = t->r->problems->errors;

	given_map_columns(t);
	if (t->r->problems->errors == before)
		given_check_columns(t);
	if (t->r->problems->errors > before)
		return -1;
	read_rows(t);
	if (t->r->problems->errors == before && t->count < 2)
		sb_csv_wrong(t->csv, 0, NULL, "%s rows: a line needs its beginning and its end.",
			t->count ? "fewer than two" : "there are no");
	if (t->r->problems->errors > before)
		return -1;
	int failed = given_has(t, RADIUS) ? read_pis(t, &got) : read_stations(t, &got);
	if (!failed)
		failed = hand_over(t, &got);
	sb_given_clear(&got);
	return failed;
}

int given_read_csv(struct given_reading *r)
{
	struct table t = { .r = r };
	size_t before = r->problems->errors;

	if (sb_csv_open(r->path, r->file, &t.csv, r->problems) == 0)
		read_table(&t);
	sb_csv_close(t.csv);
	for (int c = 0; c < COLUMNS; c++)
		sb_free(t.cells[c]);
	sb_free(t.lines);
	sb_free(t.marks);
	return r->problems->errors > before ? -1 : 0;
}

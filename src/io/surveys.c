/* Surveys from a file. Joints must follow one another and the log: a row left out would move everything after
 * it by a joint, so a gap is refused by line and not bridged. A joint's length is taken from its own column,
 * else from the depths, else from the tally.
 */
#include "io/surveys.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "io/csv.h"
#include "io/nearest.h"
#include "io/rows.h"
#include "io/standing.h"
#include "model/azimuth.h"
#include "model/sixaxis.h"
#include "model/slides.h"

#include <stdlib.h>
#include <string.h>

#define FIELDS 32

/* Columns of a file of surveys beside the row's fields. */
enum other {
	OTHER_JOINT,
	OTHER_BIT,
	OTHER_SURVEY,
	OTHER_REASON,
	OTHER_WHO,
	OTHER_TIME,
	OTHER_STANDING,
	OTHER_CORRECTED,
	OTHER_EASTING,
	OTHER_NORTHING,
	OTHER_ELEVATION,
	OTHERS
};
static const char *const others[OTHERS] = { "joint", "bit_depth", "survey_depth", "reason", "who", "time",
	"standing", "corrected", "easting", "northing", "elevation" };

/* What `export` writes beside them and the columns of `path` (io/rows.h). */
static const char *const passed_over[] = { "leg", "reading", "corrects", "about", "about_value" };

struct import {
	const struct job *job;
	struct surveys *out;
	struct sb_problems *problems;
	struct sb_csv *csv;
	int field_at[FIELDS], other_at[OTHERS];
	int next_joint; /* that a row should be */
	double bit;	/* depth at the end of the joint before, job unit */
	int decimals;	/* most that a length or depth had so far */
};

/* ---- columns ---- */

static bool claims(const int *at, size_t count, size_t column)
{
	for (size_t i = 0; i < count; i++)
		if (at[i] == (int)column)
			return true;
	return false;
}

static bool is_passed_over(const char *name)
{
	for (size_t i = 0; i < sizeof passed_over / sizeof *passed_over; i++)
		if (sb_nearest_same(name, passed_over[i]))
			return true;
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		if (sb_nearest_same(name, sb_path_columns[i].name))
			return true;
	return false;
}

/* A depth that does not say whose it is cannot be taken: the two are the length of the tool apart. */
static bool is_bare_depth(const char *name)
{
	static const char *const bare[] = { "md", "depth", "measured depth", "hole depth" };

	for (size_t i = 0; i < sizeof bare / sizeof *bare; i++)
		if (sb_nearest_same(name, bare[i]))
			return true;
	return false;
}

static void look_at_stranger(struct import *im, const char *file, const char *name)
{
	struct nearest n = sb_nearest_without_unit(name);

	if (is_bare_depth(name)) {
		sb_csv_wrong(im->csv, 0, name,
			"is '%.40s' the depth of the bit or of the sensor? Name the column bit_depth or survey_depth.",
			name);
		return;
	}

	for (size_t i = 0; i < sb_row_field_count; i++)
		if (im->field_at[i] < 0)
			sb_nearest_try(&n, sb_row_fields[i].name);
	for (size_t i = 0; i < OTHERS; i++)
		if (im->other_at[i] < 0)
			sb_nearest_try(&n, others[i]);
	const struct row_field *field = n.best ? sb_row_field(n.best) : NULL;
	const char *unit = field ? sb_row_field_unit(field, im->job->unit) : "";
	if (n.best)
		sb_csv_wrong(im->csv, 0, name, "there is no column '%.40s'. '%s' is probably meant%s%s.",
			name, n.best, *unit ? ", in " : "", unit);
	else
		sb_problems_add(im->problems, 1, file, 0, name, "the column '%.40s' is not used.", name);
}

/* All six components have a column: the angles follow from them. */
static bool has_vectors(const struct import *im)
{
	static const char *const six[] = { "gravity_x", "gravity_y", "gravity_z", "field_x", "field_y",
		"field_z" };

	for (size_t i = 0; i < 6; i++)
		if (sb_csv_find(im->csv, six[i]) < 0)
			return false;
	return true;
}

static bool map_columns(struct import *im, const char *file)
{
	size_t before = im->problems->errors;

	for (size_t i = 0; i < sb_row_field_count && i < FIELDS; i++)
		im->field_at[i] = sb_csv_find(im->csv, sb_row_fields[i].name);
	for (size_t i = 0; i < OTHERS; i++)
		im->other_at[i] = sb_csv_find(im->csv, others[i]);
	for (size_t i = 0; i < sb_csv_columns(im->csv); i++)
		if (!claims(im->field_at, sb_row_field_count, i) && !claims(im->other_at, OTHERS, i) &&
			!is_passed_over(sb_csv_column(im->csv, i)))
			look_at_stranger(im, file, sb_csv_column(im->csv, i));
	static const char *const angles[] = { "inclination", "azimuth" };
	for (size_t i = 0; i < 2 && !has_vectors(im); i++)
		if (sb_csv_find(im->csv, angles[i]) < 0)
			sb_csv_wrong(im->csv, 0, angles[i],
				"the column '%s' is missing. Every row of surveys has one.", angles[i]);
	return im->problems->errors == before;
}

/* The cell of one of the other columns, "" when the file has no such column. */
static const char *other(const struct import *im, const struct csv_row *row, enum other which)
{
	return im->other_at[which] < 0 ? "" : row->cells[im->other_at[which]];
}

static bool is_blank(const char *cell)
{
	return cell[strspn(cell, " \t")] == '\0';
}

/* ---- a row ---- */

/* Joint 0 is the entry: `path` lists it, nobody drilled it. */
static bool is_entry(const char *joint)
{
	struct number n;

	return !is_blank(joint) && sb_number_parse(joint, &n, NULL) == 0 && n.value == 0;
}

/* Rows that an export marks as standing for nothing in the ground, and the lines of its `about` columns that
 * have no row beside them. */
static bool is_skipped(struct import *im, const struct csv_row *row)
{
	const char *cell = other(im, row, OTHER_STANDING);
	enum standing s = STANDING_PATH;

	if (!is_blank(cell) && sb_standing_parse(cell, &s)) {
		sb_csv_wrong(im->csv, row->line, "standing",
			"'%.30s' is not known: it is path, or entry, withdrawn or replaced for rows to pass over.",
			cell);
		return true;
	}
	if (s != STANDING_PATH || is_entry(other(im, row, OTHER_JOINT)))
		return true;
	for (size_t i = 0; i < sb_csv_columns(im->csv); i++)
		if (!is_blank(row->cells[i]) &&
			(claims(im->field_at, sb_row_field_count, i) || claims(im->other_at, OTHERS, i)))
			return false;
	return true;
}

static bool cell_is_blank(const struct import *im, const struct csv_row *row, const char *column)
{
	int at = sb_csv_find(im->csv, column);

	return at < 0 || is_blank(row->cells[at]);
}

static void take_fields(struct import *im, const struct csv_row *row, struct reading *r)
{
	struct sb_err err;

	for (size_t i = 0; i < sb_row_field_count && i < FIELDS; i++) {
		const struct row_field *f = &sb_row_fields[i];
		if (im->field_at[i] < 0)
			continue;
		if (f->type == FIELD_NUMBER && !sb_csv_decimal(im->csv, row, (size_t)im->field_at[i]))
			continue;
		const char *cell = row->cells[im->field_at[i]];
		if (sb_row_field_put(
			    f, r, im->job->incline, f->type == FIELD_TEXT ? sb_csv_text(cell) : cell, &err))
			sb_csv_wrong(im->csv, row->line, f->name, "%s", err.text);
	}
	if (sb_sixaxis_any(r)) {
		struct job now = sb_frame_settings(im->job, NULL);
		if (sb_sixaxis_fill(&now, r, &err))
			sb_csv_wrong(im->csv, row->line, "gravity_x", "%s", err.text);
		return;
	}
	bool none[2] = { cell_is_blank(im, row, "inclination"), cell_is_blank(im, row, "azimuth") };
	if (none[1] && r->azimuth_by == AZIMUTH_BY_HOLD)
		return;
	if (none[0] != none[1])
		sb_csv_wrong(im->csv, row->line, none[0] ? "inclination" : "azimuth",
			"the other angle is given, this one is not. A joint without a reading has neither.");
}

/* One of the depth columns; not given when blank. */
static void take_depth(struct import *im, const struct csv_row *row, enum other which, struct number *to)
{
	const char *cell = other(im, row, which);
	struct sb_err err;

	if (is_blank(cell) || !sb_csv_decimal(im->csv, row, (size_t)im->other_at[which]))
		return;
	if (sb_number_parse(cell, to, &err))
		sb_csv_wrong(im->csv, row->line, others[which], "%s", err.text);
}

static void take_text(struct import *im, const struct csv_row *row, enum other which, char *to, size_t size)
{
	const char *cell = sb_csv_text(other(im, row, which));

	if (!sb_copy(to, size, cell))
		sb_csv_wrong(im->csv, row->line, others[which], "this is too long: %zu bytes fit.", size - 1);
	sb_utf8_tame(to);
}

/* The reason of a correction is not one of a reading; it stands for one where the reading looks like a slip,
 * since somebody has looked at it already. */
static void take_words(struct import *im, const struct csv_row *row, struct survey *s)
{
	const char *time = other(im, row, OTHER_TIME);
	struct reading *r = &s->reading;
	struct sb_err err;

	take_text(im, row, OTHER_WHO, r->who, sizeof r->who);
	if (sb_same_word(other(im, row, OTHER_CORRECTED), "yes"))
		take_text(im, row, OTHER_REASON, s->judged, sizeof s->judged);
	else
		take_text(im, row, OTHER_REASON, r->reason, sizeof r->reason);
	if (!is_blank(time) && sb_time_parse(time, &r->at_ms, &err))
		sb_csv_wrong(im->csv, row->line, others[OTHER_TIME], "%s", err.text);
}

/* Where the file puts the sensor. Nothing is taken from it, so what is no number is no problem either. */
static void take_place(struct import *im, const struct csv_row *row, struct survey *s)
{
	static const enum other which[3] = { OTHER_EASTING, OTHER_NORTHING, OTHER_ELEVATION };
	double *const to[3] = { &s->easting, &s->northing, &s->elevation };
	struct number n;

	s->placed = true;
	for (size_t i = 0; i < 3; i++) {
		s->placed &= sb_number_parse(other(im, row, which[i]), &n, NULL) == 0;
		*to[i] = s->placed ? n.value : 0;
	}
}

static void say_order(struct import *im, int line, int joint)
{
	int want = im->next_joint;

	if (joint < want && joint <= sb_job_in_ground(im->job))
		sb_csv_wrong(im->csv, line, "joint",
			"joint %d is in the log already. To change it, correct it; to redrill it, withdraw first. Joint %d is next.",
			joint, want);
	else if (joint < want)
		sb_csv_wrong(im->csv, line, "joint",
			"joint %d comes after joint %d. Joints of a leg that was withdrawn go into a file of their own.",
			joint, want - 1);
	else
		sb_csv_wrong(im->csv, line, "joint",
			"joint %d comes here, but joint %d is next. Is a row missing?", joint, want);
}

/* The joint that the row is about: as the file says, and in any case the next. */
static void take_joint(struct import *im, const struct csv_row *row, struct reading *r)
{
	const char *cell = other(im, row, OTHER_JOINT);
	struct number n;
	struct sb_err err;
	int joint = im->next_joint;

	if (!is_blank(cell)) {
		if (sb_number_parse(cell, &n, &err)) {
			sb_csv_wrong(im->csv, row->line, "joint", "%s", err.text);
		} else if (!(n.value >= 1 && n.value <= 1000000) || n.value != (int)n.value) {
			sb_csv_wrong(im->csv, row->line, "joint",
				"%s is not a joint: they are 1, 2, 3 and on.", n.text);
		} else if ((joint = (int)n.value) != im->next_joint) {
			say_order(im, row->line, joint);
		}
	}
	r->joint = joint;
	im->next_joint = joint + 1; /* so that one gap is one problem */
}

/* ---- lengths ---- */

static void note_decimals(struct import *im, const struct number *n)
{
	const char *point = strchr(n->text, '.');
	int decimals = point ? (int)strlen(point + 1) : 0;

	if (decimals > im->decimals)
		im->decimals = decimals > 6 ? 6 : decimals;
}

static void take_length(struct import *im, int line, struct survey *s)
{
	struct number *length = &s->reading.joint_length;
	const struct number *depth =
		sb_number_given(&s->depths.bit_depth) ? &s->depths.bit_depth : &s->depths.survey_depth;

	note_decimals(im, length);
	note_decimals(im, depth);
	if (!sb_number_given(length) && sb_number_given(depth)) {
		double bit = depth->value;
		if (depth == &s->depths.survey_depth)
			bit += im->job->sensor_to_bit.value;
		*length = sb_number_of(bit - im->bit, im->decimals);
		if (!(length->value > 0)) {
			sb_csv_wrong(im->csv, line,
				depth == &s->depths.bit_depth ? "bit_depth" : "survey_depth",
				"%s does not lie past the joint before, which ended at bit depth %.*f.",
				depth->text, im->decimals, im->bit);
			return;
		}
	}
	if (!sb_number_given(length))
		*length = sb_job_tally(im->job, s->reading.joint);
	im->bit += length->value;
}

static void check_slides(struct import *im, int line, const struct reading *r)
{
	struct sb_err err;

	if (sb_slides_check(r, &err))
		sb_csv_wrong(im->csv, line, "pushes", "%s", err.text);
}

static void check_azimuth(struct import *im, int line, const struct reading *r)
{
	struct sb_err err;

	if (sb_azimuth_check(im->job, NULL, r, &err))
		sb_csv_wrong(im->csv, line, "azimuth_by", "%s", err.text);
}

static void take_row(struct import *im, const struct csv_row *row)
{
	struct surveys *out = im->out;

	if (is_skipped(im, row)) {
		out->skipped++;
		return;
	}
	if (out->count >= SB_SURVEYS_MOST) {
		sb_csv_wrong(im->csv, row->line, NULL, "more than %d rows: split the file.", SB_SURVEYS_MOST);
		return;
	}
	out->list = sb_grow(out->list, out->count, &out->room, sizeof *out->list);
	struct survey *s = &out->list[out->count++];
	*s = (struct survey){ .line = row->line };
	take_joint(im, row, &s->reading);
	take_words(im, row, s); /* its reason releases what its fields would be held for */
	take_fields(im, row, &s->reading);
	take_place(im, row, s);
	take_depth(im, row, OTHER_BIT, &s->depths.bit_depth);
	take_depth(im, row, OTHER_SURVEY, &s->depths.survey_depth);
	take_length(im, row->line, s);
	check_slides(im, row->line, &s->reading);
	check_azimuth(im, row->line, &s->reading);
}

/* ---- the file ---- */

static void begin_at(struct import *im)
{
	im->next_joint = sb_job_in_ground(im->job) + 1;
	for (int joint = 1; joint < im->next_joint; joint++) {
		const struct number *length = &sb_job_joint(im->job, joint)->joint_length;
		im->bit += length->value;
		note_decimals(im, length);
	}
}

int sb_surveys_read(
	const char *path, const struct job *job, struct surveys *out, struct sb_problems *problems)
{
	struct import im = { .job = job, .out = out, .problems = problems };
	const char *slash = strrchr(path, '/');
	const char *file = sb_same(path, "-") ? "standard input" : slash ? slash + 1 : path;
	size_t before = problems->errors;

	memset(out, 0, sizeof *out);
	if (sb_csv_open(path, file, &im.csv, problems) == 0 && map_columns(&im, file)) {
		begin_at(&im);
		for (const struct csv_row *row; (row = sb_csv_next(im.csv)) != NULL;)
			take_row(&im, row);
	}
	sb_csv_close(im.csv);
	if (problems->errors == before)
		return 0;
	sb_surveys_clear(out);
	return -1;
}

void sb_surveys_clear(struct surveys *s)
{
	sb_free(s->list);
	memset(s, 0, sizeof *s);
}

/* What shows only when values are seen together: keys that need one another, tables whose rows must grow, and
 * the design line and corridor themselves, built once for what they find. Each part runs as soon as what it
 * needs was read without an error, so that one slip does not hide the others.
 */
#include "io/sheet.h"

#include "base/measure.h"
#include "base/str.h"
#include "model/corridor.h"
#include "model/design.h"
#include "model/design_room.h"
#include "model/frame.h"
#include "model/opening.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet_parts.h"

#define wrong(s, line, column, ...) sb_problems_add((s)->problems, 0, SHEET_FILE, line, column, __VA_ARGS__)
#define doubt(s, line, column, ...) sb_problems_add((s)->problems, 1, SHEET_FILE, line, column, __VA_ARGS__)

/* ---- job.ini ---- */

static void check_crs(struct sheet *s)
{
	const char *crs = s->job->crs;
	int line = sheet_line(s, "control", "crs");

	if (line == 0 || sb_same(crs, "local"))
		return;
	size_t digits = strncmp(crs, "EPSG:", 5) == 0 ? strspn(crs + 5, "0123456789") : 0;
	if (digits < 4 || digits > 6 || crs[5 + digits] != '\0')
		wrong(s, line, "crs",
			"'%.40s' is not a coordinate system. Write EPSG: and its number, like EPSG:32615, or local.",
			crs);
}

static void need(struct sheet *s, const char *reference, const struct number *n, const char *key)
{
	if (!sb_number_given(n) && sheet_line(s, "azimuth", key) == 0)
		wrong(s, sheet_line(s, "azimuth", "reference"), key,
			"[azimuth] reference = %s needs %s. Write 0 only if somebody looked it up and it is 0.",
			reference, key);
}

static void check_azimuth(struct sheet *s)
{
	const struct job *job = s->job;

	if (sheet_line(s, "azimuth", "reference") == 0)
		return;
	switch (job->reference) {
	case REFERENCE_GRID:
		return;
	case REFERENCE_TRUE:
		need(s, "true", &job->convergence, "convergence");
		return;
	case REFERENCE_MAGNETIC:
		need(s, "magnetic", &job->declination, "declination");
		need(s, "magnetic", &job->convergence, "convergence");
		return;
	case REFERENCE_BORE:
		break;
	}
	need(s, "bore", &job->bore_azimuth_read, "bore_azimuth_read");
}

static void check_entry(struct sheet *s)
{
	const struct job *job = s->job;
	int inclination = sheet_line(s, "entry", "inclination"), azimuth = sheet_line(s, "entry", "azimuth");
	double low, high;

	if (!inclination != !azimuth)
		wrong(s, inclination + azimuth, inclination ? "azimuth" : "inclination",
			"[entry] has %s but not %s. The staked attitude needs both, or leave both out.",
			inclination ? "inclination" : "azimuth", inclination ? "azimuth" : "inclination");
	sb_incline_range(job->incline, &low, &high);
	double typed = job->entry_inclination.value;
	if (sb_number_given(&job->entry_inclination) && sheet_line(s, "job", "inclination") &&
		!(typed >= low && typed <= high))
		wrong(s, inclination, "inclination",
			"%s cannot be: with [job] inclination = %s it lies between %g and %g.",
			job->entry_inclination.text, sb_incline_name(job->incline), low, high);
}

static void check_pipe(struct sheet *s)
{
	const struct job *job = s->job;

	if (sb_number_given(&job->wall) && sb_number_given(&job->outside_diameter) &&
		job->wall.value * 2 >= job->outside_diameter.value)
		wrong(s, sheet_line(s, "product_pipe", "wall"), "wall",
			"a wall of %s leaves no bore in a pipe of %s outside diameter.", job->wall.text,
			job->outside_diameter.text);
	if (job->window_joints.value != floor(job->window_joints.value))
		wrong(s, sheet_line(s, "bend", "window_joints"), "window_joints",
			"%s is not a whole number of joints.", job->window_joints.text);
	if (sheet_line(s, "bend", "window_joints") && sheet_line(s, "bend", "window_length"))
		doubt(s, sheet_line(s, "bend", "window_length"), "window_length",
			"window_joints is given too: the window is the length, and window_joints is not used.");
	if (sheet_line(s, "bend", "joint_minimum") == 0 && sheet_line(s, "bend", "window_minimum") == 0)
		doubt(s, 0, "window_minimum",
			"[bend] has neither joint_minimum nor window_minimum: no bend will be judged.");
}

/* Sizes of holes; the product pipe is in the same unit. */
static void check_hole(struct sheet *s)
{
	const struct job *job = s->job;
	int line = sheet_line(s, "hole", "final_diameter");

	if (line == 0 || !sb_number_given(&job->final_diameter))
		return;
	if (sb_number_given(&job->pilot_diameter) && job->final_diameter.value < job->pilot_diameter.value)
		wrong(s, line, "final_diameter",
			"a final hole of %s is smaller than the pilot hole of %s: reamers only make it larger.",
			job->final_diameter.text, job->pilot_diameter.text);
	if (sb_number_given(&job->outside_diameter) &&
		job->final_diameter.value <= job->outside_diameter.value)
		doubt(s, line, "final_diameter",
			"a final hole of %s does not take a product pipe of %s. Is it in the pipe's unit, mm or inches?",
			job->final_diameter.text, job->outside_diameter.text);
	char text[256];
	sb_opening_sheet(job, text);
	if (*text)
		doubt(s, line, "final_diameter", "%s", text);
}

static void check_opening(struct sheet *s)
{
	const struct job *job = s->job;
	struct opening_size size = sb_opening_size(job);
	int line = sheet_line(s, "opening", "final_most");

	if (line && size.least_m > size.most_m + 1e-6)
		wrong(s, line, "final_most",
			"a final hole of %s at most is smaller than the smallest that [opening] takes, %.5g. final_least says what the contract asks.",
			job->opening_most.text, sb_measure_typed(job->unit, MEASURE_SIZE, size.least_m));
}

/* A weight in the other unit, or one that floats on water, makes every pressure wrong. Kilograms by cubic
 * metre. */
static void check_weight(struct sheet *s, const char *key, const struct number *n)
{
	int line = sheet_line(s, "fluid", key);
	double weight = sb_measure_si(s->job->unit, MEASURE_DENSITY, n->value);
	const char *unit = sb_measure_unit(s->job->unit, MEASURE_DENSITY);

	if (line == 0 || !sb_number_given(n) || sheet_line(s, "job", "unit") == 0)
		return;
	if (weight < 300 || weight > 3000)
		wrong(s, line, key, "%s %s is no drilling fluid: water has %.4g. Is it in the other unit?",
			n->text, unit, sb_measure_typed(s->job->unit, MEASURE_DENSITY, 1000));
	else if (weight < 1000)
		doubt(s, line, key, "%s %s is lighter than water, which has %.4g. Is it right?", n->text,
			unit, sb_measure_typed(s->job->unit, MEASURE_DENSITY, 1000));
}

static void check_fluid(struct sheet *s)
{
	const struct job *job = s->job;

	check_weight(s, "weight", &job->fluid_weight);
	check_weight(s, "return_weight", &job->fluid_return_weight);
	if (sb_number_given(&job->fluid_return_weight) && sb_number_given(&job->fluid_weight) &&
		job->fluid_return_weight.value < job->fluid_weight.value)
		doubt(s, sheet_line(s, "fluid", "return_weight"), "return_weight",
			"%s is less than the weight of %s: cuttings only make the fluid heavier.",
			job->fluid_return_weight.text, job->fluid_weight.text);
	if (sb_number_given(&job->drill_pipe_diameter) && sb_number_given(&job->pilot_diameter) &&
		job->drill_pipe_diameter.value >= job->pilot_diameter.value)
		wrong(s, sheet_line(s, "drill_pipe", "outside_diameter"), "outside_diameter",
			"a drill pipe of %s does not go into a pilot hole of %s.",
			job->drill_pipe_diameter.text, job->pilot_diameter.text);
	if (sb_number_given(&job->fluid_from) && sb_number_given(&job->fluid_to) &&
		job->fluid_to.value <= job->fluid_from.value)
		wrong(s, sheet_line(s, "fluid", "to"), "to", "station %s is not past from, %s.",
			job->fluid_to.text, job->fluid_from.text);
}

static void check_corridor_keys(struct sheet *s)
{
	static const char *const sides[] = { "up", "down", "left", "right" };
	const struct job *job = s->job;
	const struct number *const values[] = { &job->up, &job->down, &job->left, &job->right };

	for (size_t i = 0; i < 4; i++)
		if (!sb_number_given(values[i]) && sheet_line(s, "corridor", sides[i]) == 0)
			doubt(s, 0, sides[i],
				"[corridor] %s is not given: that side is not judged where corridor.csv does not say it.",
				sides[i]);
}

/* ---- tables ---- */

#define ROWS_SAID 50 /* problems of one check of one table that are listed */

static size_t index_of(const char *table)
{
	return (size_t)(sb_sheet_table(table) - sb_sheet_tables);
}

static const char *file_of(const struct sheet *s, const char *table)
{
	return s->sources[index_of(table)].file;
}

static bool sound(const struct sheet *s, const char *table)
{
	return s->sources[index_of(table)].sound;
}

static void check_ground(struct sheet *s)
{
	const struct job *job = s->job;

	for (size_t i = 1, said = 0; i < job->ground_count && said < ROWS_SAID; i++)
		if (job->ground[i].station.value <= job->ground[i - 1].station.value && ++said)
			sb_problems_add(s->problems, 0, file_of(s, "ground"), job->ground[i].line, "station",
				"%s is not past the station before it, %s. Put the rows in order of station.",
				job->ground[i].station.text, job->ground[i - 1].station.text);
}

static void check_tally(struct sheet *s)
{
	const struct job *job = s->job;
	double nominal = job->joint_length.value;

	for (size_t i = 0, said = 0; i < job->tally_count && said < ROWS_SAID; i++) {
		const struct tally_joint *t = &job->tally[i];
		int before = i ? job->tally[i - 1].joint : 0;
		if (t->joint != before + 1 && ++said)
			sb_problems_add(s->problems, 0, file_of(s, "tally"), t->line, "joint",
				"joint %d follows joint %d. Number them 1, 2, 3 without a gap.", t->joint,
				before);
		if (nominal > 0 && fabs(t->length.value - nominal) > 0.2 * nominal && ++said)
			sb_problems_add(s->problems, 1, file_of(s, "tally"), t->line, "length",
				"joint %d is %s long, the nominal joint %s. Measure it again if that is a slip.",
				t->joint, t->length.text, job->joint_length.text);
	}
}

static void check_soil(struct sheet *s)
{
	for (size_t i = 0, said = 0; i < s->job->soil_count && said < ROWS_SAID; i++) {
		const struct soil_layer *l = &s->job->soil[i];
		if (l->from.value >= l->to.value && ++said)
			sb_problems_add(s->problems, 0, file_of(s, "soil"), l->line, "to",
				"the layer ends at %s, which is not past its beginning at %s.", l->to.text,
				l->from.text);
	}
}

static void check_ends_of_profile(struct sheet *s)
{
	const struct job *job = s->job;
	size_t ends[2] = { 0, job->profile_count - 1 };

	for (size_t i = 0; i < 2 && job->profile_count > 1; i++) {
		const struct profile_pi *p = &job->profile[ends[i]];
		if (p->radius.value > 0)
			sb_problems_add(s->problems, 1, file_of(s, "profile"), p->line, "radius",
				"the %s point has a radius of %s. There is no curve at an end: it is not used.",
				i ? "last" : "first", p->radius.text);
	}
}

static void check_cover(struct sheet *s)
{
	const struct job *job = s->job;
	bool asked = sb_number_given(&job->cover_minimum);
	int line = sheet_line(s, "cover", "minimum");

	if (sb_number_given(&job->cover_from) && sb_number_given(&job->cover_to) &&
		job->cover_from.value >= job->cover_to.value)
		wrong(s, sheet_line(s, "cover", "to"), "to",
			"cover is asked for up to station %s, which is not past its beginning at %s.",
			job->cover_to.text, job->cover_from.text);
	for (size_t i = 0; i < job->range_count; i++)
		asked |= sb_number_given(&job->ranges[i].cover);
	if (asked && sound(s, "ground") && job->ground_count < 2)
		doubt(s, line, "minimum",
			"cover is asked for, and there is no ground line: name it in [files] ground, or cover is not judged.");
}

static void check_obstacles(struct sheet *s)
{
	const struct job *job = s->job;

	for (size_t i = 1, said = 0; i < job->obstacle_count && said < ROWS_SAID; i++) {
		const struct obstacle_point *a = &job->obstacles[i - 1], *b = &job->obstacles[i];
		if (sb_same(a->name, b->name) && !sb_same(a->kind, b->kind) && ++said)
			sb_problems_add(s->problems, 0, file_of(s, "obstacles"), b->line, "kind",
				"'%.60s' is a '%.40s' here and a '%.40s' in the row before. Rows of one name are one line.",
				b->name, b->kind, a->kind);
	}
}

/* The model names the tables by their usual files; the sheet may call them otherwise. */
static void name_files(struct sheet *s, size_t from)
{
	char usual[64];

	for (size_t k = from; k < s->problems->count; k++)
		for (size_t i = 0; i < sb_sheet_table_count; i++) {
			struct sb_problem *p = &s->problems->list[k];
			snprintf(usual, sizeof usual, "%s.csv", sb_sheet_tables[i].name);
			if (sb_same(p->file, usual) && s->sources[i].file[0]) {
				sb_copy(p->file, sizeof p->file, s->sources[i].file);
				break;
			}
		}
}

static void check_line(struct sheet *s)
{
	struct frame frame;
	struct design design;
	struct corridor corridor;
	struct sb_err err;
	size_t from = s->problems->count;

	if (!s->sound || !sound(s, "alignment"))
		return;
	if (sb_frame_init(s->job, &frame, &err)) {
		wrong(s, sheet_line(s, "azimuth", "reference"), NULL, "%s", err.text);
		return;
	}
	if (sound(s, "profile") && s->job->profile_count) {
		if (sb_design_build(s->job, &frame, &design, s->problems) == 0 && sound(s, "obstacles") &&
			sound(s, "ground") && sound(s, "corridor"))
			sb_design_room_check(s->job, &frame, &design, s->problems);
		sb_design_clear(&design);
	}
	if (sound(s, "corridor")) {
		sb_corridor_build(s->job, &frame, &corridor, s->problems);
		sb_corridor_clear(&corridor);
	}
	name_files(s, from);
}

void sheet_check(struct sheet *s)
{
	size_t before = s->problems->errors;

	check_crs(s);
	check_azimuth(s);
	check_entry(s);
	check_pipe(s);
	check_hole(s);
	check_opening(s);
	check_fluid(s);
	check_corridor_keys(s);
	check_cover(s);
	s->sound &= s->problems->errors == before;
	if (sound(s, "ground"))
		check_ground(s);
	if (sound(s, "tally"))
		check_tally(s);
	if (sound(s, "soil"))
		check_soil(s);
	if (sound(s, "profile"))
		check_ends_of_profile(s);
	if (sound(s, "obstacles"))
		check_obstacles(s);
	check_line(s);
}

/* The path in words. Offset and height have a side instead of a sign; a radius has no decimals, because its
 * noise is far larger than one. 80 columns hold a line.
 */
#include "io/rows.h"

#include "draw/axis.h"
#include "geom/angle.h"
#include "io/courses.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "rows_parts.h"

/* Beyond this a radius says only that it is straight. */
#define STRAIGHT 99999

struct text_out {
	const struct job *job;
	const struct solution *solution;
	struct sb_str *out;
};

/* A corridor in metres is told by the centimetre, one in feet by the tenth. */
static int decimals(const struct job *job)
{
	return job->unit == UNIT_M ? 2 : 1;
}

/* "1.8 L"; a value that rounds to nothing has no side. */
static void side_words(const struct job *job, const struct path_cell *c, const char *positive,
	const char *negative, char to[16])
{
	to[0] = '\0';
	if (c->kind == CELL_BLANK)
		return;
	double size = fabs(c->value);
	const char *side = size < 0.5 * pow(10, -decimals(job)) ? "" : c->value > 0 ? positive : negative;
	snprintf(to, 16, "%.*f%s%s", decimals(job), size, *side ? " " : "", side);
}

static void radius_words(const struct path_cell *c, bool known, char to[16])
{
	to[0] = '\0';
	if (c->kind != CELL_BLANK && c->value < STRAIGHT)
		snprintf(to, 16, "%.0f", c->value);
	else if (known)
		snprintf(to, 16, "straight");
}

static void angle_words(const struct path_cell *c, char to[16])
{
	to[0] = '\0';
	if (c->kind == CELL_TYPED && strlen(c->typed.text) <= 6)
		snprintf(to, 16, "%.15s", c->typed.text);
	else if (c->kind != CELL_BLANK)
		snprintf(to, 16, "%.2f", c->value);
}

/* Blank cells at the end of a line leave no spaces. */
static void trim_end(struct sb_str *out)
{
	size_t length = out->length - 1;

	while (length > 0 && out->text[length - 1] == ' ')
		length--;
	out->length = length;
	sb_str_append(out, "\n", 1);
}

static void take_text(void *data, const struct row *row, const struct path_cell cells[PATH_COLUMNS])
{
	const struct text_out *t = data;
	char joint[16], inclination[16], azimuth[16], station[SB_AXIS_TEXT] = "", offset[16], height[16],
						      one[16], many[16], share[16] = "";
	const struct path_cell *depth =
		&cells[cells[PATH_BIT_DEPTH].kind == CELL_BLANK ? PATH_SURVEY_DEPTH : PATH_BIT_DEPTH];
	bool placed = cells[PATH_STATION].kind != CELL_BLANK, bends = placed && cells[PATH_JOINT].value > 0;

	snprintf(joint, sizeof joint, "%d%s%.0f", (int)cells[PATH_JOINT].value,
		cells[PATH_LEG].value > 1 ? "/" : "", cells[PATH_LEG].value);
	if (cells[PATH_LEG].value <= 1)
		snprintf(joint, sizeof joint, "%d", (int)cells[PATH_JOINT].value);
	angle_words(&cells[PATH_INCLINATION], inclination);
	angle_words(&cells[PATH_AZIMUTH], azimuth);
	side_words(t->job, &cells[PATH_OFFSET], "R", "L", offset);
	side_words(t->job, &cells[PATH_HEIGHT], "high", "low", height);
	radius_words(&cells[PATH_RADIUS_JOINT], bends, one);
	radius_words(&cells[PATH_RADIUS_WINDOW], row && bends && row->window.joints > 0, many);
	if (placed) {
		sb_axis_station(sb_frame_metres(&t->solution->frame, cells[PATH_STATION].value), t->job->unit,
			1, station);
		snprintf(share, sizeof share, "%.0f %%", fmin(cells[PATH_CORRIDOR_SHARE].value, 9.99) * 100);
	}
	sb_str_add(t->out, "%6s %7.1f %6s %6s %9s %7s %9s %8s %8s %5s\n", joint, depth->value, inclination,
		azimuth, station, offset, height, one, many, share);
	trim_end(t->out);
}

/* The second path, in lines of 80 columns. */
static void put_courses(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_str text = { 0 };

	if (sb_courses_say(job, s, &text)) {
		size_t column = 0;
		char *rest = text.text;
		for (char *word; (word = strsep(&rest, " ")) != NULL; column += strlen(word)) {
			bool fits = column > 0 && column + 1 + strlen(word) <= 80;
			sb_str_add(out, "%s%s", fits ? " " : "\n", word);
			column = fits ? column + 1 : 0;
		}
		sb_str_add(out, "\n");
	}
	sb_str_clear(&text);
}

int rows_text(const struct job *job, const struct solution *s, const struct rows_ask *ask, struct sb_str *out,
	struct sb_err *err)
{
	struct text_out t = { job, s, out };
	const char *unit = sb_unit_short(job->unit);
	char window[16];

	if (sb_number_given(&job->window_length))
		snprintf(window, sizeof window, "%.5s %s", job->window_length.text, unit);
	else
		snprintf(window, sizeof window, "%.0f joints", job->window_joints.value);
	sb_str_add(out, "%6s %7s %6s %6s %9s %7s %9s %8s %8s %5s\n", "joint",
		ask->every != 0 ? "survey" : "bit", "incl", "azim", "station", "offset", "height", "radius",
		window, "corr");
	sb_str_add(out, "%6s %7s %6s %6s %9s %7s %9s %8s %8s %5s\n", "/leg", unit,
		sb_incline_mark(job->incline), "deg", unit, unit, unit, unit, unit, "used");
	if (rows_walk(job, s, ask, take_text, &t, err))
		return -1;
	put_courses(job, s, out);
	return 0;
}

/* ---- one row ---- */

static void say_deviation(
	const struct job *job, const struct solution *s, const struct deviation *d, struct sb_str *out)
{
	char station[SB_AXIS_TEXT];
	const char *unit = sb_unit_short(job->unit);
	double offset = sb_frame_typed(&s->frame, d->offset_m),
	       height = sb_frame_typed(&s->frame, d->height_m), least = 0.5 * pow(10, -decimals(job));

	sb_axis_station(d->station_m, job->unit, 1, station);
	sb_str_add(out, "station %s", station);
	if (fabs(offset) < least)
		sb_str_add(out, "   on line");
	else
		sb_str_add(out, "   %.*f %s %s", decimals(job), fabs(offset), unit,
			offset > 0 ? "right" : "left");
	if (fabs(height) < least)
		sb_str_add(out, "   on grade");
	else
		sb_str_add(
			out, "   %.*f %s %s", decimals(job), fabs(height), unit, height > 0 ? "high" : "low");
}

/* "give or take 1.4 across, 0.3 in height (95 %); 2 % chance outside" */
static void say_doubt(const struct job *job, const struct solution *s, const struct doubt *d, double outside,
	struct sb_str *out)
{
	double factor = s->uncertainty.line_factor;

	sb_str_add(out,
		"            give or take %.*f across, %.*f in height (%s %%); %.0f %% chance outside\n",
		decimals(job), sb_frame_typed(&s->frame, factor * d->across_m), decimals(job),
		sb_frame_typed(&s->frame, factor * d->up_m), job->confidence.text, outside * 100);
}

/* "1480 ft (min 900)", or "straight". */
static void say_radius(
	const struct path_cell *c, const char *unit, const struct number *least, struct sb_str *out)
{
	char radius[16];

	radius_words(c, true, radius);
	sb_str_add(out, "%s", radius);
	if (!sb_same(radius, "straight"))
		sb_str_add(out, " %s", unit);
	if (sb_number_given(least))
		sb_str_add(out, " (min %s)", least->text);
}

static void say_bend(
	const struct job *job, const struct solution *s, const struct row *row, struct sb_str *out)
{
	struct path_cell cells[PATH_COLUMNS];
	const char *unit = sb_unit_short(job->unit);

	sb_rows_fill(job, s, row, cells);
	sb_str_add(out, "  bend      joint ");
	say_radius(&cells[PATH_RADIUS_JOINT], unit, &job->joint_minimum, out);
	if (row->window.joints > 0) {
		sb_str_add(out, "   %d joints ", row->window.joints);
		say_radius(&cells[PATH_RADIUS_WINDOW], unit, &job->window_minimum, out);
	}
	sb_str_add(out, "\n");
}

static void say_heading(
	const struct job *job, const struct solution *s, const struct row *row, struct sb_str *out)
{
	struct design_place design = sb_design_at(&s->design, row->deviation.station_m);

	sb_str_add(out, "  heading   %.1f %s (design %.1f)   azimuth %.1f (design %.1f)\n",
		sb_frame_inc_typed(&s->frame, row->attitude.inc_rad), sb_incline_mark(job->incline),
		sb_frame_inc_typed(&s->frame, design.inc_rad),
		sb_frame_azi_typed(&s->frame, row->attitude.azi_rad),
		sb_frame_azi_typed(&s->frame, design.azi_rad));
}

void sb_rows_say(const struct job *job, const struct solution *s, const struct row *row,
	const struct bit *bit, struct sb_str *out)
{
	const char *unit = sb_unit_short(job->unit);

	sb_str_add(out, "joint %d   leg %d   bit %.1f %s   sensor %.1f %s\n", row->joint, row->leg,
		sb_frame_typed(&s->frame, row->bit_md_m), unit, sb_frame_typed(&s->frame, row->survey_md_m),
		unit);
	if (row->on_path) {
		sb_str_add(out, "  sensor    ");
		say_deviation(job, s, &row->deviation, out);
		sb_str_add(out, "   corridor %.0f %%\n", fmin(row->use.share, 9.99) * 100);
		if (bit == NULL || !bit->known)
			say_doubt(job, s, &row->doubt, row->outside, out);
		say_heading(job, s, row, out);
		say_bend(job, s, row, out);
	} else if (row->taken) {
		sb_str_add(out, "  the sensor is still behind the entry: kept, and the path does not move\n");
	} else {
		sb_str_add(out, "  no reading was taken: the path is carried over this joint\n");
	}
	if (bit == NULL || !bit->known)
		return;
	sb_str_add(out, "  bit       ");
	say_deviation(job, s, &bit->deviation, out);
	sb_str_add(
		out, "   corridor %.0f %% %s\n", fmin(bit->use.share, 9.99) * 100, sb_level_word(bit->level));
	say_doubt(job, s, &bit->doubt, bit->outside, out);
}

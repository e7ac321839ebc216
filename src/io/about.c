/* The lines that go with what is handed over. Keys are fixed, so that a script can look for one; texts are
 * for people.
 */
#include "io/about.h"

#include "base/str.h"
#include "base/time.h"
#include "io/courses.h"
#include "io/links.h"
#include "model/frame.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char sb_caution[] =
	"A help to trained people. It does not replace locating and exposing utilities, the engineer's sealed "
	"calculation, the contract, or local codes.";

struct lines {
	struct about_line *out;
	size_t count;
};

static void add(struct lines *l, const char *key, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

static void add(struct lines *l, const char *key, const char *format, ...)
{
	char text[SB_ABOUT_TEXT];
	va_list args;

	va_start(args, format);
	vsnprintf(text, sizeof text, format, args);
	va_end(args);
	if (text[0] == '\0' || l->count == SB_ABOUT_LINES)
		return;
	struct about_line *line = &l->out[l->count++];
	line->key = key;
	sb_copy(line->text, sizeof line->text, text);
	sb_utf8_tame(line->text);
}

static const char *convention_words(enum incline incline)
{
	switch (incline) {
	case INCLINE_DOWN:
		return "down: degrees from straight down, 90 is level";
	case INCLINE_LEVEL:
		return "level: degrees from level, rising positive";
	case INCLINE_GRADE:
		break;
	}
	return "grade: percent, rising positive";
}

static const char *given(const struct number *n)
{
	return sb_number_given(n) ? n->text : "not given";
}

static void add_azimuth(struct lines *l, const struct job *job)
{
	static const char *const references[] = { "grid north", "true north", "magnetic north",
		"the bore: bore_azimuth_read stands for the design bearing of the first tangent" };
	struct frame f;

	add(l, "azimuth", "as the tool reads it, referred to %s", references[job->reference]);
	add(l, "declination", "%s degrees, east positive", given(&job->declination));
	add(l, "convergence", "%s degrees; grid = true - convergence", given(&job->convergence));
	if (sb_number_given(&job->bore_azimuth_read))
		add(l, "bore_azimuth_read", "%s degrees", job->bore_azimuth_read.text);
	if (sb_frame_init(job, &f, NULL) == 0)
		add(l, "azimuth_to_grid",
			"%.4f degrees are added to an azimuth as read to make it a grid azimuth",
			f.azimuth_turn_rad * (180 / 3.14159265358979323846));
}

static void add_figure(char *text, size_t size, const char *what, const struct number *n, const char *unit)
{
	size_t used = strlen(text);

	if (sb_number_given(n))
		snprintf(text + used, size - used, "%s%s %s %s", used ? "; " : "", what, n->text, unit);
}

static void add_instrument(struct lines *l, const struct job *job)
{
	const char *unit = sb_unit_short(job->unit);
	char text[SB_ABOUT_TEXT] = "";

	add_figure(text, sizeof text, "sensor to bit", &job->sensor_to_bit, unit);
	add_figure(text, sizeof text, "tool face offset", &job->tool_face_offset, "deg");
	add_figure(text, sizeof text, "azimuth correction", &job->azimuth_correction, "deg");
	add_figure(text, sizeof text, "one sigma of a reading: inclination", &job->sigma_inclination, "deg");
	add_figure(text, sizeof text, "azimuth", &job->sigma_azimuth, "deg");
	add_figure(text, sizeof text, "joint length", &job->sigma_depth, unit);
	add_figure(text, sizeof text, "one sigma of what all readings share: inclination",
		&job->bias_inclination, "deg");
	add_figure(text, sizeof text, "azimuth", &job->bias_azimuth, "deg");
	add(l, "instrument", "%s", text);
}

/* What the sigmas of every row were reckoned from, beside the instrument's own. */
static void add_uncertainty(struct lines *l, const struct job *job)
{
	char text[SB_ABOUT_TEXT - 16] = "";

	if (job->reference != REFERENCE_BORE) {
		add_figure(text, sizeof text, "declination", &job->declination_sigma, "deg");
		add_figure(text, sizeof text, "with", &job->declination_by_field, "deg nT over the field");
	}
	add_figure(text, sizeof text, "string", &job->string_field, "nT over the field");
	add_figure(text, sizeof text, "horizontal field", &job->horizontal_field, "nT");
	add_figure(text, sizeof text, "carried azimuths, shared", &job->carried_bias, "deg");
	add_figure(text, sizeof text, "each", &job->carried_noise, "deg");
	add_figure(text, sizeof text, "depth scale", &job->depth_scale, "");
	add_figure(text, sizeof text, "depth of a reading", &job->reading_depth, sb_unit_short(job->unit));
	add(l, "uncertainty", "one sigma: %s", text);
	add(l, "confidence", "%s percent; the corridor is judged by the %s", job->confidence.text,
		job->judge == JUDGE_MEAN ? "computed position" : "chance of being outside");
}

/* What the lines above say holds as the job began; these say what came since, and from which joint on. Each
 * act is one line, the oldest first; where there are too many the oldest are counted alone. */
static void add_changes(struct lines *l, const struct job *job)
{
	static const char *const keys[] = { "change_1", "change_2", "change_3", "change_4", "change_5",
		"change_6", "change_7", "change_8" };
	const struct change *acts[sizeof keys / sizeof *keys];
	const size_t most = sizeof keys / sizeof *keys, count = sb_links_acts(job, acts, most);
	char day[SB_TIME_TEXT];

	if (count == 0)
		return;
	add(l, "changes",
		"%zu since the job began: azimuth, instrument and uncertainty stand here as it began, and each joint has what "
		"held for it%s",
		count, count > most ? "; the newest 8 follow, the job file's history has all" : "");
	for (size_t left = count < most ? count : most, i = 0; left-- > 0; i++) {
		const struct fact *f = &acts[left]->fact;
		sb_time_day(f->at_ms, day);
		add(l, keys[i], "after joint %d by %s on %s: %s", f->joint, f->who, day, f->words);
	}
	struct frame first, now;
	if (sb_frame_init(job, &first, NULL) == 0) {
		sb_frame_for(job, &first, NULL, &now);
		add(l, "azimuth_to_grid_now", "%.4f degrees are added to an azimuth that is read now",
			now.azimuth_turn_rad * (180 / 3.14159265358979323846));
	}
}

/* A path that was corrected by independent fixes must say so wherever it goes. */
static void add_correction(struct lines *l, const struct job *job)
{
	const struct adjustment *a = sb_job_adjustment(job);

	if (a)
		add(l, "correction", "in every position, though not in what was read: %s (%s)", a->fact.words,
			a->fact.who);
	else if (job->fix_count)
		add(l, "correction", "none: the path is as it was read, beside %zu independent fixes",
			job->fix_count);
}

static void add_bend(struct lines *l, const struct job *job)
{
	const char *unit = sb_unit_short(job->unit);
	char window[64];

	if (sb_number_given(&job->window_length))
		snprintf(window, sizeof window, "%s %s", job->window_length.text, unit);
	else
		snprintf(window, sizeof window, "%s joints", job->window_joints.text);
	add(l, "bend_limits", "one joint %s %s; over %s %s %s, judged by the %s", given(&job->joint_minimum),
		unit, window, given(&job->window_minimum), unit,
		job->method == METHOD_SUM ? "sum of its doglegs" : "angle between its ends");
}

/* "thrust lbf; torque ft lbf; ..." */
static void add_units(struct lines *l, const struct job *job)
{
	char text[SB_ABOUT_TEXT] = "";

	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		const char *unit = sb_row_field_unit(f, job->unit);
		size_t used = strlen(text);
		if (f->type == FIELD_NUMBER && *unit)
			snprintf(text + used, sizeof text - used, "%s%s %s", used ? "; " : "", f->name, unit);
	}
	add(l, "reading_units", "%s", text);
}

static void add_place(struct lines *l, const char *key, const struct place *p, const char *what)
{
	add(l, key, "easting %s, northing %s, elevation %s; %s", p->easting.text, p->northing.text,
		p->elevation.text, what);
}

const char *sb_about_mark(const struct job *job)
{
	return job->rehearsal[0] ? "REHEARSAL" : "";
}

size_t sb_about_lines(const struct job *job, const struct about *a, struct about_line out[SB_ABOUT_LINES])
{
	struct lines l = { out, 0 };
	char time[SB_TIME_TEXT];

	sb_time_iso(a->at_ms, time);
	if (job->rehearsal[0])
		add(&l, "rehearsal", "%s: drilled by simulation (%s); not a record of any hole",
			sb_about_mark(job), job->rehearsal);
	add(&l, "job", "%s", job->name);
	add(&l, "owner", "%s", job->owner);
	add(&l, "contractor", "%s", job->contractor);
	add(&l, "file", "%s", a->file);
	add(&l, "file_digest", "%s", a->head);
	add(&l, "exported_by", "%s", a->who);
	add(&l, "exported_at", "%s", time);
	add(&l, "program", "%s", a->program);
	add(&l, "unit", "%s (%s)", sb_unit_name(job->unit), sb_unit_long(job->unit));
	add_units(&l, job);
	add(&l, "inclination", "%s", convention_words(job->incline));
	add_azimuth(&l, job);
	add(&l, "coordinate_system", "%s", job->crs);
	add(&l, "vertical_datum", "%s", job->vertical_datum);
	add(&l, "scale_factor",
		"%s: grid distance = ground distance x this; depths and stations are ground distances",
		given(&job->scale_factor));
	add_place(&l, "entry", &job->entry, "the rig side");
	add_place(&l, "exit", &job->exit, "the product pipe enters here");
	add(&l, "method", "%s", sb_courses_method(job));
	add_correction(&l, job);
	add_instrument(&l, job);
	add_uncertainty(&l, job);
	add_changes(&l, job);
	add_bend(&l, job);
	add(&l, "signs",
		"offset: right positive, looking from entry to exit; height: above the design line positive; "
		"dogleg: degrees since the reading before");
	add(&l, "sides", "entry is the rig side; the product pipe enters at the bore's exit");
	add(&l, "caution", "%s", sb_caution);
	return l.count;
}

void sb_about_put(struct sb_json *j, const char *name, const struct job *job, const struct about *a)
{
	struct about_line lines[SB_ABOUT_LINES];
	size_t count = sb_about_lines(job, a, lines);

	sb_json_object(j, name);
	for (size_t i = 0; i < count; i++)
		sb_json_text(j, lines[i].key, lines[i].text);
	sb_json_end(j);
}

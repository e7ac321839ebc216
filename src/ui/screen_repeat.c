/* Readings taken again: one is typed, with what it says against the path before it is kept, above those that
 * were kept and what they make of the readings' noise.
 */
#include "base/str.h"
#include "geom/angle.h"
#include "model/repeats.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>

struct repeating {
	struct form form;
};

/* The fields, in the order of the form; of each the column of the fact. */
static const struct {
	const char *column, *label, *unit;
} fields[] = {
	{ "inclination", "inclination", NULL },
	{ "azimuth", "azimuth", "deg" },
	{ "tool_face", "tool face", "deg" },
	{ "total_gravity", "total gravity", "as shown" },
	{ "total_field", "total field", "as shown" },
	{ "dip", "dip", "deg" },
};

static void add_number(struct form *f, const char *name, const char *label, const char *unit, bool required,
	const char *offered)
{
	struct form_field field = { .name = name,
		.label = label,
		.unit = unit,
		.kind = ENTRY_NUMBER,
		.width = 10,
		.required = required };

	sb_form_add(f, field, offered);
}

static void build_form(struct form *f, const struct view *v)
{
	const struct solution *s = v->solution;
	struct number last =
		sb_number_of(sb_frame_typed(&s->frame, sb_solution_last_on_path(s)->survey_md_m), 2);
	struct form_field way = { .name = "way",
		.label = "where",
		.kind = ENTRY_CHOICE,
		.width = 6,
		.choices = "again|out",
		.required = true };

	*f = (struct form){ .count = 0 };
	add_number(f, "depth", "depth of the sensor", sb_unit_short(v->job->unit), true, last.text);
	sb_form_add(f, way, "again");
	for (size_t i = 0; i < sizeof fields / sizeof *fields; i++)
		add_number(f, fields[i].column, fields[i].label,
			i == 0 ? sb_incline_mark(v->job->incline) : fields[i].unit, i < 2, "");
	sb_entry_words(f, "remarks", "remarks", 44, false);
	sb_entry_who(f, v);
	sb_form_focus(f, sb_form_index(f, "inclination"));
}

static int repeat_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct repeating *state = v->state;

	(void)argument;
	if (v->solution->path.on_count < 2)
		return sb_fail(err, SB_STATE,
			"No reading is on the path yet: there is none that could be taken again.");
	build_form(&state->form, v);
	return 0;
}

static int take_form(const struct form *f, struct repeat *r, struct sb_err *err)
{
	*r = (struct repeat){ .way = WAY_AGAIN };
	return sb_entry_take(f, sb_fact_sort(ACT_REPEAT), r, err);
}

/* What is typed against the path, as soon as there is an inclination. */
static int draw_meaning(const struct view *v, struct cells *out, int row)
{
	const struct repeating *state = v->state;
	struct sb_str words = { 0 };
	struct repeat r;

	if (take_form(&state->form, &r, NULL) || !sb_number_given(&r.inclination) || !(r.depth.value > 0))
		return row;
	bool agrees = sb_repeat_compare(v->job, v->solution, &r).agrees;
	r.fact.joint = sb_job_in_ground(v->job);
	sb_repeat_words(v->job, v->solution, &r, &words);
	row += sb_cells_wrap(out, row, 1, out->columns - 2, sb_theme_level(agrees ? LEVEL_OK : LEVEL_WATCH),
		sb_str_get(&words));
	sb_str_clear(&words);
	return row;
}

static void difference(double rad, const char *more, const char *less, char text[32])
{
	if (isnan(rad))
		snprintf(text, 32, "not read");
	else
		snprintf(text, 32, "%.2f deg %s", sb_deg(fabs(rad)), rad < 0 ? less : more);
}

static void draw_kept(const struct view *v, const struct repeat *r, struct cells *out, int row)
{
	struct repeat_difference d = sb_repeat_compare(v->job, v->solution, r);
	char inc[32], azi[32];

	difference(d.inc_rad, "higher", "lower", inc);
	difference(d.azi_rad, "right", "left", azi);
	sb_cells_right(out, row, 1, 9, STYLE_PLAIN, r->depth.text);
	sb_cells_fit(out, row, 12, 6, STYLE_PLAIN, r->way == WAY_OUT ? "out" : "again");
	if (!d.stands) {
		sb_cells_text(out, row, 19, STYLE_WITHDRAWN, "given up since, and drilled again");
		return;
	}
	sb_cells_fit(out, row, 19, 16, STYLE_PLAIN, inc);
	sb_cells_fit(out, row, 36, 16, STYLE_PLAIN, azi);
	sb_cells_text(out, row, 53, sb_theme_level(d.agrees ? LEVEL_OK : LEVEL_WATCH),
		d.agrees ? "noise explains it" : "! more than noise");
}

/* What all of them say of the noise. */
static int draw_noise(const struct view *v, struct cells *out, int row)
{
	const struct frame *f = &v->solution->frame;
	struct repeat_noise n = sb_repeat_noise(v->job, v->solution);
	struct sb_str words = { 0 };

	if (sb_repeat_noise_words(v->job, v->solution, &words))
		row += sb_cells_wrap(
			out, row, 1, out->columns - 2, sb_theme_level(LEVEL_WATCH), sb_str_get(&words));
	else if (n.inc_count > 1 && n.azi_count > 1)
		sb_cells_print(out, row++, 1, STYLE_DIM,
			"Noise: inclination %.2f deg (sheet %.2f), azimuth %.2f deg (sheet %.2f).",
			sb_deg(n.inc_rad), sb_deg(f->sigma_inc_rad), sb_deg(n.azi_rad),
			sb_deg(f->sigma_azi_rad));
	sb_str_clear(&words);
	return row;
}

static void repeat_draw(const struct view *v, struct cells *out)
{
	const struct repeating *state = v->state;
	const struct job *job = v->job;
	int rows = (int)state->form.count;

	sb_cells_rule(out, 0, "a reading taken again: it never moves the path");
	struct cells part = sb_cells_part(out, 1, 0, rows, out->columns);
	sb_form_draw(&state->form, &part);
	int row = draw_meaning(v, out, rows + 1);
	sb_cells_rule(out, row++, "kept so far, the newest first: against the path");
	if (job->repeat_count == 0)
		sb_cells_text(out, row, 1, STYLE_DIM, "None yet.");
	row = draw_noise(v, out, row);
	for (size_t i = job->repeat_count; i-- > 0 && row < out->rows; row++)
		draw_kept(v, &job->repeats[i], out, row);
}

static enum follow put_on_disk(struct view *v)
{
	struct repeating *state = v->state;
	struct sb_str words = { 0 };
	struct sb_err err = { 0 };
	struct repeat r;

	if (take_form(&state->form, &r, &err) ||
		sb_store_repeat(v->store, sb_form_text(&state->form, "who"), &r,
			sb_form_text(&state->form, "remarks"), &err))
		return sb_app_fail(v, &err);
	const struct repeat *kept = &v->job->repeats[v->job->repeat_count - 1];
	bool agrees = sb_repeat_compare(v->job, v->solution, kept).agrees;
	sb_repeat_words(v->job, v->solution, kept, &words);
	sb_app_say(v, agrees ? LEVEL_OK : LEVEL_WATCH, "On disk. %s", sb_str_get(&words));
	sb_str_clear(&words);
	build_form(&state->form, v);
	return FOLLOW_JOB_CHANGED;
}

static enum follow repeat_key(struct view *v, int key)
{
	struct repeating *state = v->state;

	return sb_entry_key(
		v, &state->form, key, sb_entry_check, sb_fact_sort(ACT_REPEAT), NULL, put_on_disk);
}

static const struct action repeat_actions[] = {
	{ .name = "keep-repeat",
		.keys = "Enter",
		.label = "put on disk",
		.help = "Keep the reading beside the path." },
	{ .name = "no-repeat",
		.keys = "Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log; what is typed here is not kept.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_repeat = {
	.name = "repeat",
	.title = "readings taken again",
	.about =
		"A reading taken again where one was taken, or on the way out of the hole. It stands beside the path and never moves "
		"it: it says what the noise of the readings is worth, and whether something disturbs the azimuth.",
	.state_size = sizeof(struct repeating),
	.open = repeat_open,
	.draw = repeat_draw,
	.key = repeat_key,
	.letters = true,
	.actions = repeat_actions,
	.widgets = { sb_form_keys },
};

/* Settings that change while the bore is drilled: the values in force, to be typed over; from which joint on
 * the new ones hold, why, and whose word it is. What is left as it stands does not change.
 */
#include "base/str.h"
#include "model/setting.h"
#include "ui/app.h"
#include "ui/azimuth.h"
#include "ui/entry.h"

#include <stdio.h>

struct changing {
	struct form form;
	const struct change_ask *ask;
};

static const char *const azimuth_keys[] = { "reference", "declination", "convergence", "bore_azimuth_read",
	"total_field", "dip", NULL };
static const char *const tool_keys[] = { "sensor_to_bit", "tool_face_offset", "azimuth_correction",
	"sigma_inclination", "sigma_azimuth", "sigma_depth", "bias_inclination", "bias_azimuth", NULL };

const struct change_ask sb_change_azimuth = { "what the azimuths refer to", "azimuth", azimuth_keys };
const struct change_ask sb_change_tool = { "another tool", "tool", tool_keys };

static const char *unit_of(const struct setting *s, const struct job *job)
{
	return sb_same(s->unit, "length")     ? sb_unit_short(job->unit)
		: sb_same(s->unit, "degrees") ? "deg"
					      : NULL;
}

/* A label of a key: its words apart. Literals, for a form borrows them. */
static const char *label_of(const char *key)
{
	static const struct {
		const char *key, *label;
	} labels[] = { { "reference", "readings refer to" }, { "declination", "declination" },
		{ "convergence", "convergence" }, { "bore_azimuth_read", "read on the staked line" },
		{ "total_field", "total field to hold against" }, { "dip", "dip to hold against" },
		{ "sensor_to_bit", "sensor to bit" }, { "tool_face_offset", "tool face offset" },
		{ "azimuth_correction", "azimuth correction" },
		{ "sigma_inclination", "sigma of inclination" }, { "sigma_azimuth", "sigma of azimuth" },
		{ "sigma_depth", "sigma of a joint's length" },
		{ "bias_inclination", "shared by all: inclination" },
		{ "bias_azimuth", "shared by all: azimuth" } };

	for (size_t i = 0; i < sizeof labels / sizeof *labels; i++)
		if (sb_same(labels[i].key, key))
			return labels[i].label;
	return key;
}

static void in_force(const struct view *v, const struct changing *c, size_t i, char text[SB_NAME_TEXT])
{
	struct job as = sb_frame_settings(v->job, NULL);

	if (!sb_setting_get(sb_setting(c->ask->section, c->ask->keys[i]), &as, text, SB_NAME_TEXT))
		text[0] = '\0';
}

static int change_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct changing *c = v->state;
	char text[SB_NAME_TEXT];

	(void)err;
	c->ask = argument;
	for (size_t i = 0; c->ask->keys[i]; i++) {
		const struct setting *s = sb_setting(c->ask->section, c->ask->keys[i]);
		in_force(v, c, i, text);
		sb_form_add(&c->form,
			(struct form_field){ .name = s->key,
				.label = label_of(s->key),
				.unit = unit_of(s, v->job),
				.choices = s->choices,
				.kind = s->type == SETTING_CHOICE ? ENTRY_CHOICE : ENTRY_NUMBER,
				.width = 12 },
			text);
	}
	snprintf(text, sizeof text, "%d", sb_job_in_ground(v->job) + 1);
	sb_form_add(&c->form,
		(struct form_field){ .name = "from",
			.label = "from joint",
			.kind = ENTRY_NUMBER,
			.width = 12,
			.required = true },
		text);
	sb_entry_words(&c->form, "reason", "why", 44, true);
	sb_entry_who(&c->form, v);
	return 0;
}

static void change_draw(const struct view *v, struct cells *out)
{
	const struct changing *c = v->state;
	int next = sb_job_in_ground(v->job) + 1;
	char text[240];

	sb_cells_rule(out, 0, c->ask->title);
	snprintf(text, sizeof text,
		"The values in force; type over what is another. From joint %d on: what is in the ground keeps what held for "
		"it. An earlier joint: from there on the path is computed anew.",
		next);
	int row = 2 + sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_DIM, text);
	struct cells part = sb_cells_part(out, row, 0, out->rows - row, out->columns);
	sb_form_draw(&c->form, &part);
}

static int check(const struct form *f, size_t field, const void *context, struct sb_err *err)
{
	const struct view *v = context;
	const struct changing *c = v->state;
	const struct form_field *at = &f->fields[field];
	const struct setting *s = sb_setting(c->ask->section, at->name);
	struct job trial = *v->job; /* borrows all its lists */
	int from;

	if (sb_same(at->name, "from"))
		return sb_change_from(v->job, at->text, &from, err);
	return s ? sb_setting_put(s, &trial, at->text, err) : 0;
}

/* The fields that say another value than is in force. */
static int take_changes(const struct view *v, int from, struct change *out, size_t *count, struct sb_err *err)
{
	const struct changing *c = v->state;
	char was[SB_NAME_TEXT];

	*count = 0;
	for (size_t i = 0; c->ask->keys[i]; i++) {
		const struct form_field *f = &c->form.fields[i];
		in_force(v, c, i, was);
		if (sb_same(f->text, was))
			continue;
		if (f->text[0] == '\0')
			return sb_fail(err, SB_USAGE,
				"%s was %s and cannot be taken away: type what holds instead.", f->label,
				was);
		struct change *one = &out[(*count)++];
		*one = (struct change){ .from_joint = from };
		sb_copy(one->section, sizeof one->section, c->ask->section);
		sb_copy(one->key, sizeof one->key, f->name);
		sb_copy(one->value, sizeof one->value, f->text);
	}
	if (*count == 0)
		return sb_fail(err, SB_USAGE, "Nothing is another than it was: type over what changed.");
	return 0;
}

static enum follow put_on_disk(struct view *v)
{
	struct changing *c = v->state;
	struct view *below = sb_app_below(v);
	struct change changes[SB_CHANGES] = { 0 };
	struct sb_err err = { 0 };
	size_t count;
	int from;

	if (sb_change_from(v->job, sb_form_text(&c->form, "from"), &from, &err) ||
		take_changes(v, from, changes, &count, &err) ||
		sb_store_change(v->store, sb_form_text(&c->form, "who"), changes, count,
			sb_form_text(&c->form, "reason"), &err))
		return sb_app_fail(v, &err);
	bool next = from > sb_job_in_ground(v->job);
	sb_app_close_top(v->app);
	sb_app_say(below, LEVEL_OK,
		next ? "On disk: it holds from joint %d on."
		     : "On disk: the path is computed anew from joint %d on.",
		from);
	return FOLLOW_JOB_CHANGED;
}

static enum follow change_key(struct view *v, int key)
{
	struct changing *c = v->state;

	return sb_entry_key(v, &c->form, key, check, v, NULL, put_on_disk);
}

static const struct action change_actions[] = {
	{ .name = "put-change",
		.keys = "Enter",
		.label = "put on disk",
		.help = "Put on disk what is another than it was." },
	{ .name = "no-change",
		.keys = "Esc Ctrl-C",
		.label = "leave",
		.help = "Go back; nothing changes.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_change = {
	.name = "change",
	.title = "change",
	.about =
		"Settings that change while the bore is drilled, with the values in force. They hold from the next joint on, unless an "
		"earlier joint is typed: then the path is computed anew from there. A reason and a name go with it.",
	.state_size = sizeof(struct changing),
	.open = change_open,
	.draw = change_draw,
	.key = change_key,
	.letters = true,
	.actions = change_actions,
	.widgets = { sb_form_keys },
};

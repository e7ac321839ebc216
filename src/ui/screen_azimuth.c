/* The azimuth from the reading to the grid: each link of the chain with its sign in words and whose word it
 * is; what map, magnetic model and the tool on the staked line say of it; and what was changed, when and by
 * whom.
 */
#include "base/str.h"
#include "base/time.h"
#include "geom/angle.h"
#include "io/links.h"
#include "io/site.h"
#include "ui/app.h"
#include "ui/azimuth.h"
#include "ui/log.h"
#include "ui/page.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>

struct azimuth_state {
	struct site site; /* asked once, when the screen opens */
	struct page page;
};

#define LABEL 17 /* columns of a label */
#define WIDE 120 /* from here on both halves stand side by side */
#define CHANGES 12

/* The day of the last act: what was read then is what is judged. */
static int azimuth_open(struct view *v, const void *argument, struct sb_err *err)
{
	struct azimuth_state *s = v->state;
	const struct job *job = v->job;

	(void)argument;
	(void)err;
	sb_site_find(job, job->act_count ? job->acts[job->act_count - 1].at_ms : sb_time_now(), &s->site);
	return 0;
}

/* A label and a text beside it; returns the row after it. */
static int put(struct cells *out, int row, const char *label, enum style style, const char *text)
{
	sb_cells_fit(out, row, 1, LABEL - 1, STYLE_DIM, label);
	return row + sb_cells_wrap(out, row, LABEL + 1, out->columns - LABEL - 2, style, text);
}

static int rule(struct cells *out, int row, const char *title)
{
	if (row >= 0)
		sb_cells_rule(out, row, title);
	return row + 1;
}

/* ---- the parts ---- */

static int draw_links(const struct view *v, struct cells *out, int row)
{
	struct azimuth_link links[SB_LINKS];
	size_t count = sb_links(v->job, &v->solution->frame, NULL, links);
	char text[SB_LINK_WORDS + SB_LINK_SOURCE + 4];

	row = rule(out, row, "from the reading to the grid, for the next joint");
	for (size_t i = 0; i < count; i++) {
		snprintf(text, sizeof text, links[i].source[0] ? "%s (%s)" : "%s", links[i].words,
			links[i].source);
		row = put(out, row, links[i].label, links[i].sum ? STYLE_STRONG : STYLE_PLAIN, text);
	}
	return row;
}

/* settled: somebody chose between these two. */
static int draw_comparison(const struct comparison *c, bool settled, struct cells *out, int row)
{
	char text[SB_SITE_TEXT + 16];
	bool watch = c->level != LEVEL_OK;

	if (!c->known)
		return put(out, row, c->label, STYLE_DIM, c->words);
	if (watch && settled)
		snprintf(text, sizeof text, "settled: %s", c->words);
	else
		snprintf(text, sizeof text, "%s%s%s: %s", sb_theme_mark(c->level), watch ? " " : "",
			sb_level_word(c->level), c->words);
	return put(out, row, c->label, watch && settled ? STYLE_PLAIN : sb_theme_level(c->level), text);
}

static void compare(const struct view *v, struct comparison out[HELD_COUNT])
{
	const struct azimuth_state *s = v->state;
	struct job as = sb_frame_settings(v->job, NULL);

	sb_site_compare(&as, &v->solution->frame, &s->site, out);
}

/* The watch of the two ways, or by whom it was settled. */
static int draw_standing(const struct view *v, struct cells *out, int row)
{
	const struct solution *s = v->solution;
	const struct change *choice = sb_azimuth_choice(v->job, NULL);
	char text[SB_LINK_WORDS + SB_REMARK_TEXT * 2 + 40];
	int open = s->open[WARNING_AZIMUTH];

	if (open >= 0) {
		const struct warning *w = &s->warnings[open];
		snprintf(text, sizeof text, "! %s: since joint %d%s%s. S settles it.",
			sb_level_word(w->level), w->joint, w->acknowledged ? ", acknowledged by " : "",
			w->acknowledged_by);
		return put(out, row, "two ways", sb_theme_level(w->level), text);
	}
	if (choice == NULL)
		return row;
	snprintf(text, sizeof text, "settled by %s: %s", choice->fact.who, choice->fact.words);
	return put(out, row, "choice", STYLE_PLAIN, text);
}

static int draw_comparisons(const struct view *v, struct cells *out, int row)
{
	struct comparison all[HELD_COUNT];
	bool settled = sb_azimuth_choice(v->job, NULL) != NULL;

	compare(v, all);
	row = rule(out, row, "held against one another");
	for (int i = 0; i < HELD_COUNT; i++)
		row = draw_comparison(&all[i], settled && i >= HELD_LINE, out, row);
	return draw_standing(v, out, row);
}

static int draw_model(const struct site *s, struct cells *out, int row)
{
	char day[SB_TIME_TEXT], words[SB_EARTH_WORDS], text[SB_EARTH_WORDS + 120];
	const struct magnet *m = &s->magnet;

	if (!s->magnetic)
		return put(out, row, "magnetic model", STYLE_DIM, s->magnet_says);
	sb_time_day(s->ms, day);
	sb_earth_declination_words(m->field.declination_rad, words);
	snprintf(text, sizeof text, "%s, give or take %.2f (%s, at the entry on %s)", words,
		sb_deg(m->sigma.declination_rad), SB_MAGNET_MODEL, day);
	row = put(out, row, "magnetic model", STYLE_PLAIN, text);
	sb_earth_turn_words(m->field.declination_rad, s->grid.convergence_rad, words);
	return put(out, row, "to the grid", STYLE_PLAIN, words);
}

static int draw_found(const struct view *v, struct cells *out, int row)
{
	const struct azimuth_state *state = v->state;
	const struct site *s = &state->site;
	char words[SB_EARTH_WORDS], text[SB_EARTH_WORDS + 200];

	row = rule(out, row, "what is found at the job's place");
	if (!s->mapped) {
		row = put(out, row, "map", STYLE_DIM, s->map_says);
		return s->local ? row : draw_model(s, out, row);
	}
	row = put(out, row, "map", STYLE_PLAIN, s->system);
	sb_earth_convergence_words(s->grid.convergence_rad, words);
	row = put(out, row, "convergence", STYLE_PLAIN, words);
	snprintf(text, sizeof text, "%.6f on the grid over ground: map %.6f times height %.6f, %s",
		s->combined, s->grid.scale, s->grid.height_factor, "the mean of both ends");
	row = put(out, row, "scale factor", STYLE_PLAIN, text);
	row = draw_model(s, out, row);
	for (size_t i = 0; i < s->warning_count; i++)
		row = put(out, row, "note", sb_theme_level(LEVEL_WATCH), s->warnings[i]);
	return row;
}

static int draw_changes(const struct view *v, struct cells *out, int row)
{
	const struct change *acts[CHANGES];
	size_t count = sb_links_acts(v->job, acts, CHANGES);
	char label[24], when[SB_TIME_TEXT], text[SB_REMARK_TEXT * 2 + SB_WHO_TEXT + SB_TIME_TEXT + 8];

	row = rule(out, row, "what changed since the job began; older joints keep theirs");
	if (count == 0)
		return put(out, row, "", STYLE_DIM, "Nothing: all is as in the job sheet.");
	for (size_t i = 0; i < count && i < CHANGES; i++) {
		const struct fact *f = &acts[i]->fact;
		snprintf(label, sizeof label, "at joint %d", f->joint);
		sb_time_long(f->at_ms, sb_time_offset(f->at_ms), when);
		snprintf(text, sizeof text, "%s, %s: %s", f->who, when, f->words);
		row = put(out, row, label, STYLE_PLAIN, text);
	}
	if (count > CHANGES)
		row = put(out, row, "", STYLE_DIM, "Older ones stand in the history.");
	return row;
}

static int draw_lines(const void *context, struct cells *out, int row)
{
	const struct view *v = context;
	int half = out->columns / 2;

	if (out->columns < WIDE) {
		row = draw_comparisons(v, out, draw_links(v, out, row));
		return draw_changes(v, out, draw_found(v, out, row));
	}
	/* not sb_cells_part: what is measured with no rows keeps its columns */
	struct cells left = *out, right = *out;
	left.columns = half - 1;
	right.columns = out->columns - half - 1;
	right.at += half + 1;
	right.left += half + 1;
	int one = draw_changes(v, &left, draw_links(v, &left, row));
	int other = draw_comparisons(v, &right, draw_found(v, &right, row));
	return one > other ? one : other;
}

static void azimuth_draw(const struct view *v, struct cells *out)
{
	struct azimuth_state *s = v->state;

	sb_page_draw(&s->page, draw_lines, v, out);
}

static enum follow azimuth_key(struct view *v, int key)
{
	struct azimuth_state *s = v->state;

	return sb_page_key(&s->page, key) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

/* ---- acts ---- */

static enum follow settle(struct view *v)
{
	const struct azimuth_state *s = v->state;
	const struct change *choice = sb_azimuth_choice(v->job, NULL);
	struct comparison all[HELD_COUNT];
	bool apart = false;

	compare(v, all);
	for (int i = 0; i < HELD_COUNT; i++)
		apart = apart || all[i].level != LEVEL_OK;
	if (!apart)
		return sb_app_say(v, LEVEL_OK,
			"Nothing that could be compared disagrees: there is nothing to settle. A changes the reference.");
	if (choice)
		return sb_app_say(v, LEVEL_OK, "%s settled it. A changes it again.", choice->fact.who);
	return sb_azimuth_settle(
		v, s->site.magnetic ? sb_deg(s->site.magnet.field.declination_rad) : (double)NAN);
}

static enum follow change_azimuth(struct view *v)
{
	return sb_app_open(v, &sb_screen_change, &sb_change_azimuth);
}

static enum follow change_tool(struct view *v)
{
	return sb_app_open(v, &sb_screen_change, &sb_change_tool);
}

static const struct action azimuth_actions[] = {
	{ .name = "settle-azimuth",
		.keys = "S Enter",
		.label = "settle",
		.help = "Say which holds where two ways disagree: the chain, the tool on the line, or another declination; with a "
			"reason and a name.",
		.act = settle,
		.writes = true },
	{ .name = "change-azimuth",
		.keys = "A",
		.label = "change azimuth",
		.help = "Change the reference, declination, convergence, or what the tool read on the line.",
		.act = change_azimuth,
		.writes = true },
	{ .name = "change-tool",
		.keys = "T",
		.label = "another tool",
		.help = "Another tool: its distance to the bit, its offsets, its sigmas.",
		.act = change_tool,
		.writes = true },
	{ .name = "back-to-log",
		.keys = "K Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to the log.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_azimuth = {
	.name = "azimuth",
	.title = "azimuth",
	.about =
		"How an azimuth as read becomes one on the grid, link by link, for the next joint. What map, magnetic model and the "
		"tool on the staked line say is held against it; a difference of more than 0.5 degrees is settled by a named choice.",
	.state_size = sizeof(struct azimuth_state),
	.open = azimuth_open,
	.draw = azimuth_draw,
	.key = azimuth_key,
	.actions = azimuth_actions,
	.widgets = { sb_page_keys },
};

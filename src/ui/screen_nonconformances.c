/* The non-conformances: every breach of a limit with what came of it, the chosen one in full, and the
 * engineer's word on it. */
#include "base/mem.h"
#include "base/str.h"
#include "model/nonconformance.h"
#include "ui/acceptance.h"
#include "ui/app.h"
#include "ui/entry.h"
#include "ui/explain.h"
#include "ui/list.h"
#include "ui/prompt.h"
#include "ui/theme.h"

#include <stdio.h>

struct breach_list {
	struct list list;
};

struct drawing {
	const struct nonconformance *list;
};

static enum style style_of(const struct nonconformance *n)
{
	if (n->state == DISPOSITION_REDRILLED)
		return STYLE_WITHDRAWN;
	return sb_theme_level(n->state == DISPOSITION_OPEN ? LEVEL_BREACH : LEVEL_OK);
}

static void draw_line(const void *context, size_t i, struct cells *out)
{
	const struct nonconformance *n = &((const struct drawing *)context)->list[i];
	struct sb_str joints = { 0 };
	char state[24];

	sb_nonconformance_joints(n, &joints);
	snprintf(state, sizeof state, "%s%s", n->state == DISPOSITION_OPEN ? "!! " : "",
		n->grown ? "open again" : sb_disposition_word(n->state));
	sb_cells_print(out, 0, 2, STYLE_PLAIN, "%3d", n->number);
	sb_cells_fit(out, 0, 7, 24, STYLE_PLAIN, sb_warning_sorts[n->warning->kind].label);
	sb_cells_print(out, 0, 32, STYLE_DIM, "leg %d", n->warning->leg);
	sb_cells_fit(out, 0, 40, 20, STYLE_PLAIN, sb_str_get(&joints));
	sb_cells_fit(out, 0, 61, out->columns - 62, style_of(n), state);
	sb_str_clear(&joints);
}

static void draw_chosen(const struct nonconformance *n, struct cells *out)
{
	struct sb_str came = { 0 };
	int row = 1;

	sb_nonconformance_say(n, &came);
	sb_cells_rule(out, 0, "the chosen one");
	row += sb_cells_wrap(out, row, 1, out->columns - 2, STYLE_PLAIN, n->warning->text);
	sb_cells_wrap(out, row, 1, out->columns - 2, style_of(n), sb_str_get(&came));
	sb_str_clear(&came);
}

static void breaches_draw(const struct view *v, struct cells *out)
{
	struct breach_list *l = v->state;
	struct drawing d;
	struct nonconformance *list;
	size_t count = sb_nonconformances(v->job, v->solution, &list);
	int below = out->rows / 2 > 8 ? 8 : out->rows / 2;

	sb_cells_rule(out, 0, "non-conformances");
	if (count == 0) {
		sb_cells_text(out, 2, 1, STYLE_OK, "ok: no limit was broken.");
	} else {
		d.list = list;
		sb_list_fit(&l->list, count);
		struct cells part = sb_cells_part(out, 1, 0, out->rows - 1 - below, out->columns);
		sb_list_draw(&l->list, count, draw_line, &d, &part);
		part = sb_cells_part(out, out->rows - below, 0, below, out->columns);
		draw_chosen(&list[l->list.chosen], &part);
	}
	sb_free(list);
}

static size_t count_of(const struct view *v)
{
	struct nonconformance *list;
	size_t count = sb_nonconformances(v->job, v->solution, &list);

	sb_free(list);
	return count;
}

static enum follow breaches_key(struct view *v, int key)
{
	struct breach_list *l = v->state;

	return sb_list_key(&l->list, key, count_of(v)) ? FOLLOW_REDRAW : FOLLOW_PASS;
}

/* The chosen one; false when there is none. */
static bool chosen(const struct view *v, struct nonconformance *out)
{
	const struct breach_list *l = v->state;
	struct nonconformance *list;
	bool any = sb_nonconformances(v->job, v->solution, &list) > l->list.chosen;

	if (any)
		*out = list[l->list.chosen];
	sb_free(list);
	return any;
}

static enum follow take(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	if (sb_store_accept(v->store, sb_form_text(given, "who"), (int)subject,
		    sb_form_text(given, "reference"), sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK,
		"On disk: non-conformance %lld is accepted as it stands. If it grows, it is open again.",
		(long long)subject);
	return FOLLOW_JOB_CHANGED;
}

static enum follow accept(struct view *v)
{
	struct prompt p = { .answer = take };
	struct nonconformance n = { 0 };

	if (!chosen(v, &n))
		return FOLLOW_NOTHING;
	if (n.state == DISPOSITION_REDRILLED)
		return sb_app_say(v, LEVEL_OK, "Its joints were redrilled: there is nothing to accept.");
	if (n.state == DISPOSITION_ACCEPTED)
		return sb_app_say(v, LEVEL_OK, "%s has accepted it already.", n.accepted->fact.who);
	p.subject = n.number;
	snprintf(p.question, sizeof p.question,
		"The engineer accepts non-conformance %d, with the calculation or letter that it rests on: %s",
		n.number, n.warning->text);
	sb_entry_words(&p.form, "reference", "reference", 40, true);
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow take_back_it(struct view *v, const struct form *given, int64_t subject)
{
	struct sb_err err = { 0 };

	if (sb_store_accept_back(v->store, sb_form_text(given, "who"), (int)subject,
		    sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	sb_app_say(v, LEVEL_OK, "On disk: non-conformance %lld is open again.", (long long)subject);
	return FOLLOW_JOB_CHANGED;
}

static enum follow take_back(struct view *v)
{
	struct prompt p = { .answer = take_back_it };
	struct nonconformance n = { 0 };

	if (!chosen(v, &n))
		return FOLLOW_NOTHING;
	if (n.accepted == NULL)
		return sb_app_say(v, LEVEL_OK, "It is not accepted: there is nothing to take back.");
	p.subject = n.number;
	snprintf(p.question, sizeof p.question, "Take back the acceptance of non-conformance %d. Why?",
		n.number);
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}

static enum follow breaches_why(struct view *v)
{
	struct nonconformance n = { 0 };

	return chosen(v, &n) ? sb_explain_value_of(v, n.warning) : FOLLOW_NOTHING;
}

static const struct action breaches_actions[] = {
	{ .name = "accept-breach",
		.keys = "Enter",
		.label = "accept",
		.help = "The engineer accepts the chosen one as it stands, with a reference, a reason and a name.",
		.act = accept,
		.writes = true },
	{ .name = "accept-breach-back",
		.keys = "B",
		.label = "take back",
		.help = "Take back that it was accepted, with a reason and a name.",
		.act = take_back,
		.writes = true },
	{ .name = "why",
		.keys = "Y",
		.label = "why",
		.help = "How the value of the chosen one came about: formula, inputs, steps, limit, source.",
		.act = breaches_why },
	{ .name = "back-to-acceptance",
		.keys = "N Q Esc Ctrl-C",
		.label = "back",
		.help = "Back to what is asked before the pilot is accepted.",
		.act = sb_app_close },
	{ 0 },
};

const struct screen sb_screen_nonconformances = {
	.name = "nonconformances",
	.title = "non-conformances",
	.about =
		"Every breach of a limit opens one by itself, and nothing removes it: its joints are redrilled, which closes it, or the "
		"engineer accepts it as it stands. The pilot cannot be accepted while one is open.",
	.state_size = sizeof(struct breach_list),
	.draw = breaches_draw,
	.key = breaches_key,
	.actions = breaches_actions,
	.widgets = { sb_list_keys },
};

/* Every key goes to the draft before it is painted, and it is discarded only after the store says that what
 * it holds is on disk: whatever ends the program, the hand goes on where it was. */
#include "ui/kept.h"

#include "base/str.h"
#include "store/draft.h"
#include "store/store.h"

#define FOCUS "focus" /* no field: where the hand was */

static void name_it(const struct view *v, const struct kept *k, struct sb_str *path)
{
	sb_str_add(path, "%s%s%s", sb_store_path(v->store), *k->name ? "." : "", k->name);
}

static void add_focus(const struct form *f, struct draft *d)
{
	if (d->count == SB_DRAFT_FIELDS)
		return;
	sb_copy(d->fields[d->count].name, sizeof d->fields[0].name, FOCUS);
	sb_copy(d->fields[d->count].text, sizeof d->fields[0].text, f->fields[f->focus].name);
	d->count++;
}

/* The hand goes on where it was, in the middle of a number too. */
static void take_focus(struct form *f, const struct draft *d)
{
	for (size_t i = 0; i < d->count; i++)
		if (sb_same(d->fields[i].name, FOCUS) && sb_form_index(f, d->fields[i].text) < f->count)
			sb_form_focus(f, sb_form_index(f, d->fields[i].text));
	f->editing = true;
}

void sb_kept_save(const struct view *v, const struct kept *k, bool sync)
{
	struct draft d = { .leg = k->leg, .joint = k->joint, .at_ms = sb_time_now() };
	struct sb_str path = { 0 };

	if (!sb_store_writes(v->store))
		return;
	for (size_t i = 0; i < SB_KEPT_FORMS && k->forms[i]; i++)
		sb_form_to_draft(k->forms[i], &d);
	if (d.count == 0) {
		sb_kept_discard(v, k);
		return;
	}
	add_focus(k->forms[0], &d);
	name_it(v, k, &path);
	/* A draft that cannot be written costs what is half typed if the power goes; it must not stop the
	 * hand. */
	sb_draft_save(sb_str_get(&path), &d, sync, NULL);
	sb_str_clear(&path);
}

bool sb_kept_load(const struct view *v, const struct kept *k, char when[SB_TIME_TEXT])
{
	struct sb_str path = { 0 };
	struct draft d;

	name_it(v, k, &path);
	bool found = sb_store_writes(v->store) && sb_draft_load(sb_str_get(&path), &d, NULL) == 1;
	sb_str_clear(&path);
	if (!found)
		return false;
	if (d.leg != k->leg || d.joint != k->joint) {
		sb_kept_discard(v, k);
		return false;
	}
	for (size_t i = 0; i < SB_KEPT_FORMS && k->forms[i]; i++)
		sb_form_from_draft(k->forms[i], &d);
	if (k->forms[0])
		take_focus(k->forms[0], &d);
	sb_time_short(d.at_ms, sb_time_offset(d.at_ms), when);
	return true;
}

void sb_kept_discard(const struct view *v, const struct kept *k)
{
	struct sb_str path = { 0 };

	if (!sb_store_writes(v->store))
		return;
	name_it(v, k, &path);
	sb_draft_discard(sb_str_get(&path));
	sb_str_clear(&path);
}

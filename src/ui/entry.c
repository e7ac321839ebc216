/* What the screens share that enter an act. */
#include "ui/entry.h"

enum follow sb_entry_key(struct view *v, struct form *f, int key, form_check check, const void *context,
	enum follow (*done)(struct view *v))
{
	switch (sb_form_key(f, key, check, context)) {
	case FORM_DONE:
		return done(v);
	case FORM_CHANGED:
	case FORM_MOVED:
		return FOLLOW_REDRAW;
	case FORM_PASS:
		break;
	}
	return FOLLOW_PASS;
}

void sb_entry_words(struct form *f, const char *name, const char *label, int width, bool required)
{
	sb_form_add(f,
		(struct form_field){ .name = name,
			.label = label,
			.kind = ENTRY_TEXT,
			.width = width,
			.required = required },
		"");
}

void sb_entry_who(struct form *f, const struct view *v)
{
	sb_form_add(f,
		(struct form_field){
			.name = "who", .label = "name", .kind = ENTRY_TEXT, .width = 30, .required = true },
		v->who);
}

static bool is_column(const struct form_field *f, const struct fact_sort *sort)
{
	return f->text[0] != '\0' && sb_fact_has(sort, f->name);
}

int sb_entry_check(const struct form *f, size_t field, const void *sort, struct sb_err *err)
{
	const struct form_field *at = &f->fields[field];
	union any_fact trial = { 0 };

	return is_column(at, sort) ? sb_fact_put(sort, &trial, at->name, at->text, err) : 0;
}

int sb_entry_take(const struct form *f, const struct fact_sort *sort, void *fact, struct sb_err *err)
{
	for (size_t i = 0; i < f->count; i++) {
		const struct form_field *at = &f->fields[i];
		if (is_column(at, sort) && sb_fact_put(sort, fact, at->name, at->text, err))
			return -1;
	}
	return 0;
}

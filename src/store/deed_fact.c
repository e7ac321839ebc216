/* Acts that bring one fact of their own: signing it, its words, and its way into the file. */
#include "base/str.h"
#include "store/deed.h"
#include "store/handle.h"

#include <string.h>

void sb_deed_sign(struct fact *f, const struct deed *d)
{
	f->act = d->act.id;
	f->at_ms = d->act.at_ms;
	f->leg = d->act.leg;
	f->joint = d->act.joint;
	sb_copy(f->who, sizeof f->who, d->act.who);
	sb_copy(f->words, sizeof f->words, d->act.text);
}

void sb_deed_compose(struct deed *d, const char *what, const char *why)
{
	struct sb_str all = { 0 };
	bool said = why && why[strspn(why, " \t\n")];

	sb_str_add(&all, "%s%s%s", what, said && *what ? ": " : "", said ? why : "");
	sb_deed_put_words(d, sb_str_get(&all));
	sb_str_clear(&all);
}

/* Takes the columns through the door that reading the file back goes through. */
static int take_columns(const struct fact_sort *sort, const void *from, void *to, struct sb_err *err)
{
	for (size_t i = 0; i < sort->column_count; i++) {
		char buffer[SB_NUMBER_TEXT];
		if (sb_sheet_cell_put(&sort->columns[i], to, sb_fact_column(sort, i, from, buffer), err))
			return sb_fail_within(err, "%s: ", sort->columns[i].name);
	}
	return 0;
}

int sb_deed_enter(struct sb_store *store, struct deed *d, const void *from, int64_t id, const char *what,
	const char *why, struct sb_err *err)
{
	const struct fact_sort *sort = sb_fact_sort(d->act.kind);
	union any_fact own = { 0 }, *fact = &own;

	if (take_columns(sort, from, fact, err))
		return -1;
	sb_deed_compose(d, what, why);
	fact->fact.id = id;
	sb_deed_sign(&fact->fact, d);
	d->sort = sort;
	d->fact = fact;
	return sb_deed_carry_out(store, d, err);
}

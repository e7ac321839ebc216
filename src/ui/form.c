/* Fields and typing.
 *
 * Text is UTF-8; `at` always stands between characters. A field's problem is found when it is left or when
 * Enter is pressed, and goes away with the next change: nobody is told off in the middle of a number.
 */
#include "ui/form.h"

#include "base/str.h"
#include "base/unit.h"
#include "ui/glyph.h"
#include "ui/key.h"

#include <assert.h>
#include <string.h>

#define CTRL_U 21

const struct action sb_form_keys[] = {
	{ .name = "field-next", .keys = "Tab Down", .help = "Go to the next field." },
	{ .name = "field-previous", .keys = "Shift-Tab Up", .help = "Go to the field before." },
	{ .name = "field-move",
		.keys = "Left Right Home End",
		.help = "Move within the text; where there are words to choose from, choose." },
	{ .name = "field-delete", .keys = "Backspace Del", .help = "Delete the character before, or under." },
	{ .name = "field-clear", .keys = "Ctrl-U", .help = "Empty the field." },
	{ 0 },
};

const struct action sb_form_line_keys[] = {
	{ .name = "field-next", .keys = "Tab", .help = "Go to the next field." },
	{ .name = "field-previous", .keys = "Shift-Tab", .help = "Go to the field before." },
	{ .name = "field-move",
		.keys = "Left Right Home End",
		.help = "Mend the number that stands there; a digit typed at once begins a new one." },
	{ .name = "field-delete", .keys = "Backspace Del", .help = "Delete the character before, or under." },
	{ .name = "field-clear", .keys = "Ctrl-U", .help = "Empty the field." },
	{ 0 },
};

void sb_form_add(struct form *f, struct form_field field, const char *offered)
{
	assert(f->count < SB_FORM_FIELDS);
	struct form_field *added = &f->fields[f->count++];
	*added = field;
	sb_copy(added->text, sizeof added->text, offered);
	added->at = strlen(added->text);
	added->offered = added->text[0] != '\0';
}

size_t sb_form_index(const struct form *f, const char *name)
{
	size_t i = 0;

	while (i < f->count && !sb_same(f->fields[i].name, name))
		i++;
	return i;
}

const char *sb_form_text(const struct form *f, const char *name)
{
	size_t i = sb_form_index(f, name);

	return i < f->count ? f->fields[i].text : "";
}

void sb_form_put(struct form *f, const char *name, const char *text, bool offered)
{
	size_t i = sb_form_index(f, name);

	if (i == f->count)
		return;
	struct form_field *field = &f->fields[i];
	sb_copy(field->text, sizeof field->text, text);
	sb_utf8_tame(field->text);
	field->at = strlen(field->text);
	field->offered = offered && field->text[0];
	field->problem[0] = '\0';
}

bool sb_form_touched(const struct form *f)
{
	for (size_t i = 0; i < f->count; i++)
		if (!f->fields[i].offered && f->fields[i].text[0])
			return true;
	return false;
}

/* Checking */

static int fault(const struct form *f, size_t i, form_check check, const void *context, struct sb_err *err)
{
	const struct form_field *field = &f->fields[i];
	struct number number;

	if (field->text[0] == '\0')
		return field->required ? sb_fail(err, SB_FORMAT, "This cannot stay blank.") : 0;
	if (field->kind == ENTRY_NUMBER && sb_number_parse(field->text, &number, err))
		return -1;
	return check ? check(f, i, context, err) : 0;
}

static int check_one(struct form *f, size_t i, form_check check, const void *context)
{
	struct sb_err err = { 0 };
	int wrong = fault(f, i, check, context, &err);

	sb_copy(f->fields[i].problem, sizeof f->fields[i].problem, wrong ? err.text : "");
	return wrong;
}

int sb_form_check(struct form *f, form_check check, const void *context)
{
	size_t first = f->count;

	for (size_t i = f->count; i-- > 0;)
		if (check_one(f, i, check, context))
			first = i;
	if (first == f->count)
		return 0;
	f->focus = first;
	return -1;
}

/* Typing */

static size_t before(const struct form_field *field)
{
	size_t at = field->at;

	do
		at -= at > 0;
	while (at > 0 && ((unsigned char)field->text[at] & 0xC0) == 0x80);
	return at;
}

static size_t after(const struct form_field *field)
{
	unsigned character;

	return field->at + sb_utf8_next(field->text + field->at, &character);
}

static enum form_step changed(struct form_field *field)
{
	field->offered = false;
	field->problem[0] = '\0';
	return FORM_CHANGED;
}

static enum form_step remove_bytes(struct form_field *field, size_t from, size_t to)
{
	if (from == to)
		return FORM_MOVED;
	memmove(field->text + from, field->text + to, strlen(field->text + to) + 1);
	field->at = from;
	return changed(field);
}

/* What stands there gives way: nobody typed it, or the focus has just come to a number. */
static bool gives_way(const struct form *f, const struct form_field *field)
{
	return field->offered || (!f->editing && (field->kind == ENTRY_NUMBER || field->whole));
}

static enum form_step insert(const struct form *f, struct form_field *field, int key)
{
	char bytes[SB_GLYPH_BYTES];
	size_t length = sb_glyph_encode((unsigned)key, bytes);

	if (gives_way(f, field))
		field->text[field->at = 0] = '\0';
	if (strlen(field->text) + length >= sizeof field->text)
		return FORM_MOVED; /* full */
	char *here = field->text + field->at;
	memmove(here + length, here, strlen(here) + 1);
	memcpy(here, bytes, length);
	field->at += length;
	return changed(field);
}

static enum form_step type_number(const struct form *f, struct form_field *field, int key)
{
	if (key == ',')
		key = '.';
	if (!((key >= '0' && key <= '9') || key == '.' || key == '-' || key == '+'))
		return FORM_PASS;
	if (!gives_way(f, field) && strlen(field->text) + 1 >= SB_NUMBER_TEXT)
		return FORM_MOVED;
	return insert(f, field, key);
}

/* The words of a choice, one after the other; 0 is "none of them". */
static bool choice_word(const char *choices, size_t i, char *word, size_t size)
{
	word[0] = '\0';
	for (; i > 1 && choices; i--) {
		choices = strchr(choices, '|');
		choices += choices != NULL;
	}
	if (i == 0)
		return true;
	if (choices == NULL)
		return false;
	size_t length = strcspn(choices, "|");
	if (length >= size)
		length = size - 1;
	memcpy(word, choices, length);
	word[length] = '\0';
	return true;
}

static enum form_step choose(struct form_field *field, size_t i)
{
	char word[SB_FORM_TEXT];

	if (!choice_word(field->choices, i, word, sizeof word))
		return FORM_PASS;
	sb_copy(field->text, sizeof field->text, word);
	field->at = 0;
	return changed(field);
}

static enum form_step type_choice(struct form_field *field, int key)
{
	char word[SB_FORM_TEXT];
	size_t now = 0, count = 0;

	while (choice_word(field->choices, count, word, sizeof word)) {
		if (sb_same(word, field->text))
			now = count;
		count++;
	}
	if (key == SB_KEY_RIGHT || key == ' ')
		return choose(field, (now + 1) % count);
	if (key == SB_KEY_LEFT)
		return choose(field, (now + count - 1) % count);
	for (size_t i = 1; sb_key_types(key) && i < count; i++)
		if (choice_word(field->choices, i, word, sizeof word) && sb_key_same(word[0], key))
			return choose(field, i);
	return FORM_PASS;
}

static enum form_step edit(struct form_field *field, int key)
{
	switch (key) {
	case SB_KEY_BACKSPACE:
		return remove_bytes(field, before(field), field->at);
	case SB_KEY_DELETE:
		return remove_bytes(field, field->at, after(field));
	case CTRL_U:
		return remove_bytes(field, 0, strlen(field->text));
	case SB_KEY_LEFT:
		field->at = before(field);
		break;
	case SB_KEY_RIGHT:
		field->at = after(field);
		break;
	case SB_KEY_HOME:
		field->at = 0;
		break;
	case SB_KEY_END:
		field->at = strlen(field->text);
		break;
	default:
		return FORM_PASS;
	}
	field->offered = false;
	return FORM_MOVED;
}

static enum form_step type_into(const struct form *f, struct form_field *field, int key)
{
	if (field->kind == ENTRY_CHOICE) {
		if (key == SB_KEY_BACKSPACE || key == SB_KEY_DELETE || key == CTRL_U)
			return choose(field, 0);
		return type_choice(field, key);
	}
	enum form_step step = edit(field, key);
	if (step != FORM_PASS)
		return step;
	if (field->kind == ENTRY_NUMBER)
		return type_number(f, field, key);
	return sb_key_types(key) ? insert(f, field, key) : FORM_PASS;
}

/* Going from field to field */

void sb_form_focus(struct form *f, size_t field)
{
	f->focus = field % f->count;
	f->fields[f->focus].at = strlen(f->fields[f->focus].text);
	f->editing = false;
}

static enum form_step go(struct form *f, size_t to, form_check check, const void *context)
{
	if (f->fields[f->focus].text[0]) /* blank: not wrong yet */
		check_one(f, f->focus, check, context);
	sb_form_focus(f, to);
	return FORM_MOVED;
}

static enum form_step enter(struct form *f, form_check check, const void *context)
{
	if (check_one(f, f->focus, check, context))
		return FORM_MOVED;
	if (f->by_enter && f->focus + 1 < f->count)
		return go(f, f->focus + 1, check, context);
	for (size_t i = 1; i < f->count; i++) {
		size_t next = (f->focus + i) % f->count;
		if (f->fields[next].required && f->fields[next].text[0] == '\0')
			return go(f, next, check, context);
	}
	return sb_form_check(f, check, context) ? FORM_MOVED : FORM_DONE;
}

enum form_step sb_form_key(struct form *f, int key, form_check check, const void *context)
{
	if (f->count == 0)
		return FORM_PASS;
	if (key == SB_KEY_ENTER) {
		f->editing = false;
		return enter(f, check, context);
	}
	if (key == SB_KEY_TAB || key == SB_KEY_DOWN)
		return go(f, f->focus + 1, check, context);
	if (key == SB_KEY_BACKTAB || key == SB_KEY_UP)
		return go(f, f->focus + f->count - 1, check, context);
	enum form_step step = type_into(f, &f->fields[f->focus], key);
	f->editing = f->editing || step != FORM_PASS;
	return step;
}

/* Drafts */

void sb_form_to_draft(const struct form *f, struct draft *d)
{
	for (size_t i = 0; i < f->count && d->count < SB_DRAFT_FIELDS; i++) {
		const struct form_field *field = &f->fields[i];
		if (field->offered || field->text[0] == '\0')
			continue;
		sb_copy(d->fields[d->count].name, sizeof d->fields[0].name, field->name);
		sb_copy(d->fields[d->count].text, sizeof d->fields[0].text, field->text);
		d->count++;
	}
}

void sb_form_from_draft(struct form *f, const struct draft *d)
{
	for (size_t i = 0; i < d->count && i < SB_DRAFT_FIELDS; i++)
		sb_form_put(f, d->fields[i].name, d->fields[i].text, false);
	f->editing = true;
}

/* An explanation as text: what kind of line, the symbol, the value, and what it is. Where there is no room
 * for the words beside the value they go below it. */
#include "base/mem.h"
#include "io/json.h"

#include <stdio.h>
#include <string.h>

#include "explain_parts.h"

static const char *const labels[EXPLAIN_KINDS] = { "formula", "from", "so", "result", "check", "limit",
	"note", "source", "ALARM" };
static const char *const names[EXPLAIN_KINDS] = { "formula", "input", "step", "result", "check", "limit",
	"note", "source", "alarm" };

#define LABEL 9	       /* columns of what kind of line it is */
#define WORDS_LEAST 26 /* beside a value; else below it */
#define SYMBOL_MOST 16
#define VALUE_MOST 22

/* How wide the columns of an explanation are. */
struct widths {
	int symbol, value, columns;
};

static int at_most(size_t columns, int most)
{
	return columns < (size_t)most ? (int)columns : most;
}

static struct widths measure(const struct explanation *e, int columns)
{
	struct widths w = { 0, 0, columns };

	for (size_t i = 0; i < e->count; i++) {
		int symbol = at_most(sb_utf8_columns(e->lines[i].symbol), SYMBOL_MOST),
		    value = at_most(sb_utf8_columns(e->lines[i].value), VALUE_MOST);
		w.symbol = symbol > w.symbol ? symbol : w.symbol;
		w.value = value > w.value ? value : w.value;
	}
	return w;
}

static void fill(struct sb_str *line, const char *text, int columns)
{
	int rest = columns - (int)sb_utf8_columns(text);

	sb_str_add(line, "%s%*s", text, rest > 0 ? rest : 0, "");
}

static void hand_on(struct sb_str *lines, enum explain_kind kind, sb_explain_take *take, void *data)
{
	char *rest = lines->text;

	for (char *one; rest && (one = strsep(&rest, "\n")) != NULL;) {
		size_t length = strlen(one);
		while (length > 0 && one[length - 1] == ' ')
			one[--length] = '\0';
		if (rest || length)
			take(data, kind, one);
	}
}

/* The words in lines; the first of them stands behind what is there already. */
static void add_words(struct sb_str *out, const char *words, int indent, int columns)
{
	struct sb_str wrapped = { 0 };

	sb_str_wrap(&wrapped, words, indent, columns);
	const char *text = sb_str_get(&wrapped);
	sb_str_add(out, "%s", (int)strlen(text) > indent ? text + indent : text);
	sb_str_clear(&wrapped);
}

static void lay_line(
	const struct explain_line *l, const char *label, const struct widths *w, struct sb_str *out)
{
	int indent = LABEL;

	fill(out, label, LABEL);
	if (*l->value || *l->symbol) {
		fill(out, l->symbol, w->symbol);
		sb_str_add(out, "  ");
		fill(out, l->value, w->value);
		indent += w->symbol + 2 + w->value + 2;
		bool tall = w->columns - indent < WORDS_LEAST || (int)sb_utf8_columns(l->value) > w->value ||
			(int)sb_utf8_columns(l->symbol) > w->symbol;
		if (tall && *l->words) {
			indent = LABEL + w->symbol + 2;
			sb_str_add(out, "\n%*s", indent, "");
		} else {
			sb_str_add(out, "  ");
		}
	}
	add_words(out, l->words, indent, w->columns);
	if (*l->words == '\0')
		sb_str_add(out, "\n");
}

void sb_explain_lay(const struct explanation *e, int columns, sb_explain_take *take, void *data)
{
	struct widths w = measure(e, columns);

	for (size_t i = 0; i < e->count; i++) {
		const struct explain_line *l = &e->lines[i];
		bool first = i == 0 || e->lines[i - 1].kind != l->kind;
		struct sb_str lines = { 0 };
		lay_line(l, first ? labels[l->kind] : "", &w, &lines);
		hand_on(&lines, l->kind, take, data);
		sb_str_clear(&lines);
	}
}

static void take_text(void *data, enum explain_kind kind, const char *line)
{
	(void)kind;
	sb_str_add(data, "%s\n", line);
}

void sb_explain_text(const struct explanation *e, struct sb_str *out)
{
	sb_str_add(out, "%s: %s, %s\n\n", e->figure->name, e->figure->title, e->about);
	sb_explain_lay(e, 80, take_text, out);
}

void sb_explain_json(const struct explanation *e, struct sb_str *out)
{
	struct sb_json j = { 0 };

	sb_json_object(&j, NULL);
	sb_json_text(&j, "figure", e->figure->name);
	sb_json_text(&j, "title", e->figure->title);
	sb_json_text(&j, "about", e->about);
	sb_json_bool(&j, "differs", e->differs);
	sb_json_array(&j, "lines");
	for (size_t i = 0; i < e->count; i++) {
		const struct explain_line *l = &e->lines[i];
		sb_json_object(&j, NULL);
		sb_json_text(&j, "kind", names[l->kind]);
		sb_json_text_or_null(&j, "symbol", l->symbol);
		sb_json_exact(&j, "value", l->number);
		sb_json_text_or_null(&j, "text", l->value);
		sb_json_text(&j, "words", l->words);
		sb_json_end(&j);
	}
	sb_json_end(&j);
	sb_json_end(&j);
	sb_str_append(out, sb_str_get(&j.text), j.text.length);
	sb_str_clear(&j.text);
}

/* ---- the list ---- */

const char *const sb_explain_of_words[] = { "of a joint", "of a joint, if read", "of a joint, if read",
	"after a joint", "of the job", "of a fix" };

void sb_explain_list_text(struct sb_str *out)
{
	for (size_t i = 0; i < sb_explain_figure_count; i++) {
		const struct explain_figure *f = &sb_explain_figures[i];
		sb_str_add(out, "%-15s %-44s %s\n", f->name, f->title, sb_explain_of_words[f->of]);
	}
}

void sb_explain_list_json(struct sb_str *out)
{
	struct sb_json j = { 0 };

	sb_json_object(&j, NULL);
	sb_json_array(&j, "figures");
	for (size_t i = 0; i < sb_explain_figure_count; i++) {
		sb_json_object(&j, NULL);
		sb_json_text(&j, "figure", sb_explain_figures[i].name);
		sb_json_text(&j, "title", sb_explain_figures[i].title);
		sb_json_text(&j, "of", sb_explain_of_words[sb_explain_figures[i].of]);
		sb_json_end(&j);
	}
	sb_json_end(&j);
	sb_json_end(&j);
	sb_str_append(out, sb_str_get(&j.text), j.text.length);
	sb_str_clear(&j.text);
}

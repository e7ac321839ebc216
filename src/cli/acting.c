/* What the acts on a job have in common. */
#include "cli/acting.h"

#include "base/beside.h"
#include "base/str.h"
#include "io/sheet.h"
#include "io/write.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

int sb_acting_open(const struct invocation *in, struct sb_store **store, const char **who, struct sb_err *err)
{
	if (sb_command_who(in, who, err))
		return -1;
	return sb_store_open(in->positional[0], STORE_WRITE, *who, store, err);
}

int sb_acting_read(const struct invocation *in, struct sb_store **store, struct sb_err *err)
{
	return sb_store_open(in->positional[0], STORE_READ, "", store, err);
}

/* --gravity x,y,z: the three components at once, each as if it had its own option. */
static int take_vector(const struct invocation *in, const char *what, struct reading *r, struct sb_err *err)
{
	static const char *const axes[] = { "x", "y", "z" };
	const char *typed = sb_command_value(in, what);
	char text[120], name[16];

	if (typed == NULL)
		return 0;
	if (!sb_copy(text, sizeof text, typed))
		return sb_fail(err, SB_USAGE, "--%s is too long.", what);
	/* Counted first: numbers with decimal commas make more than three parts, and none of them is
	 * believed. */
	int parts = 1;
	for (const char *at = typed; *at; at++)
		parts += *at == ',';
	if (parts != 3)
		return sb_fail(err, SB_USAGE,
			"--%s takes three numbers with decimal points and commas between: x,y,z.", what);
	char *from = text;
	for (int i = 0; i < 3; i++) {
		const char *part = strsep(&from, ",");
		snprintf(name, sizeof name, "%s_%s", what, axes[i]);
		if (sb_row_field_put(sb_row_field(name), r, INCLINE_DOWN, part, err))
			return sb_fail_within(err, "--%s: ", what);
	}
	return 0;
}

int sb_acting_fields(const struct invocation *in, enum incline incline, struct reading *r, struct sb_err *err)
{
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const char *typed = sb_command_value(in, sb_row_fields[i].option);
		if (typed && sb_row_field_put(&sb_row_fields[i], r, incline, typed, err))
			return -1;
	}
	return take_vector(in, "gravity", r, err) || take_vector(in, "field", r, err) ? -1 : 0;
}

int sb_acting_fact(const struct invocation *in, const struct fact_sort *sort, void *fact, struct sb_err *err)
{
	for (size_t i = 0; i < sort->column_count; i++) {
		const char *column = sort->columns[i].name;
		char option[32];
		sb_copy(option, sizeof option, column);
		for (char *at = option; (at = strchr(at, '_')) != NULL;)
			*at = '-';
		const char *typed = sb_command_value(in, option);
		if (typed && sb_fact_put(sort, fact, column, typed, err))
			return -1;
	}
	return 0;
}

int sb_acting_reason(
	const struct invocation *in, bool needed, char reason[SB_REMARK_TEXT], struct sb_err *err)
{
	const char *text = sb_command_value(in, "reason");

	reason[0] = '\0';
	if (text == NULL && needed)
		return sb_fail(err, SB_USAGE, "--reason TEXT is missing: say why in a few words.");
	if (text == NULL)
		return 0;
	if (!sb_utf8_valid(text, strlen(text)))
		return sb_fail(err, SB_USAGE, "The reason is not UTF-8 text.");
	if (text[strspn(text, " ")] == '\0')
		return sb_fail(err, SB_USAGE, "The reason is empty: say why in a few words.");
	if (!sb_copy(reason, SB_REMARK_TEXT, text))
		return sb_fail(
			err, SB_USAGE, "The reason is too long: %d characters fit.", SB_REMARK_TEXT - 1);
	return 0;
}

int sb_acting_whole(
	const struct invocation *in, const char *name, int low, int high, int *out, struct sb_err *err)
{
	const char *text = sb_command_value(in, name);
	struct number n;

	if (text == NULL)
		return sb_fail(err, SB_USAGE, "--%s is missing.", name);
	if (sb_number_parse(text, &n, NULL))
		return sb_fail(err, SB_USAGE, "--%s '%.40s' is not a whole number.", name, text);
	if (strchr(n.text, '.') || !(n.value >= low && n.value <= high))
		return sb_fail(err, SB_USAGE, "--%s %s cannot be: a whole number from %d to %d is right.",
			name, n.text, low, high);
	*out = (int)n.value;
	return 0;
}

int sb_acting_pass(const struct invocation *in, const struct job *job, int *pass, struct sb_err *err)
{
	*pass = 0;
	if (sb_command_value(in, "pass") == NULL)
		return 0;
	if (sb_acting_whole(in, "pass", 1, 1000000, pass, err))
		return -1;
	if ((size_t)*pass > job->pass_count || job->passes[*pass - 1].struck)
		return sb_fail(err, SB_MISSING, "There is no pass %d.", *pass);
	return 0;
}

int sb_acting_look(const struct job *job, const struct solution *s, const struct reading *r,
	const struct depth_check *depths, struct sb_err *err)
{
	struct suspicion found[SB_SUSPICIONS];
	size_t count = sb_blunder_look(job, s, r, depths, found);
	struct sb_str text = { 0 };
	bool held = false;

	for (size_t i = 0; i < count; i++) {
		if (found[i].held && r->reason[0] == '\0') {
			sb_str_add(&text, "%s%s", text.length ? " " : "", found[i].text);
			held = true;
		} else {
			fprintf(stderr, "sagbend: note: %s\n", found[i].text);
		}
	}
	if (held)
		sb_fail(err, SB_HELD, "Not logged. %s If it is right as it is, say why with --reason.",
			sb_str_get(&text));
	sb_str_clear(&text);
	return held ? -1 : 0;
}

int sb_acting_there(const char *path, struct sb_err *err)
{
	if (sb_same(path, "-") || access(path, R_OK) == 0)
		return 0;
	if (errno == ENOENT || errno == ENOTDIR)
		return sb_fail(err, SB_MISSING,
			"There is no '%.300s'. Check the name, and the folder that you are in.", path);
	return sb_beside_say(errno, path, err);
}

void sb_acting_say_problems(const struct sb_problems *p)
{
	struct sb_str text = { 0 };

	for (size_t i = 0; i < p->count; i++)
		sb_sheet_say(&p->list[i], &text);
	fputs(sb_str_get(&text), stderr);
	sb_str_clear(&text);
}

int sb_acting_put(struct sb_str *text, bool done)
{
	struct sb_err err = { 0 };
	int status = sb_write_whole("-", false, sb_str_get(text), text->length, &err);

	sb_str_clear(text);
	if (status && done)
		sb_fail_within(&err, "It is done, and on disk; only the words about it are lost. ");
	return status ? sb_command_fail(&err) : EXIT_OK;
}

int sb_acting_say(const char *format, ...)
{
	struct sb_str text = { 0 };
	char words[2048];
	va_list args;

	va_start(args, format);
	vsnprintf(words, sizeof words, format, args);
	va_end(args);
	sb_str_add(&text, "%s\n", words);
	return sb_acting_put(&text, true);
}

void sb_acting_say_warnings(const struct solution *s)
{
	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		if (w->open && !w->superseded && !w->acknowledged)
			fprintf(stderr, "sagbend: %s: %s\n", sb_level_word(w->level), w->text);
	}
}

int sb_acting_show(const struct invocation *in, const struct sb_store *store, sb_acting_words *text,
	sb_acting_words *json, bool done)
{
	struct sb_str out = { 0 };

	(sb_command_flag(in, "json") ? json : text)(sb_store_job(store), sb_store_solution(store), &out);
	return sb_acting_put(&out, done);
}

int sb_acting_look_at(const struct invocation *in, sb_acting_words *text, sb_acting_words *json)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };

	if (sb_acting_read(in, &store, &err))
		return sb_command_fail(&err);
	int status = sb_acting_show(in, store, text, json, false);
	sb_store_close(store);
	return status;
}

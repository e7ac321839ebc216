/* The page for the next shift. Lines are clipped to 80 columns and the page to 24 lines; where there is more
 * to say than fits, the last line of a part says how much more. Source of the nine points and their order:
 * what owners' inspectors and consultants ask at a shift change (common practice; no one specification).
 */
#include "io/handover.h"

#include "base/time.h"
#include "io/about.h"
#include "io/timeline.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "handover_parts.h"

#define FIXED_LINES 19 /* all parts but edits, notes and what is open */
#define AFTER_TAIL 3   /* what follows those, when the pilot is done with: the file, the caution */
#define LABEL 9

/* One line, cut at the page's width; dots say that there was more. */
static void put_line(struct handover_page *p, const char *line)
{
	const size_t width = SB_HANDOVER_COLUMNS;
	size_t columns = 0, bytes = 0, dots = 0, one;
	unsigned c;

	if (p->lines++ >= SB_HANDOVER_LINES)
		return;
	while (columns < width && (one = sb_utf8_next(line + bytes, &c)) > 0) {
		if (columns++ == width - 3)
			dots = bytes;
		bytes += one;
	}
	bool whole = line[bytes] == '\0';
	if (!whole)
		bytes = dots;
	while (bytes > 0 && line[bytes - 1] == ' ')
		bytes--;
	sb_str_add(p->out, "%.*s%s\n", (int)bytes, line, whole ? "" : "...");
}

/* What a label is called where there is room for it: the nine points by their numbers. */
static const char *long_label(const struct handover_page *p, const char *label)
{
	static const char *const labels[][2] = { { "shift", "Shift" }, { "bit", "1  Where the bit is" },
		{ "worst", "2  Worst of this shift" }, { "drilled", "3  Drilled" },
		{ "returns", "4  Returns, pressures" }, { "fix", "5  Last fix" },
		{ "edits", "6  Edited, accepted" }, { "notes", "    Notes" }, { "open", "7  Open" },
		{ "out", "    Pilot out" }, { "waits", "8  Time lost" }, { "next", "9  Next joints" },
		{ "file", "File" }, { "pass", "Pass" }, { "left", "Time left" }, { "opened", "Opened" },
		{ "rig", "What the rig showed" }, { "release", "Releases" }, { "string", "Pipe string" },
		{ "pull", "Pull" }, { "pulled", "Pulled" }, { "force", "Force" } };

	for (size_t i = 0; i < sizeof labels / sizeof *labels; i++)
		if (sb_same(labels[i][0], label))
			return labels[i][1] + (p->after ? strspn(labels[i][1], "0123456789 ") : 0);
	return label;
}

/* Where a page of text parts words by blanks, print does by a comma. */
static void put_pair(struct handover_page *p, const char *label, const char *words)
{
	struct sb_str text = { 0 };

	for (const char *at = words; *at;) {
		size_t part = 0;
		while (at[part] && !(at[part] == ' ' && at[part + 1] == ' '))
			part++;
		size_t blanks = strspn(at + part, " ");
		sb_str_append(&text, at, part);
		if (at[part + blanks])
			sb_str_append(&text, ", ", 2);
		at += part + blanks;
	}
	sb_document_pair(p->d, long_label(p, label), "%s", sb_str_get(&text));
	sb_str_clear(&text);
}

/* The label in its columns, then the words. */
void handover_put(struct handover_page *p, const char *label, const char *format, ...)
{
	char words[400], line[512];
	va_list args;

	va_start(args, format);
	vsnprintf(words, sizeof words, format, args);
	va_end(args);
	if (p->d) {
		put_pair(p, label, words);
		return;
	}
	snprintf(line, sizeof line, "%-*s%s", LABEL, label, words);
	sb_utf8_tame(line);
	put_line(p, line);
}

/* ---- head ---- */

/* What the crew is at. */
static const char *stage(const struct job *job)
{
	if (!handover_is_after(job))
		return "pilot bore";
	for (size_t i = 0; i < job->pull_begin_count; i++)
		if (!job->pull_begins[i].struck)
			return "the pull";
	return "opening the hole";
}

static void put_head(struct handover_page *p, int64_t now_ms)
{
	char now[SB_TIME_TEXT], from[SB_TIME_TEXT], to[SB_TIME_TEXT];
	const struct act *begin = p->begin;

	sb_time_long(now_ms, sb_time_offset(now_ms), now);
	if (p->d == NULL)
		handover_put(p, "Handover", "%.44s, %s   %s   %s", p->job->name, stage(p->job), now,
			sb_about_mark(p->job));
	if (begin == NULL) {
		handover_put(p, "shift", "none was begun: this is the whole log");
		return;
	}
	sb_time_long(begin->at_ms, begin->offset_min, from);
	sb_time_short(p->when.to_ms, begin->offset_min, to);
	handover_put(p, "shift", "%s to %s%s   %s", from, to, p->runs ? " (runs)" : "", begin->text);
}

/* ---- 6 and 7: edits, notes, and what is open ---- */

/* How many bytes of a text fit into a line beside its label, cut between words. */
static size_t fitting(const char *text)
{
	size_t columns = 0, bytes = 0, cut = 0, one;
	unsigned c;

	while (columns < SB_HANDOVER_COLUMNS - LABEL && (one = sb_utf8_next(text + bytes, &c)) > 0) {
		if (c == ' ')
			cut = bytes;
		columns++;
		bytes += one;
	}
	return text[bytes] == '\0' || text[bytes] == ' ' || cut == 0 ? bytes : cut;
}

static size_t wrapped_lines(const struct handover_items *items)
{
	size_t lines = 0;

	for (size_t i = 0; i < items->kept; i++)
		for (const char *at = items->text[i]; *at; lines++) {
			at += fitting(at);
			at += strspn(at, " ");
		}
	return items->count > items->kept ? SIZE_MAX / 4 : lines;
}

static void put_wrapped(struct handover_page *p, const char *label, const struct handover_items *items)
{
	for (size_t i = 0; i < items->kept; i++)
		for (const char *at = items->text[i]; *at;) {
			size_t bytes = fitting(at);
			handover_put(p, label, "%.*s", (int)bytes, at);
			label = "";
			at += bytes;
			at += strspn(at, " ");
		}
}

/* A line each, and in the last how many more there are. */
static void put_clipped(struct handover_page *p, const char *label, const struct handover_items *items,
	size_t room, const char *more)
{
	for (size_t i = 0; i < items->kept && i < room; i++) {
		if (i + 1 == room && items->count > room)
			handover_put(p, label, "and %zu more: %s", items->count - i, more);
		else
			handover_put(p, label, "%s", items->brief[i]);
		label = "";
	}
}

/* As many as there may be, each in full. */
static void put_most(struct handover_page *p, const char *label, const struct handover_items *items)
{
	size_t shown = items->kept < p->most ? items->kept : p->most;

	for (size_t i = 0; i < shown; i++)
		handover_put(p, i ? "" : label, "%s", items->text[i]);
	if (items->count > shown)
		handover_put(
			p, shown ? "" : label, "and %zu more: they are in the file", items->count - shown);
}

/* When the pilot is out: said where there is room for it, and a pace to tell it by. */
static void put_out(struct handover_page *p)
{
	struct pilot_out o = sb_timeline_out(p->job, p->s, &p->timeline, p->now_ms);
	struct sb_str words = { 0 };

	if (!o.known || p->after)
		return;
	sb_timeline_out_words(&o, &words);
	handover_put(p, "out", "%s (by the pace so far)", sb_str_get(&words));
	sb_str_clear(&words);
}

/* The three parts share what is left of the page. When all of it does not fit, each item has one line, notes
 * two at most; when that does not fit either, the edits give way first, down to half of the room. */
static void put_edits_notes_open(struct handover_page *p)
{
	size_t room = p->after ? SB_HANDOVER_LINES - AFTER_TAIL - p->lines
			       : SB_HANDOVER_LINES - FIXED_LINES - p->more;
	struct handover_items edits = { .count = 0 }, notes = { .count = 0 }, open = { .count = 0 };

	handover_edits(p->job, &p->when, &edits);
	handover_notes(p->job, &p->when, &notes);
	handover_open(p->s, &open);
	if (p->d) {
		put_most(p, "edits", &edits);
		put_most(p, "notes", &notes);
		put_most(p, "open", &open);
		put_out(p);
		return;
	}
	if (wrapped_lines(&edits) + wrapped_lines(&notes) + wrapped_lines(&open) <= room) {
		put_wrapped(p, "edits", &edits);
		put_wrapped(p, "notes", &notes);
		put_wrapped(p, "open", &open);
		if (wrapped_lines(&edits) + wrapped_lines(&notes) + wrapped_lines(&open) < room)
			put_out(p);
		return;
	}
	size_t said = notes.count < 2 ? notes.count : 2;
	room -= said;
	size_t least = edits.count < room / 2 ? edits.count : room / 2;
	size_t open_room = open.count < room - least ? open.count : room - least;
	put_clipped(p, "edits", &edits, room - open_room, "they are in the file");
	put_clipped(p, "notes", &notes, said, "they are in the file");
	put_clipped(p, "open", &open, open_room, "sagbend check");
}

static void put_caution(struct handover_page *p)
{
	char line[SB_HANDOVER_COLUMNS + 1];
	size_t cut = SB_HANDOVER_COLUMNS;

	while (cut > 0 && sb_caution[cut] != ' ')
		cut--;
	snprintf(line, sizeof line, "%.*s", (int)cut, sb_caution);
	put_line(p, line);
	put_line(p, sb_caution + cut + 1);
}

static void take_shift(struct handover_page *p)
{
	sb_timeline_take(p->job, &p->timeline);
	p->when = sb_period_shift(p->job, p->now_ms, &p->begin, &p->runs);
	sb_period_take(p->s, &p->timeline, &p->when, &p->shift);
	p->minutes = p->shift.minutes;
	if (!p->shift.timed && p->begin)
		p->minutes = (double)(p->when.to_ms - p->when.from_ms) / 60000;
}

/* All parts in their order, on whichever page it is. */
static void put_parts(struct handover_page *p, const char *head)
{
	p->after = handover_is_after(p->job);
	put_head(p, p->now_ms);
	if (p->after) {
		handover_after(p);
		put_edits_notes_open(p);
	} else {
		handover_bit(p);
		handover_courses(p);
		handover_worst(p);
		handover_progress(p);
		handover_returns(p);
		handover_fix(p);
		put_edits_notes_open(p);
		handover_lost(p);
		handover_next(p);
	}
	handover_put(p, "file", "%s", *head ? head : "digest not known");
}

void sb_handover(
	const struct job *job, const struct solution *s, const char *head, int64_t now_ms, struct sb_str *out)
{
	struct handover_page p = {
		.job = job, .s = s, .unit = sb_unit_short(job->unit), .out = out, .now_ms = now_ms
	};

	take_shift(&p);
	put_parts(&p, head);
	put_caution(&p);
	sb_timeline_clear(&p.timeline);
}

/* ---- as a page to be printed ---- */

static void begin_document(const struct handover_page *p, const struct about *about, struct document *d)
{
	char title[SB_NAME_TEXT + 32], running[SB_NAME_TEXT + 96], now[SB_TIME_TEXT];

	sb_time_long(p->now_ms, sb_time_offset(p->now_ms), now);
	snprintf(title, sizeof title, "Handover: %s", p->job->name);
	snprintf(running, sizeof running, "%s, %s, handover of %s", p->job->name, stage(p->job), now);
	sb_document_begin(d,
		&(struct document_head){ .title = title,
			.running = running,
			.mark = sb_about_mark(p->job),
			.author = about->who,
			.program = about->program,
			.at_ms = about->at_ms,
			.letter = p->job->unit != UNIT_M });
}

void sb_handover_document(const struct job *job, const struct solution *s, const struct about *about,
	size_t most, struct document *out)
{
	struct handover_page p = { .job = job,
		.s = s,
		.unit = sb_unit_short(job->unit),
		.d = out,
		.most = most,
		.now_ms = about->at_ms };

	take_shift(&p);
	begin_document(&p, about, out);
	put_parts(&p, about->head);
	sb_document_paragraph(out, "%s", sb_caution);
	sb_document_sign(out, "handed over by");
	sb_document_sign(out, "taken over by");
	sb_timeline_clear(&p.timeline);
}

int sb_handover_pdf(const struct job *job, const struct solution *s, const struct about *about,
	struct sb_str *out, struct sb_err *err)
{
	size_t pages = 2;
	int status = 0;

	for (size_t most = HANDOVER_ITEMS; pages > 1 && most > 0 && status == 0; most /= 2) {
		struct document d;
		struct sb_str bytes = { 0 };
		sb_handover_document(job, s, about, most, &d);
		status = sb_document_pdf(&d, &bytes, &pages, err);
		if (status == 0 && (pages == 1 || most == 1))
			sb_str_append(out, sb_str_get(&bytes), bytes.length);
		sb_document_clear(&d);
		sb_str_clear(&bytes);
	}
	return status;
}

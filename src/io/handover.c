/* The page for the next shift. Lines are clipped to 80 columns and the page to 24 lines; where there is more
 * to say than fits, the last line of a part says how much more. Source of the nine points and their order:
 * what owners' inspectors and consultants ask at a shift change (common practice; no one specification).
 */
#include "io/handover.h"

#include "base/time.h"
#include "draw/axis.h"
#include "geom/angle.h"
#include "io/about.h"
#include "io/courses.h"

#include "model/fact.h"
#include "model/period.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "handover_parts.h"

#define FIXED_LINES 19 /* all parts but edits, notes and what is open */
#define LABEL 9
#define ITEMS 32

struct page {
	const struct job *job;
	const struct solution *s;
	struct timeline timeline;
	struct span when;
	const struct act *begin; /* of the shift; NULL: no shift was ever begun, so it is the whole log */
	bool runs;
	struct period shift;
	double minutes; /* of it; negative: not known */
	const char *unit;
	struct sb_str *out;
	size_t lines, more; /* more: beside FIXED_LINES and those that share what is left */
};

/* One line, cut at the page's width; dots say that there was more. */
static void put_line(struct page *p, const char *line)
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

static void put(struct page *p, const char *label, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* The label in its columns, then the words. */
static void put(struct page *p, const char *label, const char *format, ...)
{
	char words[400], line[512];
	va_list args;

	va_start(args, format);
	vsnprintf(words, sizeof words, format, args);
	va_end(args);
	snprintf(line, sizeof line, "%-*s%s", LABEL, label, words);
	sb_utf8_tame(line);
	put_line(p, line);
}

static double typed(const struct page *p, double metres)
{
	return sb_frame_typed(&p->s->frame, metres);
}

/* ---- head ---- */

static void put_head(struct page *p, int64_t now_ms)
{
	char now[SB_TIME_TEXT], from[SB_TIME_TEXT], to[SB_TIME_TEXT];
	const struct act *begin = p->begin;

	sb_time_long(now_ms, sb_time_offset(now_ms), now);
	put(p, "Handover", "%.44s, pilot bore   %s", p->job->name, now);
	if (begin == NULL) {
		put(p, "shift", "none was begun: this is the whole log");
		return;
	}
	sb_time_long(begin->at_ms, begin->offset_min, from);
	sb_time_short(p->when.to_ms, begin->offset_min, to);
	put(p, "shift", "%s to %s%s   %s", from, to, p->runs ? " (runs)" : "", begin->text);
}

/* ---- 1: where is the bit ---- */

/* A corridor in metres is told by the centimetre, one in feet by the tenth. */
static int decimals(const struct page *p)
{
	return p->job->unit == UNIT_M ? 2 : 1;
}

static void side_words(const struct page *p, double value, const char *positive, const char *negative,
	const char *none, char to[32])
{
	if (fabs(value) < 0.5 * pow(10, -decimals(p)))
		snprintf(to, 32, "%s", none);
	else
		snprintf(to, 32, "%.*f %s %s", decimals(p), fabs(value), p->unit,
			value > 0 ? positive : negative);
}

static void put_bit(struct page *p)
{
	const struct bit *b = &p->s->bit;
	const struct row *last = sb_solution_last(p->s);
	char station[SB_AXIS_TEXT], offset[32], height[32];

	if (!b->known) {
		put(p, "bit", "not known: no reading was taken and no entry was staked");
		put(p, "", "joint %d   depth %.2f %s", last->joint, typed(p, b->md_m), p->unit);
		return;
	}
	sb_axis_station(b->deviation.station_m, p->job->unit, 1, station);
	side_words(p, typed(p, b->deviation.offset_m), "right", "left", "on line", offset);
	side_words(p, typed(p, b->deviation.height_m), "high", "low", "on grade", height);
	put(p, "bit", "station %s  %s  %s  elev %.1f  corridor %.0f %% %s", station, offset, height,
		typed(p, b->at.u), fmin(b->use.share, 9.99) * 100, sb_level_word(b->level));
	struct design_place design = sb_design_at(&p->s->design, b->deviation.station_m);
	put(p, "", "joint %d leg %d  depth %.2f  heading %.1f, %.1f (design %.1f, %.1f)", last->joint,
		sb_job_leg(p->job), typed(p, b->md_m), sb_frame_inc_typed(&p->s->frame, b->attitude.inc_rad),
		sb_frame_azi_typed(&p->s->frame, b->attitude.azi_rad),
		sb_frame_inc_typed(&p->s->frame, design.inc_rad),
		sb_frame_azi_typed(&p->s->frame, design.azi_rad));
	double factor = p->s->uncertainty.line_factor;
	put(p, "", "give or take %.*f %s across, %.*f in height (%s %%); %.0f %% chance outside", decimals(p),
		typed(p, factor * b->doubt.across_m), p->unit, decimals(p), typed(p, factor * b->doubt.up_m),
		p->job->confidence.text, b->outside * 100);
}

/* Where slides and arcs put the bit apart from one another, and which of them is the record. */
static void put_courses(struct page *p)
{
	struct path_shift apart =
		sb_path_shift(&p->s->design, p->job->course, sb_solution_last_on_path(p->s));
	char words[SB_COURSES_TEXT];

	if (!sb_courses_words(p->job, &p->s->frame, &apart, words))
		return;
	put(p, "", "by slides %s of arcs; %s are the record", words,
		p->job->course == COURSE_BY_SLIDES ? "slides" : "arcs");
	p->more++;
}

/* ---- 2: the worst of the shift ---- */

static void radius_words(const struct page *p, double radius_m, char to[32])
{
	double radius = typed(p, radius_m);

	if (radius < 99999)
		snprintf(to, 32, "%.0f %s", radius, p->unit);
	else
		snprintf(to, 32, "straight");
}

/* "limit 1500, 27 % to spare". */
static void margin_words(double radius, const struct number *limit, char to[64])
{
	to[0] = '\0';
	if (!sb_number_given(limit))
		snprintf(to, 64, "no limit set");
	else if (radius >= 99999)
		snprintf(to, 64, "limit %s", limit->text);
	else
		snprintf(to, 64, "limit %s, %.0f %% %s", limit->text, fabs(radius / limit->value - 1) * 100,
			radius >= limit->value ? "to spare" : "too tight");
}

/* Of the tightest joint and the tightest window, the one that is worse against its own limit. */
static bool window_is_worst(const struct page *p)
{
	const struct period *t = &p->shift;
	const struct number *joint = &p->job->joint_minimum, *window = &p->job->window_minimum;

	if (t->tightest == NULL || t->tightest_joint == NULL || !sb_number_given(joint))
		return t->tightest != NULL;
	if (!sb_number_given(window))
		return false;
	return t->tightest->window.radius_m / window->value <= t->tightest_joint->radius_m / joint->value;
}

static void put_worst(struct page *p)
{
	const struct period *t = &p->shift;
	char radius[32], margin[64];

	if (window_is_worst(p)) {
		radius_words(p, t->tightest->window.radius_m, radius);
		margin_words(typed(p, t->tightest->window.radius_m), &p->job->window_minimum, margin);
		put(p, "worst", "bend over %d joints: %s at joint %d (%s)", t->tightest->window.joints,
			radius, t->tightest->joint, margin);
	} else if (t->tightest_joint) {
		radius_words(p, t->tightest_joint->radius_m, radius);
		margin_words(typed(p, t->tightest_joint->radius_m), &p->job->joint_minimum, margin);
		put(p, "worst", "bend of one joint: %s at joint %d (%s)", radius, t->tightest_joint->joint,
			margin);
	} else {
		put(p, "worst", "no bend was measured in this shift");
	}
	if (t->farthest == NULL)
		put(p, "", "no position was measured in this shift");
	else if (isinf(t->farthest->use.limit_m))
		put(p, "", "no corridor is set");
	else
		put(p, "", "off line: %.*f %s %s at joint %d (limit %.*f, %.0f %% used)", decimals(p),
			typed(p, t->farthest->use.value_m), p->unit, sb_side_word(t->farthest->use.side),
			t->farthest->joint, decimals(p), typed(p, t->farthest->use.limit_m),
			fmin(t->farthest->use.share, 9.99) * 100);
}

/* ---- 3: progress ---- */

static void put_drilled(struct page *p)
{
	const struct period *t = &p->shift;
	char time[64] = "hours not known", withdrawn[48] = "";

	if (p->minutes > 0)
		snprintf(time, sizeof time, "in %.1f h, %.1f %s/h", p->minutes / 60,
			t->length / p->minutes * 60, p->unit);
	if (t->withdrawn)
		snprintf(withdrawn, sizeof withdrawn, " (%zu of them withdrawn)", t->withdrawn);
	put(p, "drilled", "%zu joint%s%s, %.2f %s %s", t->joints, t->joints == 1 ? "" : "s", withdrawn,
		t->length, p->unit, time);
}

static void put_progress(struct page *p)
{
	double left = typed(p, p->s->design.length_m - p->s->bit.deviation.station_m),
	       joint = p->job->joint_length.value, depth = typed(p, sb_solution_last(p->s)->bit_md_m);

	if (p->shift.joints == 0)
		put(p, "drilled", "no joint in this shift");
	else
		put_drilled(p);
	if (left > 0 && joint > 0)
		put(p, "", "to date %.2f %s in the ground; %.1f %s to the exit, about %.0f joints", depth,
			p->unit, left, p->unit, ceil(left / joint));
	else
		put(p, "", "to date %.2f %s in the ground; the exit is reached", depth, p->unit);
}

/* ---- 4: returns and pressures ---- */

static void range_words(const struct range *r, const char *what, const char *unit, char to[64])
{
	if (r->known)
		snprintf(to, 64, "%s %.10g to %.10g %s", what, r->low, r->high, unit);
	else
		snprintf(to, 64, "%s not logged", what);
}

static void put_returns(struct page *p)
{
	const struct period *t = &p->shift;
	const char *pressure = sb_row_field_unit(sb_row_field("standpipe"), p->job->unit);
	char standpipe[64], annular[64];

	if (t->returns == RETURNS_UNSAID)
		put(p, "returns", "not logged");
	else if (t->returns_joint)
		put(p, "returns", "now %s; less than full last at joint %d, at worst %s",
			sb_returns_name(t->returns), t->returns_joint, sb_returns_name(t->worst_returns));
	else
		put(p, "returns", "now %s", sb_returns_name(t->returns));
	range_words(&t->standpipe, "standpipe", pressure, standpipe);
	range_words(&t->annular, "annular", pressure, annular);
	put(p, "", "%s   %s", standpipe, annular);
}

/* ---- 6 and 7: edits, notes, and what is open ---- */

/* What there is to say, in full and briefly. */
struct items {
	char text[ITEMS][400], brief[ITEMS][100];
	size_t kept, count;
};

static void add_item(struct items *items, const char *brief, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* brief: NULL when the text serves, cut. */
static void add_item(struct items *items, const char *brief, const char *format, ...)
{
	va_list args;

	if (items->count++ >= ITEMS)
		return;
	size_t at = items->kept++;
	va_start(args, format);
	vsnprintf(items->text[at], sizeof items->text[0], format, args);
	va_end(args);
	sb_utf8_tame(items->text[at]);
	sb_copy(items->brief[at], sizeof items->brief[0], brief ? brief : items->text[at]);
}

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

static size_t wrapped_lines(const struct items *items)
{
	size_t lines = 0;

	for (size_t i = 0; i < items->kept; i++)
		for (const char *at = items->text[i]; *at; lines++) {
			at += fitting(at);
			at += strspn(at, " ");
		}
	return items->count > items->kept ? SIZE_MAX / 4 : lines;
}

static void put_wrapped(struct page *p, const char *label, const struct items *items)
{
	for (size_t i = 0; i < items->kept; i++)
		for (const char *at = items->text[i]; *at;) {
			size_t bytes = fitting(at);
			put(p, label, "%.*s", (int)bytes, at);
			label = "";
			at += bytes;
			at += strspn(at, " ");
		}
}

/* A line each, and in the last how many more there are. */
static void put_clipped(
	struct page *p, const char *label, const struct items *items, size_t room, const char *more)
{
	for (size_t i = 0; i < items->kept && i < room; i++) {
		if (i + 1 == room && items->count > room)
			put(p, label, "and %zu more: %s", items->count - i, more);
		else
			put(p, label, "%s", items->brief[i]);
		label = "";
	}
}

static bool is_edit(const struct act *a)
{
	return a->kind == ACT_CORRECT || a->kind == ACT_WITHDRAW || a->kind == ACT_ACKNOWLEDGE ||
		a->kind == ACT_CHANGE || a->kind == ACT_FIX_USE || a->kind == ACT_ADJUST ||
		a->kind == ACT_ADJUST_BACK || a->kind >= ACT_ACCEPT;
}

static void edit_words(const struct job *job, const struct act *a, char to[64])
{
	snprintf(to, 64, a->kind == ACT_CORRECT ? "corrected joint %d" : "at joint %d", a->joint);
	for (size_t i = 0; i < job->leg_count && a->kind == ACT_WITHDRAW; i++)
		if (job->legs[i].act == a->id)
			snprintf(to, 64, "withdrawn to joint %d", job->legs[i].to_joint);
	for (size_t i = 0; i < job->acknowledgement_count && a->kind == ACT_ACKNOWLEDGE; i++) {
		const struct acknowledgement *k = &job->acknowledgements[i];
		if (k->act == a->id)
			snprintf(to, 64, "accepted %.24s, joint %d", k->kind, k->joint);
	}
}

/* The newest first: the older ones of a shift are the ones that its own hands still know. */
static void take_edits(const struct page *p, struct items *items)
{
	char what[64];

	for (size_t i = p->job->act_count; i-- > 0;) {
		const struct act *a = &p->job->acts[i];
		if (!is_edit(a) || !sb_period_holds(&p->when, a->at_ms, a->offset_min))
			continue;
		edit_words(p->job, a, what);
		add_item(items, NULL, "%s (%.20s): %s", what, a->who, a->text);
	}
	if (items->count == 0)
		add_item(items, NULL, "nothing was corrected, withdrawn or accepted");
}

static bool is_open(const struct warning *w)
{
	return !w->superseded && !w->acknowledged && (w->open || !sb_warning_sorts[w->kind].passing);
}

static void brief_words(const struct warning *w, char to[100])
{
	char numbers[48] = "";

	if (w->kind == WARNING_LEAVES)
		snprintf(numbers, sizeof numbers, ", in %.0f joints", w->value);
	else if (w->limit > 0)
		snprintf(numbers, sizeof numbers, ": %.4g, limit %.4g", w->value, w->limit);
	snprintf(to, 100, "%s: %s, joint %d%s", sb_level_word(w->level), sb_warning_sorts[w->kind].label,
		w->worst_joint, numbers);
}

static void take_open(const struct page *p, struct items *items)
{
	char brief[100];

	for (int level = LEVEL_BREACH; level >= LEVEL_WATCH; level--)
		for (size_t i = p->s->warning_count; i-- > 0;) {
			const struct warning *w = &p->s->warnings[i];
			if (!is_open(w) || (int)w->level != level)
				continue;
			brief_words(w, brief);
			add_item(items, brief, "%s: %s", sb_level_word(w->level), w->text);
		}
	if (items->count == 0)
		add_item(items, NULL, "no decision is open");
}

/* What the shift wrote down for the next one, its closing words first. */
static void take_notes(const struct page *p, struct items *items)
{
	for (size_t i = p->job->act_count; i-- > 0;) {
		const struct act *a = &p->job->acts[i];
		if (a->text[0] == '\0' || !sb_period_holds(&p->when, a->at_ms, a->offset_min))
			continue;
		if (a->kind == ACT_SHIFT_END)
			add_item(items, NULL, "at the end (%.20s): %s", a->who, a->text);
		else if (a->kind == ACT_NOTE)
			add_item(items, NULL, "at joint %d (%.20s): %s", a->joint, a->who, a->text);
	}
}

/* The three parts share what is left of the page. When all of it does not fit, each item has one line, notes
 * two at most; when that does not fit either, the edits give way first, down to half of the room. */
static void put_edits_notes_open(struct page *p)
{
	size_t room = SB_HANDOVER_LINES - FIXED_LINES - p->more;
	struct items edits = { .count = 0 }, notes = { .count = 0 }, open = { .count = 0 };

	take_edits(p, &edits);
	take_notes(p, &notes);
	take_open(p, &open);
	if (wrapped_lines(&edits) + wrapped_lines(&notes) + wrapped_lines(&open) <= room) {
		put_wrapped(p, "edits", &edits);
		put_wrapped(p, "notes", &notes);
		put_wrapped(p, "open", &open);
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

/* ---- 8: time lost ---- */

static void put_lost(struct page *p)
{
	const struct period *t = &p->shift;
	char words[200] = "";

	if (t->stop_count == 0) {
		put(p, "waits",
			t->timed ? "none longer than usual between joints"
				 : "not known: times were not logged with every joint");
		return;
	}
	for (size_t i = 0; i < SB_PERIOD_STOPS && i < t->stop_count; i++) {
		size_t used = strlen(words);
		snprintf(words + used, sizeof words - used, "%s%.0f before %s%d", i ? ", " : "",
			t->stops[i].minutes, i ? "" : "joint ", t->stops[i].before);
	}
	put(p, "waits", "%.0f min: %s", t->stop_min, words);
}

/* ---- 5: the last independent fix ---- */

static void put_fix(struct page *p)
{
	const struct fixes *f = &p->s->fixes;
	struct setup setup = { p->job, &p->s->frame, &p->s->design, &p->s->corridor };
	const char *corrected = sb_job_adjustment(p->job) ? ", path corrected" : "";
	struct sb_str off = { 0 };
	size_t i = f->count;

	while (i > 0 && f->list[i - 1].standing != FIX_STANDS)
		i--;
	if (i == 0) {
		put(p, "fix", "no independent fix%s%s", f->count ? " that stands" : ": none taken",
			corrected);
		return;
	}
	const struct fix_view *v = &f->list[i - 1];
	const struct fix *fix = sb_job_fix(p->job, v->fix);
	sb_fixes_off(&setup, v->seen, v->off_m, &off);
	put(p, "fix", "%s at %s %s%s: %s", sb_fix_kind_name(fix->kind), fix->depth.text, sb_fixes_verdict(v),
		corrected, sb_str_get(&off));
	sb_str_clear(&off);
}

/* ---- 9: the next joints ---- */

static void put_next(struct page *p)
{
	struct next_joints n;

	next_take(p->job, p->s, &n);
	if (n.joints[0] == '\0') {
		put(p, "next", "no joint before the exit");
		return;
	}
	put(p, "next", "joint      %s", n.joints);
	put(p, "", "inclination%s  (%s)", n.inclinations, n.planned ? "plan" : "design");
	put(p, "", "azimuth    %s  (%s)", n.azimuths, n.planned ? "plan" : "design");
}

static void put_caution(struct page *p)
{
	char line[SB_HANDOVER_COLUMNS + 1];
	size_t cut = SB_HANDOVER_COLUMNS;

	while (cut > 0 && sb_caution[cut] != ' ')
		cut--;
	snprintf(line, sizeof line, "%.*s", (int)cut, sb_caution);
	put_line(p, line);
	put_line(p, sb_caution + cut + 1);
}

static void take_shift(struct page *p, int64_t now_ms)
{
	sb_timeline_take(p->job, &p->timeline);
	p->when = sb_period_shift(p->job, now_ms, &p->begin, &p->runs);
	sb_period_take(p->s, &p->timeline, &p->when, &p->shift);
	p->minutes = p->shift.minutes;
	if (!p->shift.timed && p->begin)
		p->minutes = (double)(p->when.to_ms - p->when.from_ms) / 60000;
}

void sb_handover(
	const struct job *job, const struct solution *s, const char *head, int64_t now_ms, struct sb_str *out)
{
	struct page p = { .job = job, .s = s, .unit = sb_unit_short(job->unit), .out = out };

	take_shift(&p, now_ms);
	put_head(&p, now_ms);
	put_bit(&p);
	put_courses(&p);
	put_worst(&p);
	put_progress(&p);
	put_returns(&p);
	put_fix(&p);
	put_edits_notes_open(&p);
	put_lost(&p);
	put_next(&p);
	put(&p, "file", "%s", *head ? head : "digest not known");
	put_caution(&p);
	sb_timeline_clear(&p.timeline);
}

/* The big answers, one line a question. Each line ends in a word that says whether it holds: a tired hand
 * reads the right edge first. */
#include "ui/answers.h"

#include "base/str.h"
#include "draw/axis.h"
#include "geom/angle.h"
#include "ui/big.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct answers sb_answers_now(const struct job *job, const struct solution *s)
{
	return (struct answers){ .job = job,
		.solution = s,
		.row = sb_solution_last(s),
		.bit = &s->bit,
		.ahead = &s->ahead,
		.budget = &s->budget,
		.warnings = s->warnings,
		.warning_count = s->warning_count };
}

struct answers sb_answers_trial(const struct job *job, const struct solution *s, const struct preview *p)
{
	return (struct answers){ .job = job,
		.solution = s,
		.row = &p->row,
		.bit = &p->bit,
		.ahead = &p->ahead,
		.budget = &p->budget,
		.warnings = p->warnings,
		.warning_count = p->warning_count,
		.trial = true };
}

static int decimals(const struct job *job)
{
	return job->unit == UNIT_M ? 2 : 1;
}

static void side_words(const struct job *job, const struct frame *f, double metres, const char *positive,
	const char *negative, const char *zero, char text[32])
{
	double value = sb_frame_typed(f, metres), least = 0.5 * pow(10, -decimals(job));

	if (fabs(value) < least)
		snprintf(text, 32, "%s", zero);
	else
		snprintf(text, 32, "%.*f %s %s", decimals(job), fabs(value), sb_unit_short(job->unit),
			value > 0 ? positive : negative);
}

void sb_answers_offset(const struct job *job, const struct frame *f, double metres, char text[32])
{
	side_words(job, f, metres, "right", "left", "on line", text);
}

void sb_answers_height(const struct job *job, const struct frame *f, double metres, char text[32])
{
	side_words(job, f, metres, "high", "low", "on grade", text);
}

void sb_answers_radius(const struct job *job, const struct frame *f, double metres, char text[32])
{
	double value = sb_frame_typed(f, metres);

	if (!(value < 100000))
		snprintf(text, 32, "straight");
	else
		snprintf(text, 32, "%.0f %s", value, sb_unit_short(job->unit));
}

static enum level level_of(const struct answers *a, enum warning_kind kind)
{
	enum level worst = LEVEL_OK;

	for (size_t i = 0; i < a->warning_count; i++) {
		const struct warning *w = &a->warnings[i];
		if (w->kind == kind && w->open && w->level > worst)
			worst = w->level;
	}
	return worst;
}

static enum level worse(enum level a, enum level b)
{
	return a > b ? a : b;
}

/* The question on the left, in dim; the verdict on the right, as mark and word. */
static int begin(struct cells *out, int row, const struct answers *a, const char *question)
{
	sb_cells_text(out, row, 1, a->trial ? STYLE_TRIAL : STYLE_DIM, question);
	return 14;
}

#define EDGE 106 /* columns that the lines may take */
#define BIG 21	 /* columns of a number in big digits, and of its words */

/* Mark and word; returns the column where they begin. */
static int verdict_words(const struct cells *out, enum level level, char text[16])
{
	int edge = (out->columns < EDGE ? out->columns : EDGE) - 1;
	const char *mark = sb_theme_mark(level);

	snprintf(text, 16, "%s%s%s", mark, *mark ? " " : "", sb_level_word(level));
	return edge - (int)sb_utf8_columns(text);
}

int sb_answers_verdict(struct cells *out, int row, enum level level)
{
	char text[16];
	int column = verdict_words(out, level, text);

	sb_cells_text(out, row, column - 1, STYLE_PLAIN, " ");
	sb_cells_text(out, row, column, sb_theme_level(level), text);
	return column;
}

/* The longest of several ways to say it that finds room; the last one whether it does or not. */
static void pick(const char *const *ways, int room, char text[96])
{
	while (ways[1] && (int)sb_utf8_columns(*ways) > room)
		ways++;
	sb_copy(text, 96, *ways);
}

static int part(struct cells *out, int row, int column, enum style style, const char *text)
{
	return sb_cells_text(out, row, column, style, text) + (out->columns >= 100 ? 3 : 2);
}

static void draw_bit(const struct answers *a, struct cells *out, int row)
{
	const struct frame *f = &a->solution->frame;
	enum level level = worse(a->bit->level, level_of(a, WARNING_CORRIDOR));
	char station[SB_AXIS_TEXT], share[32], word[16], text[96];
	int column = begin(out, row, a, a->trial ? "WHAT IF  bit" : "at the bit");

	if (!a->bit->known) {
		sb_cells_text(out, row, column, STYLE_STRONG, "at the entry; no reading yet");
		return;
	}
	sb_axis_station(a->bit->deviation.station_m, a->job->unit, decimals(a->job), station);
	snprintf(text, sizeof text, "station %s", station);
	column = part(out, row, column, STYLE_STRONG, text);
	sb_answers_offset(a->job, f, a->bit->deviation.offset_m, text);
	column = part(out, row, column, STYLE_STRONG, text);
	sb_answers_height(a->job, f, a->bit->deviation.height_m, text);
	column = part(out, row, column, STYLE_STRONG, text);
	snprintf(share, sizeof share, "corridor %.0f %%", fmin(a->bit->use.share * 100, 999));
	/* the verdict beside it says what the share is of, where there is no room for the word */
	pick((const char *const[]){ share, share + strlen("corridor "), NULL },
		verdict_words(out, level, word) - 1 - column, text);
	sb_cells_text(out, row, column, STYLE_PLAIN, text);
	sb_answers_verdict(out, row, level);
}

/* "78 %"; nothing is certain. */
static void chance_words(double chance, char text[16])
{
	if (chance < 0.005)
		snprintf(text, 16, "under 1 %%");
	else if (chance > 0.995)
		snprintf(text, 16, "over 99 %%");
	else
		snprintf(text, 16, "%.0f %%", chance * 100);
}

/* How far off the place of the bit may be, at the contract's confidence. It judges only where the contract
 * says so. */
static void draw_doubt(const struct answers *a, struct cells *out, int row)
{
	const struct solution *s = a->solution;
	const struct doubt *d = &a->bit->doubt;
	const char *unit = sb_unit_short(a->job->unit);
	int column = begin(out, row, a, "give or take"), room = out->columns - 1;
	double factor = s->uncertainty.line_factor;
	char text[96], chance[16], full[48];

	if (!a->bit->known)
		return;
	snprintf(text, sizeof text, "%.*f %s across", decimals(a->job),
		sb_frame_typed(&s->frame, factor * d->across_m), unit);
	column = part(out, row, column, STYLE_STRONG, text);
	snprintf(text, sizeof text, "%.*f %s in height", decimals(a->job),
		sb_frame_typed(&s->frame, factor * d->up_m), unit);
	column = part(out, row, column, STYLE_STRONG, text);
	snprintf(text, sizeof text, "(%s %%)", a->job->confidence.text);
	column = part(out, row, column, STYLE_DIM, text);
	if (a->job->judge == JUDGE_CONFIDENCE) {
		char word[16];
		room = verdict_words(out, a->bit->level, word) - 1;
	}
	chance_words(a->bit->outside, chance);
	snprintf(full, sizeof full, "%s chance outside", chance);
	pick((const char *const[]){ full, chance, NULL }, room - column, text);
	sb_cells_text(out, row, column, STYLE_PLAIN, text);
	if (a->job->judge == JUDGE_CONFIDENCE)
		sb_answers_verdict(out, row, a->bit->level);
}

static int angle_decimals(const struct job *job)
{
	return job->incline == INCLINE_GRADE ? 1 : 2;
}

static void draw_heading(const struct answers *a, struct cells *out, int row)
{
	const struct frame *f = &a->solution->frame;
	struct design_place design = sb_design_at(&a->solution->design, a->bit->deviation.station_m);
	int d = angle_decimals(a->job), column = begin(out, row, a, "heading");
	char text[80];

	snprintf(text, sizeof text, "incl %.*f", d, sb_frame_inc_typed(f, a->bit->attitude.inc_rad));
	column = sb_cells_text(out, row, column, STYLE_STRONG, text);
	snprintf(text, sizeof text, " (design %.*f)", d, sb_frame_inc_typed(f, design.inc_rad));
	column = part(out, row, column, STYLE_DIM, text);
	snprintf(text, sizeof text, "azim %.1f", sb_frame_azi_typed(f, a->bit->attitude.azi_rad));
	column = sb_cells_text(out, row, column, STYLE_STRONG, text);
	snprintf(text, sizeof text, " (design %.1f)", sb_frame_azi_typed(f, design.azi_rad));
	sb_cells_text(out, row, column, STYLE_DIM, text);
	sb_answers_verdict(out, row, worse(level_of(a, WARNING_LEAVES), level_of(a, WARNING_EXIT)));
}

static void window_name(const struct job *job, char text[40])
{
	if (sb_number_given(&job->window_length))
		snprintf(text, 40, "%s %s", job->window_length.text, sb_unit_short(job->unit));
	else
		snprintf(text, 40, "%s joints", job->window_joints.text);
}

/* "3 joints 2017 ft (min 1500)" */
static int bend_part(const struct answers *a, struct cells *out, int row, int column, const char *name,
	double radius_m, const struct number *least)
{
	char radius[32], text[96];

	sb_answers_radius(a->job, &a->solution->frame, radius_m, radius);
	snprintf(text, sizeof text, "%s %s", name, radius);
	if (!sb_number_given(least))
		return part(out, row, column, STYLE_STRONG, text);
	column = sb_cells_text(out, row, column, STYLE_STRONG, text);
	snprintf(text, sizeof text, " (min %s)", least->text);
	return part(out, row, column, STYLE_DIM, text);
}

static void draw_bend(const struct answers *a, struct cells *out, int row)
{
	char name[40];
	int column = begin(out, row, a, "bend");

	column = bend_part(a, out, row, column, "joint", a->row->radius_m, &a->job->joint_minimum);
	window_name(a->job, name);
	if (a->row->window.joints)
		bend_part(a, out, row, column, name, a->row->window.radius_m, &a->job->window_minimum);
	sb_answers_verdict(
		out, row, worse(level_of(a, WARNING_JOINT_BEND), level_of(a, WARNING_WINDOW_BEND)));
}

/* What the next joint may turn. By direction only where that differs by what can be steered. */
static void turn_words(const struct answers *a, char text[96])
{
	const struct budget *b = a->budget;
	double up = sb_deg(b->up_rad), down = sb_deg(b->down_rad), left = sb_deg(b->left_rad),
	       right = sb_deg(b->right_rad);
	double spread = fmax(fmax(up, down), fmax(left, right)) - fmin(fmin(up, down), fmin(left, right));

	if (b->least_rad < 0 && spread < 0.05)
		snprintf(text, 96, "hold straight: the %s is passed", b->by);
	else if (spread < 0.05)
		snprintf(text, 96, "may turn %.1f deg (%s)", fmax(sb_deg(b->least_rad), 0), b->by);
	else
		snprintf(text, 96, "turn up %.1f down %.1f left %.1f right %.1f deg", up, down, left, right);
}

static void exit_words(const struct answers *a, int room, char text[96])
{
	char along[32], across[32], full[96], brief[96];

	side_words(
		a->job, &a->solution->frame, a->ahead->exit_long_m, "long", "short", "at the stake", along);
	sb_answers_offset(a->job, &a->solution->frame, a->ahead->exit_right_m, across);
	snprintf(full, sizeof full, "if held, comes out %s, %s", along, across);
	snprintf(brief, sizeof brief, "out %s, %s", along, across);
	pick((const char *const[]){ full, brief, NULL }, room, text);
}

/* Where it comes out, near the end; before that, when it would leave the corridor. */
static void ahead_words(const struct answers *a, int room, char text[96])
{
	char full[64], half[64], brief[64];
	int joint = a->ahead->leaves_held;

	if (a->ahead->exit_known) {
		exit_words(a, room, text);
		return;
	}
	snprintf(full, sizeof full, "if held, leaves the corridor at joint %d", joint);
	snprintf(half, sizeof half, "if held, leaves at joint %d", joint);
	snprintf(brief, sizeof brief, "held: leaves at %d", joint);
	if (joint)
		pick((const char *const[]){ full, half, brief, NULL }, room, text);
	else
		pick((const char *const[]){ "if held, stays in the corridor", "held: stays inside", NULL },
			room, text);
}

static void draw_next(const struct answers *a, struct cells *out, int row)
{
	int column = begin(out, row, a, "next joint");
	char text[96];

	if (a->budget->known) {
		turn_words(a, text);
		column = part(out, row, column, STYLE_STRONG, text);
	}
	if (!a->bit->known)
		return;
	ahead_words(a, out->columns - column - 1, text);
	sb_cells_text(out, row, column, a->ahead->leaves_held ? STYLE_PLAIN : STYLE_DIM, text);
}

/* Where the order leads, and whether it is a guess. */
static void order_end(const struct answers *a, int room, char text[96])
{
	bool guess = a->guess;
	int joint = a->plan->rejoins_at_joint;
	char full[64], half[64];

	if (joint == 0) {
		snprintf(text, 96, "%s%s", a->plan->for_exit ? "for the exit" : "not onto the line yet",
			guess ? ", by guess" : "");
		return;
	}
	snprintf(full, sizeof full, "on line at joint %d%s", joint, guess ? ", by guess" : "");
	snprintf(half, sizeof half, "on line at %d%s", joint, guess ? ", by guess" : "");
	pick((const char *const[]){ full, half, guess ? "by guess" : "", NULL }, room, text);
}

/* The order for the next joint in full words, or why there is none. */
static void draw_order(const struct answers *a, struct cells *out, int row)
{
	const struct plan *plan = a->plan;
	struct setup setup = sb_solution_setup(a->job, a->solution);
	int column = begin(out, row, a, "order");
	char order[96], text[96];

	if (plan == NULL || !plan->known || plan->count == 0) {
		sb_cells_text(out, row, column, STYLE_DIM,
			plan == NULL ? "none for what is tried" : "none: past the exit");
		return;
	}
	if (!plan->feasible) {
		if (a->withdrawal && a->withdrawal->joints)
			snprintf(text, sizeof text, "no way back from here; pull back %d, to joint %d",
				a->withdrawal->joints, a->withdrawal->to_joint);
		else
			snprintf(text, sizeof text, "no way back inside every limit; ask the engineer");
		sb_cells_text(out, row, column, STYLE_BREACH, text);
		sb_answers_verdict(out, row, LEVEL_BREACH);
		return;
	}
	sb_steering_order(&setup, &plan->joints[0], a->job->face_as == FACE_CLOCK, order);
	column = part(out, row, column, a->trial ? STYLE_TRIAL : STYLE_STRONG, order);
	order_end(a, out->columns - column - 1, text);
	sb_cells_text(out, row, column, STYLE_DIM, text);
}

static void draw_side(const struct answers *a, enum glyphs glyphs, double metres, const char *words,
	enum level level, int column, struct cells *out)
{
	enum style style = level == LEVEL_OK ? STYLE_STRONG : sb_theme_level(level);
	char digits[32];

	snprintf(digits, sizeof digits, "%.*f", decimals(a->job),
		fabs(sb_frame_typed(&a->solution->frame, metres)));
	int width = sb_big_columns(digits);
	if (width > BIG)
		return;
	sb_big_number(out, 0, column, style, glyphs, digits);
	/* the words without the number that stands above them */
	if (words[0] >= '0' && words[0] <= '9')
		words += strcspn(words, " ") + 1;
	sb_cells_text(out, SB_BIG_ROWS, column, STYLE_STRONG, words);
}

/* Below the words of a big number: how far off it may be. */
static void draw_give(const struct answers *a, double sigma_m, int column, struct cells *out)
{
	const struct solution *s = a->solution;
	char text[48];

	snprintf(text, sizeof text, "give or take %.*f", decimals(a->job),
		sb_frame_typed(&s->frame, s->uncertainty.line_factor * sigma_m));
	sb_cells_text(out, SB_BIG_ROWS + 1, column, STYLE_DIM, text);
}

/* How far off, in big digits; the side that uses most of the corridor in the colour of its level. */
static void draw_big(const struct answers *a, enum glyphs glyphs, struct cells *out)
{
	const struct deviation *d = &a->bit->deviation;
	const struct frame *f = &a->solution->frame;
	enum side side = a->bit->use.side;
	bool across = side == SIDE_LEFT || side == SIDE_RIGHT;
	int column = out->columns - 2 * BIG - 2;
	char words[32];

	if (!a->bit->known || column < EDGE + 2)
		return;
	sb_answers_offset(a->job, f, d->offset_m, words);
	draw_side(a, glyphs, d->offset_m, words, across ? a->bit->level : LEVEL_OK, column, out);
	sb_answers_height(a->job, f, d->height_m, words);
	draw_side(a, glyphs, d->height_m, words, across ? LEVEL_OK : a->bit->level, column + BIG + 1, out);
	draw_give(a, a->bit->doubt.across_m, column, out);
	draw_give(a, a->bit->doubt.up_m, column + BIG + 1, out);
}

void sb_answers_draw(const struct answers *a, enum glyphs glyphs, struct cells *out)
{
	int row = 0;

	draw_big(a, glyphs, out);
	draw_bit(a, out, row++);
	if (out->rows >= SB_ANSWERS_ROWS)
		draw_doubt(a, out, row++);
	draw_heading(a, out, row++);
	draw_bend(a, out, row++);
	draw_next(a, out, row++);
	draw_order(a, out, row++);
}

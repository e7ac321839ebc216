/* How the entry line looks: the joint that is next, its fields, and below them what Enter would do. A tired
 * hand reads one line there: what is wrong, else what the reading would mean, else what to type. */
#include "base/str.h"
#include "model/azimuth.h"
#include "ui/answers.h"
#include "ui/app.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <stdio.h>

/* How many of the other fields hold something that was typed. */
static int filled(const struct form *f)
{
	int count = 0;

	for (size_t i = 0; i < f->count; i++)
		count += f->fields[i].text[0] != '\0' && !f->fields[i].offered;
	return count;
}

static void draw_rule(const struct log_state *s, struct cells *out)
{
	int more = filled(&s->more);
	char title[80];

	if (s->trial)
		sb_cells_rule(out, 0, "WHAT IF: nothing is logged. W goes back to the log");
	else if (more > 0) {
		snprintf(title, sizeof title, "%d more %s filled in: M shows %s", more,
			more == 1 ? "field is" : "fields are", more == 1 ? "it" : "them");
		sb_cells_rule(out, 0, title);
	} else
		sb_cells_rule(out, 0, NULL);
}

static bool draw_problem(const struct form *f, struct cells *out)
{
	for (size_t i = 0; i < f->count; i++)
		if (f->fields[i].problem[0]) {
			int column = sb_cells_text(out, 0, 1, STYLE_WATCH, "! ");
			sb_cells_fit(
				out, 0, column, out->columns - column - 1, STYLE_WATCH, f->fields[i].problem);
			return true;
		}
	return false;
}

static const char *type_both(const struct view *v)
{
	if (sb_job_accepted(v->job))
		return "The pilot is accepted and closed. V: the hole after it. X opens it again.";
	switch (v->job->incline) {
	case INCLINE_DOWN:
		return "Type inclination (90 is level), Enter, azimuth, Enter.";
	case INCLINE_LEVEL:
		return "Type inclination (0 is level, rising is +), Enter, azimuth, Enter.";
	case INCLINE_GRADE:
		break;
	}
	return "Type the grade in percent (rising is +), Enter, azimuth, Enter.";
}

static bool lacks_convergence(const struct view *v)
{
	struct reading r;

	return sb_log_reading(v, true, &r, NULL) == 0 && sb_azimuth_check(v->job, NULL, &r, NULL);
}

/* Changes when the hand goes on, not with each digit: a slow link is spared. */
static const char *what_to_type(const struct view *v)
{
	const struct log_state *s = v->state;
	bool second = sb_same(s->entry.fields[s->entry.focus].name, "azimuth") &&
		sb_form_text(&s->entry, "inclination")[0];

	if (!sb_store_writes(v->store) && !s->trial)
		return "You are looking on: nothing that you type is logged.";
	if (lacks_convergence(v))
		return "A gyro reads from true north; the job has no convergence. K, A gives it one.";
	if (second)
		return "Type the azimuth, Enter.";
	return s->trial ? "Type an inclination, Enter, an azimuth: the answers above speak of them."
			: type_both(v);
}

/* What is typed would mean this: shown as soon as both angles stand there. */
static void draw_meaning(const struct view *v, struct cells *out)
{
	const struct log_state *s = v->state;
	const struct preview *p = &s->preview;
	const struct frame *f = &v->solution->frame;
	char offset[32], height[32], radius[32];
	int column = 1;

	sb_answers_offset(v->job, f, p->bit.deviation.offset_m, offset);
	sb_answers_height(v->job, f, p->bit.deviation.height_m, height);
	sb_answers_radius(v->job, f, p->row.radius_m, radius);
	/* a question that stands below takes Enter for itself */
	if (sb_store_writes(v->store) && !s->trial && sb_app_top(v->app) == v->screen) {
		column = sb_cells_text(out, 0, column, STYLE_KEY, "Enter");
		column = sb_cells_text(out, 0, column, STYLE_PLAIN, " logs it: ");
	}
	column = sb_cells_print(out, 0, column, STYLE_TRIAL, "bit %s, %s", offset, height);
	if (p->row.on_path && p->row.course_m > 0)
		sb_cells_print(out, 0, column, STYLE_TRIAL, ", joint radius %s", radius);
	sb_answers_verdict(out, 0, p->bit.level > p->level ? p->bit.level : p->level);
}

void sb_log_line_draw(const struct view *v, struct cells *out)
{
	const struct log_state *s = v->state;

	draw_rule(s, out);
	int column = sb_cells_print(out, 1, 1, STYLE_STRONG, "joint %d", s->joint) + 1;
	for (size_t i = 0; i < s->entry.count; i++)
		column = sb_form_draw_one(&s->entry, i, out, 1, column) + 1;
	struct cells line = sb_cells_part(out, 2, 0, 1, out->columns);
	if (draw_problem(&s->entry, &line))
		return;
	if (s->known)
		draw_meaning(v, &line);
	else
		sb_cells_text(&line, 0, 1, STYLE_DIM, what_to_type(v));
}

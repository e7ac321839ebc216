/* The head line. What never gives way while the pilot is drilled: leg, joint, bit depth, the clock. The job's
 * name is cut first, then the crew's names. Once the pilot is accepted leg and joint stand still, and give
 * way to the name. */
#include "ui/banner.h"

#include "base/str.h"
#include "base/time.h"

#include <stdio.h>

#define CREW_MOST 18

static void where(const struct view *v, const char *title, bool brief, char *text, size_t size)
{
	struct sb_str s = { 0 };

	if (v->job && v->solution) {
		double depth = sb_frame_typed(&v->solution->frame, sb_solution_last(v->solution)->bit_md_m);
		sb_str_add(&s, " · pilot%s", sb_job_accepted(v->job) ? " accepted" : "");
		if (!brief)
			sb_str_add(&s, " · leg %d · joint %d", sb_job_leg(v->job), sb_job_in_ground(v->job));
		sb_str_add(&s, " · bit %.1f %s", depth, sb_unit_short(v->job->unit));
	}
	if (title)
		sb_str_add(&s, "%s%s", s.length ? " · " : "", title);
	sb_copy(text, size, sb_str_get(&s));
	sb_str_clear(&s);
}

/* Who is on, and the clock; returns the column where it begins. */
static int draw_right(const struct view *v, struct cells *row)
{
	const struct act *shift = v->job ? sb_job_shift(v->job) : NULL;
	bool onlooker = v->store && !sb_store_writes(v->store);
	const char *crew = onlooker ? "looking on" : shift ? shift->text : v->who;
	int64_t now = sb_time_now();
	char clock[SB_TIME_TEXT];

	sb_time_short(now, sb_time_offset(now), clock);
	int column = row->columns - (int)sb_utf8_columns(clock);
	sb_cells_text(row, 0, column, STYLE_TITLE, clock);
	int width = (int)sb_utf8_columns(crew);
	if (width == 0)
		return column - 2;
	width = width > CREW_MOST ? CREW_MOST : width;
	column -= width + 2;
	sb_cells_fit(row, 0, column, width, STYLE_TITLE, crew);
	return column - 2;
}

void sb_banner_draw(const struct view *v, const char *title, struct cells *row)
{
	char text[SB_NAME_TEXT * 2];
	const char *name = v->job ? v->job->name : "";

	sb_cells_fill(row, STYLE_TITLE);
	int right = draw_right(v, row);
	where(v, title, false, text, sizeof text);
	int room = right - (int)sb_utf8_columns(text), width = (int)sb_utf8_columns(name);
	if (width > room && v->job && sb_job_accepted(v->job)) {
		where(v, title, true, text, sizeof text);
		room = right - (int)sb_utf8_columns(text);
	}
	if (width > room)
		width = room > 0 ? room : 0;
	if (v->job && v->job->rehearsal[0] && width < 9) /* "REHEARSAL" never gives way */
		width = 9;
	sb_cells_fit(row, 0, 0, width, STYLE_TITLE, name);
	sb_cells_fit(row, 0, width, right - width, STYLE_TITLE, text);
}

/* The two paths in words. Sides instead of signs; what rounds to nothing is not said. */
#include "io/courses.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ARCS "minimum curvature"

static int decimals(const struct job *job)
{
	return job->unit == UNIT_M ? 2 : 1;
}

static void add(const struct job *job, const struct frame *f, double metres, const char *positive,
	const char *negative, char text[SB_COURSES_TEXT])
{
	double value = sb_frame_typed(f, metres);
	size_t used = strlen(text);

	if (fabs(value) >= 0.5 * pow(10, -decimals(job)))
		snprintf(text + used, SB_COURSES_TEXT - used, "%s%.*f %s %s", used ? ", " : "", decimals(job),
			fabs(value), sb_unit_short(job->unit), value > 0 ? positive : negative);
}

bool sb_courses_words(const struct job *job, const struct frame *f, const struct path_shift *shift,
	char text[SB_COURSES_TEXT])
{
	text[0] = '\0';
	add(job, f, shift->offset_m, "right", "left", text);
	add(job, f, shift->height_m, "high", "low", text);
	add(job, f, shift->station_m, "ahead", "short", text);
	if (text[0] != '\0')
		return true;
	snprintf(text, SB_COURSES_TEXT, "nothing");
	return false;
}

bool sb_courses_say(const struct job *job, const struct solution *s, struct sb_str *out)
{
	const char *record = job->course == COURSE_BY_SLIDES ? "slides" : "arcs";
	char words[SB_COURSES_TEXT];
	size_t arcs;

	if (!sb_path_by_slides(&s->path, &arcs)) {
		if (job->course == COURSE_BY_SLIDES)
			sb_str_add(out,
				"The path by slides is the record, but none are known: every course is an arc.");
		return job->course == COURSE_BY_SLIDES;
	}
	struct path_shift shift = sb_path_shift(&s->design, job->course, sb_solution_last_on_path(s));
	bool apart = sb_courses_words(job, &s->frame, &shift, words);
	sb_str_add(out,
		"Laid through its slides the bore ends %s%s arcs between readings; %s are the record.",
		apart ? words : "in the same place as by", apart ? " of where it does by" : "", record);
	if (arcs > 0)
		sb_str_add(out, " Without slides written down, so arcs in both: %zu course%s.", arcs,
			arcs == 1 ? "" : "s");
	return true;
}

const char *sb_courses_method(const struct job *job)
{
	return job->course == COURSE_BY_SLIDES
		? "courses through each joint's slides and rotations, closed evenly on both readings; " ARCS
		  " where slides were not written down"
		: ARCS;
}

/* One point for each stretch of the bore, asked for its pressure and its limit. */
#include "model/fluid_line.h"

#include "base/mem.h"
#include "base/str.h"

#include <math.h>
#include <string.h>

static struct fluid_stage stage_of(
	const struct clearance_ask *ask, enum fluid_stage_kind kind, int pass, double length_m)
{
	const struct job *job = ask->setup.job;
	const struct frame *f = ask->setup.frame;

	switch (kind) {
	case STAGE_PASS:
		return sb_fluid_pass(job, f, pass, NULL, length_m);
	case STAGE_PULL:
		return sb_fluid_pull(job, f, NULL, length_m);
	case STAGE_PILOT:
		break;
	}
	return sb_fluid_pilot(job, f, NULL);
}

/* ---- what was measured at a joint ---- */

static const struct pass_joint *pass_joint(const struct job *job, int pass, int joint)
{
	for (size_t i = job->pass_joint_count; i-- > 0;) {
		const struct pass_joint *j = &job->pass_joints[i];
		if (j->pass == pass && j->joint == joint && !j->struck)
			return j;
	}
	return NULL;
}

static const struct pull_joint *pull_joint(const struct job *job, int joint)
{
	for (size_t i = job->pull_joint_count; i-- > 0;)
		if (job->pull_joints[i].joint == joint && !job->pull_joints[i].struck)
			return &job->pull_joints[i];
	return NULL;
}

static bool drilled(
	const struct clearance_ask *ask, const struct fluid_line *line, int joint, struct annular *out)
{
	const struct job *job = ask->setup.job;
	const struct row *row = sb_path_row(ask->path, 0, joint);

	if (row == NULL || !row->on_path)
		return false;
	if (line->stage.kind == STAGE_PILOT) {
		*out = sb_annular_pilot(ask, row, sb_job_joint(job, joint));
		return true;
	}
	/* the head comes to the end of a joint when the joint before it is out */
	const struct pass_joint *pass = line->stage.kind == STAGE_PASS && line->stage.pass
		? pass_joint(job, line->stage.pass, joint)
		: NULL;
	const struct pull_joint *pull = line->stage.kind == STAGE_PULL ? pull_joint(job, joint + 1) : NULL;
	if (pass)
		*out = sb_annular_pass(ask, pass);
	if (pull)
		*out = sb_annular_pull(ask, pull);
	return pass || pull;
}

/* ---- the points ---- */

static struct fluid_point point_of(const struct clearance_ask *ask, const struct fluid_line *line,
	const struct bore_line *bore, size_t i)
{
	const struct bore_stretch *b = &bore->stretches[i];
	double md = b->md_m + b->length_m;
	struct fluid_point p = { .joint = b->joint, .projected = b->projected };
	struct formation_place place =
		sb_formation_place(md, sb_bore_line_station(bore, md), b->to, b->heading_to);

	if (b->projected || b->joint == 0 || !drilled(ask, line, b->joint, &p.annular))
		p.annular = sb_annular_at(ask, &line->stage, &place);
	return p;
}

static void look_for_tightest(struct fluid_line *line)
{
	for (size_t i = 0; i < line->count; i++) {
		const struct fluid_point *p = &line->points[i];
		double share = sb_annular_share(&p->annular);
		if (isnan(share))
			continue;
		if (line->tightest == NULL || share > sb_annular_share(&line->tightest->annular))
			line->tightest = p;
		if (!isnan(p->annular.measured_pa) &&
			(line->measured == NULL || share > sb_annular_share(&line->measured->annular)))
			line->measured = p;
	}
}

void sb_fluid_line_build(const struct clearance_ask *ask, const struct bore_line *bore,
	enum fluid_stage_kind kind, int pass, struct fluid_line *out)
{
	*out = (struct fluid_line){ .stage = stage_of(ask, kind, pass, bore->length_m),
		.length_m = bore->length_m };
	out->points = sb_alloc((bore->count + 1) * sizeof *out->points);
	for (size_t i = 0; i < bore->count; i++) {
		/* courses by slides have several stretches to a joint: its last one ends at the reading */
		if (i + 1 < bore->count && bore->stretches[i].joint > 0 &&
			bore->stretches[i + 1].joint == bore->stretches[i].joint &&
			bore->stretches[i + 1].projected == bore->stretches[i].projected)
			continue;
		out->points[out->count++] = point_of(ask, out, bore, i);
	}
	look_for_tightest(out);
}

void sb_fluid_line_clear(struct fluid_line *line)
{
	sb_free(line->points);
	memset(line, 0, sizeof *line);
}

bool sb_fluid_line_gap(
	const struct clearance_ask *ask, const struct fluid_line *line, size_t *at, struct fluid_gap *out)
{
	bool found = false;
	char text[sizeof out->text];

	for (; *at < line->count; (*at)++) {
		const struct annular *a = &line->points[*at].annular;
		bool gap = a->formation.known != FORMATION_KNOWN &&
			sb_formation_judged(&ask->setup, a->place.station_m);
		if (found && !gap)
			break;
		if (!gap)
			continue;
		sb_formation_missing(&a->formation, text);
		if (found && !sb_same(text, out->text))
			break;
		if (!found) {
			out->from_m = *at ? line->points[*at - 1].annular.place.station_m : 0;
			sb_copy(out->text, sizeof out->text, text);
		}
		out->to_m = a->place.station_m;
		found = true;
	}
	return found;
}

/* The plan, in four steps: lay out the stages along the design ahead of the bit (steering_stages.c); choose
 * where to be back on the line; solve (geom/steer.h); lay the answer through the real geometry and look at
 * every limit there (steering_lay.c). If the real geometry breaks a limit that the flat one kept, the limits
 * are drawn in a little and it is solved again. What a hand would rather do is in steering_own.c.
 */
#include "steering_parts.h"

#include "base/mem.h"
#include "base/time.h"
#include "geom/angle.h"

#include <string.h>

/* Where the answer is on the line and tangent to it: within half a foot and a degree and a half. */
static int find_rejoin(const struct plan *out)
{
	for (size_t k = 0; k < out->count; k++) {
		const struct deviation *d = &out->joints[k].deviation;
		if (hypot(d->height_m, d->offset_m) < 0.15 &&
			hypot(d->inc_off_rad, d->azi_off_rad) < sb_rad(1.5))
			return out->joints[k].joint;
	}
	return 0;
}

static enum steer_status solve_for(
	struct laying *l, size_t count, struct steer_problem *p, void *work, struct steer_answer *a)
{
	sb_steering_stages(l, count, p);
	return sb_steer_solve(p, work, a);
}

/* The best that can be done where there is no way, for a bore that must go on all the same: back to the line
 * as soon as the bend limits let it, whatever it leaves. A corridor that was left can be come back into; a
 * bend stays in the ground. The bend limits themselves give only by what is bent too far already. */
static enum steer_status solve_eased(
	struct laying *l, size_t count, struct steer_problem *p, void *work, struct steer_answer *a)
{
	enum steer_status status = STEER_STUCK;

	for (double ease = 1; ease < 200 && status != STEER_OPTIMAL;
		ease *= fmax(1.2, 1.1 * (1 + a->short_by))) {
		sb_steering_stages(l, count, p);
		p->end = STEER_FREE;
		p->line_weight = 1;
		for (size_t k = 0; k < count; k++) {
			struct steer_stage *s = &p->stages[k];
			s->up = s->down = s->left = s->right = HUGE_VAL;
			s->plane_count = 0;
			s->window_limit *= ease;
			s->joint_limit *= ease;
		}
		status = sb_steer_solve(p, work, a);
	}
	return status;
}

static void fail_plan(const struct laying *l, const struct steer_answer *a, struct plan *out)
{
	out->feasible = false;
	out->limit = a->limit;
	out->limit_joint = l->joint + 1 + (int)a->stage;
	out->short_by = a->short_by;
}

/* Solves for the end at `count`, tightening until the real geometry keeps the limits too. What a quarter of a
 * limit cannot mend is not tried; what the first answer breaks there is what stands in the way. */
bool sb_steering_make_at(struct laying *l, size_t count, struct steer_problem *p, void *work,
	struct steer_answer *a, struct plan *out)
{
	const double most = 0.25;
	size_t far = sb_steering_farthest(l), all = far < count + BEYOND ? far : count + BEYOND;

	struct used worst = { 0, STEER_LIMIT_NONE, 0 }, first = worst;

	for (l->tighten = 0; l->tighten < most; l->tighten += 0.08) {
		enum steer_status status = solve_for(l, count, p, work, a);
		if (status != STEER_OPTIMAL && l->tighten == 0)
			return false;
		if (status != STEER_OPTIMAL)
			break;
		worst = sb_steering_lay(l, p, a, all, out);
		if (l->tighten == 0)
			first = worst;
		if (worst.share <= 1 || worst.share > 1 / (1 - most))
			break;
	}
	if (worst.share > 1) {
		a->limit = first.limit;
		a->stage = first.stage;
		a->short_by = first.share - 1;
		return false;
	}
	out->feasible = true;
	out->for_exit = p->end == STEER_WINDOW;
	out->rejoins_at_joint = out->for_exit ? 0 : find_rejoin(out);
	return true;
}

/* Gentle first; else as late as can be; else with two thirds of the margin for what is not known of the
 * bends: to leave the corridor for certain is worse than a window that may come out too sharp. */
static bool make_any(struct laying *l, size_t count, size_t most, struct steer_problem *p, void *work,
	struct steer_answer *a, struct plan *out)
{
	for (;; count = 2 * count < most ? 2 * count : most) {
		if (sb_steering_make_at(l, count, p, work, a, out))
			return true;
		if (count == most)
			break;
	}
	struct steer_answer *whole = sb_alloc(sizeof *whole);
	*whole = *a;
	l->sure = 2.0 / 3;
	bool made = sb_steering_make_at(l, most, p, work, a, out);
	l->sure = 1;
	if (!made)
		*a = *whole;
	sb_free(whole);
	return made;
}

void sb_steering_set_out(const struct laying *l, struct plan *out)
{
	out->bit = l->bit;
	out->heading = l->heading;
	out->known = true;
}

void sb_steering_make_from(struct laying *l, void *work, struct plan *out)
{
	struct steer_problem *p = sb_alloc(sizeof *p);
	struct steer_answer *a = sb_alloc(sizeof *a);
	size_t most = sb_steering_farthest(l);

	sb_steering_set_out(l, out);
	sb_steering_stages(l, 1, p);
	size_t count = sb_steering_comfortable(l, p);
	if (count > most)
		count = most;
	if (!make_any(l, count, most, p, work, a, out)) {
		fail_plan(l, a, out);
		size_t some = most < 20 ? most : 20;
		l->tighten = 0;
		if (solve_eased(l, some, p, work, a) == STEER_OPTIMAL)
			sb_steering_lay(l, p, a, some, out);
		out->feasible = false;
	}
	sb_steering_explain(l, out);
	sb_free(a);
	sb_free(p);
}

bool sb_steering_stand(struct laying *l)
{
	l->joint = l->path->rows[l->path->count - 1].joint;
	l->bit_md_m = l->path->rows[l->path->count - 1].bit_md_m;
	sb_response_bit(l->setup, l->path, l->response, &l->bit, &l->heading);
	sb_steering_look_back(l);
	return sb_steering_begin(l);
}

void sb_steering_make(
	const struct setup *setup, const struct path *path, const struct response *response, struct plan *out)
{
	struct laying l = { .setup = setup, .path = path, .response = response };
	double begun = sb_time_tick();

	memset(out, 0, sizeof *out);
	if (!sb_steering_stand(&l))
		return;
	void *work = sb_alloc(sb_steer_work_size());
	sb_steering_make_from(&l, work, out);
	sb_free(work);
	out->seconds = sb_time_tick() - begun;
}

/* From where joint `to` ended: the hole there is known, so the plan starts from the path itself. */
static bool stand_at(const struct laying *now, int to, struct laying *l)
{
	const struct row *row = &now->path->rows[to];

	*l = *now;
	l->joint = to;
	l->bit_md_m = row->bit_md_m;
	if (row->bit_md_m > sb_path_back(l->path, 0)->survey_md_m)
		return false; /* not surveyed: as uncertain as the bit itself */
	sb_path_at(l->path, row->bit_md_m, &l->bit, NULL);
	l->heading = sb_steering_heading_at(l, row->bit_md_m);
	return sb_steering_begin(l);
}

void sb_steering_withdraw(const struct setup *setup, const struct path *path, const struct response *response,
	struct withdrawal *out)
{
	struct steer_problem *p = sb_alloc(sizeof *p);
	struct steer_answer *a = sb_alloc(sizeof *a);
	void *work = sb_alloc(sb_steer_work_size());
	int last = path->rows[path->count - 1].joint;
	struct laying now = { .setup = setup, .path = path, .response = response };
	double begun = sb_time_tick();

	memset(out, 0, sizeof *out);
	sb_steering_look_back(&now);
	for (int joints = 1; joints <= last && joints <= SIGHT && out->joints == 0; joints++) {
		struct laying l;
		if (!stand_at(&now, last - joints, &l))
			continue;
		struct corridor_use *use = &(struct corridor_use){ 0 };
		struct corridor_limits c = sb_corridor_at(setup->corridor, l.deviation.station_m);
		*use = sb_corridor_use(&c, l.deviation.offset_m, l.deviation.height_m);
		/* What is outside, or hardly inside, is no place to begin again from. */
		if (use->share > 1)
			continue;
		sb_steering_stages(&l, sb_steering_farthest(&l), p);
		if (sb_steer_feasible(p, work, a) != STEER_OPTIMAL)
			continue;
		sb_steering_make_from(&l, work, &out->plan);
		if (!out->plan.feasible)
			continue;
		out->joints = joints;
		out->to_joint = last - joints;
	}
	sb_free(work);
	sb_free(a);
	sb_free(p);
	out->seconds = sb_time_tick() - begun;
}

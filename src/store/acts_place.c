/* The acts on where the bore really is: what the azimuths refer to and which tool reads them, readings taken
 * again, independent positions, and the correction that rests on them. */
#include "base/str.h"
#include "store/deed.h"
#include "store/handle.h"

#include <stdio.h>
#include <string.h>

/* ---- changes of settings ---- */

static int check_change(const struct sb_store *store, struct change *c, struct job *trial, struct sb_err *err)
{
	const struct setting *s = sb_setting(c->section, c->key);

	if (s == NULL)
		return sb_fail(err, SB_MISSING, "There is no setting [%.24s] %.32s.", c->section, c->key);
	if (!sb_setting_changeable(s))
		return sb_fail(err, SB_STATE,
			"[%s] %s holds for the whole job: it cannot change while the bore is drilled.",
			s->section, s->key);
	if (c->from_joint < 0 || c->from_joint > sb_job_in_ground(&store->job) + 1)
		return sb_fail(err, SB_RANGE, "The change cannot begin at joint %d: the next joint is %d.",
			c->from_joint, sb_job_in_ground(&store->job) + 1);
	if (sb_setting_put(s, trial, c->value, err))
		return sb_fail_within(err, "[%s] %s: ", s->section, s->key);
	return 0;
}

static int next_setting(struct sb_store *store, int64_t *id, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(store->db, "SELECT coalesce(max(id), 0) + 1 FROM setting");

	*id = sb_sql_row(q) ? sb_sql_int(q, 0) : 0;
	return sb_sql_done(q, err);
}

/* "azimuth declination 3.40 (was 3.10); tool sensor_to_bit 55 (was 10), from joint 22 on: REASON" */
static void say_changes(
	const struct job *before, const struct change *c, size_t count, const char *reason, struct deed *d)
{
	struct sb_str what = { 0 };

	for (size_t i = 0; i < count; i++) {
		char was[SB_NAME_TEXT];
		bool given = sb_setting_get(sb_setting(c[i].section, c[i].key), before, was, sizeof was);
		sb_str_add(&what, "%s%s %s %s (was %s)", i ? "; " : "", c[i].section, c[i].key, c[i].value,
			given ? was : "not given");
		if (i + 1 == count || c[i].from_joint != c[i + 1].from_joint)
			sb_str_add(&what, ", from joint %d on", c[i].from_joint);
	}
	sb_deed_compose(d, sb_str_get(&what), reason);
	sb_str_clear(&what);
}

/* The settings that a joint in the ground would be read by, with these changes put to them, must make a frame
 * too: else its azimuth would have none. */
static int check_joints(const struct job *job, const struct change *changes, size_t count, struct sb_err *err)
{
	struct frame frame;

	for (int joint = 1; joint <= sb_job_in_ground(job); joint++) {
		const struct reading *r = sb_job_joint(job, joint);
		struct job then = sb_frame_settings(job, r);
		bool touched = false;
		for (size_t i = 0; i < count; i++)
			if (sb_job_change_holds(job, &changes[i], r)) {
				touched = true;
				if (sb_setting_put(sb_setting(changes[i].section, changes[i].key), &then,
					    changes[i].value, err))
					return -1;
			}
		if (touched && sb_frame_init(&then, &frame, err))
			return sb_fail_within(err, "Joint %d would be left without an azimuth: ", joint);
	}
	return 0;
}

int sb_store_change(struct sb_store *store, const char *who, const struct change *changes, size_t count,
	const char *reason, struct sb_err *err)
{
	struct change own[SB_CHANGES];
	struct deed d = { 0 };
	int64_t id;

	if (sb_deed_prepare(store, who, ACT_CHANGE, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for the change", err) ||
		next_setting(store, &id, err))
		return -1;
	if (count == 0 || count > SB_CHANGES)
		return sb_fail(err, SB_RANGE, "Between 1 and %d settings can change at a time.", SB_CHANGES);
	struct job trial = sb_frame_settings(&store->job, NULL), before = trial;
	struct frame frame;
	for (size_t i = 0; i < count; i++) {
		own[i] = changes[i];
		own[i].fact.act = d.act.id;
		if (check_change(store, &own[i], &trial, err))
			return -1;
	}
	/* as they stand for the next joint, with these put to them, they must make a frame */
	if (sb_frame_init(&trial, &frame, err) || check_joints(&store->job, own, count, err))
		return -1;
	say_changes(&before, own, count, reason, &d);
	for (size_t i = 0; i < count; i++) {
		sb_deed_sign(&own[i].fact, &d);
		own[i].fact.id = id + (int64_t)i;
	}
	d.changes = own;
	d.change_count = count;
	return sb_deed_carry_out(store, &d, err);
}

/* ---- facts that come one with an act ---- */

/* "coil fix 3 at 310.00 ft" */
static void say_fact(const struct job *job, enum act_kind kind, const union any_fact *f, struct sb_str *what)
{
	const struct adjustment *a = &f->adjustment;

	switch ((int)kind) {
	case ACT_REPEAT:
		sb_str_add(what, "%s at %s %s, inclination %s, azimuth %s",
			f->repeat.way == WAY_OUT ? "on the way out" : "again", f->repeat.depth.text,
			sb_unit_short(job->unit), f->repeat.inclination.text,
			sb_number_given(&f->repeat.azimuth) ? f->repeat.azimuth.text : "not read");
		return;
	case ACT_FIX:
		sb_str_add(what, "%s, fix %zu, at %s %s", sb_fix_kind_name(f->fix.kind), job->fix_count + 1,
			f->fix.depth.text, sb_unit_short(job->unit));
		return;
	case ACT_FIX_USE:
		sb_str_add(what, "fix %d %s", f->fix_use.fix, f->fix_use.used ? "used again" : "set aside");
		return;
	case ACT_ADJUST:
		sb_str_add(what, "path corrected by inclination %s, azimuth %s, stretch %s, on fixes %s",
			sb_number_given(&a->inclination) ? a->inclination.text : "0",
			sb_number_given(&a->azimuth) ? a->azimuth.text : "0",
			sb_number_given(&a->stretch) ? a->stretch.text : "0", a->fixes);
		return;
	default:
		sb_str_add(what, "correction of the path taken back");
	}
}

static int enter(struct sb_store *store, struct deed *d, const void *from, int64_t id, const char *words,
	struct sb_err *err)
{
	struct sb_str what = { 0 };

	say_fact(&store->job, d->act.kind, from, &what);
	int status = sb_deed_enter(store, d, from, id, sb_str_get(&what), words, err);
	sb_str_clear(&what);
	return status;
}

/* Past the bit there is no hole to speak of. */
static int check_depth(
	const struct sb_store *store, const struct number *depth, const char *what, struct sb_err *err)
{
	const struct solution *s = &store->solution;
	double bit = sb_frame_typed(&s->frame, sb_solution_last(s)->bit_md_m);

	if (sb_number_given(depth) && depth->value <= bit + 1e-6)
		return 0;
	if (!sb_number_given(depth))
		return sb_fail(err, SB_RANGE, "The depth of the %s is missing.", what);
	return sb_fail(err, SB_RANGE, "The %s cannot lie at %s: the bit is at %.2f %s.", what, depth->text,
		bit, sb_unit_short(store->job.unit));
}

int sb_store_repeat(struct sb_store *store, const char *who, const struct repeat *r, const char *remarks,
	struct sb_err *err)
{
	struct deed d = { 0 };
	double low, high;

	if (sb_deed_prepare(store, who, ACT_REPEAT, &d, err) ||
		sb_deed_check_words(remarks, SB_REMARK_TEXT, false, "The remark", err) ||
		check_depth(store, &r->depth, "reading", err))
		return -1;
	sb_incline_range(store->job.incline, &low, &high);
	if (r->inclination.value < low || r->inclination.value > high)
		return sb_fail(err, SB_RANGE, "inclination %s cannot be: it lies between %g and %g.",
			r->inclination.text, low, high);
	return enter(store, &d, r, (int64_t)store->job.repeat_count + 1, remarks, err);
}

/* A component of a fix: whether it was typed by its own name, whether it is known at all, and how sure. */
struct component {
	bool typed, known;
	const struct number *sigma;
	const char *name, *what, *none;
};

static int check_component(const struct component *c, struct sb_err *err)
{
	bool sure = sb_number_given(c->sigma);

	if (sure && !c->known)
		return sb_fail(err, SB_RANGE, "%s says how sure %s.", c->name, c->none);
	if (c->typed && !sure)
		return sb_fail(err, SB_RANGE,
			"How sure is the %s? Give its one sigma (%s), as who measured it says.", c->what,
			c->name);
	return 0;
}

/* A fix says at least one component, and of each how sure it is. */
static int check_fix(const struct fix *f, struct sb_err *err)
{
	bool grid = sb_number_given(&f->easting), north = sb_number_given(&f->northing);
	bool along = grid || sb_number_given(&f->station), across = grid || sb_number_given(&f->offset);
	bool up = sb_number_given(&f->elevation);

	if (grid != north)
		return sb_fail(err, SB_RANGE, "A fix has easting and northing, or neither.");
	if (grid && (sb_number_given(&f->station) || sb_number_given(&f->offset)))
		return sb_fail(err, SB_RANGE,
			"Give easting and northing, or station and offset: not both, they might disagree.");
	const struct component list[] = {
		{ up, up, &f->sigma_up, "sigma_up", "elevation", "an elevation is, and none is given" },
		{ sb_number_given(&f->station), along, &f->sigma_along, "sigma_along", "station",
			"a station is, and no station or easting is given" },
		{ sb_number_given(&f->offset), across, &f->sigma_across, "sigma_across", "offset",
			"an offset is, and no offset or easting is given" },
	};
	for (size_t i = 0; i < sizeof list / sizeof *list; i++)
		if (check_component(&list[i], err))
			return -1;
	if (grid && !sb_number_given(&f->sigma_along) && !sb_number_given(&f->sigma_across))
		return sb_fail(err, SB_RANGE,
			"How sure are easting and northing? Give one sigma along the line (sigma_along), square to it (sigma_across), or both.");
	if (!along && !across && !up)
		return sb_fail(err, SB_RANGE,
			"A fix says where the hole is: easting and northing, station, offset, or elevation.");
	return 0;
}

int sb_store_fix(
	struct sb_store *store, const char *who, const struct fix *f, const char *remarks, struct sb_err *err)
{
	struct deed d = { 0 };

	if (sb_deed_prepare(store, who, ACT_FIX, &d, err) ||
		sb_deed_check_words(remarks, SB_REMARK_TEXT, false, "The remark", err) ||
		check_depth(store, &f->depth, "fix", err) || check_fix(f, err))
		return -1;
	return enter(store, &d, f, (int64_t)store->job.fix_count + 1, remarks, err);
}

int sb_store_fix_use(struct sb_store *store, const char *who, int64_t id, bool used, const char *reason,
	struct sb_err *err)
{
	struct deed d = { 0 };
	struct fix_use use = { .fix = (int)id, .used = used };

	if (sb_deed_prepare(store, who, ACT_FIX_USE, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason", err))
		return -1;
	const struct fix *f = sb_job_fix(&store->job, id);
	if (f == NULL)
		return sb_fail(err, SB_MISSING, "There is no fix %lld.", (long long)id);
	if (f->used == used)
		return sb_fail(
			err, SB_STATE, "Fix %lld is %s already.", (long long)id, used ? "used" : "set aside");
	return enter(store, &d, &use, (int64_t)store->job.fix_use_count + 1, reason, err);
}

int sb_store_adjust(struct sb_store *store, const char *who, const struct adjustment *a, const char *reason,
	struct sb_err *err)
{
	struct deed d = { 0 };
	struct adjustment own = *a;

	if (sb_deed_prepare(store, who, ACT_ADJUST, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for the correction", err))
		return -1;
	if (!sb_number_given(&a->inclination) && !sb_number_given(&a->azimuth) &&
		!sb_number_given(&a->stretch))
		return sb_fail(err, SB_RANGE, "There is nothing to correct.");
	own.taken = 1;
	return enter(store, &d, &own, (int64_t)store->job.adjustment_count + 1, reason, err);
}

int sb_store_adjust_back(struct sb_store *store, const char *who, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct adjustment none = { .taken = 0 };

	if (sb_deed_prepare(store, who, ACT_ADJUST_BACK, &d, err) ||
		sb_deed_check_words(reason, SB_REMARK_TEXT, true, "The reason for taking it back", err))
		return -1;
	if (sb_job_adjustment(&store->job) == NULL)
		return sb_fail(err, SB_STATE, "No correction is in force that could be taken back.");
	return enter(store, &d, &none, (int64_t)store->job.adjustment_count + 1, reason, err);
}

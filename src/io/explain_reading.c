/* What a joint's reading says: where it was taken along the hole, and its two angles, from the tool to the
 * grid. */
#include "base/mem.h"
#include "geom/angle.h"
#include "io/links.h"
#include "io/rows.h"
#include "model/sixaxis.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

/* ---- depth ---- */

void explain_depth(struct explaining *x)
{
	size_t joint = x->trail_count - 1, tape = 0;
	char key[EXPLAIN_WHERE], where[EXPLAIN_WHERE];
	double sum = 0;

	explain_words(x, EXPLAIN_FORMULA,
		"bit depth = sum of the joints in the ground; survey depth = bit depth - d");
	if (joint == 0) {
		explain_result(x, "bit_depth", AS_LENGTH, 0, x->row->bit_md_m, "nothing is in the ground");
		explain_result(x, "survey_depth", AS_LENGTH, 0, x->row->survey_md_m,
			"the entry is where depths begin");
		explain_words(x, EXPLAIN_SOURCE, "measured along the pipe: the definition of measured depth");
		return;
	}
	explain_typed(x, "l", &x->r->joint_length, sb_unit_short(x->job->unit), "length of %s",
		explain_reading(x->row, x->r, where));
	if (joint > 1)
		explain_input(x, "D", AS_LENGTH, x->bit_depth_m[joint - 1],
			"the %zu joints before it, as typed", joint - 1);
	explain_input(x, "d", AS_LENGTH, x->then.sensor_to_bit_m, "sensor to bit: %s",
		explain_key(x, "tool", "sensor_to_bit", key));
	explain_result(x, "bit_depth", AS_LENGTH, x->bit_depth_m[joint], x->row->bit_md_m, "D + l");
	explain_result(x, "survey_depth", AS_LENGTH, explain_survey_depth(x, joint), x->row->survey_md_m,
		"of the sensor, to which the reading belongs%s",
		x->row->survey_md_m > 0 ? "" : "; it is still behind the entry, and the path is not moved");
	for (size_t i = 1; i <= joint; i++) {
		struct number tally = sb_job_tally(x->job, (int)i);
		sum += sb_frame_metres(&x->s->frame, tally.value);
		tape += sb_number_given(&tally);
	}
	if (tape == joint)
		explain_words(x, EXPLAIN_NOTE, "By tally and nominal length the joints would come to %s.",
			explain_value(x, AS_LENGTH, sum, key));
	explain_words(x, EXPLAIN_SOURCE, "measured along the pipe: the definition of measured depth");
}

/* ---- inclination ---- */

static const struct number *typed_inclination(const struct explaining *x)
{
	return x->r ? &x->r->inclination : &x->job->entry_inclination;
}

static const struct number *typed_azimuth(const struct explaining *x)
{
	return x->r ? &x->r->azimuth : &x->job->entry_azimuth;
}

/* At an entry that nobody staked: the first reading on the path stands for it. */
static void put_unstaked(struct explaining *x, bool azimuth)
{
	const struct path *p = &x->s->path;
	char where[EXPLAIN_WHERE];

	explain_words(x, EXPLAIN_NOTE,
		"Nothing was staked at the entry ([entry] is blank): until the first reading the design's heading stands for it, and then that reading's.");
	if (p->on_count < 2)
		return;
	const struct row *first = &p->rows[p->on_path[1]];
	const struct reading *r = sb_job_reading(x->job, first->reading);
	struct frame then;
	sb_frame_for(x->job, &x->s->frame, r, &then);
	explain_typed(x, "reading", azimuth ? &r->azimuth : &r->inclination,
		azimuth ? "deg" : sb_incline_mark(x->job->incline), "%s", explain_reading(first, r, where));
	double azi = r->azimuth_by == AZIMUTH_BY_HOLD
		? first->attitude.azi_rad
		: sb_frame_azi_by(&then, r->azimuth_by, r->azimuth.value);
	if (azimuth)
		explain_result(x, sb_path_columns[PATH_AZIMUTH].name, AS_NUMBER,
			sb_frame_azi_typed(&x->s->frame, azi),
			sb_frame_azi_typed(&x->s->frame, x->row->attitude.azi_rad),
			"as the tool of the next joint would read it (deg)");
	else
		explain_result(x, sb_path_columns[PATH_INCLINATION].name, AS_NUMBER,
			sb_frame_inc_typed(&x->s->frame, sb_frame_inc(&then, r->inclination.value)),
			sb_frame_inc_typed(&x->s->frame, x->row->attitude.inc_rad),
			"in the job's convention (%s)", sb_incline_mark(x->job->incline));
}

/* Says why there is no reading to explain; true when there is none. */
static bool unread(struct explaining *x, bool azimuth)
{
	if (sb_number_given(typed_inclination(x)) && x->row->taken)
		return false;
	if (x->row->joint == 0)
		put_unstaked(x, azimuth);
	else
		explain_words(x, EXPLAIN_NOTE,
			"Joint %d was drilled without a reading: the heading before it is carried over.",
			x->row->joint);
	return true;
}

/* What the six sensors say of an angle that stands in the row, where they were logged. */
static void check_sensors(struct explaining *x, const char *field)
{
	struct reading bare;
	struct number said;

	if (x->r == NULL || !sb_sixaxis_all(x->r))
		return;
	struct job then = sb_frame_settings(x->job, x->r);
	bare = *x->r;
	bare.inclination = bare.azimuth = (struct number){ 0 };
	if (sb_sixaxis_fill(&then, &bare, NULL))
		return;
	bool azimuth = sb_same(field, "azimuth");
	said = azimuth ? bare.azimuth : bare.inclination;
	explain_words(x, EXPLAIN_CHECK,
		"By its six sensors (gravity %s %s %s, field %s %s %s) the %s is %s; %s stands in the row.",
		x->r->gravity_x.text, x->r->gravity_y.text, x->r->gravity_z.text, x->r->field_x.text,
		x->r->field_y.text, x->r->field_z.text, field, said.text,
		azimuth ? x->r->azimuth.text : x->r->inclination.text);
}

void explain_inclination(struct explaining *x)
{
	static const char *const formulas[] = { "i = reading + c", "i = 90 + reading + c",
		"i = 90 + atan(reading / 100) + c" };
	static const char *const conventions[] = { "0 is straight down, 90 level",
		"0 is level, rising positive", "percent, rising positive" };
	enum incline as = x->job->incline;
	char where[EXPLAIN_WHERE];
	double typed = typed_inclination(x)->value, from_down;

	explain_words(x, EXPLAIN_FORMULA, "%s; i from straight down, 90 is level", formulas[as]);
	if (unread(x, false))
		return;
	explain_typed(x, "reading", typed_inclination(x), sb_incline_mark(as), "%s",
		explain_reading(x->row, x->r, where));
	explain_choice(
		x, "convention", sb_incline_name(as), "%s: [job] inclination, job sheet", conventions[as]);
	const struct adjustment *a = sb_job_adjustment(x->job);
	explain_input(x, "c", AS_ANGLE, x->then.inc_add_rad, "%s%s",
		a ? "the correction by fixes that is in force, taken by "
		  : "no correction by fixes is in force",
		a ? a->fact.who : "");
	explain_as_typed(x, sb_path_columns[PATH_INCLINATION].name, typed_inclination(x),
		"as it was read, and as files have it (%s)", sb_incline_mark(as));
	from_down = as == INCLINE_GRADE ? 90 + sb_deg(atan(typed / 100))
		: as == INCLINE_LEVEL	? 90 + typed
					: typed;
	explain_result(x, "i", AS_ANGLE, sb_rad(from_down) + x->then.inc_add_rad, x->row->attitude.inc_rad,
		"from straight down: what the path is laid with");
	check_sensors(x, "inclination");
	explain_words(x, EXPLAIN_SOURCE, "the job's convention; definition");
}

/* ---- azimuth ---- */

/* Each link that is used, as degrees that are added. */
static double add_links(struct explaining *x, const struct job *as)
{
	const struct adjustment *a = sb_job_adjustment(x->job);
	char key[EXPLAIN_WHERE];
	double sum = 0;

	if (as->reference == REFERENCE_BORE) {
		explain_input(x, "B", AS_ANGLE, sb_wrap_turn(x->then.design_bearing_rad),
			"grid bearing of the design's first tangent, of its two points: [control], alignment.csv");
		explain_typed(x, "b", &as->bore_azimuth_read, "deg",
			"what the tool read, laid on that line: %s",
			explain_key(x, "azimuth", "bore_azimuth_read", key));
		sum = x->then.design_bearing_rad - sb_rad(as->bore_azimuth_read.value);
	} else {
		explain_input(x, "t", AS_ANGLE, sb_rad(as->azimuth_correction.value), "tool correction: %s",
			explain_key(x, "tool", "azimuth_correction", key));
		sum = sb_rad(as->azimuth_correction.value);
	}
	if (as->reference == REFERENCE_MAGNETIC) {
		explain_typed(x, "d", &as->declination, "deg", "declination, east positive: %s",
			explain_key(x, "azimuth", "declination", key));
		sum += sb_rad(as->declination.value);
	}
	if (as->reference == REFERENCE_MAGNETIC || as->reference == REFERENCE_TRUE) {
		explain_typed(x, "g", &as->convergence, "deg",
			"grid north from true north, east positive: %s",
			explain_key(x, "azimuth", "convergence", key));
		sum -= sb_rad(as->convergence.value);
	}
	if (a) {
		explain_typed(x, "c", &a->azimuth, "deg", "the correction by fixes %s, taken by %s", a->fixes,
			a->fact.who);
		sum += sb_rad(a->azimuth.value);
	}
	return sum;
}

static const char *chain_formula(enum reference r)
{
	switch (r) {
	case REFERENCE_GRID:
		return "grid = reading + t + c";
	case REFERENCE_TRUE:
		return "grid = reading + t - g + c";
	case REFERENCE_MAGNETIC:
		return "grid = reading + t + d - g + c: to magnetic, + d to true, - g to grid";
	case REFERENCE_BORE:
		break;
	}
	return "grid = reading + (B - b) + c: what the tool read on the staked line stands for the line's bearing";
}

/* Read by gyro or coil, or held: the magnetic chain has no part in it. */
static double other_azimuth(struct explaining *x)
{
	char where[EXPLAIN_WHERE];
	size_t i = x->trail_count - 1;

	if (x->r->azimuth_by == AZIMUTH_BY_HOLD) {
		explain_words(
			x, EXPLAIN_FORMULA, "grid = azimuth of the reading before: the heading is held");
		explain_words(x, EXPLAIN_NOTE,
			"The azimuth of joint %d was not to be trusted (azimuth by hold): what the tool read, %s, is kept and not used.",
			x->row->joint, *x->r->azimuth.text ? x->r->azimuth.text : "nothing");
		return explain_attitude(x, i).azi_rad;
	}
	bool gyro = x->r->azimuth_by == AZIMUTH_BY_GYRO;
	explain_words(x, EXPLAIN_FORMULA,
		gyro ? "grid = reading - g: read by gyro, from true north"
		     : "grid = reading: by a surveyed coil, from grid north");
	explain_typed(x, "reading", &x->r->azimuth, "deg", "%s", explain_reading(x->row, x->r, where));
	if (gyro) {
		char key[EXPLAIN_WHERE];
		explain_input(x, "g", AS_ANGLE, x->then.convergence_rad, "grid north from true north: %s",
			explain_key(x, "azimuth", "convergence", key));
	}
	return sb_wrap_turn(sb_rad(x->r->azimuth.value) - (gyro ? x->then.convergence_rad : 0));
}

static void compare_ways(struct explaining *x, const struct job *as)
{
	double apart;

	if (!sb_frame_azimuth_disagrees(as, &x->then, &apart))
		return;
	explain_words(x, EXPLAIN_CHECK,
		"The tool on the staked line, turned by declination and convergence, lies %.2f deg %s of the line's bearing: two ways to one azimuth, %s.",
		fabs(apart), apart < 0 ? "left" : "right",
		fabs(apart) > SB_AZIMUTH_APART ? "too far apart to be both right (see the azimuth screen)"
					       : "near enough to one another");
}

void explain_azimuth(struct explaining *x)
{
	const struct reading entry = { .leg = 1, .joint = 0, .logged = 1 };
	struct job as = sb_frame_settings(x->job, x->r ? x->r : &entry);
	double grid, typed = typed_azimuth(x)->value;

	if (x->r && x->r->azimuth_by != AZIMUTH_BY_TOOL && x->row->taken) {
		grid = other_azimuth(x);
	} else {
		char where[EXPLAIN_WHERE];
		explain_words(x, EXPLAIN_FORMULA, "%s", chain_formula(as.reference));
		if (unread(x, true))
			return;
		explain_typed(
			x, "reading", typed_azimuth(x), "deg", "%s", explain_reading(x->row, x->r, where));
		double sum = add_links(x, &as);
		explain_step(x, "sum", AS_ANGLE, sb_wrap_half(sum), "added to what the tool shows");
		grid = sb_wrap_turn(sb_rad(typed) + sum);
	}
	if (sb_number_given(typed_azimuth(x)))
		explain_as_typed(x, sb_path_columns[PATH_AZIMUTH].name, typed_azimuth(x),
			"as it was read, and as files have it (deg)");
	explain_result(x, "grid", AS_ANGLE, grid, x->row->attitude.azi_rad,
		"clockwise from grid north: what the path is laid with");
	check_sensors(x, "azimuth");
	compare_ways(x, &as);
	explain_words(x, EXPLAIN_SOURCE,
		"true = magnetic + declination, grid = true - convergence: definitions of surveying");
}

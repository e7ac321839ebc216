/* The truth of a rehearsed bore, and drilling it.
 *
 * The true hole is a row of arcs of constant curvature, at most a quarter of a metre long each, so that the
 * ground may change anywhere. What the ground does there is the sum of three things: the slide, turned out of
 * the tool face that is shown by error and scatter; the drift while rotating; and the wander, which belongs
 * to the ground and not to the orders. What is drilled is what the log says: an order is first rounded as a
 * hand sets and writes it (a whole degree of tool face, a tenth of a foot or a hundredth of a metre slid).
 *
 * Chance is exact everywhere (chance.h). The path uses the machine's sines, which differ between machines in
 * the last bit, and the readings are rounded to what an instrument shows: only a reading that falls on the
 * edge of a digit to within 1e-12 could come out otherwise elsewhere.
 */
#include "model/rehearsal.h"

#include "base/mem.h"
#include "base/str.h"
#include "geom/angle.h"
#include "rehearsal_truth.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double step_m = 0.25;

/* ---- the hole ---- */

static void push_stand(struct rehearsal *r, const struct stand *s)
{
	r->stands = sb_grow(r->stands, r->stand_count, &r->stand_room, sizeof *r->stands);
	r->stands[r->stand_count++] = *s;
}

/* Goes on for length_m with a curvature (rad per m, up and right as seen looking ahead). */
static void bend_on(struct stand *s, double length_m, struct steer_pair curvature)
{
	struct vec3 t = s->heading;
	double level = sqrt(t.n * t.n + t.e * t.e),
	       k = sqrt(curvature.up * curvature.up + curvature.right * curvature.right);
	double n = level > 1e-9 ? t.n / level : 1, e = level > 1e-9 ? t.e / level : 0;
	struct vec3 up = { -t.u * n, -t.u * e, level }, right = { -e, n, 0 };
	double angle = k * length_m, half = angle / 2;

	s->md_m += length_m;
	if (k == 0) {
		s->at = sb_vec3_add(s->at, sb_vec3_scale(t, length_m));
		return;
	}
	struct vec3 way =
		sb_vec3_add(sb_vec3_scale(up, curvature.up / k), sb_vec3_scale(right, curvature.right / k));
	double along = sin(angle) / k, aside = 2 * sin(half) * sin(half) / k;
	s->at = sb_vec3_add(s->at, sb_vec3_add(sb_vec3_scale(t, along), sb_vec3_scale(way, aside)));
	struct vec3 h = sb_vec3_add(sb_vec3_scale(t, cos(angle)), sb_vec3_scale(way, sin(angle)));
	s->heading = sb_vec3_scale(h, 1 / sb_vec3_length(h));
}

/* Drills on to a depth, sliding towards a true face or rotating. */
static void drill_to(struct rehearsal *r, double to_m, bool sliding, double face_rad)
{
	struct stand s = r->stands[r->stand_count - 1];
	double length = to_m - s.md_m, begin = s.md_m;
	int steps = (int)ceil(length / step_m);
	double c = cos(face_rad), z = sin(face_rad);

	for (int i = 0; i < steps; i++) {
		double middle = begin + length * (i + 0.5) / steps;
		struct zone g = rehearsal_zone(r, middle);
		struct steer_pair k = rehearsal_wander(r, middle);
		k.up += sliding ? g.yield * c : -g.droop;
		k.right += sliding ? g.yield * z : g.walk;
		bend_on(&s, length / steps, k);
		push_stand(r, &s);
	}
}

/* ---- a joint ---- */

enum { MOST_PUSHES = 24 };
struct push {
	double from_m, to_m; /* within the joint */
};

/* Where in the joint the slide is made: one push at its start; several, each in the middle of its part of the
 * joint; or, when the hand has no habit, one to four anywhere in their parts. Pushes are not even to the
 * inch.
 */
static int lay_pushes(const struct rehearsal *r, double length_m, double slid_m, struct push *pushes)
{
	struct chance c = sb_chance_begin(r->seed, CHANCE_PUSH, r->drilled);
	bool habit = r->ground.pushes > 0;
	int count = habit ? r->ground.pushes : 1 + sb_chance_whole(&c, 4);
	double cell, shares[MOST_PUSHES], sum = 0, most = 0;

	if (slid_m <= 0)
		return 0;
	if (count > MOST_PUSHES)
		count = MOST_PUSHES;
	cell = length_m / count;
	for (int i = 0; i < count; i++)
		sum += shares[i] = sb_chance_between(&c, 0.7, 1.3);
	for (int i = 0; i < count; i++)
		most = fmax(most, slid_m * shares[i] / sum);
	for (int i = 0; i < count; i++) {
		double push = most > cell ? slid_m / count : slid_m * shares[i] / sum;
		double late = habit ? (count > 1 ? 0.5 : 0) : sb_chance_unit(&c);
		pushes[i].from_m = i * cell + late * (cell - push);
		pushes[i].to_m = fmin(pushes[i].from_m + push, length_m);
	}
	return count;
}

static void drill_joint(struct rehearsal *r, double length_m, double shown_rad, double slid_m)
{
	double begin = r->stands[r->stand_count - 1].md_m;
	struct chance c = sb_chance_begin(r->seed, CHANCE_FACE, r->drilled);
	struct push pushes[MOST_PUSHES];
	int count = lay_pushes(r, length_m, slid_m, pushes);
	double face = shown_rad + sb_rad(r->job.tool_face_offset.value) + r->ground.face_error_rad +
		r->ground.face_scatter_rad * sb_chance_normal(&c);

	for (int i = 0; i < count; i++) {
		drill_to(r, begin + pushes[i].from_m, false, 0);
		drill_to(r, begin + pushes[i].to_m, true, face);
	}
	drill_to(r, begin + length_m, false, 0);
}

/* Steel pulls the azimuth while the sensor passes it, most when nearest, and not at all past its reach. */
static double steel_pull(const struct rehearsal *r, struct vec3 at)
{
	double reach = r->ground.steel_reach_m;

	if (reach <= 0)
		return 0;
	double steel = r->ground.steel_at * r->design.length_m;
	double t = (sb_design_station(&r->design, at, steel, NULL) - steel) / reach,
	       left = fmax(1 - t * t, 0);
	return r->ground.steel_azi_rad * left * left;
}

/* What the display shows: one decimal, two where the job reads from level. */
static void take_reading(struct rehearsal *r, double bit_md_m, struct reading *out)
{
	int decimals = r->frame.incline == INCLINE_LEVEL ? 2 : 1;
	struct stand s = rehearsal_at(r, fmax(bit_md_m - r->frame.sensor_to_bit_m, 0));
	struct chance c = sb_chance_begin(r->seed, CHANCE_NOISE, r->drilled);
	double inc, azi;

	sb_vec3_attitude(s.heading, &inc, &azi);
	inc += r->ground.bias_inc_rad + r->ground.noise_inc_rad * sb_chance_normal(&c);
	azi += r->ground.bias_azi_rad + r->ground.noise_azi_rad * sb_chance_normal(&c) + steel_pull(r, s.at);
	inc = fmin(fmax(inc, 0), SB_PI);
	out->inclination = sb_number_of(sb_frame_inc_typed(&r->frame, inc), decimals);
	out->azimuth = sb_number_of(sb_frame_azi_typed(&r->frame, azi), decimals);
	if (out->azimuth.value >= 360)
		out->azimuth = sb_number_of(0, decimals);
}

/* Under the straight line from entry to exit. */
static double depth_of(const struct rehearsal *r, struct vec3 at)
{
	double entry = r->stands[0].at.u, exit = r->design.exit_elevation_m;
	double station = sb_design_station(&r->design, at, r->design.length_m / 2, NULL);

	return entry + (exit - entry) * station / r->design.length_m - at.u;
}

void sb_rehearsal_fix(const struct rehearsal *r, const struct fix_accuracy *accuracy, struct fix *out)
{
	double depth = fmax(r->stands[r->stand_count - 1].md_m - r->frame.sensor_to_bit_m, 0);
	struct chance c = sb_chance_begin(r->seed, CHANCE_FIX, r->drilled);
	struct vec3 at = rehearsal_at(r, depth).at;
	double up_m = fmax(accuracy->up_m, accuracy->up_of_depth * depth_of(r, at));
	struct number level = sb_number_of(sb_frame_typed(&r->frame, fmax(accuracy->level_m, 0.001)), 4);
	struct number up = sb_number_of(sb_frame_typed(&r->frame, fmax(up_m, 0.001)), 4);
	double easting, northing, elevation;

	at.n += accuracy->level_m * sb_chance_normal(&c);
	at.e += accuracy->level_m * sb_chance_normal(&c);
	at.u += up_m * sb_chance_normal(&c);
	sb_frame_grid(&r->frame, at, &easting, &northing, &elevation);
	*out = (struct fix){ .kind = FIX_COIL,
		.depth = sb_number_of(sb_frame_typed(&r->frame, depth), 3),
		.easting = sb_number_of(easting, 3),
		.northing = sb_number_of(northing, 3),
		.elevation = sb_number_of(elevation, 3),
		.sigma_along = level,
		.sigma_across = level,
		.sigma_up = up };
}

/* The length as the tally has it, where it is that. */
static struct number length_typed(const struct rehearsal *r, double length_m)
{
	struct number n = sb_job_tally(&r->job, (int)r->joint_count + 1);

	if (fabs(sb_frame_metres(&r->frame, n.value) - length_m) < 1e-9)
		return n;
	return sb_number_of(sb_frame_typed(&r->frame, length_m), 2);
}

static void write_order(
	const struct rehearsal *r, double length_m, double face_rad, double slid_m, struct reading *out)
{
	int decimals = r->job.unit == UNIT_M ? 2 : 1;

	*out = (struct reading){ .leg = r->leg, .joint = (int)r->joint_count + 1 };
	out->joint_length = length_typed(r, length_m);
	out->slid = sb_number_of(sb_frame_typed(&r->frame, fmax(slid_m, 0)), decimals);
	if (out->slid.value > out->joint_length.value)
		out->slid = out->joint_length;
	if (out->slid.value > 0)
		out->tool_face = sb_number_of(fmod(round(sb_deg(sb_wrap_turn(face_rad))), 360), 0);
	sb_copy(out->who, sizeof out->who, "rehearsal");
	snprintf(out->remarks, sizeof out->remarks, "REHEARSAL: no hole was drilled. Seed %llu.",
		(unsigned long long)r->seed);
}

void sb_rehearsal_drill(
	struct rehearsal *r, double length_m, double tool_face_rad, double slid_m, struct reading *out)
{
	write_order(r, length_m, tool_face_rad, slid_m, out);
	double length = sb_frame_metres(&r->frame, out->joint_length.value);
	double slid = sb_frame_metres(&r->frame, out->slid.value);
	drill_joint(r, length, sb_rad(out->tool_face.value), slid);
	struct rehearsed joint = {
		.length = out->joint_length,
		.bit_md_m = r->stands[r->stand_count - 1].md_m,
		.slid_m = slid,
		.stands = r->stand_count,
	};
	r->joints = sb_grow(r->joints, r->joint_count, &r->joint_room, sizeof *r->joints);
	r->joints[r->joint_count++] = joint;
	take_reading(r, joint.bit_md_m, out);
	r->drilled++;
}

void sb_rehearsal_withdraw(struct rehearsal *r, int to_joint)
{
	if (to_joint < 0 || (size_t)to_joint >= r->joint_count)
		return;
	r->joint_count = (size_t)to_joint;
	r->stand_count = to_joint ? r->joints[to_joint - 1].stands : 1;
	r->leg++;
}

/* ---- the whole ---- */

struct setup rehearsal_setup(const struct rehearsal *r)
{
	return (struct setup){ &r->job, &r->frame, &r->design, &r->corridor };
}

/* As the rig stands: as staked, or along the design. */
static void begin_hole(struct rehearsal *r)
{
	const struct job *job = &r->job;
	struct stand s = { .at = { 0, 0, sb_frame_metres(&r->frame, job->entry.elevation.value) } };

	s.heading = sb_design_at(&r->design, 0).heading;
	if (sb_number_given(&job->entry_inclination) && sb_number_given(&job->entry_azimuth))
		s.heading = sb_vec3_heading(sb_frame_inc(&r->frame, job->entry_inclination.value),
			sb_frame_azi(&r->frame, job->entry_azimuth.value));
	push_stand(r, &s);
}

/* The sheet without its log: everything is drilled afresh. */
static void copy_sheet(const struct job *from, struct job *to)
{
	struct job sheet = *from;

	sheet.reading_count = sheet.joint_count = sheet.in_ground = sheet.leg_count = sheet.act_count =
		sheet.acknowledgement_count = 0;
	sb_job_copy(&sheet, to);
}

struct rehearsal *sb_rehearsal_new(const struct job *job, const struct rehearsal_ground *ground,
	unsigned long long seed, bool vary, struct sb_err *err)
{
	struct rehearsal *r = sb_alloc(sizeof *r);
	struct solution s = { 0 };

	copy_sheet(job, &r->job);
	if (sb_solve(&r->job, &s, NULL, err)) {
		sb_rehearsal_free(r);
		return NULL;
	}
	r->frame = s.frame;
	r->design = s.design;
	r->corridor = s.corridor;
	memset(&s.design, 0, sizeof s.design);
	memset(&s.corridor, 0, sizeof s.corridor);
	sb_solution_clear(&s);
	r->ground = *ground;
	r->seed = seed;
	r->leg = 1;
	r->blended = 0.5;
	r->wander_cell = -1;
	if (vary)
		rehearsal_shift(r);
	begin_hole(r);
	return r;
}

void sb_rehearsal_free(struct rehearsal *r)
{
	if (r == NULL)
		return;
	sb_job_clear(&r->job);
	sb_design_clear(&r->design);
	sb_corridor_clear(&r->corridor);
	sb_free(r->stands);
	sb_free(r->joints);
	sb_free(r->zones);
	sb_free(r);
}

struct stand rehearsal_at(const struct rehearsal *r, double md_m)
{
	size_t low = 0, high = r->stand_count;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (r->stands[middle].md_m <= md_m)
			low = middle;
		else
			high = middle;
	}
	const struct stand *a = &r->stands[low];
	if (low + 1 == r->stand_count)
		return *a;
	const struct stand *b = a + 1;
	double t = (md_m - a->md_m) / (b->md_m - a->md_m);
	struct vec3 h = sb_vec3_add(sb_vec3_scale(a->heading, 1 - t), sb_vec3_scale(b->heading, t));
	return (struct stand){ md_m, sb_vec3_add(sb_vec3_scale(a->at, 1 - t), sb_vec3_scale(b->at, t)),
		sb_vec3_scale(h, 1 / sb_vec3_length(h)) };
}

/* A design that ends level comes out where the exit's station is passed (a shaft, a slope); any other where
 * the hole rises through the exit's elevation, in the second half. */
bool rehearsal_out(const struct rehearsal *r, struct stand *out, double *station_m)
{
	double length = r->design.length_m, up = r->design.exit_elevation_m;
	bool level = sb_design_at(&r->design, length).heading.u < 0.01;

	for (size_t i = 1; i < r->stand_count; i++) {
		const struct stand *a = &r->stands[i - 1], *b = &r->stands[i];
		double before = a->at.u - up, after = b->at.u - up, stations[2];
		if (!level && !(before < 0 && after >= 0))
			continue;
		for (int k = 0; k < 2; k++)
			stations[k] = sb_design_station(&r->design, a[k].at, length, NULL);
		if (level) {
			before = stations[0] - length;
			after = stations[1] - length;
		}
		if (!(before < 0 && after >= 0) || stations[1] < length / 2)
			continue;
		double t = -before / (after - before);
		*out = rehearsal_at(r, a->md_m + t * (b->md_m - a->md_m));
		*station_m = stations[0] + t * (stations[1] - stations[0]);
		return true;
	}
	return false;
}

void sb_rehearsal_true_response(const struct rehearsal *r, struct response *out)
{
	const struct rehearsal_ground *g = &r->ground;

	out->yield = out->guess_yield * g->yield_share;
	out->face_error_rad = g->face_error_rad;
	out->drift_up = -g->droop;
	out->drift_right = g->walk;
	sb_response_tell(out);
}

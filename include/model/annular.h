/* The annular pressure at a joint against what the ground bears there: measured where it was, estimated
 * beside it.
 *
 * Only what was measured can be a breach: an estimate (model/fluid.h, model/formation.h) says when to watch.
 */
#ifndef SB_MODEL_ANNULAR_H
#define SB_MODEL_ANNULAR_H

#include "model/fluid.h"
#include "model/formation.h"

struct annular {
	struct formation_place place; /* of the joint's reading */
	struct fluid_stage stage;
	struct fluid_pressure estimate;
	struct formation formation;
	double measured_pa; /* NAN: was not */
	bool judged; /* one is held against the other there (sb_formation_judged), and both are known */
};

/* While the joint of a row was drilled. r: its reading; NULL: none. */
struct annular sb_annular_pilot(
	const struct clearance_ask *ask, const struct row *row, const struct reading *r);
/* While a pass went through a joint, and while the joint was pulled out before the pipe's head. */
struct annular sb_annular_pass(const struct clearance_ask *ask, const struct pass_joint *j);
struct annular sb_annular_pull(const struct clearance_ask *ask, const struct pull_joint *j);
/* At any place, with nothing measured. */
struct annular sb_annular_at(const struct clearance_ask *ask, const struct fluid_stage *stage,
	const struct formation_place *place);

/* The pressure that counts: measured, else estimated; NAN: neither. As a share of the limit; NAN: not judged.
 */
double sb_annular_pressure(const struct annular *a);
double sb_annular_share(const struct annular *a);

/* Level, values (kPa or psi) and words. */
void sb_annular_judge(const struct setup *setup, const struct annular *a, int joint, struct verdict *out);

#endif

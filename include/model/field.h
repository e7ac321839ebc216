/* The gates: total gravity, total field and dip of a reading against what they must be at the site, and what
 * is likely the matter when they are not. The three do not depend on where the hole goes, so that a reading
 * that shows them right can be believed, and one that does not cannot be.
 *
 * What the gates cannot see: an error that leaves all three as they are, such as axes exchanged alike in
 * gravity and field, or steel along a level bore to magnetic east or west (model/disturbance.h).
 */
#ifndef SB_MODEL_FIELD_H
#define SB_MODEL_FIELD_H

#include "geom/sensor.h"
#include "model/tool_unit.h"

/* What a reading showed: totals, or vectors that the totals come from. */
struct field_reading {
	double gravity_g, field_nt, dip_rad; /* NAN: not shown */
	bool has_vectors;
	struct sensor_vectors vectors;		 /* g and nT, in our axes */
	const struct tool_unit *gravity, *field; /* what the numbers were taken for; the usual one if NULL */
};

/* Totals and dip of vectors in g and nT. A dip that vectors without length do not have is NAN. */
struct field_reading sb_field_reading(const struct sensor_vectors *v);

/* What it must show: of the model at the place (its sigma is a hundred and more nanotesla) or of a baseline
 * read on the site, away from steel. The sigmas take in the reading's own. */
struct field_reference {
	double gravity_g;
	double field_nt; /* NAN: not known; it must then be one that the earth has */
	double dip_rad;
	double sigma_field_nt, sigma_dip_rad;
};

/* How far off each may be; the contract's or the company's. */
struct field_gates {
	double gravity_share; /* of the reference */
	double field_nt, dip_rad;
};
/* 300 nT and 0.3 degrees are the trade's usual gates; 0.003 of gravity is common practice, no source. It asks
 * for the gravity of the latitude (sb_field_gravity_g): equator and pole differ by 0.0053. */
extern const struct field_gates sb_field_gates_usual;

/* No total field at the surface of the earth is less or more (World Magnetic Model 2025: 22,000 to 67,000
 * nT), with room for height and what the model does not know. */
#define SB_FIELD_LEAST 20000.0
#define SB_FIELD_MOST 70000.0

enum field_cause {
	CAUSE_NONE,	    /* all within the gates */
	CAUSE_GRAVITY_UNIT, /* gravity in another unit: `unit` */
	CAUSE_FIELD_UNIT,   /* field in another unit: `unit` */
	CAUSE_EXCHANGED,    /* gravity given as field, and field as gravity */
	CAUSE_GRAVITY_DEAD, /* an accelerometer that shows nothing: `axis`, or all (AXIS_ALL) */
	CAUSE_FIELD_DEAD,   /* a magnetometer likewise */
	CAUSE_MOVING,	    /* gravity off alone: moved or shaken while read */
	CAUSE_AXES,	    /* right in size, dip wrong: axes exchanged or reversed: `axes` */
	CAUSE_STEEL,	    /* gravity right, field or dip off */
	CAUSE_UNCLEAR,	    /* gravity and field off, and nothing explains both */
};
const char *sb_field_cause_word(enum field_cause cause); /* "steel near", "ok" */

#define AXIS_ALL 3

struct field_verdict {
	enum field_cause cause;
	double gravity_off_share, field_off_nt, dip_off_rad; /* reading less reference; NAN: not known */
	bool gravity_out, field_out, dip_out;		     /* beyond their gates */
	const struct tool_unit *unit;
	int axis; /* 0 x, 1 y, 2 z, AXIS_ALL */
	/* What would make all three right, done to the field (or, turned about, to gravity: dip cannot tell);
	 * the simplest that does. May be a mirror image. others: how many as simple would do it too. */
	struct sensor_axes axes;
	int others;
	char text[448]; /* one to three sentences: what, where, what to do; for CAUSE_NONE that all is well */
};

/* Purpose:  judges a reading by the gates and names the likely cause.
 * Given:    reading, reference, gates   all > 0 and finite, but for what is NAN
 * Returned: the verdict
 * Notes:    an order of suspicion, surest first: units (nothing else makes a total wrong by such a factor),
 *           a dead sensor (shows exactly 0, and what is missing from the total puts the dip right within a
 *           degree), moving, axes (totals right, dip off by over 3 degrees, and a signed permutation puts it
 *           right within its gate), steel. */
struct field_verdict sb_field_judge(const struct field_reading *reading,
	const struct field_reference *reference, const struct field_gates *gates);

/* Gravity at a place, in g. Given: latitude_rad geodetic, height_m above the ellipsoid (a few km at most).
 * Source: WGS 84 normal gravity, closed formula (NIMA TR8350.2, 3rd ed., 4-1), less 3.086e-6 m/s2 a metre.
 * The true figure differs from it by up to about 0.0002. */
double sb_field_gravity_g(double latitude_rad, double height_m);

#endif

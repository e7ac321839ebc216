/* The drilling fluid in the hole: the pressure around the pipe at any place of the bore, while the pilot is
 * drilled, while the hole is opened, and while the product pipe is pulled in.
 *
 * An estimate, for the engineer to verify: the fluid's own weight, and what it takes to push a Bingham
 * plastic (geom/bingham.h) along a clean round hole with the pipe in its middle. Cuttings that lie in the
 * hole, ground that has closed on the pipe, a pipe that turns or surges are not in it.
 */
#ifndef SB_MODEL_FLUID_H
#define SB_MODEL_FLUID_H

#include "geom/bingham.h"
#include "model/design.h"

/* What of an estimate is there. */
enum fluid_known {
	FLUID_KNOWN,
	FLUID_NO_WEIGHT,    /* of the fluid: nothing can be said. In all others its own weight alone counts */
	FLUID_NO_VISCOSITY, /* plastic viscosity or yield point */
	FLUID_NO_HOLE,	    /* the hole's size */
	FLUID_NO_PIPE,	    /* the size of the pipe in it */
	FLUID_NO_ROOM,	    /* the pipe fills the hole */
	FLUID_NO_FLOW,	    /* what is pumped */
};
/* What is missing and what follows, in a sentence; "" for FLUID_KNOWN. */
const char *sb_fluid_known_words(enum fluid_known known);

/* A side of the tool to which the fluid may come back. */
struct fluid_side {
	bool open;
	enum fluid_known known;
	double level_m;		  /* elevation where it comes out */
	struct annulus annulus;	  /* 0 where not known */
	struct bingham_loss loss; /* all 0 unless FLUID_KNOWN, and at rest */
};

enum fluid_stage_kind { STAGE_PILOT, STAGE_PASS, STAGE_PULL };

/* What is in the hole, and what is pumped. */
struct fluid_stage {
	enum fluid_stage_kind kind;
	int pass;	     /* its number; 0: none, or the one that the sheet's final diameter asks for */
	double hole_m;	     /* radius of the hole around the tool; 0: not known */
	double flow_m3s;     /* NAN: not known */
	double density_kgm3; /* of what comes back; NAN: not known */
	double length_m;     /* of the bore, for the way to the exit */
	struct fluid_side entry, exit;
	char name[80]; /* "pass 2, to 24 in" */
};

/* Flow in the job's unit; not given (or NULL): the sheet's. length_m: of the bore from end to end.
 * Pilot: the fluid comes back to the entry. Pass: before the tool the hole is as the pass before left it,
 * behind it as wide as the tool, with drill pipe in both; number 0: one that opens the pilot hole to the
 * sheet's final diameter. Pull: the hole as the last pass of a reamer left it, or the sheet's final one;
 * drill pipe before the head, product pipe behind it. Passes that are struck out do not count. */
struct fluid_stage sb_fluid_pilot(const struct job *job, const struct frame *f, const struct number *flow);
struct fluid_stage sb_fluid_pass(
	const struct job *job, const struct frame *f, int pass, const struct number *flow, double length_m);
struct fluid_stage sb_fluid_pull(
	const struct job *job, const struct frame *f, const struct number *flow, double length_m);

/* The pressure around the tool. The fluid takes the easier way: that of less pressure. */
struct fluid_pressure {
	enum fluid_known known;
	bool to_exit;
	double weight_pa; /* of the column from where it comes out; 0 above that */
	double loss_pa;
	double total_pa; /* of both; NAN with FLUID_NO_WEIGHT */
};
struct fluid_pressure sb_fluid_pressure(const struct fluid_stage *s, double md_m, double elevation_m);

/* Fluid that weighs less than water, as the sheet has it. */
bool sb_fluid_light(const struct job *job);

#endif

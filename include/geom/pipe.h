/* A round pipe: its section, its weight in air and in fluid, and how stiff it is.
 *
 * SI: metres, kg/m3, Pa, N, N/m. Weights are per length, down positive: a pipe that floats has a negative
 * one.
 */
#ifndef SB_GEOM_PIPE_H
#define SB_GEOM_PIPE_H

#define SB_GRAVITY 9.80665 /* m/s2, standard */
#define SB_WATER 1000.0	   /* kg/m3: fresh water that fills the pipe */

enum pipe_status {
	PIPE_OK = 0,
	PIPE_THICK = -1, /* the wall takes half the diameter or more: there is no bore */
	PIPE_RANGE = -2, /* a size, density or modulus that is not positive and finite; a coating that is
			    negative or not finite */
};

struct pipe_given {
	double outside_m, wall_m;
	double density; /* of the pipe's material */
	double modulus_pa;
	double coating_m, coating_density; /* 0: none */
};

struct pipe_section {
	double outside_m, wall_m, inside_m;
	double outer_m;		      /* over the coating */
	double area_m2, bore_m2;      /* of the wall, without coating; of the inside */
	double displaced_m2;	      /* of the outer circle */
	double inertia_m4, stiffness; /* second moment of the wall; times the modulus: N m2 */
	double modulus_pa, air_n_m;   /* weight in air, empty, coating and all */
};

/* Given:    g
 * Returned: out, unchanged unless PIPE_OK
 * Source:   A = pi (D^2 - d^2) / 4, I = pi (D^4 - d^4) / 64. */
enum pipe_status sb_pipe_section(const struct pipe_given *g, struct pipe_section *out);

/* Weight per length: in air, less the fluid that it displaces (Archimedes), and the water inside.
 * Given:    fluid              density of what it lies in, kg/m3
 *           in_fluid, filled   shares of its length, 0..1 */
double sb_pipe_weight(const struct pipe_section *p, double fluid, double in_fluid, double filled);

/* The largest stress of bending to a radius, Pa: E D / (2 R); 0 where straight (HUGE_VAL). */
double sb_pipe_bending(const struct pipe_section *p, double radius_m);

/* ---- checks: each what is there over what is allowed; over 1 it is not kept ---- */

enum pipe_check { CHECK_TENSION, CHECK_BENDING, CHECK_HOOP, CHECK_TENSION_BENDING, CHECK_ALL, PIPE_CHECKS };

/* What steel is allowed, Pa: tension 0.9 Fy; bending Fb by D/t; hoop buckling Fhc by the elastic
 * Fhe = 0.88 E (t/D)^2, divided by 1.5.
 * Given:    yield_pa   > 0
 * Notes:    the breaks of the code's own stepwise formulas leave small jumps. D/t over 300 is outside it:
 *           then bending is as at 300, and `outside` says so.
 * Source:   API RP 2A-WSD, 3.2, as the PRCI design guide L51730 takes it; from memory. */
struct steel_allows {
	double tension_pa, bending_pa, hoop_pa, hoop_critical_pa;
	int outside; /* D/t over 300 */
};
struct steel_allows sb_pipe_steel_allows(const struct pipe_section *p, double yield_pa);

/* Given:    tension_n, bending_pa, pressure_pa   external over internal; what presses outwards counts as 0
 *           poisson
 * Returned: ratio[PIPE_CHECKS]: tension, bending, hoop, ft/0.9Fy + fb/Fb, and A^2 + B^2 + 2 v |A| B with
 *           A = 1.25 (ft + fb - 0.5 fh)/Fy, B = 1.5 fh/Fhc. */
void sb_pipe_steel_checks(const struct pipe_section *p, double yield_pa, double poisson, double tension_n,
	double bending_pa, double pressure_pa, double ratio[PIPE_CHECKS]);

/* Polyethylene under outside pressure: Pa at which it buckles.
 *   Pcr = 2 E / (1 - v^2) (1 / (DR - 1))^3 fo fr
 *   fo = ((1 - d) / (1 + d)^2)^3
 *   fr = sqrt(5.57 - (r + 1.09)^2) - 1.09, r = tension / (2 pull_stress); in 0..1
 * Given:    ovality          share by which it is out of round (0.02: two hundredths)
 *           tension_pa       in the wall; below 0 counts as 0
 *           pull_stress_pa   the safe one for the pull's duration and temperature, > 0
 * Notes:    the modulus must be the one for the time that the pressure lasts. No factor of safety in it.
 * Source:   fo as for liners (ASTM F1216, appendix X1); fr PPI handbook, chapter 12; both from memory. */
double sb_pipe_pe_buckles(const struct pipe_section *p, double poisson, double ovality, double tension_pa,
	double pull_stress_pa);
double sb_pipe_pe_ovality(double ovality);
double sb_pipe_pe_tension(double tension_pa, double pull_stress_pa);

#endif

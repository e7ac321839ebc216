/* What map and magnetic model say of a job's place, and how the job's own figures stand beside it: what its
 * sheet says of declination, convergence and scale, and what the tool read on the staked line.
 *
 * The job computes with its own figures. What is found here judges them, and is not needed for anything else:
 * where map or model cannot answer, that is a sentence.
 */
#ifndef SB_IO_SITE_H
#define SB_IO_SITE_H

#include "io/earth.h"
#include "model/azimuth.h"

#define SB_SITE_TEXT 400

/* How far apart two figures may be that are meant to be one.  Source: common practice, no source; 0.05
 * degrees are 0.9 in a thousand of length across, 2e-5 are 20 mm in a kilometre. */
#define SB_SITE_CONVERGENCE_APART 0.05
#define SB_SITE_SCALE_APART 2e-5

struct site {
	int64_t ms;			/* the moment that the model was asked for */
	bool mapped, magnetic;		/* the map, and the model, have answered */
	bool local;			/* the job's coordinates are nowhere on earth */
	char map_says[SB_SITE_TEXT];	/* why not; a sentence. "" when it has */
	char magnet_says[SB_SITE_TEXT]; /* likewise */
	char system[SB_CRS_TEXT + 20];	/* "EPSG:2278, NAD83 / Texas South Central (ftUS)" */
	char table[48];			/* of systems */
	struct crs_point grid;		/* at the entry */
	double combined;		/* mean of both ends */
	struct magnet magnet;		/* at the entry */
	/* What makes map or compass unfit here, of either end. How well datums are known is no matter here.
	 */
	char warnings[SB_EARTH_WARNINGS][SB_CRS_WARNING_TEXT];
	size_t warning_count;
};

void sb_site_find(const struct job *job, int64_t ms, struct site *out);

/* Two figures that are meant to be one. */
enum held {
	HELD_DECLINATION, /* the job's and the model's */
	HELD_CONVERGENCE, /* the job's and the map's */
	HELD_SCALE,	  /* the job's and the map's */
	HELD_LINE, /* the tool on the staked line, turned by the job's chain, and the design's bearing */
	HELD_LINE_FOUND, /* the same, turned by model and map */
	HELD_COUNT
};

struct comparison {
	const char *label; /* "declination" */
	const char *key;   /* of the sheet: section azimuth */
	bool known;	   /* both are there */
	enum level level;  /* LEVEL_OK, LEVEL_WATCH; LEVEL_OK when not known */
	double apart;	   /* degrees; of the scale a ratio; >= 0 */
	char words[SB_SITE_TEXT];
};

/* Given:    as   the job with the settings in force (sb_frame_settings); f  its frame; s  NULL: not asked */
void sb_site_compare(
	const struct job *as, const struct frame *f, const struct site *s, struct comparison out[HELD_COUNT]);

/* Warnings for those who make a job: what disagrees, where the map does not fit, and, once, that it could not
 * be asked. Nothing is added for a local job. */
void sb_site_warn(const struct job *job, const struct site *s, struct sb_problems *problems);

#endif

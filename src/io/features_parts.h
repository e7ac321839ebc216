/* Between the files of the walk: how a feature is added, and who walks over what. */
#ifndef SB_SRC_IO_FEATURES_PARTS_H
#define SB_SRC_IO_FEATURES_PARTS_H

#include "io/features.h"

struct walk {
	const struct job *job;
	const struct solution *s;
	enum feature_plane plane;
	double near_m; /* the station of the place before: which foot is meant where two are */
	struct features *out;
};

/* A feature of that layer; then its places, and a value for each field of its layer, in their order. */
void features_begin(struct walk *w, enum feature_layer layer);
void features_put_place(struct walk *w, struct vec3 at);
void features_put_number(struct walk *w, double value);		 /* blank if not finite */
void features_put_length(struct walk *w, double metres);	 /* likewise */
void features_put_typed(struct walk *w, const struct number *n); /* blank if not given */
void features_put_text(struct walk *w, const char *text);
void features_put_time(struct walk *w, int64_t ms);

/* src/io/features_sorts.c */
void features_lay_out(struct features *f);
/* src/io/features_path.c: as drilled and as withdrawn, and every joint */
void features_path(struct walk *w);
/* src/io/features_design.c: design line, corridor, ground */
void features_design(struct walk *w);
/* src/io/features_marks.c: obstacles, fixes, non-conformances, releases */
void features_marks(struct walk *w);

#endif

/* What a map or a drawing of the crossing shows, as layers of points and lines with attributes: one walk for
 * every format that other programs open, so that a layer or an attribute is added in one place.
 *
 * Places lie on the map: grid coordinates in the job's unit, e, n, and z the elevation. Or they lie in the
 * profile: e the station, n the elevation, z 0; what has no meaning there is left out. Attributes are lengths
 * in the job's unit and degrees, signed as the columns of `path --csv` are.
 */
#ifndef SB_IO_FEATURES_H
#define SB_IO_FEATURES_H

#include "io/format.h"
#include "io/rows.h"

enum feature_layer {
	LAYER_PATH,	 /* the as-drilled path, a line a leg, one vertex a joint */
	LAYER_JOINTS,	 /* where each joint was read */
	LAYER_DESIGN,	 /* the design line */
	LAYER_CORRIDOR,	 /* what the contract allows, a line a side */
	LAYER_GROUND,	 /* original ground and river bed along the alignment */
	LAYER_OBSTACLES, /* what the bore must keep clear of */
	LAYER_FIXES,	 /* independent positions */
	LAYER_NONCONFORMANCES,
	LAYER_RELEASES, /* drilling fluid that came to the surface */
	LAYERS
};

enum feature_geometry { GEOMETRY_POINT, GEOMETRY_LINE, GEOMETRY_ANY };

struct feature_field {
	const char *name;
	enum { FEATURE_TEXT, FEATURE_WHOLE, FEATURE_REAL } type;
	const char *help;
};

struct feature_sort {
	const char *name; /* "joints": lower case, no blanks */
	enum feature_geometry geometry;
	const char *help;
	const struct feature_field *fields;
	size_t field_count;
};

struct feature_value {
	bool given;
	double number;	  /* of whole and real */
	const char *text; /* of text: owned by the features */
};

struct feature_place {
	double e, n, z;
};

struct feature {
	enum feature_layer layer;
	size_t first, count; /* into places; 0: it has no place (a joint that was not read) */
	size_t values;	     /* into values: one a field of its layer */
};

#define SB_FEATURE_FIELDS (PATH_COLUMNS + 12)

struct features {
	struct feature_sort sorts[LAYERS];
	struct feature_field joint_fields[SB_FEATURE_FIELDS];
	struct feature_place *places;
	size_t place_count, place_room;
	struct feature_value *values;
	size_t value_count, value_room;
	char **texts;
	size_t text_count, text_room;
	struct feature *list; /* in order of layer */
	size_t count, room;
};

enum feature_plane { PLANE_MAP, PLANE_PROFILE };

/* sb_features_clear when done. */
void sb_features_make(const struct export *e, enum feature_plane plane, struct features *out);
void sb_features_clear(struct features *f);

#endif

/* The layers and their fields: a layer or an attribute is added here, and where its file puts a value. */
#include "io/features.h"

#include <string.h>

#include "features_parts.h"

static const struct feature_field path_fields[] = {
	{ "leg", FEATURE_WHOLE, "1 until the string was pulled back to redrill, then 2 ..." },
	{ "standing", FEATURE_TEXT,
		"path: as it lies in the ground; withdrawn: pulled back, and drilled again" },
	{ "from_joint", FEATURE_WHOLE, "the joint that its first vertex is at; 0 is the entry" },
	{ "to_joint", FEATURE_WHOLE, "that of its last" },
	{ "length", FEATURE_REAL, "along the hole" },
};
static const struct feature_field design_fields[] = {
	{ "length", FEATURE_REAL, "horizontal, along the alignment" },
};
static const struct feature_field corridor_fields[] = {
	{ "side", FEATURE_TEXT, "up, down, left or right of the design line, looking from entry to exit" },
};
static const struct feature_field ground_fields[] = {
	{ "from_station", FEATURE_REAL, "where it begins" },
	{ "to_station", FEATURE_REAL, "where it ends" },
};
static const struct feature_field obstacle_fields[] = {
	{ "name", FEATURE_TEXT, "as the job sheet has it" },
	{ "kind", FEATURE_TEXT, "what it is" },
	{ "diameter", FEATURE_REAL, "the largest of its points" },
	{ "clearance", FEATURE_REAL, "to keep from it, wall to wall; the largest of its points" },
	{ "kept", FEATURE_REAL,
		"least distance from the hole as drilled, wall to wall; blank: none drilled" },
	{ "kept_accuracy", FEATURE_REAL, "give or take of it, at the job's confidence" },
	{ "kept_joint", FEATURE_WHOLE, "the joint where it is least" },
	{ "kept_chance", FEATURE_REAL, "that less than the clearance is kept, 0 to 1" },
	{ "kept_level", FEATURE_TEXT, "ok, watch or breach" },
};
static const struct feature_field fix_fields[] = {
	{ "fix", FEATURE_WHOLE, "its number" },
	{ "kind", FEATURE_TEXT, "what gave it" },
	{ "depth", FEATURE_REAL, "along the hole" },
	{ "verdict", FEATURE_TEXT, "whether it agrees with the path, or why it is not held against it" },
	{ "off_along", FEATURE_REAL, "fix less path, along the design line; blank: not observed" },
	{ "off_across", FEATURE_REAL, "likewise to the right" },
	{ "off_up", FEATURE_REAL, "likewise up" },
	{ "sigma_along", FEATURE_REAL, "one sigma of the fix" },
	{ "sigma_across", FEATURE_REAL, "likewise" },
	{ "sigma_up", FEATURE_REAL, "likewise" },
	{ "who", FEATURE_TEXT, "entered it" },
	{ "time", FEATURE_TEXT, "when, UTC" },
	{ "words", FEATURE_TEXT, "what was said of it" },
};
static const struct feature_field breach_fields[] = {
	{ "number", FEATURE_WHOLE, "of the list of non-conformances" },
	{ "kind", FEATURE_TEXT, "which limit" },
	{ "leg", FEATURE_WHOLE, "where it began" },
	{ "from_joint", FEATURE_WHOLE, "where it began" },
	{ "to_joint", FEATURE_WHOLE, "where it ended" },
	{ "worst_joint", FEATURE_WHOLE, "where this point is" },
	{ "station", FEATURE_REAL, "of the worst joint" },
	{ "value", FEATURE_REAL, "at the worst joint" },
	{ "limit_value", FEATURE_REAL, "what is allowed" },
	{ "disposition", FEATURE_TEXT, "open, accepted or redrilled" },
	{ "disposition_words", FEATURE_TEXT, "by whom, with which reference" },
	{ "words", FEATURE_TEXT, "what was broken" },
};
static const struct feature_field release_fields[] = {
	{ "release", FEATURE_WHOLE, "its number" },
	{ "station", FEATURE_REAL,
		"as entered; blank: at the bit, or at a tool, and then it has no place here" },
	{ "joint", FEATURE_WHOLE, "how far the bore was drilled then" },
	{ "volume", FEATURE_REAL, "m3 or gal" },
	{ "place", FEATURE_TEXT, "where it came up, in words" },
	{ "receiving", FEATURE_TEXT, "what it ran into" },
	{ "told", FEATURE_TEXT, "who was told, and when" },
	{ "done", FEATURE_TEXT, "how it was contained and cleaned up" },
	{ "missing", FEATURE_TEXT, "of this record; blank: it is whole" },
	{ "who", FEATURE_TEXT, "entered it" },
	{ "time", FEATURE_TEXT, "when, UTC" },
};
/* Beside the columns of the path. Accuracy as utility records ask for it: at the job's confidence. */
static const struct feature_field more_joint_fields[] = {
	{ "standing", FEATURE_TEXT, "path, withdrawn, or entry" },
	{ "accuracy_horizontal", FEATURE_REAL,
		"give or take at the job's confidence: the larger of along and across" },
	{ "accuracy_vertical", FEATURE_REAL, "likewise of the elevation" },
	{ "accuracy_percent", FEATURE_REAL, "that confidence" },
	{ "who", FEATURE_TEXT, "logged it" },
	{ "time", FEATURE_TEXT, "when, UTC" },
	{ "remarks", FEATURE_TEXT, "" },
};

#define FIELDS(f) (f), sizeof(f) / sizeof *(f)

void features_lay_out(struct features *f)
{
	const struct feature_sort sorts[LAYERS] = {
		[LAYER_PATH] = { "path", GEOMETRY_LINE, "the bore as drilled, a line a leg",
			FIELDS(path_fields) },
		[LAYER_JOINTS] = { "joints", GEOMETRY_POINT, "where each joint was read", f->joint_fields,
			PATH_COLUMNS + sizeof more_joint_fields / sizeof *more_joint_fields },
		[LAYER_DESIGN] = { "design", GEOMETRY_LINE, "the design line", FIELDS(design_fields) },
		[LAYER_CORRIDOR] = { "corridor", GEOMETRY_LINE,
			"what the contract allows beside the design line", FIELDS(corridor_fields) },
		[LAYER_GROUND] = { "ground", GEOMETRY_LINE,
			"original ground and river bed along the alignment", FIELDS(ground_fields) },
		[LAYER_OBSTACLES] = { "obstacles", GEOMETRY_ANY, "what the bore must keep clear of",
			FIELDS(obstacle_fields) },
		[LAYER_FIXES] = { "fixes", GEOMETRY_POINT, "independent positions", FIELDS(fix_fields) },
		[LAYER_NONCONFORMANCES] = { "nonconformances", GEOMETRY_POINT,
			"every breach of a limit, at its worst joint", FIELDS(breach_fields) },
		[LAYER_RELEASES] = { "releases", GEOMETRY_POINT,
			"drilling fluid that came to the surface, on the ground over the line",
			FIELDS(release_fields) },
	};

	memcpy(f->sorts, sorts, sizeof sorts);
	for (size_t i = 0; i < PATH_COLUMNS; i++)
		f->joint_fields[i] = (struct feature_field){ sb_path_columns[i].name,
			i == PATH_JOINT || i == PATH_LEG ? FEATURE_WHOLE : FEATURE_REAL,
			sb_path_columns[i].help };
	memcpy(f->joint_fields + PATH_COLUMNS, more_joint_fields, sizeof more_joint_fields);
}

/* The shape of a job file. The steps are the schema: a new file is made by all of them, an old one by those
 * that it lacks, and what a file of some version must look like is known by making one in memory.
 *
 * The comments inside the statements are kept by SQLite with the tables, so that a stranger with any SQLite
 * tool can read what every table and column means. tests/store/schema.sql keeps the result for reading.
 *
 * A step is never changed once a release has it; new ones go to the end.
 */
#include "store/schema.h"

#include "base/str.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>

/* A number as it was typed, so that 12.30 stays 12.30; CAST(x AS REAL) gives its value. */
#define TYPED(column) \
	column " TEXT CHECK (" column " NOT GLOB '*[^-0-9.]*' AND length(" column ") BETWEEN 1 AND 23)"

/* Facts only grow. The third trigger stands against INSERT OR REPLACE, which runs no DELETE trigger unless
 * the connection asks for it (https://www.sqlite.org/lang_conflict.html). */
#define ONLY_GROWS(table, known) \
	"CREATE TRIGGER " table "_is_not_changed BEFORE UPDATE ON " table "\n" \
	"BEGIN SELECT RAISE(ABORT, '" table ": what was written is never changed'); END;\n" \
	"CREATE TRIGGER " table "_is_not_deleted BEFORE DELETE ON " table "\n" \
	"BEGIN SELECT RAISE(ABORT, '" table ": what was written is never deleted'); END;\n" \
	"CREATE TRIGGER " table "_is_not_replaced BEFORE INSERT ON " table "\n" \
	"WHEN EXISTS (SELECT 1 FROM " table " WHERE " known ")\n" \
	"BEGIN SELECT RAISE(ABORT, '" table ": what was written is never replaced'); END;\n"

/* clang-format off */
static const char *const version_1[] = {
	"PRAGMA application_id = 1396854610", /* SB_SCHEMA_ID */
	"PRAGMA user_version = 1",

	"CREATE TABLE act (\n"
	"\t-- One act of one person: who did what, and when. Every fact in the other tables came with an act.\n"
	"\t-- Facts (act, setting, the seven tables of the job sheet, reading, leg, acknowledgement) are only\n"
	"\t-- ever added; a correction is a new row. The table journal proves it. path and warning are computed.\n"
	"\tid INTEGER PRIMARY KEY, -- 1, 2, 3 ... in the order of time\n"
	"\tuid TEXT NOT NULL UNIQUE CHECK (length(uid) = 32), -- made before writing, so that no act is entered twice\n"
	"\tkind TEXT NOT NULL, -- new, log, correct, withdraw, note, acknowledge, shift-begin, shift-end\n"
	"\tat TEXT NOT NULL CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T*Z'), -- UTC\n"
	"\tutc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -900 AND 900), -- minutes that local time was ahead of UTC\n"
	"\twho TEXT NOT NULL CHECK (length(who) BETWEEN 1 AND 63),\n"
	"\tleg INTEGER NOT NULL CHECK (leg >= 1), -- where the bore was, or what the act is about\n"
	"\tjoint INTEGER NOT NULL CHECK (joint >= 0), -- likewise; 0 is the entry\n"
	"\twords TEXT CHECK (length(words) BETWEEN 1 AND 511) -- the reason, the note, the names or remarks of a shift\n"
	") STRICT;",
	ONLY_GROWS("act", "id = NEW.id OR uid = NEW.uid"),

	"CREATE TABLE setting (\n"
	"\t-- The keys of the job sheet, as written there. A key that is not here was left out.\n"
	"\t-- Lengths are in the unit that section job, key unit says (m, ft: international, ftUS: US survey).\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tsection TEXT NOT NULL,\n"
	"\tkey TEXT NOT NULL,\n"
	"\tvalue TEXT NOT NULL\n"
	") STRICT;",
	ONLY_GROWS("setting", "id = NEW.id"),

	"CREATE TABLE alignment (\n"
	"\t-- Horizontal points of intersection of the design, from entry to exit; none: a straight line.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\t" TYPED("easting") " NOT NULL,\n"
	"\t" TYPED("northing") " NOT NULL,\n"
	"\t" TYPED("radius") " -- of the curve at this point\n"
	") STRICT;",
	ONLY_GROWS("alignment", "id = NEW.id"),

	"CREATE TABLE profile (\n"
	"\t-- Vertical points of intersection of the design, from entry to exit.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\t" TYPED("station") " NOT NULL, -- horizontal distance along the alignment from the entry\n"
	"\t" TYPED("elevation") " NOT NULL,\n"
	"\t" TYPED("radius") " -- of the curve at this point\n"
	") STRICT;",
	ONLY_GROWS("profile", "id = NEW.id"),

	"CREATE TABLE corridor (\n"
	"\t-- How far from the design line the contract allows the bore, by ranges of station; what is NULL is as\n"
	"\t-- in the settings of section corridor. Left and right as seen from entry to exit.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\t" TYPED(
	"\"from\"") " NOT NULL, -- station\n"
	"\t" TYPED(
	"\"to\"") " NOT NULL, -- station\n"
	"\t" TYPED(
	"up") ",\n"
	"\t" TYPED(
	"down") ",\n"
	"\t" TYPED(
	"\"left\"") ",\n"
	"\t" TYPED(
	"\"right\"") "\n"
	") STRICT;",
	ONLY_GROWS("corridor", "id = NEW.id"),

	"CREATE TABLE ground (\n"
	"\t-- Original ground and river bed along the alignment.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\t" TYPED("station") " NOT NULL,\n"
	"\t" TYPED("elevation") " NOT NULL\n"
	") STRICT;",
	ONLY_GROWS("ground", "id = NEW.id"),

	"CREATE TABLE obstacles (\n"
	"\t-- What the bore must keep clear of; two or more rows of one name make a line.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tname TEXT NOT NULL,\n"
	"\tkind TEXT,\n"
	"\t" TYPED(
	"easting") " NOT NULL,\n"
	"\t" TYPED(
	"northing") " NOT NULL,\n"
	"\t" TYPED(
	"elevation") " NOT NULL, -- of its centre\n"
	"\t" TYPED(
	"diameter") ",\n"
	"\t" TYPED(
	"clearance") " -- distance to keep, wall to wall\n"
	") STRICT;",
	ONLY_GROWS("obstacles", "id = NEW.id"),

	"CREATE TABLE tally (\n"
	"\t-- Measured lengths of the joints of drill pipe.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tjoint INTEGER NOT NULL,\n"
	"\t" TYPED("length") " NOT NULL\n"
	") STRICT;",
	ONLY_GROWS("tally", "id = NEW.id"),

	"CREATE TABLE soil (\n"
	"\t-- Layers of ground along the bore. Strength: kN/m3 and kPa where the unit is m, lb/ft3 and psi in feet.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\t" TYPED(
	"\"from\"") " NOT NULL, -- station\n"
	"\t" TYPED(
	"\"to\"") " NOT NULL, -- station\n"
	"\t" TYPED(
	"top") " NOT NULL, -- elevation\n"
	"\tname TEXT NOT NULL,\n"
	"\t" TYPED(
	"unit_weight") ",\n"
	"\t" TYPED(
	"cohesion") ",\n"
	"\t" TYPED(
	"friction") ", -- degrees\n"
	"\t" TYPED(
	"shear_modulus") ",\n"
	"\t" TYPED(
	"ground_water") " -- elevation\n"
	") STRICT;",
	ONLY_GROWS("soil", "id = NEW.id"),

	"CREATE TABLE reading (\n"
	"\t-- One joint of drill pipe as it was logged: what the hand typed and the instruments said, as typed.\n"
	"\t-- NULL: not said. Lengths in the job's unit, inclination in the job's convention (setting: section job,\n"
	"\t-- key inclination: down is 0 straight down and 90 level; level is 0 level, rising positive; grade is percent).\n"
	"\t-- Who, when and why: the row of act.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tcorrects INTEGER REFERENCES reading (id), -- the reading that this one replaces\n"
	"\tleg INTEGER NOT NULL CHECK (leg >= 1), -- 1 until the string is pulled back to redrill, then 2 ...\n"
	"\tjoint INTEGER NOT NULL CHECK (joint >= 1), -- from the entry\n"
	"\t" TYPED(
	"joint_length") " NOT NULL,\n"
	"\t" TYPED(
	"inclination") ",\n"
	"\t" TYPED(
	"azimuth") ", -- degrees, as the tool read it\n"
	"\t" TYPED(
	"tool_face") ", -- degrees clockwise from high side, looking ahead\n"
	"\t" TYPED(
	"slid") ", -- length slid in this joint; the rest was rotated\n"
	"\t" TYPED(
	"thrust") ", -- kN, or lbf in feet; pushing positive\n"
	"\t" TYPED(
	"torque") ", -- kN m, or ft lbf\n"
	"\t" TYPED(
	"flow") ", -- L/min, or gal/min\n"
	"\t" TYPED(
	"standpipe") ", -- pressure, kPa or psi\n"
	"\t" TYPED(
	"annular") ", -- pressure at the tool, kPa or psi\n"
	"\treturns TEXT, -- of drilling fluid: full, partial, none\n"
	"\tstarted TEXT, -- local time, hh:mm\n"
	"\tended TEXT, -- local time, hh:mm\n"
	"\tremarks TEXT\n"
	") STRICT;",
	ONLY_GROWS("reading", "id = NEW.id"),
	"CREATE UNIQUE INDEX reading_is_corrected_once ON reading (corrects) WHERE corrects IS NOT NULL",
	"CREATE TRIGGER reading_correction_is_not_replaced BEFORE INSERT ON reading\n"
	"WHEN NEW.corrects IS NOT NULL AND EXISTS (SELECT 1 FROM reading WHERE corrects = NEW.corrects)\n"
	"BEGIN SELECT RAISE(ABORT, 'reading: correct the newest reading of the joint'); END",

	"CREATE TABLE leg (\n"
	"\t-- Each time the string was pulled back to redrill: the leg that began, and the last joint that stayed.\n"
	"\t-- Leg 1 begins at the entry and has no row.\n"
	"\tid INTEGER PRIMARY KEY CHECK (id >= 2), -- its number\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tto_joint INTEGER NOT NULL CHECK (to_joint >= 0) -- 0: all were pulled out\n"
	") STRICT;",
	ONLY_GROWS("leg", "id = NEW.id"),

	"CREATE TABLE acknowledgement (\n"
	"\t-- A warning that somebody took note of. Who, when and why: the row of act.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tkind TEXT NOT NULL, -- as in warning\n"
	"\tleg INTEGER NOT NULL, -- where the warning began\n"
	"\tjoint INTEGER NOT NULL, -- likewise\n"
	"\tto_joint INTEGER NOT NULL, -- how far it had come\n"
	"\tlevel TEXT NOT NULL CHECK (level IN ('ok', 'watch', 'breach')) -- what it was\n"
	") STRICT;",
	ONLY_GROWS("acknowledgement", "id = NEW.id"),

	"CREATE TABLE journal (\n"
	"\t-- The audit chain: one row for every row of every fact table, in the order they were written. A byte\n"
	"\t-- changed later in an old row no longer fits its digest; a digest changed with it no longer fits the chain.\n"
	"\t-- digest: BLAKE2b, 256 bits, in hex, of this text: the table's name and a line end; then for each column in\n"
	"\t-- order that is not NULL its name, a colon, i (integer) or t (text), the length of the value in bytes, a colon,\n"
	"\t-- the value (integers in decimal) and a line end.\n"
	"\t-- chain: the same of these six lines, each with its line end: the chain of the row before (64 zeros for the\n"
	"\t-- first), seq, act, table_name, row_id, digest. The last one is printed on what is handed over.\n"
	"\tseq INTEGER PRIMARY KEY, -- 1, 2, 3 ... without gaps\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\ttable_name TEXT NOT NULL,\n"
	"\trow_id INTEGER NOT NULL,\n"
	"\tdigest TEXT NOT NULL CHECK (length(digest) = 64),\n"
	"\tchain TEXT NOT NULL CHECK (length(chain) = 64)\n"
	") STRICT;",
	ONLY_GROWS("journal", "seq = NEW.seq"),

	"CREATE TABLE path (\n"
	"\t-- Computed from the facts (minimum curvature), written together with the reading that caused it: one\n"
	"\t-- row a joint, and one for the entry. Lengths in the job's unit. Positions are the sensor's.\n"
	"\treading INTEGER PRIMARY KEY, -- 0: the entry\n"
	"\tleg INTEGER NOT NULL,\n"
	"\tjoint INTEGER NOT NULL, -- 0: the entry\n"
	"\tbit_depth REAL NOT NULL, -- measured along the hole\n"
	"\tsurvey_depth REAL NOT NULL, -- bit depth less sensor to bit\n"
	"\tinclination TEXT, -- as read\n"
	"\tazimuth TEXT, -- as read\n"
	"\tstation REAL NOT NULL, -- horizontal distance along the alignment from the entry\n"
	"\toffset REAL NOT NULL, -- from the alignment, right positive\n"
	"\televation REAL NOT NULL,\n"
	"\theight REAL NOT NULL, -- above the design line\n"
	"\tnorthing REAL NOT NULL,\n"
	"\teasting REAL NOT NULL,\n"
	"\tdogleg_deg REAL NOT NULL, -- turned since the reading before\n"
	"\tradius_joint REAL, -- of the curve since the reading before; NULL: straight\n"
	"\tradius_window REAL, -- over the window of section bend; NULL: straight, or no window yet\n"
	"\tcorridor_share REAL NOT NULL, -- 1 is the limit\n"
	"\ton_path INTEGER NOT NULL, -- 0: not read, or the sensor is still behind the entry; the position is the last known\n"
	"\tsuperseded INTEGER NOT NULL -- 1: on a leg that was pulled back\n"
	") STRICT;",

	"CREATE TABLE warning (\n"
	"\t-- Computed from the facts: every time a limit was neared or broken, from the joint where that began to\n"
	"\t-- the last one that it held for.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tkind TEXT NOT NULL,\n"
	"\tlevel TEXT NOT NULL, -- the worst it was: watch, breach\n"
	"\tleg INTEGER NOT NULL,\n"
	"\tjoint INTEGER NOT NULL,\n"
	"\tworst_joint INTEGER NOT NULL,\n"
	"\tlast_joint INTEGER NOT NULL,\n"
	"\tstation REAL NOT NULL, -- at the worst joint\n"
	"\tvalue REAL NOT NULL, -- at the worst joint; job's unit, or degrees\n"
	"\tlimit_value REAL NOT NULL,\n"
	"\topen INTEGER NOT NULL, -- 1: it holds at the end of the path\n"
	"\tsuperseded INTEGER NOT NULL, -- 1: on a leg that was pulled back\n"
	"\tacknowledged INTEGER NOT NULL,\n"
	"\tacknowledged_by TEXT,\n"
	"\twords TEXT NOT NULL\n"
	") STRICT;",

	"CREATE VIEW sheet AS\n"
	"\t-- The job sheet as it stands.\n"
	"\tSELECT section, key, value FROM setting\n"
	"\tWHERE id IN (SELECT max(id) FROM setting GROUP BY section, key) ORDER BY id;",

	"CREATE VIEW as_drilled AS\n"
	"\t-- The bore as it lies in the ground, joint by joint from the entry (the rig side). Lengths in `unit`.\n"
	"\tSELECT joint, leg, bit_depth, survey_depth,\n"
	"\t\tCAST(inclination AS REAL) AS inclination, CAST(azimuth AS REAL) AS azimuth_as_read,\n"
	"\t\tstation, offset AS offset_right_positive, height AS height_above_design, elevation, northing, easting,\n"
	"\t\tdogleg_deg AS dogleg_degrees, radius_joint AS radius_over_joint, radius_window AS radius_over_window,\n"
	"\t\tcorridor_share * 100 AS corridor_percent,\n"
	"\t\t(SELECT value FROM sheet WHERE section = 'job' AND key = 'unit') AS unit,\n"
	"\t\t(SELECT value FROM sheet WHERE section = 'job' AND key = 'inclination') AS inclination_convention\n"
	"\tFROM path WHERE superseded = 0 ORDER BY joint;",

	"CREATE VIEW log_book AS\n"
	"\t-- Every reading ever logged, who, when and why, and whether it still stands.\n"
	"\tSELECT r.id AS reading, r.leg, r.joint, r.joint_length, r.inclination, r.azimuth, r.tool_face, r.slid,\n"
	"\t\tr.remarks, a.at AS at_utc, a.who, a.words AS reason, r.corrects,\n"
	"\t\tCASE WHEN EXISTS (SELECT 1 FROM reading n WHERE n.corrects = r.id) THEN 'corrected'\n"
	"\t\t\tWHEN (SELECT superseded FROM path p WHERE p.reading = r.id) THEN 'pulled back' ELSE 'stands' END AS state\n"
	"\tFROM reading r JOIN act a ON a.id = r.act ORDER BY r.id;",

	"CREATE VIEW history AS\n"
	"\t-- Everything that was done, in the order of time.\n"
	"\tSELECT id AS act, at AS at_utc, datetime(at, utc_offset || ' minutes') AS at_local, who, kind, leg, joint, words\n"
	"\tFROM act ORDER BY id;",

	"CREATE VIEW open_warnings AS\n"
	"\t-- What nobody has acknowledged yet, on the bore as it lies.\n"
	"\tSELECT kind, level, joint, last_joint, station, words FROM warning\n"
	"\tWHERE acknowledged = 0 AND superseded = 0 ORDER BY id;",
	NULL,
};
/* clang-format on */

/* What the log can say of where the bore really is. SQLite keeps no comment behind an added column, so theirs
 * stand inside. */
#define ADDED(table, column, meaning) \
	"ALTER TABLE " table " ADD COLUMN " column " TEXT /* " meaning " */ CHECK (" column \
	" NOT GLOB '*[^-0-9.]*' AND length(" column ") BETWEEN 1 AND 23)"

#define COMPUTED(column, meaning) "ALTER TABLE path ADD COLUMN " column " REAL /* " meaning " */"

/* clang-format off */
static const char *const version_2[] = {
	"PRAGMA user_version = 2",

	"ALTER TABLE reading ADD COLUMN azimuth_by TEXT /* gyro (from true north), coil (from grid north), hold (the heading before is carried on); NULL: as the setting azimuth reference says */",
	"ALTER TABLE reading ADD COLUMN pushes TEXT /* slides that were not even, FROM:LENGTH@FACE from the joint's start, with ; between */",
	ADDED("reading", "total_gravity", "as the tool showed it, in its unit"),
	ADDED("reading", "total_field", "as the tool showed it, in its unit"),
	ADDED("reading", "dip", "of the field, degrees below level, as the tool showed it"),
	ADDED("reading", "gravity_x", "along the tool's axes, in its unit: settings of section tool"),
	ADDED("reading", "gravity_y", "likewise"),
	ADDED("reading", "gravity_z", "likewise"),
	ADDED("reading", "field_x", "likewise"),
	ADDED("reading", "field_y", "likewise"),
	ADDED("reading", "field_z", "likewise"),

	"ALTER TABLE setting ADD COLUMN from_joint INTEGER /* of a setting that changed while the bore was drilled: it holds for what was logged later, and for joints in the ground from this one on; NULL: as the job began */ CHECK (from_joint >= 0)",
	"DROP VIEW sheet",
	"CREATE VIEW sheet AS\n"
	"\t-- The job sheet as the job began. What changed since: settings_changed.\n"
	"\tSELECT section, key, value FROM setting WHERE from_joint IS NULL ORDER BY id;",
	"CREATE VIEW settings_changed AS\n"
	"\t-- Settings that changed while the bore was drilled, who changed them, when and why.\n"
	"\tSELECT s.section, s.key, s.value, s.from_joint, a.at AS at_utc, a.who, a.words AS reason\n"
	"\tFROM setting s JOIN act a ON a.id = s.act WHERE s.from_joint IS NOT NULL ORDER BY s.id;",

	COMPUTED("sigma_along", "one sigma of the sensor's place along the design line"),
	COMPUTED("sigma_across", "one sigma of its offset"),
	COMPUTED("sigma_up", "one sigma of its height"),
	COMPUTED("shift_station", "the path through slides and rotations, less the one by minimum curvature; NULL: the slides of this course were not written down"),
	COMPUTED("shift_offset", "likewise, right positive"),
	COMPUTED("shift_height", "likewise, high positive"),
	"DROP VIEW as_drilled",
	"CREATE VIEW as_drilled AS\n"
	"\t-- The bore as it lies in the ground, joint by joint from the entry (the rig side). Lengths in `unit`.\n"
	"\tSELECT joint, leg, bit_depth, survey_depth,\n"
	"\t\tCAST(inclination AS REAL) AS inclination, CAST(azimuth AS REAL) AS azimuth_as_read,\n"
	"\t\tstation, offset AS offset_right_positive, height AS height_above_design, elevation, northing, easting,\n"
	"\t\tdogleg_deg AS dogleg_degrees, radius_joint AS radius_over_joint, radius_window AS radius_over_window,\n"
	"\t\tcorridor_share * 100 AS corridor_percent, sigma_along, sigma_across, sigma_up,\n"
	"\t\t(SELECT value FROM sheet WHERE section = 'job' AND key = 'unit') AS unit,\n"
	"\t\t(SELECT value FROM sheet WHERE section = 'job' AND key = 'inclination') AS inclination_convention\n"
	"\tFROM path WHERE superseded = 0 ORDER BY joint;",

	"CREATE TABLE repeat (\n"
	"\t-- A reading taken again where one was taken before, or on the way out of the hole. It never moves the path.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tway TEXT NOT NULL CHECK (way IN ('again', 'out')),\n"
	"\t" TYPED("depth") " NOT NULL, -- of the sensor along the hole\n"
	"\t" TYPED("inclination") " NOT NULL,\n"
	"\t" TYPED("azimuth") ",\n"
	"\t" TYPED("tool_face") ",\n"
	"\t" TYPED("total_gravity") ",\n"
	"\t" TYPED("total_field") ",\n"
	"\t" TYPED("dip") "\n"
	") STRICT;",
	ONLY_GROWS("repeat", "id = NEW.id"),

	"CREATE TABLE fix (\n"
	"\t-- A position that does not come from the readings. What is NULL was not observed. Sigmas are one sigma.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tkind TEXT NOT NULL CHECK (kind IN ('coil', 'beacon', 'walk-over', 'gyro', 'exit')),\n"
	"\t" TYPED("depth") " NOT NULL, -- of the point that it fixes, along the hole from the entry\n"
	"\t" TYPED("easting") ",\n"
	"\t" TYPED("northing") ",\n"
	"\t" TYPED("station") ",\n"
	"\t" TYPED("offset") ", -- from the alignment, right positive\n"
	"\t" TYPED("elevation") ",\n"
	"\t" TYPED("sigma_along") ",\n"
	"\t" TYPED("sigma_across") ",\n"
	"\t" TYPED("sigma_up") "\n"
	") STRICT;",
	ONLY_GROWS("fix", "id = NEW.id"),

	"CREATE TABLE fix_use (\n"
	"\t-- A fix was set aside, or used again; the last word on it holds.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tfix INTEGER NOT NULL REFERENCES fix (id),\n"
	"\tused INTEGER NOT NULL CHECK (used IN (0, 1))\n"
	") STRICT;",
	ONLY_GROWS("fix_use", "id = NEW.id"),

	"CREATE TABLE adjustment (\n"
	"\t-- A correction of the path that rests on fixes, taken by somebody, or taken back; the last row holds.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\ttaken INTEGER NOT NULL CHECK (taken IN (0, 1)), -- 0: taken back\n"
	"\t" TYPED("inclination") ", -- degrees added to every inclination, up positive\n"
	"\t" TYPED("azimuth") ", -- degrees added to every azimuth, clockwise positive\n"
	"\t" TYPED("stretch") ", -- lengths grow by this share\n"
	"\tfixes TEXT -- ids of the fixes that it rests on\n"
	") STRICT;",
	ONLY_GROWS("adjustment", "id = NEW.id"),

	"CREATE VIEW fixes AS\n"
	"\t-- Every independent position, and whether it is used.\n"
	"\tSELECT f.id AS fix, f.kind, f.depth, f.easting, f.northing, f.station, f.offset AS offset_right_positive, f.elevation,\n"
	"\t\tf.sigma_along, f.sigma_across, f.sigma_up, a.leg, a.joint, a.at AS at_utc, a.who, a.words AS remarks,\n"
	"\t\tcoalesce((SELECT used FROM fix_use u WHERE u.fix = f.id ORDER BY u.id DESC LIMIT 1), 1) AS used\n"
	"\tFROM fix f JOIN act a ON a.id = f.act ORDER BY f.id;",
	NULL,
};
/* The pilot's end: what came of every breach, what the contract asks, and who accepted it. */
static const char *const version_3[] = {
	"PRAGMA user_version = 3",

	"CREATE TABLE checklist (\n"
	"\t-- Points of the contract that are ticked off before the pilot is accepted.\n"
	"\tid INTEGER PRIMARY KEY, -- its number\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tpoint TEXT NOT NULL -- what has to be done or handed over\n"
	") STRICT;",
	ONLY_GROWS("checklist", "id = NEW.id"),

	"CREATE TABLE disposition (\n"
	"\t-- What the engineer said of a breach: accepted as it stood then, or open again; the last row on it holds,\n"
	"\t-- unless the breach has grown since. A breach that has none is open, or its joints were pulled back.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tkind TEXT NOT NULL, -- as in warning\n"
	"\tfrom_leg INTEGER NOT NULL CHECK (from_leg >= 1), -- where the breach began\n"
	"\tfrom_joint INTEGER NOT NULL CHECK (from_joint >= 0), -- likewise\n"
	"\t" TYPED("value") " NOT NULL, -- the worst that it was then, as in warning\n"
	"\taccepted INTEGER NOT NULL CHECK (accepted IN (0, 1)), -- 0: taken back\n"
	"\treference TEXT -- the calculation or letter that it rests on\n"
	") STRICT;",
	ONLY_GROWS("disposition", "id = NEW.id"),

	"CREATE TABLE ticked (\n"
	"\t-- A point of the checklist is done, or is not after all; the last row on it holds.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\tpoint INTEGER NOT NULL REFERENCES checklist (id),\n"
	"\tdone INTEGER NOT NULL CHECK (done IN (0, 1)),\n"
	"\treference TEXT -- where what was done or handed over is kept\n"
	") STRICT;",
	ONLY_GROWS("ticked", "id = NEW.id"),

	"CREATE TABLE acceptance (\n"
	"\t-- The pilot was accepted, which closes it, or was opened again; the last row holds. The statement, or the\n"
	"\t-- reason, is the words of the act.\n"
	"\tid INTEGER PRIMARY KEY,\n"
	"\tact INTEGER NOT NULL REFERENCES act (id),\n"
	"\taccepted INTEGER NOT NULL CHECK (accepted IN (0, 1)), -- 0: opened again\n"
	"\tcapacity TEXT -- in which who signed\n"
	") STRICT;",
	ONLY_GROWS("acceptance", "id = NEW.id"),

	ADDED("corridor", "cover", "least ground over the top of the hole; NULL: as in the settings of section cover"),

	"CREATE VIEW nonconformances AS\n"
	"\t-- Every breach, and the last word on it. That it has grown since it was accepted shows in the two values.\n"
	"\tSELECT w.kind, w.leg, w.joint, w.last_joint, w.station, w.value, w.limit_value, w.words,\n"
	"\t\tCASE WHEN w.superseded THEN 'redrilled' WHEN d.accepted THEN 'accepted' ELSE 'open' END AS disposition,\n"
	"\t\td.value AS accepted_value, d.reference, a.who, a.at AS at_utc, a.words AS reason\n"
	"\tFROM warning w\n"
	"\tLEFT JOIN disposition d ON w.superseded = 0 AND d.id = (SELECT max(id) FROM disposition\n"
	"\t\tWHERE kind = w.kind AND from_leg = w.leg AND from_joint = w.joint)\n"
	"\tLEFT JOIN act a ON a.id = d.act\n"
	"\tWHERE w.level = 'breach' AND (w.open = 1 OR w.kind NOT IN\n"
	"\t\t('exit-window', 'leaves-corridor', 'azimuth-reference', 'response', 'fix', 'no-fix',\n"
	"\t\t'clearance-ahead', 'cover-ahead'))\n"
	"\tORDER BY w.leg, w.joint, w.kind;",
	NULL,
};
/* What comes beside and after the pilot: the drilling fluid, the passes, the pipe string, the pull. */
#define HEAD "\tid INTEGER PRIMARY KEY,\n\tact INTEGER NOT NULL REFERENCES act (id),\n"
#define CLOCKS \
	"\tstarted TEXT CHECK (started GLOB '[0-2][0-9]:[0-5][0-9]'), -- local time\n" \
	"\tended TEXT CHECK (ended GLOB '[0-2][0-9]:[0-5][0-9]')"
static const char *const version_4[] = {
	"PRAGMA user_version = 4",

	"CREATE TABLE fluid_event (\n"
	"\t-- What the drilling fluid did. A record adds what was missing of a release; the last text of each column holds.\n"
	"\t-- Here and in the tables below: what a row of strike names is struck out, and counts for nothing. Forces are kN or\n"
	"\t-- lbf, torque kN m or ft lbf, flow L/min or gal/min, pressure kPa or psi, volumes m3 or gal, diameters mm or inches.\n"
	HEAD
	"\tkind TEXT NOT NULL CHECK (kind IN ('full', 'partial', 'none', 'loss', 'release', 'record')), -- release: it came to the surface\n"
	"\t" TYPED("station") ", -- NULL: at the bit or the tool\n"
	"\t" TYPED("volume") ", -- lost or released\n"
	"\tplace TEXT, -- where it came up\n"
	"\treceiving TEXT, -- what it ran into\n"
	"\ttold TEXT, -- who was told, and when\n"
	"\tdone TEXT, -- how it was contained and cleaned up\n"
	"\t\"of\" INTEGER NOT NULL -- of a record: id of its release; 0 else\n"
	") STRICT;",
	ONLY_GROWS("fluid_event", "id = NEW.id"),

	"CREATE TABLE pass (\n"
	"\t-- A pass of a tool through the whole hole begins.\n"
	HEAD
	"\tkind TEXT NOT NULL CHECK (kind IN ('ream', 'swab')),\n"
	"\t\"to\" TEXT NOT NULL CHECK (\"to\" IN ('entry', 'exit')), -- the side it goes to; the entry is the rig side\n"
	"\t" TYPED("diameter") " NOT NULL, -- of the tool\n"
	"\ttool TEXT\n"
	") STRICT;",
	ONLY_GROWS("pass", "id = NEW.id"),

	"CREATE TABLE pass_joint (\n"
	"\t-- The tool of a pass went through a joint.\n"
	HEAD
	"\tpass INTEGER NOT NULL REFERENCES pass (id),\n"
	"\tjoint INTEGER NOT NULL CHECK (joint >= 1), -- as numbered in the pilot\n"
	"\t" TYPED("pull") ", -- axial load, pulling positive\n"
	"\t" TYPED("torque") ",\n"
	"\t" TYPED("flow") ",\n"
	"\t" TYPED("pressure") ", -- of the pump\n"
	"\t" TYPED("annular") ", -- measured at the tool\n"
	CLOCKS ",\n"
	"\treturns TEXT CHECK (returns IN ('full', 'partial', 'none'))\n"
	") STRICT;",
	ONLY_GROWS("pass_joint", "id = NEW.id"),

	"CREATE TABLE pass_end (\n"
	"\t-- A pass is through.\n"
	HEAD
	"\tpass INTEGER NOT NULL REFERENCES pass (id)\n"
	") STRICT;",
	ONLY_GROWS("pass_end", "id = NEW.id"),

	"CREATE TABLE pipe (\n"
	"\t-- A joint of the product pipe's string.\n"
	HEAD
	"\tjoint INTEGER NOT NULL CHECK (joint >= 1), -- number in the string, 1 behind the pull head\n"
	"\t" TYPED("length") " NOT NULL,\n"
	"\tmark TEXT -- what is painted on it\n"
	") STRICT;",
	ONLY_GROWS("pipe", "id = NEW.id"),

	"CREATE TABLE pipe_record (\n"
	"\t-- What was done to the string; the last word on a thing holds.\n"
	HEAD
	"\tkind TEXT NOT NULL CHECK (kind IN ('weld', 'inspection', 'coating', 'test', 'drag')),\n"
	"\tjoint INTEGER NOT NULL CHECK (joint >= 0), -- weld N is between joints N and N + 1; 0: the whole string\n"
	"\toutcome TEXT NOT NULL CHECK (outcome IN ('good', 'bad')),\n"
	"\t" TYPED("pressure") ", -- of a test: held\n"
	"\t" TYPED("hours") ", -- of a test: for how long\n"
	"\treference TEXT -- where the record is kept\n"
	") STRICT;",
	ONLY_GROWS("pipe_record", "id = NEW.id"),

	"CREATE TABLE pull_begin (\n"
	"\t-- The pull of the product pipe begins, from the exit to the entry. Why with something missing: the words of the act.\n"
	HEAD
	"\tmissing TEXT -- what was missing then; NULL: nothing\n"
	") STRICT;",
	ONLY_GROWS("pull_begin", "id = NEW.id"),

	"CREATE TABLE pull_joint (\n"
	"\t-- A joint of drill pipe came out at the entry: the pull head has come to where the joint began.\n"
	HEAD
	"\tjoint INTEGER NOT NULL CHECK (joint >= 1), -- as numbered in the pilot\n"
	"\t" TYPED("force") " NOT NULL, -- at the rig\n"
	"\t" TYPED("torque") ",\n"
	"\t" TYPED("flow") ",\n"
	"\t" TYPED("annular") ", -- measured at the pull head\n"
	CLOCKS "\n"
	") STRICT;",
	ONLY_GROWS("pull_joint", "id = NEW.id"),

	"CREATE TABLE pull_end (\n"
	"\t-- The product pipe is through.\n"
	HEAD
	"\t" TYPED("extra") ", -- pulled past what is needed, to be looked at\n"
	"\tcoating TEXT NOT NULL CHECK (coating IN ('sound', 'scratched', 'damaged')), -- as it came out\n"
	"\tsurvey TEXT -- where the final survey is kept\n"
	") STRICT;",
	ONLY_GROWS("pull_end", "id = NEW.id"),

	"CREATE TABLE strike (\n"
	"\t-- An entry of the tables above is struck out, with the reason in the words of the act. Nothing is erased.\n"
	HEAD
	"\tentry INTEGER NOT NULL REFERENCES act (id) -- the act that brought it\n"
	") STRICT;",
	ONLY_GROWS("strike", "id = NEW.id"),

	"CREATE VIEW opening AS\n"
	"\t-- The joints of every pass that counts, in the order in which they were opened.\n"
	"\tSELECT p.id AS pass, p.kind, p.\"to\" AS to_side, p.diameter, p.tool, j.joint, j.pull, j.torque, j.flow, j.pressure,\n"
	"\t\tj.annular, j.started, j.ended, j.returns, a.at AS at_utc, a.who, a.words AS remarks\n"
	"\tFROM pass p JOIN pass_joint j ON j.pass = p.id JOIN act a ON a.id = j.act\n"
	"\tWHERE p.act NOT IN (SELECT entry FROM strike) AND j.act NOT IN (SELECT entry FROM strike) ORDER BY j.id;",
	"CREATE VIEW pullback AS\n"
	"\t-- The pull of the product pipe, joint by joint.\n"
	"\tSELECT j.joint, j.force, j.torque, j.flow, j.annular, j.started, j.ended, a.at AS at_utc, a.who, a.words AS remarks\n"
	"\tFROM pull_joint j JOIN act a ON a.id = j.act WHERE j.act NOT IN (SELECT entry FROM strike) ORDER BY j.id;",
	NULL,
};
/* clang-format on */

static const struct migration steps[] = {
	{ "the first version", version_1,
		"33a3dd967d4bc413087da75cf82509baa045cc65ca13bebb953a0a4ca092e0be" },
	{ "independent positions, repeats, changes of the azimuth reference and the tool", version_2,
		"50e8480193563bf6531228ef39dbab15d3e9b31d5e3b1a41f381281745053848" },
	{ "what came of every breach, the contract's checklist, the pilot's acceptance, cover by station",
		version_3, "c302e94d73f3cf8b35a3be600012c7d7ab88216a3782c3861ee0d651e9dc7abc" },
	{ "the drilling fluid, the passes, the pipe string, the pull", version_4,
		"60fc7b463e20a194cb3c96782c0324cae25a2a506f17929d897da07577a91c26" },
};

const struct schema sb_schema = { steps, sizeof steps / sizeof *steps };

static int take_step(struct sb_sql *db, const struct migration *step, int64_t version, struct sb_err *err)
{
	int64_t now = -1;

	if (sb_sql_begin(db, step->what, err))
		return -1;
	for (size_t i = 0; step->sql[i]; i++)
		if (sb_sql_script(db, step->sql[i], err)) {
			sb_sql_rollback(db);
			return -1;
		}
	if (sb_sql_number(db, "PRAGMA user_version", &now, err) == 0)
		assert(now == version);
	return sb_sql_commit(db, err);
}

int sb_schema_migrate(struct sb_sql *db, const struct schema *schema, int64_t from, struct sb_err *err)
{
	for (size_t i = (size_t)from; i < schema->count; i++)
		if (take_step(db, &schema->steps[i], (int64_t)i + 1, err))
			return -1;
	return 0;
}

/* sqlite_stat1 is SQLite's own note on how to search, left by tools that run ANALYZE; it says nothing of the
 * job and can be believed or not without harm. */
static const char objects[] =
	"SELECT type, name, coalesce(sql, ''), tbl_name FROM sqlite_schema"
	" WHERE sql IS NOT 'CREATE TABLE sqlite_stat1(tbl,idx,stat)' ORDER BY type, name";

/* Compares the objects that both statements stand at; has_* say whether there is one. */
static int compare_object(
	struct sb_query *want, bool has_want, struct sb_query *got, bool has_got, struct sb_err *err)
{
	int order = 0;

	if (has_want && has_got) {
		struct sb_str a = { 0 }, b = { 0 };
		sb_str_add(&a, "%s %s", sb_sql_text(want, 0), sb_sql_text(want, 1));
		sb_str_add(&b, "%s %s", sb_sql_text(got, 0), sb_sql_text(got, 1));
		order = strcmp(a.text, b.text);
		sb_str_clear(&a);
		sb_str_clear(&b);
	}
	if (!has_want || order > 0)
		return sb_fail(err, SB_DAMAGED, "It holds a %.20s '%.60s' that a job file does not have.",
			sb_sql_text(got, 0), sb_sql_text(got, 1));
	if (!has_got || order < 0)
		return sb_fail(err, SB_DAMAGED, "It lacks the %.20s '%.60s' that a job file has.",
			sb_sql_text(want, 0), sb_sql_text(want, 1));
	if (!sb_same(sb_sql_text(want, 2), sb_sql_text(got, 2)) ||
		!sb_same(sb_sql_text(want, 3), sb_sql_text(got, 3)))
		return sb_fail(err, SB_DAMAGED, "Its %.20s '%.60s' is not built as a job file has it.",
			sb_sql_text(got, 0), sb_sql_text(got, 1));
	return 0;
}

static int compare_all(struct sb_sql *model, struct sb_sql *db, struct sb_err *err)
{
	struct sb_query *want = sb_sql_prepare(model, objects), *got = sb_sql_prepare(db, objects);
	int status = 0;

	while (status == 0) {
		bool has_want = sb_sql_row(want), has_got = sb_sql_row(got);
		if (!has_want && !has_got)
			break;
		status = compare_object(want, has_want, got, has_got, err);
	}
	/* A statement that failed had no row; its own words say more. */
	status |= sb_sql_done(want, err);
	status |= sb_sql_done(got, err);
	return status;
}

int sb_schema_digest(struct sb_sql *db, char hex[65], struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(db, objects);
	crypto_generichash_state state;
	unsigned char hash[32];

	crypto_generichash_init(&state, NULL, 0, sizeof hash);
	while (sb_sql_row(q))
		for (int i = 0; i < 4; i++) { /* the NUL keeps two columns from being one */
			const char *text = sb_sql_text(q, i);
			crypto_generichash_update(&state, (const unsigned char *)text, strlen(text) + 1);
		}
	crypto_generichash_final(&state, hash, sizeof hash);
	sodium_bin2hex(hex, 65, hash, sizeof hash);
	return sb_sql_done(q, err);
}

/* Making the model costs more than all the rest of opening a job, so it is made only to say what differs. */
int sb_schema_compare(struct sb_sql *db, const struct schema *schema, int64_t version, struct sb_err *err)
{
	struct schema up_to = { schema->steps, (size_t)version };
	const char *made = schema->steps[version - 1].made;
	struct sb_sql *model;
	char hex[65];

	if (made && sb_schema_digest(db, hex, err))
		return -1;
	if (made && sb_same(made, hex))
		return 0;

	if (sb_sql_open(NULL, &(struct sql_options){ .mode = SQL_MEMORY }, &model, err))
		return -1;
	int status = sb_schema_migrate(model, &up_to, 0, err) || compare_all(model, db, err);
	sb_sql_close(model);
	return status ? -1 : 0;
}

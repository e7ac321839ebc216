CREATE TABLE act (
	-- One act of one person: who did what, and when. Every fact in the other tables came with an act.
	-- Facts (act, setting, the seven tables of the job sheet, reading, leg, acknowledgement) are only
	-- ever added; a correction is a new row. The table journal proves it. path and warning are computed.
	id INTEGER PRIMARY KEY, -- 1, 2, 3 ... in the order of time
	uid TEXT NOT NULL UNIQUE CHECK (length(uid) = 32), -- made before writing, so that no act is entered twice
	kind TEXT NOT NULL, -- new, log, correct, withdraw, note, acknowledge, shift-begin, shift-end
	at TEXT NOT NULL CHECK (at GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T*Z'), -- UTC
	utc_offset INTEGER NOT NULL CHECK (utc_offset BETWEEN -900 AND 900), -- minutes that local time was ahead of UTC
	who TEXT NOT NULL CHECK (length(who) BETWEEN 1 AND 63),
	leg INTEGER NOT NULL CHECK (leg >= 1), -- where the bore was, or what the act is about
	joint INTEGER NOT NULL CHECK (joint >= 0), -- likewise; 0 is the entry
	words TEXT CHECK (length(words) BETWEEN 1 AND 511) -- the reason, the note, the names or remarks of a shift
) STRICT;

CREATE TRIGGER act_is_not_changed BEFORE UPDATE ON act
BEGIN SELECT RAISE(ABORT, 'act: what was written is never changed'); END;

CREATE TRIGGER act_is_not_deleted BEFORE DELETE ON act
BEGIN SELECT RAISE(ABORT, 'act: what was written is never deleted'); END;

CREATE TRIGGER act_is_not_replaced BEFORE INSERT ON act
WHEN EXISTS (SELECT 1 FROM act WHERE id = NEW.id OR uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'act: what was written is never replaced'); END;

CREATE TABLE setting (
	-- The keys of the job sheet, as written there. A key that is not here was left out.
	-- Lengths are in the unit that section job, key unit says (m, ft: international, ftUS: US survey).
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	section TEXT NOT NULL,
	key TEXT NOT NULL,
	value TEXT NOT NULL
, from_joint INTEGER /* of a setting that changed while the bore was drilled: it holds for what was logged later, and for joints in the ground from this one on; NULL: as the job began */ CHECK (from_joint >= 0)) STRICT;

CREATE TRIGGER setting_is_not_changed BEFORE UPDATE ON setting
BEGIN SELECT RAISE(ABORT, 'setting: what was written is never changed'); END;

CREATE TRIGGER setting_is_not_deleted BEFORE DELETE ON setting
BEGIN SELECT RAISE(ABORT, 'setting: what was written is never deleted'); END;

CREATE TRIGGER setting_is_not_replaced BEFORE INSERT ON setting
WHEN EXISTS (SELECT 1 FROM setting WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'setting: what was written is never replaced'); END;

CREATE TABLE alignment (
	-- Horizontal points of intersection of the design, from entry to exit; none: a straight line.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	easting TEXT CHECK (easting NOT GLOB '*[^-0-9.]*' AND length(easting) BETWEEN 1 AND 23) NOT NULL,
	northing TEXT CHECK (northing NOT GLOB '*[^-0-9.]*' AND length(northing) BETWEEN 1 AND 23) NOT NULL,
	radius TEXT CHECK (radius NOT GLOB '*[^-0-9.]*' AND length(radius) BETWEEN 1 AND 23) -- of the curve at this point
) STRICT;

CREATE TRIGGER alignment_is_not_changed BEFORE UPDATE ON alignment
BEGIN SELECT RAISE(ABORT, 'alignment: what was written is never changed'); END;

CREATE TRIGGER alignment_is_not_deleted BEFORE DELETE ON alignment
BEGIN SELECT RAISE(ABORT, 'alignment: what was written is never deleted'); END;

CREATE TRIGGER alignment_is_not_replaced BEFORE INSERT ON alignment
WHEN EXISTS (SELECT 1 FROM alignment WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'alignment: what was written is never replaced'); END;

CREATE TABLE profile (
	-- Vertical points of intersection of the design, from entry to exit.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	station TEXT CHECK (station NOT GLOB '*[^-0-9.]*' AND length(station) BETWEEN 1 AND 23) NOT NULL, -- horizontal distance along the alignment from the entry
	elevation TEXT CHECK (elevation NOT GLOB '*[^-0-9.]*' AND length(elevation) BETWEEN 1 AND 23) NOT NULL,
	radius TEXT CHECK (radius NOT GLOB '*[^-0-9.]*' AND length(radius) BETWEEN 1 AND 23) -- of the curve at this point
) STRICT;

CREATE TRIGGER profile_is_not_changed BEFORE UPDATE ON profile
BEGIN SELECT RAISE(ABORT, 'profile: what was written is never changed'); END;

CREATE TRIGGER profile_is_not_deleted BEFORE DELETE ON profile
BEGIN SELECT RAISE(ABORT, 'profile: what was written is never deleted'); END;

CREATE TRIGGER profile_is_not_replaced BEFORE INSERT ON profile
WHEN EXISTS (SELECT 1 FROM profile WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'profile: what was written is never replaced'); END;

CREATE TABLE corridor (
	-- How far from the design line the contract allows the bore, by ranges of station; what is NULL is as
	-- in the settings of section corridor. Left and right as seen from entry to exit.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	"from" TEXT CHECK ("from" NOT GLOB '*[^-0-9.]*' AND length("from") BETWEEN 1 AND 23) NOT NULL, -- station
	"to" TEXT CHECK ("to" NOT GLOB '*[^-0-9.]*' AND length("to") BETWEEN 1 AND 23) NOT NULL, -- station
	up TEXT CHECK (up NOT GLOB '*[^-0-9.]*' AND length(up) BETWEEN 1 AND 23),
	down TEXT CHECK (down NOT GLOB '*[^-0-9.]*' AND length(down) BETWEEN 1 AND 23),
	"left" TEXT CHECK ("left" NOT GLOB '*[^-0-9.]*' AND length("left") BETWEEN 1 AND 23),
	"right" TEXT CHECK ("right" NOT GLOB '*[^-0-9.]*' AND length("right") BETWEEN 1 AND 23)
, cover TEXT /* least ground over the top of the hole; NULL: as in the settings of section cover */ CHECK (cover NOT GLOB '*[^-0-9.]*' AND length(cover) BETWEEN 1 AND 23)) STRICT;

CREATE TRIGGER corridor_is_not_changed BEFORE UPDATE ON corridor
BEGIN SELECT RAISE(ABORT, 'corridor: what was written is never changed'); END;

CREATE TRIGGER corridor_is_not_deleted BEFORE DELETE ON corridor
BEGIN SELECT RAISE(ABORT, 'corridor: what was written is never deleted'); END;

CREATE TRIGGER corridor_is_not_replaced BEFORE INSERT ON corridor
WHEN EXISTS (SELECT 1 FROM corridor WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'corridor: what was written is never replaced'); END;

CREATE TABLE ground (
	-- Original ground and river bed along the alignment.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	station TEXT CHECK (station NOT GLOB '*[^-0-9.]*' AND length(station) BETWEEN 1 AND 23) NOT NULL,
	elevation TEXT CHECK (elevation NOT GLOB '*[^-0-9.]*' AND length(elevation) BETWEEN 1 AND 23) NOT NULL
) STRICT;

CREATE TRIGGER ground_is_not_changed BEFORE UPDATE ON ground
BEGIN SELECT RAISE(ABORT, 'ground: what was written is never changed'); END;

CREATE TRIGGER ground_is_not_deleted BEFORE DELETE ON ground
BEGIN SELECT RAISE(ABORT, 'ground: what was written is never deleted'); END;

CREATE TRIGGER ground_is_not_replaced BEFORE INSERT ON ground
WHEN EXISTS (SELECT 1 FROM ground WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'ground: what was written is never replaced'); END;

CREATE TABLE obstacles (
	-- What the bore must keep clear of; two or more rows of one name make a line.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	name TEXT NOT NULL,
	kind TEXT,
	easting TEXT CHECK (easting NOT GLOB '*[^-0-9.]*' AND length(easting) BETWEEN 1 AND 23) NOT NULL,
	northing TEXT CHECK (northing NOT GLOB '*[^-0-9.]*' AND length(northing) BETWEEN 1 AND 23) NOT NULL,
	elevation TEXT CHECK (elevation NOT GLOB '*[^-0-9.]*' AND length(elevation) BETWEEN 1 AND 23) NOT NULL, -- of its centre
	diameter TEXT CHECK (diameter NOT GLOB '*[^-0-9.]*' AND length(diameter) BETWEEN 1 AND 23),
	clearance TEXT CHECK (clearance NOT GLOB '*[^-0-9.]*' AND length(clearance) BETWEEN 1 AND 23) -- distance to keep, wall to wall
) STRICT;

CREATE TRIGGER obstacles_is_not_changed BEFORE UPDATE ON obstacles
BEGIN SELECT RAISE(ABORT, 'obstacles: what was written is never changed'); END;

CREATE TRIGGER obstacles_is_not_deleted BEFORE DELETE ON obstacles
BEGIN SELECT RAISE(ABORT, 'obstacles: what was written is never deleted'); END;

CREATE TRIGGER obstacles_is_not_replaced BEFORE INSERT ON obstacles
WHEN EXISTS (SELECT 1 FROM obstacles WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'obstacles: what was written is never replaced'); END;

CREATE TABLE tally (
	-- Measured lengths of the joints of drill pipe.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	joint INTEGER NOT NULL,
	length TEXT CHECK (length NOT GLOB '*[^-0-9.]*' AND length(length) BETWEEN 1 AND 23) NOT NULL
) STRICT;

CREATE TRIGGER tally_is_not_changed BEFORE UPDATE ON tally
BEGIN SELECT RAISE(ABORT, 'tally: what was written is never changed'); END;

CREATE TRIGGER tally_is_not_deleted BEFORE DELETE ON tally
BEGIN SELECT RAISE(ABORT, 'tally: what was written is never deleted'); END;

CREATE TRIGGER tally_is_not_replaced BEFORE INSERT ON tally
WHEN EXISTS (SELECT 1 FROM tally WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'tally: what was written is never replaced'); END;

CREATE TABLE soil (
	-- Layers of ground along the bore. Strength: kN/m3 and kPa where the unit is m, lb/ft3 and psi in feet.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	"from" TEXT CHECK ("from" NOT GLOB '*[^-0-9.]*' AND length("from") BETWEEN 1 AND 23) NOT NULL, -- station
	"to" TEXT CHECK ("to" NOT GLOB '*[^-0-9.]*' AND length("to") BETWEEN 1 AND 23) NOT NULL, -- station
	top TEXT CHECK (top NOT GLOB '*[^-0-9.]*' AND length(top) BETWEEN 1 AND 23) NOT NULL, -- elevation
	name TEXT NOT NULL,
	unit_weight TEXT CHECK (unit_weight NOT GLOB '*[^-0-9.]*' AND length(unit_weight) BETWEEN 1 AND 23),
	cohesion TEXT CHECK (cohesion NOT GLOB '*[^-0-9.]*' AND length(cohesion) BETWEEN 1 AND 23),
	friction TEXT CHECK (friction NOT GLOB '*[^-0-9.]*' AND length(friction) BETWEEN 1 AND 23), -- degrees
	shear_modulus TEXT CHECK (shear_modulus NOT GLOB '*[^-0-9.]*' AND length(shear_modulus) BETWEEN 1 AND 23),
	ground_water TEXT CHECK (ground_water NOT GLOB '*[^-0-9.]*' AND length(ground_water) BETWEEN 1 AND 23) -- elevation
) STRICT;

CREATE TRIGGER soil_is_not_changed BEFORE UPDATE ON soil
BEGIN SELECT RAISE(ABORT, 'soil: what was written is never changed'); END;

CREATE TRIGGER soil_is_not_deleted BEFORE DELETE ON soil
BEGIN SELECT RAISE(ABORT, 'soil: what was written is never deleted'); END;

CREATE TRIGGER soil_is_not_replaced BEFORE INSERT ON soil
WHEN EXISTS (SELECT 1 FROM soil WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'soil: what was written is never replaced'); END;

CREATE TABLE reading (
	-- One joint of drill pipe as it was logged: what the hand typed and the instruments said, as typed.
	-- NULL: not said. Lengths in the job's unit, inclination in the job's convention (setting: section job,
	-- key inclination: down is 0 straight down and 90 level; level is 0 level, rising positive; grade is percent).
	-- Who, when and why: the row of act.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	corrects INTEGER REFERENCES reading (id), -- the reading that this one replaces
	leg INTEGER NOT NULL CHECK (leg >= 1), -- 1 until the string is pulled back to redrill, then 2 ...
	joint INTEGER NOT NULL CHECK (joint >= 1), -- from the entry
	joint_length TEXT CHECK (joint_length NOT GLOB '*[^-0-9.]*' AND length(joint_length) BETWEEN 1 AND 23) NOT NULL,
	inclination TEXT CHECK (inclination NOT GLOB '*[^-0-9.]*' AND length(inclination) BETWEEN 1 AND 23),
	azimuth TEXT CHECK (azimuth NOT GLOB '*[^-0-9.]*' AND length(azimuth) BETWEEN 1 AND 23), -- degrees, as the tool read it
	tool_face TEXT CHECK (tool_face NOT GLOB '*[^-0-9.]*' AND length(tool_face) BETWEEN 1 AND 23), -- degrees clockwise from high side, looking ahead
	slid TEXT CHECK (slid NOT GLOB '*[^-0-9.]*' AND length(slid) BETWEEN 1 AND 23), -- length slid in this joint; the rest was rotated
	thrust TEXT CHECK (thrust NOT GLOB '*[^-0-9.]*' AND length(thrust) BETWEEN 1 AND 23), -- kN, or lbf in feet; pushing positive
	torque TEXT CHECK (torque NOT GLOB '*[^-0-9.]*' AND length(torque) BETWEEN 1 AND 23), -- kN m, or ft lbf
	flow TEXT CHECK (flow NOT GLOB '*[^-0-9.]*' AND length(flow) BETWEEN 1 AND 23), -- L/min, or gal/min
	standpipe TEXT CHECK (standpipe NOT GLOB '*[^-0-9.]*' AND length(standpipe) BETWEEN 1 AND 23), -- pressure, kPa or psi
	annular TEXT CHECK (annular NOT GLOB '*[^-0-9.]*' AND length(annular) BETWEEN 1 AND 23), -- pressure at the tool, kPa or psi
	returns TEXT, -- of drilling fluid: full, partial, none
	started TEXT, -- local time, hh:mm
	ended TEXT, -- local time, hh:mm
	remarks TEXT
, azimuth_by TEXT /* gyro (from true north), coil (from grid north), hold (the heading before is carried on); NULL: as the setting azimuth reference says */, pushes TEXT /* slides that were not even, FROM:LENGTH@FACE from the joint's start, with ; between */, total_gravity TEXT /* as the tool showed it, in its unit */ CHECK (total_gravity NOT GLOB '*[^-0-9.]*' AND length(total_gravity) BETWEEN 1 AND 23), total_field TEXT /* as the tool showed it, in its unit */ CHECK (total_field NOT GLOB '*[^-0-9.]*' AND length(total_field) BETWEEN 1 AND 23), dip TEXT /* of the field, degrees below level, as the tool showed it */ CHECK (dip NOT GLOB '*[^-0-9.]*' AND length(dip) BETWEEN 1 AND 23), gravity_x TEXT /* along the tool's axes, in its unit: settings of section tool */ CHECK (gravity_x NOT GLOB '*[^-0-9.]*' AND length(gravity_x) BETWEEN 1 AND 23), gravity_y TEXT /* likewise */ CHECK (gravity_y NOT GLOB '*[^-0-9.]*' AND length(gravity_y) BETWEEN 1 AND 23), gravity_z TEXT /* likewise */ CHECK (gravity_z NOT GLOB '*[^-0-9.]*' AND length(gravity_z) BETWEEN 1 AND 23), field_x TEXT /* likewise */ CHECK (field_x NOT GLOB '*[^-0-9.]*' AND length(field_x) BETWEEN 1 AND 23), field_y TEXT /* likewise */ CHECK (field_y NOT GLOB '*[^-0-9.]*' AND length(field_y) BETWEEN 1 AND 23), field_z TEXT /* likewise */ CHECK (field_z NOT GLOB '*[^-0-9.]*' AND length(field_z) BETWEEN 1 AND 23)) STRICT;

CREATE TRIGGER reading_is_not_changed BEFORE UPDATE ON reading
BEGIN SELECT RAISE(ABORT, 'reading: what was written is never changed'); END;

CREATE TRIGGER reading_is_not_deleted BEFORE DELETE ON reading
BEGIN SELECT RAISE(ABORT, 'reading: what was written is never deleted'); END;

CREATE TRIGGER reading_is_not_replaced BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'reading: what was written is never replaced'); END;

CREATE UNIQUE INDEX reading_is_corrected_once ON reading (corrects) WHERE corrects IS NOT NULL;

CREATE TRIGGER reading_correction_is_not_replaced BEFORE INSERT ON reading
WHEN NEW.corrects IS NOT NULL AND EXISTS (SELECT 1 FROM reading WHERE corrects = NEW.corrects)
BEGIN SELECT RAISE(ABORT, 'reading: correct the newest reading of the joint'); END;

CREATE TABLE leg (
	-- Each time the string was pulled back to redrill: the leg that began, and the last joint that stayed.
	-- Leg 1 begins at the entry and has no row.
	id INTEGER PRIMARY KEY CHECK (id >= 2), -- its number
	act INTEGER NOT NULL REFERENCES act (id),
	to_joint INTEGER NOT NULL CHECK (to_joint >= 0) -- 0: all were pulled out
) STRICT;

CREATE TRIGGER leg_is_not_changed BEFORE UPDATE ON leg
BEGIN SELECT RAISE(ABORT, 'leg: what was written is never changed'); END;

CREATE TRIGGER leg_is_not_deleted BEFORE DELETE ON leg
BEGIN SELECT RAISE(ABORT, 'leg: what was written is never deleted'); END;

CREATE TRIGGER leg_is_not_replaced BEFORE INSERT ON leg
WHEN EXISTS (SELECT 1 FROM leg WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'leg: what was written is never replaced'); END;

CREATE TABLE acknowledgement (
	-- A warning that somebody took note of. Who, when and why: the row of act.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	kind TEXT NOT NULL, -- as in warning
	leg INTEGER NOT NULL, -- where the warning began
	joint INTEGER NOT NULL, -- likewise
	to_joint INTEGER NOT NULL, -- how far it had come
	level TEXT NOT NULL CHECK (level IN ('ok', 'watch', 'breach')) -- what it was
) STRICT;

CREATE TRIGGER acknowledgement_is_not_changed BEFORE UPDATE ON acknowledgement
BEGIN SELECT RAISE(ABORT, 'acknowledgement: what was written is never changed'); END;

CREATE TRIGGER acknowledgement_is_not_deleted BEFORE DELETE ON acknowledgement
BEGIN SELECT RAISE(ABORT, 'acknowledgement: what was written is never deleted'); END;

CREATE TRIGGER acknowledgement_is_not_replaced BEFORE INSERT ON acknowledgement
WHEN EXISTS (SELECT 1 FROM acknowledgement WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'acknowledgement: what was written is never replaced'); END;

CREATE TABLE journal (
	-- The audit chain: one row for every row of every fact table, in the order they were written. A byte
	-- changed later in an old row no longer fits its digest; a digest changed with it no longer fits the chain.
	-- digest: BLAKE2b, 256 bits, in hex, of this text: the table's name and a line end; then for each column in
	-- order that is not NULL its name, a colon, i (integer) or t (text), the length of the value in bytes, a colon,
	-- the value (integers in decimal) and a line end.
	-- chain: the same of these six lines, each with its line end: the chain of the row before (64 zeros for the
	-- first), seq, act, table_name, row_id, digest. The last one is printed on what is handed over.
	seq INTEGER PRIMARY KEY, -- 1, 2, 3 ... without gaps
	act INTEGER NOT NULL REFERENCES act (id),
	table_name TEXT NOT NULL,
	row_id INTEGER NOT NULL,
	digest TEXT NOT NULL CHECK (length(digest) = 64),
	chain TEXT NOT NULL CHECK (length(chain) = 64)
) STRICT;

CREATE TRIGGER journal_is_not_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'journal: what was written is never changed'); END;

CREATE TRIGGER journal_is_not_deleted BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'journal: what was written is never deleted'); END;

CREATE TRIGGER journal_is_not_replaced BEFORE INSERT ON journal
WHEN EXISTS (SELECT 1 FROM journal WHERE seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'journal: what was written is never replaced'); END;

CREATE TABLE path (
	-- Computed from the facts (minimum curvature), written together with the reading that caused it: one
	-- row a joint, and one for the entry. Lengths in the job's unit. Positions are the sensor's.
	reading INTEGER PRIMARY KEY, -- 0: the entry
	leg INTEGER NOT NULL,
	joint INTEGER NOT NULL, -- 0: the entry
	bit_depth REAL NOT NULL, -- measured along the hole
	survey_depth REAL NOT NULL, -- bit depth less sensor to bit
	inclination TEXT, -- as read
	azimuth TEXT, -- as read
	station REAL NOT NULL, -- horizontal distance along the alignment from the entry
	offset REAL NOT NULL, -- from the alignment, right positive
	elevation REAL NOT NULL,
	height REAL NOT NULL, -- above the design line
	northing REAL NOT NULL,
	easting REAL NOT NULL,
	dogleg_deg REAL NOT NULL, -- turned since the reading before
	radius_joint REAL, -- of the curve since the reading before; NULL: straight
	radius_window REAL, -- over the window of section bend; NULL: straight, or no window yet
	corridor_share REAL NOT NULL, -- 1 is the limit
	on_path INTEGER NOT NULL, -- 0: not read, or the sensor is still behind the entry; the position is the last known
	superseded INTEGER NOT NULL -- 1: on a leg that was pulled back
, sigma_along REAL /* one sigma of the sensor's place along the design line */, sigma_across REAL /* one sigma of its offset */, sigma_up REAL /* one sigma of its height */, shift_station REAL /* the path through slides and rotations, less the one by minimum curvature; NULL: the slides of this course were not written down */, shift_offset REAL /* likewise, right positive */, shift_height REAL /* likewise, high positive */) STRICT;

CREATE TABLE warning (
	-- Computed from the facts: every time a limit was neared or broken, from the joint where that began to
	-- the last one that it held for.
	id INTEGER PRIMARY KEY,
	kind TEXT NOT NULL,
	level TEXT NOT NULL, -- the worst it was: watch, breach
	leg INTEGER NOT NULL,
	joint INTEGER NOT NULL,
	worst_joint INTEGER NOT NULL,
	last_joint INTEGER NOT NULL,
	station REAL NOT NULL, -- at the worst joint
	value REAL NOT NULL, -- at the worst joint; job's unit, or degrees
	limit_value REAL NOT NULL,
	open INTEGER NOT NULL, -- 1: it holds at the end of the path
	superseded INTEGER NOT NULL, -- 1: on a leg that was pulled back
	acknowledged INTEGER NOT NULL,
	acknowledged_by TEXT,
	words TEXT NOT NULL
) STRICT;

CREATE VIEW log_book AS
	-- Every reading ever logged, who, when and why, and whether it still stands.
	SELECT r.id AS reading, r.leg, r.joint, r.joint_length, r.inclination, r.azimuth, r.tool_face, r.slid,
		r.remarks, a.at AS at_utc, a.who, a.words AS reason, r.corrects,
		CASE WHEN EXISTS (SELECT 1 FROM reading n WHERE n.corrects = r.id) THEN 'corrected'
			WHEN (SELECT superseded FROM path p WHERE p.reading = r.id) THEN 'pulled back' ELSE 'stands' END AS state
	FROM reading r JOIN act a ON a.id = r.act ORDER BY r.id;

CREATE VIEW history AS
	-- Everything that was done, in the order of time.
	SELECT id AS act, at AS at_utc, datetime(at, utc_offset || ' minutes') AS at_local, who, kind, leg, joint, words
	FROM act ORDER BY id;

CREATE VIEW open_warnings AS
	-- What nobody has acknowledged yet, on the bore as it lies.
	SELECT kind, level, joint, last_joint, station, words FROM warning
	WHERE acknowledged = 0 AND superseded = 0 ORDER BY id;

CREATE VIEW sheet AS
	-- The job sheet as the job began. What changed since: settings_changed.
	SELECT section, key, value FROM setting WHERE from_joint IS NULL ORDER BY id;

CREATE VIEW settings_changed AS
	-- Settings that changed while the bore was drilled, who changed them, when and why.
	SELECT s.section, s.key, s.value, s.from_joint, a.at AS at_utc, a.who, a.words AS reason
	FROM setting s JOIN act a ON a.id = s.act WHERE s.from_joint IS NOT NULL ORDER BY s.id;

CREATE VIEW as_drilled AS
	-- The bore as it lies in the ground, joint by joint from the entry (the rig side). Lengths in `unit`.
	SELECT joint, leg, bit_depth, survey_depth,
		CAST(inclination AS REAL) AS inclination, CAST(azimuth AS REAL) AS azimuth_as_read,
		station, offset AS offset_right_positive, height AS height_above_design, elevation, northing, easting,
		dogleg_deg AS dogleg_degrees, radius_joint AS radius_over_joint, radius_window AS radius_over_window,
		corridor_share * 100 AS corridor_percent, sigma_along, sigma_across, sigma_up,
		(SELECT value FROM sheet WHERE section = 'job' AND key = 'unit') AS unit,
		(SELECT value FROM sheet WHERE section = 'job' AND key = 'inclination') AS inclination_convention
	FROM path WHERE superseded = 0 ORDER BY joint;

CREATE TABLE repeat (
	-- A reading taken again where one was taken before, or on the way out of the hole. It never moves the path.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	way TEXT NOT NULL CHECK (way IN ('again', 'out')),
	depth TEXT CHECK (depth NOT GLOB '*[^-0-9.]*' AND length(depth) BETWEEN 1 AND 23) NOT NULL, -- of the sensor along the hole
	inclination TEXT CHECK (inclination NOT GLOB '*[^-0-9.]*' AND length(inclination) BETWEEN 1 AND 23) NOT NULL,
	azimuth TEXT CHECK (azimuth NOT GLOB '*[^-0-9.]*' AND length(azimuth) BETWEEN 1 AND 23),
	tool_face TEXT CHECK (tool_face NOT GLOB '*[^-0-9.]*' AND length(tool_face) BETWEEN 1 AND 23),
	total_gravity TEXT CHECK (total_gravity NOT GLOB '*[^-0-9.]*' AND length(total_gravity) BETWEEN 1 AND 23),
	total_field TEXT CHECK (total_field NOT GLOB '*[^-0-9.]*' AND length(total_field) BETWEEN 1 AND 23),
	dip TEXT CHECK (dip NOT GLOB '*[^-0-9.]*' AND length(dip) BETWEEN 1 AND 23)
) STRICT;

CREATE TRIGGER repeat_is_not_changed BEFORE UPDATE ON repeat
BEGIN SELECT RAISE(ABORT, 'repeat: what was written is never changed'); END;

CREATE TRIGGER repeat_is_not_deleted BEFORE DELETE ON repeat
BEGIN SELECT RAISE(ABORT, 'repeat: what was written is never deleted'); END;

CREATE TRIGGER repeat_is_not_replaced BEFORE INSERT ON repeat
WHEN EXISTS (SELECT 1 FROM repeat WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'repeat: what was written is never replaced'); END;

CREATE TABLE fix (
	-- A position that does not come from the readings. What is NULL was not observed. Sigmas are one sigma.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	kind TEXT NOT NULL CHECK (kind IN ('coil', 'beacon', 'walk-over', 'gyro', 'exit')),
	depth TEXT CHECK (depth NOT GLOB '*[^-0-9.]*' AND length(depth) BETWEEN 1 AND 23) NOT NULL, -- of the point that it fixes, along the hole from the entry
	easting TEXT CHECK (easting NOT GLOB '*[^-0-9.]*' AND length(easting) BETWEEN 1 AND 23),
	northing TEXT CHECK (northing NOT GLOB '*[^-0-9.]*' AND length(northing) BETWEEN 1 AND 23),
	station TEXT CHECK (station NOT GLOB '*[^-0-9.]*' AND length(station) BETWEEN 1 AND 23),
	offset TEXT CHECK (offset NOT GLOB '*[^-0-9.]*' AND length(offset) BETWEEN 1 AND 23), -- from the alignment, right positive
	elevation TEXT CHECK (elevation NOT GLOB '*[^-0-9.]*' AND length(elevation) BETWEEN 1 AND 23),
	sigma_along TEXT CHECK (sigma_along NOT GLOB '*[^-0-9.]*' AND length(sigma_along) BETWEEN 1 AND 23),
	sigma_across TEXT CHECK (sigma_across NOT GLOB '*[^-0-9.]*' AND length(sigma_across) BETWEEN 1 AND 23),
	sigma_up TEXT CHECK (sigma_up NOT GLOB '*[^-0-9.]*' AND length(sigma_up) BETWEEN 1 AND 23)
) STRICT;

CREATE TRIGGER fix_is_not_changed BEFORE UPDATE ON fix
BEGIN SELECT RAISE(ABORT, 'fix: what was written is never changed'); END;

CREATE TRIGGER fix_is_not_deleted BEFORE DELETE ON fix
BEGIN SELECT RAISE(ABORT, 'fix: what was written is never deleted'); END;

CREATE TRIGGER fix_is_not_replaced BEFORE INSERT ON fix
WHEN EXISTS (SELECT 1 FROM fix WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'fix: what was written is never replaced'); END;

CREATE TABLE fix_use (
	-- A fix was set aside, or used again; the last word on it holds.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	fix INTEGER NOT NULL REFERENCES fix (id),
	used INTEGER NOT NULL CHECK (used IN (0, 1))
) STRICT;

CREATE TRIGGER fix_use_is_not_changed BEFORE UPDATE ON fix_use
BEGIN SELECT RAISE(ABORT, 'fix_use: what was written is never changed'); END;

CREATE TRIGGER fix_use_is_not_deleted BEFORE DELETE ON fix_use
BEGIN SELECT RAISE(ABORT, 'fix_use: what was written is never deleted'); END;

CREATE TRIGGER fix_use_is_not_replaced BEFORE INSERT ON fix_use
WHEN EXISTS (SELECT 1 FROM fix_use WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'fix_use: what was written is never replaced'); END;

CREATE TABLE adjustment (
	-- A correction of the path that rests on fixes, taken by somebody, or taken back; the last row holds.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	taken INTEGER NOT NULL CHECK (taken IN (0, 1)), -- 0: taken back
	inclination TEXT CHECK (inclination NOT GLOB '*[^-0-9.]*' AND length(inclination) BETWEEN 1 AND 23), -- degrees added to every inclination, up positive
	azimuth TEXT CHECK (azimuth NOT GLOB '*[^-0-9.]*' AND length(azimuth) BETWEEN 1 AND 23), -- degrees added to every azimuth, clockwise positive
	stretch TEXT CHECK (stretch NOT GLOB '*[^-0-9.]*' AND length(stretch) BETWEEN 1 AND 23), -- lengths grow by this share
	fixes TEXT -- ids of the fixes that it rests on
) STRICT;

CREATE TRIGGER adjustment_is_not_changed BEFORE UPDATE ON adjustment
BEGIN SELECT RAISE(ABORT, 'adjustment: what was written is never changed'); END;

CREATE TRIGGER adjustment_is_not_deleted BEFORE DELETE ON adjustment
BEGIN SELECT RAISE(ABORT, 'adjustment: what was written is never deleted'); END;

CREATE TRIGGER adjustment_is_not_replaced BEFORE INSERT ON adjustment
WHEN EXISTS (SELECT 1 FROM adjustment WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'adjustment: what was written is never replaced'); END;

CREATE VIEW fixes AS
	-- Every independent position, and whether it is used.
	SELECT f.id AS fix, f.kind, f.depth, f.easting, f.northing, f.station, f.offset AS offset_right_positive, f.elevation,
		f.sigma_along, f.sigma_across, f.sigma_up, a.leg, a.joint, a.at AS at_utc, a.who, a.words AS remarks,
		coalesce((SELECT used FROM fix_use u WHERE u.fix = f.id ORDER BY u.id DESC LIMIT 1), 1) AS used
	FROM fix f JOIN act a ON a.id = f.act ORDER BY f.id;

CREATE TABLE checklist (
	-- Points of the contract that are ticked off before the pilot is accepted.
	id INTEGER PRIMARY KEY, -- its number
	act INTEGER NOT NULL REFERENCES act (id),
	point TEXT NOT NULL -- what has to be done or handed over
) STRICT;

CREATE TRIGGER checklist_is_not_changed BEFORE UPDATE ON checklist
BEGIN SELECT RAISE(ABORT, 'checklist: what was written is never changed'); END;

CREATE TRIGGER checklist_is_not_deleted BEFORE DELETE ON checklist
BEGIN SELECT RAISE(ABORT, 'checklist: what was written is never deleted'); END;

CREATE TRIGGER checklist_is_not_replaced BEFORE INSERT ON checklist
WHEN EXISTS (SELECT 1 FROM checklist WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'checklist: what was written is never replaced'); END;

CREATE TABLE disposition (
	-- What the engineer said of a breach: accepted as it stood then, or open again; the last row on it holds,
	-- unless the breach has grown since. A breach that has none is open, or its joints were pulled back.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	kind TEXT NOT NULL, -- as in warning
	from_leg INTEGER NOT NULL CHECK (from_leg >= 1), -- where the breach began
	from_joint INTEGER NOT NULL CHECK (from_joint >= 0), -- likewise
	value TEXT CHECK (value NOT GLOB '*[^-0-9.]*' AND length(value) BETWEEN 1 AND 23) NOT NULL, -- the worst that it was then, as in warning
	accepted INTEGER NOT NULL CHECK (accepted IN (0, 1)), -- 0: taken back
	reference TEXT -- the calculation or letter that it rests on
) STRICT;

CREATE TRIGGER disposition_is_not_changed BEFORE UPDATE ON disposition
BEGIN SELECT RAISE(ABORT, 'disposition: what was written is never changed'); END;

CREATE TRIGGER disposition_is_not_deleted BEFORE DELETE ON disposition
BEGIN SELECT RAISE(ABORT, 'disposition: what was written is never deleted'); END;

CREATE TRIGGER disposition_is_not_replaced BEFORE INSERT ON disposition
WHEN EXISTS (SELECT 1 FROM disposition WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'disposition: what was written is never replaced'); END;

CREATE TABLE ticked (
	-- A point of the checklist is done, or is not after all; the last row on it holds.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	point INTEGER NOT NULL REFERENCES checklist (id),
	done INTEGER NOT NULL CHECK (done IN (0, 1)),
	reference TEXT -- where what was done or handed over is kept
) STRICT;

CREATE TRIGGER ticked_is_not_changed BEFORE UPDATE ON ticked
BEGIN SELECT RAISE(ABORT, 'ticked: what was written is never changed'); END;

CREATE TRIGGER ticked_is_not_deleted BEFORE DELETE ON ticked
BEGIN SELECT RAISE(ABORT, 'ticked: what was written is never deleted'); END;

CREATE TRIGGER ticked_is_not_replaced BEFORE INSERT ON ticked
WHEN EXISTS (SELECT 1 FROM ticked WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'ticked: what was written is never replaced'); END;

CREATE TABLE acceptance (
	-- The pilot was accepted, which closes it, or was opened again; the last row holds. The statement, or the
	-- reason, is the words of the act.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	accepted INTEGER NOT NULL CHECK (accepted IN (0, 1)), -- 0: opened again
	capacity TEXT -- in which who signed
) STRICT;

CREATE TRIGGER acceptance_is_not_changed BEFORE UPDATE ON acceptance
BEGIN SELECT RAISE(ABORT, 'acceptance: what was written is never changed'); END;

CREATE TRIGGER acceptance_is_not_deleted BEFORE DELETE ON acceptance
BEGIN SELECT RAISE(ABORT, 'acceptance: what was written is never deleted'); END;

CREATE TRIGGER acceptance_is_not_replaced BEFORE INSERT ON acceptance
WHEN EXISTS (SELECT 1 FROM acceptance WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'acceptance: what was written is never replaced'); END;

CREATE VIEW nonconformances AS
	-- Every breach, and the last word on it. That it has grown since it was accepted shows in the two values.
	SELECT w.kind, w.leg, w.joint, w.last_joint, w.station, w.value, w.limit_value, w.words,
		CASE WHEN w.superseded THEN 'redrilled' WHEN d.accepted THEN 'accepted' ELSE 'open' END AS disposition,
		d.value AS accepted_value, d.reference, a.who, a.at AS at_utc, a.words AS reason
	FROM warning w
	LEFT JOIN disposition d ON w.superseded = 0 AND d.id = (SELECT max(id) FROM disposition
		WHERE kind = w.kind AND from_leg = w.leg AND from_joint = w.joint)
	LEFT JOIN act a ON a.id = d.act
	WHERE w.level = 'breach' AND (w.open = 1 OR w.kind NOT IN
		('exit-window', 'leaves-corridor', 'azimuth-reference', 'response', 'fix', 'no-fix',
		'clearance-ahead', 'cover-ahead'))
	ORDER BY w.leg, w.joint, w.kind;

CREATE TABLE fluid_event (
	-- What the drilling fluid did. A record adds what was missing of a release; the last text of each column holds.
	-- Here and in the tables below: what a row of strike names is struck out, and counts for nothing. Forces are kN or
	-- lbf, torque kN m or ft lbf, flow L/min or gal/min, pressure kPa or psi, volumes m3 or gal, diameters mm or inches.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	kind TEXT NOT NULL CHECK (kind IN ('full', 'partial', 'none', 'loss', 'release', 'record')), -- release: it came to the surface
	station TEXT CHECK (station NOT GLOB '*[^-0-9.]*' AND length(station) BETWEEN 1 AND 23), -- NULL: at the bit or the tool
	volume TEXT CHECK (volume NOT GLOB '*[^-0-9.]*' AND length(volume) BETWEEN 1 AND 23), -- lost or released
	place TEXT, -- where it came up
	receiving TEXT, -- what it ran into
	told TEXT, -- who was told, and when
	done TEXT, -- how it was contained and cleaned up
	"of" INTEGER NOT NULL -- of a record: id of its release; 0 else
) STRICT;

CREATE TRIGGER fluid_event_is_not_changed BEFORE UPDATE ON fluid_event
BEGIN SELECT RAISE(ABORT, 'fluid_event: what was written is never changed'); END;

CREATE TRIGGER fluid_event_is_not_deleted BEFORE DELETE ON fluid_event
BEGIN SELECT RAISE(ABORT, 'fluid_event: what was written is never deleted'); END;

CREATE TRIGGER fluid_event_is_not_replaced BEFORE INSERT ON fluid_event
WHEN EXISTS (SELECT 1 FROM fluid_event WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'fluid_event: what was written is never replaced'); END;

CREATE TABLE pass (
	-- A pass of a tool through the whole hole begins.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	kind TEXT NOT NULL CHECK (kind IN ('ream', 'swab')),
	"to" TEXT NOT NULL CHECK ("to" IN ('entry', 'exit')), -- the side it goes to; the entry is the rig side
	diameter TEXT CHECK (diameter NOT GLOB '*[^-0-9.]*' AND length(diameter) BETWEEN 1 AND 23) NOT NULL, -- of the tool
	tool TEXT
) STRICT;

CREATE TRIGGER pass_is_not_changed BEFORE UPDATE ON pass
BEGIN SELECT RAISE(ABORT, 'pass: what was written is never changed'); END;

CREATE TRIGGER pass_is_not_deleted BEFORE DELETE ON pass
BEGIN SELECT RAISE(ABORT, 'pass: what was written is never deleted'); END;

CREATE TRIGGER pass_is_not_replaced BEFORE INSERT ON pass
WHEN EXISTS (SELECT 1 FROM pass WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pass: what was written is never replaced'); END;

CREATE TABLE pass_joint (
	-- The tool of a pass went through a joint.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	pass INTEGER NOT NULL REFERENCES pass (id),
	joint INTEGER NOT NULL CHECK (joint >= 1), -- as numbered in the pilot
	pull TEXT CHECK (pull NOT GLOB '*[^-0-9.]*' AND length(pull) BETWEEN 1 AND 23), -- axial load, pulling positive
	torque TEXT CHECK (torque NOT GLOB '*[^-0-9.]*' AND length(torque) BETWEEN 1 AND 23),
	flow TEXT CHECK (flow NOT GLOB '*[^-0-9.]*' AND length(flow) BETWEEN 1 AND 23),
	pressure TEXT CHECK (pressure NOT GLOB '*[^-0-9.]*' AND length(pressure) BETWEEN 1 AND 23), -- of the pump
	annular TEXT CHECK (annular NOT GLOB '*[^-0-9.]*' AND length(annular) BETWEEN 1 AND 23), -- measured at the tool
	started TEXT CHECK (started GLOB '[0-2][0-9]:[0-5][0-9]'), -- local time
	ended TEXT CHECK (ended GLOB '[0-2][0-9]:[0-5][0-9]'),
	returns TEXT CHECK (returns IN ('full', 'partial', 'none'))
) STRICT;

CREATE TRIGGER pass_joint_is_not_changed BEFORE UPDATE ON pass_joint
BEGIN SELECT RAISE(ABORT, 'pass_joint: what was written is never changed'); END;

CREATE TRIGGER pass_joint_is_not_deleted BEFORE DELETE ON pass_joint
BEGIN SELECT RAISE(ABORT, 'pass_joint: what was written is never deleted'); END;

CREATE TRIGGER pass_joint_is_not_replaced BEFORE INSERT ON pass_joint
WHEN EXISTS (SELECT 1 FROM pass_joint WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pass_joint: what was written is never replaced'); END;

CREATE TABLE pass_end (
	-- A pass is through.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	pass INTEGER NOT NULL REFERENCES pass (id)
) STRICT;

CREATE TRIGGER pass_end_is_not_changed BEFORE UPDATE ON pass_end
BEGIN SELECT RAISE(ABORT, 'pass_end: what was written is never changed'); END;

CREATE TRIGGER pass_end_is_not_deleted BEFORE DELETE ON pass_end
BEGIN SELECT RAISE(ABORT, 'pass_end: what was written is never deleted'); END;

CREATE TRIGGER pass_end_is_not_replaced BEFORE INSERT ON pass_end
WHEN EXISTS (SELECT 1 FROM pass_end WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pass_end: what was written is never replaced'); END;

CREATE TABLE pipe (
	-- A joint of the product pipe's string.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	joint INTEGER NOT NULL CHECK (joint >= 1), -- number in the string, 1 behind the pull head
	length TEXT CHECK (length NOT GLOB '*[^-0-9.]*' AND length(length) BETWEEN 1 AND 23) NOT NULL,
	mark TEXT -- what is painted on it
) STRICT;

CREATE TRIGGER pipe_is_not_changed BEFORE UPDATE ON pipe
BEGIN SELECT RAISE(ABORT, 'pipe: what was written is never changed'); END;

CREATE TRIGGER pipe_is_not_deleted BEFORE DELETE ON pipe
BEGIN SELECT RAISE(ABORT, 'pipe: what was written is never deleted'); END;

CREATE TRIGGER pipe_is_not_replaced BEFORE INSERT ON pipe
WHEN EXISTS (SELECT 1 FROM pipe WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pipe: what was written is never replaced'); END;

CREATE TABLE pipe_record (
	-- What was done to the string; the last word on a thing holds.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	kind TEXT NOT NULL CHECK (kind IN ('weld', 'inspection', 'coating', 'test', 'drag')),
	joint INTEGER NOT NULL CHECK (joint >= 0), -- weld N is between joints N and N + 1; 0: the whole string
	outcome TEXT NOT NULL CHECK (outcome IN ('good', 'bad')),
	pressure TEXT CHECK (pressure NOT GLOB '*[^-0-9.]*' AND length(pressure) BETWEEN 1 AND 23), -- of a test: held
	hours TEXT CHECK (hours NOT GLOB '*[^-0-9.]*' AND length(hours) BETWEEN 1 AND 23), -- of a test: for how long
	reference TEXT -- where the record is kept
) STRICT;

CREATE TRIGGER pipe_record_is_not_changed BEFORE UPDATE ON pipe_record
BEGIN SELECT RAISE(ABORT, 'pipe_record: what was written is never changed'); END;

CREATE TRIGGER pipe_record_is_not_deleted BEFORE DELETE ON pipe_record
BEGIN SELECT RAISE(ABORT, 'pipe_record: what was written is never deleted'); END;

CREATE TRIGGER pipe_record_is_not_replaced BEFORE INSERT ON pipe_record
WHEN EXISTS (SELECT 1 FROM pipe_record WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pipe_record: what was written is never replaced'); END;

CREATE TABLE pull_begin (
	-- The pull of the product pipe begins, from the exit to the entry. Why with something missing: the words of the act.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	missing TEXT -- what was missing then; NULL: nothing
) STRICT;

CREATE TRIGGER pull_begin_is_not_changed BEFORE UPDATE ON pull_begin
BEGIN SELECT RAISE(ABORT, 'pull_begin: what was written is never changed'); END;

CREATE TRIGGER pull_begin_is_not_deleted BEFORE DELETE ON pull_begin
BEGIN SELECT RAISE(ABORT, 'pull_begin: what was written is never deleted'); END;

CREATE TRIGGER pull_begin_is_not_replaced BEFORE INSERT ON pull_begin
WHEN EXISTS (SELECT 1 FROM pull_begin WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pull_begin: what was written is never replaced'); END;

CREATE TABLE pull_joint (
	-- A joint of drill pipe came out at the entry: the pull head has come to where the joint began.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	joint INTEGER NOT NULL CHECK (joint >= 1), -- as numbered in the pilot
	force TEXT CHECK (force NOT GLOB '*[^-0-9.]*' AND length(force) BETWEEN 1 AND 23) NOT NULL, -- at the rig
	torque TEXT CHECK (torque NOT GLOB '*[^-0-9.]*' AND length(torque) BETWEEN 1 AND 23),
	flow TEXT CHECK (flow NOT GLOB '*[^-0-9.]*' AND length(flow) BETWEEN 1 AND 23),
	annular TEXT CHECK (annular NOT GLOB '*[^-0-9.]*' AND length(annular) BETWEEN 1 AND 23), -- measured at the pull head
	started TEXT CHECK (started GLOB '[0-2][0-9]:[0-5][0-9]'), -- local time
	ended TEXT CHECK (ended GLOB '[0-2][0-9]:[0-5][0-9]')
) STRICT;

CREATE TRIGGER pull_joint_is_not_changed BEFORE UPDATE ON pull_joint
BEGIN SELECT RAISE(ABORT, 'pull_joint: what was written is never changed'); END;

CREATE TRIGGER pull_joint_is_not_deleted BEFORE DELETE ON pull_joint
BEGIN SELECT RAISE(ABORT, 'pull_joint: what was written is never deleted'); END;

CREATE TRIGGER pull_joint_is_not_replaced BEFORE INSERT ON pull_joint
WHEN EXISTS (SELECT 1 FROM pull_joint WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pull_joint: what was written is never replaced'); END;

CREATE TABLE pull_end (
	-- The product pipe is through.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	extra TEXT CHECK (extra NOT GLOB '*[^-0-9.]*' AND length(extra) BETWEEN 1 AND 23), -- pulled past what is needed, to be looked at
	coating TEXT NOT NULL CHECK (coating IN ('sound', 'scratched', 'damaged')), -- as it came out
	survey TEXT -- where the final survey is kept
) STRICT;

CREATE TRIGGER pull_end_is_not_changed BEFORE UPDATE ON pull_end
BEGIN SELECT RAISE(ABORT, 'pull_end: what was written is never changed'); END;

CREATE TRIGGER pull_end_is_not_deleted BEFORE DELETE ON pull_end
BEGIN SELECT RAISE(ABORT, 'pull_end: what was written is never deleted'); END;

CREATE TRIGGER pull_end_is_not_replaced BEFORE INSERT ON pull_end
WHEN EXISTS (SELECT 1 FROM pull_end WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'pull_end: what was written is never replaced'); END;

CREATE TABLE strike (
	-- An entry of the tables above is struck out, with the reason in the words of the act. Nothing is erased.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	entry INTEGER NOT NULL REFERENCES act (id) -- the act that brought it
) STRICT;

CREATE TRIGGER strike_is_not_changed BEFORE UPDATE ON strike
BEGIN SELECT RAISE(ABORT, 'strike: what was written is never changed'); END;

CREATE TRIGGER strike_is_not_deleted BEFORE DELETE ON strike
BEGIN SELECT RAISE(ABORT, 'strike: what was written is never deleted'); END;

CREATE TRIGGER strike_is_not_replaced BEFORE INSERT ON strike
WHEN EXISTS (SELECT 1 FROM strike WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'strike: what was written is never replaced'); END;

CREATE VIEW opening AS
	-- The joints of every pass that counts, in the order in which they were opened.
	SELECT p.id AS pass, p.kind, p."to" AS to_side, p.diameter, p.tool, j.joint, j.pull, j.torque, j.flow, j.pressure,
		j.annular, j.started, j.ended, j.returns, a.at AS at_utc, a.who, a.words AS remarks
	FROM pass p JOIN pass_joint j ON j.pass = p.id JOIN act a ON a.id = j.act
	WHERE p.act NOT IN (SELECT entry FROM strike) AND j.act NOT IN (SELECT entry FROM strike) ORDER BY j.id;

CREATE VIEW pullback AS
	-- The pull of the product pipe, joint by joint.
	SELECT j.joint, j.force, j.torque, j.flow, j.annular, j.started, j.ended, a.at AS at_utc, a.who, a.words AS remarks
	FROM pull_joint j JOIN act a ON a.id = j.act WHERE j.act NOT IN (SELECT entry FROM strike) ORDER BY j.id;

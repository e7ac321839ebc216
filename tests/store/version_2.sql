-- A job file as the second version of the schema made it: kestrel-road, seven joints, pulled back to joint 5, a fix, a
-- correction in force, a repeat, another tool, a note. Made once with that version and never again.
PRAGMA application_id = 1396854610;
PRAGMA user_version = 2;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
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
INSERT INTO act VALUES(1,'01a2143dcca20e778c1b4b532a7f081d','new','2026-11-25T19:45:24.130Z',0,'P. Ortega',1,0,NULL);
INSERT INTO act VALUES(2,'01a2143dccad89589f2c12df4e7f0f60','log','2026-11-25T19:45:24.141Z',0,'A. Lund',1,1,NULL);
INSERT INTO act VALUES(3,'01a2143dccaedbd10be8b538abffe3c4','log','2026-11-25T19:45:24.142Z',0,'A. Lund',1,2,NULL);
INSERT INTO act VALUES(4,'01a2143dccaf09e3699831dabec49fee','log','2026-11-25T19:45:24.143Z',0,'A. Lund',1,3,NULL);
INSERT INTO act VALUES(5,'01a2143dccb0ec227e20d0949eb5d5be','log','2026-11-25T19:45:24.144Z',0,'A. Lund',1,4,NULL);
INSERT INTO act VALUES(6,'01a2143dccb12b1f88595153838ceee4','log','2026-11-25T19:45:24.145Z',0,'A. Lund',1,5,NULL);
INSERT INTO act VALUES(7,'01a2143dccb28e48550b94f4f40f0e85','log','2026-11-25T19:45:24.146Z',0,'A. Lund',1,6,NULL);
INSERT INTO act VALUES(8,'01a2143dccb3fc44bda9cc895ab33045','log','2026-11-25T19:45:24.147Z',0,'A. Lund',1,7,NULL);
INSERT INTO act VALUES(9,'01a2143dccb8b388ee0154a05327dadb','withdraw','2026-11-25T19:45:24.152Z',0,'A. Lund',2,5,'again');
INSERT INTO act VALUES(10,'01a2143dccbe2fe9de912b5e80eeb868','fix','2026-11-25T19:45:24.158Z',0,'C. Moss',2,5,'walk-over, fix 1, at 38 m');
INSERT INTO act VALUES(11,'01a2143dccc34a0962a88b3531e5c29b','adjust','2026-11-25T19:45:24.163Z',0,'P. Ortega',2,5,'path corrected by inclination 0, azimuth 0.205, stretch 0, on fixes 1: walked over');
INSERT INTO act VALUES(12,'01a2143dccc9c9f1987aff68d76ba709','repeat','2026-11-25T19:45:24.169Z',0,'A. Lund',2,5,'again at 30 m, inclination -10.8, azimuth 32.5');
INSERT INTO act VALUES(13,'01a2143dcccff98b3c6d07c2676ad786','change','2026-11-25T19:45:24.175Z',0,'A. Lund',2,5,'tool azimuth_correction 0.1 (was not given), from joint 6 on: another tool');
INSERT INTO act VALUES(14,'01a2143dccd6aa97c5a858873c592f9d','log','2026-11-25T19:45:24.182Z',0,'A. Lund',2,6,NULL);
INSERT INTO act VALUES(15,'01a2143dccdcd40e23b45e3eefa66bb2','note','2026-11-25T19:45:24.188Z',0,'A. Lund',2,6,'kept for good');
CREATE TABLE setting (
	-- The keys of the job sheet, as written there. A key that is not here was left out.
	-- Lengths are in the unit that section job, key unit says (m, ft: international, ftUS: US survey).
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	section TEXT NOT NULL,
	key TEXT NOT NULL,
	value TEXT NOT NULL
, from_joint INTEGER /* of a setting that changed while the bore was drilled: it holds for what was logged later, and for joints in the ground from this one on; NULL: as the job began */ CHECK (from_joint >= 0)) STRICT;
INSERT INTO setting VALUES(1,1,'job','name','Kestrel Road',NULL);
INSERT INTO setting VALUES(2,1,'job','owner','Auenfeld Water',NULL);
INSERT INTO setting VALUES(3,1,'job','contractor','Lattimer Crossings',NULL);
INSERT INTO setting VALUES(4,1,'job','unit','m',NULL);
INSERT INTO setting VALUES(5,1,'job','inclination','level',NULL);
INSERT INTO setting VALUES(6,1,'control','crs','EPSG:25832',NULL);
INSERT INTO setting VALUES(7,1,'control','vertical_datum','DHHN2016',NULL);
INSERT INTO setting VALUES(8,1,'control','entry','563210.40, 5932845.20, 21.40',NULL);
INSERT INTO setting VALUES(9,1,'control','exit','563499.596, 5933145.956, 23.10',NULL);
INSERT INTO setting VALUES(10,1,'azimuth','reference','magnetic',NULL);
INSERT INTO setting VALUES(11,1,'azimuth','declination','4.31',NULL);
INSERT INTO setting VALUES(12,1,'azimuth','convergence','0.77',NULL);
INSERT INTO setting VALUES(13,1,'azimuth','bore_azimuth_read','32.9',NULL);
INSERT INTO setting VALUES(14,1,'azimuth','scale_factor','0.99965',NULL);
INSERT INTO setting VALUES(15,1,'tool','sensor_to_bit','3.2',NULL);
INSERT INTO setting VALUES(16,1,'tool','tool_face_offset','-4',NULL);
INSERT INTO setting VALUES(17,1,'tool','sensor_axes','x y z',NULL);
INSERT INTO setting VALUES(18,1,'tool','gravity_unit','g',NULL);
INSERT INTO setting VALUES(19,1,'tool','field_unit','nT',NULL);
INSERT INTO setting VALUES(20,1,'tool','gravity_gate','0.005',NULL);
INSERT INTO setting VALUES(21,1,'tool','field_gate','300',NULL);
INSERT INTO setting VALUES(22,1,'tool','dip_gate','0.3',NULL);
INSERT INTO setting VALUES(23,1,'tool','sigma_inclination','0.1',NULL);
INSERT INTO setting VALUES(24,1,'tool','sigma_azimuth','0.3',NULL);
INSERT INTO setting VALUES(25,1,'tool','sigma_depth','0.02',NULL);
INSERT INTO setting VALUES(26,1,'tool','bias_inclination','0.1',NULL);
INSERT INTO setting VALUES(27,1,'tool','bias_azimuth','0.3',NULL);
INSERT INTO setting VALUES(28,1,'tool','projection','curve',NULL);
INSERT INTO setting VALUES(29,1,'survey','course','arc',NULL);
INSERT INTO setting VALUES(30,1,'uncertainty','declination','0.26',NULL);
INSERT INTO setting VALUES(31,1,'uncertainty','declination_by_field','5417',NULL);
INSERT INTO setting VALUES(32,1,'uncertainty','horizontal_field','20000',NULL);
INSERT INTO setting VALUES(33,1,'uncertainty','string_field','220',NULL);
INSERT INTO setting VALUES(34,1,'uncertainty','carried_bias','0.5',NULL);
INSERT INTO setting VALUES(35,1,'uncertainty','carried_noise','0.5',NULL);
INSERT INTO setting VALUES(36,1,'uncertainty','depth_scale','0.001',NULL);
INSERT INTO setting VALUES(37,1,'uncertainty','confidence','95',NULL);
INSERT INTO setting VALUES(38,1,'uncertainty','judge','mean',NULL);
INSERT INTO setting VALUES(39,1,'drill_pipe','joint_length','9.6',NULL);
INSERT INTO setting VALUES(40,1,'drill_pipe','minimum_radius','110',NULL);
INSERT INTO setting VALUES(41,1,'product_pipe','material','pe',NULL);
INSERT INTO setting VALUES(42,1,'product_pipe','outside_diameter','315',NULL);
INSERT INTO setting VALUES(43,1,'product_pipe','wall','28.6',NULL);
INSERT INTO setting VALUES(44,1,'product_pipe','yield','23',NULL);
INSERT INTO setting VALUES(45,1,'product_pipe','minimum_radius','12',NULL);
INSERT INTO setting VALUES(46,1,'bend','joint_minimum','120',NULL);
INSERT INTO setting VALUES(47,1,'bend','window_joints','4',NULL);
INSERT INTO setting VALUES(48,1,'bend','window_minimum','170',NULL);
INSERT INTO setting VALUES(49,1,'bend','method','sum',NULL);
INSERT INTO setting VALUES(50,1,'corridor','up','0.8',NULL);
INSERT INTO setting VALUES(51,1,'corridor','down','1.2',NULL);
INSERT INTO setting VALUES(52,1,'corridor','left','1.2',NULL);
INSERT INTO setting VALUES(53,1,'corridor','right','1.2',NULL);
INSERT INTO setting VALUES(54,1,'corridor','near','0.75',NULL);
INSERT INTO setting VALUES(55,1,'corridor','look_ahead','2',NULL);
INSERT INTO setting VALUES(56,1,'corridor','exit_long','2',NULL);
INSERT INTO setting VALUES(57,1,'corridor','exit_short','1',NULL);
INSERT INTO setting VALUES(58,1,'corridor','exit_left','0.8',NULL);
INSERT INTO setting VALUES(59,1,'corridor','exit_right','0.8',NULL);
INSERT INTO setting VALUES(60,1,'steering','slide_turn','0.7',NULL);
INSERT INTO setting VALUES(61,1,'steering','droop','0.03',NULL);
INSERT INTO setting VALUES(62,1,'steering','walk','0.01',NULL);
INSERT INTO setting VALUES(63,1,'steering','tool_face_as','clock',NULL);
INSERT INTO setting VALUES(64,1,'entry','inclination','-14',NULL);
INSERT INTO setting VALUES(65,1,'entry','azimuth','32.7',NULL);
INSERT INTO setting VALUES(66,13,'tool','azimuth_correction','0.1',6);
CREATE TABLE alignment (
	-- Horizontal points of intersection of the design, from entry to exit; none: a straight line.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	easting TEXT CHECK (easting NOT GLOB '*[^-0-9.]*' AND length(easting) BETWEEN 1 AND 23) NOT NULL,
	northing TEXT CHECK (northing NOT GLOB '*[^-0-9.]*' AND length(northing) BETWEEN 1 AND 23) NOT NULL,
	radius TEXT CHECK (radius NOT GLOB '*[^-0-9.]*' AND length(radius) BETWEEN 1 AND 23) -- of the curve at this point
) STRICT;
INSERT INTO alignment VALUES(1,1,'563210.400','5932845.200',NULL);
INSERT INTO alignment VALUES(2,1,'563322.576','5932998.469','400');
INSERT INTO alignment VALUES(3,1,'563499.596','5933145.956',NULL);
CREATE TABLE profile (
	-- Vertical points of intersection of the design, from entry to exit.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	station TEXT CHECK (station NOT GLOB '*[^-0-9.]*' AND length(station) BETWEEN 1 AND 23) NOT NULL, -- horizontal distance along the alignment from the entry
	elevation TEXT CHECK (elevation NOT GLOB '*[^-0-9.]*' AND length(elevation) BETWEEN 1 AND 23) NOT NULL,
	radius TEXT CHECK (radius NOT GLOB '*[^-0-9.]*' AND length(radius) BETWEEN 1 AND 23) -- of the curve at this point
) STRICT;
INSERT INTO profile VALUES(1,1,'0','21.4',NULL);
INSERT INTO profile VALUES(2,1,'44.12','10.4','250');
INSERT INTO profile VALUES(3,1,'360.25','10.4','250');
INSERT INTO profile VALUES(4,1,'420','23.1',NULL);
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
) STRICT;
INSERT INTO corridor VALUES(1,1,'150','235','0.5','0.9','0.9','0.9');
INSERT INTO corridor VALUES(2,1,'270','330','0.6','1.0','1.0','1.0');
CREATE TABLE ground (
	-- Original ground and river bed along the alignment.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	station TEXT CHECK (station NOT GLOB '*[^-0-9.]*' AND length(station) BETWEEN 1 AND 23) NOT NULL,
	elevation TEXT CHECK (elevation NOT GLOB '*[^-0-9.]*' AND length(elevation) BETWEEN 1 AND 23) NOT NULL
) STRICT;
INSERT INTO ground VALUES(1,1,'0','21.4');
INSERT INTO ground VALUES(2,1,'35','21.3');
INSERT INTO ground VALUES(3,1,'80','21.1');
INSERT INTO ground VALUES(4,1,'120','20.9');
INSERT INTO ground VALUES(5,1,'146','20.8');
INSERT INTO ground VALUES(6,1,'152','22.3');
INSERT INTO ground VALUES(7,1,'164','22.5');
INSERT INTO ground VALUES(8,1,'171','22.5');
INSERT INTO ground VALUES(9,1,'183','22.4');
INSERT INTO ground VALUES(10,1,'190','21.0');
INSERT INTO ground VALUES(11,1,'232','20.7');
INSERT INTO ground VALUES(12,1,'262','20.2');
INSERT INTO ground VALUES(13,1,'276','19.1');
INSERT INTO ground VALUES(14,1,'284','17.2');
INSERT INTO ground VALUES(15,1,'292','15.9');
INSERT INTO ground VALUES(16,1,'303','15.4');
INSERT INTO ground VALUES(17,1,'314','15.8');
INSERT INTO ground VALUES(18,1,'322','17.4');
INSERT INTO ground VALUES(19,1,'330','19.5');
INSERT INTO ground VALUES(20,1,'346','21.2');
INSERT INTO ground VALUES(21,1,'380','22.4');
INSERT INTO ground VALUES(22,1,'420','23.1');
INSERT INTO ground VALUES(23,1,'440','23.2');
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
INSERT INTO obstacles VALUES(1,1,'20 kV cable','cable','563233.72','5932902.46','20.1','0.1','1');
INSERT INTO obstacles VALUES(2,1,'20 kV cable','cable','563259.70','5932887.16','20.1','0.1','1');
INSERT INTO obstacles VALUES(3,1,'gas DN 200','gas main','563288.36','5932984.92','20.6','0.22','1.5');
INSERT INTO obstacles VALUES(4,1,'gas DN 200','gas main','563318.41','5932958.46','20.6','0.22','1.5');
INSERT INTO obstacles VALUES(5,1,'sewer DN 800','sewer','563307.51','5933007.21','17.3','0.96','2');
INSERT INTO obstacles VALUES(6,1,'sewer DN 800','sewer','563337.55','5932980.81','17.2','0.96','2');
INSERT INTO obstacles VALUES(7,1,'weir sheet piles','sheet piles','563411.27','5933064.56','12.6','0.4','1');
INSERT INTO obstacles VALUES(8,1,'weir sheet piles','sheet piles','563428.04','5933053.81','12.6','0.4','1');
CREATE TABLE tally (
	-- Measured lengths of the joints of drill pipe.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	joint INTEGER NOT NULL,
	length TEXT CHECK (length NOT GLOB '*[^-0-9.]*' AND length(length) BETWEEN 1 AND 23) NOT NULL
) STRICT;
INSERT INTO tally VALUES(1,1,1,'9.60');
INSERT INTO tally VALUES(2,1,2,'9.60');
INSERT INTO tally VALUES(3,1,3,'9.58');
INSERT INTO tally VALUES(4,1,4,'9.59');
INSERT INTO tally VALUES(5,1,5,'9.61');
INSERT INTO tally VALUES(6,1,6,'9.61');
INSERT INTO tally VALUES(7,1,7,'9.60');
INSERT INTO tally VALUES(8,1,8,'9.58');
INSERT INTO tally VALUES(9,1,9,'9.58');
INSERT INTO tally VALUES(10,1,10,'9.58');
INSERT INTO tally VALUES(11,1,11,'9.61');
INSERT INTO tally VALUES(12,1,12,'9.62');
INSERT INTO tally VALUES(13,1,13,'9.60');
INSERT INTO tally VALUES(14,1,14,'9.58');
INSERT INTO tally VALUES(15,1,15,'9.60');
INSERT INTO tally VALUES(16,1,16,'9.62');
INSERT INTO tally VALUES(17,1,17,'9.62');
INSERT INTO tally VALUES(18,1,18,'9.60');
INSERT INTO tally VALUES(19,1,19,'9.60');
INSERT INTO tally VALUES(20,1,20,'9.60');
INSERT INTO tally VALUES(21,1,21,'9.58');
INSERT INTO tally VALUES(22,1,22,'9.60');
INSERT INTO tally VALUES(23,1,23,'9.60');
INSERT INTO tally VALUES(24,1,24,'9.58');
INSERT INTO tally VALUES(25,1,25,'9.59');
INSERT INTO tally VALUES(26,1,26,'9.60');
INSERT INTO tally VALUES(27,1,27,'9.60');
INSERT INTO tally VALUES(28,1,28,'9.60');
INSERT INTO tally VALUES(29,1,29,'9.60');
INSERT INTO tally VALUES(30,1,30,'9.60');
INSERT INTO tally VALUES(31,1,31,'9.60');
INSERT INTO tally VALUES(32,1,32,'9.59');
INSERT INTO tally VALUES(33,1,33,'9.59');
INSERT INTO tally VALUES(34,1,34,'9.60');
INSERT INTO tally VALUES(35,1,35,'9.58');
INSERT INTO tally VALUES(36,1,36,'9.62');
INSERT INTO tally VALUES(37,1,37,'9.60');
INSERT INTO tally VALUES(38,1,38,'9.59');
INSERT INTO tally VALUES(39,1,39,'9.61');
INSERT INTO tally VALUES(40,1,40,'9.62');
INSERT INTO tally VALUES(41,1,41,'9.60');
INSERT INTO tally VALUES(42,1,42,'9.60');
INSERT INTO tally VALUES(43,1,43,'9.60');
INSERT INTO tally VALUES(44,1,44,'9.61');
INSERT INTO tally VALUES(45,1,45,'9.60');
INSERT INTO tally VALUES(46,1,46,'9.58');
INSERT INTO tally VALUES(47,1,47,'9.62');
INSERT INTO tally VALUES(48,1,48,'9.60');
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
INSERT INTO soil VALUES(1,1,'-5','440','21.4','fill and topsoil','18.5','0','28','6000','18.9');
INSERT INTO soil VALUES(2,1,'-5','440','18.6','glacial till','21','18','30','22000','18.9');
INSERT INTO soil VALUES(3,1,'250','350','14.9','river sand','19','0','34','14000','17.2');
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
INSERT INTO reading VALUES(1,2,NULL,1,1,'9.60','-14.1','32.8',NULL,NULL,'27','4.4','420','1970','22','full','07:07','07:18','entry',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(2,3,NULL,1,2,'9.60','-13.8','32.9',NULL,'0','23','4.4','420','1940','45','full','07:21','07:32',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(3,4,NULL,1,3,'9.58','-11.5','32.6','355','3.5','25','4.2','420','1860','74','full','07:37','07:49',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(4,5,NULL,1,4,'9.59','-9.3','32.6','0','3.5','26','4.3','420','1910','97','full','07:53','08:03',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(5,6,NULL,1,5,'9.61','-7.5','32.2','350','3.0','30','4.0','435','1930','110','full','08:06','08:18',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(6,7,NULL,1,6,'9.61','-5.3','32.8','15','4.0','28','4.8','425','2000','124','full','08:23','08:30',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(7,8,NULL,1,7,'9.60','-2.9','33.0','5','4.0','26','4.7','430','1980','133','full','08:35','08:47',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(8,14,NULL,2,6,'9.61','-10.6','32.4',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,'49000',NULL,NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE leg (
	-- Each time the string was pulled back to redrill: the leg that began, and the last joint that stayed.
	-- Leg 1 begins at the entry and has no row.
	id INTEGER PRIMARY KEY CHECK (id >= 2), -- its number
	act INTEGER NOT NULL REFERENCES act (id),
	to_joint INTEGER NOT NULL CHECK (to_joint >= 0) -- 0: all were pulled out
) STRICT;
INSERT INTO leg VALUES(2,9,5);
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
INSERT INTO journal VALUES(1,1,'act',1,'b8d4db0055d9da99fbd41749e11d596c817d2fba3d0468737f5a67accbf29cc8','2470780ff627beb214d77436ba4246eecf1da8ba9bb3fbeb732418d5e176d232');
INSERT INTO journal VALUES(2,1,'setting',1,'2ebfd31817331425f358d1e74853571c158d73b53915990102d6681740952c1c','ee850eaf1532a406d2d29145453a189128b5d1f4aaa48076dce2d469fd71f30c');
INSERT INTO journal VALUES(3,1,'setting',2,'4d76b7ed67e1627180d2854008475ce1717cc5b9310369bef6f52ee3bcdde7e6','893a8beecc9c05d23bb4dec8ad52bdb228177c29448499d2327b1854da444591');
INSERT INTO journal VALUES(4,1,'setting',3,'a787171ad67091336e12aa1748832133e6e04e81fbd7589434993d728e57c0ac','6d3ff6b8370f546154527ff0461a18a364b6dfb1acb7d1b4b1683a2dcc542175');
INSERT INTO journal VALUES(5,1,'setting',4,'048f44b7d6b0133b679d746c8b1f0843d2066aff513b0743f82340c3569685a5','2371c90b417006f6f41e864eff0af2adf30881dad25a93b2ac28a834875aaa02');
INSERT INTO journal VALUES(6,1,'setting',5,'47b5ac8b4983f13131c12ca7843b70a737ca87dcc9b69048ae7ad5c93fc24382','2db71a23292e8e838eb885d73ab54ccaca3aa264ed2e3d5a455402e032dc4193');
INSERT INTO journal VALUES(7,1,'setting',6,'2cf45242c49cad64c8f61ab1173f265654523f64223efd9c7837035101aac3e9','9768f714ada5bd8e59f9fc379c0ed8a18f142436c14bdebde542797d59f688d4');
INSERT INTO journal VALUES(8,1,'setting',7,'88be08a65e9fa6f51401ab8cb36f37e08082c13c4682a8bb669e9f33ec725d99','1ac0d16579f0eeabb20ca3263bf8a4c58f50fb9991c9ba9f5e83d3adac88db70');
INSERT INTO journal VALUES(9,1,'setting',8,'66e2ed32714843d6fec2a026cb1f82f973bd07b3d3fd7cf68c33a43c9e5a35ca','e51ec89a7da0faab465e1178c8464a6cf9d949643aad675ef7475c1448d80307');
INSERT INTO journal VALUES(10,1,'setting',9,'1c03f3c4b340f08f86efe67010b9b0c2b2f88f350422a18a990d4f10f8742d44','e433c2186b2ea44491917d7bf81e358bb63616a084a6419a14de1a06816e67ea');
INSERT INTO journal VALUES(11,1,'setting',10,'092064b42cf7dc18362fa4f25515c56d579abd33ddcda022c17894e75bb94854','a1cfcf3446d6e637751c867b1bac842a5d96c5b9afc0b8f2569a95c49ce7d47b');
INSERT INTO journal VALUES(12,1,'setting',11,'4db2483bd4f2358efcc65628586cb8ee4be01e2d98125561c235ae7a0c105309','32cabfc5a5651995985399163c324f2e25173319ffea5ff263d332076e089441');
INSERT INTO journal VALUES(13,1,'setting',12,'35dc09b78b879f3cf5c898f8261218f92798fa0398ef32c58a9fe7987e37d0ce','9e7897be7300598c80592a53df98d5dd27aa6903e80035f287add3126accfcc6');
INSERT INTO journal VALUES(14,1,'setting',13,'cac16743d76f995fe3e73b5460332e08611185050ae3c8e7365da9bc3cce95bc','8eb7b1a27b3d54ae46230ff5ffc76173403ef7552c48cc00455e2d19c4b34583');
INSERT INTO journal VALUES(15,1,'setting',14,'9523f2bf2e279fa709f909ecf2a9ca00f7b4133b6895b56380f8da7d54880474','f7c97466cd81a8320f017d5072df4002410251557084b9f4d1fa7862bf51a79f');
INSERT INTO journal VALUES(16,1,'setting',15,'1425ad91519c71a2a20f4fe416fb88a6e17b1642a17f8ae6c5fd80882b5358b7','9cffa2ebe66cb7f4349898c078f900d43d3d9feaeae5d5d727a57d542393c3c6');
INSERT INTO journal VALUES(17,1,'setting',16,'fb4da3c5f4c196bc315cd83f6490c8e869b7dfa7bb1e39d9e73281e23372f0a5','bd1483d546dcdd70385dda43dc3de11fbba0445690fd109b4829bf3c8c32688d');
INSERT INTO journal VALUES(18,1,'setting',17,'8625bed8b4e424c89baea417e828c12a620e3f99f2b2fdcfe6b877dfc81e21af','af98010752fc1a59bc281209402c044e58527e9ed99a8dd27654f967237b36f9');
INSERT INTO journal VALUES(19,1,'setting',18,'9ba50f62bae8ddc33881278f3e70a6e7321508b9b96166620eea4cea4ea4b2d4','23d6ef180403026754f70f5dde98f7a1c311f3a7ad4cef390695b79d86bcef5e');
INSERT INTO journal VALUES(20,1,'setting',19,'d7f963468ef71fdbac97d1907b71783ac777fe58e21552ed256f23193365353a','e8b5ce82323225d6995bd2b88d6f796ad020b35304033f0ce1a5c322d781b876');
INSERT INTO journal VALUES(21,1,'setting',20,'89df0780d291201208db34b2950ac726c04607df98a74bc7d98a845d76e9fd09','716b4d777238b4ab4bb024d62173d9cc894d70556ec9b0b8baf0675abcac70e7');
INSERT INTO journal VALUES(22,1,'setting',21,'a0a82205a9a6e571897a2808925e9eef21b853a9af98cbf0dd0693db5a21f97d','26bf54314be842c9c9367b948f03de63a76fca3c2be3f0e7000cb9f8281ad431');
INSERT INTO journal VALUES(23,1,'setting',22,'a8bbcc05f567d550fb7ceab866d931928c8f720f627bed815de503165ac6f930','45981e639a3a55f09facf0333e4889d16746bd731296819b1de52fd4d4f581b9');
INSERT INTO journal VALUES(24,1,'setting',23,'078616004e8c5989dd5fe2e14f763cda008bdec9562f0dac9a6d58c75059fb6c','ac4eef0b803f4978938137730572ac1336a30ee6ff2299650bdbbdeb559bfc43');
INSERT INTO journal VALUES(25,1,'setting',24,'43c2fb7f7e329e44d9b67a4237e59805c9e74c33d5d310dd0ba375d739d5a02e','22abc22dc3e2f32e868df4dd065cb06de98dadf280d252e37c879e9559701952');
INSERT INTO journal VALUES(26,1,'setting',25,'00b256e001087c94d02a2e9ad341a5539fbe636a9c2243ba6f241911747d502f','a90f42463277aece5ab503bb927bffc70f666e827363c978abacc6fb96dbc5d0');
INSERT INTO journal VALUES(27,1,'setting',26,'c77dc1667e77da274855a5c5957ea0ea6b6fcf1c9537d828594bf42839da3af4','e28870d306944ddd5ee042a9a07b36af4d26e4e004b69890926b370d3848c709');
INSERT INTO journal VALUES(28,1,'setting',27,'2c6ed4ff5aebd5e1622c686045ca907ef4cc11c1a2f10cb3fdaf4f954a1c7211','e1e9c98ee54d4178e9022e153e877afcffe796736559a45f9f8eb77e4918a820');
INSERT INTO journal VALUES(29,1,'setting',28,'2bdd12cd035a9697bb182c5f0412bee9e0e4d08de9461bb97f22a15339cd36b8','b635d148e88fd33f72196aed7910eb0e266186250a956cc6ece4617e5c022650');
INSERT INTO journal VALUES(30,1,'setting',29,'16b55a6027ac6181351fa4171c05165cd48aa8f0cb28e923388fc8cbfa6b80e3','c491a1b5883f5e456e50b189010a73d3e2e36ec40dace61420940a4d5e203c7f');
INSERT INTO journal VALUES(31,1,'setting',30,'4d4e91573690811675c2c10f65b43235321d8abf336a8aa4179a3c691710e479','e0116ee2573f0d746ecaf84c72571b898be0b286d5ad80790f450e6192f0d291');
INSERT INTO journal VALUES(32,1,'setting',31,'a45a399fb067f68eae670269e9cf3e0c363b1460f109e2aef952d9ebad019f5d','8e89f8801d291b3ae557b50a5a3cd2a21e00be431df3e1a1139d7f07fc016267');
INSERT INTO journal VALUES(33,1,'setting',32,'0c0ce7d9b71576525610aebd55d3126205b58c3719770deef52eeb514eefee72','576491992d6e5f5584be5b25eeb638de1b34b07fa19854bb03ce704a38d4b43b');
INSERT INTO journal VALUES(34,1,'setting',33,'824d060601e7abaae97749317fa345e7fb8e1c0ee31301878006c0a79a044aaa','142340141a18ff648c06a8f06a7036a66e036bbaada5437eff71e13568efdd96');
INSERT INTO journal VALUES(35,1,'setting',34,'17e486a7fa4ac25b169c5684098d642877ffd0f064d28edef758439cd52ca344','178e05b2f4a52e782505b5ec1cc0f52bdca50e3d33edc90b16b6cdb6f552a1ab');
INSERT INTO journal VALUES(36,1,'setting',35,'315f41d6fdf33b0f9930ebb0ae45a40816275d788d418699d70343653fb7aa97','9706199bc95d6c35c0f62addbc47a3ee1fd08c5bc000542e3f4fb86e5940c58c');
INSERT INTO journal VALUES(37,1,'setting',36,'002cae8943cc389fe6b464b050106f29401d2a3444c10add64b37131cb95ed55','2e46702c41956de81c83b18d99c2265b7ec6e52d54e11d5bb7a371624f288168');
INSERT INTO journal VALUES(38,1,'setting',37,'3a8abadc7365a637a7080d2d7deecf62e65bf5a97aa49bec9c22116076924132','0adba680752ed296a7fb1425a8819605568a05802d0314d94122441d0a67eb6b');
INSERT INTO journal VALUES(39,1,'setting',38,'753688f6418753456f8153a41b6361e4846d69aa5e09ea19233faee8eb155f56','a8cc0c7d548422ad95140590b5557685d178785c4ceb545a59ec8397628f4a05');
INSERT INTO journal VALUES(40,1,'setting',39,'0f182351087b6a2c3513297bd5e683752cf26bd334343bd6b8715b711c1ac40e','04be09ca948ceb64a92a8a7dab2f98bac5788c660486ea38c5985b93056bc7a6');
INSERT INTO journal VALUES(41,1,'setting',40,'b816a7420a6001b0aa89c4071dff37ec57cd27e4a2eb52b0251910d7939f4bbe','d2658090c103d72d82e74574ad518c7b52bd7da9ff8c2c950b3220ddddfd12f8');
INSERT INTO journal VALUES(42,1,'setting',41,'6b1294f87523cce7c8776df23da656f6add61f6efc63d43b2453febfb6cf3ccf','1a88e1b837481c7325432ffb3529f2d25bfff2032fbc1269867f694a4a9c7350');
INSERT INTO journal VALUES(43,1,'setting',42,'8ca007d551a18705099b97c3d911f264c2d6a45986fa3eb66047c6362694c821','76f2a595f820902e7912dc4863a8c062267a932e718e9013b03fbe6fd02e8455');
INSERT INTO journal VALUES(44,1,'setting',43,'bcac31ad3f435458ccdac0321873ecaee1024639b920e4698965885fc0ad1933','057651f1d7016d90fed8769448ac10c1672d54be9199807823bd7a5071714003');
INSERT INTO journal VALUES(45,1,'setting',44,'7ce9f027f23f7906a5c4c550c3653e940747344b88e1aaeb5a14157c205b4de2','74cc53ecc32ac1d56ecfa08ecb75723eb73969655c69ce7d2c8a525ec2d5cd9d');
INSERT INTO journal VALUES(46,1,'setting',45,'6c1789fce77c7faa9ddc188ecc8d27ebe4a5426dd9773af2ac21c62690dc9df8','eeacd5efafb1177a5bc8b283fad15cd4feb3be0dec3da07e375ee0b31746876e');
INSERT INTO journal VALUES(47,1,'setting',46,'f7cba20d8d233245e05fa49db1f0b61f1d6e47b41e9283da927e5f30d44379ba','c1fc353411b56445c94c56fa84d7234ba5c1a28d53f75beb3faeb194a2f72c11');
INSERT INTO journal VALUES(48,1,'setting',47,'93fc192c6e83ce7d6ce428f6ba190c63a5e9c539cf3c6ee2a07b675749cc82a9','ddf97b9f52b42a863372e044931a2752ed45b4af341d9b985243bd9970c1277c');
INSERT INTO journal VALUES(49,1,'setting',48,'9bf9927deba9a0d20083b6dea28d5a84550f449641c7dc39917949db3e9a0589','ac79782e893860a097f5e970f98390695ed06cc4c3f70a97176a16fa03efafe9');
INSERT INTO journal VALUES(50,1,'setting',49,'2b961c73f77d9f67b778c46d1b1e198d9808326761a10ae7bf8c46da6df38cc0','6810123194e914ac64a033c6695e16a2047201152bd26cf6e1c6bae165df21e8');
INSERT INTO journal VALUES(51,1,'setting',50,'5ee62a6046fe642ffd72fcd68a24a464afcc1535e467ea2ee68e42b091399f9c','8f577f6f825e204d8ff112644b6e038c799bd6beae0b5365dbc0e759bd282301');
INSERT INTO journal VALUES(52,1,'setting',51,'60a0c3f96df5b33ffe726d141bbffb891952d6cdd3e0c743dd6730eaf3707b8d','c0b1c1e2da0563187ef08b55a9af0db9f23c161d54c59ac5bb7e78b83725ca86');
INSERT INTO journal VALUES(53,1,'setting',52,'4e2b284af2b3dccf04c7c4b56cd9043fc308763fe23dee06194b346cea4aa6c1','f80a2c9c67ebc38e02f3920d3fc3a5e7fb167bb3ce24fd3ef01f2e761674795f');
INSERT INTO journal VALUES(54,1,'setting',53,'092363f4d01faa8c586d6b8fc7fcad11f49da9b0d9970157d4bd11e82aa03e35','0222ac296655880806cc242e8430cac9a722b0c3fb1526f6f298dda4d10e25b5');
INSERT INTO journal VALUES(55,1,'setting',54,'cabcc28f95bff7781c8b84dc7def35b11272d3a43d461920d64d09125aa4f2d9','5d4ac4fc89d42ad434dd76774e03540aa874337a147d875042096d96b9d225d9');
INSERT INTO journal VALUES(56,1,'setting',55,'636921b342322de36e24f5ea2a24151ea1d3fa3f56bfe0cf83f99ca86ba7fb8d','3491668ec3b9932f79cafff5218f50e96659efb28541fd0e8ba27f37e904a7da');
INSERT INTO journal VALUES(57,1,'setting',56,'d98dc9ce9340a6be8d6e99851d8d4b6f100acc018825e13e943ff35fe8738676','391b0acab79dcbc8107742e3361169de7c657bfdb8b45585d7af93ca3f75a631');
INSERT INTO journal VALUES(58,1,'setting',57,'179d697b1e51494308fc60bbee70347751c772023510ae6d7f0e2278fd86752d','fd14f3c49de21b474cc326ea914675086e67fe25acb5d8a1448fbae96a2f1c31');
INSERT INTO journal VALUES(59,1,'setting',58,'920d058d472b856e4b3acde65bb2bea0d1bb7ffbaa4d42c17f24a24e8937a14f','f31bd6c2b8931b800d294bdabc9d4ec2f6d2a3289a69037005991fd6a6d6d858');
INSERT INTO journal VALUES(60,1,'setting',59,'d1e4ac6deae4849075054e83ea1fd94c11b3c86c8f7a726ba0b78dd6aa83a716','3fe34545dbbf35311d176127b5207656234bd829d1819bfa5e418a1a0634fd6d');
INSERT INTO journal VALUES(61,1,'setting',60,'7fe95d7d97a81dafa8a9a1b831ccffbe98c8c5265144a15656531bb8337a8134','b90d549135f7c8509e282a9491bb0d55b8abe1235170e533a59691bc58206633');
INSERT INTO journal VALUES(62,1,'setting',61,'2a19f583516fe8906093a4d578d9234f0d6dc83a6db1b440d3472eae4dea9f79','0dc9473fb3f95fe4bc580c2d381e012f3026a0e3fa58bacf06c9cf743bc704b9');
INSERT INTO journal VALUES(63,1,'setting',62,'546f2ee4ca51f708fba851bb542ba77a29178f87813116e74fbf357ab46f3cab','f9de6a21d344a0e83d035417e6d1f407b388b875c0f6d0f8abf3d59ac28eebb7');
INSERT INTO journal VALUES(64,1,'setting',63,'10da0c70bb8f538f76586cece5a278eb3793c2ed40806a5d70b9e73ed23693a9','90e5a26d6bf052d39b682d0307efd885bf14dfa4cfcd99a74d4808a9d76dd9c0');
INSERT INTO journal VALUES(65,1,'setting',64,'97ba257ad91ad2591a502867f06d47b8162ab2153ee8b553fd4f638b9b64c440','ef8877a6747abbdfbc8a7190ca00d6f2cfd2cb0b2c27617ee26f9ea0b96ae93f');
INSERT INTO journal VALUES(66,1,'setting',65,'ecfe587bf9a0e8352ee8c503590d3e00b098d25db2fefecd39e6c530ea146d5c','d08b9af0ca8a4969f3e11dfaa641bc3a8762deca261933f1407c010350f54702');
INSERT INTO journal VALUES(67,1,'alignment',1,'0744815e2fca44f7785c1511abe1f5104c7056f0f1e0226f8d80837a0cb34888','79093cf84b40e4ecf1f7b515a248908a421ce67b24bbb0e35ad9995b39468c39');
INSERT INTO journal VALUES(68,1,'alignment',2,'29cebd7905f1b3c545d53a5845d7865f5288d528aa7400c1c7bb3455a00870e1','2cf8484cd62570b4383aa1e0c346b3a89399cdb07eac4391dccd90d08e684f33');
INSERT INTO journal VALUES(69,1,'alignment',3,'11460fcacf85951d4a8ea1598ccf311c1ec1bd91a5d6fa2c828132f3c3fe5bf4','2f6580600508767488d57ca326609eb7c6406d77f93cc391a740eea1f7f3e77c');
INSERT INTO journal VALUES(70,1,'profile',1,'89479175e584be746dc1eccfa46372a7fb58b70e1f4d04f15bbf80c36146e2db','b6880e69592d884638ec1d91b79b642321a04c0896d3fd8c8c6fda5d23fa25c0');
INSERT INTO journal VALUES(71,1,'profile',2,'8be45505363c46c1bafc3edb3e30ec84274d87ce1d72335f21fe5788f3c05de7','3b14b853c995089a5bdc0c5e8afd7e04cb2a114c524a483384979b0189daace2');
INSERT INTO journal VALUES(72,1,'profile',3,'458fbf687d782d639b2b82e5efe9dd9d5f4ce197e30bf784ebfef19f68e2c066','126d9f3d12e4250a14ba0112e51e92a20943caf0ec76bacc0446778057d7cf7f');
INSERT INTO journal VALUES(73,1,'profile',4,'98875c295b0da0df344a0a3685c505fcf3f0f6c270b1b44e8daee8efc425efd4','0a24368f67f8b1bfa614b30a83386f0f5576d338b8f3b904ea5478d65f29fbba');
INSERT INTO journal VALUES(74,1,'corridor',1,'45f0b39fe3c1e2cbb0b42b1bf7c740880f920f91080b3bc2e391699b86ee53fe','c127b7b21bf1d0e282f1e6e0fc6aba01cfb2af628cd400e6bc1630414c0c58ef');
INSERT INTO journal VALUES(75,1,'corridor',2,'e74dafdbd48f162ae64e12a3ac57ceebf298f169aa2f0c2da03b9fc1966c40e4','0e2c15d0c8fd4f0f8eabc105f71e41adb04d888d36935a5e86c0f14597fae819');
INSERT INTO journal VALUES(76,1,'ground',1,'8e215614e19f69b7e69abeb06de15d198a1593628f16e4408358f1d3636633dd','c5241d8aa002a4533a12648fea5f019825a66e55c0d1264a5960b6cde0c31679');
INSERT INTO journal VALUES(77,1,'ground',2,'64ea87f30b460b1b131606cc0290eddf8920fcca78a4969be59082755bc59e2b','417610577368ab454948e7face4b144a16bd293670b971d1c6633a6063c91002');
INSERT INTO journal VALUES(78,1,'ground',3,'c9939fc5f28e3866cac62061bcfb6a26b98dac511d7fc8358196b8644320eb7c','0a735d323669ad66fe6049de74dd6dfeba5d766d81826567695d8061f6f25a1d');
INSERT INTO journal VALUES(79,1,'ground',4,'149611332b03d4bc77ae728fd3ae4b357e1a21a92cc950cc7b8c1802c56eef6b','e1110cfed37df8d1176b48158fcbb7aca8006134ab545f09547346d07ab1d9c4');
INSERT INTO journal VALUES(80,1,'ground',5,'e040dc166992f2a1750f481c4b1e3312a0f9feb54829247d7a8b78e7afa02976','1c0c43d4a1c5a6fc1a6f3adc0afc118409f6a750116c8df3e4894c22c0590043');
INSERT INTO journal VALUES(81,1,'ground',6,'7d6c518b0e32f1dc087d77405c1e883a3e5948c540e939f246369e614538db06','1e775d0a3732e8ab181e2625dc4b70ce1e7294a2119eae7f73bc5428151d06cc');
INSERT INTO journal VALUES(82,1,'ground',7,'fe0fa03262cd931d42fbd1747cf161831ed999eb9eac256d62d5081ea342fac3','d0c422a91b439f33630d6d36c1b00727eff2b787ab81bb96bd56acee4eeb5772');
INSERT INTO journal VALUES(83,1,'ground',8,'b5c36b84f16dec59e104ceff39ee00cb002fb759ffa6797d7eff6a6626a51eb7','ee69a6de983b3ca04232d143f575a598b4886052052d4d273a7165f22a24a9dc');
INSERT INTO journal VALUES(84,1,'ground',9,'c5b541d906cbc221a986de4273277db0de203ebb5349b86174c64d907dace979','f041bbdf9536d4225aa5e220d09ef03974686f4a1d8662b5130635b7ed53040a');
INSERT INTO journal VALUES(85,1,'ground',10,'7fd95253d4fe11fa8bedfd2f4a6fee4e086edda2d9e8eaeccc6dd12b22393b52','8ccd9efdd1913b93b2e812dfe6d4d567d7cf18311683b0457888d0eeb2d4d6ea');
INSERT INTO journal VALUES(86,1,'ground',11,'02a58463b4ad9ea733389486ba2e2c7d45be82ae66afa6667b012c0377c6751d','8097e7b129bfa87e004a17fd276471e9a26421541329ca36bec1ad2930865ac8');
INSERT INTO journal VALUES(87,1,'ground',12,'b6318f6d7d32d5956c46c9966f280b93f9dddd15b3870633fe0bf87c68f98b23','5ded909869ae54b7590643eb7ff3e49363f897b92a11bf0168bb3a91ed759aae');
INSERT INTO journal VALUES(88,1,'ground',13,'33c2730db26af9d061ce226539915e72bea7a7c01a56500a372ea67d732cb409','5b1aa57eb93ce8c9e3ced1e1f5b8b88553a87ea9e01ccd618a5c106b07c259cb');
INSERT INTO journal VALUES(89,1,'ground',14,'3656be9b8b3f5d94d9fee6e33da836d518c043dc7b54b729e10ec6f99bb14c90','32ade6ed348dd5b03a6472d0d67e4eb087cda2911b2ff0b5807beabc9ce6b708');
INSERT INTO journal VALUES(90,1,'ground',15,'d9fcf469d24aaa7a0122d0792c8e40753d4f01878b79ea39285b29b77e274551','53c4f8454ce28bf490ea559e66de735c07ae6539c710bf4ef9b84770ccb515dc');
INSERT INTO journal VALUES(91,1,'ground',16,'1126f84d43a89c3b01e8b84381ce68e12ce1595bf4b87d74f644d4c1a2a96331','edabf6268d09ed000917354a895441781de974ac806a72e59290ad791731981e');
INSERT INTO journal VALUES(92,1,'ground',17,'2bafac43b30bd1b841ddfa22bcfab740a6f32a513af90f1402ce76ea287601e4','77e13057042cff7355c1141c9e1ac01e07f8f95f1356c20ac1e8177e018c54fb');
INSERT INTO journal VALUES(93,1,'ground',18,'8a1371a47d71a2d89f5de3d329755330265366c3f27dabd8b7a455163255dbd2','7d168459325c4919970b11a8f5d794578f8c69fbaba6bd797c70b9fc8b2073ba');
INSERT INTO journal VALUES(94,1,'ground',19,'7f59f436ca9d75b30e6fd0a49944223416198f48fb1b8c268d48d0409f4e9f66','c0acca0034e516ae8522489f6613ae0489b535a0b7cd918a14abd1c80eee3d55');
INSERT INTO journal VALUES(95,1,'ground',20,'8ab96c8779626537ef784ec5cc7da028760193ec81c68a29c164c235b7434c49','75a4f00b435d11461c7f9f3d639144eaf60388f57767a8c30d08ab20754568c4');
INSERT INTO journal VALUES(96,1,'ground',21,'7eb3098f18cfd120fd800a553b30ce972c1c7eb0568a101ea6b49a4e35debf78','2f0367185e15c00d7753c92768f9f523f77ff11ff0a1822846313eec7cefc10e');
INSERT INTO journal VALUES(97,1,'ground',22,'56b863ab5462445bd7a3015acb31933c7726295676f209781249b032cac91964','8e4f90edaebb80a5925717ce42982a8657fcc22bab1ef8c8c8826f709840814f');
INSERT INTO journal VALUES(98,1,'ground',23,'f3f396dd63906d95defcaf229b2d834a29acde0dd6e1df30e1c2580c71579543','7ba108e3493c7b1993bcf1facc45a6337d2421a4f7d6e9255674d54ca4f493d2');
INSERT INTO journal VALUES(99,1,'obstacles',1,'42d39591ff9d86ab9e1697927ec20bb1a46431d4a385908f7763cbcd3e30857b','a2cc3af26141846687890d80c1715964761bc1c9262c0e88c4d3a588a2434a90');
INSERT INTO journal VALUES(100,1,'obstacles',2,'29d7cabb53a7fafc62ce38a2c216ab6ab88b74774eda8d1ee515fd8f9dfbdf18','40ad693bc59f65f9e8da0f13aa805b28064e53eccca24f082617937f06d6caf6');
INSERT INTO journal VALUES(101,1,'obstacles',3,'5da59effee39830a455eb41c7e64c6d1d56e3b9538577a52d17c61b98c8a21af','81c860ceedd460cb299e44c05e2725299f23d492d1050b98962cc03d1403b092');
INSERT INTO journal VALUES(102,1,'obstacles',4,'be650d2ba71c62680e3cf6a027e4708a850c7104f37a13d489c05eb67911f3a2','cf06b28e9c42a8d6d9205551e1e24962aa651bab62a73ce254fb42f7b2105581');
INSERT INTO journal VALUES(103,1,'obstacles',5,'ddd4b897b2e789c1620e8858e31f4e1b3a21a7167773e64f53aa51d6ee293ece','e85008f9a3da0c7ba05586f1afa555cf6ba04dc7dd30cb3bbff81d061997786f');
INSERT INTO journal VALUES(104,1,'obstacles',6,'5710082933897f9d77b6c360c6db694c327a04550d68046d5f12c88c9f7918ea','345192c01012d5007501c283c688bf3baa7f92ef6c816f11d57eff52fc29a0c6');
INSERT INTO journal VALUES(105,1,'obstacles',7,'0205d155000dcd6f9701ed1141508459c56972d5436fafc689cbd935891ad37d','4a266034971a5eaa8ecf9d3698b59bfd93d9d7c03e4d3efcc1a8c0eee0a72e8d');
INSERT INTO journal VALUES(106,1,'obstacles',8,'dfd95cd40315159d3557949a39a03917e1d07ce8d454ae4adf9984f4211be8af','976e30790428d6f5b9cead6f2e92d31bd0222f25ab1d51b90e5822081fac75e5');
INSERT INTO journal VALUES(107,1,'tally',1,'c9f35a5ae73a1ab22471a72ff7603a530b8f399a535858427d26426adc63bcc1','610d4cd6320eb52ac2e9163ab01ab136e138d2ba74a181941be37462ffda1ae9');
INSERT INTO journal VALUES(108,1,'tally',2,'2eb2efadd8bcdead2933bfbd65aa902a891cf598ba68a3dcfaa35cec1f843cdb','9c84780f5673393580074b983d35aa07f321b643f996ac177fd1c04a3ff28ff3');
INSERT INTO journal VALUES(109,1,'tally',3,'e62c8ac07e437a422212b388b8063fcec2c8cfb7d56d1fe5013b91df4df2776e','888aae3491133e7e514d467e80dfd176670f221d424d591f5dd813c5fb02490c');
INSERT INTO journal VALUES(110,1,'tally',4,'6a2e9932fd79be7b300888578fd595ba71a991139f3bbd682e81bb6618f694c2','c11a460c932c519f0440106ddfccba6e0712ad7741dccff71bac7cf15505680d');
INSERT INTO journal VALUES(111,1,'tally',5,'d4900af2eaf221d69b45e6d63fd3cdbdc6d49abc736b26b202dc2bebcca15265','f46b1dec6bae68158838232ddc60efde94b6785174dc1c3a1bf0ee6d43dbc52a');
INSERT INTO journal VALUES(112,1,'tally',6,'5e872052a472571c2160d5416b30cc82da1d3ca6fc2a39a7e6e089c218b6034f','93614138086684c4fe6e444f9752b810036c421879613791918d9049db9fcd2d');
INSERT INTO journal VALUES(113,1,'tally',7,'c3e36cf7568942f8572e99bebe0b3e11f4fdcf56587aad0889e7642c21bafd7f','d8b4eb848bdf02f5c1b0144edd0a981214cb075b6445cda16c663174b4cf1bd9');
INSERT INTO journal VALUES(114,1,'tally',8,'37f51be1dbf55c74f955a957b5a3738ab280c45d882bc9c8a1739c0a599bbae8','99d01e5a1813d0918afd9cb1c83e0e30860d5b59335aacbcc4667271eacd0cfc');
INSERT INTO journal VALUES(115,1,'tally',9,'ca432165c26d4d4fe9f08bd8f431943cd1c6e13c3fd6d5124dba415af20e93e9','8d14fa205ed77577d1f18c151a6d17e4fb8bf526886cdd7ddbdccd1ca0955162');
INSERT INTO journal VALUES(116,1,'tally',10,'01d06651ad7daca130c06aea0b5f8efcfe88a197739de803751298d2f8d1b57a','d1276736184906c2038eb2c21f2e647c77508fab826d40ca23a7e8b07a636786');
INSERT INTO journal VALUES(117,1,'tally',11,'79504e5344c32e233f7b3836bfa9b25023854b7016fe93a76cabdcf4ac61c971','54bf7a322b580c2e22f1a03197f459bb60e1e86831405bb94eb181156012bf17');
INSERT INTO journal VALUES(118,1,'tally',12,'e2b45975cb44abb4df7de3e7e633076b7c18eab548efaed70c6df945637c637b','1def68a87839dc142e89a617ae4c25363ee34d85deda7a3b07bf3cf810004c3a');
INSERT INTO journal VALUES(119,1,'tally',13,'3e017b8b1e2d08ffdf16c61bd1c212dd56a47e99c0ce3cab04d30e4c7fd358b0','0a055218d7cf115b74f1c0689a85657e33f7dbde66ff9a5c7cf16c28f62103aa');
INSERT INTO journal VALUES(120,1,'tally',14,'3f82800ac884a23b864c86e52ede5de3d24bd383469809acaf787e7aef117cf4','1fb34fdbb879e3dacb1b809501fc15da65baa4712737646cbe8f56a7a1d095c8');
INSERT INTO journal VALUES(121,1,'tally',15,'dcbcf2ca81ee8805a6db8e143e4de9eee9c456a959430d0d16414753ef0b8855','859a215703b0da03c8e9db5aa1f61f8d7a5787192530a95cf51811b2080c6354');
INSERT INTO journal VALUES(122,1,'tally',16,'b1917d0c8c89a94746df27284f26e510d9dbea3edfaae786b805c99db903c127','b6023ed38dc723fb7b5d3fc96c64f160c46a76820eee723d9155e5653c49a793');
INSERT INTO journal VALUES(123,1,'tally',17,'961bece4bf82c38404ddb79c68387641926b5649394c9be75919f309400b1e14','95f88c97cb332e3831cdd9c072e549e0829a0bede8b35511e93ea3a56d3090ca');
INSERT INTO journal VALUES(124,1,'tally',18,'b31408d065661a9334d73bb9d4deccabb81073f775af0a0f4b88c417c72c1f9e','a1259fc32d45d066b3e8b3deca1f587e5b5adfc706edfac9086665ce239e925a');
INSERT INTO journal VALUES(125,1,'tally',19,'61f41d485edab7574a3c1d0bf9af13766ddc49064e5d8a28c48b19d62c229270','1d556c3a239daa3b9e1dc25f95292212aeb1e2dac839f6bc1a0983590b73cb76');
INSERT INTO journal VALUES(126,1,'tally',20,'6c4828466937783c7f2223f3457832b884972468fca80fcef806c335dce7e7d3','2656cf2b9eddd897f8d097d6d3c0c81f4b4fb0aa7162bd64064ec72b931a4c4a');
INSERT INTO journal VALUES(127,1,'tally',21,'60edf9a769ac6544aa3e5bfb3c8cb75e44c554634e1587c7490116c38e479c89','e02c77fca02abdbcdeec1bf59dcd7e73d91f755ba180abc3606dc52a553b0a45');
INSERT INTO journal VALUES(128,1,'tally',22,'9f21cc0050f5825a32af5ad28727ccccaf0f616f990e754aae57bb4d7dc84400','ca7964b629d129d2b071c0349257ccdf45155b1e1f107e17f1ba1691925ec674');
INSERT INTO journal VALUES(129,1,'tally',23,'292eafc346f036a72f05ff5849e6c9718854cc071f3e7eae4e521fea0e10a597','eaf911cea7372d91e4da729e571662767325813974846e1ab4949f9720130b5a');
INSERT INTO journal VALUES(130,1,'tally',24,'e97033a65451a055350366c234fa4745e9b5389b4d760d3f3bc98a9d7e29a52c','d99296e7a78217a5d8243dc65823ddd46a5e75087e1a2bc1d6f21186a12f1f46');
INSERT INTO journal VALUES(131,1,'tally',25,'e841c78e2bd9fe60c8b1ba78bead53c9b657e15e8161c0f82b08dba651ef07b6','a0ec11115994e5e0c2ae202c976f5a491a1369b5b7833629847a3c178ec67002');
INSERT INTO journal VALUES(132,1,'tally',26,'7bd4b89f7b3309d499b3a7e232cb37610af00a8fc0f8fab00fa91abb1881a38f','fafc70666d3884b2520cd1158b21547051192838fe90d2148eb65d68b5a025c3');
INSERT INTO journal VALUES(133,1,'tally',27,'a2617aced70b3828b73b89844b94642be505face316753a1d1f8b18e55d0c870','78ad7154c169017c99a8c12a1e72e202d286955145b885656709ea2324f322a4');
INSERT INTO journal VALUES(134,1,'tally',28,'c5d1d2d30b1ea0d3c57105cc099b3507c78bd12637130dff3ed5b500d3be320e','ebac07b1a08e27aab129e53711db4759a7640ed650c732b5e31a87e6be6decae');
INSERT INTO journal VALUES(135,1,'tally',29,'c5c943af573474df790a9564416909b0424766b95a669151421d1a40847b8d76','04884e82d0b7373a3c7ab69de082a76908b3dcbe21fd1299fd96c53b81136936');
INSERT INTO journal VALUES(136,1,'tally',30,'cd2fecceba8008910e82eb46365a0bc07c90e30a2f59f648a23fc8551a4eda38','a8930b514f6a6714f0a9dd56cf365b0b81f3c013021df061a73e28a40025e346');
INSERT INTO journal VALUES(137,1,'tally',31,'79d4a772a468832efe261e7634e2a620aa872425fa3bba075ccb5930f2c447ba','3da4ba3d30755f06861910b48e0cd34d9ef62e44f6334397bfaa1968671baf15');
INSERT INTO journal VALUES(138,1,'tally',32,'ac2d8717ee306f1916052ea161259fac0a6a7a419436cc408884361a56c436f2','9a4564b87a187d47117ef618a58ad882deeeaa8bfc85e43976e3cce9337db2f0');
INSERT INTO journal VALUES(139,1,'tally',33,'034f696da03552eaa5a0be8ddc3b4e3fb7861ade492b4e04ac292f53f28c19c0','fbec7392da92b37679b3a30dbf757bbfd332b236b59ee847c543bb27e80083ee');
INSERT INTO journal VALUES(140,1,'tally',34,'7d8439df97694dbc807b1e2f69022bf7c702f4cc64322bec272f033b2b8944f2','5954017c1dcb90797c57532242e238cb62224bb21a2fdbfb8508438c43472dd1');
INSERT INTO journal VALUES(141,1,'tally',35,'94212192c5ba44ece8455d416d91e20ac5a0059f0749b7654091c8060cf8482b','156e1997dc156207c943b91b9ece09d94adc1494480a2e03fb3db1ab3ce780c4');
INSERT INTO journal VALUES(142,1,'tally',36,'fa91341b0c2fdb55803878a41af6ec8464acd7989ecc600a9d8dedcaf678cc4c','6d2b166cbbe5966d556f07bc76efeefa8a9a5d50446866eac21e910519a59185');
INSERT INTO journal VALUES(143,1,'tally',37,'fdf8219bcea21757aea0a4fdb18a6ba3458279e1e9aba95f3e4d8acf7d9e915e','4986524f11f4d4571fd635fb9131b768365e900bdcfd67515abe47f7e8e63d64');
INSERT INTO journal VALUES(144,1,'tally',38,'a03e59527404fa8dee32537ffa46f10f70d86a1a24d65312a66c7e6bcf3fd280','1e88aaafd6116d54237c77b7778d5d57f98b0bbd5e0085eaea7b675da277b832');
INSERT INTO journal VALUES(145,1,'tally',39,'41dee268d62f30784b8a0fac696e8ddbca0ec45138339b2bc8296722ce1311e8','b03826b3bec6fbed167305bc6eefc1bc113938416bac314847ce2901cd13ddb2');
INSERT INTO journal VALUES(146,1,'tally',40,'3d8cc6e1b32821d237ac51ef23cf2e0073126ceca2af19fd414ca75c2909e840','69c857b4865f01496d6c5543757b82f90448c6b32d6b794fd8961a3e508a130b');
INSERT INTO journal VALUES(147,1,'tally',41,'67b1490ee24f997b63c93e4f8da29077727e45e87e3302fe08b100695f66a547','e7d2d8962462c0c8795c66b8380417ca3fe8749b9bc1fd791d7f6bbdf6b6d808');
INSERT INTO journal VALUES(148,1,'tally',42,'5ec6a372e9224e50ec8c67516dad61a91bfb52f0a03a4094c9e2512a631bef08','d88700c5c4a3365d0efd68536716f668bdfff280fa22e06087dacf4d7466f22a');
INSERT INTO journal VALUES(149,1,'tally',43,'7afad00b1136fcc12d14044241c314806b05ca7c701e0bc1a784072a9c378b4c','4e776496d47793b860996728bc54fe826e63fcd860a3ee3f0f2b1abe7a058dab');
INSERT INTO journal VALUES(150,1,'tally',44,'94506cf024a95d7567fa0a825698948e7d0977c97b3fc3bd1c3d4e3846f50788','e205e1d5282b8768803f6263af963a55d00e9518d32cc770758f8496a9022080');
INSERT INTO journal VALUES(151,1,'tally',45,'0c19fd0d52d6bb5cba165970291d2c972969fe5684215d551b3f18dfc0ee052c','d11ce48552fc4e7a7ce0a2e1392da997ec1ddfc2e310f1d32830775fc6d821d4');
INSERT INTO journal VALUES(152,1,'tally',46,'5c7941c056d330b0c8b747ec9eb4bc32df50c24aab243d9ba0c048a492f25796','bc9eac8f1661aaa623855a9987fb2cbf6d8018285c8ba77896bb16a5abae2a8c');
INSERT INTO journal VALUES(153,1,'tally',47,'aec7f1aca139d6e6b708064f36074f89b9d1ad239e2ac4edef2c30d21a3dc3f1','7ec88a6cc4c587c411f290703a8b886376a62265f471fcc6ff0b3d9f6ef1be12');
INSERT INTO journal VALUES(154,1,'tally',48,'847f63668eb24adcf1e1b8e2ba1ba2f950c6432d24935fc9008250632f26fc9f','f2527a5da41e86ff98a1dac66f99c5218409a76396a5098bec05d3c193140638');
INSERT INTO journal VALUES(155,1,'soil',1,'8e6a5adf155e099872f4d88ef62b033c544f0c362c5d53ba64df24a41dfffa62','2bb5ae2115095977e62c0d5b187e56bf903299e52a3cafe6d88b5fd3e9b75258');
INSERT INTO journal VALUES(156,1,'soil',2,'88c7acd49d6778223ba871591f3e47772b5fc945f4bff58e5fbd6f264c9421d8','6062a908c79b5dccceb0c4c722c7f4016508c5e4d88fda9879e2b1cdeacc1f14');
INSERT INTO journal VALUES(157,1,'soil',3,'867fc67fdbcafe644496301da5b5999211e2e892bf588247ee0d5ec5f2814447','be3fbe257ffaadf638e7bb5a079920c0a450d5375a8f3c411585bcfc1ae379e2');
INSERT INTO journal VALUES(158,2,'act',2,'5488eb37216698ef5eb44a45952e79152ece7b8a09eb486db1644c4120a333fc','12c7d20759140749bdc37229d30ef5a4b6734029ca5caee08b5b0fdba1adeabf');
INSERT INTO journal VALUES(159,2,'reading',1,'667a521c62b4f55104aaa0848e5ca4bc15bdfc3205c0de4b221e5007605cfc3c','83f03e7cd1939b63b681a33c2e0f54f00f9427776524aa49eff322f458a0a008');
INSERT INTO journal VALUES(160,3,'act',3,'4dfa394676b4d3b9eb7ee324167dc21fcfeeadd62d4ae2cf49ec75a65d5bfdc4','a3f85e56439933b4e067cee8a3a08a995153019ace2415caff6d4aeb372ad436');
INSERT INTO journal VALUES(161,3,'reading',2,'d129b63a462390c27c28bd7af3907dd88900de00295ef9d5d35c04cf367518c7','a1baf2d274117f1a403b6282ff87e3c9211c21cb5fc810431487b0037cbc3ff8');
INSERT INTO journal VALUES(162,4,'act',4,'9028808e3963e1bc5b6ff8e7f95678a245cab3f79518d93383c1835f834c1d89','7cd693baef9452079d35f52f91f58e02d3458f022537877f54d2e8558fc90e3a');
INSERT INTO journal VALUES(163,4,'reading',3,'49c8e0ce1d54aca7533a93bfbe6869a952e55560493810331c213b816ce8c1e9','44ccede4e3121d0d495e578610b1ca609245465c3dd83b3e49f7fb749158a297');
INSERT INTO journal VALUES(164,5,'act',5,'f56ab4c24d80f0c22bee2150ac97efb8136509fe761c6fb6e1c5145257b06e13','7577871b2894ad1e709312431ad84fc7dc70e32c8bd1e0ccbb6fd483baeec0f3');
INSERT INTO journal VALUES(165,5,'reading',4,'8620157a0a2da9ae8e83f16e1cc915374578bd598178388a6c487f516e9ca271','a03fcf94202b83fc21ff6b5e99e96567ccbdafe3c5d9b17b46019e9631d953ea');
INSERT INTO journal VALUES(166,6,'act',6,'b9389fd240ebd2a38abfddd21b5890a5330290abcc7cdabaf32b31b087d8cc25','e1eb029272024dc4b12aea3a92f28cb527ce2957523b3d413cedb278ca992a25');
INSERT INTO journal VALUES(167,6,'reading',5,'862b166fdbcc36ec1c61db335b26ff43c24f84322a4b76f5eacdbb8e96cee09a','2174a8bffab45a5e7b9472c70e51df0366abebc03b72855140bdd1000de80101');
INSERT INTO journal VALUES(168,7,'act',7,'9326279c025095bf0adfbbf9dfee32ab456da8a426732467d18cab2cb9a1c568','6df613ca0e3b8ddda08cf6f763604ec7b875cbd5b0c0a5a36b68980b444bf4fc');
INSERT INTO journal VALUES(169,7,'reading',6,'474905fe53f78346c5f12bcb32dfcf070824caf21494301c4a9226303c90679e','a970e2a595caec2be0fc1182d9a51ac1e3070a094421aaee2e8571770e0dd59e');
INSERT INTO journal VALUES(170,8,'act',8,'80838c7ee0c97f18d553d4aa750a4e00f2ca717a2e747e8fe99737010656ce00','a54deb92ccda54793511393234db545da9f847a6fcd33e83ca67ed25f27921af');
INSERT INTO journal VALUES(171,8,'reading',7,'bd8d83da42f211d0e0598fa40d62897c931227026c46aa6a48414bdc49b969e4','b174fcce4fb6c7eb2983f1b80635fc46bb93cbebe5637a8dfbda46e5c6a8d260');
INSERT INTO journal VALUES(172,9,'act',9,'1090c300ff7e04fd1967107a60d4bcac5c631f2294cbe944cb5ff38bf23ded78','b7303fbfb79888db460178690b109d83f0c4df2a1aa553742f5ec9861f266dbf');
INSERT INTO journal VALUES(173,9,'leg',2,'b84ce9da0d0b58a2452beeb7799f86c6b10e68c7fd04e5cca22e463dfc31d693','30d47f9cf5587fd85e52249655b4f071cf17486ae39ec1f306c2b97c67ad6c54');
INSERT INTO journal VALUES(174,10,'act',10,'953b3fa92849edb82ea160abbc69677b8c091eeb6cc39683bf5f90680dbacae0','a0d1bd28195005113339f4b3d1b6d8002cc77f0f389ea80782366e607fc72e36');
INSERT INTO journal VALUES(175,10,'fix',1,'39a8ff0450e6e4c754065cdac07047b589fcd8cfe60cef49aa4ce69952e43291','62813b5cc7137c526ff4cb4fb8e01cbcbe17ebd864dd1ea7a17a70151daabfc1');
INSERT INTO journal VALUES(176,11,'act',11,'a20cd332ac24818797772ab534de59721e2fcbe1a99c5630becdcc55ca94bebe','7dc2d6bcb3286b1d16c955ceac31bd4212fff0bcd928bd7ef416b518e85578f9');
INSERT INTO journal VALUES(177,11,'adjustment',1,'9209fdb093e93dfbc1a0045b17632f16329618a12414f4c8160dd6575fe9ab76','8b43620ed28d1c0a2af9218eeaf94884b42fcd4de4a3d61b71aee394e7f290df');
INSERT INTO journal VALUES(178,12,'act',12,'d2e7a3e4f19ea60c4b9b52753be19878408aac35303579e7d35a3517ad8ac1b0','0ec946f8e0c8783907d5f69667a0a160cea4acf119c1e21fea88450b88e74039');
INSERT INTO journal VALUES(179,12,'repeat',1,'5a659dd001d80bd51a2e27efc2d1c105474f8fcb1c2699cadb156f61c50d7866','07785dc4dd5ac610c7032dd558b96b2c60184390248b333d661ae5731f32d2ea');
INSERT INTO journal VALUES(180,13,'act',13,'4faeb0f57fb2daa8018366af44c815ac50d7c23cacefbe0fda69dc686ae19c93','793295ca9e936c602f3fa9e2503e2f5c9b4b9efe9f796faee64db1e8bfa5e0ee');
INSERT INTO journal VALUES(181,13,'setting',66,'80d946adfe0aa935cf3e5559b8ba848102ac41a6981e600237a34be339cc5605','9e10ad38b01b954a06287edbdc4b63d6d0f31492e2d7c779ff25bf815828520e');
INSERT INTO journal VALUES(182,14,'act',14,'12d5b25d914e1b4f3f9c486a0636626b15266c5dbf48716bbce441c9c8b03d63','fb18e3fea3c10609613db477a6a03b4ede8f5cdeece8771aa0cdb3249672d851');
INSERT INTO journal VALUES(183,14,'reading',8,'2c85dff5c14e0f8ad6521cc64d21933abfd40c4efdd488d4188ca524498eaae8','bcc9120d40cbaea313c38ce099eca06e3cd9b2874e4c5a8412372edf4d35356e');
INSERT INTO journal VALUES(184,15,'act',15,'914e5497a14dee828c1720f7487e7bbb1ae9a269d83b7ee0719b7b05989b8636','6ec2e131559ca52452b62961675c5ab4f90fd5f6f72cfb1b90590099f70faba1');
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
INSERT INTO path VALUES(0,1,0,0.0,0.0,'-14','32.7',0.0,0.0,21.399999999999998578,0.0,5932845.2000000001863,563210.40000000002329,0.0,NULL,NULL,0.0,1,0,0.0,0.0,0.0,NULL,NULL,NULL);
INSERT INTO path VALUES(1,1,1,9.5999999999999996447,6.399999999999999467,'-14.1','32.8',6.208455189023363907,0.031963400229151339715,19.84628113079450884,-0.005826596330216204933,5932850.1893515121191,563214.09125067584682,0.13932204187276614471,2631.9811564246519991,NULL,0.026636166857626118742,1,0,0.02099948382191763746,0.031195468444224428578,0.014099383979027546587,NULL,NULL,NULL);
INSERT INTO path VALUES(2,1,2,19.199999999999999289,16.0,'-13.8','32.9',15.525083944155710468,0.096197057351145254244,17.531962637138200022,-0.00041190425372406025417,5932857.6669451575727,563219.64359600399621,0.31530747296826439063,1744.4543199296508646,NULL,0.080164214459287716496,1,0,0.032499022358073864635,0.068875597537748189935,0.033768316205586949851,NULL,NULL,NULL);
INSERT INTO path VALUES(3,1,3,28.780000000000001136,25.580000000000001846,'-11.5','32.6',24.871776645936996886,0.14420878456522245869,15.434128690743996514,-0.0053528426181692623231,5932865.1783681325615,563225.20060519012624,2.3185492144596175911,236.74009777845452617,NULL,0.12017398713768538687,1,0,0.043072895316180956348,0.10022730049269691632,0.051721508110981397055,-0.010579804393586300648,0.0077348874721536731158,-0.04791148967848712914);
INSERT INTO path VALUES(4,1,4,38.370000000000004547,35.170000000000001705,'-9.3','32.6',34.303617416599536226,0.168076271903665031,13.703056434174989419,-0.0011539699049301077593,5932872.7727328995243,563230.78840910037979,2.2000000000000032862,249.75751160475391542,405.19206631418933283,0.14006355991972085917,1,0,0.053306342657524048711,0.13131620385871042855,0.06885215656431563358,-0.010654769730379598513,0.0026820790861705745555,-0.047966797111888226368);
INSERT INTO path VALUES(5,1,5,47.980000000000003978,44.780000000000001136,'-7.5','32.2',43.810109000920675727,0.15887171650260256683,12.299250680188254847,-0.030829655628512142584,5932880.4468425214292,563236.39360830467194,1.8429790624994784042,298.76217930222793484,329.34942539750551304,0.13239309708550214828,1,0,0.063412690934558396671,0.16768359035332502937,0.08561711305008412598,-0.0096151894129903325847,0.0092474148626386920568,-0.040444966083281741475);
INSERT INTO path VALUES(6,1,6,57.59000000000000341,54.390000000000000568,'-5.3','32.8',53.359584297352327551,0.16647754188631935789,11.228090378922242819,-0.094297126135135300728,5932888.1457013133912,563242.03774561511816,2.2793598909421226572,241.56450383670551218,254.55542679954456274,0.13873128490526615008,1,1,0.073481891247397568278,0.20726855662069207375,0.10215382233603398365,-0.010866465404390623916,-0.0074731692330409771329,-0.050912567954206622289);
INSERT INTO path VALUES(7,1,7,67.189999999999997725,63.989999999999994883,'-2.9','33.0',62.934021915783716848,0.24086404777883529959,10.541764398523302048,-0.14071943686129628758,5932895.8252694001421,563247.7504911478609,2.4082752367155508821,228.39560650706343381,252.07056951143061952,0.20072003981569608299,1,1,0.083556425607147738476,0.24885870509618479573,0.11854671223130276713,-0.0110354923909739,7.0278663041989375415e-05,-0.051957496909126987816);
INSERT INTO path VALUES(8,2,6,57.59000000000000341,54.390000000000000568,'-10.6','32.4',53.299293389063414848,0.14137279322235940526,10.787813990171644107,-0.53977433914433881056,5932888.111887800507,563241.98189847334288,3.1141210894512130202,176.81150645871414894,232.13026257645341843,0.4498119492869490088,1,0,0.073562428072336510931,0.20699990230705861415,0.10215086610705613467,-0.0050523347935396145658,0.0037184892588548734693,-0.0099710959123502362899);
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
INSERT INTO warning VALUES(1,'leaves-corridor','watch',2,6,6,6,53.299293389063414848,1.0,2.0,1,0,0,NULL,'If it keeps heading off the design as it does, the corridor is left in joint 7, 1 ahead. Turn back now.');
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
INSERT INTO repeat VALUES(1,12,'again','30','-10.8','32.5',NULL,NULL,NULL,NULL);
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
INSERT INTO fix VALUES(1,10,'walk-over','38',NULL,NULL,NULL,'0.2',NULL,NULL,'0.15',NULL);
CREATE TABLE fix_use (
	-- A fix was set aside, or used again; the last word on it holds.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	fix INTEGER NOT NULL REFERENCES fix (id),
	used INTEGER NOT NULL CHECK (used IN (0, 1))
) STRICT;
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
INSERT INTO adjustment VALUES(1,11,1,NULL,'0.205',NULL,'1');
CREATE TRIGGER act_is_not_changed BEFORE UPDATE ON act
BEGIN SELECT RAISE(ABORT, 'act: what was written is never changed'); END;
CREATE TRIGGER act_is_not_deleted BEFORE DELETE ON act
BEGIN SELECT RAISE(ABORT, 'act: what was written is never deleted'); END;
CREATE TRIGGER act_is_not_replaced BEFORE INSERT ON act
WHEN EXISTS (SELECT 1 FROM act WHERE id = NEW.id OR uid = NEW.uid)
BEGIN SELECT RAISE(ABORT, 'act: what was written is never replaced'); END;
CREATE TRIGGER setting_is_not_changed BEFORE UPDATE ON setting
BEGIN SELECT RAISE(ABORT, 'setting: what was written is never changed'); END;
CREATE TRIGGER setting_is_not_deleted BEFORE DELETE ON setting
BEGIN SELECT RAISE(ABORT, 'setting: what was written is never deleted'); END;
CREATE TRIGGER setting_is_not_replaced BEFORE INSERT ON setting
WHEN EXISTS (SELECT 1 FROM setting WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'setting: what was written is never replaced'); END;
CREATE TRIGGER alignment_is_not_changed BEFORE UPDATE ON alignment
BEGIN SELECT RAISE(ABORT, 'alignment: what was written is never changed'); END;
CREATE TRIGGER alignment_is_not_deleted BEFORE DELETE ON alignment
BEGIN SELECT RAISE(ABORT, 'alignment: what was written is never deleted'); END;
CREATE TRIGGER alignment_is_not_replaced BEFORE INSERT ON alignment
WHEN EXISTS (SELECT 1 FROM alignment WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'alignment: what was written is never replaced'); END;
CREATE TRIGGER profile_is_not_changed BEFORE UPDATE ON profile
BEGIN SELECT RAISE(ABORT, 'profile: what was written is never changed'); END;
CREATE TRIGGER profile_is_not_deleted BEFORE DELETE ON profile
BEGIN SELECT RAISE(ABORT, 'profile: what was written is never deleted'); END;
CREATE TRIGGER profile_is_not_replaced BEFORE INSERT ON profile
WHEN EXISTS (SELECT 1 FROM profile WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'profile: what was written is never replaced'); END;
CREATE TRIGGER corridor_is_not_changed BEFORE UPDATE ON corridor
BEGIN SELECT RAISE(ABORT, 'corridor: what was written is never changed'); END;
CREATE TRIGGER corridor_is_not_deleted BEFORE DELETE ON corridor
BEGIN SELECT RAISE(ABORT, 'corridor: what was written is never deleted'); END;
CREATE TRIGGER corridor_is_not_replaced BEFORE INSERT ON corridor
WHEN EXISTS (SELECT 1 FROM corridor WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'corridor: what was written is never replaced'); END;
CREATE TRIGGER ground_is_not_changed BEFORE UPDATE ON ground
BEGIN SELECT RAISE(ABORT, 'ground: what was written is never changed'); END;
CREATE TRIGGER ground_is_not_deleted BEFORE DELETE ON ground
BEGIN SELECT RAISE(ABORT, 'ground: what was written is never deleted'); END;
CREATE TRIGGER ground_is_not_replaced BEFORE INSERT ON ground
WHEN EXISTS (SELECT 1 FROM ground WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'ground: what was written is never replaced'); END;
CREATE TRIGGER obstacles_is_not_changed BEFORE UPDATE ON obstacles
BEGIN SELECT RAISE(ABORT, 'obstacles: what was written is never changed'); END;
CREATE TRIGGER obstacles_is_not_deleted BEFORE DELETE ON obstacles
BEGIN SELECT RAISE(ABORT, 'obstacles: what was written is never deleted'); END;
CREATE TRIGGER obstacles_is_not_replaced BEFORE INSERT ON obstacles
WHEN EXISTS (SELECT 1 FROM obstacles WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'obstacles: what was written is never replaced'); END;
CREATE TRIGGER tally_is_not_changed BEFORE UPDATE ON tally
BEGIN SELECT RAISE(ABORT, 'tally: what was written is never changed'); END;
CREATE TRIGGER tally_is_not_deleted BEFORE DELETE ON tally
BEGIN SELECT RAISE(ABORT, 'tally: what was written is never deleted'); END;
CREATE TRIGGER tally_is_not_replaced BEFORE INSERT ON tally
WHEN EXISTS (SELECT 1 FROM tally WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'tally: what was written is never replaced'); END;
CREATE TRIGGER soil_is_not_changed BEFORE UPDATE ON soil
BEGIN SELECT RAISE(ABORT, 'soil: what was written is never changed'); END;
CREATE TRIGGER soil_is_not_deleted BEFORE DELETE ON soil
BEGIN SELECT RAISE(ABORT, 'soil: what was written is never deleted'); END;
CREATE TRIGGER soil_is_not_replaced BEFORE INSERT ON soil
WHEN EXISTS (SELECT 1 FROM soil WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'soil: what was written is never replaced'); END;
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
CREATE TRIGGER leg_is_not_changed BEFORE UPDATE ON leg
BEGIN SELECT RAISE(ABORT, 'leg: what was written is never changed'); END;
CREATE TRIGGER leg_is_not_deleted BEFORE DELETE ON leg
BEGIN SELECT RAISE(ABORT, 'leg: what was written is never deleted'); END;
CREATE TRIGGER leg_is_not_replaced BEFORE INSERT ON leg
WHEN EXISTS (SELECT 1 FROM leg WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'leg: what was written is never replaced'); END;
CREATE TRIGGER acknowledgement_is_not_changed BEFORE UPDATE ON acknowledgement
BEGIN SELECT RAISE(ABORT, 'acknowledgement: what was written is never changed'); END;
CREATE TRIGGER acknowledgement_is_not_deleted BEFORE DELETE ON acknowledgement
BEGIN SELECT RAISE(ABORT, 'acknowledgement: what was written is never deleted'); END;
CREATE TRIGGER acknowledgement_is_not_replaced BEFORE INSERT ON acknowledgement
WHEN EXISTS (SELECT 1 FROM acknowledgement WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'acknowledgement: what was written is never replaced'); END;
CREATE TRIGGER journal_is_not_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'journal: what was written is never changed'); END;
CREATE TRIGGER journal_is_not_deleted BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'journal: what was written is never deleted'); END;
CREATE TRIGGER journal_is_not_replaced BEFORE INSERT ON journal
WHEN EXISTS (SELECT 1 FROM journal WHERE seq = NEW.seq)
BEGIN SELECT RAISE(ABORT, 'journal: what was written is never replaced'); END;
CREATE VIEW log_book AS
	-- Every reading ever logged, who, when and why, and whether it still stands.
	SELECT r.id AS reading, r.leg, r.joint, r.joint_length, r.inclination, r.azimuth, r.tool_face, r.slid,
		r.remarks, a.at AS at_utc, a.who, a.words AS reason, r.corrects,
		CASE WHEN EXISTS (SELECT 1 FROM reading n WHERE n.corrects = r.id) THEN 'corrected'
			WHEN (SELECT superseded FROM path p WHERE p.reading = r.id) THEN 'pulled back' ELSE 'stands' END AS state
	FROM reading r JOIN act a ON a.id = r.act ORDER BY r.id
;
CREATE VIEW history AS
	-- Everything that was done, in the order of time.
	SELECT id AS act, at AS at_utc, datetime(at, utc_offset || ' minutes') AS at_local, who, kind, leg, joint, words
	FROM act ORDER BY id
;
CREATE VIEW open_warnings AS
	-- What nobody has acknowledged yet, on the bore as it lies.
	SELECT kind, level, joint, last_joint, station, words FROM warning
	WHERE acknowledged = 0 AND superseded = 0 ORDER BY id
;
CREATE VIEW sheet AS
	-- The job sheet as the job began. What changed since: settings_changed.
	SELECT section, key, value FROM setting WHERE from_joint IS NULL ORDER BY id
;
CREATE VIEW settings_changed AS
	-- Settings that changed while the bore was drilled, who changed them, when and why.
	SELECT s.section, s.key, s.value, s.from_joint, a.at AS at_utc, a.who, a.words AS reason
	FROM setting s JOIN act a ON a.id = s.act WHERE s.from_joint IS NOT NULL ORDER BY s.id
;
CREATE VIEW as_drilled AS
	-- The bore as it lies in the ground, joint by joint from the entry (the rig side). Lengths in `unit`.
	SELECT joint, leg, bit_depth, survey_depth,
		CAST(inclination AS REAL) AS inclination, CAST(azimuth AS REAL) AS azimuth_as_read,
		station, offset AS offset_right_positive, height AS height_above_design, elevation, northing, easting,
		dogleg_deg AS dogleg_degrees, radius_joint AS radius_over_joint, radius_window AS radius_over_window,
		corridor_share * 100 AS corridor_percent, sigma_along, sigma_across, sigma_up,
		(SELECT value FROM sheet WHERE section = 'job' AND key = 'unit') AS unit,
		(SELECT value FROM sheet WHERE section = 'job' AND key = 'inclination') AS inclination_convention
	FROM path WHERE superseded = 0 ORDER BY joint
;
CREATE TRIGGER repeat_is_not_changed BEFORE UPDATE ON repeat
BEGIN SELECT RAISE(ABORT, 'repeat: what was written is never changed'); END;
CREATE TRIGGER repeat_is_not_deleted BEFORE DELETE ON repeat
BEGIN SELECT RAISE(ABORT, 'repeat: what was written is never deleted'); END;
CREATE TRIGGER repeat_is_not_replaced BEFORE INSERT ON repeat
WHEN EXISTS (SELECT 1 FROM repeat WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'repeat: what was written is never replaced'); END;
CREATE TRIGGER fix_is_not_changed BEFORE UPDATE ON fix
BEGIN SELECT RAISE(ABORT, 'fix: what was written is never changed'); END;
CREATE TRIGGER fix_is_not_deleted BEFORE DELETE ON fix
BEGIN SELECT RAISE(ABORT, 'fix: what was written is never deleted'); END;
CREATE TRIGGER fix_is_not_replaced BEFORE INSERT ON fix
WHEN EXISTS (SELECT 1 FROM fix WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'fix: what was written is never replaced'); END;
CREATE TRIGGER fix_use_is_not_changed BEFORE UPDATE ON fix_use
BEGIN SELECT RAISE(ABORT, 'fix_use: what was written is never changed'); END;
CREATE TRIGGER fix_use_is_not_deleted BEFORE DELETE ON fix_use
BEGIN SELECT RAISE(ABORT, 'fix_use: what was written is never deleted'); END;
CREATE TRIGGER fix_use_is_not_replaced BEFORE INSERT ON fix_use
WHEN EXISTS (SELECT 1 FROM fix_use WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'fix_use: what was written is never replaced'); END;
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
	FROM fix f JOIN act a ON a.id = f.act ORDER BY f.id
;
COMMIT;

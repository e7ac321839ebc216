-- A job file as the third version of the schema made it: kestrel-road with a checklist, seven joints over two legs, a breach redrilled,
-- one accepted, a point ticked off. Made once with that version and never again.
PRAGMA application_id = 1396854610;
PRAGMA user_version = 3;
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
INSERT INTO act VALUES(1,'01a2148a56ea7bd5f36980b07f839c0e','new','2026-11-25T21:09:00.266Z',0,'Ida',1,0,NULL);
INSERT INTO act VALUES(2,'01a2148a56f2ee4c9716c23e3686fb4b','log','2026-11-25T21:09:00.274Z',0,'Ida',1,1,NULL);
INSERT INTO act VALUES(3,'01a2148a56f792bccdfde461c432363d','log','2026-11-25T21:09:00.279Z',0,'Ida',1,2,NULL);
INSERT INTO act VALUES(4,'01a2148a56fdfafa70ad65d0c9f15dbe','log','2026-11-25T21:09:00.285Z',0,'Ida',1,3,NULL);
INSERT INTO act VALUES(5,'01a2148a570234d022f5eb5f184a4a50','log','2026-11-25T21:09:00.290Z',0,'Ida',1,4,'read twice');
INSERT INTO act VALUES(6,'01a2148a5707d0b91967749bee60e535','withdraw','2026-11-25T21:09:00.295Z',0,'Ida',2,3,'bend');
INSERT INTO act VALUES(7,'01a2148a570c1eabc5cad46f47377b22','log','2026-11-25T21:09:00.300Z',0,'Ida',2,4,NULL);
INSERT INTO act VALUES(8,'01a2148a571130581767492114f9573f','log','2026-11-25T21:09:00.305Z',0,'Ida',2,5,'read twice');
INSERT INTO act VALUES(9,'01a2148aa45e14cd263ae9a427abbbcb','log','2026-11-25T21:09:20.094Z',0,'Ida',2,6,NULL);
INSERT INTO act VALUES(10,'01a2148aa4653d0ed6f12cad35a12800','log','2026-11-25T21:09:20.101Z',0,'Ida',2,7,'read twice');
INSERT INTO act VALUES(11,'01a2148acc02a9d18fa3aa12d54f6ae3','accept','2026-11-25T21:09:30.242Z',0,'B. Hale',2,7,'bend over the window, joint 7, reference C-17: stress fine');
INSERT INTO act VALUES(12,'01a2148acc080e907946545f545cbd13','tick','2026-11-25T21:09:30.248Z',0,'Ida',2,7,'point 1 done, reference letter 3');
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
INSERT INTO setting VALUES(60,1,'hole','pilot_diameter','150',NULL);
INSERT INTO setting VALUES(61,1,'hole','final_diameter','450',NULL);
INSERT INTO setting VALUES(62,1,'cover','minimum','1.5',NULL);
INSERT INTO setting VALUES(63,1,'cover','from','45',NULL);
INSERT INTO setting VALUES(64,1,'cover','to','375',NULL);
INSERT INTO setting VALUES(65,1,'steering','slide_turn','0.7',NULL);
INSERT INTO setting VALUES(66,1,'steering','droop','0.03',NULL);
INSERT INTO setting VALUES(67,1,'steering','walk','0.01',NULL);
INSERT INTO setting VALUES(68,1,'steering','tool_face_as','clock',NULL);
INSERT INTO setting VALUES(69,1,'entry','inclination','-14',NULL);
INSERT INTO setting VALUES(70,1,'entry','azimuth','32.7',NULL);
INSERT INTO setting VALUES(71,1,'acceptance','exit_survey','yes',NULL);
INSERT INTO setting VALUES(72,1,'acceptance','warnings_acknowledged','no',NULL);
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
, cover TEXT /* least ground over the top of the hole; NULL: as in the settings of section cover */ CHECK (cover NOT GLOB '*[^-0-9.]*' AND length(cover) BETWEEN 1 AND 23)) STRICT;
INSERT INTO corridor VALUES(1,1,'150','235','0.5','0.9','0.9','0.9',NULL);
INSERT INTO corridor VALUES(2,1,'270','330','0.6','1.0','1.0','1.0','3');
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
INSERT INTO reading VALUES(1,2,NULL,1,1,'9.60','-14','32.8',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(2,3,NULL,1,2,'9.60','-13.8','32.9',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(3,4,NULL,1,3,'9.58','-11.5','32.6',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(4,5,NULL,1,4,'9.59','-6.5','32.4',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(5,7,NULL,2,4,'9.59','-9.3','32.6',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(6,8,NULL,2,5,'9.61','-4.9','32.4',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(7,9,NULL,2,6,'9.61','-3.5','32.5',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
INSERT INTO reading VALUES(8,10,NULL,2,7,'9.60','1.5','32.5',NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL);
CREATE TABLE leg (
	-- Each time the string was pulled back to redrill: the leg that began, and the last joint that stayed.
	-- Leg 1 begins at the entry and has no row.
	id INTEGER PRIMARY KEY CHECK (id >= 2), -- its number
	act INTEGER NOT NULL REFERENCES act (id),
	to_joint INTEGER NOT NULL CHECK (to_joint >= 0) -- 0: all were pulled out
) STRICT;
INSERT INTO leg VALUES(2,6,3);
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
INSERT INTO journal VALUES(1,1,'act',1,'4080e3250088b8715aaf10dfcc1a024d0d5ad2dd079ffb764959ad3b4235fc1e','b1d40edc9e9ea566782907d45a47120757987ab96a63b138a24f6dc5ed9b7a10');
INSERT INTO journal VALUES(2,1,'setting',1,'2ebfd31817331425f358d1e74853571c158d73b53915990102d6681740952c1c','e5326e459f6558b48c2d9deba095c901ba268fc30fdbb794b902704716179aeb');
INSERT INTO journal VALUES(3,1,'setting',2,'4d76b7ed67e1627180d2854008475ce1717cc5b9310369bef6f52ee3bcdde7e6','fdb227ba5bd7c99c350c3894d6248603af04e67f49f8ea3f89160fd20d5927ea');
INSERT INTO journal VALUES(4,1,'setting',3,'a787171ad67091336e12aa1748832133e6e04e81fbd7589434993d728e57c0ac','76c232645077109e684a0e890f6b35954be905abdb7341806c9c0d07a46988d2');
INSERT INTO journal VALUES(5,1,'setting',4,'048f44b7d6b0133b679d746c8b1f0843d2066aff513b0743f82340c3569685a5','21070773d9c4601325deac964fa1898d87c2cbbfdd7e0c8ccdd85349e3a0c8b3');
INSERT INTO journal VALUES(6,1,'setting',5,'47b5ac8b4983f13131c12ca7843b70a737ca87dcc9b69048ae7ad5c93fc24382','d574e602ebc267508f7ec6b08ab269dc10a32e439d71554db3ed69ad2b121acc');
INSERT INTO journal VALUES(7,1,'setting',6,'2cf45242c49cad64c8f61ab1173f265654523f64223efd9c7837035101aac3e9','f476963618863bbdeb25d1524a5163605fce82f812ec7b6d848df3921232636e');
INSERT INTO journal VALUES(8,1,'setting',7,'88be08a65e9fa6f51401ab8cb36f37e08082c13c4682a8bb669e9f33ec725d99','c8c10f99ae9e32e6661634561d7592e94ce692e8a02967dcc2457d72f60fe301');
INSERT INTO journal VALUES(9,1,'setting',8,'66e2ed32714843d6fec2a026cb1f82f973bd07b3d3fd7cf68c33a43c9e5a35ca','1e3ecfec54bc3b54dc09142ad94f07cf5b1bc38964deb596c7d9e59675d8d82c');
INSERT INTO journal VALUES(10,1,'setting',9,'1c03f3c4b340f08f86efe67010b9b0c2b2f88f350422a18a990d4f10f8742d44','16556e994f3df797e0b90c12d7051ad5fe73b238e33e960fbf6b60f1331701d7');
INSERT INTO journal VALUES(11,1,'setting',10,'092064b42cf7dc18362fa4f25515c56d579abd33ddcda022c17894e75bb94854','b2d8d7a61e01e14ed004790d1b024e7d7a7e9017ded5416c69e286e652e1cf0c');
INSERT INTO journal VALUES(12,1,'setting',11,'4db2483bd4f2358efcc65628586cb8ee4be01e2d98125561c235ae7a0c105309','edc996a6e18e7de98afe0c7479b74db12e3674223b69131c3f5d34a968b6c5f2');
INSERT INTO journal VALUES(13,1,'setting',12,'35dc09b78b879f3cf5c898f8261218f92798fa0398ef32c58a9fe7987e37d0ce','7e6e86dfc718d5358c0eb28225f73e99753d2851f3b730ed24275b24d2d9d3cf');
INSERT INTO journal VALUES(14,1,'setting',13,'cac16743d76f995fe3e73b5460332e08611185050ae3c8e7365da9bc3cce95bc','442f8e880dab1b1cbfb2d0fdff2e3d2980fa857800665e262c40bc64a4da1c4e');
INSERT INTO journal VALUES(15,1,'setting',14,'9523f2bf2e279fa709f909ecf2a9ca00f7b4133b6895b56380f8da7d54880474','f5e9af5d6f8e4afb406564280bbe43d0bf6e5dd3ab963c3904e1060e0b5a188b');
INSERT INTO journal VALUES(16,1,'setting',15,'1425ad91519c71a2a20f4fe416fb88a6e17b1642a17f8ae6c5fd80882b5358b7','53305e15703fc569c896ed7e573df796fd6e0beb19f883e7d8ec3930e942e3a3');
INSERT INTO journal VALUES(17,1,'setting',16,'fb4da3c5f4c196bc315cd83f6490c8e869b7dfa7bb1e39d9e73281e23372f0a5','fd0f4902f329f666a4ab90f2c1e5858524f9170f8a25f2a6812b9b73dead3ed9');
INSERT INTO journal VALUES(18,1,'setting',17,'8625bed8b4e424c89baea417e828c12a620e3f99f2b2fdcfe6b877dfc81e21af','ed7865820afb9bbe9795453f9d45124cac0b53846762c4132c398592e5e1a585');
INSERT INTO journal VALUES(19,1,'setting',18,'9ba50f62bae8ddc33881278f3e70a6e7321508b9b96166620eea4cea4ea4b2d4','ebcecc96ba377797acb8c1f1af325d39548a08f380d1d6348a58c51e81c7e479');
INSERT INTO journal VALUES(20,1,'setting',19,'d7f963468ef71fdbac97d1907b71783ac777fe58e21552ed256f23193365353a','1ab3333616620c6164de2ccb3e44f5ce5dca483cb64fadce7fb43c8c9eda3528');
INSERT INTO journal VALUES(21,1,'setting',20,'89df0780d291201208db34b2950ac726c04607df98a74bc7d98a845d76e9fd09','e589dcc9a6e5b3137592d362d78a7b284fbb248ebc001078dc780d3ebc0c3e13');
INSERT INTO journal VALUES(22,1,'setting',21,'a0a82205a9a6e571897a2808925e9eef21b853a9af98cbf0dd0693db5a21f97d','0da100687dc85908286975824bbdb6b0bcb616a806c5ebdf90f194053a7ede25');
INSERT INTO journal VALUES(23,1,'setting',22,'a8bbcc05f567d550fb7ceab866d931928c8f720f627bed815de503165ac6f930','9452acf6fb0f73c1a6f65b49631be9b0d9a5115a7f77857981f89c5fece0b033');
INSERT INTO journal VALUES(24,1,'setting',23,'078616004e8c5989dd5fe2e14f763cda008bdec9562f0dac9a6d58c75059fb6c','c2ed7985efd3ab2977c20ab3c2f89a41386c9d0e479f89b53d6c78c39a842391');
INSERT INTO journal VALUES(25,1,'setting',24,'43c2fb7f7e329e44d9b67a4237e59805c9e74c33d5d310dd0ba375d739d5a02e','82e0f96c3e6a526d6f035e4b2cc0a1d8514a591860ecbad00bc234d33edc4eb9');
INSERT INTO journal VALUES(26,1,'setting',25,'00b256e001087c94d02a2e9ad341a5539fbe636a9c2243ba6f241911747d502f','21f600df39ac58f6b907b8a62182822f3021530c3c92476e57e0d257fbfd6b86');
INSERT INTO journal VALUES(27,1,'setting',26,'c77dc1667e77da274855a5c5957ea0ea6b6fcf1c9537d828594bf42839da3af4','a5b57e69d678dfadfda56a494f4dc1dfeb180df982194d10cd74016cb382cf17');
INSERT INTO journal VALUES(28,1,'setting',27,'2c6ed4ff5aebd5e1622c686045ca907ef4cc11c1a2f10cb3fdaf4f954a1c7211','2036a8d5bf5745a16dcee52e19380be1de7bf3fab9fd85f6f8c56551502b61a5');
INSERT INTO journal VALUES(29,1,'setting',28,'2bdd12cd035a9697bb182c5f0412bee9e0e4d08de9461bb97f22a15339cd36b8','3832650b1675d1fe77e3eb992d1fcc544496512525f005e435311bf75347523e');
INSERT INTO journal VALUES(30,1,'setting',29,'16b55a6027ac6181351fa4171c05165cd48aa8f0cb28e923388fc8cbfa6b80e3','aa5726399bae876f6bc40d54e232e0d82e3e7ba4bccace1d9124adc4e52f6cde');
INSERT INTO journal VALUES(31,1,'setting',30,'4d4e91573690811675c2c10f65b43235321d8abf336a8aa4179a3c691710e479','5b983d45af3e1201877dc3271b7ecc658da7600f41f1e81af32d83f7fb008266');
INSERT INTO journal VALUES(32,1,'setting',31,'a45a399fb067f68eae670269e9cf3e0c363b1460f109e2aef952d9ebad019f5d','7ac110303cf1daeeab4b9697c2cb44205636daaa5959bd0cda10b9cf8f816c31');
INSERT INTO journal VALUES(33,1,'setting',32,'0c0ce7d9b71576525610aebd55d3126205b58c3719770deef52eeb514eefee72','a46d302c38f8f28cfc8bf1f690d0ba158ba72c4ce0a1a2961c22afd67c0575fc');
INSERT INTO journal VALUES(34,1,'setting',33,'824d060601e7abaae97749317fa345e7fb8e1c0ee31301878006c0a79a044aaa','fc58447b2c15b041977ca45ecf1b5cc30e5809ca65052fcf909467a24d4b7f4d');
INSERT INTO journal VALUES(35,1,'setting',34,'17e486a7fa4ac25b169c5684098d642877ffd0f064d28edef758439cd52ca344','1934cf659aaaa6fd9fa2855414f81e2a640aae1eb5321f3cd2c47c037cb51d04');
INSERT INTO journal VALUES(36,1,'setting',35,'315f41d6fdf33b0f9930ebb0ae45a40816275d788d418699d70343653fb7aa97','eb9b23c2d192cfad484e5b684f94f377d74fbaa46d6b8eb0df6b5ed30d6a3bc7');
INSERT INTO journal VALUES(37,1,'setting',36,'002cae8943cc389fe6b464b050106f29401d2a3444c10add64b37131cb95ed55','4d9f9336c8cad400c9adfeca48beae6e1029714a90b4df3139c328956af2a89c');
INSERT INTO journal VALUES(38,1,'setting',37,'3a8abadc7365a637a7080d2d7deecf62e65bf5a97aa49bec9c22116076924132','2da06ca401b4f7457861693450d395e7e6114ea55b03b75dfaaec98d0544d595');
INSERT INTO journal VALUES(39,1,'setting',38,'753688f6418753456f8153a41b6361e4846d69aa5e09ea19233faee8eb155f56','2c20f1faf0f6396596ac78c198fc236176a49fd8d9db05b68e1c5db5a4b7d7d1');
INSERT INTO journal VALUES(40,1,'setting',39,'0f182351087b6a2c3513297bd5e683752cf26bd334343bd6b8715b711c1ac40e','d9b5b17ada476c080ea29b6e95c10446c19e0db51a6dd8611e7938e7591d4ac0');
INSERT INTO journal VALUES(41,1,'setting',40,'b816a7420a6001b0aa89c4071dff37ec57cd27e4a2eb52b0251910d7939f4bbe','61d334440fd1fc31c0cdb5d2e47a7db4685ef06dbf7b0458a5c4de9649b60990');
INSERT INTO journal VALUES(42,1,'setting',41,'6b1294f87523cce7c8776df23da656f6add61f6efc63d43b2453febfb6cf3ccf','f5bce2e6d77c5fe3fb0ee487197f4ec0753a8cd8a04f978bad09a0c83e1225d8');
INSERT INTO journal VALUES(43,1,'setting',42,'8ca007d551a18705099b97c3d911f264c2d6a45986fa3eb66047c6362694c821','de2e359c02da114f50163963068fbb8999015771e90a1d95f777cdc88b8e5ecf');
INSERT INTO journal VALUES(44,1,'setting',43,'bcac31ad3f435458ccdac0321873ecaee1024639b920e4698965885fc0ad1933','1614c626ea37df3a8b9619727e08c6815559ac53b9fe1d9db83e8c7a8427d8b7');
INSERT INTO journal VALUES(45,1,'setting',44,'7ce9f027f23f7906a5c4c550c3653e940747344b88e1aaeb5a14157c205b4de2','d9cf02eb44578c2d27ac8e31a597ef50d8ce3e105d26b5d5f9c15bd3a72cd915');
INSERT INTO journal VALUES(46,1,'setting',45,'6c1789fce77c7faa9ddc188ecc8d27ebe4a5426dd9773af2ac21c62690dc9df8','bce0693762e58d136a16b226f721c38df50ae19d8f525ba67261f1667e8a2bdd');
INSERT INTO journal VALUES(47,1,'setting',46,'f7cba20d8d233245e05fa49db1f0b61f1d6e47b41e9283da927e5f30d44379ba','3e4fa47dfed20d34af58a9a961347cc15d4ca02d77f0ae8fe7025267d9a76a4a');
INSERT INTO journal VALUES(48,1,'setting',47,'93fc192c6e83ce7d6ce428f6ba190c63a5e9c539cf3c6ee2a07b675749cc82a9','6e8f43db9ce1df369c33b0c375a2dafae742ba7b381c372c7926b6165de00083');
INSERT INTO journal VALUES(49,1,'setting',48,'9bf9927deba9a0d20083b6dea28d5a84550f449641c7dc39917949db3e9a0589','9fe30b971c630c80a541684de9f20cb2f4a726ad51d144af0322aae596b1f221');
INSERT INTO journal VALUES(50,1,'setting',49,'2b961c73f77d9f67b778c46d1b1e198d9808326761a10ae7bf8c46da6df38cc0','43d72aefc39dab5e790b0ccd787888738e89dc35504d28a68e5a488ddf063d69');
INSERT INTO journal VALUES(51,1,'setting',50,'5ee62a6046fe642ffd72fcd68a24a464afcc1535e467ea2ee68e42b091399f9c','323626ed110668dc3f3b6f7bd50cd878ed3e4800310b82ede771ef734f2ae849');
INSERT INTO journal VALUES(52,1,'setting',51,'60a0c3f96df5b33ffe726d141bbffb891952d6cdd3e0c743dd6730eaf3707b8d','627685bb1cabad189b1114aef8e4dbb0c4dcacd2641538a3885eec2754d5f0fd');
INSERT INTO journal VALUES(53,1,'setting',52,'4e2b284af2b3dccf04c7c4b56cd9043fc308763fe23dee06194b346cea4aa6c1','61e1985f3cfa7b5e77ea07e671c98bc39fe3c82bcd34d47016567e32cc8aa4cf');
INSERT INTO journal VALUES(54,1,'setting',53,'092363f4d01faa8c586d6b8fc7fcad11f49da9b0d9970157d4bd11e82aa03e35','6f584ae459d12936804e966e479a6a79170f1544dbe743e25669f6a32bb89fb0');
INSERT INTO journal VALUES(55,1,'setting',54,'cabcc28f95bff7781c8b84dc7def35b11272d3a43d461920d64d09125aa4f2d9','7409abf6a7cab105738c880eff95b42ac848a76393dd4b0cea35462d15dda93b');
INSERT INTO journal VALUES(56,1,'setting',55,'636921b342322de36e24f5ea2a24151ea1d3fa3f56bfe0cf83f99ca86ba7fb8d','5a29c7ca3328e08ca51767854d9b94845a9363915d1acb2845d035259275df2e');
INSERT INTO journal VALUES(57,1,'setting',56,'d98dc9ce9340a6be8d6e99851d8d4b6f100acc018825e13e943ff35fe8738676','c7c3149b55f61b2623c2bb9f36c688c8468618ab16391dd17bda324c0664162a');
INSERT INTO journal VALUES(58,1,'setting',57,'179d697b1e51494308fc60bbee70347751c772023510ae6d7f0e2278fd86752d','5f4d7e4efde2a83edcfba336a16af51d2c67e4c02684ef7f9736fa5e7308dcc9');
INSERT INTO journal VALUES(59,1,'setting',58,'920d058d472b856e4b3acde65bb2bea0d1bb7ffbaa4d42c17f24a24e8937a14f','8c82198166208260649dbfca492e81db9a989addffc57e602f36881f61e6010d');
INSERT INTO journal VALUES(60,1,'setting',59,'d1e4ac6deae4849075054e83ea1fd94c11b3c86c8f7a726ba0b78dd6aa83a716','f598517fb676e8c003465d59410b28c1ab1c2beea928b01d2d60e4d6eb78f3ed');
INSERT INTO journal VALUES(61,1,'setting',60,'fa68e80ecd7a9f2d17c8960202ff6fee0ed5c67bbe29f167f69d0b1eb46bc3c4','df43125561e2f33806823cd00263dcc5d724d2006dd76f296ff5fe78918b8924');
INSERT INTO journal VALUES(62,1,'setting',61,'43cf327b009eca2dc15bfc1b4a5ea17db17af73af7ac2c8b3445a20be2357c1a','eb266ff7b5e16276643e7faaa06cd5b682ebbe98b89683e8b4fb4041e45ed522');
INSERT INTO journal VALUES(63,1,'setting',62,'5a494073b1d0564ea1eaa4166f7ac86406d6757123761f94abe7b70f936514ed','78d7d4295f6ad4c734db0e05feac00a8aeca902f28b0f5c33c285f88cd501aee');
INSERT INTO journal VALUES(64,1,'setting',63,'07c43ed8d4117b0d1fb447e77ad32aac699d78fe925e5900a1d27d3db1f0b755','e9a3574ef732f774edc5e7fabd6e74347612449b498a1d9c0cd99787b2a0f2aa');
INSERT INTO journal VALUES(65,1,'setting',64,'bebfbb67994cb7ddc85fa2ffe284ed77b312843aab42e9b4ddc7996556da3659','965f6264fe6a9298a2662e7ea87c9970202a0a9bc25d807bde145c68f8324045');
INSERT INTO journal VALUES(66,1,'setting',65,'dede79d6f93656cc2ae2bf823765b7bacf00ad30fd5864dffe8e79ff3ba95b1b','83d225398e3a1c362b711274267d1b203cd76cd4aae32569f0728e1172ceec31');
INSERT INTO journal VALUES(67,1,'setting',66,'e321015222c5794635888c3333f25300eee10a5e86a33467c051d9a63d91a7f5','dc675b8b07547b38dc6b8c758e3807bc4e032cacdf94df97b063935e3ffa2dfc');
INSERT INTO journal VALUES(68,1,'setting',67,'f926287836ce9615b9c41d5eb6e9fb7528851edc227e3e3469269a0ff894acc5','fa4f69f72677525339c12676f76bfa8438664384bdf2e5b9835c20be0cd78b6c');
INSERT INTO journal VALUES(69,1,'setting',68,'5056d7dc0c6e7e87089fa8c1f326ddf7d7e6fd1198bbeed1f63f1b440303830f','60dfdf246d9d123f755400d6b7e04550fda80daac17f6d6b13120cb198d7ac99');
INSERT INTO journal VALUES(70,1,'setting',69,'19a05c1d411c5811d512eabb32ab24a61869dcaed83fa6f578afd486e9aee689','c3f6a4e859919fac3570c61cf8315c2a1e2e3d6ccee97d680c565daf48ee509b');
INSERT INTO journal VALUES(71,1,'setting',70,'a11c6b0ab34c1282af54666b97fdb4a39db3f27420970da7472a83795df594bd','edce49955d5ef7f2856a98044a3d80024be9b5bba83f7b7100cd5c0dbcc49800');
INSERT INTO journal VALUES(72,1,'setting',71,'dfdefa33cceba215059ad927dc821fbd53f37810d7742c3b7cb2b729ab89e630','94b09583771c56e1cb94835df310cc11d95c83eab413c6c2faed2a9436976fdf');
INSERT INTO journal VALUES(73,1,'setting',72,'e26822fe6f22224106426a6bb0e3cdb8784115d77e66ebd7487b4ced76713f44','bf10039dcebed438e62f52070ff925df2a841a8cf23b8d38f89be3691a813357');
INSERT INTO journal VALUES(74,1,'alignment',1,'0744815e2fca44f7785c1511abe1f5104c7056f0f1e0226f8d80837a0cb34888','d403fdcd8f8277a1324c5b2d6077e559fa90e33d770eedde8b7e907912fa204c');
INSERT INTO journal VALUES(75,1,'alignment',2,'29cebd7905f1b3c545d53a5845d7865f5288d528aa7400c1c7bb3455a00870e1','bec2e160a635edd9242d0975aac2d7fa115060f042923c87c182d3319b525ac3');
INSERT INTO journal VALUES(76,1,'alignment',3,'11460fcacf85951d4a8ea1598ccf311c1ec1bd91a5d6fa2c828132f3c3fe5bf4','2a9b784a83bbc647cae9f586feb15b7cd23ba9ad9780b4f9a88dd2b109718f70');
INSERT INTO journal VALUES(77,1,'profile',1,'89479175e584be746dc1eccfa46372a7fb58b70e1f4d04f15bbf80c36146e2db','c4941ba667472e6c06edfd16a7ce9f0698b507ee0c18e59bd74332f8591a3535');
INSERT INTO journal VALUES(78,1,'profile',2,'8be45505363c46c1bafc3edb3e30ec84274d87ce1d72335f21fe5788f3c05de7','4371ca9c653c454e1eebc28c7cbcfb129456b887768852fa4aaaf8f1cf2651ed');
INSERT INTO journal VALUES(79,1,'profile',3,'458fbf687d782d639b2b82e5efe9dd9d5f4ce197e30bf784ebfef19f68e2c066','4bb6ce2a9680fee2aa6973dfb79b679a1c2861c62901ecd05a45365a3aa4864b');
INSERT INTO journal VALUES(80,1,'profile',4,'98875c295b0da0df344a0a3685c505fcf3f0f6c270b1b44e8daee8efc425efd4','1463f347b9e7cd3c6393eb114d428283c40a82a5ed554e5eb57292b1a3ba6ab9');
INSERT INTO journal VALUES(81,1,'corridor',1,'45f0b39fe3c1e2cbb0b42b1bf7c740880f920f91080b3bc2e391699b86ee53fe','bf46d52ff5a3f2ebe027c08db4bbbce5a26df40eff77916b4dc821be8c9a4fb1');
INSERT INTO journal VALUES(82,1,'corridor',2,'2b2e2d63c8ffa6bd8af2f8a6b46fe1624bdbc56943ff311eafb8c3506d16c15a','6ebaca1dea117125d752f22cf2c5efffab000df240d8ee249b9fb0241b4c87e5');
INSERT INTO journal VALUES(83,1,'ground',1,'8e215614e19f69b7e69abeb06de15d198a1593628f16e4408358f1d3636633dd','70f5d33e7724436b51e5653ba3d2e48736df245a4305e647eb67d0f13c2f3fc5');
INSERT INTO journal VALUES(84,1,'ground',2,'64ea87f30b460b1b131606cc0290eddf8920fcca78a4969be59082755bc59e2b','fbef6b37297cdb53c3065862bbd1fb295ecb49b024f7a315670ef0e985fe49e7');
INSERT INTO journal VALUES(85,1,'ground',3,'c9939fc5f28e3866cac62061bcfb6a26b98dac511d7fc8358196b8644320eb7c','f87c3800c7591c9019df753c28fefdca8e4df456fdfb0c23c845130dd2e38e3b');
INSERT INTO journal VALUES(86,1,'ground',4,'149611332b03d4bc77ae728fd3ae4b357e1a21a92cc950cc7b8c1802c56eef6b','daf2636b0274aef5e954c779eff1d1b872dc159d89d9f7136f8b3c51affd0be6');
INSERT INTO journal VALUES(87,1,'ground',5,'e040dc166992f2a1750f481c4b1e3312a0f9feb54829247d7a8b78e7afa02976','3386a95988de673cdb8c790f4c1b1d18cd06529a3205c13959e004206fd5b11e');
INSERT INTO journal VALUES(88,1,'ground',6,'7d6c518b0e32f1dc087d77405c1e883a3e5948c540e939f246369e614538db06','d3ecd0eeb0716af0769b4da26df6a8659b9b700513c1ac82a265777ceffd18e3');
INSERT INTO journal VALUES(89,1,'ground',7,'fe0fa03262cd931d42fbd1747cf161831ed999eb9eac256d62d5081ea342fac3','e62163109800fbe115d4e068c2ddf30fb92e59c5188d947d8b1a64ca867f9a0b');
INSERT INTO journal VALUES(90,1,'ground',8,'b5c36b84f16dec59e104ceff39ee00cb002fb759ffa6797d7eff6a6626a51eb7','fe293acccdcb3a701d8dcc4dbc1fd0fd075c249de0926c1f0f11c6b295da5f88');
INSERT INTO journal VALUES(91,1,'ground',9,'c5b541d906cbc221a986de4273277db0de203ebb5349b86174c64d907dace979','421a1912a7c6fbe6d7ee6a0d4f42a4115a6db4e18f44572ec2ac1faf53c72927');
INSERT INTO journal VALUES(92,1,'ground',10,'7fd95253d4fe11fa8bedfd2f4a6fee4e086edda2d9e8eaeccc6dd12b22393b52','43763b4df57416a17959d2370190a248139ec1c87029cbcf9ef59539e4e182e2');
INSERT INTO journal VALUES(93,1,'ground',11,'02a58463b4ad9ea733389486ba2e2c7d45be82ae66afa6667b012c0377c6751d','8997a525e0a29c3b806d3ad51af0776cff7451c54f62cdabc360bd8d8c56c9d9');
INSERT INTO journal VALUES(94,1,'ground',12,'b6318f6d7d32d5956c46c9966f280b93f9dddd15b3870633fe0bf87c68f98b23','708d7e4db153113dd8f4b5790773cb4c226a6d67926cd05e2197eeeafedbb729');
INSERT INTO journal VALUES(95,1,'ground',13,'33c2730db26af9d061ce226539915e72bea7a7c01a56500a372ea67d732cb409','b638c955e367b373613fe420c3c88a7fe9820c5ccec30f10d6b1544ba8225457');
INSERT INTO journal VALUES(96,1,'ground',14,'3656be9b8b3f5d94d9fee6e33da836d518c043dc7b54b729e10ec6f99bb14c90','1472066e05f0812cd9fbb47ac8e596fd1303badc9248e1010765f2543c6cb144');
INSERT INTO journal VALUES(97,1,'ground',15,'d9fcf469d24aaa7a0122d0792c8e40753d4f01878b79ea39285b29b77e274551','3f8ea4211eb402a86abb1642f0e64266288dc1e544f55086c94f4178fc43c448');
INSERT INTO journal VALUES(98,1,'ground',16,'1126f84d43a89c3b01e8b84381ce68e12ce1595bf4b87d74f644d4c1a2a96331','89b2e278c98057f5f0e6f558ad1ea76a2c98c38a69feb190713daebe553a1c19');
INSERT INTO journal VALUES(99,1,'ground',17,'2bafac43b30bd1b841ddfa22bcfab740a6f32a513af90f1402ce76ea287601e4','393fd1889be91ff26db13d1c47bdab0afca2732bfa952081893babace5df1110');
INSERT INTO journal VALUES(100,1,'ground',18,'8a1371a47d71a2d89f5de3d329755330265366c3f27dabd8b7a455163255dbd2','46981a72ac5c4df39135e7532a24bd2c7ff6a2528aaac1a57c6f1926c25f6c94');
INSERT INTO journal VALUES(101,1,'ground',19,'7f59f436ca9d75b30e6fd0a49944223416198f48fb1b8c268d48d0409f4e9f66','d57d3fa7b172c3c182222f4391ef45ac0163b26123a13444bd37492a4d92eb31');
INSERT INTO journal VALUES(102,1,'ground',20,'8ab96c8779626537ef784ec5cc7da028760193ec81c68a29c164c235b7434c49','1526953a4df970b4ed3c980c036ba3a371cc05a6f6c0a58133b2484c2ddab6fe');
INSERT INTO journal VALUES(103,1,'ground',21,'7eb3098f18cfd120fd800a553b30ce972c1c7eb0568a101ea6b49a4e35debf78','dcc75c667d164894257d5bc93cd49164f9fdc12b52e58b48a7f5ac9ea597d72d');
INSERT INTO journal VALUES(104,1,'ground',22,'56b863ab5462445bd7a3015acb31933c7726295676f209781249b032cac91964','ae7ab3d403f3b68402e8e85f7346d1b45c9133e5a2793b864262a4f6abfef888');
INSERT INTO journal VALUES(105,1,'ground',23,'f3f396dd63906d95defcaf229b2d834a29acde0dd6e1df30e1c2580c71579543','406043de1ad4bc501756c7e89943958a681f023e2b37bc1c4972b2a77d8819ee');
INSERT INTO journal VALUES(106,1,'obstacles',1,'42d39591ff9d86ab9e1697927ec20bb1a46431d4a385908f7763cbcd3e30857b','3af50aaf6b9d6ab18d037066684a9215de0a368c0380b26bb247c3d53a02e657');
INSERT INTO journal VALUES(107,1,'obstacles',2,'29d7cabb53a7fafc62ce38a2c216ab6ab88b74774eda8d1ee515fd8f9dfbdf18','8b2dc6a8829db78a4611d49fc3028353c614ce339f0a8a5572a90f7ebab526be');
INSERT INTO journal VALUES(108,1,'obstacles',3,'5da59effee39830a455eb41c7e64c6d1d56e3b9538577a52d17c61b98c8a21af','221b1265df8e033d09e0ebf65bb82600a4c67cfadd827f2a4b9559f27ed92595');
INSERT INTO journal VALUES(109,1,'obstacles',4,'be650d2ba71c62680e3cf6a027e4708a850c7104f37a13d489c05eb67911f3a2','543a8122b0cb971572f35e0f6ecad916b4f7b822196833dcafe5434e5325210d');
INSERT INTO journal VALUES(110,1,'obstacles',5,'ddd4b897b2e789c1620e8858e31f4e1b3a21a7167773e64f53aa51d6ee293ece','ece545510e2e89ad06e1a4788ad82aa0519553e297d7410e9ab03e6c18271268');
INSERT INTO journal VALUES(111,1,'obstacles',6,'5710082933897f9d77b6c360c6db694c327a04550d68046d5f12c88c9f7918ea','3f38934e05e3fb29e9aad20752c281e3254b099e3633fd334087c62d119c4003');
INSERT INTO journal VALUES(112,1,'obstacles',7,'0205d155000dcd6f9701ed1141508459c56972d5436fafc689cbd935891ad37d','b120b09896518f418f5c5e21bebbabc6695e9112b0222fdbc205697fd467f591');
INSERT INTO journal VALUES(113,1,'obstacles',8,'dfd95cd40315159d3557949a39a03917e1d07ce8d454ae4adf9984f4211be8af','72a8105ab6b1bfcdb851629fdb1c14468c8f4984d3bdc63bd56fdb2797ee7594');
INSERT INTO journal VALUES(114,1,'tally',1,'c9f35a5ae73a1ab22471a72ff7603a530b8f399a535858427d26426adc63bcc1','d4244aa5e72a0fc19ae1a37b450ce3985323f3819aa5898899c87180848807fc');
INSERT INTO journal VALUES(115,1,'tally',2,'2eb2efadd8bcdead2933bfbd65aa902a891cf598ba68a3dcfaa35cec1f843cdb','82ff0fa1e803422e07539361e725a2189ac14ea5b7f865d7c5b089921357a693');
INSERT INTO journal VALUES(116,1,'tally',3,'e62c8ac07e437a422212b388b8063fcec2c8cfb7d56d1fe5013b91df4df2776e','4cea32f0aacf70fae1c8c51e8fbbbb2c2f5d56e44008dd5a13c28dab4853882d');
INSERT INTO journal VALUES(117,1,'tally',4,'6a2e9932fd79be7b300888578fd595ba71a991139f3bbd682e81bb6618f694c2','8fe299ae262e723a195337f20d1ef3712e3cdca2fe92c9d8555188259c9e8629');
INSERT INTO journal VALUES(118,1,'tally',5,'d4900af2eaf221d69b45e6d63fd3cdbdc6d49abc736b26b202dc2bebcca15265','f4caaee25f57073149ce9903099c24cd07352b9b6c178ed8c697d67365b4d6d8');
INSERT INTO journal VALUES(119,1,'tally',6,'5e872052a472571c2160d5416b30cc82da1d3ca6fc2a39a7e6e089c218b6034f','3314b4e9369cd1a45482853f45da9a90ff2c60629c7f1f103b2b3e6668f94d1d');
INSERT INTO journal VALUES(120,1,'tally',7,'c3e36cf7568942f8572e99bebe0b3e11f4fdcf56587aad0889e7642c21bafd7f','57517fbca4e1844301f2f3707349c76f82121af74967a460eda0102b740e9844');
INSERT INTO journal VALUES(121,1,'tally',8,'37f51be1dbf55c74f955a957b5a3738ab280c45d882bc9c8a1739c0a599bbae8','36ca57e6bba8464433d080d866b31548dcd143905c70972789bf477f459cec90');
INSERT INTO journal VALUES(122,1,'tally',9,'ca432165c26d4d4fe9f08bd8f431943cd1c6e13c3fd6d5124dba415af20e93e9','9e0bcd32d0e6647836622657e5501718646310cf0afc7ef11d21b31ce6c707bf');
INSERT INTO journal VALUES(123,1,'tally',10,'01d06651ad7daca130c06aea0b5f8efcfe88a197739de803751298d2f8d1b57a','41202b9110b7496cb4f5d0949fc571a6d02d7bcf9c40585da2757e343499497f');
INSERT INTO journal VALUES(124,1,'tally',11,'79504e5344c32e233f7b3836bfa9b25023854b7016fe93a76cabdcf4ac61c971','fb0c44c9f1662bb872dd8e62b000b1380635e1f2138cd4e9e77ecc3d7ed3201f');
INSERT INTO journal VALUES(125,1,'tally',12,'e2b45975cb44abb4df7de3e7e633076b7c18eab548efaed70c6df945637c637b','dbe9520b5f08a084bab1240139782dd501482677c5a4cfcb9a31047da24b36a7');
INSERT INTO journal VALUES(126,1,'tally',13,'3e017b8b1e2d08ffdf16c61bd1c212dd56a47e99c0ce3cab04d30e4c7fd358b0','ddabeea5925c725b3304fe792524965365044827ededd7689cf5542975270953');
INSERT INTO journal VALUES(127,1,'tally',14,'3f82800ac884a23b864c86e52ede5de3d24bd383469809acaf787e7aef117cf4','6165ec7b19531b2094cf10d7a662ffc472a1d666b98b901c78952416f7f9eb17');
INSERT INTO journal VALUES(128,1,'tally',15,'dcbcf2ca81ee8805a6db8e143e4de9eee9c456a959430d0d16414753ef0b8855','757b60772cd8abb25b5b6fed14b2c51e8d2a2f4bfdcb30aa7702516709ebae31');
INSERT INTO journal VALUES(129,1,'tally',16,'b1917d0c8c89a94746df27284f26e510d9dbea3edfaae786b805c99db903c127','28645ad6498cf97c95dfc582a9a53ef83b6f95b47473625a0535818ce64a7db3');
INSERT INTO journal VALUES(130,1,'tally',17,'961bece4bf82c38404ddb79c68387641926b5649394c9be75919f309400b1e14','aed4b8e9ea3c314783cad64623a6bd132d76ea938ccfdc9f9fc15a280835ff12');
INSERT INTO journal VALUES(131,1,'tally',18,'b31408d065661a9334d73bb9d4deccabb81073f775af0a0f4b88c417c72c1f9e','edbf8fd2f4e0a4175ba77b431f7e38391c3a5df919122d94616e3b3c0f4055e3');
INSERT INTO journal VALUES(132,1,'tally',19,'61f41d485edab7574a3c1d0bf9af13766ddc49064e5d8a28c48b19d62c229270','7eb40243de7ea9c94d724e4ff045541d21c257a65ce503c31b3229cd3cd13d64');
INSERT INTO journal VALUES(133,1,'tally',20,'6c4828466937783c7f2223f3457832b884972468fca80fcef806c335dce7e7d3','1939a5512b82fa05b829391f8b64ad9b0c8e7c939dce5a3b793e296da73bbe1a');
INSERT INTO journal VALUES(134,1,'tally',21,'60edf9a769ac6544aa3e5bfb3c8cb75e44c554634e1587c7490116c38e479c89','29c8831389a210a0e4f9d6ad2436de69b3fa46a4a4bf256f832bce3012b1669a');
INSERT INTO journal VALUES(135,1,'tally',22,'9f21cc0050f5825a32af5ad28727ccccaf0f616f990e754aae57bb4d7dc84400','da2bcfb0a44f6344129f087fc4453a090bb8bbb8c8ea11fc04f0a461031ad476');
INSERT INTO journal VALUES(136,1,'tally',23,'292eafc346f036a72f05ff5849e6c9718854cc071f3e7eae4e521fea0e10a597','d98b70877eb0b3e0796bdd2b8fe232e7d0a373e46159249ac4e9f8dbda5551b0');
INSERT INTO journal VALUES(137,1,'tally',24,'e97033a65451a055350366c234fa4745e9b5389b4d760d3f3bc98a9d7e29a52c','f7374f6095dcc457da755db1c9ec27d0ecac281feb13fea141fbdfe70e526952');
INSERT INTO journal VALUES(138,1,'tally',25,'e841c78e2bd9fe60c8b1ba78bead53c9b657e15e8161c0f82b08dba651ef07b6','b6bcd1c6b7f8c052ff69cfcfcf285857424185cc116d00aa7e8b7e705edaaa88');
INSERT INTO journal VALUES(139,1,'tally',26,'7bd4b89f7b3309d499b3a7e232cb37610af00a8fc0f8fab00fa91abb1881a38f','d8a6ddbd725e39672ffa543d71405ffde6469f2562121c5c784fb679c6980a68');
INSERT INTO journal VALUES(140,1,'tally',27,'a2617aced70b3828b73b89844b94642be505face316753a1d1f8b18e55d0c870','1f2c2f289809690a1afccd5903acaeb689cbb857e99e654dc7e765e6a9eadce2');
INSERT INTO journal VALUES(141,1,'tally',28,'c5d1d2d30b1ea0d3c57105cc099b3507c78bd12637130dff3ed5b500d3be320e','bf51bf09fedac898f03b428e04ff7debf49d2b64e950c06d49c4eab6c61e9e78');
INSERT INTO journal VALUES(142,1,'tally',29,'c5c943af573474df790a9564416909b0424766b95a669151421d1a40847b8d76','39c6bbdf0458b2546263c88ea7877e557c763a472b6debfd089757751ca6a69b');
INSERT INTO journal VALUES(143,1,'tally',30,'cd2fecceba8008910e82eb46365a0bc07c90e30a2f59f648a23fc8551a4eda38','1f1d4733c493cf09a2fe1c88c65164adf2fc3415fa21aa2d3140bec49eae913c');
INSERT INTO journal VALUES(144,1,'tally',31,'79d4a772a468832efe261e7634e2a620aa872425fa3bba075ccb5930f2c447ba','4d262386a1ef5bf5898d086af2548962377aad19d89f83b6a528bc4691f4d470');
INSERT INTO journal VALUES(145,1,'tally',32,'ac2d8717ee306f1916052ea161259fac0a6a7a419436cc408884361a56c436f2','2f39e36e2b8d2cfcfff7513d1d8d9726790a22133a4738ceb29623b110db1f6d');
INSERT INTO journal VALUES(146,1,'tally',33,'034f696da03552eaa5a0be8ddc3b4e3fb7861ade492b4e04ac292f53f28c19c0','8b4b2a78ee81b2f6e58072b8f9853f758ad2e231dc9b50925200ad165124e372');
INSERT INTO journal VALUES(147,1,'tally',34,'7d8439df97694dbc807b1e2f69022bf7c702f4cc64322bec272f033b2b8944f2','68b1263eb8e5db7d25495c78e86a6d229de1f82b129c43e8854f43697e902342');
INSERT INTO journal VALUES(148,1,'tally',35,'94212192c5ba44ece8455d416d91e20ac5a0059f0749b7654091c8060cf8482b','e4d0771ffb5023bac5a42c0ac5f1db696e41525c37b5a2646bc1bbfce1e382f9');
INSERT INTO journal VALUES(149,1,'tally',36,'fa91341b0c2fdb55803878a41af6ec8464acd7989ecc600a9d8dedcaf678cc4c','8d2243ce16942040f5267142cf57c29b88537ac1f3466d694b3d414c9a328c9d');
INSERT INTO journal VALUES(150,1,'tally',37,'fdf8219bcea21757aea0a4fdb18a6ba3458279e1e9aba95f3e4d8acf7d9e915e','c5bac2af22d96f40509ee1aa6b8a4f67e11207a0172e03e8e2c1580c2330cae7');
INSERT INTO journal VALUES(151,1,'tally',38,'a03e59527404fa8dee32537ffa46f10f70d86a1a24d65312a66c7e6bcf3fd280','eaac398492416935a92c3cc1d98a6934890f2ebcf861fc8777137759d36f9735');
INSERT INTO journal VALUES(152,1,'tally',39,'41dee268d62f30784b8a0fac696e8ddbca0ec45138339b2bc8296722ce1311e8','912296453f322311e81f21364fb5d9eff5e42f887992a64d922144bf0ae8d8ac');
INSERT INTO journal VALUES(153,1,'tally',40,'3d8cc6e1b32821d237ac51ef23cf2e0073126ceca2af19fd414ca75c2909e840','89de6334f1ca8858fdd12ee53b78f7c6b659e62db840602344f89ef37231516a');
INSERT INTO journal VALUES(154,1,'tally',41,'67b1490ee24f997b63c93e4f8da29077727e45e87e3302fe08b100695f66a547','f8e4dbc9e4b9173ce6f5ca349479a86472f31dee90c020c9c234dbb4710515be');
INSERT INTO journal VALUES(155,1,'tally',42,'5ec6a372e9224e50ec8c67516dad61a91bfb52f0a03a4094c9e2512a631bef08','8837205a2902bbbf925a69a467f1d844535374adf80841cdecdece2fb5601dd8');
INSERT INTO journal VALUES(156,1,'tally',43,'7afad00b1136fcc12d14044241c314806b05ca7c701e0bc1a784072a9c378b4c','0b3239e6de67a1d2f69a10c46c4a37100727563e2b2553e18441a823e200e690');
INSERT INTO journal VALUES(157,1,'tally',44,'94506cf024a95d7567fa0a825698948e7d0977c97b3fc3bd1c3d4e3846f50788','8e6a1aa06e60c53d730eac744184e44d750400157dfe875c34ba35371b45d5ac');
INSERT INTO journal VALUES(158,1,'tally',45,'0c19fd0d52d6bb5cba165970291d2c972969fe5684215d551b3f18dfc0ee052c','dc73f4bdb204bcc1569b33bcbcded1c44476817e72851258189fe9cf892b7003');
INSERT INTO journal VALUES(159,1,'tally',46,'5c7941c056d330b0c8b747ec9eb4bc32df50c24aab243d9ba0c048a492f25796','830caefbbd0523cbc35ec1c50d05b77c95ab776252c2b0a0acc87d675247eab1');
INSERT INTO journal VALUES(160,1,'tally',47,'aec7f1aca139d6e6b708064f36074f89b9d1ad239e2ac4edef2c30d21a3dc3f1','94e7f46fea3d1be7a0133fa514b582bcae42f94c313a02e6c5b59951c6703514');
INSERT INTO journal VALUES(161,1,'tally',48,'847f63668eb24adcf1e1b8e2ba1ba2f950c6432d24935fc9008250632f26fc9f','93d53efda25482fa801acd52cde58d360e981343ffe542808581ebbabea6cc0d');
INSERT INTO journal VALUES(162,1,'soil',1,'8e6a5adf155e099872f4d88ef62b033c544f0c362c5d53ba64df24a41dfffa62','4a4b5ad5d2c0c4ee88781edd5a14847ef4bb21c693211951e712be78da3d7bb6');
INSERT INTO journal VALUES(163,1,'soil',2,'88c7acd49d6778223ba871591f3e47772b5fc945f4bff58e5fbd6f264c9421d8','309bf53812264cc7adcc774859a47b73c17a6dbd8ef95392451f125cc7870df6');
INSERT INTO journal VALUES(164,1,'soil',3,'867fc67fdbcafe644496301da5b5999211e2e892bf588247ee0d5ec5f2814447','8cc8e4d9e0d28230f37883674b5abc20825a5942114991c95106f8d30df2f14e');
INSERT INTO journal VALUES(165,1,'checklist',1,'32370f279170edf365c0d876de9101086f91d6adacc566d500a5d5b076eeac99','48f6ae53b5a18896c8bf81fe4c29e5b5c1dbc5281d30bc9f57d591490078e57a');
INSERT INTO journal VALUES(166,1,'checklist',2,'19ece16883ac7d7051d79ec99116a8737231a6ed6c37739202c7fa8589590ef4','47baa574d058725eab614da270ac875c5a2f6f665f7f70bfe076feca26759792');
INSERT INTO journal VALUES(167,2,'act',2,'c711d8119b431d4401a8f2bdd02a68579877cf5ae5b7f4cefebbb80f474332ea','536dcc25cc6205ac2b557b8dcd825dc0cf5403e7778e2724d893f2df76722c75');
INSERT INTO journal VALUES(168,2,'reading',1,'5915de7901177144ca7a310d62928254bb42256c439a3c94225fe2ad8557fd3c','38e349675afbdf430a29c3f61137f3186368e892cfb17c5612aa429d5fbc627c');
INSERT INTO journal VALUES(169,3,'act',3,'8e12db546ed26d88ee70179ef44d99db4854130a99ea5f08b22015395f68032d','95d716e445d5d897545afbf878583b9e4e7e1161a6be86cdaaafa0215e53af4f');
INSERT INTO journal VALUES(170,3,'reading',2,'2ff013f95723bd1c4b1fcc26d7b56f85a3dc04a0e06a7918edf7e282c09f04d0','ea24c6477f94fbbdfc4620b951c725a849f2a800b832252b3fc2eec98d19c7e0');
INSERT INTO journal VALUES(171,4,'act',4,'87cc7a32fce0885e3e806e6591602d2ddba100e667a9db1c2fc2d2ad60b693bd','df0ef71d60d061c1ff4b14435affc66b4252d1485f1921fc669260b8ba06ca4d');
INSERT INTO journal VALUES(172,4,'reading',3,'f736d1b1c5804c891cf83c6dec12a4e26c5446e295f7d94734520a3adb706dfc','0cb5facc9a1b920ee2d33588173f739a46c07aa068aeec7cdcfb8e20d385ad03');
INSERT INTO journal VALUES(173,5,'act',5,'5732df6b6a4b1552cc9069fc663952e33fe139a0e9611eecb8f15e45de79ad19','8d924a88b897ae143d59233d6734cdada8a7efce4531746aae875192241ccfcd');
INSERT INTO journal VALUES(174,5,'reading',4,'8087320eb08ded67ba2195f0f205906a67133106046460d13d3480051d8e9f7f','a244f1c7441b5742fc714f2c636a8c90298b7250169a1ca1eb0debb3c8071342');
INSERT INTO journal VALUES(175,6,'act',6,'31d8853daaa2add25bd10c37363de1a38665f929e35b6faf0e89a3aab7103ffc','71b0f035c010bd4f1a0f1492c27ed1e40ef6430187e3021ec4c42ebe54569511');
INSERT INTO journal VALUES(176,6,'leg',2,'b5db3b93ebd8a1a2981522be0e41e945b1c817a6389288a074ec73a0f23addfc','f2a7791d46d866c6c891676feafc24d9fea417aaebcaa3f67955b89df2bb7919');
INSERT INTO journal VALUES(177,7,'act',7,'c3f6a05fd1bfa47cbbb3be4dee84c5b92089078a6fd911388e74346e6dc0f0e3','51db5ef760b3cefcb303b4288fbcb7e14043dcbc1bdc8274cb2aca0f27e22b24');
INSERT INTO journal VALUES(178,7,'reading',5,'3c4bc51407cc90fd977cfda8e66ecd886844e5aab301057890136cf09e4cc515','d386f89e128ff58774e73dc11399ad55320fa2be73d1650009a55ee93aa7cb18');
INSERT INTO journal VALUES(179,8,'act',8,'8b1d83fd487c1476941e0ed319ceb470eaae15d921956dfc2fa36bdce87f715a','d57034c10aa5e7d4ecf34b16e3308f79cdbaf63986cd636c7d083775c5b7be29');
INSERT INTO journal VALUES(180,8,'reading',6,'3160e234c317199e4c2e5579129f7dbba6ad7fe86babb6dfbab4a3fd3a61f759','f420136fd75ed114d855b2f341aa9ef55ec113cd8a2ae0c8e9cc57d08e511bac');
INSERT INTO journal VALUES(181,9,'act',9,'db311dbd2c7748b5c64efea46b68c3d4c568b914d916114040fb86996eb878df','3c1be0053cf02eaff30a53fe17ce6c1b957867fdd90fe5f7a16c5505f625206b');
INSERT INTO journal VALUES(182,9,'reading',7,'6edf5a82636631865da543bbc7ce4d0e74f848ad2b6256989a761db879431182','f492b352b19ae57f2f6233e8799a046538991c201998e594cb9a7f00bde80e79');
INSERT INTO journal VALUES(183,10,'act',10,'d5ed41fed156e55b9f5271d7047df64a564293ec0fad1dac2ecb6594d3b0f7e9','7e555dba3418fa0009adbbb80991b1b49efe87c0e26f4c623020ca6c1729e76b');
INSERT INTO journal VALUES(184,10,'reading',8,'42b9e8a5ff570e1a4ed26769206aba1a2966c791fa843478a2b11816d7f81d33','a9320fc4d844288ede968070549921e58076a9e1219ddaca78d560b05db07f97');
INSERT INTO journal VALUES(185,11,'act',11,'a4021e6645b87b692f682bbc5453b0dea71d232fe1f1986ad714441d6cfefc57','df23583730e7b8382da8afc68a9701a6fc51bbc78c65cfe01dfe8e3cacaca406');
INSERT INTO journal VALUES(186,11,'disposition',1,'d997d1464d189f5d5793bca5a03bf9cee54c704a77c2ac3b42de7e1abb35916c','bc9891f0352f352ea9a411960c7bf00554d772f3f414c75af1918e47383ee151');
INSERT INTO journal VALUES(187,12,'act',12,'eee658e1c37f4d01d0c410a0c630e0bf318bd1e8e91087e629684a6b42670287','1807e14708ed0cbefa9363cce7b21400d84c7d9a89f39e5dd70b664190bd84fb');
INSERT INTO journal VALUES(188,12,'ticked',1,'d3d41efd98d4dd79cab5e2575fc4d0f96c21d146898741f24e2258d37aee3269','ee4807487bb15dab2e0f619ecf0985de9e09d752a34c6e921c72685703e1291e');
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
INSERT INTO path VALUES(1,1,1,9.5999999999999996447,6.399999999999999467,'-14','32.8',6.2098841086275431422,0.0097531664750896140958,19.851699498132074239,-5.1970705118975502045e-05,5932850.2036170922221,563214.07417780719696,0.097029571906821307503,3779.1879493796654968,NULL,0.0081276387292413456581,1,0,0.020999272088095495558,0.067285097149646755365,0.014099343431099139317,NULL,NULL,NULL);
INSERT INTO path VALUES(2,1,2,19.199999999999999289,16.0,'-13.8','32.9',15.528705037843966608,0.040657214847318101647,17.545510909555716239,0.014020339735935749558,5932857.7026568874715,563219.60093113931362,0.22231260290897406073,2474.1713970701166545,NULL,0.033881012372765084705,1,0,0.032498783042704072754,0.16597254333605332421,0.03376819619190963434,NULL,NULL,NULL);
INSERT INTO path VALUES(3,1,3,28.780000000000001136,25.580000000000001846,'-11.5','32.6',24.875509695616777605,0.055226940927806111858,15.44767696316151273,0.0089565074682340650724,5932865.2339143035931,563225.13102950574831,2.3185492144596175911,236.74009777845452617,NULL,0.046022450773171762195,1,0,0.043071686338566207707,0.26304941247885421651,0.051721684579985195695,NULL,NULL,NULL);
INSERT INTO path VALUES(4,1,4,38.370000000000004547,35.170000000000001705,'-6.5','32.4',34.344393345630130909,0.028668487335821168926,13.947944942506721232,0.25042716669703324328,5932872.8879321683199,563230.70002601493613,5.003897930395671878,109.80770055136028417,263.69381321308628684,0.3130339583712915541,1,1,0.053273816722284358937,0.36062286787194103299,0.068841773026754898845,NULL,NULL,NULL);
INSERT INTO path VALUES(5,2,4,38.370000000000004547,35.170000000000001705,'-9.3','32.6',34.307375491163590198,0.045347928922804925377,13.716604706592505635,0.013011411759968893875,5932872.8482231609521,563230.69162564049472,2.2000000000000032862,249.75751160475391542,416.52290292050378182,0.037789940769004104481,1,0,0.0533028649133050203,0.36022092069542421821,0.068852843002590688459,NULL,NULL,NULL);
INSERT INTO path VALUES(6,2,5,47.980000000000003978,44.780000000000001136,'-4.9','32.4',43.841299891483572538,0.018642495189713059744,12.529085180343738414,0.20290125412619630651,5932880.5547947278246,563236.29890358611008,4.4044714376887821316,125.01214933741321999,240.45181912819239755,0.25362656765774538314,1,0,0.063371773668592604189,0.45828095002533214552,0.085607618408334126836,NULL,NULL,NULL);
INSERT INTO path VALUES(7,2,6,57.59000000000000341,54.390000000000000568,'-3.5','32.5',53.425188009720315563,-0.016478956206359640646,11.825283437082811488,0.50853834779290174594,5932888.3066397253421,563241.92889105295762,1.4035475976135187714,392.30051197190528001,213.00251180327421708,0.63567293474112718243,1,0,0.073360730418206704372,0.55683513726605260441,0.10213864553459643669,NULL,NULL,NULL);
INSERT INTO path VALUES(8,2,7,67.189999999999997725,63.989999999999994883,'1.5','32.5',63.02064304346907164,-0.043276607243342368747,11.657793493294549946,0.97941589774159787396,5932896.0629011308772,563247.5724222410936,4.9999999999999946709,110.0078966651181247,169.18263150791491966,1.2242698721769973424,1,0,0.083283629145769144663,0.65550196275120686806,0.11852246856795517482,NULL,NULL,NULL);
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
INSERT INTO warning VALUES(1,'joint-bend','breach',1,4,4,4,34.344393345630130909,109.80770055136028417,120.0,0,1,0,NULL,'Joint 4 bends to 110 m; at least 120 is allowed. Read it again; if it holds, pull back and redrill it.');
INSERT INTO warning VALUES(2,'leaves-corridor','watch',1,4,4,4,34.344393345630130909,1.0,2.0,0,1,0,NULL,'If it keeps heading off the design as it does, the corridor is left in joint 5, 1 ahead. Turn back now.');
INSERT INTO warning VALUES(3,'blunder','watch',1,4,4,4,34.344393345630130909,0.0,0.0,0,1,0,NULL,'Joint 4 was logged as typed although it looked like a slip: "read twice" (Ida).');
INSERT INTO warning VALUES(4,'leaves-corridor','watch',2,5,7,7,63.02064304346907164,0.0,2.0,1,0,0,NULL,'The bit itself is outside the corridor by now: 1.24 m high, carried on from the reading. Stop and look.');
INSERT INTO warning VALUES(5,'blunder','watch',2,5,5,5,43.841299891483572538,0.0,0.0,0,0,0,NULL,'Joint 5 was logged as typed although it looked like a slip: "read twice" (Ida).');
INSERT INTO warning VALUES(6,'corridor','breach',2,7,7,7,63.02064304346907164,0.97941589774159787396,0.8000000000000000444,1,0,0,NULL,'0.98 m high at joint 7; 0.80 is allowed. Outside the corridor: steer back if the contract lets you, or pull back and redrill.');
INSERT INTO warning VALUES(7,'joint-bend','breach',2,7,7,7,63.02064304346907164,110.0078966651181247,120.0,1,0,0,NULL,'Joint 7 bends to 110 m; at least 120 is allowed. Read it again; if it holds, pull back and redrill it.');
INSERT INTO warning VALUES(8,'window-bend','breach',2,7,7,7,63.02064304346907164,169.18263150791491966,170.0,1,0,0,NULL,'Over the 4 joints that end at joint 7 the radius is 169 m; at least 170 is allowed. Straighten; ask the engineer, or pull back and redrill.');
INSERT INTO warning VALUES(9,'blunder','watch',2,7,7,7,63.02064304346907164,0.0,0.0,1,0,0,NULL,'Joint 7 was logged as typed although it looked like a slip: "read twice" (Ida).');
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
CREATE TABLE checklist (
	-- Points of the contract that are ticked off before the pilot is accepted.
	id INTEGER PRIMARY KEY, -- its number
	act INTEGER NOT NULL REFERENCES act (id),
	point TEXT NOT NULL -- what has to be done or handed over
) STRICT;
INSERT INTO checklist VALUES(1,1,'As-built profile handed over');
INSERT INTO checklist VALUES(2,1,'Land survey of the exit tied in');
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
INSERT INTO disposition VALUES(1,11,'window-bend',2,7,'169.182632',1,'C-17');
CREATE TABLE ticked (
	-- A point of the checklist is done, or is not after all; the last row on it holds.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	point INTEGER NOT NULL REFERENCES checklist (id),
	done INTEGER NOT NULL CHECK (done IN (0, 1)),
	reference TEXT -- where what was done or handed over is kept
) STRICT;
INSERT INTO ticked VALUES(1,12,1,1,'letter 3');
CREATE TABLE acceptance (
	-- The pilot was accepted, which closes it, or was opened again; the last row holds. The statement, or the
	-- reason, is the words of the act.
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	accepted INTEGER NOT NULL CHECK (accepted IN (0, 1)), -- 0: opened again
	capacity TEXT -- in which who signed
) STRICT;
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
CREATE TRIGGER checklist_is_not_changed BEFORE UPDATE ON checklist
BEGIN SELECT RAISE(ABORT, 'checklist: what was written is never changed'); END;
CREATE TRIGGER checklist_is_not_deleted BEFORE DELETE ON checklist
BEGIN SELECT RAISE(ABORT, 'checklist: what was written is never deleted'); END;
CREATE TRIGGER checklist_is_not_replaced BEFORE INSERT ON checklist
WHEN EXISTS (SELECT 1 FROM checklist WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'checklist: what was written is never replaced'); END;
CREATE TRIGGER disposition_is_not_changed BEFORE UPDATE ON disposition
BEGIN SELECT RAISE(ABORT, 'disposition: what was written is never changed'); END;
CREATE TRIGGER disposition_is_not_deleted BEFORE DELETE ON disposition
BEGIN SELECT RAISE(ABORT, 'disposition: what was written is never deleted'); END;
CREATE TRIGGER disposition_is_not_replaced BEFORE INSERT ON disposition
WHEN EXISTS (SELECT 1 FROM disposition WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'disposition: what was written is never replaced'); END;
CREATE TRIGGER ticked_is_not_changed BEFORE UPDATE ON ticked
BEGIN SELECT RAISE(ABORT, 'ticked: what was written is never changed'); END;
CREATE TRIGGER ticked_is_not_deleted BEFORE DELETE ON ticked
BEGIN SELECT RAISE(ABORT, 'ticked: what was written is never deleted'); END;
CREATE TRIGGER ticked_is_not_replaced BEFORE INSERT ON ticked
WHEN EXISTS (SELECT 1 FROM ticked WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'ticked: what was written is never replaced'); END;
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
	ORDER BY w.leg, w.joint, w.kind
;
COMMIT;

-- A job file as the first version of the schema made it: kestrel-road, five joints, pulled back to joint 3, a note.
-- Made once with that version and never again: what it wrote must open for good.
PRAGMA application_id = 1396854610;
PRAGMA user_version = 1;
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
INSERT INTO act VALUES(1,'01a212dd37dce4e052c1a458663d7694','new','2026-11-25T13:20:17.372Z',0,'I. Halloran',1,0,NULL);
INSERT INTO act VALUES(2,'01a212dd3801afbdc0f8cc15e54a8867','log','2026-11-25T13:20:17.409Z',0,'I. Halloran',1,1,NULL);
INSERT INTO act VALUES(3,'01a212dd3818686a7c373b634bd93425','log','2026-11-25T13:20:17.432Z',0,'I. Halloran',1,2,NULL);
INSERT INTO act VALUES(4,'01a212dd3830432282b56474092fc652','log','2026-11-25T13:20:17.456Z',0,'I. Halloran',1,3,NULL);
INSERT INTO act VALUES(5,'01a212dd384382df99a217f8db242491','log','2026-11-25T13:20:17.475Z',0,'I. Halloran',1,4,NULL);
INSERT INTO act VALUES(6,'01a212dd385405cc06bd42f0b8380b21','log','2026-11-25T13:20:17.492Z',0,'I. Halloran',1,5,NULL);
INSERT INTO act VALUES(7,'01a212dd3879682c6c2620435af8b953','withdraw','2026-11-25T13:20:17.529Z',0,'I. Halloran',2,3,'too far left');
INSERT INTO act VALUES(8,'01a212dd389ded276176093c2271533f','note','2026-11-25T13:20:17.565Z',0,'Jo',2,3,'seven joints of old');
CREATE TABLE setting (
	-- The keys of the job sheet, as written there. A key that is not here was left out.
	-- Lengths are in the unit that section job, key unit says (m, ft: international, ftUS: US survey).
	id INTEGER PRIMARY KEY,
	act INTEGER NOT NULL REFERENCES act (id),
	section TEXT NOT NULL,
	key TEXT NOT NULL,
	value TEXT NOT NULL
) STRICT;
INSERT INTO setting VALUES(1,1,'job','name','Kestrel Road');
INSERT INTO setting VALUES(2,1,'job','owner','Auenfeld Water');
INSERT INTO setting VALUES(3,1,'job','contractor','Lattimer Crossings');
INSERT INTO setting VALUES(4,1,'job','unit','m');
INSERT INTO setting VALUES(5,1,'job','inclination','level');
INSERT INTO setting VALUES(6,1,'control','crs','EPSG:25832');
INSERT INTO setting VALUES(7,1,'control','vertical_datum','DHHN2016');
INSERT INTO setting VALUES(8,1,'control','entry','563210.40, 5932845.20, 21.40');
INSERT INTO setting VALUES(9,1,'control','exit','563499.596, 5933145.956, 23.10');
INSERT INTO setting VALUES(10,1,'azimuth','reference','magnetic');
INSERT INTO setting VALUES(11,1,'azimuth','declination','4.31');
INSERT INTO setting VALUES(12,1,'azimuth','convergence','0.77');
INSERT INTO setting VALUES(13,1,'azimuth','bore_azimuth_read','32.9');
INSERT INTO setting VALUES(14,1,'azimuth','scale_factor','0.99965');
INSERT INTO setting VALUES(15,1,'tool','sensor_to_bit','3.2');
INSERT INTO setting VALUES(16,1,'tool','tool_face_offset','-4');
INSERT INTO setting VALUES(17,1,'tool','sigma_inclination','0.1');
INSERT INTO setting VALUES(18,1,'tool','sigma_azimuth','0.3');
INSERT INTO setting VALUES(19,1,'tool','sigma_depth','0.02');
INSERT INTO setting VALUES(20,1,'tool','bias_inclination','0.1');
INSERT INTO setting VALUES(21,1,'tool','bias_azimuth','0.3');
INSERT INTO setting VALUES(22,1,'tool','projection','curve');
INSERT INTO setting VALUES(23,1,'drill_pipe','joint_length','9.6');
INSERT INTO setting VALUES(24,1,'drill_pipe','minimum_radius','110');
INSERT INTO setting VALUES(25,1,'product_pipe','material','pe');
INSERT INTO setting VALUES(26,1,'product_pipe','outside_diameter','315');
INSERT INTO setting VALUES(27,1,'product_pipe','wall','28.6');
INSERT INTO setting VALUES(28,1,'product_pipe','yield','23');
INSERT INTO setting VALUES(29,1,'product_pipe','minimum_radius','12');
INSERT INTO setting VALUES(30,1,'bend','joint_minimum','120');
INSERT INTO setting VALUES(31,1,'bend','window_joints','4');
INSERT INTO setting VALUES(32,1,'bend','window_minimum','170');
INSERT INTO setting VALUES(33,1,'bend','method','sum');
INSERT INTO setting VALUES(34,1,'corridor','up','0.8');
INSERT INTO setting VALUES(35,1,'corridor','down','1.2');
INSERT INTO setting VALUES(36,1,'corridor','left','1.2');
INSERT INTO setting VALUES(37,1,'corridor','right','1.2');
INSERT INTO setting VALUES(38,1,'corridor','near','0.75');
INSERT INTO setting VALUES(39,1,'corridor','look_ahead','2');
INSERT INTO setting VALUES(40,1,'corridor','exit_long','2');
INSERT INTO setting VALUES(41,1,'corridor','exit_short','1');
INSERT INTO setting VALUES(42,1,'corridor','exit_left','0.8');
INSERT INTO setting VALUES(43,1,'corridor','exit_right','0.8');
INSERT INTO setting VALUES(44,1,'steering','slide_turn','0.7');
INSERT INTO setting VALUES(45,1,'steering','droop','0.03');
INSERT INTO setting VALUES(46,1,'steering','walk','0.01');
INSERT INTO setting VALUES(47,1,'steering','tool_face_as','clock');
INSERT INTO setting VALUES(48,1,'entry','inclination','-14');
INSERT INTO setting VALUES(49,1,'entry','azimuth','32.7');
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
) STRICT;
INSERT INTO reading VALUES(1,2,NULL,1,1,'9.60','-14.1','32.8',NULL,NULL,'27','4.4','420','1970','22','full','07:07','07:18','entry');
INSERT INTO reading VALUES(2,3,NULL,1,2,'9.60','-13.8','32.9',NULL,'0','23','4.4','420','1940','45','full','07:21','07:32',NULL);
INSERT INTO reading VALUES(3,4,NULL,1,3,'9.58','-11.5','32.6','355','3.5','25','4.2','420','1860','74','full','07:37','07:49',NULL);
INSERT INTO reading VALUES(4,5,NULL,1,4,'9.59','-9.3','32.6','0','3.5','26','4.3','420','1910','97','full','07:53','08:03',NULL);
INSERT INTO reading VALUES(5,6,NULL,1,5,'9.61','-7.5','32.2','350','3.0','30','4.0','435','1930','110','full','08:06','08:18',NULL);
CREATE TABLE leg (
	-- Each time the string was pulled back to redrill: the leg that began, and the last joint that stayed.
	-- Leg 1 begins at the entry and has no row.
	id INTEGER PRIMARY KEY CHECK (id >= 2), -- its number
	act INTEGER NOT NULL REFERENCES act (id),
	to_joint INTEGER NOT NULL CHECK (to_joint >= 0) -- 0: all were pulled out
) STRICT;
INSERT INTO leg VALUES(2,7,3);
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
INSERT INTO journal VALUES(1,1,'act',1,'d8d04e0390c1083d1c743468d9c71e35be6153f5346f037daf362268b6aafbd2','18d6f85d72ebc17aa9011771b58f8abc72a3535c0b3a69f86fe0e5599dab617f');
INSERT INTO journal VALUES(2,1,'setting',1,'2ebfd31817331425f358d1e74853571c158d73b53915990102d6681740952c1c','b7291bd3813f51aa78a3ba98f6088467781509522f221567724227ab1e0d4b27');
INSERT INTO journal VALUES(3,1,'setting',2,'4d76b7ed67e1627180d2854008475ce1717cc5b9310369bef6f52ee3bcdde7e6','afbf3e90dad67023d3fd8497cc05b024f9cf89c77f86bd96290f344d576b44dc');
INSERT INTO journal VALUES(4,1,'setting',3,'a787171ad67091336e12aa1748832133e6e04e81fbd7589434993d728e57c0ac','db553ef45fffa09b2e4352d7911b78c2f6e4da51751acb6e8098f618959944a6');
INSERT INTO journal VALUES(5,1,'setting',4,'048f44b7d6b0133b679d746c8b1f0843d2066aff513b0743f82340c3569685a5','bd860993e1874ad904a34212fa141e5ca20af733a3f40ceeaa445ffc444acfd0');
INSERT INTO journal VALUES(6,1,'setting',5,'47b5ac8b4983f13131c12ca7843b70a737ca87dcc9b69048ae7ad5c93fc24382','3e7fe0daf1f5b24d2b222f6bdd474fce363727e89198fbc26bd7e6858a9a3d53');
INSERT INTO journal VALUES(7,1,'setting',6,'2cf45242c49cad64c8f61ab1173f265654523f64223efd9c7837035101aac3e9','e4b95e54defd4977f44c0464535678c57bad2c3d92e93b4106f0c2a2ce7e15bb');
INSERT INTO journal VALUES(8,1,'setting',7,'88be08a65e9fa6f51401ab8cb36f37e08082c13c4682a8bb669e9f33ec725d99','179fbdfedc3ced4282cdd8992a46dbaa34670d09d532e2cd5f2e92cc583cb711');
INSERT INTO journal VALUES(9,1,'setting',8,'66e2ed32714843d6fec2a026cb1f82f973bd07b3d3fd7cf68c33a43c9e5a35ca','ac393506dc8e348852541c753d775dcd0cf42d6467ef157c46ad23b2a8629dcd');
INSERT INTO journal VALUES(10,1,'setting',9,'1c03f3c4b340f08f86efe67010b9b0c2b2f88f350422a18a990d4f10f8742d44','01619dc00ab51cc5ad1b0a3318665226bd2c10dc179538646d86533f7965afc4');
INSERT INTO journal VALUES(11,1,'setting',10,'092064b42cf7dc18362fa4f25515c56d579abd33ddcda022c17894e75bb94854','1b7163308a171750faf3b1a36b6bb00c5d16c287c3fbc82c99c044559d5427d3');
INSERT INTO journal VALUES(12,1,'setting',11,'4db2483bd4f2358efcc65628586cb8ee4be01e2d98125561c235ae7a0c105309','26fd3d31bdce00b5b48c9dfcca1a3cea36d33459b2471711b1ffaf3d85ad56a7');
INSERT INTO journal VALUES(13,1,'setting',12,'35dc09b78b879f3cf5c898f8261218f92798fa0398ef32c58a9fe7987e37d0ce','7a7ca67d0ea75639ae5d95d2b4c159fef6442ac21e3dd0a0be51a36977829be0');
INSERT INTO journal VALUES(14,1,'setting',13,'cac16743d76f995fe3e73b5460332e08611185050ae3c8e7365da9bc3cce95bc','e6cf44aadb3196b95b4fea91f3f921670f8c5188c9a7841584cd09a4309c9a89');
INSERT INTO journal VALUES(15,1,'setting',14,'9523f2bf2e279fa709f909ecf2a9ca00f7b4133b6895b56380f8da7d54880474','184048a6dd7bc0e2c5d650202e1d536f78c08777bdf7ce9ca7328dfb596c4fed');
INSERT INTO journal VALUES(16,1,'setting',15,'1425ad91519c71a2a20f4fe416fb88a6e17b1642a17f8ae6c5fd80882b5358b7','5e9e9a6568966aec86e5aa93cda4ecd90730fe712ec81645f099b131ceb79aae');
INSERT INTO journal VALUES(17,1,'setting',16,'fb4da3c5f4c196bc315cd83f6490c8e869b7dfa7bb1e39d9e73281e23372f0a5','a7129d49f2895b94630173db1cc54a3c1b3b72e2be6e7c116a407e7425618139');
INSERT INTO journal VALUES(18,1,'setting',17,'ed3c5a2b7db8410f2e97a2fdc3764e0b5ca6d27ddf165e71a10b4b19e9a9817d','1704ff418e65d548cf74ad3def13f8e655a48178e9823f4442f6e100f3eccd2e');
INSERT INTO journal VALUES(19,1,'setting',18,'550e12be553be90cb5b54e5ccaf678aee486b2d85625ea9915c9ef77c1e8501f','f7425c529706a1231d0f68ebe30130a604438d200da00eca1d6989e9149e756c');
INSERT INTO journal VALUES(20,1,'setting',19,'fb3ee404751df9fa6df1b5ba8b8c3d70600e49d6d9fd68a20ac206e6a93dbca7','bc0e698c9e8b9415853ea080fbedf86b8ddc2493ce3e2ee59b3dabd5ef42911e');
INSERT INTO journal VALUES(21,1,'setting',20,'336bfd19a12b0bdcf6afd39041ea08a413966c89a29fffd770308ef2dcc8f26e','a549e96b6f358e5617f3f2d5a9d8bdcbc1fba75c15bbb922aba7ed273c9ad8ce');
INSERT INTO journal VALUES(22,1,'setting',21,'b1187a44eab14687f6242157cb3bd43c9f59e76e1042ab664ff6485c6a29a8a0','464c954a35d90031680889e3a7b507e8b328dfdd2181101de46a94294ad1a268');
INSERT INTO journal VALUES(23,1,'setting',22,'534c30a8d76e136a053739d294d1be880cfa07304dad7efbd21f879fc2366449','363739ac72901dd547dd65607edd45a8244a23ae273972de02c0d7ed4f161801');
INSERT INTO journal VALUES(24,1,'setting',23,'615ea05c94b1b4c4462bf9e5d3b8b58743bd5aa5871176a29042436b0bcc3303','cc8aeeb6ec72180ce0062da8f954a68866cddc64a1e0eb98d20988c04deb412e');
INSERT INTO journal VALUES(25,1,'setting',24,'13f1479d205e3f415e67fd61b548fe5371615bb22a32b564f745df48822f0160','8e9cb2e9a3586237421f48b6d4264203dc21b9f46c06a17b1bd3834b51b22047');
INSERT INTO journal VALUES(26,1,'setting',25,'89a11e65c0491aca173ccb9301449de3d93ac6cebb1230d14a901f55ba1ca923','ac4b42a3e9404e72213039367db6c4133d9fb140ee65cb2b3e78e7815fabf29d');
INSERT INTO journal VALUES(27,1,'setting',26,'b083e5f13440d5d44b2c02c427bc9dec3d2af26effd816355bb3cfa83c976cd9','a51305fd576075429b99df9b42b55014e03097b9507acfc19c296cc84910af73');
INSERT INTO journal VALUES(28,1,'setting',27,'32801605e9dd2911495aa16ae033419f898c41fc4e2b5573fa030d2bd4430a77','88d781bbc10398163e4c4654bde79782cf11faecbdf550b63d7b81721b2faf82');
INSERT INTO journal VALUES(29,1,'setting',28,'b6c403859ef203d0be0732c19e270815f42b33efb2269fefe86a49b4332d9050','2936ff79139799d18c0a4e25c819818003408ed91a181e7478648ee10d31452d');
INSERT INTO journal VALUES(30,1,'setting',29,'fdd322b613343d1e6424831d94ef090411914e8b930a9238666ca5edab7528b1','bcbdbff4f7dfa86df049626307e49fb2a41d3e315f22db7846a6c1b99b67b7fe');
INSERT INTO journal VALUES(31,1,'setting',30,'48bef60e86a9c6499d5c619080049406c0311535fa322a590c065de926e837e7','0ce133564be71e885b754201a0a444fbe325c48a3f6a2500d82efcbfba777c6e');
INSERT INTO journal VALUES(32,1,'setting',31,'ddbab22ed63bc68af8e53e8220fc4861e4ab0aef8566f5df230426d977c1b137','8c9fc2cc68ce8cc6a1d914b1dcefc9ca8fd180e36ec5ef23682e9cfe5f669331');
INSERT INTO journal VALUES(33,1,'setting',32,'f7a7e84f9ef57059d667e82b2d5ef7e0b1fec58082587d28049b8d6518b65f0e','1d322ea9b5414bff2d69d952d15e3e83c58d11d3449ed45a6df2887622e9b58c');
INSERT INTO journal VALUES(34,1,'setting',33,'1f71d9929cdcef29c86164746b2c8bce8e93bef5d8b30df2b999cc1009c5feb7','d255f98a7515d3681aa03fae30dfc60a1f1ba205283343b63e774e8d56b863c2');
INSERT INTO journal VALUES(35,1,'setting',34,'6bbab2e6051c61e6bd5d7900bf28adb62119993317986a6e055eedcdd61c104f','0a3fc620018a2eb2d18f64942502c27abd9cb1c016fd842da2c38abfe7b649d4');
INSERT INTO journal VALUES(36,1,'setting',35,'a2596b680734f658ab583841c01c78634be33bc68e983f80229c7c7c2b628bca','a6c3ea45899a4944d1f821a522e85653fbf925308670e74ee72393590fbfbcce');
INSERT INTO journal VALUES(37,1,'setting',36,'bc5d58ff3f5e4506f2b14dc274abed7626bee6a7c749858261dacab2dc58c57a','11ab148826e762c5115265ef28c516a9a175af94f4d5730790c338698c1acd21');
INSERT INTO journal VALUES(38,1,'setting',37,'a524324e700c9ab5dd0a983e4a10f3c5f92e2ad0dffee263ca8ea5904610957e','a14944ef9d4c0350a8cb05953cce927c48c948aa594c5b80d810be786fe7bcfd');
INSERT INTO journal VALUES(39,1,'setting',38,'3bc45e4a22a5180675c01ebf4131f6331478c22089ee1e11b298f8e1c042751b','95c382f1f29e0d6f507fef2820127dfcf0113b6f9908eb375a3fb1b5224fdef7');
INSERT INTO journal VALUES(40,1,'setting',39,'36cdad11f253da46a862518ac71d91940869610a58b192b809a956316f0bac5d','e146f737202bc2bf7e18a32ce6d4f4a702bf9302d50dc648ab4a4073f960ec38');
INSERT INTO journal VALUES(41,1,'setting',40,'bfa78601f146989be64d740a9196023bc05548554ff212c391fc63f80e1064e6','1ea88b47d09d9da8f4e29fe0403617b00d265130c6f1482ef75ec60fba500a22');
INSERT INTO journal VALUES(42,1,'setting',41,'ff2a3ca1da1a0d14922b311ca31f89dc8f156d74db24960636a6291df3a90fde','ed34e91b97ba83302be78ecb2a13a5afb3a6fe60154e417faf45e6e9bb026008');
INSERT INTO journal VALUES(43,1,'setting',42,'daa7e1eaf2a03ebe1b257cf48064a642dfc7d37a750b101927708fe112e88947','d3e0ba02e15a8411b18ca6082a55152aee664c023bae850f0fc5235f337c5766');
INSERT INTO journal VALUES(44,1,'setting',43,'e290daaccaba8f50178bf74a90fac23c882b893d2471915b5a2bc116aa1744f9','94d41b261a296f1922e3c2d31347b5b391cb5eb1bc4ab5a1db91a3e913d233c1');
INSERT INTO journal VALUES(45,1,'setting',44,'25afe5f9f218afafc379db11f4bef4edd1cfffc5c20448ba4125f19df7d6dcdb','2bb2600e7cd25a00c2f5386b7f450216fedb64d97c977fb334132a7d116dace7');
INSERT INTO journal VALUES(46,1,'setting',45,'5892b95a7d93199a25ccf021fc64e966c2a632e57409c4784c68c571766e835e','413f6c20c716f54bd1ca1c173e349214d5222aae00f01b6c2ed9e5f7bb672c1b');
INSERT INTO journal VALUES(47,1,'setting',46,'8b289cc96abeb482a39290682abe2ed49431a9803f890937425774533b1b2fab','583a25870c3c0e354a5ec91c84a3aba12e0a2acd0661cf2dc2e4a1bdc60fa37e');
INSERT INTO journal VALUES(48,1,'setting',47,'3d96823e411169ee3c3e537867f5c818c30ad5ae076f840e9850ca661e13d0b8','56172a8d56159d625a8492c42243ef62f37eebf7169fe812a3719835ef3c96b1');
INSERT INTO journal VALUES(49,1,'setting',48,'919d21124b7117d4c42abb8acef638f063d516645176815a1ddfb3a64888c45d','4b1f83d3511de401a7597ebaecef77cd22012f0ada215c8e933ac30cf67fe364');
INSERT INTO journal VALUES(50,1,'setting',49,'19ff3a4fc7f63eb882300b9f89df54314f371258bb818d6c8df2925786bc0eed','d33441667f7a23f801ad18ec032d5b8fdb900828a125f5f28dfba5aaf0708ed9');
INSERT INTO journal VALUES(51,1,'alignment',1,'0744815e2fca44f7785c1511abe1f5104c7056f0f1e0226f8d80837a0cb34888','d2d230d94ea4090c5920580f7be0eba2e5897b80e779f46f7e505cc2aa66b355');
INSERT INTO journal VALUES(52,1,'alignment',2,'29cebd7905f1b3c545d53a5845d7865f5288d528aa7400c1c7bb3455a00870e1','73cc1a38a1ef61689c4ed874dd3d53ddb2ee114f5544a77577c97659e85f2ee7');
INSERT INTO journal VALUES(53,1,'alignment',3,'11460fcacf85951d4a8ea1598ccf311c1ec1bd91a5d6fa2c828132f3c3fe5bf4','cf81fdceae46b3c67d3e5728201337f95fb69106d8010eb476863a9c1efd93da');
INSERT INTO journal VALUES(54,1,'profile',1,'89479175e584be746dc1eccfa46372a7fb58b70e1f4d04f15bbf80c36146e2db','afd8e6380e9ce25a2151633b0d53007f8e8b703138ae7123222e6ef997fe3f36');
INSERT INTO journal VALUES(55,1,'profile',2,'8be45505363c46c1bafc3edb3e30ec84274d87ce1d72335f21fe5788f3c05de7','9eb8472de156ae54469dc11762bfc776ebfaa0dbdd3efec6280f281b1d897574');
INSERT INTO journal VALUES(56,1,'profile',3,'458fbf687d782d639b2b82e5efe9dd9d5f4ce197e30bf784ebfef19f68e2c066','757c8651673891ca498ad8496cf3ab7724b8dfb1d966c85ab6a64eb674bce4be');
INSERT INTO journal VALUES(57,1,'profile',4,'98875c295b0da0df344a0a3685c505fcf3f0f6c270b1b44e8daee8efc425efd4','f7649002ea11ea020130e78c5b90814ba823166ceda7139870f0fa7519829556');
INSERT INTO journal VALUES(58,1,'corridor',1,'45f0b39fe3c1e2cbb0b42b1bf7c740880f920f91080b3bc2e391699b86ee53fe','c50ad5922ee6bde052925a4cd4275f45202e324eeccd18634f5aa152948bd176');
INSERT INTO journal VALUES(59,1,'corridor',2,'e74dafdbd48f162ae64e12a3ac57ceebf298f169aa2f0c2da03b9fc1966c40e4','73914a31b930bd033e65594551878267d40a87b0153ed48c57c8859bb7f77e57');
INSERT INTO journal VALUES(60,1,'ground',1,'8e215614e19f69b7e69abeb06de15d198a1593628f16e4408358f1d3636633dd','770cc80508d33c359b2d9a5b25c562654a1e6e6067eddd4325febf403b77056b');
INSERT INTO journal VALUES(61,1,'ground',2,'64ea87f30b460b1b131606cc0290eddf8920fcca78a4969be59082755bc59e2b','975ae71ca45e0cd4d9b8c910535d45c10cd1960cb9acf1e8437b39deef81cb9e');
INSERT INTO journal VALUES(62,1,'ground',3,'c9939fc5f28e3866cac62061bcfb6a26b98dac511d7fc8358196b8644320eb7c','936b23e1014c4c969f46cad6ed2420ee5c3de6d7b216b0ec1add2a3df8eb94f6');
INSERT INTO journal VALUES(63,1,'ground',4,'149611332b03d4bc77ae728fd3ae4b357e1a21a92cc950cc7b8c1802c56eef6b','db5a5213882cf193242ba18f2c81d7644bf191a3e669c4c1b34c162e419a7a30');
INSERT INTO journal VALUES(64,1,'ground',5,'e040dc166992f2a1750f481c4b1e3312a0f9feb54829247d7a8b78e7afa02976','2528458441ad984f6654dd13754b0d711d4b5cf2f21ae834ff2e299424e873f4');
INSERT INTO journal VALUES(65,1,'ground',6,'7d6c518b0e32f1dc087d77405c1e883a3e5948c540e939f246369e614538db06','ee36ee7a551b906db83b509fc2d1d82d9e723f28ff6d50b948a709b5fd352191');
INSERT INTO journal VALUES(66,1,'ground',7,'fe0fa03262cd931d42fbd1747cf161831ed999eb9eac256d62d5081ea342fac3','c829fe80d1f5c4213fc88f825801e73371789c81b74dd24c3354151d97768d6f');
INSERT INTO journal VALUES(67,1,'ground',8,'b5c36b84f16dec59e104ceff39ee00cb002fb759ffa6797d7eff6a6626a51eb7','95e58edb430820669c2d53c6ac5d3a07962be281f9a2c416eed43afd6ccfc995');
INSERT INTO journal VALUES(68,1,'ground',9,'c5b541d906cbc221a986de4273277db0de203ebb5349b86174c64d907dace979','3a0f07a70954bba8d0e259c50d7305b43b1c876555767f6ab24165a6859aef12');
INSERT INTO journal VALUES(69,1,'ground',10,'7fd95253d4fe11fa8bedfd2f4a6fee4e086edda2d9e8eaeccc6dd12b22393b52','7fd83544cdd0264790e32fbb912702b4a5d350680dcb1324d4575e1e9f677235');
INSERT INTO journal VALUES(70,1,'ground',11,'02a58463b4ad9ea733389486ba2e2c7d45be82ae66afa6667b012c0377c6751d','3ed6f8576aa192089531e0de6e947335fa254da1eb16f697a7a4d965e37786fa');
INSERT INTO journal VALUES(71,1,'ground',12,'b6318f6d7d32d5956c46c9966f280b93f9dddd15b3870633fe0bf87c68f98b23','4f32c4f4d07ed2c77bbf401f24909c14d6ea3f042521e621e0ee61134d70c95e');
INSERT INTO journal VALUES(72,1,'ground',13,'33c2730db26af9d061ce226539915e72bea7a7c01a56500a372ea67d732cb409','1730da8aab8df64a7c5a87f95b9124900bed430e5b0c5ca5dbf93c951afce506');
INSERT INTO journal VALUES(73,1,'ground',14,'3656be9b8b3f5d94d9fee6e33da836d518c043dc7b54b729e10ec6f99bb14c90','04f15a83077f3bf6446b2104924e0a06784800ebcda8efada40f0a0b38242b0a');
INSERT INTO journal VALUES(74,1,'ground',15,'d9fcf469d24aaa7a0122d0792c8e40753d4f01878b79ea39285b29b77e274551','13e39b4f0e9571bb9188b3d79264ffcb3825c3315d3c9ad0555e17745a94a1b9');
INSERT INTO journal VALUES(75,1,'ground',16,'1126f84d43a89c3b01e8b84381ce68e12ce1595bf4b87d74f644d4c1a2a96331','f41de9135f0ee7ab5f20877a463897e6a3a8ed1fad4c1251c26ac319dbe87a22');
INSERT INTO journal VALUES(76,1,'ground',17,'2bafac43b30bd1b841ddfa22bcfab740a6f32a513af90f1402ce76ea287601e4','be546bac9627ddb07dac4b610af0c1154bfb02b10e7bf33aa0109445f10d309b');
INSERT INTO journal VALUES(77,1,'ground',18,'8a1371a47d71a2d89f5de3d329755330265366c3f27dabd8b7a455163255dbd2','98d7d3e50af2e5e31676494f0082b0b5f87e1ec61a618ec7242aa19fd6e6e6d2');
INSERT INTO journal VALUES(78,1,'ground',19,'7f59f436ca9d75b30e6fd0a49944223416198f48fb1b8c268d48d0409f4e9f66','69da645a6a6580be34e4f124715688e324f9c17cba0e901d016483632536d462');
INSERT INTO journal VALUES(79,1,'ground',20,'8ab96c8779626537ef784ec5cc7da028760193ec81c68a29c164c235b7434c49','587748f326e74a8181abeb5b054322bbe2e274006069e1cb7bcada415206fc79');
INSERT INTO journal VALUES(80,1,'ground',21,'7eb3098f18cfd120fd800a553b30ce972c1c7eb0568a101ea6b49a4e35debf78','9da8c18c0cd21fd986483757f267192aa5d2d35c581cc32ea0e32fa14ed8f6ed');
INSERT INTO journal VALUES(81,1,'ground',22,'56b863ab5462445bd7a3015acb31933c7726295676f209781249b032cac91964','057799bf9b25b4622ab770929b445741b00e13369865faef556cdd856b08bdd9');
INSERT INTO journal VALUES(82,1,'ground',23,'f3f396dd63906d95defcaf229b2d834a29acde0dd6e1df30e1c2580c71579543','80a6575c5dc907fcdc63e51802b7783b3c49839f19056c13f90a8fbc57ef4a3d');
INSERT INTO journal VALUES(83,1,'obstacles',1,'42d39591ff9d86ab9e1697927ec20bb1a46431d4a385908f7763cbcd3e30857b','db9ab221a728df8b116d4064022108a1289b3e6bdb688624538941c4942fe1fa');
INSERT INTO journal VALUES(84,1,'obstacles',2,'29d7cabb53a7fafc62ce38a2c216ab6ab88b74774eda8d1ee515fd8f9dfbdf18','f4d15695dd66303b3f87469ed26325f2fd28b4c926e91d3b0dcb481436ba04e8');
INSERT INTO journal VALUES(85,1,'obstacles',3,'5da59effee39830a455eb41c7e64c6d1d56e3b9538577a52d17c61b98c8a21af','20a4532541bd9511acebe84b8510d855636e8bfb068adec084bd97eadbf0e07d');
INSERT INTO journal VALUES(86,1,'obstacles',4,'be650d2ba71c62680e3cf6a027e4708a850c7104f37a13d489c05eb67911f3a2','3d3543b2c14935910bb723772294731f53af35f197c603efe09229cd7104a895');
INSERT INTO journal VALUES(87,1,'obstacles',5,'ddd4b897b2e789c1620e8858e31f4e1b3a21a7167773e64f53aa51d6ee293ece','cc85a3fc809303179cd9df6394ac6e746695bd161a0f403b37894fb2baaeded8');
INSERT INTO journal VALUES(88,1,'obstacles',6,'5710082933897f9d77b6c360c6db694c327a04550d68046d5f12c88c9f7918ea','9a463579334ff2344328ebc9ac728e4b71423d79e1a4ab70091e78dd7b9d2e15');
INSERT INTO journal VALUES(89,1,'obstacles',7,'0205d155000dcd6f9701ed1141508459c56972d5436fafc689cbd935891ad37d','02896725a021573468cf0240644a1d535e5c0343082410670e80ab55b822d029');
INSERT INTO journal VALUES(90,1,'obstacles',8,'dfd95cd40315159d3557949a39a03917e1d07ce8d454ae4adf9984f4211be8af','5451702ec36382bdd8caade36845054071c223185b7aa66eae64221f7f98a6e7');
INSERT INTO journal VALUES(91,1,'tally',1,'c9f35a5ae73a1ab22471a72ff7603a530b8f399a535858427d26426adc63bcc1','8ef5aad68ec6bc5cfbf1d7513a087d03d197e0f5e464e56bd390add1a15a38ec');
INSERT INTO journal VALUES(92,1,'tally',2,'2eb2efadd8bcdead2933bfbd65aa902a891cf598ba68a3dcfaa35cec1f843cdb','a50033fc47805843ca824180882f7ac81e8561d34b750db799aa14cbb959300f');
INSERT INTO journal VALUES(93,1,'tally',3,'e62c8ac07e437a422212b388b8063fcec2c8cfb7d56d1fe5013b91df4df2776e','721c17e9255624e874dd1fd145dc7a121b1af6603e676c20b29a25ac9834d43a');
INSERT INTO journal VALUES(94,1,'tally',4,'6a2e9932fd79be7b300888578fd595ba71a991139f3bbd682e81bb6618f694c2','4a58a85089204c5cfb36f80ff04c621f35cd1ddde6e87ae720f78b9c7aea56b2');
INSERT INTO journal VALUES(95,1,'tally',5,'d4900af2eaf221d69b45e6d63fd3cdbdc6d49abc736b26b202dc2bebcca15265','e00df33e4790922d4e77c9bb64a507b117b7e97e1d79d9aba8a602d0d323201f');
INSERT INTO journal VALUES(96,1,'tally',6,'5e872052a472571c2160d5416b30cc82da1d3ca6fc2a39a7e6e089c218b6034f','4071f2c0a3479cd9f9e800dc46b4ba30d83ed469d144860403bba59524c793f1');
INSERT INTO journal VALUES(97,1,'tally',7,'c3e36cf7568942f8572e99bebe0b3e11f4fdcf56587aad0889e7642c21bafd7f','cefb119effdbcdf8d4e8a6d1def3e14363ca74b2ed05bef3b0660baf86a775fa');
INSERT INTO journal VALUES(98,1,'tally',8,'37f51be1dbf55c74f955a957b5a3738ab280c45d882bc9c8a1739c0a599bbae8','6631d9e2e18bf32f2036cf6a306dd80b594cd658145188b323ecfdb58a142b91');
INSERT INTO journal VALUES(99,1,'tally',9,'ca432165c26d4d4fe9f08bd8f431943cd1c6e13c3fd6d5124dba415af20e93e9','7009ce104743fdf96dc92e5b2e9ac44df675197be1fa6f8417a8fd56e63417f6');
INSERT INTO journal VALUES(100,1,'tally',10,'01d06651ad7daca130c06aea0b5f8efcfe88a197739de803751298d2f8d1b57a','8d5e9187c63cd1271fc37794c412e113fa4b8068c1d9920a02ff64e2c6a419ed');
INSERT INTO journal VALUES(101,1,'tally',11,'79504e5344c32e233f7b3836bfa9b25023854b7016fe93a76cabdcf4ac61c971','8aed555beb8acb1a3fd229015c845649e1762bd8f4e7295354ef4c84e2e9ae7b');
INSERT INTO journal VALUES(102,1,'tally',12,'e2b45975cb44abb4df7de3e7e633076b7c18eab548efaed70c6df945637c637b','ba0ba4cb52fe4fbb829dc608fbb9aa68873591e5a343d749806a22dce6d43e45');
INSERT INTO journal VALUES(103,1,'tally',13,'3e017b8b1e2d08ffdf16c61bd1c212dd56a47e99c0ce3cab04d30e4c7fd358b0','5ea7e0240e74433c0d6958613271d346c85ab8607d265946c702a1f11cf75efa');
INSERT INTO journal VALUES(104,1,'tally',14,'3f82800ac884a23b864c86e52ede5de3d24bd383469809acaf787e7aef117cf4','29b17dfecda7b2f1920f33182be9568198a29088337d75d5e5fcd807efaf31b4');
INSERT INTO journal VALUES(105,1,'tally',15,'dcbcf2ca81ee8805a6db8e143e4de9eee9c456a959430d0d16414753ef0b8855','edfe5652c51adc5edeec0bff9d201d1d4a0b3aeffd1383ba7c4ccbe96b5d27ad');
INSERT INTO journal VALUES(106,1,'tally',16,'b1917d0c8c89a94746df27284f26e510d9dbea3edfaae786b805c99db903c127','27754f892c215cf7be7f60260bba41e7c19e171d405a5250f7c1647c3bd674a2');
INSERT INTO journal VALUES(107,1,'tally',17,'961bece4bf82c38404ddb79c68387641926b5649394c9be75919f309400b1e14','d3ec2b878dd50d00eb5ec3704379389039ead9b72dc8866b432c2baafe901b2c');
INSERT INTO journal VALUES(108,1,'tally',18,'b31408d065661a9334d73bb9d4deccabb81073f775af0a0f4b88c417c72c1f9e','ebe660bd1ef80907d885ac5e3def6a20b9377d5952f71d3a52ca3d2b43604719');
INSERT INTO journal VALUES(109,1,'tally',19,'61f41d485edab7574a3c1d0bf9af13766ddc49064e5d8a28c48b19d62c229270','2524a002dea9a92059c13cbb97ca5f95e0d1384512f7fa528a44ec26c1d24ce2');
INSERT INTO journal VALUES(110,1,'tally',20,'6c4828466937783c7f2223f3457832b884972468fca80fcef806c335dce7e7d3','408a429bcc36b89adb8860ddaf30f2472b86e86c7db8076e41074eae8a6e6e9f');
INSERT INTO journal VALUES(111,1,'tally',21,'60edf9a769ac6544aa3e5bfb3c8cb75e44c554634e1587c7490116c38e479c89','052126374a5f490baeed1ebc59015d89bfd046d7ae2e31fe76485a6c6b6e99dc');
INSERT INTO journal VALUES(112,1,'tally',22,'9f21cc0050f5825a32af5ad28727ccccaf0f616f990e754aae57bb4d7dc84400','fb597a0e460a35971906f2c67595c1609a734b26a7abd3d5af1abd01ab756773');
INSERT INTO journal VALUES(113,1,'tally',23,'292eafc346f036a72f05ff5849e6c9718854cc071f3e7eae4e521fea0e10a597','f4fa1ceceafca5eb0a51c2e6f2df9f2b2ce3f7269310b27cc8a0d2c164c0c140');
INSERT INTO journal VALUES(114,1,'tally',24,'e97033a65451a055350366c234fa4745e9b5389b4d760d3f3bc98a9d7e29a52c','c2f55152d5c953de7feb388660e0c1bc6adf59c18e394761f21afbe4d7da7126');
INSERT INTO journal VALUES(115,1,'tally',25,'e841c78e2bd9fe60c8b1ba78bead53c9b657e15e8161c0f82b08dba651ef07b6','86465c61e8382f2b049d8383312bb2e2f35dafd2948371e2f441ae097ba0c880');
INSERT INTO journal VALUES(116,1,'tally',26,'7bd4b89f7b3309d499b3a7e232cb37610af00a8fc0f8fab00fa91abb1881a38f','6eea168f36430e841828e3288dfc50a95ce6c3342777d783803590945fac34f8');
INSERT INTO journal VALUES(117,1,'tally',27,'a2617aced70b3828b73b89844b94642be505face316753a1d1f8b18e55d0c870','ff0486bb076992d131cee97649f9ae7b89cd6011f8fbcace82bc167801413b35');
INSERT INTO journal VALUES(118,1,'tally',28,'c5d1d2d30b1ea0d3c57105cc099b3507c78bd12637130dff3ed5b500d3be320e','e6419b1f833d9c2437f20dd45f3f2b983baff5740186843824c704e40b091007');
INSERT INTO journal VALUES(119,1,'tally',29,'c5c943af573474df790a9564416909b0424766b95a669151421d1a40847b8d76','dbbe89857294430dfd9f96b360905d9bfe313bfa272c691b9cb6d43df1330a02');
INSERT INTO journal VALUES(120,1,'tally',30,'cd2fecceba8008910e82eb46365a0bc07c90e30a2f59f648a23fc8551a4eda38','485f39d9dee8488d6161de631bd334cb0ea851d4b62ccd89d979e626cecc5728');
INSERT INTO journal VALUES(121,1,'tally',31,'79d4a772a468832efe261e7634e2a620aa872425fa3bba075ccb5930f2c447ba','4d7a488003f7deb2d239dfda776ede9558a5cd3a31f951ce964749da28acc6f5');
INSERT INTO journal VALUES(122,1,'tally',32,'ac2d8717ee306f1916052ea161259fac0a6a7a419436cc408884361a56c436f2','e367661564d066c4cac2c99016dfc66b2c3d17af44ac73868fe6c29166cc4768');
INSERT INTO journal VALUES(123,1,'tally',33,'034f696da03552eaa5a0be8ddc3b4e3fb7861ade492b4e04ac292f53f28c19c0','26fbc1423bd3e14e0883d9006f6b941de39d4685babc16dde147ede20b424abd');
INSERT INTO journal VALUES(124,1,'tally',34,'7d8439df97694dbc807b1e2f69022bf7c702f4cc64322bec272f033b2b8944f2','0d586b71f7562392e5bc92457e98fa83fbb34afafb881e5640c64ce924c873bd');
INSERT INTO journal VALUES(125,1,'tally',35,'94212192c5ba44ece8455d416d91e20ac5a0059f0749b7654091c8060cf8482b','7193e11b9025e9a37a898aa90616cbbd0270d4ed4e86af309061937927e95a23');
INSERT INTO journal VALUES(126,1,'tally',36,'fa91341b0c2fdb55803878a41af6ec8464acd7989ecc600a9d8dedcaf678cc4c','2b1a7a320e634d354927ad383635775d88e475555fbf80222e160e83d66b28bc');
INSERT INTO journal VALUES(127,1,'tally',37,'fdf8219bcea21757aea0a4fdb18a6ba3458279e1e9aba95f3e4d8acf7d9e915e','3ac7ba42d52faf2c25cec9a801961a3606197d3ce096f10e4c7683372f209df7');
INSERT INTO journal VALUES(128,1,'tally',38,'a03e59527404fa8dee32537ffa46f10f70d86a1a24d65312a66c7e6bcf3fd280','18429285936f0d9f5b829348fae2a620ca03dad04b19ea5ccdfe68f40da28b81');
INSERT INTO journal VALUES(129,1,'tally',39,'41dee268d62f30784b8a0fac696e8ddbca0ec45138339b2bc8296722ce1311e8','78bbd7a939dc08ec7173ffcf463dea6fb380f81727842e56a56ddfb4b9bf34f0');
INSERT INTO journal VALUES(130,1,'tally',40,'3d8cc6e1b32821d237ac51ef23cf2e0073126ceca2af19fd414ca75c2909e840','e3df3f8f6c1f406ec195385e089a8c08f8f6d6cf3cc0a778ee5b922b9671d7eb');
INSERT INTO journal VALUES(131,1,'tally',41,'67b1490ee24f997b63c93e4f8da29077727e45e87e3302fe08b100695f66a547','d64b2483b9556389108c12ab9ccce0eab5dec52773628b7949638394f9e0a8d7');
INSERT INTO journal VALUES(132,1,'tally',42,'5ec6a372e9224e50ec8c67516dad61a91bfb52f0a03a4094c9e2512a631bef08','6a6a801750cdf7a5d7fb0dbf0448bcc241d02099525115ef32c8529748c0c006');
INSERT INTO journal VALUES(133,1,'tally',43,'7afad00b1136fcc12d14044241c314806b05ca7c701e0bc1a784072a9c378b4c','3fe19d8569179bf9586a62f297e18525da02f1bc2a90ba97c0ba72f83301d4be');
INSERT INTO journal VALUES(134,1,'tally',44,'94506cf024a95d7567fa0a825698948e7d0977c97b3fc3bd1c3d4e3846f50788','ee9fc5fa46dc4885c9edd4620f7b8f420fa5a991cfe98d2f3de33e5e5b6929c9');
INSERT INTO journal VALUES(135,1,'tally',45,'0c19fd0d52d6bb5cba165970291d2c972969fe5684215d551b3f18dfc0ee052c','f7df7f2b4503983acacb9cc657da374c037dbbef4dee04ab91fbfcfb50611366');
INSERT INTO journal VALUES(136,1,'tally',46,'5c7941c056d330b0c8b747ec9eb4bc32df50c24aab243d9ba0c048a492f25796','36eda0e085b87a9151fa917eaa017ce301c18afaf61f73cc9e236c0011a3bbe2');
INSERT INTO journal VALUES(137,1,'tally',47,'aec7f1aca139d6e6b708064f36074f89b9d1ad239e2ac4edef2c30d21a3dc3f1','b74ba2f43daca1098291095a0eb700f94bc500c7f2be4c297090eceb5381b6f2');
INSERT INTO journal VALUES(138,1,'tally',48,'847f63668eb24adcf1e1b8e2ba1ba2f950c6432d24935fc9008250632f26fc9f','3fc5e234c964c7001ca2008cce05475ef664cdcb7e5a9970a8f0eb5bc58e4438');
INSERT INTO journal VALUES(139,1,'soil',1,'8e6a5adf155e099872f4d88ef62b033c544f0c362c5d53ba64df24a41dfffa62','b242e03cb75a6da7f259d9ea6a2feab918bd83136c1a3745353edf38c80625b6');
INSERT INTO journal VALUES(140,1,'soil',2,'88c7acd49d6778223ba871591f3e47772b5fc945f4bff58e5fbd6f264c9421d8','3312717140f3935fe824fd0c161fe0a5aa3e96a96623410b85890f20ec53304a');
INSERT INTO journal VALUES(141,1,'soil',3,'867fc67fdbcafe644496301da5b5999211e2e892bf588247ee0d5ec5f2814447','00d4999222b27b3acb8f2520bd23d7de2b8f09e27e06e2e7d12426314fdfe923');
INSERT INTO journal VALUES(142,2,'act',2,'a9749a4dcc675fb878560424e7fd3e2f562faa4c33708ef35daf6f3981e231fd','0966d65c7ad710d0bed1df22d195bf700a88516359c3480a38d8cd6c97325485');
INSERT INTO journal VALUES(143,2,'reading',1,'667a521c62b4f55104aaa0848e5ca4bc15bdfc3205c0de4b221e5007605cfc3c','0419d548424aa10eed424ee7e97df9a8ef0341cd7ad756836255660c561bc984');
INSERT INTO journal VALUES(144,3,'act',3,'ea13e2d3cedf630ae52bfc20c45c48ff74cf7f59b2db3fc8700bd830841d0310','b01deeacc16063ed671f205d30e442b54891a89f39169e7859b7a6976b0ce801');
INSERT INTO journal VALUES(145,3,'reading',2,'d129b63a462390c27c28bd7af3907dd88900de00295ef9d5d35c04cf367518c7','9f2a653addcee120bc0b74df7ccc592d7049134a6002c6636b20c4fafdfdf58e');
INSERT INTO journal VALUES(146,4,'act',4,'502a32d9de37c50acbfd50746ab58fc9dd50610d8147bf08fd6fa5765645f22a','efc95d467388d1a2efe8e12d9442a0f5b669574556f1e7414f4200b6dfaccdba');
INSERT INTO journal VALUES(147,4,'reading',3,'49c8e0ce1d54aca7533a93bfbe6869a952e55560493810331c213b816ce8c1e9','d0855761e504548e08f6f426dadfcaeb31364fe4e31ce7a1167c8bda0e9781e0');
INSERT INTO journal VALUES(148,5,'act',5,'794d62d210b06c70715d334a8477a9b0bea9585591791df47ee4916f1aeeb584','e5f480854fbac5bbb90503711f44838bc127e9eca4c725299f83f55b345626ce');
INSERT INTO journal VALUES(149,5,'reading',4,'8620157a0a2da9ae8e83f16e1cc915374578bd598178388a6c487f516e9ca271','f738c901d4a69696e1932702a3495dc92dde336687bf531c2b1043ac3232d71c');
INSERT INTO journal VALUES(150,6,'act',6,'09724191e281fce8435efc6770328e9eb8219f7d4e969e23392d6de4314520c2','1c144b59f8e905774c9e2427f8160cc1959174efd04d24aaf0b2971c40cb1fef');
INSERT INTO journal VALUES(151,6,'reading',5,'862b166fdbcc36ec1c61db335b26ff43c24f84322a4b76f5eacdbb8e96cee09a','6242249c11fc90a70f6b96f359e4fd57a908661b223bc090a79f7c04ef95fb97');
INSERT INTO journal VALUES(152,7,'act',7,'86c1d7c7ba29dbd34d9e2c5bd6823131e4aa6304e022700b13af32423b4bd272','9d318fde8fe0499745f5e2a81cc6ae60b6a5d5a4d0075cbc22b236b1fcc37684');
INSERT INTO journal VALUES(153,7,'leg',2,'c7e5ae41a7476fe78a6f31edb6acf5933b84fe66b853a0aa460561a4d9ccc38f','cc49d737cfad2abb24fa052d399e54513702c341ac56337d911662da936503d5');
INSERT INTO journal VALUES(154,8,'act',8,'519cccfddf3e4ebbaafb64bf8d4651a40b464038053952f3e92136b194e7b5ae','347f98ee74f459f7817463d2de42b919fbf795a07dfa8c5bd58d9c8b4f8c5a05');
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
) STRICT;
INSERT INTO path VALUES(0,1,0,0.0,0.0,'-14','32.7',0.0,0.0,21.399999999999998578,0.0,5932845.2000000001863,563210.40000000002329,0.0,NULL,NULL,0.0,1,0);
INSERT INTO path VALUES(1,1,1,9.5999999999999996447,6.399999999999999467,'-14.1','32.8',6.2085298125537953239,0.0097498562083884188211,19.84628113079450884,-0.0058079911889059587792,5932850.2025265656412,563214.07337556174026,0.13932204187276614471,2631.9811564246519991,NULL,0.0081248801736570168408,1,0);
INSERT INTO path VALUES(2,1,2,19.199999999999999289,16.0,'-13.8','32.9',15.52532875683416691,0.040648974679810656596,17.531962637138200022,-0.00035213944342871172921,5932857.6999381817877,563219.59893113875297,0.31530747296826439063,1744.4543199296508646,NULL,0.033874145566508882809,1,0);
INSERT INTO path VALUES(3,1,3,28.780000000000001136,25.580000000000001846,'-11.5','32.6',24.872133414606977907,0.055218700760297778629,15.434128690743996514,-0.005280103637767652458,5932865.2311955979094,563225.12902950518762,2.3185492144596175911,236.74009777845452617,NULL,0.046015583966914817837,1,0);
INSERT INTO path VALUES(4,1,4,38.370000000000004547,35.170000000000001705,'-9.3','32.6',34.3039992101537905,0.045339688755294815791,13.703056434174989419,-0.0010912733266543739318,5932872.8455044543372,563230.68962563993407,2.2000000000000032862,249.75751160475391542,405.19206631418933283,0.037783073962745682139,1,1);
INSERT INTO path VALUES(5,1,5,47.980000000000003978,44.780000000000001136,'-7.5','32.2',43.810397012501802295,0.0021217512571247709729,12.299250680188254847,-0.030793658600446249806,5932880.5396198956295,563236.26733163686002,1.8429790624994784042,298.76217930222793484,329.34942539750551304,0.025661382167038542662,1,1);
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
CREATE VIEW sheet AS
	-- The job sheet as it stands.
	SELECT section, key, value FROM setting
	WHERE id IN (SELECT max(id) FROM setting GROUP BY section, key) ORDER BY id
;
CREATE VIEW as_drilled AS
	-- The bore as it lies in the ground, joint by joint from the entry (the rig side). Lengths in `unit`.
	SELECT joint, leg, bit_depth, survey_depth,
		CAST(inclination AS REAL) AS inclination, CAST(azimuth AS REAL) AS azimuth_as_read,
		station, offset AS offset_right_positive, height AS height_above_design, elevation, northing, easting,
		dogleg_deg AS dogleg_degrees, radius_joint AS radius_over_joint, radius_window AS radius_over_window,
		corridor_share * 100 AS corridor_percent,
		(SELECT value FROM sheet WHERE section = 'job' AND key = 'unit') AS unit,
		(SELECT value FROM sheet WHERE section = 'job' AND key = 'inclination') AS inclination_convention
	FROM path WHERE superseded = 0 ORDER BY joint
;
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
COMMIT;

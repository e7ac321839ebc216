/* The job sheet in two tables: the keys of job.ini, and the columns of its CSV tables. Limits of range only
 * refuse what cannot be; what a contract allows is the contract's to say. */
#include "model/setting.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "geom/axes.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define JOB(member) offsetof(struct job, member), sizeof(((struct job *)0)->member)
#define BIG 1e9

const struct setting sb_settings[] = {
	{ "job", "name", SETTING_TEXT, JOB(name), NULL, 1, 0, 0, NULL, "", "the crossing's name" },
	{ "job", "owner", SETTING_TEXT, JOB(owner), NULL, 1, 0, 0, NULL, "", "who the bore is drilled for" },
	{ "job", "contractor", SETTING_TEXT, JOB(contractor), NULL, 1, 0, 0, NULL, "", "who drills it" },
	{ "job", "unit", SETTING_CHOICE, JOB(unit), "m|ft|ftUS", 1, 0, 0, NULL, "",
		"the one unit of length of the job: metres, international feet or US survey feet" },
	{ "job", "inclination", SETTING_CHOICE, JOB(incline), "down|level|grade", 1, 0, 0, NULL, "",
		"how inclination is read: down (0 straight down, 90 level), level (0 level, rising positive), grade (percent)" },
	{ "job", "rehearsal", SETTING_TEXT, JOB(rehearsal), NULL, 0, 0, 0, NULL, "",
		"ground and seed, like nominal 42: the job is drilled by simulation, for training, and can never be a record; rehearse writes it" },
	{ "control", "crs", SETTING_TEXT, JOB(crs), NULL, 1, 0, 0, NULL, "",
		"EPSG:nnnn of the grid that eastings and northings are in, or local" },
	{ "control", "vertical_datum", SETTING_TEXT, JOB(vertical_datum), NULL, 1, 0, 0, NULL, "",
		"what elevations refer to" },
	{ "control", "entry", SETTING_PLACE, JOB(entry), NULL, 1, -BIG, BIG, NULL, "length",
		"easting, northing, elevation of the bore's entry: the rig side" },
	{ "control", "exit", SETTING_PLACE, JOB(exit), NULL, 1, -BIG, BIG, NULL, "length",
		"easting, northing, elevation of the bore's exit: where the product pipe enters" },
	{ "azimuth", "reference", SETTING_CHOICE, JOB(reference), "grid|true|magnetic|bore", 1, 0, 0, NULL,
		"",
		"what azimuth readings refer to; bore: to bore_azimuth_read on the staked first tangent" },
	{ "azimuth", "declination", SETTING_NUMBER, JOB(declination), NULL, 0, -180, 180, NULL, "degrees",
		"true minus magnetic, east positive" },
	{ "azimuth", "convergence", SETTING_NUMBER, JOB(convergence), NULL, 0, -90, 90, NULL, "degrees",
		"grid north from true north, positive when grid north lies east; grid = true - convergence" },
	{ "azimuth", "bore_azimuth_read", SETTING_NUMBER, JOB(bore_azimuth_read), NULL, 0, 0, 360, NULL,
		"degrees", "what the tool read, laid on the staked centreline of the first tangent" },
	{ "azimuth", "total_field", SETTING_NUMBER, JOB(site_field), NULL, 0, 0, 1e7, NULL, "the tool's unit",
		"total magnetic field that a reading must show here: read on the site away from steel, or of the field model (`earth`); left out: no gate" },
	{ "azimuth", "dip", SETTING_NUMBER, JOB(site_dip), NULL, 0, -90, 90, NULL, "degrees",
		"dip of the field below level, likewise" },
	{ "azimuth", "scale_factor", SETTING_NUMBER, JOB(scale_factor), NULL, 0, 0.9, 1.1, "1", "",
		"combined factor: grid distance = ground distance x this" },
	{ "tool", "sensor_to_bit", SETTING_NUMBER, JOB(sensor_to_bit), NULL, 1, 0, 1000, NULL, "length",
		"from the sensor to the bit along the string" },
	{ "tool", "tool_face_offset", SETTING_NUMBER, JOB(tool_face_offset), NULL, 0, -360, 360, NULL,
		"degrees", "added to a tool face as shown to make it one from high side" },
	{ "tool", "azimuth_correction", SETTING_NUMBER, JOB(azimuth_correction), NULL, 0, -180, 180, NULL,
		"degrees", "added to every azimuth as read, before declination" },
	{ "tool", "sensor_axes", SETTING_AXES, JOB(sensor_axes), NULL, 0, 0, 0, "x y z", "",
		"which of the tool's axes point to its mark, square to it on the right, and ahead along the hole, like -y x z; with up behind them when gravity is shown as the push upwards" },
	{ "tool", "gravity_unit", SETTING_CHOICE, JOB(gravity_unit), "g|mg|m/s2|ft/s2|Gal|mGal", 0, 0, 0, "g",
		"", "what the tool shows gravity in" },
	{ "tool", "field_unit", SETTING_CHOICE, JOB(field_unit), "nT|uT|mT|T|mG|G", 0, 0, 0, "nT", "",
		"what the tool shows the magnetic field in" },
	{ "tool", "total_gravity", SETTING_NUMBER, JOB(site_gravity), NULL, 0, 0, 1e7, NULL,
		"the tool's unit", "total gravity that a reading must show here; left out: one g" },
	{ "tool", "gravity_gate", SETTING_NUMBER, JOB(gravity_gate), NULL, 0, 0, 1, "0.005", "",
		"by how large a share total gravity may be off (common practice, no source; equator and pole differ by 0.005)" },
	{ "tool", "field_gate", SETTING_NUMBER, JOB(field_gate), NULL, 0, 0, 1e5, "300", "nT",
		"by how much total field may be off (300 nT is the trade's usual gate)" },
	{ "tool", "dip_gate", SETTING_NUMBER, JOB(dip_gate), NULL, 0, 0, 90, "0.3", "degrees",
		"by how much dip may be off (0.3 degrees is the trade's usual gate)" },
	{ "tool", "gravity_bias_x", SETTING_NUMBER, JOB(gravity_bias_x), NULL, 0, -1e7, 1e7, NULL,
		"the tool's unit", "taken off gravity x as our axes have it: of a roll test" },
	{ "tool", "gravity_bias_y", SETTING_NUMBER, JOB(gravity_bias_y), NULL, 0, -1e7, 1e7, NULL,
		"the tool's unit", "likewise, y" },
	{ "tool", "field_bias_x", SETTING_NUMBER, JOB(field_bias_x), NULL, 0, -1e7, 1e7, NULL,
		"the tool's unit", "likewise, of the field" },
	{ "tool", "field_bias_y", SETTING_NUMBER, JOB(field_bias_y), NULL, 0, -1e7, 1e7, NULL,
		"the tool's unit", "likewise, y" },
	{ "tool", "sigma_inclination", SETTING_NUMBER, JOB(sigma_inclination), NULL, 0, 0, 45, "0.1",
		"degrees", "one sigma of the noise of one reading (0.1 is common practice, no source)" },
	{ "tool", "sigma_azimuth", SETTING_NUMBER, JOB(sigma_azimuth), NULL, 0, 0, 45, "0.3", "degrees",
		"one sigma of the noise of one reading (0.3 is common practice, no source)" },
	{ "tool", "sigma_depth", SETTING_NUMBER, JOB(sigma_depth), NULL, 0, 0, 1000, NULL, "length",
		"one sigma of one joint's measured length; left out: a thousandth of joint_length (common practice, no source)" },
	{ "tool", "bias_inclination", SETTING_NUMBER, JOB(bias_inclination), NULL, 0, 0, 45, "0.1", "degrees",
		"one sigma of the error that all inclinations share (0.1 is common practice, no source)" },
	{ "tool", "bias_azimuth", SETTING_NUMBER, JOB(bias_azimuth), NULL, 0, 0, 45, "0.3", "degrees",
		"one sigma of the error of tool and line-up that all azimuths share, beside those of [uncertainty] (0.3 is common practice, no source)" },
	{ "tool", "projection", SETTING_CHOICE, JOB(projection), "hold|curve", 0, 0, 0, "hold", "",
		"from the sensor to the bit: hold the heading, or go on in the last curvature" },
	{ "survey", "course", SETTING_CHOICE, JOB(course), "arc|slides", 0, 0, 0, "arc", "",
		"which path is the record: the arc of minimum curvature between two readings, or the path through the slides and rotations written down between them; the other one is kept beside it" },
	{ "uncertainty", "declination", SETTING_NUMBER, JOB(declination_sigma), NULL, 0, 0, 45, "0.26",
		"degrees",
		"one sigma of the declination, whatever the field (0.26: WMM2025 report, section 3.4); counts for no bore azimuth read" },
	{ "uncertainty", "declination_by_field", SETTING_NUMBER, JOB(declination_by_field), NULL, 0, 0, 1e6,
		"5417", "degrees nT",
		"and one sigma of its part that grows as the horizontal field is weak, times that field (5417: WMM2025 report)" },
	{ "uncertainty", "horizontal_field", SETTING_NUMBER, JOB(horizontal_field), NULL, 0, 1000, 100000,
		"20000", "nT",
		"horizontal strength of the earth's field at the site (20000: much of Europe and North America)" },
	{ "uncertainty", "string_field", SETTING_NUMBER, JOB(string_field), NULL, 0, 0, 100000, "220", "nT",
		"one sigma of the string's own magnetism at the sensor, along the string (220: generic magnetic tool of the ISCWSA model)" },
	{ "uncertainty", "carried_bias", SETTING_NUMBER, JOB(carried_bias), NULL, 0, 0, 45, "0.5", "degrees",
		"one sigma of the error that all azimuths by gyro, coil or hold share (0.5 is common practice, no source)" },
	{ "uncertainty", "carried_noise", SETTING_NUMBER, JOB(carried_noise), NULL, 0, 0, 45, "0.5",
		"degrees", "one sigma of the noise of one of them (0.5 is common practice, no source)" },
	{ "uncertainty", "depth_scale", SETTING_NUMBER, JOB(depth_scale), NULL, 0, 0, 0.1, "0.001", "",
		"one sigma of an error in proportion to the depth, as a share (0.001: Wolff and de Wardt 1981, from memory)" },
	{ "uncertainty", "reading_depth", SETTING_NUMBER, JOB(reading_depth), NULL, 0, 0, 1000, NULL,
		"length", "one sigma of where the sensor was at one reading; left out: none" },
	{ "uncertainty", "confidence", SETTING_NUMBER, JOB(confidence), NULL, 0, 50, 99, "95", "percent",
		"what give or take, ellipses and a verdict on confidence stand for" },
	{ "uncertainty", "fix_every", SETTING_NUMBER, JOB(fix_every), NULL, 0, 1, 100000, NULL, "joints",
		"an independent fix is asked for at least every so many joints; left out: none is" },
	{ "uncertainty", "judge", SETTING_CHOICE, JOB(judge), "mean|confidence", 0, 0, 0, "mean", "",
		"the corridor judges the computed position, or the chance that the hole is outside it" },
	{ "drill_pipe", "joint_length", SETTING_NUMBER, JOB(joint_length), NULL, 1, 0.1, 1000, NULL, "length",
		"nominal length of one joint" },
	{ "drill_pipe", "minimum_radius", SETTING_NUMBER, JOB(drill_pipe_minimum_radius), NULL, 0, 0.1, BIG,
		NULL, "length", "tightest bend that the drill pipe may take" },
	{ "drill_pipe", "outside_diameter", SETTING_NUMBER, JOB(drill_pipe_diameter), NULL, 0, 0.1, 10000,
		NULL, "mm or inches",
		"outside diameter of its body: the drilling fluid comes back around it" },
	{ "product_pipe", "material", SETTING_CHOICE, JOB(material), "steel|pe", 1, 0, 0, NULL, "",
		"steel or pe" },
	{ "product_pipe", "outside_diameter", SETTING_NUMBER, JOB(outside_diameter), NULL, 1, 0.1, 10000,
		NULL, "mm or inches", "outside diameter" },
	{ "product_pipe", "wall", SETTING_NUMBER, JOB(wall), NULL, 1, 0.01, 1000, NULL, "mm or inches",
		"wall thickness" },
	{ "product_pipe", "yield", SETTING_NUMBER, JOB(yield), NULL, 0, 0.1, 1000000, NULL, "MPa or psi",
		"yield strength" },
	{ "product_pipe", "minimum_radius", SETTING_NUMBER, JOB(product_minimum_radius), NULL, 0, 0.1, BIG,
		NULL, "length", "tightest bend that the pipe may ever take" },
	{ "product_pipe", "modulus", SETTING_NUMBER, JOB(pipe_modulus), NULL, 0, 1, 1e8, NULL, "MPa or psi",
		"modulus of elasticity; left out: of steel 200 000 MPa or 29 000 000 psi; of polyethylene it must be the one for the pull's duration and temperature, and has no other" },
	{ "product_pipe", "poisson", SETTING_NUMBER, JOB(pipe_poisson), NULL, 0, 0, 0.499, NULL, "",
		"Poisson's ratio; left out: 0.3 of steel, 0.45 of polyethylene (PPI handbook, from memory)" },
	{ "product_pipe", "density", SETTING_NUMBER, JOB(pipe_density), NULL, 0, 1, 1e5, NULL,
		"kg/m3 or lb/ft3",
		"of the pipe's material; left out: 7850 kg/m3 of steel, 955 of polyethylene" },
	{ "product_pipe", "coating_thickness", SETTING_NUMBER, JOB(coating_thickness), NULL, 0, 0, 1000, NULL,
		"mm or inches", "of the coating; left out: none" },
	{ "product_pipe", "coating_density", SETTING_NUMBER, JOB(coating_density), NULL, 0, 1, 1e5, NULL,
		"kg/m3 or lb/ft3", "of the coating" },
	{ "product_pipe", "pull_stress", SETTING_NUMBER, JOB(pull_stress), NULL, 0, 0.01, 1e6, NULL,
		"MPa or psi",
		"stress that the pull may put on the wall: of polyethylene the maker's safe pull stress for the duration of the pull and the temperature of the pipe; of steel the contract's, if it sets one" },
	{ "product_pipe", "ovality", SETTING_NUMBER, JOB(pipe_ovality), NULL, 0, 0, 50, NULL, "percent",
		"how far out of round the pipe is in the hole, of its diameter; of polyethylene; left out: round" },
	{ "bend", "joint_minimum", SETTING_NUMBER, JOB(joint_minimum), NULL, 0, 0.1, BIG, NULL, "length",
		"smallest radius allowed over one joint" },
	{ "bend", "window_joints", SETTING_NUMBER, JOB(window_joints), NULL, 0, 1, 100, "3", "",
		"how many joints the window holds" },
	{ "bend", "window_length", SETTING_NUMBER, JOB(window_length), NULL, 0, 0.1, 10000, NULL, "length",
		"the window as a length instead of a count of joints" },
	{ "bend", "window_minimum", SETTING_NUMBER, JOB(window_minimum), NULL, 0, 0.1, BIG, NULL, "length",
		"smallest radius allowed over the window" },
	{ "bend", "method", SETTING_CHOICE, JOB(method), "ends|sum", 0, 0, 0, "ends", "",
		"what judges the window: the angle between its ends, or the sum of its doglegs" },
	{ "corridor", "up", SETTING_NUMBER, JOB(up), NULL, 0, 0, BIG, NULL, "length",
		"how far above the design line" },
	{ "corridor", "down", SETTING_NUMBER, JOB(down), NULL, 0, 0, BIG, NULL, "length",
		"how far below it" },
	{ "corridor", "left", SETTING_NUMBER, JOB(left), NULL, 0, 0, BIG, NULL, "length",
		"how far left of it, looking from entry to exit" },
	{ "corridor", "right", SETTING_NUMBER, JOB(right), NULL, 0, 0, BIG, NULL, "length",
		"how far right of it" },
	{ "corridor", "near", SETTING_NUMBER, JOB(near), NULL, 0, 0.01, 1, "0.7", "",
		"share of the corridor from which it is a watch" },
	{ "corridor", "look_ahead", SETTING_NUMBER, JOB(look_ahead), NULL, 0, 0, 40, "3", "",
		"joints ahead within which leaving the corridor is a watch" },
	{ "corridor", "exit_long", SETTING_NUMBER, JOB(exit_long), NULL, 0, 0, BIG, NULL, "length",
		"how far past the exit point the bore may come out" },
	{ "corridor", "exit_short", SETTING_NUMBER, JOB(exit_short), NULL, 0, 0, BIG, NULL, "length",
		"how far short of it" },
	{ "corridor", "exit_left", SETTING_NUMBER, JOB(exit_left), NULL, 0, 0, BIG, NULL, "length",
		"how far left of it" },
	{ "corridor", "exit_right", SETTING_NUMBER, JOB(exit_right), NULL, 0, 0, BIG, NULL, "length",
		"how far right of it" },
	{ "hole", "pilot_diameter", SETTING_NUMBER, JOB(pilot_diameter), NULL, 0, 0.1, 10000, NULL,
		"mm or inches", "of the pilot hole" },
	{ "hole", "final_diameter", SETTING_NUMBER, JOB(final_diameter), NULL, 0, 0.1, 10000, NULL,
		"mm or inches",
		"of the hole when all reamers went through it; clearance and cover are judged by it, centred on the pilot; left out: by the pilot hole" },
	{ "opening", "ratio", SETTING_NUMBER, JOB(opening_ratio), NULL, 0, 1, 10, "1.5", "",
		"smallest final hole over the product pipe's outside diameter, where final_least is left out; the lesser of this and spare holds (1.5: HDD good practice guidelines, second hand)" },
	{ "opening", "spare", SETTING_NUMBER, JOB(opening_spare), NULL, 0, 0, 10000, NULL, "mm or inches",
		"smallest final hole less the pipe's outside diameter, likewise; left out: 300 mm, or 12 inches (same source)" },
	{ "opening", "final_least", SETTING_NUMBER, JOB(opening_least), NULL, 0, 0.1, 10000, NULL,
		"mm or inches",
		"smallest final hole that the contract takes; left out: the lesser of ratio and spare" },
	{ "opening", "final_most", SETTING_NUMBER, JOB(opening_most), NULL, 0, 0.1, 10000, NULL,
		"mm or inches", "largest final hole that the contract takes; left out: none is set" },
	{ "opening", "forward_ream", SETTING_CHOICE, JOB(forward_ream), "yes|no", 0, 0, 0, "yes", "",
		"whether the contract lets a reamer go towards the exit without a lead string ahead of it" },
	{ "opening", "fluid_ratio", SETTING_NUMBER, JOB(fluid_ratio), NULL, 0, 0, 100, "3", "",
		"volume of drilling fluid for a volume of ground that is cut (3 is common practice, no source; clay takes more)" },
	{ "opening", "ream_best", SETTING_NUMBER, JOB(ream_best), NULL, 0, 0.001, 1000, NULL,
		"joints an hour", "a reamer's pace when all goes well; left out: as measured so far" },
	{ "opening", "ream_likely", SETTING_NUMBER, JOB(ream_likely), NULL, 0, 0.001, 1000, NULL,
		"joints an hour", "a reamer's pace as it is to be expected; left out: as measured so far" },
	{ "opening", "swab_best", SETTING_NUMBER, JOB(swab_best), NULL, 0, 0.001, 1000, NULL,
		"joints an hour", "a swab's pace when all goes well; left out: as measured so far" },
	{ "opening", "swab_likely", SETTING_NUMBER, JOB(swab_likely), NULL, 0, 0.001, 1000, NULL,
		"joints an hour", "a swab's pace as it is to be expected; left out: as measured so far" },
	{ "clearance", "spare", SETTING_NUMBER, JOB(clearance_spare), NULL, 0, 0, BIG, NULL, "length",
		"less than this over the clearance of an obstacle is a watch; left out: within the give or take" },
	{ "cover", "minimum", SETTING_NUMBER, JOB(cover_minimum), NULL, 0, 0, BIG, NULL, "length",
		"least ground over the top of the hole; corridor.csv may say another by station" },
	{ "cover", "from", SETTING_NUMBER, JOB(cover_from), NULL, 0, -BIG, BIG, NULL, "length",
		"station from which minimum holds; left out: the entry" },
	{ "cover", "to", SETTING_NUMBER, JOB(cover_to), NULL, 0, -BIG, BIG, NULL, "length",
		"station up to which it holds; left out: the exit" },
	{ "cover", "spare", SETTING_NUMBER, JOB(cover_spare), NULL, 0, 0, BIG, NULL, "length",
		"less than this over the least cover is a watch; left out: within the give or take" },
	{ "fluid", "weight", SETTING_NUMBER, JOB(fluid_weight), NULL, 0, 0.1, 10000, NULL, "kg/m3 or lb/gal",
		"of the drilling fluid; pipe floats in it" },
	{ "fluid", "return_weight", SETTING_NUMBER, JOB(fluid_return_weight), NULL, 0, 0.1, 10000, NULL,
		"kg/m3 or lb/gal",
		"on its way back, with the cuttings in it: it sets the annular pressure; left out: weight" },
	{ "fluid", "plastic_viscosity", SETTING_NUMBER, JOB(plastic_viscosity), NULL, 0, 0, 10000, NULL,
		"mPa s", "of the fluid as a Bingham plastic; 1 mPa s is 1 centipoise" },
	{ "fluid", "yield_point", SETTING_NUMBER, JOB(yield_point), NULL, 0, 0, 10000, NULL,
		"Pa or lb/100 ft2", "of the fluid as a Bingham plastic; 0: it has none" },
	{ "fluid", "flow", SETTING_NUMBER, JOB(fluid_flow), NULL, 0, 0, 1e5, NULL, "L/min or gal/min",
		"pumped in the pilot, where a joint does not say what was" },
	{ "fluid", "ream_flow", SETTING_NUMBER, JOB(ream_flow), NULL, 0, 0, 1e5, NULL, "L/min or gal/min",
		"pumped when the hole is opened and the pipe is pulled in; left out: flow" },
	{ "fluid", "watch", SETTING_NUMBER, JOB(fluid_watch), NULL, 0, 0.01, 1, "0.8", "",
		"share of the formation's limit from which annular pressure is a watch" },
	{ "fluid", "sand_share", SETTING_NUMBER, JOB(sand_share), NULL, 0, 0.01, 1, "0.667", "",
		"how far ground without cohesion may yield around the hole, as a share of the cover (two thirds: NASTT 2019, TM1-T2-01)" },
	{ "fluid", "clay_share", SETTING_NUMBER, JOB(clay_share), NULL, 0, 0.01, 1, "0.5", "",
		"likewise ground with cohesion (a half: NASTT 2019, TM1-T2-01)" },
	{ "fluid", "tension_cutoff", SETTING_NUMBER, JOB(tension_cutoff), NULL, 0, 0, 1e6, NULL, "kPa or psi",
		"tension at which the ground parts, where the site gives one; left out: it is taken to yield before it parts" },
	{ "fluid", "from", SETTING_NUMBER, JOB(fluid_from), NULL, 0, -BIG, BIG, NULL, "length",
		"station from which annular pressure is held against the limit; left out: from of [cover]. Next to its ends a hole breaks out in any case" },
	{ "fluid", "to", SETTING_NUMBER, JOB(fluid_to), NULL, 0, -BIG, BIG, NULL, "length",
		"station up to which it is; left out: to of [cover]" },
	{ "steering", "slide_turn", SETTING_NUMBER, JOB(slide_turn), NULL, 0, 0, 90, NULL,
		"degrees per length", "first guess: turned per length slid" },
	{ "steering", "droop", SETTING_NUMBER, JOB(droop), NULL, 0, -90, 90, NULL, "degrees per length",
		"first guess: drifts down per length rotated" },
	{ "steering", "walk", SETTING_NUMBER, JOB(walk), NULL, 0, -90, 90, NULL, "degrees per length",
		"first guess: drifts right per length rotated" },
	{ "steering", "tool_face_as", SETTING_CHOICE, JOB(face_as), "clock|degrees", 0, 0, 0, "clock", "",
		"how orders say the tool face: by the clock face, or in degrees" },
	{ "entry", "inclination", SETTING_NUMBER, JOB(entry_inclination), NULL, 0, -50000, 50000, NULL,
		"the job's convention",
		"staked attitude at depth 0, as the tool would read it; left out: the first reading's" },
	{ "entry", "azimuth", SETTING_NUMBER, JOB(entry_azimuth), NULL, 0, 0, 360, NULL, "degrees",
		"likewise" },
	{ "acceptance", "exit_survey", SETTING_CHOICE, JOB(exit_survey), "yes|no", 0, 0, 0, "yes", "",
		"whether the pilot can only be accepted with its exit surveyed from land (a fix of kind exit)" },
	{ "acceptance", "warnings_acknowledged", SETTING_CHOICE, JOB(acknowledged), "yes|no", 0, 0, 0, "no",
		"",
		"whether it can only be accepted with every warning acknowledged, those short of a breach too" },
	{ "string", "weld", SETTING_CHOICE, JOB(string_weld), "yes|no", 0, 0, 0, "yes", "",
		"whether the pull waits for a record of every weld or fusion of the pipe string" },
	{ "string", "inspection", SETTING_CHOICE, JOB(string_inspection), "yes|no", 0, 0, 0, "yes", "",
		"whether it waits for the inspection of every weld or fusion" },
	{ "string", "coating", SETTING_CHOICE, JOB(string_coating), "yes|no", 0, 0, 0, "yes", "",
		"whether it waits for a test of every joint's coating; of steel alone, polyethylene has none" },
	{ "string", "test", SETTING_CHOICE, JOB(string_test), "yes|no", 0, 0, 0, "yes", "",
		"whether it waits for a pressure test of the string" },
	{ "string", "test_pressure", SETTING_NUMBER, JOB(test_pressure), NULL, 0, 0, 1e6, NULL, "kPa or psi",
		"least pressure of that test; left out: any that was recorded as good" },
	{ "string", "test_hours", SETTING_NUMBER, JOB(test_hours), NULL, 0, 0, 10000, NULL, "hours",
		"least time that it was held; left out: any" },
	{ "string", "drag", SETTING_CHOICE, JOB(string_drag), "yes|no", 0, 0, 0, "yes", "",
		"whether it waits for the record of the drag section: a piece of coated pipe drawn through the hole and looked at" },
	{ "pull", "friction_hole", SETTING_NUMBER, JOB(friction_hole), NULL, 0, 0, 2, "0.3", "",
		"friction of the pipe on the hole's wall (0.3: PRCI L51730 and ASTM F1962, from memory)" },
	{ "pull", "friction_hole_low", SETTING_NUMBER, JOB(friction_hole_low), NULL, 0, 0, 2, "0.2", "",
		"the lowest to be expected, for the sensitivity (0.2 is common practice, no source)" },
	{ "pull", "friction_hole_high", SETTING_NUMBER, JOB(friction_hole_high), NULL, 0, 0, 2, "0.4", "",
		"the highest, likewise (0.4 is common practice, no source)" },
	{ "pull", "friction_rollers", SETTING_NUMBER, JOB(friction_rollers), NULL, 0, 0, 2, "0.1", "",
		"friction of the string that lies outside: 0.1 on rollers, 0.4 on the ground (PPI handbook, from memory)" },
	{ "pull", "friction_rollers_low", SETTING_NUMBER, JOB(friction_rollers_low), NULL, 0, 0, 2, NULL, "",
		"the lowest to be expected; left out: half of friction_rollers (no source)" },
	{ "pull", "friction_rollers_high", SETTING_NUMBER, JOB(friction_rollers_high), NULL, 0, 0, 2, NULL,
		"", "the highest; left out: one and a half times it (no source)" },
	{ "pull", "fluid_drag", SETTING_NUMBER, JOB(fluid_drag), NULL, 0, 0, 1e4, NULL, "kPa or psi",
		"drag of the fluid on the pipe's surface; of steel; left out: 0.345 kPa or 0.05 psi (PRCI L51730, from memory)" },
	{ "pull", "fluid_drag_low", SETTING_NUMBER, JOB(fluid_drag_low), NULL, 0, 0, 1e4, NULL, "kPa or psi",
		"the lowest to be expected; left out: half of fluid_drag (0.025 psi has been proposed; no source)" },
	{ "pull", "fluid_drag_high", SETTING_NUMBER, JOB(fluid_drag_high), NULL, 0, 0, 1e4, NULL,
		"kPa or psi", "the highest; left out: twice fluid_drag (no source)" },
	{ "pull", "hydrokinetic", SETTING_NUMBER, JOB(hydrokinetic), NULL, 0, 0, 1e5, NULL, "kPa or psi",
		"pressure by which the pipe drives the fluid out of the hole; of polyethylene; left out: 70 kPa or 10 psi (ASTM F1962, from memory)" },
	{ "pull", "hydrokinetic_low", SETTING_NUMBER, JOB(hydrokinetic_low), NULL, 0, 0, 1e5, NULL,
		"kPa or psi",
		"the lowest to be expected; left out: 0.4 of hydrokinetic (4 psi: PPI handbook, from memory)" },
	{ "pull", "hydrokinetic_high", SETTING_NUMBER, JOB(hydrokinetic_high), NULL, 0, 0, 1e5, NULL,
		"kPa or psi", "the highest; left out: twice hydrokinetic (no source)" },
	{ "pull", "fluid_low", SETTING_NUMBER, JOB(pull_fluid_low), NULL, 0, 0.1, 10000, NULL,
		"kg/m3 or lb/gal",
		"the lightest fluid to be expected in the hole; left out: 0.9 of its weight, not under water's (no source)" },
	{ "pull", "fluid_high", SETTING_NUMBER, JOB(pull_fluid_high), NULL, 0, 0.1, 10000, NULL,
		"kg/m3 or lb/gal",
		"the heaviest, with cuttings in it; left out: 1.2 of its weight (no source)" },
	{ "pull", "fluid_level", SETTING_NUMBER, JOB(pull_fluid_level), NULL, 0, -BIG, BIG, NULL, "length",
		"elevation to which the fluid stands in the hole; left out: the lower of entry and exit" },
	{ "pull", "contents", SETTING_CHOICE, JOB(pull_contents), "empty|water", 0, 0, 0, "empty", "",
		"what is in the pipe while it is pulled" },
	{ "pull", "water_to", SETTING_NUMBER, JOB(pull_water_to), NULL, 0, -BIG, BIG, NULL, "length",
		"elevation to which the water stands in the pipe; left out: it is full wherever it is in the hole" },
	{ "pull", "string_length", SETTING_NUMBER, JOB(pull_string_length), NULL, 0, 0.1, BIG, NULL, "length",
		"length of the whole string; left out: that of the bore" },
	{ "pull", "safe_force", SETTING_NUMBER, JOB(safe_force), NULL, 0, 0.001, 1e8, NULL, "kN or lbf",
		"force that the pull must not pass: the contract's or the engineer's; left out: none is set" },
	{ "pull", "watch", SETTING_NUMBER, JOB(pull_watch), NULL, 0, 0.01, 1, "0.9", "",
		"share of what the product pipe may bear, and of safe_force, from which the estimate is a watch (common practice, no source)" },
	{ "pull", "extra", SETTING_NUMBER, JOB(pull_extra), NULL, 0, 0, BIG, NULL, "length",
		"pipe to be pulled out past the entry and looked at; left out: a hundredth of the bore, 5 ft at least (common practice, of a handbook chapter on what follows the pull)" },
};
const size_t sb_setting_count = sizeof sb_settings / sizeof *sb_settings;

const struct setting *sb_setting(const char *section, const char *key)
{
	for (size_t i = 0; i < sb_setting_count; i++)
		if (sb_same(sb_settings[i].section, section) && sb_same(sb_settings[i].key, key))
			return &sb_settings[i];
	return NULL;
}

bool sb_setting_changeable(const struct setting *s)
{
	return (sb_same(s->section, "azimuth") && !sb_same(s->key, "scale_factor")) ||
		sb_same(s->section, "tool") || sb_same(s->section, "steering");
}

void sb_setting_init(struct job *job)
{
	memset(job, 0, sizeof *job);
	for (size_t i = 0; i < sb_setting_count; i++)
		if (sb_settings[i].preset &&
			sb_setting_put(&sb_settings[i], job, sb_settings[i].preset, NULL))
			assert(!"a preset that its own setting refuses");
}

/* Limits at BIG only say that the number must be one; they are not worth reading out. */
static int check_range(
	double value, double low, double high, const char *text, const char *unit, struct sb_err *err)
{
	const char *before = *unit ? " (" : "", *after = *unit ? ")" : "";

	if (value >= low && value <= high)
		return 0;
	if (high < BIG)
		return sb_fail(err, SB_RANGE, "%.40s cannot be: between %.10g and %.10g is right%s%s%s.",
			text, low, high, before, unit, after);
	if (value < low && low > -BIG)
		return sb_fail(err, SB_RANGE, "%.40s cannot be: %.10g or more is right%s%s%s.", text, low,
			before, unit, after);
	return sb_fail(
		err, SB_RANGE, "%.40s cannot be: it is too far from 0%s%s%s.", text, before, unit, after);
}

/* "1,200" is 1.2 with a decimal comma and twelve hundred with one between thousands. A limit that is a
 * thousandth of what the contract says would never warn, so nobody guesses. */
static int check_thousands(const char *text, struct sb_err *err)
{
	const char *start = text + strspn(text, " \t+-"), *comma = strchr(start, ',');
	size_t before = comma ? (size_t)(comma - start) : 0;

	if (before < 1 || before > 3 || *start == '0' || strspn(start, "0123456789") != before ||
		strspn(comma + 1, "0123456789") != 3)
		return 0;
	return sb_fail(err, SB_FORMAT,
		"'%.40s' may be a decimal comma or a thousand. Write it with a decimal point, or without the comma.",
		text + strspn(text, " \t"));
}

static int put_number(
	const struct setting *s, struct number *to, const char *text, const char *unit, struct sb_err *err)
{
	struct number n;

	if (check_thousands(text, err) || sb_number_parse(text, &n, err) ||
		check_range(n.value, s->low, s->high, n.text, unit, err))
		return -1;
	*to = n;
	return 0;
}

static int put_choice(const struct setting *s, int *to, const char *text, struct sb_err *err)
{
	const char *from = s->choices;

	for (int i = 0;; i++) {
		size_t length = strcspn(from, "|");
		if (strlen(text) == length && strncmp(text, from, length) == 0) {
			*to = i;
			return 0;
		}
		if (from[length] == '\0')
			break;
		from += length + 1;
	}
	return sb_fail(err, SB_FORMAT, "'%.40s' is not one of %s.", text, s->choices);
}

/* "E, N, elevation": a comma or a semicolon between, so a decimal comma cannot be told apart and is refused.
 */
static int put_place(const struct setting *s, struct place *to, const char *text, struct sb_err *err)
{
	struct place p;
	struct number *const parts[] = { &p.easting, &p.northing, &p.elevation };
	char copy[160];

	if (!sb_copy(copy, sizeof copy, text))
		return sb_fail(err, SB_FORMAT, "this is too long: write easting, northing, elevation.");
	char *from = copy;
	const char *between = strchr(copy, ';') ? ";" : ",";
	for (int i = 0; i < 3; i++) {
		char *part = strsep(&from, between);
		if (part == NULL)
			return sb_fail(err, SB_FORMAT,
				"'%.60s' has %d of 3 numbers: write easting, northing, elevation, like 2500.00, 41200.00, 12.5.",
				text, i);
		if (put_number(s, parts[i], part, "", err))
			return sb_fail_within(err, "number %d of 3: ", i + 1);
	}
	if (from != NULL)
		return sb_fail(err, SB_FORMAT,
			"'%.60s' has more than 3 numbers: write easting, northing, elevation with decimal points.",
			text);
	*to = p;
	return 0;
}

/* Kept in the one way of writing them, so that two sheets that mean the same say the same. */
static int put_axes(char *to, size_t size, const char *text, struct sb_err *err)
{
	struct sensor_axes axes;
	char plain[AXES_TEXT];

	enum axes_status status = sb_axes_parse(text, &axes);
	if (status != AXES_OK)
		return sb_fail(err, SB_FORMAT, "'%.40s' %s.", text, sb_axes_fault(status));
	sb_axes_text(&axes, plain);
	sb_copy(to, size, plain);
	return 0;
}

int sb_setting_put(const struct setting *s, struct job *job, const char *text, struct sb_err *err)
{
	char *to = (char *)job + s->offset;

	switch (s->type) {
	case SETTING_AXES:
		return put_axes(to, s->size, text, err);
	case SETTING_TEXT:
		if (*text == '\0')
			return sb_fail(err, SB_FORMAT, "nothing is written here. It should say %s.", s->help);
		if (!sb_utf8_valid(text, strlen(text)))
			return sb_fail(err, SB_FORMAT, "this is not UTF-8 text.");
		if (strlen(text) >= s->size)
			return sb_fail(err, SB_RANGE, "this is too long: %zu characters fit.", s->size - 1);
		sb_copy(to, s->size, text);
		sb_utf8_tame(to);
		return 0;
	case SETTING_NUMBER:
		return put_number(s, (struct number *)(void *)to, text, s->unit, err);
	case SETTING_PLACE:
		return put_place(s, (struct place *)(void *)to, text, err);
	case SETTING_CHOICE:
		break;
	}
	return put_choice(s, (int *)(void *)to, text, err);
}

static bool get_choice(const struct setting *s, int value, char *text, size_t size)
{
	const char *from = s->choices;

	for (int i = 0; i < value; i++)
		from += strcspn(from, "|") + 1;
	snprintf(text, size, "%.*s", (int)strcspn(from, "|"), from);
	return true;
}

bool sb_setting_get(const struct setting *s, const struct job *job, char *text, size_t size)
{
	const char *from = (const char *)job + s->offset;

	switch (s->type) {
	case SETTING_AXES:
	case SETTING_TEXT:
		sb_copy(text, size, from);
		return *from != '\0';
	case SETTING_NUMBER:
		sb_copy(text, size, ((const struct number *)(const void *)from)->text);
		return *text != '\0';
	case SETTING_PLACE: {
		const struct place *p = (const struct place *)(const void *)from;
		snprintf(text, size, "%s, %s, %s", p->easting.text, p->northing.text, p->elevation.text);
		return sb_number_given(&p->easting);
	}
	case SETTING_CHOICE:
		break;
	}
	return get_choice(s, *(const int *)(const void *)from, text, size);
}

/* ---- tables ---- */

#define NUM(type, member, required, low, high, unit, help) \
	{ \
#member, COLUMN_NUMBER, offsetof(struct type, member), 0, required, low, high, unit, help, \
			NULL \
	}
#define TXT(type, member, required, help) \
	{ \
#member, COLUMN_TEXT, offsetof(struct type, member), SB_NAME_TEXT, required, 0, 0, "", help, \
			NULL \
	}

static const struct sheet_column profile_columns[] = {
	NUM(profile_pi, station, 1, -BIG, BIG, "length", "horizontal distance from the entry"),
	NUM(profile_pi, elevation, 1, -BIG, BIG, "length", "elevation of the point of intersection"),
	NUM(profile_pi, radius, 0, 0, BIG, "length", "of the vertical curve; 0 or blank at the two ends"),
};
static const struct sheet_column alignment_columns[] = {
	NUM(alignment_pi, easting, 1, -BIG, BIG, "length", "easting of the point of intersection"),
	NUM(alignment_pi, northing, 1, -BIG, BIG, "length", "its northing"),
	NUM(alignment_pi, radius, 0, 0, BIG, "length",
		"of the horizontal curve, in the ground; 0 or blank at the two ends"),
};
static const struct sheet_column corridor_columns[] = {
	NUM(corridor_range, from, 1, -BIG, BIG, "length", "station where the range begins"),
	NUM(corridor_range, to, 1, -BIG, BIG, "length", "station where it ends"),
	NUM(corridor_range, up, 0, 0, BIG, "length", "limit above; blank: as in [corridor]"),
	NUM(corridor_range, down, 0, 0, BIG, "length", "limit below; blank: as in [corridor]"),
	NUM(corridor_range, left, 0, 0, BIG, "length", "limit to the left; blank: as in [corridor]"),
	NUM(corridor_range, right, 0, 0, BIG, "length", "limit to the right; blank: as in [corridor]"),
	NUM(corridor_range, cover, 0, 0, BIG, "length", "least cover over the hole; blank: as in [cover]"),
};
static const struct sheet_column ground_columns[] = {
	NUM(ground_point, station, 1, -BIG, BIG, "length", "horizontal distance from the entry"),
	NUM(ground_point, elevation, 1, -BIG, BIG, "length", "original ground, or river bed"),
};
static const struct sheet_column obstacle_columns[] = {
	TXT(obstacle_point, name, 1, "two or more rows of one name make a line"),
	TXT(obstacle_point, kind, 0, "what it is: gas main, cable, pile"),
	NUM(obstacle_point, easting, 1, -BIG, BIG, "length", "easting"),
	NUM(obstacle_point, northing, 1, -BIG, BIG, "length", "northing"),
	NUM(obstacle_point, elevation, 1, -BIG, BIG, "length", "elevation of its centre"),
	NUM(obstacle_point, diameter, 0, 0, 1e6, "length", "diameter"),
	NUM(obstacle_point, clearance, 0, 0, 1e6, "length", "distance to keep from it, wall to wall"),
};
static const struct sheet_column tally_columns[] = {
	{ "joint", COLUMN_WHOLE, offsetof(struct tally_joint, joint), 0, 1, 1, 100000, "", "number, from 1",
		NULL },
	NUM(tally_joint, length, 1, 0.01, 1000, "length", "measured, shoulder to shoulder"),
};
static const struct sheet_column soil_columns[] = {
	NUM(soil_layer, from, 1, -BIG, BIG, "length", "station where the layer begins"),
	NUM(soil_layer, to, 1, -BIG, BIG, "length", "station where it ends"),
	NUM(soil_layer, top, 1, -BIG, BIG, "length", "elevation of its top"),
	TXT(soil_layer, name, 1, "what it is"),
	NUM(soil_layer, unit_weight, 0, 0, 1e6, "kN/m3 or lb/ft3", "total unit weight"),
	NUM(soil_layer, cohesion, 0, 0, 1e6, "kPa or psi", "cohesion"),
	NUM(soil_layer, friction, 0, 0, 60, "degrees", "angle of internal friction"),
	NUM(soil_layer, shear_modulus, 0, 0, 1e9, "kPa or psi", "shear modulus"),
	NUM(soil_layer, ground_water, 0, -BIG, BIG, "length", "elevation of the ground water"),
};

static const struct sheet_column checklist_columns[] = {
	TXT(checklist_point, point, 1, "what has to be done or handed over before the pilot is accepted"),
};

#define TABLE(name, columns, type, array, count, room, required, help) \
	{ \
		name, columns, sizeof(columns) / sizeof((columns)[0]), sizeof(struct type), \
			offsetof(struct type, line), required, help, offsetof(struct job, array), \
			offsetof(struct job, count), offsetof(struct job, room) \
	}

const struct sheet_table sb_sheet_tables[] = {
	TABLE("alignment", alignment_columns, alignment_pi, alignment, alignment_count, alignment_room, 0,
		"horizontal points of intersection; left out: straight from entry to exit"),
	TABLE("profile", profile_columns, profile_pi, profile, profile_count, profile_room, 1,
		"vertical points of intersection"),
	TABLE("corridor", corridor_columns, corridor_range, ranges, range_count, range_room, 0,
		"limits by station that override [corridor]"),
	TABLE("ground", ground_columns, ground_point, ground, ground_count, ground_room, 0,
		"original ground and river bed"),
	TABLE("obstacles", obstacle_columns, obstacle_point, obstacles, obstacle_count, obstacle_room, 0,
		"what the bore must keep clear of"),
	TABLE("tally", tally_columns, tally_joint, tally, tally_count, tally_room, 0,
		"measured joints of drill pipe"),
	TABLE("soil", soil_columns, soil_layer, soil, soil_count, soil_room, 0,
		"layers of ground along the bore"),
	TABLE("checklist", checklist_columns, checklist_point, checklist, checklist_count, checklist_room, 0,
		"points of the contract that are ticked off before the pilot is accepted"),
};
const size_t sb_sheet_table_count = sizeof sb_sheet_tables / sizeof *sb_sheet_tables;

const struct sheet_table *sb_sheet_table(const char *name)
{
	for (size_t i = 0; i < sb_sheet_table_count; i++)
		if (sb_same(sb_sheet_tables[i].name, name))
			return &sb_sheet_tables[i];
	return NULL;
}

void *sb_sheet_row_new(const struct sheet_table *t, struct job *job)
{
	char **rows = (char **)(void *)((char *)job + t->rows_offset);
	size_t *count = (size_t *)(void *)((char *)job + t->count_offset);
	size_t *room = (size_t *)(void *)((char *)job + t->room_offset);

	*rows = sb_grow(*rows, *count, room, t->row_size);
	char *row = *rows + *count * t->row_size;
	memset(row, 0, t->row_size);
	(*count)++;
	return row;
}

size_t sb_sheet_rows(const struct sheet_table *t, const struct job *job)
{
	return *(const size_t *)(const void *)((const char *)job + t->count_offset);
}

const void *sb_sheet_row(const struct sheet_table *t, const struct job *job, size_t i)
{
	char *const *rows = (char *const *)(const void *)((const char *)job + t->rows_offset);

	return *rows + i * t->row_size;
}

static int put_whole(const struct sheet_column *c, int *to, const char *text, struct sb_err *err)
{
	struct number n;

	if (sb_number_parse(text, &n, err) || check_range(n.value, c->low, c->high, n.text, c->unit, err))
		return -1;
	if (n.value != floor(n.value))
		return sb_fail(err, SB_FORMAT, "%.40s is not a whole number.", text);
	*to = (int)n.value;
	return 0;
}

static int put_word(const struct sheet_column *c, int *to, const char *text, struct sb_err *err)
{
	char words[120];
	size_t at = 0;

	for (int i = 0; c->words[i]; i++) {
		if (sb_same(text, c->words[i])) {
			*to = i;
			return 0;
		}
		at += (size_t)snprintf(words + at, sizeof words - at, "%s%s", i ? ", " : "", c->words[i]);
	}
	return sb_fail(err, SB_FORMAT, "'%.40s' is not one of %s.", text, words);
}

int sb_sheet_cell_put(const struct sheet_column *c, void *row, const char *text, struct sb_err *err)
{
	char *to = (char *)row + c->offset;
	struct number n;

	if (text[strspn(text, " \t")] == '\0') {
		if (c->required)
			return sb_fail(
				err, SB_FORMAT, "nothing is written here. It should say: %s.", c->help);
		return 0;
	}
	switch (c->type) {
	case COLUMN_NUMBER:
		if (sb_number_parse(text, &n, err) ||
			check_range(n.value, c->low, c->high, n.text, c->unit, err))
			return -1;
		*(struct number *)(void *)to = n;
		return 0;
	case COLUMN_WHOLE:
		return put_whole(c, (int *)(void *)to, text, err);
	case COLUMN_CHOICE:
		return put_word(c, (int *)(void *)to, text, err);
	case COLUMN_CLOCK:
		return sb_time_clock(text, to, err);
	case COLUMN_TEXT:
		break;
	}
	if (strlen(text) >= c->size || !sb_utf8_valid(text, strlen(text)))
		return sb_fail(
			err, SB_FORMAT, "this should be UTF-8 text of at most %zu characters.", c->size - 1);
	sb_copy(to, c->size, text);
	sb_utf8_tame(to);
	return 0;
}

const char *sb_sheet_cell_get(const struct sheet_column *c, const void *row, char buffer[SB_NUMBER_TEXT])
{
	const char *from = (const char *)row + c->offset;

	switch (c->type) {
	case COLUMN_NUMBER:
		return ((const struct number *)(const void *)from)->text;
	case COLUMN_WHOLE:
		snprintf(buffer, SB_NUMBER_TEXT, "%d", *(const int *)(const void *)from);
		return buffer;
	case COLUMN_CHOICE:
		return c->words[*(const int *)(const void *)from];
	case COLUMN_CLOCK:
	case COLUMN_TEXT:
		break;
	}
	return from;
}

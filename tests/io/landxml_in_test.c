/* Designs out of LandXML: what comes back, what is named, what is refused. */
#include "io/given.h"

#include "../geom/random.h"
#include "landxml_write.h"
#include "scratch.h"
#include "support/jobs.h"

#include <sys/resource.h>

#define METRIC "<Units><Metric linearUnit=\"meter\" areaUnit=\"squareMeter\"/></Units>\n"
#define FOOT "<Units><Imperial linearUnit=\"foot\"/></Units>\n"
#define SURVEY_FOOT "<Units><Imperial linearUnit=\"USSurveyFoot\"/></Units>\n"

/* Down, level, up, with a bend in plan; metres. */
static const struct chain_pi plan[] = { { 5000000, 300000, 0 }, { 5000160, 300120, 500 },
	{ 5000260, 300280, 0 } };
static const struct chain_pi profile[] = { { 0, 20, 0 }, { 80, 6, 400 }, { 300, 6, 400 }, { 386.72, 20, 0 } };

static struct landxml_file good(void)
{
	return (struct landxml_file){ .version = "1.2",
		.units = METRIC,
		.crs = "",
		.before = "",
		.within = "",
		.plan = plan,
		.plan_count = 3,
		.profile = profile,
		.profile_count = 4 };
}

static const char *write_file(const struct landxml_file *f)
{
	struct sb_str text = { 0 };

	landxml_write(f, &text);
	const char *path = scratch_bytes("design.xml", text.text, text.length);
	sb_str_clear(&text);
	return path;
}

static void say_all(const struct sb_problems *p)
{
	for (size_t i = 0; i < p->count; i++)
		print_error("%s %d %s: %s\n", p->list[i].file, p->list[i].line, p->list[i].column,
			p->list[i].text);
}

static void read_good(const char *path, const struct given_choice *choice, struct given *d)
{
	struct sb_problems problems = { 0 };

	*d = (struct given){ 0 };
	if (sb_given_read(path, choice, d, &problems) || problems.count) {
		say_all(&problems);
		fail();
	}
}

/* The file is refused, and among its problems is one with these words at that line (0: any). */
static void assert_refused_with(
	const char *path, const struct given_choice *choice, int line, const char *words)
{
	struct sb_problems problems = { 0 };
	struct given d = { 0 };
	bool found = false;

	assert_int_equal(sb_given_read(path, choice, &d, &problems), -1);
	assert_true(problems.errors > 0);
	for (size_t i = 0; i < problems.count; i++)
		found |= strstr(problems.list[i].text, words) && (line == 0 || problems.list[i].line == line);
	if (!found) {
		say_all(&problems);
		fail_msg("no problem says '%s' at line %d", words, line);
	}
	assert_int_equal(d.alignment.count + d.profile.count, 0);
	sb_problems_clear(&problems);
	sb_given_clear(&d);
}

static const struct given_choice plainly = { 0 };

static void assert_same_line(
	const struct given_line *l, const struct chain_pi *pis, size_t count, double within)
{
	assert_int_equal(l->count, count);
	for (size_t i = 0; i < count; i++) {
		assert_near(l->pis[i].x, pis[i].x, within);
		assert_near(l->pis[i].y, pis[i].y, within);
		assert_near(l->pis[i].radius, pis[i].radius, within);
	}
}

static void points_of_intersection_come_back_from_every_version(void **state)
{
	static const char *const versions[] = { "1.0", "1.1", "1.2" };
	struct landxml_file f = good();
	struct given d;

	(void)state;
	f.start = 1000;
	for (size_t i = 0; i < 3; i++) {
		f.version = versions[i];
		read_good(write_file(&f), &plainly, &d);
		assert_same_line(&d.alignment, plan, 3, 2e-5); /* the file has six decimals */
		assert_same_line(&d.profile, profile, 4, 1e-6);
		assert_near(d.start, 1000, 0);
		assert_int_equal(d.unit_said, GIVEN_UNIT_SAID);
		assert_int_equal(d.unit, UNIT_M);
		assert_string_equal(d.alignment_name, "bore");
		assert_string_equal(d.profile_name, "design");
		sb_given_clear(&d);
	}
}

/* Army FM 5-233 (now TM 3-34.55) ch. 3, from memory: PI 18+00, I 45 degrees, D 15 degrees by arc: R 381.97, T
 * 158.22, L 300.00 ft. Laid out here from the printed T alone: PC a tangent before the PI, PT a tangent
 * behind it at 45 degrees, so that radius and point of intersection have to follow. */
static void an_army_curve_by_its_ends_gives_its_point_of_intersection(void **state)
{
	double t = 158.22, c = t * sqrt(0.5);
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	sb_str_add(&text,
		"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\">" FOOT
		"<Alignments><Alignment name=\"army\"><CoordGeom>\n"
		"<Line><Start>0 0</Start><End>%.4f 0</End></Line>\n"
		"<Curve rot=\"cw\" radius=\"381.97\" length=\"300.00\"><Start>%.4f 0</Start><End>%.4f %.4f</End></Curve>\n"
		"<Line><Start>%.4f %.4f</Start><End>%.4f %.4f</End></Line>\n"
		"</CoordGeom></Alignment></Alignments></LandXML>",
		1800 - t, 1800 - t, 1800 + c, c, 1800 + c, c, 1800 + 2 * c, 2 * c);
	read_good(scratch_text("army.xml", text.text), &plainly, &d);
	assert_int_equal(d.alignment.count, 3);
	assert_near(d.alignment.pis[1].x, 1800, 0.005);
	assert_near(d.alignment.pis[1].y, 0, 0.005);
	assert_near(d.alignment.pis[1].radius, 381.97, 0);
	sb_given_clear(&d);
	sb_str_clear(&text);
}

/* A homework page prints L 630.266 for R 420 m and 71 39: 525.222 is right. A file with that
 * slip says so, and what is used. */
static void a_length_that_does_not_follow_is_said(void **state)
{
	double turn = sb_rad(71 + 39 / 60.0);
	const struct chain_pi pis[] = { { 0, 0, 0 }, { 500, 0, 420 },
		{ 500 + 500 * cos(turn), 500 * sin(turn), 0 } };
	struct landxml_file f = good();
	struct sb_problems problems = { 0 };
	struct given d = { 0 };
	struct sb_str text = { 0 };

	(void)state;
	f.plan = pis;
	landxml_write(&f, &text);
	char *slip = strstr(text.text, "525.22");
	assert_non_null(slip);
	memcpy(slip, "630.27", 6);
	assert_int_equal(sb_given_read(scratch_text("slip.xml", text.text), &plainly, &d, &problems), 0);
	assert_int_equal(problems.count, 1);
	assert_non_null(strstr(problems.list[0].text, "the file says 630.27"));
	assert_non_null(strstr(problems.list[0].text, "525.222"));
	sb_problems_clear(&problems);
	sb_given_clear(&d);
	sb_str_clear(&text);
}

static const char *with_heights(const char *heights)
{
	struct sb_str text = { 0 };

	sb_str_add(&text,
		"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\">" METRIC
		"<Alignments><Alignment name=\"a\"><Profile name=\"p\"><ProfAlign name=\"p\">\n%s"
		"</ProfAlign></Profile></Alignment></Alignments></LandXML>",
		heights);
	const char *path = scratch_text("heights.xml", text.text);
	sb_str_clear(&text);
	return path;
}

/* A crest curve (worked example, seen): 3 and -4 percent, PVI 345+60 (34560 m) at 250 m, L 2170 m.
 * The arc of equal tangents is derived: turn atan 0.03 + atan 0.04, tangent 1085 m along the flatter grade,
 * and R = T / tan(turn / 2); its middle lies R (1 / cos(turn / 2) - 1) from the PVI, the parabola's 0.07 *
 * 2170 / 8 = 18.9875 m. */
static void a_parabola_is_refused_unless_its_arc_is_asked_for(void **state)
{
	static const char crest[] =
		"<PVI>33000 203.2</PVI>\n<ParaCurve length=\"2170\">34560 250</ParaCurve>\n<PVI>36000 192.4</PVI>\n";
	const struct given_choice arcs = { .arcs = true };
	double half = (atan(0.03) + atan(0.04)) / 2, radius = 1085 * hypot(1, 0.03) / tan(half);
	struct given d;

	(void)state;
	assert_refused_with(with_heights(crest), &plainly, 4, "a parabola, 2170.000 long");
	assert_refused_with(with_heights(crest), &plainly, 4, "--parabolas-as-arcs");
	read_good(with_heights(crest), &arcs, &d);
	assert_near(d.profile.pis[1].radius, radius, 1e-6);
	assert_near(radius * (1 / cos(half) - 1), 18.9875, 0.01);
	assert_non_null(strstr(d.notes.text, "taken for an arc of radius 31"));
	sb_given_clear(&d);
	assert_refused_with(
		with_heights(
			"<PVI>0 0</PVI>\n<UnsymParaCurve lengthIn=\"10\" lengthOut=\"20\">50 1</UnsymParaCurve>\n<PVI>90 0</PVI>\n"),
		&arcs, 4, "two lengths");
}

static void what_is_not_understood_in_the_geometry_is_named_with_its_line(void **state)
{
	static const struct {
		const char *element, *words;
	} strange[] = {
		{ "<Spiral length=\"10\"><Start>1 2</Start></Spiral>\n", "a spiral" },
		{ "<IrregularLine/>\n", "not understood in the geometry" },
		{ "<Chain>1 2 3</Chain>\n", "not understood in the geometry" },
		{ "<x:Line xmlns:x=\"urn:other\"/>\n", "not understood in the geometry" },
		{ "<Line><Start pntRef=\"7\"/><End>1 2</End></Line>\n", "no point called '7'" },
		{ "<Line><Start>1 2</Start></Line>\n", "has no end point" },
		{ "<Line><Start>1</Start><End>1 2</End></Line>\n", "'1' is not a point" },
		{ "<Line><Start>1,5 2,5</Start><End>1 2</End></Line>\n", "is not a point" },
		{ "<Line><Start>NaN 1</Start><End>1 2</End></Line>\n", "is not a point" },
		{ "<Line><Start>INF 1</Start><End>1 2</End></Line>\n", "is not a point" },
		{ "<Line><Start>1e400 1</Start><End>1 2</End></Line>\n", "is not a point" },
		{ "<Line><Start>0x10 1</Start><End>1 2</End></Line>\n", "is not a point" },
		{ "<Line><Start>1 2 3 4</Start><End>1 2</End></Line>\n", "is not a point" },
		{ "<Line><Start>1 2</Start><End>3 4</End></Line>\n", "from where the one before it ends" },
		{ "<Curve radius=\"10\"><Start>1 2</Start><End>3 4</End></Curve>\n",
			"turns right (cw) or left (ccw)" },
		{ "<Curve rot=\"cw\"><Start>1 2</Start><End>3 4</End></Curve>\n",
			"neither a centre nor a radius" },
		{ "<Curve rot=\"cw\" radius=\"wide\"><Start>1 2</Start><End>3 4</End></Curve>\n",
			"'wide' is not a length" },
		{ "<Curve rot=\"cw\" radius=\"1\"><Start>1 2</Start><End>3 40</End></Curve>\n",
			"does not reach" },
		{ "<Curve rot=\"cw\" radius=\"9\"><Start>1 2</Start><Center>5 5</Center><End>3 4</End></Curve>\n",
			"from its centre" },
		{ "<Curve rot=\"cw\" radius=\"9\"><Start>1 2</Start><Twist/><End>3 4</End></Curve>\n",
			"within a line or curve" },
	};
	struct landxml_file f = good();

	(void)state;
	for (size_t i = 0; i < sizeof strange / sizeof *strange; i++) {
		f.within = strange[i].element;
		/* After the header's 8 lines, and a tangent, a curve and a tangent. */
		assert_refused_with(write_file(&f), &plainly, 12, strange[i].words);
	}
}

static void what_is_elsewhere_and_not_needed_is_noted(void **state)
{
	struct landxml_file f = good();
	struct given d;

	(void)state;
	f.before = "<Feature><Property label=\"a\" value=\"b\"/></Feature>\n";
	f.crs = "<Surfaces><Surface name=\"s\"><Definition><Pnts><P id=\"1\">1 2 3</P></Pnts></Definition></Surface></Surfaces>\n";
	f.within = "<Feature name=\"of another program\"><Spiral/></Feature>\n";
	read_good(write_file(&f), &plainly, &d);
	assert_same_line(&d.alignment, plan, 3, 2e-5);
	assert_non_null(strstr(d.notes.text, "Not read: Surfaces (line 4)."));
	assert_non_null(strstr(d.notes.text, "Not read: Feature"));
	sb_given_clear(&d);
}

/* Points by name: before the geometry or behind it, in groups, coordinates beside a name before the name. */
static void points_that_are_only_named_are_found_in_the_file(void **state)
{
	static const char file[] =
		"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\">\n"
		"<CgPoints><CgPoint name=\"1\">0 0</CgPoint><CgPoint name=\"9\">nowhere</CgPoint></CgPoints>\n"
		"<Alignments><Alignment name=\"a\"><CoordGeom>\n"
		"<Line><Start pntRef=\"1\"/><End pntRef=\"2\"/></Line>\n"
		"<Line><Start pntRef=\"2\"></Start><End pntRef=\"%s\">%s</End></Line>\n"
		"</CoordGeom></Alignment></Alignments>\n"
		"<CgPoints><CgPoints name=\"more\"><CgPoint name=\"2\"> 100.0\n 0 7</CgPoint>"
		"<CgPoint name=\"3\">200 50</CgPoint><CgPoint name=\"4\">1 1</CgPoint><CgPoint name=\"4\">1 2</CgPoint>"
		"</CgPoints></CgPoints></LandXML>";
	static const struct chain_pi want[] = { { 0, 0, 0 }, { 100, 0, 0 }, { 200, 50, 0 } };
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	for (int i = 0; i < 2; i++) {
		text.length = 0;
		sb_str_add(&text, file, i ? "9" : "3", i ? "200 50" : "");
		read_good(scratch_text("named.xml", text.text), &plainly, &d);
		assert_same_line(&d.alignment, want, 3, 0);
		sb_given_clear(&d);
	}
	text.length = 0;
	sb_str_add(&text, file, "5", "");
	assert_refused_with(scratch_text("named.xml", text.text), &plainly, 5, "no point called '5'");
	text.length = 0;
	sb_str_add(&text, file, "4", "");
	assert_refused_with(
		scratch_text("named.xml", text.text), &plainly, 5, "more than one point called '4'");
	text.length = 0;
	sb_str_add(&text, file, "9", "");
	assert_refused_with(scratch_text("named.xml", text.text), &plainly, 5, "no coordinates of it");
	sb_str_clear(&text);
}

/* Vertical curves: the radius has a sign in some files, and the length is along the curve or level. R 400
 * from -17.5 percent to level: 69.30 along, 68.95 level. */
static void vertical_curves_are_read_as_files_have_them(void **state)
{
	struct given d;

	(void)state;
	read_good(
		with_heights(
			"<PVI>0 20</PVI>\n<CircCurve length=\"69.299\" radius=\"400\">80 6</CircCurve>\n<PVI>300 6</PVI>\n"),
		&plainly, &d);
	assert_near(d.profile.pis[1].radius, 400, 0);
	sb_given_clear(&d);
	read_good(
		with_heights(
			"<PVI>0 20</PVI>\n<CircCurve length=\"68.952\" radius=\"-400\">80 6</CircCurve>\n<PVI>300 6</PVI>\n"),
		&plainly, &d);
	assert_near(d.profile.pis[1].radius, 400, 0);
	sb_given_clear(&d);
}

/* A curve that does not meet its tangents square to its radius: the file's parts are there, the line is not.
 */
static void parts_that_make_no_line_are_refused(void **state)
{
	(void)state;
	assert_refused_with(
		scratch_text("kink.xml",
			"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Alignments><Alignment name=\"a\"><CoordGeom>\n"
			"<Line><Start>0 0</Start><End>100 0</End></Line>\n"
			"<Curve rot=\"cw\" radius=\"300\"><Start>100 0</Start><End>190 40</End></Curve>\n"
			"<Line><Start>190 40</Start><End>300 130</End></Line>\n"
			"</CoordGeom></Alignment></Alignments></LandXML>"),
		&plainly, 0, "does not run on");
	assert_refused_with(
		scratch_text("turn.xml",
			"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Alignments><Alignment name=\"a\"><CoordGeom>\n"
			"<Curve rot=\"ccw\"><Start>0 0</Start><Center>0 100</Center><End>100 100</End></Curve>\n"
			"</CoordGeom></Alignment></Alignments></LandXML>"),
		&plainly, 2, "turns by 270 degrees");
	assert_refused_with(with_heights("<PVI>0 0</PVI>\n<PVI>50 1</PVI>\n<PVI>50 2</PVI>\n"), &plainly, 5,
		"does not lie past");
	assert_refused_with(with_heights("<PVI>0 0</PVI>\n<PVI>50</PVI>\n<PVI>60 2</PVI>\n"), &plainly, 4,
		"'50' is not a station and an elevation");
	assert_refused_with(
		with_heights("<PVI>0 0</PVI>\n<CircCurve length=\"9\">50 1</CircCurve>\n<PVI>60 2</PVI>\n"),
		&plainly, 4, "no radius");
	assert_refused_with(with_heights("<PVI>0 0</PVI>\n"), &plainly, 3, "one point");
	assert_refused_with(with_heights(""), &plainly, 0, "there is no line in it");
}

static void one_alignment_of_several_must_be_chosen(void **state)
{
	const struct given_choice bore = { .alignment = "bore" }, near = { .alignment = "Bore 1" },
				  road = { .alignment = "road" }, other = { .profile = "ground" };
	struct landxml_file f = good();
	struct given d;

	(void)state;
	f.before = "<Alignment name=\"road\"><CoordGeom><Spiral/></CoordGeom></Alignment>\n";
	const char *path = write_file(&f);
	assert_refused_with(
		path, &plainly, 0, "2 alignments: 'road', 'bore'. Say which with --alignment NAME");
	assert_refused_with(path, &near, 0, "'bore' is probably meant");
	assert_refused_with(path, &road, 7, "a spiral");
	assert_refused_with(path, &(struct given_choice){ .alignment = "bore", .profile = "ground" }, 0,
		"no profile is called 'ground'. In the file: 'design'");
	read_good(path, &bore, &d);
	assert_same_line(&d.alignment, plan, 3, 2e-5);
	sb_given_clear(&d);
	f.before = "<Alignment name=\"bore\"/>\n";
	assert_refused_with(write_file(&f), &bore, 0, "2 alignments of that name");
	assert_refused_with(
		with_heights(
			"<PVI>0 0</PVI>\n<PVI>9 0</PVI>\n</ProfAlign><ProfAlign name=\"ground\">\n<ParaCurve>1 2</ParaCurve>\n"),
		&plainly, 0, "2 profiles: 'p', 'ground'. Say which with --profile NAME");
	assert_refused_with(
		with_heights(
			"<PVI>0 0</PVI>\n<PVI>9 0</PVI>\n</ProfAlign><ProfAlign name=\"ground\">\n<ParaCurve>1 2</ParaCurve>\n"),
		&other, 6, "one point");
}

static void other_files_are_named_for_what_they_are(void **state)
{
	struct landxml_file f = good();

	(void)state;
	assert_refused_with(
		scratch_text("a.xml", "<kml/>"), &plainly, 1, "not LandXML: it begins with <kml>");
	assert_refused_with(scratch_text("a.xml", "<LandXML/>"), &plainly, 1, "of the schema ''");
	f.version = "2.0";
	assert_refused_with(write_file(&f), &plainly, 2, "LandXML-2.0'. Versions 1.0, 1.1 and 1.2 are read");
	f.version = "1.2x";
	assert_refused_with(write_file(&f), &plainly, 2, "Versions 1.0");
	f = good();
	f.units = "<Units><Imperial linearUnit=\"inch\"/></Units>\n";
	assert_refused_with(write_file(&f), &plainly, 3, "'inch' is not a unit");
	f = good();
	f.within = "</CoordGeom><StaEquation staAhead=\"1\" staInternal=\"2\"/><CoordGeom>";
	assert_refused_with(write_file(&f), &plainly, 0, "a station equation");
	assert_refused_with(
		scratch_text("a.xml",
			"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Alignments/></LandXML>"),
		&plainly, 0, "no Alignment in the file");
}

static void hostile_files_are_refused_in_words(void **state)
{
	struct landxml_file f = good();
	struct sb_str text = { 0 }, deep = { 0 };

	(void)state;
	landxml_write(&f, &text);
	sb_str_add(&deep,
		"<!DOCTYPE LandXML [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;\">]>%s",
		strstr(text.text, "<LandXML"));
	assert_refused_with(scratch_text("bomb.xml", deep.text), &plainly, 0, "document type");
	deep.length = 0;
	for (int i = 0; i < 10000; i++)
		sb_str_add(&deep, "<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\">");
	assert_refused_with(scratch_text("deep.xml", deep.text), &plainly, 0, "deeper within one another");
	deep.length = 0;
	sb_str_add(&deep,
		"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Alignments><Alignment name=\"a\"><CoordGeom>");
	for (int i = 0; i < 3000; i++)
		sb_str_add(&deep, "<Line><Start>%d nought</Start></Line>", i);
	sb_str_add(&deep, "</CoordGeom></Alignment></Alignments></LandXML>");
	assert_refused_with(scratch_text("many.xml", deep.text), &plainly, 1, "is not a point");
	for (size_t n = 1; n < text.length - 12; n += 7)
		assert_refused_with(scratch_bytes("cut.xml", text.text, n), &plainly, 0, "");
	sb_str_clear(&text);
	sb_str_clear(&deep);
}

static long peak_kib(void)
{
	struct rusage used;

	getrusage(RUSAGE_SELF, &used);
	return used.ru_maxrss;
}

/* Seven bytes of a file could cost a hundred of memory, a million times: they do not. */
static void a_million_lines_take_no_memory(void **state)
{
	static const char *const elements[] = { "<Line/>", "<Curve rot=\"cw\"/>", "<Spiral/>",
		"<Line pntRef=\"1\"><Start pntRef=\"a\"/></Line>", "<Start pntRef=\"a\"/>" };

	(void)state;
	for (size_t k = 0; k < 5; k++) {
		struct sb_str text = { 0 };
		sb_str_add(&text,
			"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\"><Alignments><Alignment name=\"a\"><CoordGeom>");
		if (k == 4)
			sb_str_add(&text, "<Line>");
		for (int i = 0; i < 1000000; i++)
			sb_str_append(&text, elements[k], strlen(elements[k]));
		sb_str_add(
			&text, "%s</CoordGeom></Alignment></Alignments></LandXML>", k == 4 ? "</Line>" : "");
		const char *path = scratch_bytes("million.xml", text.text, text.length);
		sb_str_clear(&text);
		long before = peak_kib();
		assert_refused_with(
			path, &plainly, 1, k == 0 || k == 4 ? "more than 5000 lines and curves" : "");
		assert_true(peak_kib() - before < 8192);
	}
}

/* Good files with bytes changed anywhere: a design or problems, never a crash, and never both. */
static void broken_files_never_crash_it(void **state)
{
	struct landxml_file f = good();
	struct sb_str text = { 0 };
	struct random chance = { 1125 };

	(void)state;
	landxml_write(&f, &text);
	char *copy = malloc(text.length);
	assert_non_null(copy);
	for (int i = 0; i < 600; i++) {
		struct sb_problems problems = { 0 };
		struct given d = { 0 };
		struct job job;
		memcpy(copy, text.text, text.length);
		for (int k = 0; k < 1 + i % 4; k++) {
			size_t at = (size_t)(random_unit(&chance) * (double)text.length);
			copy[at] = "0123456789.-<>/\"e \0\xFF"[(int)(random_unit(&chance) * 19)];
		}
		jobs_curved(&job);
		int failed = sb_given_read(scratch_bytes("broken.xml", copy, text.length), &plainly, &d,
				     &problems) ||
			sb_given_place(&d, &plainly, &job, &problems);
		assert_int_equal(failed != 0, problems.errors > 0);
		sb_job_clear(&job);
		sb_problems_clear(&problems);
		sb_given_clear(&d);
	}
	free(copy);
	sb_str_clear(&text);
}

/* ---- into a job ---- */

/* The curved job's own design as a drawing has it: on its map, which is 0.9996 of the ground. */
static struct landxml_file of_curved_job(double unit)
{
	static struct chain_pi map[3], heights[4];
	struct landxml_file f = good();

	for (size_t i = 0; i < 3; i++)
		map[i] = (struct chain_pi){ plan[i].x / unit, plan[i].y / unit,
			plan[i].radius * 0.9996 / unit };
	for (size_t i = 0; i < 4; i++)
		heights[i] = (struct chain_pi){ profile[i].x * 0.9996 / unit, profile[i].y / unit,
			profile[i].radius / unit };
	f.plan = map;
	f.profile = heights;
	return f;
}

static int place(const char *path, const struct given_choice *choice, struct job *job, struct given *d,
	struct sb_problems *problems)
{
	*d = (struct given){ 0 };
	if (sb_given_read(path, choice, d, problems))
		return -1;
	return sb_given_place(d, choice, job, problems);
}

/* Reads and places; the job's tables are then the drawing's, number for number. */
static void assert_design_of_job(const char *path, const struct given_choice *choice)
{
	struct sb_problems problems = { 0 };
	struct job job, want;
	struct given d;

	jobs_curved(&want);
	jobs_curved(&job);
	job.alignment_count = job.profile_count = 0;
	if (place(path, choice, &job, &d, &problems)) {
		say_all(&problems);
		fail();
	}
	assert_int_equal(job.alignment_count, want.alignment_count);
	assert_int_equal(job.profile_count, want.profile_count);
	for (size_t i = 0; i < job.alignment_count; i++) {
		assert_near(job.alignment[i].easting.value, want.alignment[i].easting.value, 1e-4);
		assert_near(job.alignment[i].northing.value, want.alignment[i].northing.value, 1e-4);
		assert_near(job.alignment[i].radius.value, want.alignment[i].radius.value, 1e-3);
	}
	for (size_t i = 0; i < job.profile_count; i++) {
		assert_near(job.profile[i].station.value, want.profile[i].station.value, 1e-4);
		assert_near(job.profile[i].elevation.value, want.profile[i].elevation.value, 1e-4);
		assert_near(job.profile[i].radius.value, want.profile[i].radius.value, 1e-3);
	}
	sb_problems_clear(&problems);
	sb_given_clear(&d);
	sb_job_clear(&job);
	sb_job_clear(&want);
}

static void a_drawing_on_the_map_becomes_the_job_s_design_in_the_ground(void **state)
{
	struct landxml_file f = of_curved_job(1);

	(void)state;
	assert_design_of_job(write_file(&f), &plainly);
	f.start = 2500;
	assert_design_of_job(write_file(&f), &plainly);
}

static void other_units_are_converted_and_the_feet_are_told_apart(void **state)
{
	const struct given_choice as_survey = { .unit_said = GIVEN_UNIT_SAID, .unit = UNIT_FTUS };
	struct landxml_file f = of_curved_job(0.3048);

	(void)state;
	f.units = FOOT;
	assert_design_of_job(write_file(&f), &plainly);
	f = of_curved_job(1200.0 / 3937.0);
	f.units = SURVEY_FOOT;
	assert_design_of_job(write_file(&f), &plainly);
	f.units = FOOT; /* drawn in survey feet, and calls them feet, as drawings do: --unit says better */
	assert_design_of_job(write_file(&f), &as_survey);
}

static void assert_place_says(const char *path, const struct given_choice *choice, const char *words)
{
	struct sb_problems problems = { 0 };
	struct job job;
	struct given d;
	bool found = false;

	jobs_curved(&job);
	assert_int_equal(place(path, choice, &job, &d, &problems), -1);
	for (size_t i = 0; i < problems.count; i++)
		found |= strstr(problems.list[i].text, words) != NULL;
	if (!found) {
		say_all(&problems);
		fail_msg("nothing says '%s'", words);
	}
	sb_problems_clear(&problems);
	sb_given_clear(&d);
	sb_job_clear(&job);
}

static void a_line_that_does_not_lead_from_entry_to_exit_says_what_would(void **state)
{
	const struct given_choice reverse = { .reversed = true };
	struct landxml_file f = of_curved_job(1);
	struct chain_pi turned[4], heights[4];

	(void)state;
	for (size_t i = 0; i < 3; i++)
		turned[i] = (struct chain_pi){ f.plan[i].y, f.plan[i].x, f.plan[i].radius };
	struct landxml_file exchanged = f;
	exchanged.plan = turned;
	assert_place_says(write_file(&exchanged), &plainly, "Northing and easting are exchanged in it");

	struct landxml_file backwards = f;
	double length = 386.6; /* of the map's alignment; the job's own 386.72 in the ground rounds it */
	for (size_t i = 0; i < 3; i++)
		turned[i] = f.plan[2 - i];
	for (size_t i = 0; i < 4; i++)
		heights[i] = (struct chain_pi){ length - f.profile[3 - i].x, f.profile[3 - i].y,
			f.profile[3 - i].radius };
	backwards.plan = turned;
	backwards.profile = heights;
	assert_place_says(write_file(&backwards), &plainly, "say --reverse");
	struct sb_problems problems = { 0 };
	struct job job;
	struct given d;
	jobs_curved(&job);
	assert_int_equal(place(write_file(&backwards), &reverse, &job, &d, &problems), 0);
	assert_near(job.profile[1].elevation.value, 6, 1e-4);
	assert_near(job.profile[1].station.value, 80, 0.2);
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	sb_job_clear(&job);

	f = of_curved_job(1200.0 / 3937.0); /* at 5000 km north the two feet are 10 m apart */
	f.units = FOOT;
	assert_place_says(write_file(&f), &plainly, "say --unit ftUS");
	for (size_t i = 0; i < 3; i++)
		turned[i] = (struct chain_pi){ plan[i].x + 2000, plan[i].y, plan[i].radius };
	f = of_curved_job(1);
	f.plan = turned;
	assert_place_says(write_file(&f), &plainly, "Is it of this crossing");
}

static void the_drawing_s_grid_is_held_against_the_job_s(void **state)
{
	struct landxml_file f = of_curved_job(1);
	struct sb_problems problems = { 0 };
	struct job job;
	struct given d;

	(void)state;
	f.crs = "<CoordinateSystem name=\"UTM 33N\" epsgCode=\"25833\"/>\n";
	jobs_curved(&job);
	jobs_set(&job, "control", "crs", "EPSG:25832");
	assert_int_equal(place(write_file(&f), &plainly, &job, &d, &problems), 0);
	assert_string_equal(d.crs, "EPSG:25833");
	assert_true(problems.count > 0 && problems.list[0].warning);
	assert_non_null(strstr(problems.list[0].text, "EPSG:25833, the job's is EPSG:25832"));
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	jobs_set(&job, "control", "crs", "EPSG:25833");
	assert_int_equal(place(write_file(&f), &plainly, &job, &d, &problems), 0);
	assert_non_null(strstr(d.notes.text, "grid is EPSG:25833, as the job's is"));
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(points_of_intersection_come_back_from_every_version),
		cmocka_unit_test(an_army_curve_by_its_ends_gives_its_point_of_intersection),
		cmocka_unit_test(a_length_that_does_not_follow_is_said),
		cmocka_unit_test(a_parabola_is_refused_unless_its_arc_is_asked_for),
		cmocka_unit_test(what_is_not_understood_in_the_geometry_is_named_with_its_line),
		cmocka_unit_test(what_is_elsewhere_and_not_needed_is_noted),
		cmocka_unit_test(points_that_are_only_named_are_found_in_the_file),
		cmocka_unit_test(vertical_curves_are_read_as_files_have_them),
		cmocka_unit_test(parts_that_make_no_line_are_refused),
		cmocka_unit_test(one_alignment_of_several_must_be_chosen),
		cmocka_unit_test(other_files_are_named_for_what_they_are),
		cmocka_unit_test(hostile_files_are_refused_in_words),
		cmocka_unit_test(a_million_lines_take_no_memory),
		cmocka_unit_test(broken_files_never_crash_it),
		cmocka_unit_test(a_drawing_on_the_map_becomes_the_job_s_design_in_the_ground),
		cmocka_unit_test(other_units_are_converted_and_the_feet_are_told_apart),
		cmocka_unit_test(a_line_that_does_not_lead_from_entry_to_exit_says_what_would),
		cmocka_unit_test(the_drawing_s_grid_is_held_against_the_job_s),
	};

	return run_tests(tests);
}

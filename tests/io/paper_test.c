/* Pages, read by programs that are not ours: poppler's for PDF (pdfinfo, pdffonts, pdftotext, pdftoppm), and
 * libxml2's for SVG (xmllint). */
#include "io/paper.h"

#include "base/time.h"
#include "io/scratch.h"

static struct sb_str bytes;
static const struct paper_note note = { "Crossing <1> & \xc3\xbc", "E. Engineer", "what it is about",
	"sagbend, bore", "sagbend test", 1790000000000 /* 21 September 2026, 14:13:20 UTC */ };
static const struct pen thin = { 0.25, { 0, 0, 0 }, { 0 } };
static const struct lettering plain = { FACE_PLAIN, 3.5, HOLD_LEFT, 0, { 0, 0, 0 } };

static struct sb_paper *begin(enum paper_kind kind)
{
	struct sb_err err = { 0 };
	struct sb_paper *p = NULL;

	if (sb_paper_new(kind, &note, &p, &err))
		fail_msg("%s", err.text);
	return p;
}

/* Ends it and writes the bytes to a file, whose path is returned, good until the next end. */
static const char *end(struct sb_paper *p, const char *name)
{
	static char path[PATH_MAX];
	struct sb_err err = { 0 };

	bytes.length = 0;
	if (sb_paper_end(p, &bytes, &err))
		fail_msg("%s", err.text);
	sb_copy(path, sizeof path, scratch_bytes(name, bytes.text, bytes.length));
	return path;
}

/* What another program says of a file, which is $1 in its command. */
static const char *ask(const char *command, const char *path)
{
	static char said[1 << 16];
	char line[1024];

	snprintf(line, sizeof line, "set -- '%s'; %s", path, command);
	FILE *f = popen(line, "r");
	assert_non_null(f);
	size_t got = fread(said, 1, sizeof said - 1, f);
	said[got] = '\0';
	if (pclose(f) != 0)
		fail_msg("%s: $1", command, said);
	return said;
}

static void says(const char *said, const char *wanted)
{
	if (strstr(said, wanted) == NULL)
		fail_msg("'%s' is not in:\n%s", wanted, said);
}

static void a_pdf_has_its_pages_at_their_sizes_and_says_what_it_is(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_PDF);

	sb_paper_page(p, 420, 297, "sheet 1");
	sb_paper_text(p, &plain, (struct spot){ 20, 20 }, "12+40.5 left");
	sb_paper_page(p, 210, 297, "table");
	const char *path = end(p, "a.pdf");
	const char *info = ask("pdfinfo -isodates -f 1 -l 9 $1", path);
	says(info, "Pages:           2");
	says(info, "Page    1 size:  1190.55 x 841.89 pts (A3)");
	says(info, "Page    2 size:  595.276 x 841.89 pts (A4)");
	says(info, "Title:           Crossing <1> & \xc3\xbc");
	says(info, "Author:          E. Engineer");
	says(info, "Subject:         what it is about");
	says(info, "Creator:         sagbend test");
	says(ask("pdfinfo -rawdates \"$1\"", path), "CreationDate:    D:20260921141320Z");
	says(ask("TZ=UTC pdfinfo -isodates $1", path), "2026-09-21T14:13:20Z");
	says(ask("pdftotext $1 -", path), "12+40.5 left");
}

static void lettering_is_embedded_and_keeps_its_characters(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_PDF);

	sb_paper_page(p, 210, 297, NULL);
	for (int face = 0; face < FACES; face++) {
		struct lettering as = { (enum face)face, 3, HOLD_LEFT, 0, { 0, 0, 0 } };
		sb_paper_text(p, &as, (struct spot){ 20, 30 + 10.0 * face },
			"A \xc3\xa4\xc3\x98 88.4\xc2\xb0 \xc3\x97 5");
	}
	const char *path = end(p, "fonts.pdf");
	const char *fonts = ask("pdffonts $1 | tail -n +3", path);
	int lines = 0;
	for (const char *line = fonts; *line; line = strchr(line, '\n') + 1, lines++)
		assert_int_equal(strncmp(strstr(line, " yes yes yes "), " yes yes yes ", 13), 0);
	assert_int_equal(lines, FACES); /* embedded, subset, with the table back to characters */
	says(ask("pdffonts $1", path), "DejaVuSansMono-Bold");
	says(ask("pdftotext -enc UTF-8 $1 -", path), "A \xc3\xa4\xc3\x98 88.4\xc2\xb0 \xc3\x97 5");
}

/* Rendered at a pixel a millimetre; 0 is black. */
static int grey_at(const char *path, int x, int y)
{
	char command[256], *image;
	int width, height, used;

	snprintf(command, sizeof command, "pdftoppm -r 25.4 -gray -aa no -aaVector no -singlefile \"$1\" %s",
		scratch("page"));
	ask(command, path);
	image = scratch_read(scratch("page.pgm"));
	assert_non_null(image);
	assert_int_equal(sscanf(image, "P5 %d %d 255%n", &width, &height, &used), 2);
	int grey = (unsigned char)image[used + 1 + y * width + x];
	free(image);
	return grey;
}

static void a_millimetre_from_the_upper_left_is_a_millimetre_on_the_page(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_PDF);

	sb_paper_page(p, 100, 80, NULL);
	sb_paper_fill(p, SB_INK_BLACK, &(struct paper){ 10, 20, 30, 5 });
	sb_paper_clip(p, &(struct paper){ 60, 0, 40, 40 });
	sb_paper_fill(p, SB_INK_BLACK, &(struct paper){ 50, 30, 30, 30 });
	sb_paper_unclip(p);
	sb_paper_disc(p, SB_INK_BLACK, (struct spot){ 30, 60 }, 5);
	const char *path = end(p, "mm.pdf");
	assert_int_equal(grey_at(path, 11, 21), 0);
	assert_int_equal(grey_at(path, 38, 23), 0);
	assert_int_equal(grey_at(path, 8, 21), 255);
	assert_int_equal(grey_at(path, 42, 21), 255);
	assert_int_equal(grey_at(path, 25, 18), 255);
	assert_int_equal(grey_at(path, 25, 27), 255);
	assert_int_equal(grey_at(path, 65, 35), 0);   /* within the clip */
	assert_int_equal(grey_at(path, 55, 35), 255); /* left of it */
	assert_int_equal(grey_at(path, 65, 45), 255); /* below it */
	assert_int_equal(grey_at(path, 30, 60), 0);
	assert_int_equal(grey_at(path, 37, 60), 255);
}

/* The left edge and the width of a word, mm, as poppler finds it on page 1. */
static void find_word(
	const char *path, const char *word, double *left, double *top, double *wide, double *high)
{
	char wanted[64];
	double x0, y0, x1, y1;
	const char *said = ask("pdftotext -bbox $1 -", path), *at;

	snprintf(wanted, sizeof wanted, ">%s</word>", word);
	at = strstr(said, wanted);
	if (at == NULL)
		fail_msg("no word $1", word);
	while (strncmp(at, "<word", 5) != 0)
		at--;
	assert_int_equal(
		sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &x0, &y0, &x1, &y1),
		4);
	*left = x0 * 25.4 / 72;
	*top = y0 * 25.4 / 72;
	*wide = (x1 - x0) * 25.4 / 72;
	*high = (y1 - y0) * 25.4 / 72;
}

static void text_is_as_long_as_it_was_measured_and_held_where_it_was_said(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_PDF);
	struct lettering as = { FACE_BOLD, 5, HOLD_LEFT, 0, { 0, 0, 0 } };
	double left, top, wide, high;

	sb_paper_page(p, 200, 100, NULL);
	sb_paper_text(p, &as, (struct spot){ 50, 20 }, "Leftward");
	as.hold = HOLD_MIDDLE;
	sb_paper_text(p, &as, (struct spot){ 100, 40 }, "Centred");
	as.hold = HOLD_RIGHT;
	sb_paper_text(p, &as, (struct spot){ 150, 60 }, "Rightward");
	as.turn_deg = 90;
	sb_paper_text(p, &as, (struct spot){ 180, 50 }, "Upright");
	double measured[] = { sb_paper_width(p, &as, "Leftward"), sb_paper_width(p, &as, "Centred"),
		sb_paper_width(p, &as, "Rightward"), sb_paper_width(p, &as, "Upright") };
	const char *path = end(p, "text.pdf");
	find_word(path, "Leftward", &left, &top, &wide,
		&high); /* 0.02 mm: poppler rounds widths to 1/1000 em */
	assert_near(left, 50, 0.02);
	assert_near(wide, measured[0], 0.05);
	find_word(path, "Centred", &left, &top, &wide, &high);
	assert_near(left + wide / 2, 100, 0.05);
	assert_near(wide, measured[1], 0.05);
	find_word(path, "Rightward", &left, &top, &wide, &high);
	assert_near(left + wide, 150, 0.05);
	find_word(path, "Upright", &left, &top, &wide, &high); /* read from below, and ends at its point */
	assert_near(top, 50, 0.05);
	assert_near(high, measured[3], 0.05);
}

static void a_capital_is_as_high_as_was_asked(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_PDF);
	struct lettering as = { FACE_BOLD, 20, HOLD_LEFT, 0, { 0, 0, 0 } };

	sb_paper_page(p, 100, 80, NULL);
	sb_paper_text(p, &as, (struct spot){ 20, 50 }, "I"); /* a bar from 30 to 50 mm */
	const char *path = end(p, "capital.pdf");
	assert_int_equal(grey_at(path, 23, 48), 0);
	assert_int_equal(grey_at(path, 23, 31), 0);
	assert_int_equal(grey_at(path, 23, 28), 255);
	assert_int_equal(grey_at(path, 23, 52), 255);
}

static void draw_some(struct sb_paper *p)
{
	for (int i = 0; i < 3; i++) {
		sb_paper_page(p, 200, 100 + 10 * i, "page");
		sb_paper_text(p, &plain, (struct spot){ 20, 20 }, "surface12\"");
		sb_paper_ellipse(
			p, &thin, (struct spot){ 50, 50 }, (struct spot){ 10, 0 }, (struct spot){ 0, 5 });
	}
}

static void the_same_drawing_is_the_same_bytes(void **state)
{
	(void)state;
	for (int kind = PAPER_PDF; kind <= PAPER_SVG; kind++) {
		struct sb_paper *p = begin((enum paper_kind)kind);
		draw_some(p);
		char *first = scratch_read(end(p, "first"));
		size_t length = bytes.length;
		p = begin((enum paper_kind)kind);
		draw_some(p);
		end(p, "second");
		assert_int_equal(bytes.length, length);
		assert_memory_equal(bytes.text, first, length);
		free(first);
	}
}

static void an_svg_is_one_drawing_with_the_pages_one_below_another(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_SVG);
	double width, height;

	draw_some(p); /* 100, 110, 120 mm high, 5 mm apart */
	const char *path = end(p, "a.svg");
	const char *said = ask("xmllint --noout --nonet $1 && xmllint --xpath 'concat("
			       "number(substring-before(/*/@width, \"pt\")), \" \","
			       "number(substring-before(/*/@height, \"pt\")), \" \","
			       "/*/*[local-name()=\"title\"], \"; \", /*/*[local-name()=\"desc\"])' $1",
		path);
	assert_int_equal(sscanf(said, "%lf %lf", &width, &height), 2);
	assert_near(width * 25.4 / 72, 200, 0.01);
	assert_near(height * 25.4 / 72, 340, 0.01);
	says(said, "Crossing <1> & \xc3\xbc; what it is about");
	/* every name that is referred to is there: xmllint has no opinion on it, so: as many ids as names */
	said = ask("xmllint --xpath 'count(//*[local-name()=\"use\"][not(substring(@*[local-name()=\"href\"],"
		   " 2) = //@id)])' $1",
		path);
	assert_int_equal(atoi(said), 0);
}

static void a_millimetre_of_an_svg_is_one_of_the_page_that_it_lies_on(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_SVG);
	double x, y, right, top;

	sb_paper_page(p, 100, 100, NULL);
	sb_paper_page(p, 100, 80, NULL); /* from 105 mm on */
	sb_paper_fill(p, (struct ink){ 1, 0, 0 }, &(struct paper){ 10, 20, 30, 5 });
	const char *said = ask("xmllint --xpath 'string(//*[local-name()=\"path\"]"
			       "[contains(@style, \"rgb(100%,0%,0%)\")]/@d)' \"$1\"",
		end(p, "mm.svg"));
	assert_int_equal(sscanf(said, "M %lf %lf L %lf %lf", &x, &y, &right, &top), 4);
	assert_near(x * 25.4 / 72, 10, 0.002); /* 1/256 point */
	assert_near(y * 25.4 / 72, 125, 0.002);
	assert_near(right * 25.4 / 72, 40, 0.002);
	assert_near(top * 25.4 / 72, 125, 0.002);
}

static void what_cannot_be_drawn_is_left_out_and_the_rest_stands(void **state)
{
	(void)state;
	struct sb_paper *p = begin(PAPER_PDF);
	struct spot line[] = { { 0, 10 }, { NAN, 10 }, { 30, 10 }, { 60, 10 }, { 1e9, 10 }, { 70, 10 } };
	struct pen bold = { 4, { 0, 0, 0 }, { 0 } };

	sb_paper_page(p, 100, 80, NULL);
	sb_paper_line(p, &bold, line, 6);
	sb_paper_fill(p, SB_INK_BLACK, &(struct paper){ 10, 20, -HUGE_VAL, 5 });
	sb_paper_ellipse(p, &bold, (struct spot){ 50, 50 }, (struct spot){ 10, 0 }, (struct spot){ 0, 0 });
	sb_paper_ellipse(p, &bold, (struct spot){ 50, 50 }, (struct spot){ NAN, 0 }, (struct spot){ 0, 5 });
	sb_paper_disc(p, SB_INK_BLACK, (struct spot){ 50, NAN }, 5);
	sb_paper_text(p, &plain, (struct spot){ NAN, 50 }, "nowhere");
	sb_paper_text(p, &plain, (struct spot){ 20, 70 }, "a\xff\x1b[1m");
	sb_paper_text(p, &plain, (struct spot){ 20, 60 }, "");
	const char *path = end(p, "odd.pdf");
	assert_int_equal(grey_at(path, 45, 10), 0);
	assert_int_equal(grey_at(path, 15, 10), 255);
	assert_int_equal(grey_at(path, 85, 10), 255);
	says(ask("pdftotext $1 -", path), "a??[1m");
}

static void a_paper_can_be_given_up_at_any_time(void **state)
{
	(void)state;
	sb_paper_abandon(NULL);
	for (int kind = PAPER_PDF; kind <= PAPER_SVG; kind++) {
		sb_paper_abandon(begin((enum paper_kind)kind));
		struct sb_paper *p = begin((enum paper_kind)kind);
		draw_some(p);
		sb_paper_clip(p, &(struct paper){ 0, 0, 10, 10 });
		sb_paper_abandon(p);
	}
}

/* Fontconfig shows whatever else there is, or nothing at all, when a font is missing. */
static void a_missing_font_is_said_with_the_package_that_brings_it(void **state)
{
	(void)state;
	const char *conf = scratch_text("fonts.conf", "<?xml version=\"1.0\"?><fontconfig></fontconfig>\n");
	struct sb_err err = { 0 };
	struct sb_paper *p = NULL;

	if (getenv("FONTCONFIG_FILE") == NULL) { /* the fonts are read once a program, so: in another one */
		char self[PATH_MAX], command[2 * PATH_MAX];
		ssize_t length = readlink("/proc/self/exe", self, sizeof self - 1);
		assert_true(length > 0);
		self[length] = '\0';
		snprintf(command, sizeof command, "FONTCONFIG_FILE=%s '%s' 2>&1", conf, self);
		FILE *f = popen(command, "r");
		assert_non_null(f);
		for (int c; (c = fgetc(f)) != EOF;)
			;
		assert_int_equal(pclose(f), 0);
		return;
	}
	assert_int_equal(sb_paper_new(PAPER_PDF, &note, &p, &err), -1);
	assert_int_equal(err.code, SB_MISSING);
	says(err.text, "Install package fonts-dejavu-core.");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_pdf_has_its_pages_at_their_sizes_and_says_what_it_is),
		cmocka_unit_test(lettering_is_embedded_and_keeps_its_characters),
		cmocka_unit_test(a_millimetre_from_the_upper_left_is_a_millimetre_on_the_page),
		cmocka_unit_test(text_is_as_long_as_it_was_measured_and_held_where_it_was_said),
		cmocka_unit_test(a_capital_is_as_high_as_was_asked),
		cmocka_unit_test(the_same_drawing_is_the_same_bytes),
		cmocka_unit_test(an_svg_is_one_drawing_with_the_pages_one_below_another),
		cmocka_unit_test(a_millimetre_of_an_svg_is_one_of_the_page_that_it_lies_on),
		cmocka_unit_test(what_cannot_be_drawn_is_left_out_and_the_rest_stands),
		cmocka_unit_test(a_paper_can_be_given_up_at_any_time),
		cmocka_unit_test(a_missing_font_is_said_with_the_package_that_brings_it),
	};
	const struct CMUnitTest without_fonts[] = {
		cmocka_unit_test(a_missing_font_is_said_with_the_package_that_brings_it),
	};

	int status = getenv("FONTCONFIG_FILE") ? run_tests(without_fonts) : run_tests(tests);
	sb_str_clear(&bytes);
	return status;
}

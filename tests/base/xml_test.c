/* Reading XML: what comes out, and what a file may not do. */
#include "base/xml.h"

#include "../io/scratch.h"
#include "base/mem.h"
#include "base/str.h"

#include <sys/resource.h>

/* All that was handed over, as one line of text. */
struct heard {
	struct sb_str text;
	size_t elements;
};

static bool hear_start(void *data, const struct xml_element *e)
{
	struct heard *h = data;
	const char *a = sb_xml_attribute(e, "a");

	h->elements++;
	if (h->text.length < 4000)
		sb_str_add(&h->text, "<%s:%d%s%s>", e->name, e->line, a ? " " : "", a ? a : "");
	return sb_same(e->name, "text");
}

static void hear_end(void *data, const struct xml_element *e, const char *text)
{
	struct heard *h = data;

	if (h->text.length < 4000)
		sb_str_add(&h->text, "%s</%s>", text, e->name);
}

static const struct xml_reader reader = { hear_start, hear_end };

static void assert_heard(const char *path, const char *want)
{
	struct heard h = { 0 };
	struct sb_err err = { 0 };

	if (sb_xml_read(path, &reader, &h, &err))
		fail_msg("%s", err.text);
	assert_string_equal(h.text.text, want);
	sb_str_clear(&h.text);
}

static void assert_refused(const char *path, enum sb_code code, const char *words)
{
	struct heard h = { 0 };
	struct sb_err err = { 0 };

	assert_int_equal(sb_xml_read(path, &reader, &h, &err), -1);
	if (err.code != code || strstr(err.text, words) == NULL)
		fail_msg("not %d with '%s': %d %s", code, words, err.code, err.text);
	assert_null(strchr(err.text, '\n'));
	sb_str_clear(&h.text);
}

static void elements_come_with_their_lines_attributes_and_texts(void **state)
{
	(void)state;
	assert_heard(
		scratch_text("a.xml",
			"<?xml version=\"1.0\"?>\n<!-- <no/> -->\n<root a=\"1 &lt; 2\" p:a=\"other\" xmlns:p=\"urn:p\">\n"
			" <text>1 2&#x20;&amp;<![CDATA[ <3>]]></text>\n <p:other>not wanted</p:other><text/>\n</root>\n"),
		"<root:3 1 < 2><text:4>1 2 & <3></text><other:5></other><text:5></text></root>");
}

static void every_usual_encoding_becomes_one(void **state)
{
	static const char latin[] =
		"<?xml version='1.0' encoding='ISO-8859-1'?><text a='\xDC'>M\xFCller</text>";
	const char *plain = "<text a='\xC3\x9C'>M\xC3\xBCller</text>";
	const char *want = "<text:1 \xC3\x9C>M\xC3\xBCller</text>";
	char wide[200] = "\xFF\xFE", marked[200] = "\xEF\xBB\xBF";
	size_t n = 2;

	(void)state;
	assert_heard(scratch_text("utf8.xml", plain), want);
	assert_heard(scratch_text("utf8.xml", strcat(marked, plain)), want);
	assert_heard(scratch_text("latin.xml", latin), want);
	for (const char *c = "<text a='\xDC'>M\xFCller</text>"; *c; c++) {
		wide[n++] = *c;
		wide[n++] = 0;
	}
	assert_heard(scratch_bytes("utf16.xml", wide, n), want);
	assert_refused(scratch_text("bad.xml", "<text>M\xFCller</text>"), SB_FORMAT, "Line 1");
	assert_refused(
		scratch_text("bad.xml", "<?xml version='1.0' encoding='no-such'?><a/>"), SB_FORMAT, "Line 1");
}

static void what_is_not_whole_is_refused_with_its_line(void **state)
{
	static const char *const broken[] = { "", "\n\n", "station,elevation\n0,1\n", "<a>\n<b>\n</a>\n",
		"<a>\n<b></b>\n", "<a>\n<b", "<a></a><b></b>", "<a b='1' b='2'/>", "<a>&nosuch;</a>",
		"<a>&#0;</a>", "<a>\x01</a>" };
	struct heard h = { 0 };
	struct sb_err err = { 0 };

	(void)state;
	for (size_t i = 0; i < sizeof broken / sizeof *broken; i++) {
		assert_int_equal(sb_xml_read(scratch_text("b.xml", broken[i]), &reader, &h, &err), -1);
		assert_int_equal(err.code, SB_FORMAT);
		assert_non_null(strstr(err.text, "not whole XML"));
	}
	assert_int_equal(sb_xml_read(scratch_text("b.xml", "<a>\n<b>\n</a>\n"), &reader, &h, &err), -1);
	assert_non_null(strstr(err.text, "Line 3"));
	sb_str_clear(&h.text);
	assert_refused(scratch("none.xml"), SB_MISSING, "There is no file");
	assert_refused("/", SB_FORMAT, "is a folder");
}

/* A billion laughs, its quadratic sister, parameter entities, and files of the machine: none of them is ever
 * declared, because the document type is the end of the reading. */
static void a_document_type_is_the_end(void **state)
{
	char path[200], text[1000];

	(void)state;
	scratch_text("secret", "secret words");
	snprintf(path, sizeof path, "%s", scratch("secret"));
	assert_refused(
		scratch_text("bomb.xml",
			"<?xml version='1.0'?>\n<!DOCTYPE lolz [\n<!ENTITY a 'lol'>\n"
			"<!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>\n<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'>\n"
			"<!ENTITY d '&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;'>]>\n<text>&d;</text>"),
		SB_FORMAT, "Line 2: the file declares a document type");
	snprintf(text, sizeof text, "<!DOCTYPE a [<!ENTITY x SYSTEM 'file://%s'>]><text>&x;</text>", path);
	assert_refused(scratch_text("outside.xml", text), SB_FORMAT, "document type");
	snprintf(text, sizeof text, "<!DOCTYPE a [<!ENTITY %% x SYSTEM 'file://%s'>%%x;]><text/>", path);
	assert_refused(scratch_text("outside.xml", text), SB_FORMAT, "document type");
	assert_refused(scratch_text("outside.xml", "<!DOCTYPE a SYSTEM 'http://127.0.0.1:9/a.dtd'><text/>"),
		SB_FORMAT, "document type");
	/* Neither is an include of XInclude anything but an element. */
	snprintf(text, sizeof text,
		"<text xmlns:xi='http://www.w3.org/2001/XInclude'><xi:include href='%s' parse='text'/></text>",
		path);
	assert_heard(scratch_text("include.xml", text), "<text:1><include:1></include></text>");
}

static const char *nested(const char *name, int depth)
{
	struct sb_str text = { 0 };

	for (int i = 0; i < depth; i++)
		sb_str_add(&text, "<e>");
	for (int i = 0; i < depth; i++)
		sb_str_add(&text, "</e>");
	const char *path = scratch_bytes(name, text.text, text.length);
	sb_str_clear(&text);
	return path;
}

static void depth_is_bounded(void **state)
{
	struct heard h = { 0 };

	(void)state;
	assert_int_equal(sb_xml_read(nested("deep.xml", SB_XML_DEPTH), &reader, &h, NULL), 0);
	assert_int_equal(h.elements, SB_XML_DEPTH);
	sb_str_clear(&h.text);
	assert_refused(nested("deep.xml", 10000), SB_RANGE, "deeper within one another");
}

/* `size` bytes between a beginning and an end. */
static const char *filled(
	const char *name, const char *begin, const char *piece, size_t size, const char *end)
{
	const char *path = scratch(name);
	FILE *f = fopen(path, "wb");

	assert_non_null(f);
	fputs(begin, f);
	for (size_t n = 0; n < size; n += strlen(piece))
		fputs(piece, f);
	fputs(end, f);
	assert_int_equal(fclose(f), 0);
	return path;
}

static long peak_kib(void)
{
	struct rusage used;

	getrusage(RUSAGE_SELF, &used);
	return used.ru_maxrss;
}

static void size_is_bounded_and_memory_does_not_grow_with_it(void **state)
{
	struct heard h = { 0 };

	(void)state;
	long before = peak_kib();
	assert_int_equal(
		sb_xml_read(filled("big.xml", "<r>", "<P>1 2 3</P>\n", 60u << 20, "</r>"), &reader, &h, NULL),
		0);
	assert_true(h.elements > 4000000);
	sb_str_clear(&h.text);
	assert_true(peak_kib() - before < 16384); /* KiB; a tree of it would take gigabytes */
	assert_refused(filled("big.xml", "<r>", "<P>1 2 3</P>\n", 100u << 20, "</r>"), SB_RANGE,
		"larger than 64 MiB");
	assert_refused(filled("big.xml", "<text>", "1 2 3 4 5\n", 4u << 20, "</text>"), SB_RANGE,
		"text of this element");
	assert_refused(filled("big.xml", "<r a='", "1 2 3 4 5\n", 4u << 20, "'/>"), SB_RANGE, "attributes");
	assert_refused(filled("big.xml", "<", "abcdefghi", 12u << 20, "/>"), SB_FORMAT, "not whole XML");
}

static void every_truncation_is_a_sentence(void **state)
{
	static const char whole[] =
		"<?xml version='1.0'?><!-- c --><r a='1' xmlns:p='urn:p'><p:text>1 &amp; 2</p:text></r>";

	(void)state;
	for (size_t n = 0; n + 1 < sizeof whole - 1; n++)
		assert_refused(scratch_bytes("cut.xml", whole, n), SB_FORMAT, "not whole XML");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(elements_come_with_their_lines_attributes_and_texts),
		cmocka_unit_test(every_usual_encoding_becomes_one),
		cmocka_unit_test(what_is_not_whole_is_refused_with_its_line),
		cmocka_unit_test(a_document_type_is_the_end),
		cmocka_unit_test(depth_is_bounded),
		cmocka_unit_test(size_is_bounded_and_memory_does_not_grow_with_it),
		cmocka_unit_test(every_truncation_is_a_sentence),
	};

	return run_tests(tests);
}

/* XML by libxml2's SAX2 parser in its push mode: bytes are pushed in pieces, elements come out. No tree is
 * built, no entity is known but the five that XML itself has, and no handler is there that could open a file.
 *
 * The library is loaded late: with it come those for Unicode and compression, thirty megabytes of tables,
 * which a hand who opens the screen to log a joint must not wait for.
 */
#include "base/xml.h"

#include "base/library.h"
#include "base/str.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <libxml/SAX2.h>
#include <libxml/parser.h>

#define PIECE 65536
#define ATTRIBUTES 64

/* ---- the library ---- */

/* Of libxml2 2.9 (Debian 12). */
static struct {
	__typeof__(&xmlCreatePushParserCtxt) create;
	__typeof__(&xmlFreeParserCtxt) free_context;
	__typeof__(&xmlSAX2GetLineNumber) line;
	__typeof__(&xmlCtxtUseOptions) options;
	__typeof__(&xmlParseChunk) parse;
	__typeof__(&xmlStopParser) stop;
} lib;
static const char *const functions[] = { "xmlCreatePushParserCtxt", "xmlFreeParserCtxt",
	"xmlSAX2GetLineNumber", "xmlCtxtUseOptions", "xmlParseChunk", "xmlStopParser" };
#define FUNCTIONS (sizeof functions / sizeof *functions)
_Static_assert(sizeof lib == FUNCTIONS * sizeof(void *), "the table is its functions, one after the other");

static int load(struct sb_err *err)
{
	static const char *const files[] = { "libxml2.so.2", "libxml2.so", NULL };
	static bool loaded;

	if (loaded)
		return 0;
	enum library_found found = sb_library_load(files, functions, FUNCTIONS, &lib);
	loaded = found == LIBRARY_HERE;
	if (loaded)
		return 0;
	return sb_fail(err, SB_MISSING, "libxml2 %s, so no LandXML can be read. Install the package libxml2.",
		found == LIBRARY_OTHER ? "is not of a version that this program knows" : "is not installed");
}

/* ---- what the parser hands over ---- */

struct xml_attributes {
	size_t count;
	const char *names[ATTRIBUTES];
	size_t starts[ATTRIBUTES]; /* in `bytes` */
	struct sb_str bytes;
};

struct parse {
	xmlParserCtxtPtr context;
	const struct xml_reader *reader;
	void *data;
	struct xml_attributes attributes;
	struct sb_str text;
	int wanted; /* depth of the element whose text is gathered; 0 none */
	int depth;
	struct sb_err failed; /* the first failure; code SB_OK: none */
};

const char *sb_xml_attribute(const struct xml_element *e, const char *name)
{
	const struct xml_attributes *a = e->attributes;

	for (size_t i = 0; a && i < a->count; i++)
		if (sb_same(a->names[i], name))
			return a->bytes.text + a->starts[i];
	return NULL;
}

static void fail_at(struct parse *p, enum sb_code code, const char *words)
{
	if (p->failed.code == SB_OK)
		sb_fail(&p->failed, code, "Line %d: %s", lib.line(p->context), words);
	lib.stop(p->context);
}

/* libxml2 gives five pointers an attribute: name, prefix, namespace, beginning and end of the value. */
static void take_attributes(struct parse *p, int count, const xmlChar **from)
{
	struct xml_attributes *a = &p->attributes;

	a->count = 0;
	a->bytes.length = 0;
	for (int i = 0; i < count && a->count < ATTRIBUTES; i++, from += 5) {
		if (from[1] != NULL)
			continue;
		a->names[a->count] = (const char *)from[0];
		a->starts[a->count++] = a->bytes.length;
		sb_str_append(&a->bytes, (const char *)from[3], (size_t)(from[4] - from[3]));
		sb_str_append(&a->bytes, "", 1);
	}
	if (a->bytes.length > SB_XML_TEXT)
		fail_at(p, SB_RANGE, "the attributes of this element are longer than any drawing's are.");
}

static struct xml_element element_of(struct parse *p, const xmlChar *name, const xmlChar *space)
{
	return (struct xml_element){ .name = (const char *)name,
		.space = space ? (const char *)space : "",
		.line = lib.line(p->context),
		.depth = p->depth };
}

static void on_start(void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *space, int spaces,
	const xmlChar **space_list, int count, int defaulted, const xmlChar **attributes)
{
	struct parse *p = data;

	(void)prefix;
	(void)spaces;
	(void)space_list;
	(void)defaulted;
	if (p->failed.code != SB_OK)
		return;
	if (++p->depth > SB_XML_DEPTH) {
		fail_at(p, SB_RANGE, "elements stand deeper within one another than in any drawing.");
		return;
	}
	take_attributes(p, count, attributes);
	struct xml_element e = element_of(p, name, space);
	e.attributes = &p->attributes;
	p->text.length = 0;
	p->wanted = p->failed.code == SB_OK && p->reader->start(p->data, &e) ? p->depth : 0;
}

static void on_end(void *data, const xmlChar *name, const xmlChar *prefix, const xmlChar *space)
{
	struct parse *p = data;

	(void)prefix;
	if (p->failed.code != SB_OK)
		return;
	struct xml_element e = element_of(p, name, space);
	bool wanted = p->wanted == p->depth && p->text.length > 0;
	if (wanted)
		p->text.text[p->text.length] = '\0';
	p->reader->end(p->data, &e, wanted ? p->text.text : "");
	p->wanted = 0;
	p->depth--;
}

static void on_text(void *data, const xmlChar *bytes, int length)
{
	struct parse *p = data;

	if (p->wanted == 0 || p->wanted != p->depth || p->failed.code != SB_OK)
		return;
	if (p->text.length + (size_t)length > SB_XML_TEXT) {
		fail_at(p, SB_RANGE, "the text of this element is longer than any drawing's is.");
		return;
	}
	sb_str_append(&p->text, (const char *)bytes, (size_t)length);
}

static void on_document_type(void *data, const xmlChar *name, const xmlChar *external, const xmlChar *system)
{
	(void)name;
	(void)external;
	(void)system;
	fail_at(data, SB_FORMAT,
		"the file declares a document type (<!DOCTYPE>), which a drawing never needs and a hostile file uses. Export it again without.");
}

static void on_error(void *data, xmlErrorPtr error)
{
	struct parse *p = data;
	char words[200];

	if (error->level != XML_ERR_FATAL || p->failed.code != SB_OK)
		return;
	sb_copy(words, sizeof words, error->message ? error->message : "no more is known");
	words[strcspn(words, "\r\n")] = '\0';
	sb_utf8_tame(words);
	sb_fail(&p->failed, SB_FORMAT,
		"Line %d: the file is not whole XML (%s). It is damaged or cut off: export it again.",
		error->line, words);
}

/* ---- reading ---- */

static int read_pieces(struct parse *p, int fd)
{
	char piece[PIECE];
	size_t total = 0;

	while (p->failed.code == SB_OK) {
		ssize_t got = read(fd, piece, sizeof piece);
		if (got < 0 && errno == EINTR)
			continue;
		if (got < 0)
			return sb_fail(&p->failed, SB_IO, "The file cannot be read: %s. Try a copy of it.",
				strerror(errno));
		total += (size_t)got;
		if (total > SB_XML_FILE)
			return sb_fail(&p->failed, SB_RANGE,
				"The file is larger than %u MiB: more than a drawing of one crossing. Export the "
				"alignment and its profile alone, without surfaces.",
				SB_XML_FILE >> 20);
		lib.parse(p->context, piece, (int)got, got == 0);
		if (got == 0)
			break;
	}
	return p->failed.code == SB_OK ? 0 : -1;
}

static int parse(struct parse *p, int fd, struct sb_err *err)
{
	xmlSAXHandler sax = { .initialized = XML_SAX2_MAGIC,
		.startElementNs = on_start,
		.endElementNs = on_end,
		.characters = on_text,
		.cdataBlock = on_text,
		.internalSubset = on_document_type,
		.serror = on_error };

	p->context = lib.create(&sax, p, NULL, 0, NULL);
	if (p->context == NULL)
		return sb_fail(err, SB_IO, "libxml2 cannot begin to read the file.");
	lib.options(p->context, XML_PARSE_NONET | XML_PARSE_NOCDATA);
	int failed = read_pieces(p, fd);
	lib.free_context(p->context);
	if (failed && err)
		*err = p->failed;
	return failed;
}

static int open_file(const char *path, int *fd, struct sb_err *err)
{
	struct stat what;

	*fd = sb_same(path, "-") ? STDIN_FILENO : open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY);
	if (*fd < 0 && (errno == ENOENT || errno == ENOTDIR))
		return sb_fail(
			err, SB_MISSING, "There is no file '%.300s'. Check its name and folder.", path);
	if (*fd < 0)
		return sb_fail(err, errno == EACCES ? SB_DENIED : SB_IO, "'%.300s' cannot be opened: %s.",
			path, strerror(errno));
	if (fstat(*fd, &what) == 0 && S_ISDIR(what.st_mode)) {
		close(*fd);
		return sb_fail(err, SB_FORMAT, "'%.300s' is a folder, not a file.", path);
	}
	return 0;
}

int sb_xml_read(const char *path, const struct xml_reader *reader, void *data, struct sb_err *err)
{
	struct parse p = { .reader = reader, .data = data };
	int fd;

	if (load(err) || open_file(path, &fd, err))
		return -1;
	int failed = parse(&p, fd, err);
	if (fd != STDIN_FILENO)
		close(fd);
	sb_str_clear(&p.attributes.bytes);
	sb_str_clear(&p.text);
	return failed;
}

/* The file, three lines of words; others are passed over, so that a later version may add its own:
 *
 *	theme day
 *	terminal xterm-256color
 *	pictures dots
 *
 * It is made beside and moved into place, so that two programs at once leave one of the two. Not synced: it
 *is worth nothing that a power cut could take.
 */
#include "ui/remembered.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"

#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_BYTES 1024

struct file {
	char theme[16], terminal[64], pictures[32];
};

/* "" when there is no place for it. Source: XDG Base Directory Specification 0.8: a path that is not absolute
 * is ignored; $HOME/.local/state is the default. */
static void path_of_file(struct sb_str *out)
{
	const char *state = getenv("XDG_STATE_HOME"), *home = getenv("HOME");

	if (state && state[0] == '/')
		sb_str_add(out, "%s/sagbend/screen", state);
	else if (home && home[0] == '/')
		sb_str_add(out, "%s/.local/state/sagbend/screen", home);
}

static const char *terminal(void)
{
	const char *term = getenv("TERM");

	return term ? term : "";
}

/* ---- reading ---- */

static void take_line(struct file *f, const char *line)
{
	static const char *const words[] = { "theme ", "terminal ", "pictures " };
	struct {
		char *text;
		size_t size;
	} places[] = { { f->theme, sizeof f->theme }, { f->terminal, sizeof f->terminal },
		{ f->pictures, sizeof f->pictures } };

	for (size_t i = 0; i < 3; i++)
		if (strncmp(line, words[i], strlen(words[i])) == 0)
			sb_copy(places[i].text, places[i].size, line + strlen(words[i]));
}

static void read_file(struct file *f)
{
	struct sb_str path = { 0 };
	char bytes[MOST_BYTES + 1];

	memset(f, 0, sizeof *f);
	path_of_file(&path);
	int fd = path.length ? open(path.text, O_RDONLY | O_NONBLOCK | O_CLOEXEC)
			     : -1; /* nor wait on a pipe */
	sb_str_clear(&path);
	if (fd < 0)
		return;
	ssize_t length = read(fd, bytes, MOST_BYTES);
	close(fd);
	bytes[length > 0 ? length : 0] = '\0';
	char *rest = bytes;
	for (char *line; (line = strsep(&rest, "\n")) != NULL;)
		take_line(f, line);
}

static bool glyphs_named(const char *name, enum glyphs *out)
{
	for (int i = 0; i < SB_GLYPHS_COUNT; i++)
		if (sb_same(sb_glyph_word((enum glyphs)i), name)) {
			*out = (enum glyphs)i;
			return true;
		}
	return false;
}

void sb_remembered_load(struct remembered *out)
{
	struct file f;

	*out = (struct remembered){ 0 };
	read_file(&f);
	out->theme_known = sb_theme_parse(f.theme, &out->theme) == 0;
	out->glyphs_known = sb_same(f.terminal, terminal()) && glyphs_named(f.pictures, &out->glyphs);
}

/* ---- writing ---- */

/* The folders above the file, each the user's own, as the specification asks. */
static void make_folders(const char *path)
{
	char *folder = sb_strdup(path);

	for (char *slash = folder + 1; (slash = strchr(slash, '/')) != NULL; slash++) {
		*slash = '\0';
		mkdir(folder, 0700); /* there already, or not to be made: the file itself will tell */
		*slash = '/';
	}
	sb_free(folder);
}

static void write_file(const struct file *f)
{
	struct sb_str path = { 0 }, text = { 0 };
	int fd = -1;

	path_of_file(&path);
	if (path.length == 0)
		return;
	make_folders(path.text);
	sb_str_add(&text, "theme %s\nterminal %s\npictures %s\n", f->theme, f->terminal, f->pictures);
	char *made = sb_beside_make(path.text, &fd, NULL);
	if (made) {
		bool written = write(fd, text.text, text.length) == (ssize_t)text.length;
		written = close(fd) == 0 && written;
		if (!written || sb_beside_place(made, path.text, true, false, NULL))
			unlink(made);
		sb_free(made);
	}
	sb_str_clear(&text);
	sb_str_clear(&path);
}

void sb_remembered_theme(enum theme theme)
{
	struct file f;

	read_file(&f);
	sb_copy(f.theme, sizeof f.theme, sb_theme_name(theme));
	write_file(&f);
}

void sb_remembered_glyphs(enum glyphs glyphs)
{
	struct file f;

	read_file(&f);
	sb_copy(f.terminal, sizeof f.terminal, terminal());
	sb_copy(f.pictures, sizeof f.pictures, sb_glyph_word(glyphs));
	write_file(&f);
}

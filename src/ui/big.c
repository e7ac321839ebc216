/* Big digits, from half blocks, or from strokes where there is nothing but plain characters. A digit is three
 * columns wide and one more to the next; a point takes two columns. */
#include "ui/big.h"

#include "base/str.h"

#define POINT 10

static const char *const blocks[11][SB_BIG_ROWS] = {
	{ "█▀█", "█ █", "█▄█" },
	{ "▄█ ", " █ ", "▄█▄" },
	{ "▀▀█", "█▀▀", "█▄▄" },
	{ "▀▀█", " ▀█", "▄▄█" },
	{ "█ █", "▀▀█", "  █" },
	{ "█▀▀", "▀▀█", "▄▄█" },
	{ "█▀▀", "█▀█", "█▄█" },
	{ "▀▀█", "  █", "  █" },
	{ "█▀█", "█▀█", "█▄█" },
	{ "█▀█", "▀▀█", "▄▄█" },
	{ " ", " ", "▄" },
};

static const char *const strokes[11][SB_BIG_ROWS] = {
	{ " _ ", "| |", "|_|" },
	{ "   ", "  |", "  |" },
	{ " _ ", " _|", "|_ " },
	{ " _ ", " _|", " _|" },
	{ "   ", "|_|", "  |" },
	{ " _ ", "|_ ", " _|" },
	{ " _ ", "|_ ", "|_|" },
	{ " _ ", "  |", "  |" },
	{ " _ ", "|_|", "|_|" },
	{ " _ ", "|_|", " _|" },
	{ " ", " ", "." },
};

static int shape_of(char c)
{
	return c >= '0' && c <= '9' ? c - '0' : POINT;
}

int sb_big_number(
	struct cells *out, int row, int column, enum style style, enum glyphs glyphs, const char *text)
{
	for (; *text; text++) {
		const char *const *shape = (glyphs == GLYPHS_ASCII ? strokes : blocks)[shape_of(*text)];
		for (int i = 0; i < SB_BIG_ROWS; i++)
			sb_cells_text(out, row + i, column, style, shape[i]);
		column += (int)sb_utf8_columns(shape[0]) + 1;
	}
	return column;
}

int sb_big_columns(const char *text)
{
	int columns = 0;

	for (; *text; text++)
		columns += shape_of(*text) == POINT ? 2 : 4;
	return columns;
}

/* Cells and their way out as text. */
#include "draw/raster.h"

#include "base/mem.h"

void sb_raster_resize(struct raster *r, int width, int height)
{
	width = width < 1 ? 1 : width > SB_RASTER_MOST ? SB_RASTER_MOST : width;
	height = height < 1 ? 1 : height > SB_RASTER_MOST ? SB_RASTER_MOST : height;
	size_t count = (size_t)width * (size_t)height;

	if (count > r->room) {
		sb_free(r->cells);
		r->cells = sb_alloc(count * sizeof *r->cells);
		r->room = count;
	}
	r->width = width;
	r->height = height;
	for (size_t i = 0; i < count; i++)
		r->cells[i] = (struct raster_cell){ .code = ' ' };
}

void sb_raster_clear(struct raster *r)
{
	sb_free(r->cells);
	sb_free(r->dots);
	*r = (struct raster){ 0 };
}

struct raster_cell *sb_raster_cell(const struct raster *r, int column, int row)
{
	return &r->cells[(size_t)row * (size_t)r->width + (size_t)column];
}

void sb_raster_add(struct sb_str *out, unsigned code)
{
	char bytes[4];
	size_t count = 0;

	if (code < 0x80) {
		bytes[count++] = (char)code;
	} else if (code < 0x800) {
		bytes[count++] = (char)(0xC0 | code >> 6);
		bytes[count++] = (char)(0x80 | (code & 0x3F));
	} else if (code < 0x10000) {
		bytes[count++] = (char)(0xE0 | code >> 12);
		bytes[count++] = (char)(0x80 | (code >> 6 & 0x3F));
		bytes[count++] = (char)(0x80 | (code & 0x3F));
	} else {
		bytes[count++] = (char)(0xF0 | code >> 18);
		bytes[count++] = (char)(0x80 | (code >> 12 & 0x3F));
		bytes[count++] = (char)(0x80 | (code >> 6 & 0x3F));
		bytes[count++] = (char)(0x80 | (code & 0x3F));
	}
	sb_str_append(out, bytes, count);
}

void sb_raster_text(const struct raster *r, struct sb_str *out)
{
	for (int row = 0; row < r->height; row++) {
		int last = r->width;
		while (last > 0 && sb_raster_cell(r, last - 1, row)->code == ' ')
			last--;
		for (int column = 0; column < last; column++)
			sb_raster_add(out, sb_raster_cell(r, column, row)->code);
		sb_str_append(out, "\n", 1);
	}
}

/* Cairo, loaded when it is first asked for: with it come some twenty libraries, which a hand who opens the
 * screen to log a joint must not wait for. Its functions are called through one table, by the names that its
 * own headers give them, less the prefix.
 */
#ifndef SB_SRC_IO_PAPER_CAIRO_H
#define SB_SRC_IO_PAPER_CAIRO_H

#include "base/err.h"

#include <cairo/cairo-pdf.h>
#include <cairo/cairo-svg.h>
#include <cairo/cairo.h>

/* Of cairo 1.16 (Debian 12): cairo.h, cairo-pdf.h, cairo-svg.h. */
#define PAPER_FUNCTIONS(X) \
	X(arc, cairo_arc) \
	X(clip, cairo_clip) \
	X(close_path, cairo_close_path) \
	X(create, cairo_create) \
	X(destroy, cairo_destroy) \
	X(fill, cairo_fill) \
	X(font_options_create, cairo_font_options_create) \
	X(font_options_destroy, cairo_font_options_destroy) \
	X(font_options_set_hint_metrics, cairo_font_options_set_hint_metrics) \
	X(font_options_set_hint_style, cairo_font_options_set_hint_style) \
	X(line_to, cairo_line_to) \
	X(move_to, cairo_move_to) \
	X(new_path, cairo_new_path) \
	X(new_sub_path, cairo_new_sub_path) \
	X(pdf_add_outline, cairo_pdf_surface_add_outline) \
	X(pdf_create_for_stream, cairo_pdf_surface_create_for_stream) \
	X(pdf_set_metadata, cairo_pdf_surface_set_metadata) \
	X(pdf_set_size, cairo_pdf_surface_set_size) \
	X(recording_create, cairo_recording_surface_create) \
	X(rectangle, cairo_rectangle) \
	X(restore, cairo_restore) \
	X(rotate, cairo_rotate) \
	X(save, cairo_save) \
	X(scale, cairo_scale) \
	X(select_font_face, cairo_select_font_face) \
	X(set_dash, cairo_set_dash) \
	X(set_font_options, cairo_set_font_options) \
	X(set_font_size, cairo_set_font_size) \
	X(set_line_cap, cairo_set_line_cap) \
	X(set_line_join, cairo_set_line_join) \
	X(set_line_width, cairo_set_line_width) \
	X(set_source_rgb, cairo_set_source_rgb) \
	X(show_page, cairo_show_page) \
	X(show_text, cairo_show_text) \
	X(status, cairo_status) \
	X(status_to_string, cairo_status_to_string) \
	X(stroke, cairo_stroke) \
	X(surface_destroy, cairo_surface_destroy) \
	X(surface_finish, cairo_surface_finish) \
	X(surface_status, cairo_surface_status) \
	X(svg_create_for_stream, cairo_svg_surface_create_for_stream) \
	X(text_extents, cairo_text_extents) \
	X(transform, cairo_transform) \
	X(translate, cairo_translate)

struct paper_cairo {
#define PAPER_MEMBER(member, function) __typeof__(&function) member;
	PAPER_FUNCTIONS(PAPER_MEMBER)
#undef PAPER_MEMBER
};

/* Loads it, the first time; -1 with err when it is not installed, or has not all of these. */
int paper_cairo_load(struct sb_err *err);

/* The table; only after paper_cairo_load has returned 0. It stays until the program ends. */
const struct paper_cairo *paper_cairo(void);

#endif

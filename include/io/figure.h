/* Numbers as text for files: with a decimal point whatever the locale, never "-0", never NaN or inf. */
#ifndef SB_IO_FIGURE_H
#define SB_IO_FIGURE_H

#define SB_FIGURE_TEXT 40

/* Rounded to so many decimals (0 to 12), without closing zeros: 12.3, 0, -4. "" for what is not finite, and
 * for what is too large to be a length or an angle (1e15). Returns text. */
const char *sb_figure_fixed(double value, int decimals, char text[SB_FIGURE_TEXT]);

/* The shortest text that reads back as the same double; "" for what is not finite. Returns text. */
const char *sb_figure_exact(double value, char text[SB_FIGURE_TEXT]);

#endif

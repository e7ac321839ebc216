/* Signals, and giving the terminal back whatever happens. For ui/term.c alone. */
#ifndef UI_SIGNALS_H
#define UI_SIGNALS_H

#include "base/err.h"

#include <stdbool.h>

/* From now on signals are noted instead of obeyed. Remembers the terminal's modes as they are. */
int sb_signals_take_over(struct sb_err *err);
/* Handlers and the terminal's modes as they were. */
void sb_signals_give_back(void);

int sb_signals_wake(void); /* readable when one was noted */
int sb_signals_next(void); /* takes one, the most urgent first; 0: none */

/* Between these two a write to the terminal may block for ever. When a signal that ends the program comes
 * then, and the write does not come back within seconds, the program ends where it stands. */
void sb_signals_painting(bool begins);

/* What a crash writes to the terminal to put its own screen back. */
void sb_signals_way_back(const char *text);

/* Stops the whole process group, as if the terminal had sent Ctrl-Z; returns when it goes on. */
void sb_signals_stop(void);

#endif

/* The list of screens. A new screen is entered here. */
#include "ui/screens.h"

#include "ui/help.h"
#include "ui/prompt.h"

const struct screen *const sb_screens[] = { &sb_screen_prompt, &sb_screen_help, NULL };

/* The list of screens, the one that a job opens with first. A new screen is entered here. */
#include "ui/screens.h"

#include "ui/acceptance.h"
#include "ui/after.h"
#include "ui/azimuth.h"
#include "ui/explain.h"
#include "ui/fixes.h"
#include "ui/fluid.h"
#include "ui/help.h"
#include "ui/log.h"
#include "ui/opening.h"
#include "ui/prompt.h"
#include "ui/stress.h"
#include "ui/whole.h"

const struct screen *const sb_screens[] = {
	&sb_screen_log,
	&sb_screen_steering,
	&sb_screen_clearance,
	&sb_screen_held,
	&sb_screen_doubted,
	&sb_screen_more,
	&sb_screen_correct,
	&sb_screen_joint,
	&sb_screen_figures,
	&sb_screen_explain,
	&sb_screen_repeat,
	&sb_screen_warnings,
	&sb_screen_fixes,
	&sb_screen_fix,
	&sb_screen_azimuth,
	&sb_screen_change,
	&sb_screen_acceptance,
	&sb_screen_nonconformances,
	&sb_screen_after,
	&sb_screen_opening,
	&sb_screen_opening_more,
	&sb_screen_string,
	&sb_screen_pull,
	&sb_screen_fluid,
	&sb_screen_stress,
	&sb_screen_whole,
	&sb_screen_history,
	&sb_screen_handover,
	&sb_screen_timeline,
	&sb_screen_prompt,
	&sb_screen_confirm,
	&sb_screen_help,
	NULL,
};

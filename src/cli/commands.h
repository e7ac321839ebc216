/* The rows of the command table, one for each file that defines them. */
#ifndef SB_CLI_COMMANDS_H
#define SB_CLI_COMMANDS_H

#include "cli/command.h"

extern const struct command sb_cmd_new, sb_cmd_design, sb_cmd_open, sb_cmd_log, sb_cmd_whatif, sb_cmd_correct,
	sb_cmd_withdraw, sb_cmd_note, sb_cmd_shift, sb_cmd_acknowledge, sb_cmd_import, sb_cmd_path,
	sb_cmd_check, sb_cmd_explain, sb_cmd_ahead, sb_cmd_clearance, sb_cmd_rehearse, sb_cmd_handover,
	sb_cmd_export, sb_cmd_verify, sb_cmd_backup, sb_cmd_compute, sb_cmd_earth, sb_cmd_change,
	sb_cmd_repeat, sb_cmd_roll_test, sb_cmd_fix, sb_cmd_adjust, sb_cmd_nonconformance, sb_cmd_acceptance,
	sb_cmd_history, sb_cmd_timeline, sb_cmd_day, sb_cmd_strike, sb_cmd_fluid, sb_cmd_pass, sb_cmd_string,
	sb_cmd_stress, sb_cmd_pull;

#endif

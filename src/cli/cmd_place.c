/* sagbend change, repeat: what the readings refer to, and readings taken again. */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "model/fact.h"
#include "model/repeats.h"

#include <stdio.h>
#include <string.h>

/* ---- change ---- */

static const struct option change_options[] = {
	{ "set", "SECTION.KEY=VALUE",
		"what changes, like azimuth.declination=3.4 or tool.sensor_to_bit=42.5; several with a comma between",
		false },
	{ "from-joint", "N",
		"the first joint in the ground that it holds for too; left out: only what is logged from now on",
		false },
	{ "reason", "TEXT", "why", false },
	OPTION_BY,
	OPTION_END,
};

/* Takes "section.key=value" apart. */
static int take_change(char *text, int from_joint, struct change *c, struct sb_err *err)
{
	char *dot = strchr(text, '.'), *equals = dot ? strchr(dot, '=') : NULL;

	if (equals == NULL)
		return sb_fail(err, SB_USAGE,
			"--set %.60s is not SECTION.KEY=VALUE, like azimuth.declination=3.4.", text);
	*dot = *equals = '\0';
	c->from_joint = from_joint;
	if (!sb_copy(c->section, sizeof c->section, text) || !sb_copy(c->key, sizeof c->key, dot + 1) ||
		sb_setting(c->section, c->key) == NULL)
		return sb_fail(err, SB_USAGE, "There is no setting [%.30s] %.40s: sagbend-job(5) lists them.",
			text, dot + 1);
	if (!sb_copy(c->value, sizeof c->value, equals + 1))
		return sb_fail(err, SB_USAGE, "[%s] %s: the value is too long.", c->section, c->key);
	return 0;
}

static int take_changes(
	const struct invocation *in, int from_joint, struct change *list, size_t *count, struct sb_err *err)
{
	const char *set = sb_command_value(in, "set");
	char text[1024];

	*count = 0;
	if (set == NULL)
		return sb_fail(err, SB_USAGE,
			"--set SECTION.KEY=VALUE is missing, like --set azimuth.declination=3.4.");
	if (!sb_copy(text, sizeof text, set))
		return sb_fail(err, SB_USAGE, "--set is too long.");
	for (char *from = text, *part; (part = strsep(&from, ",")) != NULL; (*count)++) {
		if (*count == SB_CHANGES)
			return sb_fail(
				err, SB_USAGE, "At most %d settings can change at a time.", SB_CHANGES);
		if (take_change(part + strspn(part, " "), from_joint, &list[*count], err))
			return -1;
	}
	return 0;
}

static int change_it(const struct invocation *in, struct sb_store *store, const char *who, struct sb_err *err)
{
	struct change changes[SB_CHANGES] = { 0 };
	char reason[SB_REMARK_TEXT];
	size_t count;
	int next = sb_job_in_ground(sb_store_job(store)) + 1, from = next;

	if (sb_acting_reason(in, true, reason, err) ||
		(sb_command_value(in, "from-joint") &&
			sb_acting_whole(in, "from-joint", 0, 1000000, &from, err)) ||
		take_changes(in, from, changes, &count, err))
		return -1;
	return sb_store_change(store, who, changes, count, reason, err);
}

static int run_change(const struct invocation *in)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	const char *who;

	if (sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = change_it(in, store, who, &err);
	if (status == 0) {
		const struct job *job = sb_store_job(store);
		status = sb_acting_say("Changed: %s.", job->acts[job->act_count - 1].text);
		sb_acting_say_warnings(sb_store_solution(store));
	} else {
		status = sb_command_fail(&err);
	}
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_change = {
	.name = "change",
	.arguments = "JOB.bore --set SECTION.KEY=VALUE [--from-joint N] --reason TEXT [--by WHO]",
	.summary = "changes the azimuth reference or the tool while the bore is drilled",
	.detail =
		"Settings of the sections azimuth (but for scale_factor), tool and steering can change. Joints logged before keep what held for them, unless --from-joint says from which of them on the change holds as well; their positions are then computed anew. How sure the places are goes by the sigmas of the tool that reads now, over the whole bore.",
	.least = 1,
	.most = 1,
	.options = change_options,
	.run = run_change,
};

/* ---- repeat ---- */

static const struct option repeat_options[] = {
	{ "depth", "D", "of the sensor along the hole; left out: where the last reading was taken", false },
	{ "way", "again|out", "again at the same place (when left out), or on the way out of the hole",
		false },
	{ "inclination", "VALUE", "inclination as read, in the job's convention", false },
	{ "azimuth", "VALUE", "azimuth as the tool read it", false },
	{ "tool-face", "VALUE", "degrees clockwise from high side, looking ahead", false },
	{ "total-gravity", "VALUE", "as the tool showed it", false },
	{ "total-field", "VALUE", "as the tool showed it", false },
	{ "dip", "VALUE", "degrees below level, as the tool showed it", false },
	{ "remarks", "TEXT", "anything worth keeping", false },
	OPTION_BY,
	OPTION_END,
};

static int take_repeat(
	const struct invocation *in, const struct sb_store *store, struct repeat *r, struct sb_err *err)
{
	const struct solution *s = sb_store_solution(store);

	if (sb_acting_fact(in, sb_fact_sort(ACT_REPEAT), r, err))
		return -1;
	if (!sb_number_given(&r->inclination))
		return sb_fail(err, SB_USAGE, "--inclination VALUE is missing.");
	if (!sb_number_given(&r->depth))
		r->depth =
			sb_number_of(sb_frame_typed(&s->frame, sb_solution_last_on_path(s)->survey_md_m), 2);
	return 0;
}

static int run_repeat(const struct invocation *in)
{
	const char *remarks = sb_command_value(in, "remarks"), *who;
	struct repeat r = { 0 };
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };

	if (sb_acting_open(in, &store, &who, &err))
		return sb_command_fail(&err);
	int status = take_repeat(in, store, &r, &err) || sb_store_repeat(store, who, &r, remarks, &err)
		? sb_command_fail(&err)
		: EXIT_OK;
	if (status == EXIT_OK) {
		struct sb_str words = { 0 };
		const struct job *job = sb_store_job(store);
		sb_repeat_words(job, sb_store_solution(store), &job->repeats[job->repeat_count - 1], &words);
		sb_str_add(&words, "\n");
		status = sb_acting_put(&words, true);
	}
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_repeat = {
	.name = "repeat",
	.arguments = "JOB.bore --inclination I [--azimuth A] [--depth D] [--way again|out] [...] [--by WHO]",
	.summary = "keeps a reading that was taken again, and says how far it is from the path",
	.detail =
		"It never moves the path, and is never averaged with it: it stands beside it, and says what the noise of the readings is worth.",
	.least = 1,
	.most = 1,
	.options = repeat_options,
	.run = run_repeat,
};

/* Every screen played as text: the scripts of tests/screens over real job files, the clock at a stand. Then,
 * that no key of any table was left out by all of them.
 *
 * start KIND [JOINTS] [words]   KIND: plain, curved, graded, rehearsal; so many joints near the design
 *     placed       curved on a map, whose tool read the staked line 2.27 degrees beside the chain
 *     unmapped     the same on a map that no table has
 *     asked        plain, with points of the contract before the pilot is accepted, and no exit survey
 *     around       plain, with a gas main over it, a post ahead, and cover that is asked for
 *     piped        plain, with all that the estimate of the pull rests on, and a safe pull limit
 *     out          all joints of the plain design, to its exit
 *     breach       five joints, the last of them bend too tightly
 *     drifting     five joints that go low until the corridor is neared
 *     redrilled    two joints pulled back, one drilled again
 *     opened       a pass through the last two joints
 *     known        plain, with product pipe, fluid and soil that are known; plastic: the pipe of polyethylene
 *     shift        the crew "Night: Ida, Ben" is on
 *     onlooker     another program has the job; this one looks on
 *     ascii, lines, colourless    what the terminal cannot do
 * do log INCLINATION AZIMUTH      the other program logs a joint
 * do correct JOINT INCLINATION AZIMUTH    it corrects one
 * do reopen                       the program is killed and started again
 * do draft LEG JOINT NAME=TEXT    this was half typed
 * do full, do room                the disk is full, and has room again
 * do time HH:MM                   the clock
 * do joints N, do acts N          so many are on disk, and the file is whole
 */
#include "support/accept.h"
#include "support/files.h"
#include "support/jobs.h"
#include "support/near.h"
#include "support/script.h"

#include "base/str.h"
#include "base/time.h"
#include "model/rehearsal.h"
#include "store/backup.h"
#include "store/draft.h"
#include "ui/everywhere.h"
#include "ui/key.h"
#include "ui/screens.h"

#include <glob.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#define NOON INT64_C(1795608000000) /* 2026-11-25 12:00 UTC */
#define MINUTE INT64_C(60000)

static struct world {
	struct files files;
	struct sb_store *store; /* the screen's */
	struct sb_store *other; /* the writer's, while the screen looks on */
	struct app_options options;
} world;

static void must(int result, const struct sb_err *err)
{
	if (result)
		fail_msg("%s", err->text);
}

/* ---- jobs ---- */

static void log_one(struct sb_store *store, const char *inclination, const char *azimuth)
{
	struct reading r = jobs_reading(sb_store_job(store), "", inclination, azimuth);
	struct sb_err err = { 0 };

	must(sb_store_log(store, "Ida", &r, &err), &err);
}

static void log_breach(struct sb_store *store)
{
	static const char *const readings[][2] = { { "80.0", "90.0" }, { "80.1", "90.2" }, { "77.2", "90.0" },
		{ "74.0", "90.0" }, { "72.0", "90.0" } };

	for (size_t i = 0; i < 5; i++)
		log_one(store, readings[i][0], readings[i][1]);
}

static void log_drifting(struct sb_store *store)
{
	static const char *const readings[] = { "79.4", "79.0", "78.8", "78.6", "78.4" };

	for (size_t i = 0; i < 5; i++)
		log_one(store, readings[i], "90.0");
}

static void log_out(struct sb_store *store)
{
	struct sb_err err = { 0 };
	struct job design;

	jobs_plain(&design);
	jobs_follow(&design, 40);
	for (int joint = 1; joint <= 40; joint++)
		must(sb_store_log(store, "Ida", sb_job_joint(&design, joint), &err), &err);
	sb_job_clear(&design);
}

static void redrill(struct sb_store *store)
{
	struct sb_err err = { 0 };

	must(sb_store_withdraw(store, "Ben", sb_job_in_ground(sb_store_job(store)) - 2, "off line", &err),
		&err);
	files_log(store, 1);
}

static void begin_shift(struct sb_store *store)
{
	struct sb_err err = { 0 };

	must(sb_store_shift_begin(store, "Ida", "Night: Ida, Ben", &err), &err);
}

/* A pass through the last two joints, the second of them written down with too much pull. */
static void open_hole(struct sb_store *store)
{
	struct sb_err err = { 0 };
	struct pass ream = { .diameter = sb_number_of(24, 0), .tool = "fly cutter" };
	struct pass_joint joint = { .pass = 1, .pull = sb_number_of(21000, 0) };

	must(accept_as_it_is(store, &err), &err);
	must(sb_store_enter(store, "Ida", ACT_PASS, &ream, "pass 1, ream 24 to the entry", "", &err), &err);
	joint.joint = sb_job_in_ground(sb_store_job(store));
	must(sb_store_enter(store, "Ida", ACT_PASS_JOINT, &joint, "pass 1", "steady", &err), &err);
	joint.joint--;
	joint.pull = sb_number_of(121000, 0);
	must(sb_store_enter(store, "Ben", ACT_PASS_JOINT, &joint, "pass 1", "", &err), &err);
}

static void rehearsal(struct job *job)
{
	struct sb_err err = { 0 };

	jobs_plain(job);
	must(sb_rehearsal_mark(job, sb_rehearsal_scenario("nominal"), 7, &err), &err);
}

/* At 45.1 north and 6.5 east of UTM zone 32: convergence -1.80 and scale 1.000092 are found, so the job's
 * -1.20 and 0.9996 do not fit, and its declination of 3.40 does. */
static void placed(struct job *job)
{
	jobs_curved(job);
	jobs_set(job, "control", "crs", "EPSG:25832");
	jobs_set(job, "azimuth", "bore_azimuth_read", "30.0");
}

static void unmapped(struct job *job)
{
	placed(job);
	jobs_set(job, "control", "crs", "EPSG:999999");
}

/* A main that is passed at 150 ft, 14 ft below it; a post 6 ft to the left at 400. */
static void around(struct job *job)
{
	jobs_plain(job);
	jobs_set(job, "hole", "pilot_diameter", "12");
	jobs_set(job, "hole", "final_diameter", "24");
	jobs_set(job, "cover", "minimum", "10");
	jobs_set(job, "cover", "from", "100");
	jobs_row(job, "obstacles", (const char *const[]){ "gas main", "gas", "5150", "900", "90", "1", "5" });
	jobs_row(
		job, "obstacles", (const char *const[]){ "gas main", "gas", "5150", "1100", "90", "1", "5" });
	jobs_row(job, "obstacles", (const char *const[]){ "post", "pile", "5400", "1006", "20", "1", "3" });
	jobs_row(job, "obstacles", (const char *const[]){ "post", "pile", "5400", "1006", "70", "1", "3" });
}

static void piped(struct job *job)
{
	jobs_plain(job);
	jobs_set(job, "hole", "final_diameter", "24");
	jobs_set(job, "fluid", "weight", "9");
	jobs_set(job, "pull", "safe_force", "60000");
}

/* 12.75 in of X52 in a hole of 20; 9 lb/gal; sand over clay. */
static void known(struct job *job)
{
	static const char *const keys[][3] = { { "product_pipe", "yield", "52000" },
		{ "pull", "safe_force", "60000" }, { "hole", "pilot_diameter", "9.875" },
		{ "hole", "final_diameter", "20" }, { "drill_pipe", "outside_diameter", "5" },
		{ "fluid", "weight", "9" }, { "fluid", "plastic_viscosity", "14" },
		{ "fluid", "yield_point", "18" }, { "fluid", "flow", "250" },
		{ "fluid", "ream_flow", "400" } };

	jobs_plain(job);
	for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
		jobs_set(job, keys[i][0], keys[i][1], keys[i][2]);
	jobs_row(job, "soil",
		(const char *const[]){ "-50", "1250", "100", "silty sand", "115", "0", "30", "1100", "90" });
	jobs_row(job, "soil",
		(const char *const[]){ "-50", "1250", "60", "soft clay", "104", "3.5", "0", "380", "90" });
}

/* Without a minimum radius, bending is not judged. On such rollers the string is heaviest before it goes in.
 */
static void plastic(struct job *job)
{
	known(job);
	jobs_set(job, "product_pipe", "material", "pe");
	jobs_set(job, "product_pipe", "wall", "1.159");
	jobs_set(job, "product_pipe", "density", "59.3");
	jobs_set(job, "product_pipe", "modulus", "56500");
	jobs_set(job, "product_pipe", "pull_stress", "1150");
	jobs_set(job, "pull", "friction_rollers", "1");
}

static void asked(struct job *job)
{
	jobs_plain(job);
	jobs_set(job, "acceptance", "exit_survey", "no");
	jobs_row(job, "checklist", (const char *const[]){ "As-built drawing handed over" });
}

static bool word_in(const char *words, const char *word)
{
	const char *found = strstr(words, word);

	return found && (found == words || found[-1] == ' ') && strchr(" ", found[strlen(word)]);
}

static void make_job(const char *words)
{
	static const struct {
		const char *word;
		void (*act)(struct sb_store *store);
	} acts[] = { { "shift", begin_shift }, { "breach", log_breach }, { "drifting", log_drifting },
		{ "redrilled", redrill }, { "out", log_out }, { "opened", open_hole } };
	struct sb_err err = { 0 };
	struct sb_store *store = NULL;

	files_make(&world.files,
		word_in(words, "curved")	      ? jobs_curved
			: word_in(words, "graded")    ? jobs_graded
			: word_in(words, "rehearsal") ? rehearsal
			: word_in(words, "placed")    ? placed
			: word_in(words, "unmapped")  ? unmapped
			: word_in(words, "asked")     ? asked
			: word_in(words, "around")    ? around
			: word_in(words, "piped")     ? piped
			: word_in(words, "known")     ? known
			: word_in(words, "plastic")   ? plastic
						      : jobs_plain,
		atoi(words + strcspn(words, "0123456789")));
	must(sb_store_open(world.files.job, STORE_WRITE, "Ida", &store, &err), &err);
	for (size_t i = 0; i < sizeof acts / sizeof *acts; i++)
		if (word_in(words, acts[i].word))
			acts[i].act(store);
	sb_store_close(store);
}

static void open_screen(struct script *s, bool onlooker)
{
	struct sb_err err = { 0 };

	must(sb_store_open(world.files.job, onlooker ? STORE_READ : STORE_WRITE, "Ida", &world.store, &err),
		&err);
	world.options = (struct app_options){
		.store = world.store, .who = "Ida", .everywhere = sb_everywhere, .first = sb_screens[0]
	};
	script_start(s, &world.options);
}

/* ---- what else can happen ---- */

static bool on_disk(size_t joints, size_t acts)
{
	struct verify_report report = { 0 };
	struct sb_err err = { 0 };
	struct sb_store *store = NULL;

	must(sb_store_verify(world.files.job, &report, &err), &err);
	if (report.damages)
		fail_msg("%s", sb_str_get(&report.text));
	sb_verify_report_clear(&report);
	must(sb_store_open(world.files.job, STORE_READ, "", &store, &err), &err);
	const struct job *job = sb_store_job(store);
	bool right = (joints == SIZE_MAX || job->joint_count == joints) &&
		(acts == SIZE_MAX || job->act_count == acts);
	if (!right)
		print_error("%zu joints and %zu acts are on disk\n", job->joint_count, job->act_count);
	sb_store_close(store);
	return right;
}

static bool do_joints(struct script *s, const char *words)
{
	(void)s;
	return on_disk((size_t)atoi(words), SIZE_MAX);
}

static bool do_acts(struct script *s, const char *words)
{
	(void)s;
	return on_disk(SIZE_MAX, (size_t)atoi(words));
}

static bool do_log(struct script *s, const char *words)
{
	char inclination[16], azimuth[16];

	if (world.other == NULL || sscanf(words, "%15s %15s", inclination, azimuth) != 2)
		return false;
	log_one(world.other, inclination, azimuth);
	script_tick(s);
	return true;
}

static bool do_correct(struct script *s, const char *words)
{
	char inclination[16], azimuth[16];
	struct sb_err err = { 0 };
	int joint;

	if (world.other == NULL || sscanf(words, "%d %15s %15s", &joint, inclination, azimuth) != 3)
		return false;
	const struct job *job = sb_store_job(world.other);
	const struct reading *old = sb_job_joint(job, joint);
	struct reading r = jobs_reading(job, old->joint_length.text, inclination, azimuth);
	sb_copy(r.reason, sizeof r.reason, "misread");
	must(sb_store_correct(world.other, "Ben", old->id, &r, &err), &err);
	script_tick(s);
	return true;
}

static bool do_reopen(struct script *s, const char *words)
{
	(void)words;
	sb_app_free(s->app);
	sb_store_close(world.store);
	s->over = false;
	open_screen(s, world.other != NULL);
	return true;
}

static bool do_draft(struct script *s, const char *words)
{
	struct draft d = { .at_ms = NOON, .count = 1 };
	struct sb_err err = { 0 };

	(void)s;
	if (sscanf(words, "%d %d %31[^=]=%255[^\n]", &d.leg, &d.joint, d.fields[0].name, d.fields[0].text) !=
		4)
		return false;
	must(sb_draft_save(world.files.job, &d, false, &err), &err);
	return true;
}

static void limit_files(rlim_t most)
{
	struct rlimit limit;

	signal(SIGXFSZ, SIG_IGN);
	assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
	limit.rlim_cur = most < limit.rlim_max ? most : limit.rlim_max;
	assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
}

/* No file may grow past a few hundred bytes: what is half typed finds room, a page of the job file does not.
 */
static bool do_full(struct script *s, const char *words)
{
	(void)s;
	(void)words;
	fflush(stdout);
	limit_files(1024);
	return true;
}

static bool do_room(struct script *s, const char *words)
{
	(void)s;
	(void)words;
	limit_files(RLIM_INFINITY);
	return true;
}

static bool do_time(struct script *s, const char *words)
{
	int hour, minute;

	if (sscanf(words, "%d:%d", &hour, &minute) != 2)
		return false;
	sb_time_freeze(NOON + ((hour - 12) * 60 + minute) * MINUTE);
	script_tick(s);
	return true;
}

static bool act(struct script *s, const char *words, void *context)
{
	static const struct {
		const char *word;
		bool (*act)(struct script *s, const char *words);
	} acts[] = { { "joints", do_joints }, { "acts", do_acts }, { "log", do_log },
		{ "correct", do_correct }, { "reopen", do_reopen }, { "draft", do_draft },
		{ "full", do_full }, { "room", do_room }, { "time", do_time } };
	size_t length = strcspn(words, " ");

	(void)context;
	for (size_t i = 0; i < sizeof acts / sizeof *acts; i++)
		if (strlen(acts[i].word) == length && strncmp(words, acts[i].word, length) == 0)
			return acts[i].act(s, words + length);
	return false;
}

/* ---- playing ---- */

static void begin(struct script *s, const char *words, void *context)
{
	struct sb_err err = { 0 };

	(void)context;
	setenv("TZ", "UTC", 1);
	sb_time_freeze(NOON);
	make_job(words);
	s->act = act;
	if (word_in(words, "ascii"))
		s->facts.best = s->facts.glyphs = GLYPHS_ASCII;
	if (word_in(words, "lines"))
		s->facts.best = s->facts.glyphs = GLYPHS_LINES;
	if (word_in(words, "colourless"))
		s->facts.colours = 0;
	if (word_in(words, "onlooker"))
		must(sb_store_open(world.files.job, STORE_WRITE, "Ida", &world.other, &err), &err);
	open_screen(s, world.other != NULL);
}

static void end(struct script *s, void *context)
{
	(void)s;
	(void)context;
	limit_files(RLIM_INFINITY);
	sb_store_close(world.store);
	sb_store_close(world.other);
	files_remove(&world.files);
	world = (struct world){ 0 };
}

static void every_script_plays(void **state)
{
	int failed = 0;
	glob_t found;

	(void)state;
	assert_int_equal(glob("tests/screens/*.scr", 0, NULL, &found), 0);
	for (size_t i = 0; i < found.gl_pathc; i++)
		if (strcmp(found.gl_pathv[i], "tests/screens/tiny.scr") != 0)
			failed += script_play(found.gl_pathv[i], begin, end, NULL) != 0;
	assert_true(found.gl_pathc > 20);
	globfree(&found);
	assert_int_equal(failed, 0);
}

/* ---- nothing left out ---- */

static int unpressed(const char *screen, const struct action *table)
{
	char name[SB_KEY_TEXT];
	int count = 0;

	for (const struct action *a = table; a && a->name; a++) {
		const char *keys = a->keys;
		for (int key; (key = sb_key_next(&keys)) != SB_KEY_NONE;)
			if (!script_pressed(screen, key)) {
				print_error("%s: %s: no script presses %s\n", screen, a->name,
					sb_key_name(key, name));
				count++;
			}
	}
	return count;
}

static void every_key_of_every_screen_is_pressed_by_some_script(void **state)
{
	int count = unpressed("log", sb_everywhere);

	(void)state;
	for (const struct screen *const *s = sb_screens; *s; s++) {
		count += unpressed((*s)->name, (*s)->actions);
		for (size_t i = 0; i < SB_SCREEN_WIDGETS; i++)
			count += unpressed((*s)->name, (*s)->widgets[i]);
	}
	assert_int_equal(count, 0);
}

/* With names of scripts: plays those alone. */
int main(int argc, char **argv)
{
	int failed = 0;

	for (int i = 1; i < argc; i++)
		failed += script_play(argv[i], begin, end, NULL) != 0;
	if (argc > 1)
		return failed != 0;

	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_script_plays),
		cmocka_unit_test(every_key_of_every_screen_is_pressed_by_some_script), /* after them */
	};
	return run_tests(tests);
}

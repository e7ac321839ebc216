/* sagbend compute: the bare engine as a filter. CSV md,inclination,azimuth in, positions out; no job file, no
 * unit: lengths pass through.
 */
#include "base/str.h"
#include "base/unit.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "geom/angle.h"
#include "geom/arc.h"
#include "geom/bend.h"
#include "io/csv.h"
#include "io/write.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct option options[] = {
	{ "inclination", "down|level|grade",
		"how inclination is given; down (0 straight down, 90 level) when left out", false },
	{ "start", "N,E,UP", "position of the first row; 0,0,0 when left out", false },
	{ NULL, NULL, NULL, false },
};

/* One row of the input, and the state of the walk. */
struct walk {
	enum incline incline;
	struct vec3 at;
	struct attitude last;
	double md;
	bool begun;
	long ambiguous_line; /* the first course that turned right back, 0: none */
	struct csv_out out;
	struct sb_write *target;
};

struct input {
	int line;
	struct number md, inclination, azimuth;
};

static int parse_start(const char *text, struct vec3 *at, struct sb_err *err)
{
	char copy[128], *from = copy;
	double *const parts[] = { &at->n, &at->e, &at->u };
	struct number n;

	if (!sb_copy(copy, sizeof copy, text))
		return sb_fail(err, SB_USAGE, "--start is too long: three numbers, like 1000,5000,100.");
	for (int i = 0; i < 3; i++) {
		char *part = strsep(&from, ",");
		if (part == NULL || sb_number_parse(part, &n, err))
			return sb_fail(err, SB_USAGE,
				"--start '%.60s' is not three numbers, like 1000,5000,100.", text);
		*parts[i] = n.value;
	}
	return from ? sb_fail(err, SB_USAGE, "--start '%.60s' has more than three numbers.", text) : 0;
}

static void put_row(struct walk *w, const struct input *in, double dogleg, double radius)
{
	sb_csv_cell(&w->out, in->md.text);
	sb_csv_cell(&w->out, in->inclination.text);
	sb_csv_cell(&w->out, in->azimuth.text);
	sb_csv_cell_fixed(&w->out, w->at.n, 9);
	sb_csv_cell_fixed(&w->out, w->at.e, 9);
	sb_csv_cell_fixed(&w->out, w->at.u, 9);
	sb_csv_cell_fixed(&w->out, sb_deg(dogleg), 9);
	sb_csv_cell_fixed(&w->out, radius, 9);
	sb_csv_end(&w->out);
	/* The text goes on at once, so a long survey does not have to fit in memory. */
	sb_write_put(w->target, sb_str_get(&w->out.text), w->out.text.length);
	w->out.text.length = 0;
}

static bool check_row(struct walk *w, struct sb_csv *csv, const struct input *in)
{
	double low, high;

	sb_incline_range(w->incline, &low, &high);
	if (!(in->inclination.value >= low && in->inclination.value <= high)) {
		sb_csv_wrong(csv, in->line, "inclination",
			"%s cannot be: between %g and %g is right for --inclination %s.",
			in->inclination.text, low, high, sb_incline_name(w->incline));
		return false;
	}
	if (!(fabs(in->azimuth.value) <= 360)) {
		sb_csv_wrong(csv, in->line, "azimuth", "%s cannot be: between 0 and 360 is right.",
			in->azimuth.text);
		return false;
	}
	if (w->begun && in->md.value < w->md) {
		sb_csv_wrong(
			csv, in->line, "md", "%s goes back: the row before is at %.10g.", in->md.text, w->md);
		return false;
	}
	return true;
}

static void walk_row(struct walk *w, const struct input *in)
{
	struct attitude now =
		sb_attitude(sb_incline_radians(w->incline, in->inclination.value), sb_rad(in->azimuth.value));
	struct arc arc = { 0 };

	if (w->begun) {
		if (sb_arc_between(&w->last, &now, in->md.value - w->md, &arc) == ARC_AMBIGUOUS &&
			w->ambiguous_line == 0)
			w->ambiguous_line = in->line;
		w->at = sb_vec3_add(w->at, arc.step);
	}
	put_row(w, in, arc.dogleg_rad, w->begun ? sb_bend_radius(arc.length_m, arc.dogleg_rad) : HUGE_VAL);
	w->last = now;
	w->md = in->md.value;
	w->begun = true;
}

static bool read_cell(struct sb_csv *csv, const struct csv_row *row, int column, struct number *out)
{
	struct sb_err err = { 0 };

	if (!sb_csv_decimal(csv, row, (size_t)column))
		return false;
	if (sb_number_parse(row->cells[column], out, &err)) {
		sb_csv_wrong(csv, row->line, sb_csv_column(csv, (size_t)column), "%s", err.text);
		return false;
	}
	return true;
}

static int walk_all(struct walk *w, struct sb_csv *csv, struct sb_problems *problems)
{
	static const char *const names[] = { "md", "inclination", "azimuth" };
	const struct csv_row *row;
	int columns[3];

	for (int i = 0; i < 3; i++) {
		columns[i] = sb_csv_find(csv, names[i]);
		if (columns[i] < 0)
			sb_csv_wrong(csv, 1, names[i],
				"there is no such column: the header must name md, inclination and azimuth.");
	}
	if (problems->errors)
		return -1;
	while ((row = sb_csv_next(csv)) != NULL) {
		struct input in = { .line = row->line };
		struct number *const to[] = { &in.md, &in.inclination, &in.azimuth };
		bool good = true;
		for (int i = 0; i < 3; i++)
			good &= read_cell(csv, row, columns[i], to[i]);
		if (!good || !check_row(w, csv, &in))
			break;
		walk_row(w, &in);
	}
	return problems->errors ? -1 : 0;
}

static int run(const struct invocation *in)
{
	static const char header[] = "md,inclination,azimuth,north,east,up,dogleg,radius\r\n";
	const char *incline = sb_command_value(in, "inclination"), *start = sb_command_value(in, "start");
	struct walk w = { .incline = INCLINE_DOWN };
	struct sb_problems problems = { 0 };
	struct sb_csv *csv = NULL;
	struct sb_err err = { 0 };

	const char *path = in->count ? in->positional[0] : "-";
	if (incline && sb_incline_parse(incline, &w.incline, &err)) {
		err.code = SB_USAGE;
		return sb_command_fail(&err);
	}
	if ((start && parse_start(start, &w.at, &err)) || sb_acting_there(path, &err))
		return sb_command_fail(&err);
	if (sb_write_begin("-", false, &w.target, &err))
		return sb_command_fail(&err);
	int status = sb_csv_open(path, sb_same(path, "-") ? "standard input" : path, &csv, &problems);
	if (status == 0) {
		sb_write_put(w.target, header, sizeof header - 1);
		status = walk_all(&w, csv, &problems);
	}
	sb_csv_close(csv);
	sb_str_clear(&w.out.text);
	int wrote = sb_write_end(w.target, &err);
	sb_acting_say_problems(&problems);
	sb_problems_clear(&problems);
	if (status == 0 && w.ambiguous_line)
		fprintf(stderr,
			"sagbend: line %ld turns right back: the plane of the turn is not known and was taken through straight "
			"up.\n",
			w.ambiguous_line);
	if (wrote)
		return sb_command_fail(&err);
	return status ? EXIT_DATA : EXIT_OK;
}

const struct command sb_cmd_compute = {
	.name = "compute",
	.arguments = "[FILE.csv] [--inclination down|level|grade] [--start N,E,UP]",
	.summary = "the bare engine as a filter: surveys in, positions out, no job file",
	.detail =
		"Reads CSV with the columns md, inclination and azimuth from the file or standard input; writes "
		"md,inclination,azimuth,north,east,up,dogleg,radius. Lengths have no unit and pass through. dogleg: degrees "
		"over the interval; radius: blank when straight. The first row is the start. Minimum curvature.",
	.least = 0,
	.most = 1,
	.options = options,
	.run = run,
};

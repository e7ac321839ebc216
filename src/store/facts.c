/* Writing facts. Numbers go in as the text that was typed; what was not given goes in as NULL. */
#include "store/facts.h"

#include "base/str.h"
#include "base/time.h"
#include "model/setting.h"
#include "model/warning.h"

#include <assert.h>
#include <stdio.h>

#define SHEET(table, columns, values) \
	{ \
		table, "INSERT INTO " table " (id, act, " columns ") VALUES (:id, :act, " values ")", \
			"SELECT " columns " FROM " table " ORDER BY id" \
	}

const struct sheet_sql sb_facts_sheets[] = {
	SHEET("alignment", "easting, northing, radius", ":easting, :northing, :radius"),
	SHEET("profile", "station, elevation, radius", ":station, :elevation, :radius"),
	SHEET("corridor", "\"from\", \"to\", up, down, \"left\", \"right\", cover",
		":from, :to, :up, :down, :left, :right, :cover"),
	SHEET("ground", "station, elevation", ":station, :elevation"),
	SHEET("obstacles", "name, kind, easting, northing, elevation, diameter, clearance",
		":name, :kind, :easting, :northing, :elevation, :diameter, :clearance"),
	SHEET("tally", "joint, length", ":joint, :length"),
	SHEET("soil",
		"\"from\", \"to\", top, name, unit_weight, cohesion, friction, shear_modulus, ground_water",
		":from, :to, :top, :name, :unit_weight, :cohesion, :friction, :shear_modulus, :ground_water"),
	SHEET("checklist", "point", ":point"),
};
const size_t sb_facts_sheet_count = sizeof sb_facts_sheets / sizeof *sb_facts_sheets;

/* The same for the facts that come one with an act, in the order of sb_fact_sorts. */
#define FACT(table, columns, values) \
	{ \
		"INSERT INTO " table " (id, act, " columns ") VALUES (:id, :act, " values ")", \
			"SELECT id, act, " columns " FROM " table " ORDER BY id" \
	}

static void bind_given(struct sb_query *q, const char *name, const char *text)
{
	sb_sql_bind_text(q, name, *text ? text : NULL);
}

/* Binds text to the parameter that is called like a column. */
static void bind_column(struct sb_query *q, const char *column, const char *text)
{
	char name[64];

	snprintf(name, sizeof name, ":%s", column);
	bind_given(q, name, text);
}

int sb_facts_act(
	struct sb_sql *db, struct chain_end *end, const struct act *a, const char *uid, struct sb_err *err)
{
	char at[SB_TIME_TEXT];
	struct sb_query *q = sb_sql_kept(db,
		"INSERT INTO act (id, uid, kind, at, utc_offset, who, leg, joint, words)"
		" VALUES (:id, :uid, :kind, :at, :utc_offset, :who, :leg, :joint, :words)");

	sb_time_iso(a->at_ms, at);
	sb_sql_bind_int(q, ":id", a->id);
	sb_sql_bind_text(q, ":uid", uid);
	sb_sql_bind_text(q, ":kind", sb_act_name(a->kind));
	sb_sql_bind_text(q, ":at", at);
	sb_sql_bind_int(q, ":utc_offset", a->offset_min);
	sb_sql_bind_text(q, ":who", a->who);
	sb_sql_bind_int(q, ":leg", a->leg);
	sb_sql_bind_int(q, ":joint", a->joint);
	bind_given(q, ":words", a->text);
	if (sb_sql_run(q, err))
		return -1;
	return sb_chain_add(db, end, a->id, "act", a->id, err);
}

int sb_facts_reading(struct sb_sql *db, struct chain_end *end, const struct reading *r, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db,
		"INSERT INTO reading (id, act, corrects, leg, joint, joint_length, inclination, azimuth, tool_face, slid,"
		" thrust, torque, flow, standpipe, annular, returns, started, ended, remarks, azimuth_by, pushes,"
		" total_gravity, total_field, dip, gravity_x, gravity_y, gravity_z, field_x, field_y, field_z)"
		" VALUES (:id, :act, nullif(:corrects, 0), :leg, :joint, :joint_length, :inclination, :azimuth, :tool_face,"
		" :slid, :thrust, :torque, :flow, :standpipe, :annular, :returns, :started, :ended, :remarks, :azimuth_by,"
		" :pushes, :total_gravity, :total_field, :dip, :gravity_x, :gravity_y, :gravity_z, :field_x, :field_y,"
		" :field_z)");

	sb_sql_bind_int(q, ":id", r->id);
	sb_sql_bind_int(q, ":act", r->act);
	sb_sql_bind_int(q, ":corrects", r->corrects);
	sb_sql_bind_int(q, ":leg", r->leg);
	sb_sql_bind_int(q, ":joint", r->joint);
	for (size_t i = 0; i < sb_row_field_count; i++)
		bind_column(q, sb_row_fields[i].name, sb_row_field_get(&sb_row_fields[i], r));
	if (sb_sql_run(q, err))
		return -1;
	return sb_chain_add(db, end, r->act, "reading", r->id, err);
}

int sb_facts_leg(struct sb_sql *db, struct chain_end *end, const struct leg *l, struct sb_err *err)
{
	struct sb_query *q =
		sb_sql_kept(db, "INSERT INTO leg (id, act, to_joint) VALUES (:id, :act, :to_joint)");

	sb_sql_bind_int(q, ":id", l->number);
	sb_sql_bind_int(q, ":act", l->act);
	sb_sql_bind_int(q, ":to_joint", l->to_joint);
	if (sb_sql_run(q, err))
		return -1;
	return sb_chain_add(db, end, l->act, "leg", l->number, err);
}

int sb_facts_acknowledgement(struct sb_sql *db, struct chain_end *end, int64_t id,
	const struct acknowledgement *a, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db,
		"INSERT INTO acknowledgement (id, act, kind, leg, joint, to_joint, level)"
		" VALUES (:id, :act, :kind, :leg, :joint, :to_joint, :level)");

	sb_sql_bind_int(q, ":id", id);
	sb_sql_bind_int(q, ":act", a->act);
	sb_sql_bind_text(q, ":kind", a->kind);
	sb_sql_bind_int(q, ":leg", a->leg);
	sb_sql_bind_int(q, ":joint", a->joint);
	sb_sql_bind_int(q, ":to_joint", a->to_joint);
	sb_sql_bind_text(q, ":level", sb_level_word((enum level)a->level));
	if (sb_sql_run(q, err))
		return -1;
	return sb_chain_add(db, end, a->act, "acknowledgement", id, err);
}

int sb_facts_change(
	struct sb_sql *db, struct chain_end *end, int64_t id, const struct change *c, struct sb_err *err)
{
	struct sb_query *q = sb_sql_kept(db,
		"INSERT INTO setting (id, act, section, key, value, from_joint)"
		" VALUES (:id, :act, :section, :key, :value, :from_joint)");

	sb_sql_bind_int(q, ":id", id);
	sb_sql_bind_int(q, ":act", c->fact.act);
	sb_sql_bind_text(q, ":section", c->section);
	sb_sql_bind_text(q, ":key", c->key);
	sb_sql_bind_text(q, ":value", c->value);
	sb_sql_bind_int(q, ":from_joint", c->from_joint);
	if (sb_sql_run(q, err))
		return -1;
	return sb_chain_add(db, end, c->fact.act, "setting", id, err);
}

static const struct fact_sql sorts[] = {
	FACT("repeat", "way, depth, inclination, azimuth, tool_face, total_gravity, total_field, dip",
		":way, :depth, :inclination, :azimuth, :tool_face, :total_gravity, :total_field, :dip"),
	FACT("fix",
		"kind, depth, easting, northing, station, offset, elevation, sigma_along, sigma_across, sigma_up",
		":kind, :depth, :easting, :northing, :station, :offset, :elevation, :sigma_along, :sigma_across,"
		" :sigma_up"),
	FACT("fix_use", "fix, used", ":fix, :used"),
	FACT("adjustment", "taken, inclination, azimuth, stretch, fixes",
		":taken, :inclination, :azimuth, :stretch, :fixes"),
	FACT("disposition", "kind, from_leg, from_joint, value, accepted, reference",
		":kind, :from_leg, :from_joint, :value, :accepted, :reference"),
	FACT("ticked", "point, done, reference", ":point, :done, :reference"),
	FACT("acceptance", "accepted, capacity", ":accepted, :capacity"),
	FACT("fluid_event", "kind, station, volume, place, receiving, told, done, \"of\"",
		":kind, :station, :volume, :place, :receiving, :told, :done, :of"),
	FACT("pass", "kind, \"to\", diameter, tool", ":kind, :to, :diameter, :tool"),
	FACT("pass_joint", "pass, joint, pull, torque, flow, pressure, annular, started, ended, returns",
		":pass, :joint, :pull, :torque, :flow, :pressure, :annular, :started, :ended, :returns"),
	FACT("pass_end", "pass", ":pass"),
	FACT("pipe", "joint, length, mark", ":joint, :length, :mark"),
	FACT("pipe_record", "kind, joint, outcome, pressure, hours, reference",
		":kind, :joint, :outcome, :pressure, :hours, :reference"),
	FACT("pull_begin", "missing", ":missing"),
	FACT("pull_joint", "joint, force, torque, flow, annular, started, ended",
		":joint, :force, :torque, :flow, :annular, :started, :ended"),
	FACT("pull_end", "extra, coating, survey", ":extra, :coating, :survey"),
	FACT("strike", "entry", ":entry"),
};

const struct fact_sql *sb_facts_sql(const struct fact_sort *sort)
{
	return &sorts[sort - sb_fact_sorts];
}

int sb_facts_sort(struct sb_sql *db, struct chain_end *end, const struct fact_sort *sort, const void *fact,
	struct sb_err *err)
{
	const struct fact *head = fact;
	struct sb_query *q = sb_sql_kept(db, sb_facts_sql(sort)->insert);

	sb_sql_bind_int(q, ":id", head->id);
	sb_sql_bind_int(q, ":act", head->act);
	for (size_t i = 0; i < sort->column_count; i++) {
		char buffer[SB_NUMBER_TEXT];
		bind_column(q, sort->columns[i].name, sb_fact_column(sort, i, fact, buffer));
	}
	if (sb_sql_run(q, err))
		return -1;
	return sb_chain_add(db, end, head->act, sort->table, head->id, err);
}

static int write_settings(
	struct sb_sql *db, struct chain_end *end, const struct job *job, int64_t act, struct sb_err *err)
{
	int64_t id = 0;

	for (size_t i = 0; i < sb_setting_count; i++) {
		char value[SB_NAME_TEXT + 4 * SB_NUMBER_TEXT];
		if (!sb_setting_get(&sb_settings[i], job, value, sizeof value))
			continue;
		struct sb_query *q = sb_sql_kept(db,
			"INSERT INTO setting (id, act, section, key, value) VALUES (:id, :act, :section, :key, :value)");
		sb_sql_bind_int(q, ":id", ++id);
		sb_sql_bind_int(q, ":act", act);
		sb_sql_bind_text(q, ":section", sb_settings[i].section);
		sb_sql_bind_text(q, ":key", sb_settings[i].key);
		sb_sql_bind_text(q, ":value", value);
		if (sb_sql_run(q, err) || sb_chain_add(db, end, act, "setting", id, err))
			return -1;
	}
	return 0;
}

static int write_table(struct sb_sql *db, struct chain_end *end, const struct sheet_sql *sql,
	const struct job *job, int64_t act, struct sb_err *err)
{
	const struct sheet_table *table = sb_sheet_table(sql->name);

	assert(table);
	for (size_t i = 0; i < sb_sheet_rows(table, job); i++) {
		const void *row = sb_sheet_row(table, job, i);
		int64_t id = (int64_t)i + 1;
		struct sb_query *q = sb_sql_kept(db, sql->insert);
		sb_sql_bind_int(q, ":id", id);
		sb_sql_bind_int(q, ":act", act);
		for (size_t c = 0; c < table->column_count; c++) {
			char buffer[SB_NUMBER_TEXT];
			bind_column(q, table->columns[c].name,
				sb_sheet_cell_get(&table->columns[c], row, buffer));
		}
		if (sb_sql_run(q, err) || sb_chain_add(db, end, act, sql->name, id, err))
			return -1;
	}
	return 0;
}

int sb_facts_sheet(
	struct sb_sql *db, struct chain_end *end, const struct job *job, int64_t act, struct sb_err *err)
{
	if (write_settings(db, end, job, act, err))
		return -1;
	for (size_t i = 0; i < sb_facts_sheet_count; i++)
		if (write_table(db, end, &sb_facts_sheets[i], job, act, err))
			return -1;
	return 0;
}

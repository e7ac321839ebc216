/* Sizes are definitions: 1 g = 9.80665 m/s2 (CGPM 1901), 1 Gal = 0.01 m/s2, 1 ft = 0.3048 m, 1 G = 1e-4 T. */
#include "model/tool_unit.h"

#include <string.h>

#define STANDARD 9.80665

const struct tool_unit sb_gravity_units[] = {
	{ "g", "g", 1, 4 },
	{ "mg", "thousandths of g", 1e-3, 1 },
	{ "m/s2", "metres per second squared", 1 / STANDARD, 3 },
	{ "ft/s2", "feet per second squared", 0.3048 / STANDARD, 3 },
	{ "Gal", "gal", 1e-2 / STANDARD, 1 },
	{ "mGal", "milligal", 1e-5 / STANDARD, 0 },
};
const size_t sb_gravity_unit_count = sizeof sb_gravity_units / sizeof *sb_gravity_units;

const struct tool_unit sb_field_units[] = {
	{ "nT", "nanotesla", 1, 0 },
	{ "uT", "microtesla", 1e3, 2 },
	{ "mT", "millitesla", 1e6, 5 },
	{ "T", "tesla", 1e9, 8 },
	{ "mG", "milligauss", 1e2, 1 },
	{ "G", "gauss", 1e5, 4 },
};
const size_t sb_field_unit_count = sizeof sb_field_units / sizeof *sb_field_units;

static const struct tool_unit *find(const struct tool_unit *units, size_t count, const char *name)
{
	for (size_t i = 0; i < count; i++)
		if (strcmp(units[i].name, name) == 0)
			return &units[i];
	return NULL;
}

const struct tool_unit *sb_gravity_unit(const char *name)
{
	return find(sb_gravity_units, sb_gravity_unit_count, name);
}

const struct tool_unit *sb_field_unit(const char *name)
{
	return find(sb_field_units, sb_field_unit_count, name);
}

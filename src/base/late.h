/* PROJ, loaded when it is first asked for: with it come some forty libraries and ten megabytes, which a hand
 * who opens the screen to log a joint must not wait for. Its functions are called through one table, by the
 * names that its own header gives them, less the prefix.
 */
#ifndef SB_BASE_LATE_H
#define SB_BASE_LATE_H

#include "base/err.h"

#include <geodesic.h>
#include <proj.h>

/* Of PROJ 9.1 (Debian 12): proj.h, geodesic.h. */
#define LATE_FUNCTIONS(X) \
	X(as_wkt, proj_as_wkt) \
	X(context_create, proj_context_create) \
	X(context_destroy, proj_context_destroy) \
	X(context_get_database_metadata, proj_context_get_database_metadata) \
	X(context_get_database_path, proj_context_get_database_path) \
	X(context_set_enable_network, proj_context_set_enable_network) \
	X(create, proj_create) \
	X(create_crs_to_crs_from_pj, proj_create_crs_to_crs_from_pj) \
	X(crs_get_coordinate_system, proj_crs_get_coordinate_system) \
	X(crs_get_datum_forced, proj_crs_get_datum_forced) \
	X(crs_get_geodetic_crs, proj_crs_get_geodetic_crs) \
	X(crs_get_sub_crs, proj_crs_get_sub_crs) \
	X(cs_get_axis_info, proj_cs_get_axis_info) \
	X(destroy, proj_destroy) \
	X(ellipsoid_get_parameters, proj_ellipsoid_get_parameters) \
	X(errno_of, proj_errno) \
	X(errno_reset, proj_errno_reset) \
	X(get_area_of_use, proj_get_area_of_use) \
	X(get_ellipsoid, proj_get_ellipsoid) \
	X(get_id_code, proj_get_id_code) \
	X(get_name, proj_get_name) \
	X(get_prime_meridian, proj_get_prime_meridian) \
	X(get_type, proj_get_type) \
	X(is_deprecated, proj_is_deprecated) \
	X(log_func, proj_log_func) \
	X(normalize_for_visualization, proj_normalize_for_visualization) \
	X(pj_info, proj_pj_info) \
	X(prime_meridian_get_parameters, proj_prime_meridian_get_parameters) \
	X(trans, proj_trans) \
	X(trans_get_last_used_operation, proj_trans_get_last_used_operation) \
	X(geodesic_init, geod_init) \
	X(geodesic_direct, geod_direct)

struct late {
#define LATE_MEMBER(member, function) __typeof__(&function) member;
	LATE_FUNCTIONS(LATE_MEMBER)
#undef LATE_MEMBER
};

/* Loads it, the first time; -1 with err when it is not installed, or is not a PROJ that has all of these. */
int sb_late_load(struct sb_err *err);

/* The table; only after sb_late_load has returned 0. It stays until the program ends. */
const struct late *sb_late(void);

#endif

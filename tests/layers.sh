#!/usr/bin/env bash
# The two checks that keep the layers: who may include whom, and no circle of modules. Edges are
# "module includes module", read off the #include "folder/name.h" lines of include/ and src/.
set -eu
cd "$(dirname "$0")/.."
edges=$(grep -Ho '^#include "[a-z]*/[a-z0-9_]*\.h"' include/*/*.h src/*/*.[ch] |
	sed -E 's,^(include|src)/([a-z]+/[a-z0-9_]+)\.[ch]:#include "([a-z]+/[a-z0-9_]+)\.h",\2 \3,' |
	awk '$1 != $2' | sort -u)
echo "$edges" | awk '
	BEGIN {
		may["base"] = "base"; may["geom"] = "geom"; may["model"] = "model base geom"
		may["store"] = "store base model"; may["draw"] = "draw base geom model"
		may["io"] = "io base geom model draw"; may["ui"] = "ui base geom model draw store io"
		may["cli"] = "cli base geom model store draw io ui"
	}
	{
		split($1, from, "/"); split($2, to, "/")
		if (index(" " may[from[1]] " ", " " to[1] " ") == 0) { print "layers: " $1 " may not include " $2; bad = 1 }
	}
	END { exit bad }'
if grep -l 'sqlite3\.h' include/*/*.h src/*/*.[ch] | grep -v '^src/base/sql\.c$'; then
	echo "layers: sqlite3.h belongs to src/base/sql.c alone"
	exit 1
fi
if grep -lE '<(n?curses|ncursesw/[a-z]*)\.h>' include/*/*.h src/*/*.[ch] | grep -v '^src/ui/term\.c$'; then
	echo "layers: curses.h belongs to src/ui/term.c alone"
	exit 1
fi
if grep -lE '<(proj[a-z_]*|geodesic)\.h>' include/*/*.h src/*/*.[ch] | grep -v '^src/base/late\.h$'; then
	echo "layers: proj.h and geodesic.h belong to src/base/late.h alone"
	exit 1
fi
if grep -lE '<cairo/[a-z-]*\.h>' include/*/*.h src/*/*.[ch] | grep -v '^src/io/paper_cairo\.h$'; then
	echo "layers: cairo's headers belong to src/io/paper_cairo.h alone"
	exit 1
fi
if grep -l '<libxml/' include/*/*.h src/*/*.[ch] | grep -v '^src/base/xml\.c$'; then
	echo "layers: libxml2 belongs to src/base/xml.c alone"
	exit 1
fi
echo "$edges" | tsort >/dev/null || {
	echo "layers: the modules above include one another in a circle"
	exit 1
}
echo "layers: ok"

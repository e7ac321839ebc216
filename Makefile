# sagbend: the log book and the compass of a pilot bore.
#
#   make demo    installs what is missing, builds, and shows the main job on sample data
#   make check   installs what is missing, builds, and runs every test
#
# Needs nothing but make, git and apt on a fresh Debian 12. `make help` lists the rest.

CC := gcc
CFLAGS ?= -O2 -g
PREFIX ?= /usr/local
BINDIR ?= $(PREFIX)/bin
MANDIR ?= $(PREFIX)/share/man
BASHCOMPDIR ?= $(PREFIX)/share/bash-completion/completions
INSTALL ?= install
PKG_CONFIG ?= pkg-config
V ?= release
BUILD ?= build
B := $(BUILD)/$(V)

BUILD_PACKAGES := gcc libc6-dev pkg-config libncurses-dev libsqlite3-dev libsodium-dev libinih-dev libcsv-dev \
	libproj-dev proj-data libcairo2-dev fonts-dejavu-core libxml2-dev
CHECK_PACKAGES := libcmocka-dev libvterm-dev sqlite3 valgrind bash-completion procps proj-bin geographiclib-tools \
	poppler-utils libxml2-utils gdal-bin gnumeric
LINT_PACKAGES := clang-format clang-tidy cppcheck mandoc shellcheck gcovr

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion -Wformat=2 \
	-Wstrict-prototypes -Wmissing-prototypes -Wold-style-definition -Wundef -Wvla -Wcast-qual -Wwrite-strings \
	-Wimplicit-fallthrough -Wswitch-enum -Werror=implicit-function-declaration
HARDEN_release := -fstack-protector-strong -D_FORTIFY_SOURCE=2 -fPIE
HARDEN_asan := -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer
HARDEN_cov := --coverage -O0
LINK_release := -pie -Wl,-z,relro,-z,now
LINK_asan := -fsanitize=address,undefined
LINK_cov := --coverage

# Loaded when they are first asked for (src/base): only their headers are needed.
LATE_CFLAGS := $(patsubst -I%,-isystem%,$(shell $(PKG_CONFIG) --cflags libxml-2.0 2>/dev/null))
PACKAGES_PC := ncursesw sqlite3 libsodium inih
CFLAGS_ALL = -std=c11 $(WARN) $(CFLAGS) $(HARDEN_$(V)) -ffp-contract=off -ffile-prefix-map=$(CURDIR)=.
CPPFLAGS_ALL = -D_GNU_SOURCE -DNCURSES_WIDECHAR=1 -DNCURSES_NOMACROS -Iinclude $(LATE_CFLAGS) $(CPPFLAGS)
LDFLAGS_ALL = $(LINK_$(V)) $(LDFLAGS)
LIBS = $(shell $(PKG_CONFIG) --libs $(PACKAGES_PC)) -lcsv -ldl -lm

SOURCES := $(sort $(wildcard src/*/*.c))
OBJECTS := $(patsubst src/%.c,$(B)/%.o,$(filter-out src/cli/main.c,$(SOURCES)))
SUPPORT := $(patsubst %.c,$(B)/%.o,$(sort $(wildcard tests/support/*.c)))
TESTS := $(patsubst tests/%.c,$(B)/tests/%,$(sort $(wildcard tests/*/*_test.c)))
MANUAL := $(patsubst %.c,$(B)/%.o,$(filter-out %_test.c %/pages.c,$(sort $(wildcard tests/man/*.c))))
BENCHES := $(patsubst tests/%.c,$(B)/tests/%,$(sort $(wildcard tests/bench/*_bench.c)))
SCRIPTS := $(sort $(wildcard tests/cli/*.sh))
CODE := $(sort $(wildcard src/*/*.[ch] include/*/*.h tests/*/*.[ch]))

all: $(BUILD)/sagbend

$(BUILD)/sagbend: $(B)/sagbend
	@cp -p $< $@.new && mv -f $@.new $@

$(B)/sagbend: $(B)/cli/main.o $(B)/libsagbend.a
	@echo '  LINK  $@'
	@$(CC) $(CFLAGS_ALL) $(LDFLAGS_ALL) -o $@ $^ $(LIBS)

$(B)/libsagbend.a: $(OBJECTS)
	@rm -f $@
	@ar rcs $@ $(OBJECTS)

$(B)/%.o: src/%.c $(B)/.flags
	@mkdir -p $(@D)
	@echo '  CC    $<'
	@$(CC) $(CPPFLAGS_ALL) -Isrc $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

$(B)/tests/%.o: tests/%.c $(B)/.flags
	@mkdir -p $(@D)
	@echo '  CC    $<'
	@$(CC) $(CPPFLAGS_ALL) -Itests -Isrc $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

$(B)/tests/%: tests/%.c $(SUPPORT) $(B)/libsagbend.a
	@mkdir -p $(@D)
	@echo '  TEST  $<'
	@$(CC) $(CPPFLAGS_ALL) -Itests -Isrc $(CFLAGS_ALL) -MMD -MP $(LDFLAGS_ALL) -o $@ $< $(filter %.o,$^) $(B)/libsagbend.a \
		-lcmocka -lvterm -lutil -lpthread $(LIBS)

$(B)/tests/man/pages $(B)/tests/man/pages_test: $(MANUAL)
$(B)/tests/base/crs_test: LIBS += $(shell $(PKG_CONFIG) --libs proj)

# Rebuild everything when the flags change, and only then.
$(B)/.flags: FORCE
	@mkdir -p $(@D)
	@echo '$(CC) $(CPPFLAGS_ALL) $(CFLAGS_ALL) $(LDFLAGS_ALL)' | cmp -s - $@ || \
		echo '$(CC) $(CPPFLAGS_ALL) $(CFLAGS_ALL) $(LDFLAGS_ALL)' > $@

# Install what is missing, and say so; nothing happens when all is there.
define install_missing
missing=$$(for p in $(1); do dpkg-query -W -f '$${Status}' $$p 2>/dev/null | grep -q 'ok installed' || echo $$p; done); \
if [ -n "$$missing" ]; then echo "installing:" $$missing; \
	run=; [ "$$(id -u)" = 0 ] || run=sudo; $$run apt-get update -qq && \
	DEBIAN_FRONTEND=noninteractive $$run apt-get install -y -qq --no-install-recommends $$missing >/dev/null; fi
endef

deps:
	@$(call install_missing,$(BUILD_PACKAGES) $(CHECK_PACKAGES) $(LINT_PACKAGES))
deps-build:
	@$(call install_missing,$(BUILD_PACKAGES))
deps-check:
	@$(call install_missing,$(BUILD_PACKAGES) $(CHECK_PACKAGES))

demo: deps-build
	@$(MAKE) --no-print-directory all
	@BUILD=$(BUILD) sh sample-data/demo.sh

check: deps-check
	@$(MAKE) --no-print-directory all tests
	@SAGBEND=$(abspath $(B))/sagbend B=$(B) bash tests/run.sh layers $(TESTS) $(SCRIPTS)

tests: $(TESTS) $(B)/sagbend

# Writes the lists that come from the program's tables into man/, DEVELOPERS.md and the completion.
man: deps-check
	@$(MAKE) --no-print-directory $(B)/tests/man/pages
	@$(B)/tests/man/pages

lint: deps
	@sh tests/layers.sh
	clang-format --dry-run --Werror $(CODE)
	cppcheck -q --std=c11 --enable=warning,style,performance,portability --inline-suppr --error-exitcode=1 \
		--suppress=missingIncludeSystem --suppress=unusedStructMember --suppressions-list=tests/cppcheck.txt \
		-j 2 -Iinclude -Isrc src
	@echo 'clang-tidy, one source at a time'
	@printf '%s\n' $(SOURCES) | xargs -P 2 -I {} sh -c \
		'said=$$(clang-tidy --quiet --warnings-as-errors="*" "$$1" -- 2>&1) || { echo "$$said"; exit 1; }' _ {}
	mandoc -T lint -W warning man/*.[15]
	shellcheck -s bash tests/*.sh tests/cli/*.sh src/cli/completion.bash
	@echo lint: ok

sanitize: deps-check
	@ASAN_OPTIONS=handle_segv=2:detect_leaks=1 LSAN_OPTIONS=suppressions=$(CURDIR)/tests/lsan.txt:print_suppressions=0 \
		$(MAKE) --no-print-directory check V=asan

coverage: deps
	@$(MAKE) --no-print-directory check V=cov
	gcovr --object-directory $(BUILD)/cov --filter src/ --print-summary | tail -30

bench: deps-check
	@$(MAKE) --no-print-directory all $(BENCHES)
	@for b in $(BENCHES); do SAGBEND=$(abspath $(B))/sagbend $$b || exit 1; done

torture: deps-check
	@$(MAKE) --no-print-directory all tests
	SAGBEND=$(abspath $(B))/sagbend TORTURE=long $(B)/tests/store/torture_test

install: all
	$(INSTALL) -d $(DESTDIR)$(BINDIR) $(DESTDIR)$(MANDIR)/man1 $(DESTDIR)$(MANDIR)/man5 $(DESTDIR)$(BASHCOMPDIR)
	$(INSTALL) -m 755 $(BUILD)/sagbend $(DESTDIR)$(BINDIR)/sagbend
	$(INSTALL) -m 644 man/sagbend.1 $(DESTDIR)$(MANDIR)/man1/sagbend.1
	$(INSTALL) -m 644 man/sagbend-job.5 $(DESTDIR)$(MANDIR)/man5/sagbend-job.5
	$(INSTALL) -m 644 src/cli/completion.bash $(DESTDIR)$(BASHCOMPDIR)/sagbend

uninstall:
	rm -f $(DESTDIR)$(BINDIR)/sagbend $(DESTDIR)$(MANDIR)/man1/sagbend.1 \
		$(DESTDIR)$(MANDIR)/man5/sagbend-job.5 $(DESTDIR)$(BASHCOMPDIR)/sagbend

clean:
	rm -rf $(BUILD)

help:
	@echo 'all deps demo check man lint sanitize coverage bench torture install uninstall clean'

FORCE:
.PHONY: all deps deps-build deps-check demo check tests man lint sanitize coverage bench torture install uninstall clean help FORCE
.DELETE_ON_ERROR:
.SECONDARY:
-include $(OBJECTS:.o=.d) $(B)/cli/main.d $(SUPPORT:.o=.d) $(MANUAL:.o=.d) $(B)/tests/man/pages.d $(addsuffix .d,$(TESTS) $(BENCHES))

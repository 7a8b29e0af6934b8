# gritwork: build, test, bench. Knobs first, then rules. All output goes under $(BUILD).

CC       ?= cc
BUILD    ?= build
PREFIX   ?= /usr/local
OPT      ?= -O2 -g
SAN      ?=
STATIC   ?= -static-pie
V        ?=
QUIET     = $(if $(V),,@)
say       = $(if $(V),,@printf '%-5s %s\n' $1 $2)
WARN      = -std=c11 -Wall -Wextra -Wpedantic -Wshadow -Wstrict-prototypes -Wmissing-prototypes \
            -Wpointer-arith -Wwrite-strings -Wformat=2 -Wundef -Werror
CPPFLAGS += -D_GNU_SOURCE -Iinterp -Itests
CFLAGS   += $(WARN) $(OPT) $(if $(SAN),-fsanitize=$(SAN) -fno-sanitize-recover=all -fno-omit-frame-pointer)
LDFLAGS  += $(if $(SAN),-fsanitize=$(SAN))

# Debian packages: what the program needs, and what only its tests need.
BUILD_PACKAGES = gcc libc6-dev pkg-config liblua5.4-dev libpango1.0-dev libxlsxwriter-dev fonts-dejavu-core
FUZZ_PACKAGES  = clang libclang-rt-14-dev
TEST_PACKAGES  = libcmocka-dev units libgsl-dev lua5.4 python3-jsonschema python3-icalendar glpk-utils

# The parts, lowest first. A part may use the ones its line in USES names, and its tests link no others.
PARTS       = base trade model lang plan cost report cli
USES_base   = base
USES_trade  = trade base
USES_model  = model base
USES_lang   = lang model trade base
USES_plan   = plan model trade base
USES_cost   = cost plan model trade base
USES_report = report cost plan model trade base
USES_cli    = cli report cost plan lang model trade base

LUA_CFLAGS = $(shell pkg-config --cflags lua5.4 2>/dev/null)
LUA_LIBS   = -l:liblua5.4.a
LIBS       = $(LUA_LIBS) -lm -lpthread

.PHONY: default program install clean
default: program

# ---- the program

sources  = $(sort $(wildcard interp/$1/*.c))
objects  = $(patsubst %.c,$(BUILD)/%.o,$(filter-out interp/cli/main.c,$(call sources,$1)))
archives = $(foreach p,$(USES_$1),$(BUILD)/lib$(p).a)

program: $(BUILD)/gritwork $(BUILD)/gritwork-press

# Linked whole, which starts faster: half of a short run would go into finding libraries.
$(BUILD)/gritwork: $(BUILD)/interp/cli/main.o $(call archives,cli)
	$(call say,link,$@)
	$(QUIET)$(CC) $(LDFLAGS) $(if $(SAN),,$(STATIC)) -o $@ $^ $(LIBS)

define part_rules
$(BUILD)/lib$1.a: $(call objects,$1) $(if $(filter lang,$1),$(BUILD)/stdlib.o)
	@rm -f $$@
	@$(AR) rcs $$@ $$^
endef
$(foreach p,$(PARTS),$(eval $(call part_rules,$(p))))

$(BUILD)/interp/lang/%.o: CPPFLAGS += $(LUA_CFLAGS)

$(BUILD)/%.o: %.c
	@mkdir -p $(@D)
	$(call say,cc,$<)
	$(QUIET)$(CC) $(CPPFLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<

# The press makes PDF and spreadsheet files. It is a program of its own, so that gritwork starts without their libraries.
PRESS_CFLAGS = $(patsubst -I%,-isystem %,$(shell pkg-config --cflags pangocairo fontconfig xlsxwriter 2>/dev/null))
PRESS_LIBS   = $(shell pkg-config --libs pangocairo fontconfig xlsxwriter 2>/dev/null)

$(BUILD)/interp/press/%.o: CFLAGS += $(PRESS_CFLAGS)
$(BUILD)/gritwork-press: $(patsubst %.c,$(BUILD)/%.o,$(call sources,press)) $(call archives,report)
	$(call say,link,$@)
	$(QUIET)$(CC) $(LDFLAGS) -o $@ $^ $(PRESS_LIBS) -lm -lpthread

# The standard library is built in, compiled; what `gritwork new` writes (stdlib/start) is built in as text.
STDLIB       = $(sort $(shell find stdlib -name '*.lua' 2>/dev/null))
STDLIB_BUILT = $(patsubst stdlib/%,$(BUILD)/stdlib/%,$(foreach f,$(STDLIB),$(if $(filter stdlib/start/%,$f),$f,$f.bc)))

$(BUILD)/compile: interp/lang/tools/compile.c
	@mkdir -p $(@D)
	$(call say,link,$@)
	$(QUIET)$(CC) -D_GNU_SOURCE $(LUA_CFLAGS) $(WARN) -O1 -o $@ $< $(LIBS)

$(BUILD)/stdlib/%.lua.bc: stdlib/%.lua $(BUILD)/compile
	@mkdir -p $(@D)
	@$(BUILD)/compile $< $@ $(subst /,.,$*)

$(BUILD)/stdlib/start/%: stdlib/start/%
	@mkdir -p $(@D)
	@cp $< $@

$(BUILD)/stdlib.c: interp/lang/tools/embed.sh $(STDLIB_BUILT)
	@sh $< $(BUILD)/stdlib $(STDLIB_BUILT) >$@

$(BUILD)/stdlib.o: $(BUILD)/stdlib.c
	$(call say,cc,$<)
	$(QUIET)$(CC) $(CPPFLAGS) $(CFLAGS) -c -o $@ $<

install: program
	install -D -m 755 $(BUILD)/gritwork $(DESTDIR)$(PREFIX)/bin/gritwork
	install -D -m 755 $(BUILD)/gritwork-press $(DESTDIR)$(PREFIX)/libexec/gritwork-press

# ---- tests

UNIT_TESTS = $(patsubst tests/%.c,$(BUILD)/tests/%,$(sort $(wildcard tests/unit/*/test_*.c tests/outside/test_*.c \
             tests/hostile/test_*.c tests/trust/test_*.c)))

# tests/unit/PART/test_x.c links PART and what PART may use; the others link everything.
part_of = $(if $(filter unit/%,$1),$(word 2,$(subst /, ,$1)),cli)

.SECONDEXPANSION:
$(UNIT_TESTS): $(BUILD)/tests/%: $(BUILD)/tests/%.o $$(call archives,$$(call part_of,$$*))
	$(call say,link,$@)
	$(QUIET)$(CC) $(LDFLAGS) -o $@ $^ -lcmocka $(TEST_LIBS) $(LIBS)
$(BUILD)/tests/outside/%: TEST_LIBS = -lgsl -lgslcblas
$(BUILD)/tests/unit/lang/%.o $(BUILD)/tests/hostile/%.o: CPPFLAGS += $(LUA_CFLAGS)

# Each fuzz target also replays its seeds, and what was once found, as a test.
FUZZ_TARGETS = $(patsubst tests/fuzz/fuzz_%.c,%,$(sort $(wildcard tests/fuzz/fuzz_*.c)))
REPLAYS      = $(FUZZ_TARGETS:%=$(BUILD)/tests/fuzz/replay_%)

$(BUILD)/tests/fuzz/%.o: CPPFLAGS += $(LUA_CFLAGS)
$(BUILD)/tests/fuzz/replay_%: $(BUILD)/tests/fuzz/fuzz_%.o $(BUILD)/tests/fuzz/replay.o $(call archives,cli)
	@mkdir -p $(@D)
	$(call say,link,$@)
	$(QUIET)$(CC) $(LDFLAGS) -o $@ $^ $(LIBS)

need = @sh tests/need.sh $1

SCRIPT_HELPERS = $(patsubst %,tests/%.lua,calls files json schema shell documents coverage sarif_logs sarif_published)
SCRIPT_TESTS   = tests/language/run.lua $(filter-out $(SCRIPT_HELPERS),$(sort $(wildcard tests/*.lua tests/outside/*.lua tests/trust/*.lua tests/properties/*.lua)))

.PHONY: test test-run test-packages build-packages asan test-documents pages mutants
test: test-packages
	@$(MAKE) --no-print-directory test-run
test-run: program $(UNIT_TESTS) $(REPLAYS)
	@BUILD=$(BUILD) sh tests/run.sh $(SCRIPT_TESTS) $(UNIT_TESTS) $(REPLAYS)

# Pages of docs/ that a command prints.
pages: program
	@lua5.4 tests/stale.lua $(BUILD) write

# How many mistakes in the shipped methods validation notices: SEED, and MUTANTS at most.
SEED    ?= 1
MUTANTS ?= 2000
mutants: program
	@lua5.4 tests/mutants/run.lua $(BUILD) $(SEED) $(MUTANTS)

test-packages:
	$(call need,$(BUILD_PACKAGES) $(TEST_PACKAGES))
build-packages:
	$(call need,$(BUILD_PACKAGES))

# ---- slower tests of what must never be lost

# More of what the default suite tries only some of: made-up jobs, kills, refusals of memory.
.PHONY: test-more kills memory extremes
test-more: test-packages
	@$(MAKE) --no-print-directory program $(BUILD)/tests/trust/test_memory
	@lua5.4 tests/properties/jobs.lua $(BUILD) 40
	@lua5.4 tests/trust/kill.lua $(BUILD) 60
	@$(BUILD)/tests/trust/test_memory 6
kills: program
	@lua5.4 tests/trust/kill.lua $(BUILD) 250
extremes: program
	@lua5.4 tests/trust/extremes.lua $(BUILD) all
memory: $(BUILD)/tests/trust/test_memory
	@$< all

asan: test-packages
	@$(MAKE) --no-print-directory BUILD=$(BUILD)/asan SAN=address,undefined OPT='-O1 -g' test-run

# The papers of a bid in the programs that people open them with: two spreadsheets, a browser, PDF tools. SARIF logs
# against the published schema, which npm fetches.
DOCUMENT_PACKAGES = gnumeric libreoffice-calc-nogui chromium poppler-utils

test-documents: test-packages
	$(call need,$(DOCUMENT_PACKAGES))
	@command -v npm >/dev/null || sh tests/need.sh npm
	@$(MAKE) --no-print-directory program
	@lua5.4 tests/sarif_published.lua $(BUILD)
	@lua5.4 tests/documents.lua $(BUILD)

# ---- which lines the tests reach, and which ways they take at branches

.PHONY: coverage valgrind
COVERAGE = $(MAKE) --no-print-directory BUILD=$(BUILD)/coverage OPT='-Og -g --coverage -DGRITWORK_IN_PROCESS' LDFLAGS=--coverage
coverage: test-packages
	@find $(BUILD)/coverage -name '*.gcda' -delete 2>/dev/null || true
	-@$(COVERAGE) test-run
	@lua5.4 tests/coverage.lua $(BUILD)/coverage

# Memory errors only (status 99): a test may fail there for reasons of its own, such as the width of a long double. What a
# finished process still holds is the system's. Tests that live on processes and limits are left out.
VALGRIND_TESTS = $(filter-out %/test_supervisor %/test_press %/test_confine %/test_hostile %/test_memory %/test_placing,$(UNIT_TESTS))
valgrind: $(VALGRIND_TESTS)
	@failed=0; for t in $(VALGRIND_TESTS); do \
	   valgrind -q --error-exitcode=99 --leak-check=no $$t >$(BUILD)/tests/log 2>&1; \
	   [ $$? -ne 99 ] || { echo "-- $$t"; cat $(BUILD)/tests/log; failed=1; }; \
	 done; [ $$failed -eq 0 ] && echo "valgrind: no errors in $(words $(VALGRIND_TESTS)) test programs"

# ---- the main job on a real recipe, for somebody who has just cloned this

.PHONY: demo
demo: build-packages
	@$(MAKE) --no-print-directory program
	@sh tests/demo.sh $(BUILD)/gritwork

# ---- other eyes: what is not installed is left out and said so

.PHONY: lint
lint:
	@sh tests/lint.sh $(BUILD) $(CPPFLAGS) $(LUA_CFLAGS) $(PRESS_CFLAGS)

# ---- fuzzing: SECONDS for each target, with clang's libFuzzer under ASan and UBSan

FUZZ_MAKE = $(MAKE) --no-print-directory BUILD=$(BUILD)/clang CC=clang WARN=-std=c11 \
            SAN=fuzzer-no-link,address,undefined OPT='-O1 -g'

.PHONY: fuzz fuzz-packages fuzzers
fuzz-packages:
	$(call need,$(BUILD_PACKAGES) $(FUZZ_PACKAGES))

fuzz: fuzz-packages
	@$(MAKE) --no-print-directory $(FUZZ_TARGETS:%=fuzz-%)

fuzz-%: fuzzers
	@mkdir -p $(BUILD)/fuzz/corpus/$*
	$(BUILD)/clang/tests/fuzz/fuzzer_$* -max_total_time=$(or $(SECONDS),60) -timeout=10 -rss_limit_mb=2048 \
	   -print_final_stats=1 -artifact_prefix=$(BUILD)/fuzz/ $(BUILD)/fuzz/corpus/$* tests/fuzz/corpus/$*

fuzzers:
	+@$(FUZZ_MAKE) $(FUZZ_TARGETS:%=$(BUILD)/clang/tests/fuzz/fuzzer_%)
$(BUILD)/tests/fuzz/fuzzer_%: $(BUILD)/tests/fuzz/fuzz_%.o $(call archives,cli)
	$(call say,link,$@)
	$(QUIET)$(CC) -fsanitize=fuzzer $(LDFLAGS) -o $@ $^ $(LIBS)

# ---- benchmarks

BENCHES = $(patsubst tests/%.c,$(BUILD)/%,$(sort $(wildcard tests/bench/*.c)))

# Published scheduling instances: they are not part of this repository. Without the folder they are skipped.
PSPLIB         ?= ../shared/data/psplib
PSPLIB_SECONDS ?= 1

.PHONY: bench bench-build bench-start bench-trade bench-plan bench-risk bench-psplib
bench-build: $(BENCHES)

$(BUILD)/bench/%: $(BUILD)/tests/bench/%.o $(call archives,cost)
	@mkdir -p $(@D)
	$(call say,link,$@)
	$(QUIET)$(CC) $(LDFLAGS) -o $@ $^ $(LIBS)

bench: program bench-start bench-trade bench-plan bench-risk bench-psplib
bench-start: $(BUILD)/bench/start
	@$< $(abspath $(BUILD)/gritwork) $(BUILD)/bench
bench-trade: $(BUILD)/bench/trade
	@$<
bench-plan: $(BUILD)/bench/plan
	@$<
bench-risk: $(BUILD)/bench/risk
	@$<
bench-psplib: $(BUILD)/bench/psplib
	@if [ -d $(PSPLIB) ]; then \
	   $< --seconds $(PSPLIB_SECONDS) --out $(BUILD)/bench/answers $(sort $(wildcard $(PSPLIB)/*/*.sm $(PSPLIB)/*/*.sch)); \
	 else echo "psplib: no folder $(PSPLIB); set PSPLIB=DIR to run the scheduling instances"; fi

clean:
	rm -rf $(BUILD)

.SECONDARY:
.DELETE_ON_ERROR:

-include $(shell find $(BUILD) -name '*.d' 2>/dev/null)

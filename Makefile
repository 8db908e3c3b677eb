# Usage: make [target] [BUILD=release|debug|asan|tsan|cov] [V=1]; `make help` lists the targets.
BUILD  ?= release
O      := build/$(BUILD)
PREFIX ?= /usr/local
Q       = $(if $(filter 1,$(V)),,@)

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wdouble-promotion -Wstrict-prototypes \
        -Wmissing-prototypes -Wvla -Wundef -Wformat=2 -Wcast-qual -Wfloat-equal -Wpointer-arith \
        -Wwrite-strings -Wswitch-enum -Werror
FLAGS_release := -O3 -g
FLAGS_debug   := -O0 -g3
FLAGS_asan    := -O1 -g3 -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all
FLAGS_tsan    := -O1 -g3 -fno-omit-frame-pointer -fsanitize=thread
FLAGS_cov     := -O0 -g3 --coverage
# Library built so that libFuzzer sees its branches; the driver itself is linked into the targets only.
FLAGS_fuzz    := -O1 -g -fno-omit-frame-pointer -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all \
                 -DFUZZ_TARGET -Wno-double-promotion -Wno-format-nonliteral

SOLVER_DIRS   := base sparse model frame tendon time stage check field
FRONTEND_DIRS := text output package command
override CFLAGS   += -std=c17 -fno-common -ffp-contract=off $(WARN) -pthread $(FLAGS_$(BUILD))
override CPPFLAGS += -D_POSIX_C_SOURCE=200809L -Iinclude $(SOLVER_DIRS:%=-Isolver/%) \
                     $(FRONTEND_DIRS:%=-Ifrontends/%) -Itests/support -MMD -MP
# LAPACKE is a thin layer over LAPACK, which OpenBLAS brings along. Its shared library would load the reference LAPACK and BLAS
# besides (a third of the start-up), hence its archive where there is one.
LAPACKE_LIB  := $(if $(filter /%,$(shell $(CC) -print-file-name=liblapacke.a)),-l:liblapacke.a,-llapacke)
LAPACK_LIBS  := -lamd $(LAPACKE_LIB) -lopenblas -lm
JSON_LIBS    := -ljansson
# SHA-256, likewise from the archive: the program needs no library more to start.
DIGEST_LIB   := $(if $(filter /%,$(shell $(CC) -print-file-name=libmd.a)),-l:libmd.a,-lmd)
FRONT_LIBS   := $(JSON_LIBS) $(DIGEST_LIB)
# Tests make the k-th allocation fail by standing between the code and the C library.
TEST_LIBS    := -lcmocka -lexpat
FAULT_WRAP   := -Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc,--wrap=pthread_create -Wl,--undefined=fault_after

obj          = $(patsubst %.c,$(O)/%.o,$(1))
LIB_SRC     := $(sort $(wildcard solver/*/*.c))
FRONT_SRC   := $(filter-out frontends/command/main.c frontends/pages/%,$(sort $(wildcard frontends/*/*.c)))
# Answers in the place of the library's own: only for the tests that ask for them.
FAKE_SRC    := tests/support/fake_results.c
SUPPORT_SRC := $(filter-out $(FAKE_SRC),$(sort $(wildcard tests/support/*.c)))
TEST_SRC    := $(sort $(wildcard tests/unit/test_*.c tests/laws/test_*.c tests/published/test_*.c tests/fuzz/replay_*.c))
TEST_BIN    := $(patsubst %.c,$(O)/%,$(TEST_SRC))
PROGRAM     := $(O)/kernline
PAGES       := $(O)/kernline-pages

all: $(O)/libkernline.a $(PROGRAM) $(PAGES) ## build the library and the program

$(O)/libkernline.a: $(call obj,$(LIB_SRC))
	$(Q)rm -f $@; $(AR) rcs $@ $(filter %.o,$^)
$(O)/libkernline_front.a: $(call obj,$(FRONT_SRC)) $(O)/embedded/package.css.o $(O)/embedded/package.js.o
	$(Q)rm -f $@; $(AR) rcs $@ $(filter %.o,$^)
$(PROGRAM): $(call obj,frontends/command/main.c) $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(FRONT_LIBS) $(LAPACK_LIBS)
# PDF and PNG are made by a second program, so that the first need not load what draws letters.
PAGES_CFLAGS = $(patsubst -I%,-isystem %,$(shell pkg-config --cflags librsvg-2.0 cairo))
PAGES_SRC    := $(sort $(wildcard frontends/pages/*.c))
$(call obj,$(PAGES_SRC)): override CFLAGS += $(PAGES_CFLAGS)
$(PAGES): $(call obj,$(PAGES_SRC))
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(shell pkg-config --libs librsvg-2.0 cairo)
$(O)/libsupport.a: $(call obj,$(SUPPORT_SRC))
	$(Q)rm -f $@; $(AR) rcs $@ $(filter %.o,$^)
FAKED := $(shell grep -l fake_results.h $(TEST_SRC))
$(FAKED:%.c=$(O)/%): $(call obj,$(FAKE_SRC))
$(O)/tests/%: $(O)/tests/%.o $(O)/libsupport.a $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $(filter %.o,$^) $(filter %.a,$^) $(FAULT_WRAP) $(TEST_LIBS) $(FRONT_LIBS) $(LAPACK_LIBS)

# Rewritten only when the flags change, so that changed flags rebuild every object.
STAMP := $(O)/.flags
$(shell mkdir -p $(O); printf '%s\n' '$(CC) $(CPPFLAGS) $(CFLAGS) $(LDFLAGS)' | cmp -s - $(STAMP) || \
        printf '%s\n' '$(CC) $(CPPFLAGS) $(CFLAGS) $(LDFLAGS)' > $(STAMP))
# Likewise the list of sources: a file that is added or gone changes the archives.
SOURCES := $(O)/.sources
$(shell printf '%s\n' '$(LIB_SRC) $(FRONT_SRC) $(SUPPORT_SRC)' | cmp -s - $(SOURCES) || \
        printf '%s\n' '$(LIB_SRC) $(FRONT_SRC) $(SUPPORT_SRC)' > $(SOURCES))
$(O)/libkernline.a $(O)/libkernline_front.a $(O)/libsupport.a: $(SOURCES)
$(O)/%.o: %.c $(STAMP)
	@mkdir -p $(@D)
	$(Q)$(CC) $(CPPFLAGS) $(CFLAGS) -c -o $@ $<

# The inner loops of the solver alone may contract a * b + c; on x86-64 they are compiled again for
# wider vectors, and the program takes what the machine has (solver/sparse/numeric.h).
PASSES_FLAGS := -ffp-contract=fast
$(O)/solver/sparse/passes_%.o $(O)/pic/solver/sparse/passes_%.o: override CFLAGS += $(PASSES_FLAGS)
ifneq ($(filter x86_64-%,$(shell $(CC) -dumpmachine)),)
$(O)/solver/sparse/passes_avx2.o $(O)/pic/solver/sparse/passes_avx2.o: override CFLAGS += -march=x86-64-v3
$(O)/solver/sparse/passes_avx512.o $(O)/pic/solver/sparse/passes_avx512.o: override CFLAGS += -march=x86-64-v4
endif

# What the page of the package carries along, as bytes that end in a zero: package.css becomes PACKAGE_CSS, the scripts PACKAGE_JS.
$(O)/embedded/package.js: $(sort $(wildcard frontends/package/script/*.js))
	@mkdir -p $(@D)
	$(Q)cat $^ >$@
$(O)/embedded/package.css: frontends/package/package.css
	@mkdir -p $(@D)
	$(Q)cp $< $@
$(O)/embedded/%.c: $(O)/embedded/%
	$(Q)name=$$(printf %s '$*' | tr 'a-z.' 'A-Z_'); { printf 'extern const unsigned char %s[];\nconst unsigned char %s[] = {\n' $$name $$name; \
	    od -An -v -tx1 $< | sed 's/ \(..\)/0x\1,/g'; echo '0};'; } >$@
$(O)/embedded/%.o: $(O)/embedded/%.c $(STAMP)
	$(Q)$(CC) $(CPPFLAGS) $(CFLAGS) -c -o $@ $<

deps: ## install what is missing (or say what to install)
	$(Q)tests/support/deps.sh
# demo and test see to the dependencies before anything is compiled, hence the second make.
demo: deps ## install what is missing, build, run the long cap, leave its results in build/demo
	$(Q)$(MAKE) --no-print-directory all
	$(Q)KERNLINE=$(PROGRAM) tests/support/demo.sh build/demo
test: ## install what is missing, build, run every test
	$(Q)tests/support/deps.sh browser
	$(Q)$(MAKE) --no-print-directory run-tests
run-tests: all $(TEST_BIN)
	$(Q)KERNLINE=$(PROGRAM) CC='$(CC)' tests/run.sh $(TEST_BIN)

asan: ## all tests with the address and undefined-behaviour sanitizers
	$(Q)LSAN_OPTIONS=suppressions=$(CURDIR)/tests/support/leaks.txt:print_suppressions=0 \
	    $(MAKE) --no-print-directory BUILD=asan run-tests
tsan: ## the solver's tests with the thread sanitizer
	$(Q)$(MAKE) --no-print-directory BUILD=tsan run-tsan
TSAN_BIN := $(patsubst %,$(O)/tests/unit/test_%,team threads factor sparse)
run-tsan: $(TSAN_BIN)
	$(Q)KERNLINE=$(PROGRAM) tests/run.sh --programs $(TSAN_BIN)
valgrind: all $(TEST_BIN) ## all test programs under valgrind: no leak, no bad access
	$(Q)tests/support/deps.sh valgrind
	$(Q)KERNLINE=$(PROGRAM) RUNNER='valgrind -q --leak-check=full --error-exitcode=9' tests/run.sh --programs $(TEST_BIN)
coverage: ## lines that the tests reach, file by file (build/coverage.txt)
	$(Q)$(MAKE) --no-print-directory BUILD=cov run-tests
	$(Q)tests/support/coverage.sh build/cov | tee build/coverage.txt
lint: ## include rules and clang-tidy
	$(Q)CC='$(CC)' tests/check_includes.sh
	$(Q)printf '%s\n' $(LIB_SRC) $(FRONT_SRC) frontends/command/main.c | \
	    xargs -P "$$(nproc)" -I '{}' clang-tidy --quiet '{}' -- -std=c17 $(filter-out -MMD -MP,$(CPPFLAGS))
	$(Q)clang-tidy --quiet $(PAGES_SRC) -- -std=c17 $(PAGES_CFLAGS)
FORMATTED := $(sort $(wildcard include/kernline/*.h solver/*/*.[ch] frontends/*/*.[ch] tests/*/*.[ch]))
format: ## write every C file in the project's style
	$(Q)clang-format -i $(FORMATTED)
format-check: ## say which C files are not in the project's style
	$(Q)clang-format --dry-run --Werror $(FORMATTED)

BENCH_SRC := $(sort $(wildcard tests/bench/bench_*.c))
BENCH_BIN := $(patsubst %.c,$(O)/%,$(BENCH_SRC))
RIVALS := $(addprefix tests/bench/,frames.c machine.c peak.c report.c rivals.c rival_cholmod.c)
$(O)/tests/bench/bench_solver: $(call obj,tests/bench/bench_solver.c $(RIVALS)) $(O)/libsupport.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lcholmod $(LAPACK_LIBS) -ldl
# `make bench-solver CASES="grid577 +grid577"`: the solver beside general-purpose ones (tests/bench/frames.h names the cases).
bench-solver: deps ## time the sparse solver beside general-purpose ones (CASES=… picks)
	$(Q)$(MAKE) --no-print-directory $(O)/tests/bench/bench_solver
	$(Q)$(O)/tests/bench/bench_solver $(CASES)
$(O)/tests/bench/usage: $(O)/tests/bench/usage.o
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^
$(O)/tests/bench/whole_process: $(call obj,tests/bench/whole_process.c)
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^
# Loads what the program loads, though it uses nothing of it.
$(O)/tests/bench/empty: $(call obj,tests/bench/empty.c)
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -Wl,--no-as-needed -o $@ $^ $(FRONT_LIBS) $(LAPACK_LIBS)
bench-process: all $(O)/tests/bench/whole_process $(O)/tests/bench/empty ## time the long cap as a whole process beside an empty one
	-$(Q)$(O)/tests/bench/whole_process $(O)/tests/bench/empty $(PROGRAM) run models/caps/long_skewed_cap.kline
bench-years: $(O)/tests/bench/bench_years ## time a cap that creeps for 10,000 days beside one that does not
	$(Q)$<
bench: bench-process $(O)/tests/bench/usage $(BENCH_BIN) ## time the program on growing models, its reader and its solver (it reports, it never fails)
	$(Q)KERNLINE=$(PROGRAM) tests/bench/run.sh $(O)/tests/bench/usage $(BENCH_BIN)

# `make fuzz FUZZ_SECONDS=600`: each target in turn; what it finds is kept in build/fuzz/.
FUZZ_SECONDS ?= 60
FUZZ_SRC  := $(sort $(wildcard tests/fuzz/fuzz_*.c))
FUZZ_BIN  := $(patsubst %.c,$(O)/%,$(FUZZ_SRC))
FUZZ_HELP := $(O)/tests/fuzz/try_text.o $(O)/tests/fuzz/generate_model.o
fuzz: ## feed invented models to the reader and the solver (needs clang)
	$(Q)tests/support/deps.sh clang
	$(Q)$(MAKE) --no-print-directory BUILD=fuzz CC=clang run-fuzz
run-fuzz: $(FUZZ_BIN) $(O)/tests/fuzz/dictionary
	$(Q)$(O)/tests/fuzz/dictionary >build/fuzz/words.dict
	$(Q)tests/fuzz/run.sh $(FUZZ_SECONDS) $(FUZZ_BIN)
$(O)/tests/fuzz/fuzz_%: $(O)/tests/fuzz/fuzz_%.o $(FUZZ_HELP) $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) -fsanitize=fuzzer $(LDFLAGS) -o $@ $^ $(FRONT_LIBS) $(LAPACK_LIBS)
$(O)/tests/fuzz/dictionary: $(O)/tests/fuzz/dictionary.o $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ -lm
# The replay of `make test` is all targets in one program, without libFuzzer.
$(O)/tests/fuzz/replay_corpus: $(O)/tests/fuzz/replay_corpus.o $(FUZZ_SRC:%.c=$(O)/%.o) $(FUZZ_HELP) \
                               $(O)/libsupport.a $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(FAULT_WRAP) $(TEST_LIBS) $(FRONT_LIBS) $(LAPACK_LIBS)

# The shared library has objects of its own (position-independent) and shows only what begins with kl_.
VERSION := $(shell sed -n 's/^\#define KL_VERSION_TEXT  *"\(.*\)"/\1/p' include/kernline/version.h)
SONAME  := libkernline.so.$(firstword $(subst ., ,$(VERSION)))
PIC_OBJ := $(LIB_SRC:%.c=$(O)/pic/%.o)
$(O)/pic/%.o: %.c $(STAMP)
	@mkdir -p $(@D)
	$(Q)$(CC) $(CPPFLAGS) $(CFLAGS) -fPIC -c -o $@ $<
$(O)/libkernline.so.$(VERSION): $(PIC_OBJ) solver/kernline.map
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -shared -Wl,-soname,$(SONAME) -Wl,--version-script=solver/kernline.map \
	        -o $@ $(PIC_OBJ) $(LAPACK_LIBS)

BASH_COMPLETIONS = $(PREFIX)/share/bash-completion/completions
install: all $(O)/libkernline.so.$(VERSION) ## install under PREFIX (DESTDIR is put before it)
	install -d $(addprefix $(DESTDIR)$(PREFIX)/,bin lib/pkgconfig libexec include/kernline share/man/man1) $(DESTDIR)$(BASH_COMPLETIONS)
	install -m 755 $(PROGRAM) $(DESTDIR)$(PREFIX)/bin/kernline
	install -m 755 $(PAGES) $(DESTDIR)$(PREFIX)/libexec/kernline-pages
	install -m 644 $(O)/libkernline.a $(DESTDIR)$(PREFIX)/lib
	install -m 755 $(O)/libkernline.so.$(VERSION) $(DESTDIR)$(PREFIX)/lib
	ln -sf libkernline.so.$(VERSION) $(DESTDIR)$(PREFIX)/lib/$(SONAME)
	ln -sf $(SONAME) $(DESTDIR)$(PREFIX)/lib/libkernline.so
	install -m 644 include/kernline/*.h $(DESTDIR)$(PREFIX)/include/kernline
	sed -e 's#@PREFIX@#$(PREFIX)#' -e 's#@VERSION@#$(VERSION)#' docs/kernline.pc.in >$(DESTDIR)$(PREFIX)/lib/pkgconfig/kernline.pc
	install -m 644 docs/kernline.1 $(DESTDIR)$(PREFIX)/share/man/man1
	install -m 644 docs/completion/kernline.bash $(DESTDIR)$(BASH_COMPLETIONS)/kernline
uninstall: ## remove what install put there
	rm -f $(DESTDIR)$(PREFIX)/bin/kernline $(DESTDIR)$(PREFIX)/libexec/kernline-pages $(DESTDIR)$(PREFIX)/lib/libkernline.a $(DESTDIR)$(PREFIX)/lib/libkernline.so* \
	      $(DESTDIR)$(PREFIX)/lib/pkgconfig/kernline.pc $(DESTDIR)$(PREFIX)/share/man/man1/kernline.1 \
	      $(DESTDIR)$(BASH_COMPLETIONS)/kernline
	rm -rf $(DESTDIR)$(PREFIX)/include/kernline

clean: ## remove build/
	rm -rf build
help: ## list the targets
	@awk -F ':.*## ' '/^[a-z-]+:.*## / { printf "  make %-14s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)
print-%: ; @echo '$* = $($*)'
.PHONY: all install uninstall deps demo test run-tests asan tsan run-tsan valgrind coverage lint format format-check bench bench-process bench-years bench-solver fuzz run-fuzz clean help
.DELETE_ON_ERROR:
.SECONDARY:
-include $(patsubst %.c,$(O)/%.d,$(LIB_SRC) $(FRONT_SRC) frontends/command/main.c $(SUPPORT_SRC) $(FAKE_SRC) $(TEST_SRC) \
           $(wildcard tests/bench/*.c) $(wildcard tests/fuzz/*.c))
-include $(PIC_OBJ:.o=.d)

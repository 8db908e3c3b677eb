# Usage: make [target] [BUILD=release|debug|asan|cov] [V=1]
BUILD  ?= release
O      := build/$(BUILD)
PREFIX ?= /usr/local
Q       = $(if $(filter 1,$(V)),,@)

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wdouble-promotion -Wstrict-prototypes \
        -Wmissing-prototypes -Wvla -Wundef -Wformat=2 -Wcast-qual -Wfloat-equal -Wpointer-arith \
        -Wwrite-strings -Wswitch-enum -Werror
FLAGS_release := -O2 -g
FLAGS_debug   := -O0 -g3
FLAGS_asan    := -O1 -g3 -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all
FLAGS_cov     := -O0 -g3 --coverage

SOLVER_DIRS   := base sparse model frame tendon time stage check field
FRONTEND_DIRS := text output command
override CFLAGS   += -std=c17 -fno-common -ffp-contract=off $(WARN) $(FLAGS_$(BUILD))
override CPPFLAGS += -D_POSIX_C_SOURCE=200809L -Iinclude $(SOLVER_DIRS:%=-Isolver/%) \
                     $(FRONTEND_DIRS:%=-Ifrontends/%) -Itests/support -MMD -MP
LAPACK_LIBS  := -llapacke -lopenblas -lm
JSON_LIBS    := -ljansson
# Tests make the k-th allocation fail by standing between the code and the C library.
FAULT_WRAP   := -Wl,--wrap=malloc,--wrap=calloc,--wrap=realloc,--undefined=__wrap_malloc

obj          = $(patsubst %.c,$(O)/%.o,$(1))
LIB_SRC     := $(sort $(wildcard solver/*/*.c))
FRONT_SRC   := $(filter-out frontends/command/main.c,$(sort $(wildcard frontends/*/*.c)))
SUPPORT_SRC := $(sort $(wildcard tests/support/*.c))
TEST_SRC    := $(sort $(wildcard tests/unit/test_*.c tests/laws/test_*.c tests/published/test_*.c tests/fuzz/replay_*.c))
TEST_BIN    := $(patsubst %.c,$(O)/%,$(TEST_SRC))
PROGRAM     := $(O)/kernline

all: $(O)/libkernline.a $(PROGRAM) ## build the library and the program

$(O)/libkernline.a: $(call obj,$(LIB_SRC))
	$(Q)rm -f $@; $(AR) rcs $@ $^
$(O)/libkernline_front.a: $(call obj,$(FRONT_SRC))
	$(Q)rm -f $@; $(AR) rcs $@ $^
$(PROGRAM): $(call obj,frontends/command/main.c) $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(JSON_LIBS) $(LAPACK_LIBS)
$(O)/libsupport.a: $(call obj,$(SUPPORT_SRC))
	$(Q)rm -f $@; $(AR) rcs $@ $^
$(O)/tests/%: $(O)/tests/%.o $(O)/libsupport.a $(O)/libkernline_front.a $(O)/libkernline.a
	$(Q)$(CC) $(CFLAGS) $(LDFLAGS) -o $@ $^ $(FAULT_WRAP) -lcmocka $(JSON_LIBS) $(LAPACK_LIBS)

# Rewritten only when the flags change, so that changed flags rebuild every object.
STAMP := $(O)/.flags
$(shell mkdir -p $(O); printf '%s\n' '$(CC) $(CPPFLAGS) $(CFLAGS) $(LDFLAGS)' | cmp -s - $(STAMP) || \
        printf '%s\n' '$(CC) $(CPPFLAGS) $(CFLAGS) $(LDFLAGS)' > $(STAMP))
$(O)/%.o: %.c $(STAMP)
	@mkdir -p $(@D)
	$(Q)$(CC) $(CPPFLAGS) $(CFLAGS) -c -o $@ $<

clean: ## remove build/
	rm -rf build
print-%: ; @echo '$* = $($*)'
.PHONY: all clean
.DELETE_ON_ERROR:
.SECONDARY:
-include $(patsubst %.c,$(O)/%.d,$(LIB_SRC) $(FRONT_SRC) frontends/command/main.c $(SUPPORT_SRC) $(TEST_SRC))

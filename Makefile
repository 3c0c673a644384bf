# Potash: `make` builds build/potash and build/libpotash.a; `make demo` sets a machine up and shows a mixing sheet;
# `make test` runs every test.  The other targets are listed by `make help`.

CC       ?= cc
CFLAGS   ?= -O2 -g
WARNINGS := -Wall -Wextra -Wconversion -Wshadow
BUILD    := build

# What the build and the tests need from Debian.
BUILD_PACKAGES := gcc libc6-dev pkg-config re2c bison libjansson-dev libutf8proc-dev uthash-dev \
                  libcairo2-dev libpango1.0-dev libqrencode-dev nettle-dev fonts-noto-core fonts-droid-fallback
TEST_PACKAGES  := libcmocka-dev git ninja-build locales python3 python3-jsonschema python3-periodictable jq units poppler-utils qpdf zbar-tools chromium \
                  man-db groff-base neovim \
                  $(if $(and $(shell command -v node),$(shell command -v npm)),,nodejs npm)
PACKAGES       := $(BUILD_PACKAGES) $(TEST_PACKAGES)
# What the parts of `make test-portable` need besides; a part whose packages cannot be had is skipped.  The package gcc-multilib is
# not asked for, since it would throw out every cross compiler.
CLANG_PACKAGES  := clang
X86_32_PACKAGES  = gcc-$(shell gcc -dumpversion)-multilib qemu-user dpkg-dev
WASM_PACKAGES   := emscripten node-acorn clang dpkg-dev


# A line for each file; VERBOSE=1 shows the commands.
SHOWN := $(if $(VERBOSE),,@)
# As many at a time as there are processors, unless the caller has said how many.
TOGETHER = $(if $(filter -j%,$(MAKEFLAGS)),,-j$(shell nproc))

.DEFAULT_GOAL := all
.PHONY: all demo test check test-portable bench mistakes mutate mutants deps clean help
.DELETE_ON_ERROR:
# Recipes that need the packages ask for `deps` first; a plain `make` does not touch the system.

# Nettle (one digest) is taken into the program where it can be: a library more to load costs each start a tenth of a millisecond.
NETTLE := $(firstword $(wildcard $(shell pkg-config --variable=libdir nettle 2>/dev/null)/libnettle.a) \
                      $(shell pkg-config --libs nettle 2>/dev/null))
LIBS := $(shell pkg-config --libs jansson libutf8proc 2>/dev/null) $(NETTLE) -lm
PKG_CFLAGS := $(shell pkg-config --cflags jansson libutf8proc 2>/dev/null)
# Pango, Cairo, Fontconfig and libqrencode are found when a PDF or a code is asked for, so only their headers are wanted here.  With
# PDF=no the program says that it makes none, and libqrencode is linked like another library.
PDF ?= yes
ifeq ($(PDF),no)
PDF_LEAVES_OUT := src/page/page_pdf%.c
CODES          := -DQRENCODE_LINKED
LIBS           += -lqrencode
else
PDF_LEAVES_OUT := src/page/without_pdf.c
PKG_CFLAGS     += $(patsubst -I%,-isystem %,$(shell pkg-config --cflags-only-I pangocairo pangoft2 fontconfig libqrencode 2>/dev/null))
endif
# The program is linked as a whole where the compiler is gcc: a check is done in a twentieth less time.  The objects serve for
# ordinary linking as well, which the tests use, since they are linked many times.
LTO    := $(if $(findstring Free Software Foundation,$(shell $(CC) --version 2>/dev/null)),-flto=auto -ffat-lto-objects)
NO_LTO := $(if $(LTO),-fno-lto)
# One set of objects serves the program and the shared library.  Sanitizers look for themselves at what fortifying would look for.
PIC       ?= -fPIC -fno-semantic-interposition
HARDENING ?= $(if $(findstring -fsanitize,$(CFLAGS)),,-fstack-protector-strong -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=3)
HARDENED  ?= -Wl,-z,relro,-z,now
# The folder that a build stands in leaves no trace in it (reproducible-builds.org).
NO_PATHS  := -ffile-prefix-map=$(abspath $(BUILD))=build -ffile-prefix-map=$(CURDIR)=.
ALL_CFLAGS := -std=gnu17 $(WARNINGS) -D_FILE_OFFSET_BITS=64 $(PIC) $(HARDENING) $(CFLAGS) $(LTO) $(NO_PATHS) -Isrc -I$(BUILD)/gen $(CODES) $(PKG_CFLAGS)

LIBRARY_SOURCES := $(filter-out $(PDF_LEAVES_OUT) src/command/%.c src/editor/%.c src/web/%.c,$(wildcard src/*/*.c src/*/*/*.c))
COMMAND_SOURCES := $(wildcard src/command/*.c src/editor/*.c) $(WEB_SOURCES)
GENERATED       := $(addprefix $(BUILD)/gen/,notation.tab.c notation.lex.c stdlib.c page_html_files.c library_tables.c)
STDLIB          := $(sort $(wildcard stdlib/*.bath))

LIBRARY_OBJECTS := $(LIBRARY_SOURCES:%.c=$(BUILD)/obj/%.o) $(GENERATED:$(BUILD)/gen/%.c=$(BUILD)/obj/gen/%.o)
COMMAND_OBJECTS := $(COMMAND_SOURCES:%.c=$(BUILD)/obj/%.o)
# What the program and its tests are linked with.
TESTED          := $(BUILD)/libpotash.a

PROGRAM ?= $(BUILD)/potash
LINK    ?= $(CC) $(CFLAGS) $(LTO) $(NO_PATHS) -pie $(HARDENED)

all: $(PROGRAM) $(BUILD)/libpotash.a

$(PROGRAM): $(BUILD)/obj/src/command/main.o $(BUILD)/libcommand.a $(TESTED)
	@echo "  link   $@"
	$(SHOWN)$(LINK) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/libpotash.a: $(LIBRARY_OBJECTS)
	@rm -f $@
	@$(AR) rcs $@ $^

# The command line without its main: the tests make the manual pages and completions of its tables.
$(BUILD)/libcommand.a: $(filter-out %/main.o,$(COMMAND_OBJECTS))
	@rm -f $@
	@$(AR) rcs $@ $^

# The grammar: a conflict or a warning fails the build.
$(BUILD)/gen/notation.tab.c $(BUILD)/gen/notation.tab.h &: grammar/notation.y
	@mkdir -p $(BUILD)/gen
	@echo "  bison  $<"
	$(SHOWN)bison -Wall -Werror --header=$(BUILD)/gen/notation.tab.h -o $(BUILD)/gen/notation.tab.c $<

# The lexer's automaton jumps, and looks characters up in bitmaps.  A machine without jumps wants a loop over a switch (--loop-switch):
# clang turns jumps into loops for WebAssembly in a time that goes with the square of their number.  LEXER_CFLAGS: for that file alone.
LEXER        ?= -b
LEXER_CFLAGS ?=
$(BUILD)/obj/gen/notation.lex.o: ALL_CFLAGS += $(LEXER_CFLAGS)

$(BUILD)/gen/notation.lex.c: grammar/notation.re
	@mkdir -p $(BUILD)/gen
	@echo "  re2c   $<"
	$(SHOWN)re2c -W -Werror $(LEXER) --no-generation-date -i -o $@ $<

# Texts go into the program as string literals, line by line; a text whose last line has no end would gain one, and is refused.
define text_as_c
[ -z "$$(tail -c 1 "$$1")" ] || { echo "$$1: the last line has no end" >&2; exit 1; }; sed -e 's/[\\"?]/\\&/g' -e 's/.*/"&\\n"/' "$$1"
endef

# The library: a table of names and texts.
$(BUILD)/gen/stdlib.c: $(STDLIB) Makefile
	@mkdir -p $(BUILD)/gen
	@text() { $(text_as_c); }; \
	 { echo '/* made from stdlib/ */'; echo '#include "library/tables.h"'; echo 'const struct stdlib_file stdlib_files[] = {'; \
	   for f in $(STDLIB); do echo "{\"$$f\","; text "$$f"; echo ", $$(wc -c < "$$f")},"; done; echo '{NULL, NULL, 0}};'; } > $@

# Tables of what it declares, made by the library's own reading of it.  Where the program is built for another machine, MAKE_LIBRARY is
# that of a build for this one.
MAKE_LIBRARY  ?= $(BUILD)/make_library
UNTABLED       = $(filter-out %/library_tables.o,$(LIBRARY_OBJECTS))

$(BUILD)/untabled.a: $(UNTABLED)
	@rm -f $@
	@$(AR) rcs $@ $^

MAKE_LIBRARY_OBJECTS := $(patsubst %.c,$(BUILD)/obj/%.o,$(wildcard stdlib/tables/*.c))

$(BUILD)/make_library: $(MAKE_LIBRARY_OBJECTS) $(BUILD)/untabled.a
	@echo "  link   $@"
	$(SHOWN)$(CC) $(CFLAGS) $(NO_LTO) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/gen/library_tables.c: $(MAKE_LIBRARY)
	@echo "  make   $@"
	$(SHOWN)$(MAKE_LIBRARY) > $@

# Styles and script of the HTML pages, and their digests by which the page's Content Security Policy knows them.
HTML_SCRIPTS := $(addprefix src/page/html/,view.js figures.js sheets.js timers.js)
HTML_STYLES  := $(addprefix src/page/html/,page.css bench.css print.css)

$(BUILD)/gen/page_html_files.c: $(HTML_SCRIPTS) $(HTML_STYLES) Makefile
	@mkdir -p $(BUILD)/gen
	@text() { $(text_as_c); }; \
	 digest() { printf 'sha256-'; cat "$$@" | sha256sum | cut -c1-64 | tr a-f A-F | basenc --base16 -d | base64; }; \
	 piece() { name="$$1"; shift; echo "const char page_html_$$name[] ="; for f in "$$@"; do text "$$f"; done; \
	           echo "; const char page_html_$${name}_digest[] = \"$$(digest "$$@")\";"; }; \
	 { echo '/* made from src/page/html/ */'; echo '#include "page/page_html.h"'; \
	   piece script $(HTML_SCRIPTS); piece styles $(HTML_STYLES); } > $@

$(BUILD)/obj/gen/%.o: $(BUILD)/gen/%.c $(BUILD)/gen/notation.tab.h
	@mkdir -p $(@D)
	@echo "  cc     $<"
	$(SHOWN)$(CC) $(ALL_CFLAGS) -MMD -c -o $@ $<

$(BUILD)/obj/%.o: %.c $(BUILD)/gen/notation.tab.h
	@mkdir -p $(@D)
	@echo "  cc     $<"
	$(SHOWN)$(CC) $(ALL_CFLAGS) -MMD -c -o $@ $<

-include $(LIBRARY_OBJECTS:.o=.d) $(COMMAND_OBJECTS:.o=.d) $(MAKE_LIBRARY_OBJECTS:.o=.d)

# A header that is gone fails no build whose notes of the last time still name it.
%.h: ;

# ---- tests ----

TEST_SOURCES  := $(sort $(wildcard tests/*/test_*.c))
TEST_PROGRAMS := $(TEST_SOURCES:tests/%.c=$(BUILD)/tests/%)
TEST_SUPPORT  := $(sort $(wildcard tests/support/*.c))
TEST_OBJECTS  := $(TEST_SUPPORT:%.c=$(BUILD)/obj/%.o)

# Compiled and linked apart, so that a change of the library links the tests again and compiles none of them.
TESTS_COMPILED := $(TEST_PROGRAMS:$(BUILD)/%=$(BUILD)/obj/%.o)
$(TESTS_COMPILED): ALL_CFLAGS += $(NO_LTO) -Itests
.SECONDARY: $(TESTS_COMPILED) $(TEST_OBJECTS)

$(BUILD)/tests/%: $(BUILD)/obj/tests/%.o $(BUILD)/libcommand.a $(TESTED) $(TEST_OBJECTS)
	@mkdir -p $(@D)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(CFLAGS) $(NO_LTO) -o $@ $< $(TEST_OBJECTS) $(BUILD)/libcommand.a $(TESTED) $(LDFLAGS) -lcmocka $(LIBS)

-include $(TESTS_COMPILED:.o=.d) $(TEST_OBJECTS:.o=.d)

# Pages for the browser tests that no report makes.
$(BUILD)/make_pages: tests/browser/make_pages.c $(BUILD)/libpotash.a
	@echo "  link   $@"
	$(SHOWN)$(CC) $(ALL_CFLAGS) $(NO_LTO) -o $@ $< $(BUILD)/libpotash.a $(LIBS)

# Tests run from the top of the repository; POTASH names the program under test.  The bench is built with them, so that it does not
# fall behind the lexer that it measures.
test: deps
	@$(MAKE) --no-print-directory check

# The same without the network, and nothing is installed: what a test needs and does not find, it names.
check:
	@$(MAKE) --no-print-directory $(TOGETHER) all $(TEST_PROGRAMS) $(INSTALLED) $(BUILD)/make_pages $(BUILD)/bench/bench
	@POTASH=$(BUILD)/potash sh tests/run.sh $(TEST_PROGRAMS) tests/browser/browser.sh

# Other compilers and machines: the same program, built below $(BUILD)/portable, must answer as the native one does.
test-portable:
	@sh tests/support/packages.sh $(BUILD_PACKAGES)
	@$(MAKE) --no-print-directory $(TOGETHER) all
	@CLANG_PACKAGES="$(CLANG_PACKAGES)" X86_32_PACKAGES="$(X86_32_PACKAGES)" WASM_PACKAGES="$(WASM_PACKAGES)" \
	 sh tests/portable/portable.sh $(BUILD) $(MAKE) --no-print-directory $(TOGETHER)

# ---- speed: figures beside their limits; fails when a limit is missed ----

BENCH_OBJECTS := $(BUILD)/obj/tests/bench/bench.o $(BUILD)/obj/tests/bench/notation_loop.o $(BUILD)/obj/gen/tokens.lex.o

$(BUILD)/gen/tokens.lex.c: tests/bench/tokens.re
	@mkdir -p $(BUILD)/gen
	@echo "  re2c   $<"
	$(SHOWN)re2c -W -Werror -b --no-generation-date -i -o $@ $<

$(BENCH_OBJECTS): ALL_CFLAGS += -Itests
$(BUILD)/obj/tests/bench/notation_loop.o: ALL_CFLAGS := -Itests/bench/bare $(ALL_CFLAGS) -Itests
$(BUILD)/obj/tests/bench/notation_loop.o: $(BUILD)/gen/notation.lex.c

$(BUILD)/bench/bench: $(BENCH_OBJECTS) $(BUILD)/libpotash.a
	@mkdir -p $(@D)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(CFLAGS) $(LTO) $(LDFLAGS) -o $@ $^ $(LIBS)

$(BUILD)/bench/keystroke: tests/bench/keystroke.c
	@mkdir -p $(@D)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(ALL_CFLAGS) $(LDFLAGS) -o $@ $< $(LIBS)

$(BUILD)/bench/make_formulas: tests/bench/make_formulas.c
	@mkdir -p $(@D)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(ALL_CFLAGS) -o $@ $<

$(BUILD)/bench/formulas.bath $(BUILD)/bench/formulas.json &: $(BUILD)/bench/make_formulas
	$< 10000 $(BUILD)/bench/formulas.bath $(BUILD)/bench/formulas.json

$(BUILD)/bench/make_shelf: tests/bench/make_shelf.c
	@mkdir -p $(@D)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(ALL_CFLAGS) -o $@ $<

$(BUILD)/bench/shelf.bath: $(BUILD)/bench/make_shelf
	$< 2000 1000 20000 $@

$(BUILD)/bench/book/formulas.bath: $(BUILD)/bench/make_formulas
	@mkdir -p $(@D)
	$< 500 $@ $(BUILD)/bench/book.json

-include $(BENCH_OBJECTS:.o=.d)

bench: deps
	@$(MAKE) --no-print-directory $(TOGETHER) all $(BUILD)/bench/bench $(BUILD)/bench/keystroke $(BUILD)/bench/formulas.bath $(BUILD)/bench/shelf.bath \
	                              $(BUILD)/bench/book/formulas.bath
	@sh tests/support/packages.sh valgrind
	@status=0; \
	$(BUILD)/bench/bench $(BUILD)/potash $(BUILD)/bench/formulas.bath $(BUILD)/bench/formulas.json tests/bench/one.bath \
	                    $(BUILD)/bench/shelf.bath samples/film-developer.bath $(BUILD)/bench/book || status=1; \
	$(BUILD)/bench/keystroke $(BUILD)/potash $(BUILD)/bench/formulas.bath || status=1; \
	sh tests/bench/growth.sh $(BUILD)/potash $(BUILD)/bench || status=1; \
	exit $$status

# ---- editors: the extension for Visual Studio Code ----

.PHONY: vscode
vscode:
	@sh tests/support/packages.sh zip $(if $(and $(shell command -v node),$(shell command -v npm)),,nodejs npm)
	@mkdir -p $(BUILD)
	@sh docs/editors/vscode/pack.sh $(BUILD)/vscode $(VERSION) $(BUILD)/potash-bath.vsix
	@node tests/editor/vscode.mjs $(BUILD)/vscode >/dev/null
	@echo "  made   $(BUILD)/potash-bath.vsix"

# ---- mistakes: what the checks answer when correct formulas are spoilt; V=-v lists what is missed ----

MISTAKES_OBJECTS := $(patsubst %.c,$(BUILD)/obj/%.o,$(wildcard tests/mistakes/*.c))
MISTAKES_FILES   := $(filter-out samples/faulty.bath,$(sort $(wildcard samples/*.bath tests/published/*.bath tests/mistakes/*/*.bath)))

$(MISTAKES_OBJECTS): ALL_CFLAGS += -Itests

$(BUILD)/mistakes: $(MISTAKES_OBJECTS) $(BUILD)/libpotash.a
	@echo "  link   $@"
	$(SHOWN)$(CC) $(CFLAGS) $(NO_LTO) $(LDFLAGS) -o $@ $^ $(LIBS)

-include $(MISTAKES_OBJECTS:.o=.d)

mistakes: deps
	@$(MAKE) --no-print-directory $(TOGETHER) $(BUILD)/mistakes
	@$(BUILD)/mistakes $(V) $(MISTAKES_FILES)

# ---- mutants: what the tests notice when one token of the source is spoilt; SEED and COUNT choose, V=1 lists all ----

SEED  := 1
COUNT := 100
# A build of its own: tests are linked against a shared library, so that one spoilt file costs one compilation and one link.
MUTATE := $(BUILD)/mutate

$(BUILD)/libpotash.so: $(LIBRARY_OBJECTS)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(CFLAGS) $(LTO) $(LDFLAGS) -shared -Wl,-soname,$(@F) -o $@ $^ $(LIBS)

mutants: $(BUILD)/libpotash.so
	@echo '$(LIBRARY_OBJECTS)' > $(BUILD)/objects
	@echo '$(LIBS)' > $(BUILD)/libraries
	@$(MAKE) --no-print-directory $(TOGETHER) TESTED=$(BUILD)/libpotash.so LDFLAGS='-Wl,--enable-new-dtags,-rpath,$(abspath $(BUILD))' $(BUILD)/potash $(TEST_PROGRAMS)
	@python3 tests/mutate/mutate.py $(BUILD) --compiler '$(CC) $(ALL_CFLAGS)' --seed $(SEED) --count $(COUNT)

mutate: deps
	@$(MAKE) --no-print-directory $(TOGETHER) BUILD=$(MUTATE) CFLAGS='-O1 -fPIC' LTO= NO_LTO= mutants

# ---- what the build and the tests need from the system ----

include docs/packaging/packaging.mk
include src/web/web.mk

deps:
	@sh tests/support/packages.sh $(PACKAGES)
	@sh tests/support/node_modules.sh tests/browser tests/editor

# For those who only want the program: none of what the tests need.
demo:
	@sh tests/support/packages.sh $(BUILD_PACKAGES)
	@$(MAKE) --no-print-directory $(TOGETHER) all
	@$(BUILD)/potash sheet samples/print-developer.bath

help:
	@echo "make            build/potash and build/libpotash.a"
	@echo "make demo       install what is missing, build, show a mixing sheet"
	@echo "make test       install what is missing, build, run every test"
	@echo "make check      the same, without the network, installing nothing"
	@echo "make install    into PREFIX (default: /usr/local), below DESTDIR where that is set; make uninstall removes it"
	@echo "make deb        Debian packages, in build/"
	@echo "make static     build/potash-static, one file that needs no library; without PDF"
	@echo "make test-packages   make both, try them, and build twice to see that the bytes are the same"
	@echo "make npm        build/npm/potash-VERSION.tgz, for any system with Node"
	@echo "make web        build/web/potash.html, for any browser, and potash.mjs for JavaScript"
	@echo "make test-web   build these three, and test them"
	@echo "make test-portable   build with other compilers and for other machines, and compare what they answer"
	@echo "make mistakes   what the checks answer when correct formulas are spoilt"
	@echo "make mutate     what the tests notice when one token of the source is spoilt"
	@echo "make bench      speed and memory beside their limits"
	@echo "make vscode     build/potash-bath.vsix, the extension for Visual Studio Code"
	@echo "make deps       install what is missing"
	@echo "make clean      remove the build folder"
	@echo "VERBOSE=1 shows the commands of the compiler."

clean:
	rm -rf $(BUILD)

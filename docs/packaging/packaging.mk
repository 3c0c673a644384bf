# Installing, Debian packages, and one binary that needs no library.  Part of the Makefile at the top.

VERSION := $(shell sed -n 's/^.define POTASH_VERSION "\(.*\)"/\1/p' src/base/version.h)
PREFIX  ?= /usr/local
LIBDIR  ?= $(PREFIX)/lib
# Where shells look for completions below PREFIX; Debian has places of its own for zsh.
ZSH_COMPLETIONS ?= share/zsh/site-functions
PACKAGING := docs/packaging

.PHONY: install uninstall deb static test-packages

# The library as others link it offers potash.h and nothing else.  Its parts take nettle from the system, as it may be used twice.
INSTALLED_LIBS := $(shell pkg-config --libs jansson libutf8proc nettle 2>/dev/null) -lm

$(BUILD)/lib/libpotash.so.0: $(LIBRARY_OBJECTS) $(PACKAGING)/libpotash.map
	@mkdir -p $(@D)
	@echo "  link   $@"
	$(SHOWN)$(CC) $(CFLAGS) $(LTO) $(NO_PATHS) $(LDFLAGS) -shared $(HARDENED) -Wl,-soname,$(@F) -Wl,--version-script=$(PACKAGING)/libpotash.map \
	         -o $@ $(LIBRARY_OBJECTS) $(INSTALLED_LIBS)

# One object, in which only the names of potash.h can be seen: nothing of it meets a name of the program that it is linked into.
$(BUILD)/lib/libpotash.a: $(LIBRARY_OBJECTS)
	@mkdir -p $(@D)
	@echo "  link   $@"
	@rm -f $@
	$(SHOWN)$(CC) $(CFLAGS) $(if $(LTO),-flto=auto -flinker-output=nolto-rel) $(NO_PATHS) -r -nostdlib -o $(@D)/potash.o $^
	$(SHOWN)objcopy --wildcard --keep-global-symbol='potash_*' --remove-section=.gnu.lto_* $(@D)/potash.o
	@$(AR) rcsD $@ $(@D)/potash.o

$(BUILD)/lib/potash.pc: $(PACKAGING)/potash.pc.in $(PACKAGING)/packaging.mk src/base/version.h
	@mkdir -p $(@D)
	@sed 's,@VERSION@,$(VERSION),' $< > $@

INSTALL = BUILD="$(BUILD)" PREFIX="$(PREFIX)" LIBDIR="$(LIBDIR)" DESTDIR="$(DESTDIR)" ZSH_COMPLETIONS="$(ZSH_COMPLETIONS)" \
          sh $(PACKAGING)/install.sh

INSTALLED := $(PROGRAM) $(BUILD)/lib/libpotash.so.0 $(BUILD)/lib/libpotash.a $(BUILD)/lib/potash.pc

install: $(INSTALLED)
	@$(INSTALL) install program library headers

uninstall:
	@$(INSTALL) uninstall program library headers

DEB_PACKAGES := dpkg-dev binutils gzip lintian

deb:
	@sh tests/support/packages.sh $(BUILD_PACKAGES) $(DEB_PACKAGES)
	@$(MAKE) --no-print-directory $(TOGETHER) all $(INSTALLED)
	@sh $(PACKAGING)/deb.sh "$(BUILD)" "$(VERSION)"

# Pango cannot be linked so, so it is built without PDF; its libraries are built from Debian's sources, of which square codes are one.
STATIC := $(BUILD)/static

static:
	@sh tests/support/packages.sh $(BUILD_PACKAGES) dpkg-dev
	@sh tests/portable/libraries.sh $(BUILD)/portable/sources $(STATIC)/libraries $(CC) $(CFLAGS) $(HARDENING) -fPIE
	@$(MAKE) --no-print-directory $(TOGETHER) BUILD=$(STATIC) PDF=no PKG_CFLAGS="-isystem $(BUILD)/portable/sources/include" \
	         LIBS="$(STATIC)/libraries/libraries.a -lm" LDFLAGS="$(LDFLAGS) -static-pie" $(STATIC)/potash
	@strip -o $(BUILD)/potash-static $(STATIC)/potash
	@echo "  made   $(BUILD)/potash-static"

# Takes several minutes: everything is built twice more.
test-packages: deb static
	@sh tests/packaging/packages.sh $(BUILD) $(VERSION)

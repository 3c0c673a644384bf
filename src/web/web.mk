# WebAssembly: the same program, without PDF, for Node, for JavaScript and for browsers.  Part of the Makefile at the top.

WASM         := $(BUILD)/portable/wasm
WASM_SOURCES := $(BUILD)/portable/sources
WASM_CC      ?= clang
WASM_CFLAGS  := -O2 -Werror
# Emscripten's runtime is linked twice: for Node with the files of the machine, and for JavaScript with files in memory, where main is
# called again and again.
WASM_SHARED_LINK := -O1 -sSUPPORT_LONGJMP=1 -sALLOW_MEMORY_GROWTH=1 -sTOTAL_STACK=8MB
# Loaded at once, since this emscripten would fetch it from a server where Node knows how to.
WASM_NODE_LINK   := emcc $(WASM_SHARED_LINK) -sWASM_ASYNC_COMPILATION=0 -sNODERAWFS=1 -sEXIT_RUNTIME=1 -sENVIRONMENT=node --pre-js src/web/under_node.js
WASM_MODULE_LINK := emcc $(WASM_SHARED_LINK) -sMODULARIZE=1 -sEXPORT_NAME=instantiate -sENVIRONMENT=web -sINVOKE_RUN=0 \
                    -sEXPORTED_RUNTIME_METHODS=callMain,FS

# Emscripten's compiler is clang with options; without its script around every file the build is three times as fast.
WASM_MAKE = $(MAKE) --no-print-directory $(TOGETHER) BUILD=$(WASM) CC="$(WASM_CC) $$(emcc --cflags)" AR=emar CFLAGS="$(WASM_CFLAGS)" LTO= NO_LTO= PIC= HARDENING= \
            PDF=no LEXER=--loop-switch LEXER_CFLAGS=-O1 MAKE_LIBRARY=$(BUILD)/make_library PKG_CFLAGS="-isystem $(WASM_SOURCES)/include" \
            LIBS="$(WASM)/libraries/libraries.a -lm" WEB_SOURCES=src/web/host.c

.PHONY: wasm npm web test-web

wasm:
	@sh tests/support/packages.sh $(BUILD_PACKAGES) $(WASM_PACKAGES)
	@$(MAKE) --no-print-directory $(TOGETHER) $(BUILD)/make_library
	@AR=emar sh tests/portable/libraries.sh $(WASM_SOURCES) $(WASM)/libraries $(WASM_CC) $$(emcc --cflags)
	+@$(WASM_MAKE) LINK="$(WASM_NODE_LINK)" PROGRAM=$(WASM)/potash.js all
	+@$(WASM_MAKE) LINK="$(WASM_MODULE_LINK)" PROGRAM=$(WASM)/module.js all

# ---- for Node: a package that npm installs from a file ----

NPM := $(BUILD)/npm/package

npm: wasm
	@rm -rf $(NPM)
	@mkdir -p $(NPM)/samples
	@cp $(WASM)/potash.js $(WASM)/potash.wasm LICENSE src/web/npm/* $(NPM)/
	@cp samples/*.bath $(NPM)/samples/
	@sed -i "s/@VERSION@/$(VERSION)/" $(NPM)/package.json $(NPM)/README.md
	@chmod 755 $(NPM)/command.js
	@cd $(NPM) && npm pack --silent --pack-destination .. > /dev/null
	@echo "  made   $(BUILD)/npm/potash-$(VERSION).tgz"

# ---- for JavaScript, and for any browser: one file each ----

web: wasm
	@sh tests/support/node_modules.sh src/web
	@node src/web/build.mjs $(WASM) $(BUILD)/gen $(BUILD)/web
	@echo "  made   $(BUILD)/web/potash.mjs, $(BUILD)/web/potash.html"

# What needs emscripten is tested apart, so that `make test` stays what a newcomer can wait for.
test-web: deps
	@$(MAKE) --no-print-directory $(TOGETHER) all
	@$(MAKE) --no-print-directory npm
	@$(MAKE) --no-print-directory web
	@sh tests/web/npm.sh $(BUILD) $(VERSION)
	@node --liftoff-only tests/web/module.mjs $(BUILD)/potash $(BUILD)/web/potash.mjs
	@POTASH=$(BUILD)/potash sh tests/browser/browser.sh ../web/page

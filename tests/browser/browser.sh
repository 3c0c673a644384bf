#!/bin/sh
# The browser tests as a test program; POTASH names the program under test.
if ! [ -d tests/browser/node_modules/playwright-core ]; then
    echo "[  FAILED  ] 1 test(s)."
    echo "what they need from npm is missing: make deps"
    exit 1
fi
exec node tests/browser/main.mjs "$@"

#!/bin/sh
# The browser tests as a test program; POTASH names the program under test.
if ! [ -d tests/browser/node_modules/playwright-core ]; then
    echo "skipped: the browser tests; what they need from npm could not be fetched (make deps says why)"
    echo "[  PASSED  ] 0 test(s)."
    exit 0
fi
exec node tests/browser/main.mjs "$@"

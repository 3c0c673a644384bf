#!/bin/sh
# Fetches what the browser tests need from npm, once: the driver of the browser and the check of accessibility.
cd "$(dirname "$0")" || exit 1
[ node_modules/.package-lock.json -nt package-lock.json ] && exit 0
echo "potash: fetching what the browser tests need" >&2
log=$(mktemp) || exit 1
trap 'rm -f "$log"' EXIT
if ! npm ci >"$log" 2>&1; then
    echo "potash: npm could not fetch it; the browser tests are skipped:" >&2
    tail -n 3 "$log" >&2
    exit 0 # all else can be built and tested
fi
touch node_modules/.package-lock.json

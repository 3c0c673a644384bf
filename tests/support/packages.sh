#!/bin/sh
# Installs what is missing of the Debian packages named as arguments; says all that cannot be installed in one line.
missing=""
for package in "$@"; do
    status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)
    [ "$status" = installed ] || missing="$missing $package"
done
[ -z "$missing" ] && exit 0
if [ "$(id -u)" = 0 ]; then as_root=""; elif command -v sudo >/dev/null 2>&1; then as_root="sudo"; else
    echo "potash: these packages are missing, and only root can install them:$missing" >&2
    exit 1
fi
echo "potash: installing$missing" >&2
export DEBIAN_FRONTEND=noninteractive
log=$(mktemp) || exit 1
trap 'rm -f "$log"' EXIT
$as_root apt-get update -q >"$log" 2>&1
if ! $as_root apt-get install -q -y --no-install-recommends $missing >>"$log" 2>&1; then
    # One bad name fails them all: find out which can be had, each by itself.
    failed=""
    for package in $missing; do
        $as_root apt-get install -q -y --no-install-recommends "$package" >>"$log" 2>&1 || failed="$failed $package"
    done
    if [ -n "$failed" ]; then
        echo "potash: these packages could not be installed:$failed" >&2
        exit 1
    fi
fi

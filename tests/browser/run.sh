#!/usr/bin/env bash
# run.sh - the calculation package in a browser without a window: the package's scripts, its print, what is read aloud.
# KERNLINE is the program. Pictures for a person to look at are left in build/browser. Needs node, npm and chromium (deps.sh browser).
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/../.." || exit 1
KERNLINE=$(realpath "${KERNLINE:-build/release/kernline}")
work=build/browser
mkdir -p "$work"
cp tests/browser/package.json tests/browser/package-lock.json "$work"/
if ! npm ci --prefix "$work" --no-fund --no-audit --silent >"$work"/npm.log 2>&1; then
    cat "$work"/npm.log
    echo "browser: 0 passed, 1 failed"
    exit 1
fi
cp tests/browser/*.mjs "$work"/
KERNLINE=$KERNLINE WORK=$(realpath "$work") CHROMIUM=$(command -v chromium || command -v chromium-browser) node "$work"/package_test.mjs

#!/bin/sh
# deps.sh - see that what the build and the tests need is there; install it where we may, else say what to install.
# Usage: deps.sh [valgrind] [clang] [browser]      (the words ask for tools beyond the usual set)
# SPDX-License-Identifier: MIT
set -u

# One line a need: Debian's package, then a command that succeeds when it is there.
needs() {
    cat <<'TABLE'
gcc                command -v gcc
make               command -v make
pkg-config         command -v pkg-config
libopenblas-dev    has_openblas
liblapacke-dev     has_header lapacke.h
libsuitesparse-dev has_header suitesparse/amd.h
libcmocka-dev      has_cmocka
libjansson-dev     has_header jansson.h
libmd-dev          has_header sha2.h
librsvg2-dev       pkg-config --exists librsvg-2.0
libcairo2-dev      pkg-config --exists cairo
fonts-liberation   has_letters
libexpat1-dev      has_header expat.h
poppler-utils      command -v pdftotext
libxml2-utils      command -v xmllint
TABLE
    for tool in "$@"; do
        case $tool in
        browser) # for tests/browser
            printf '%s\n' 'chromium command -v chromium' 'nodejs command -v node' 'npm command -v npm' 'poppler-utils command -v pdfinfo'
            continue ;;
        esac
        printf '%s command -v %s\n' "$tool" "$tool"
    done
}

CC=${CC:-cc}
has_header() { printf '#include <%s>\n' "$1" | "$CC" -E -x c - $(pkg-config --cflags-only-I openblas 2>/dev/null); }
# The header of the reference library, which others bring along, has the same name and lacks what we call.
has_openblas() { printf '#include <cblas.h>\n' | "$CC" -E -x c - $(pkg-config --cflags-only-I openblas 2>/dev/null) | grep -q openblas_set_num_threads; }
has_cmocka() { printf '#include <stdarg.h>\n#include <stddef.h>\n#include <stdint.h>\n#include <setjmp.h>\n#include <cmocka.h>\n' | "$CC" -E -x c -; }

has_letters() { ls /usr/share/fonts/truetype/liberation*/LiberationSans-Regular.ttf; }

missing() {
    needs "$@" | while read -r package check; do
        eval "$check" </dev/null >/dev/null 2>&1 || printf '%s ' "$package"
    done
}

lacking=$(missing "$@")
[ -n "$lacking" ] || exit 0

tell() {
    cat <<TEXT
kernline needs, beside a C compiler, make and git, these packages (by their names in Debian and Ubuntu):
    $lacking
Elsewhere look for: OpenBLAS and LAPACKE with their C headers (linear algebra), AMD of the SuiteSparse (ordering), cmocka, expat, xmllint and the tools of poppler (tests), jansson (JSON), libmd (SHA-256), librsvg and cairo (pictures), the letters of Liberation Sans.
TEXT
}

if ! command -v apt-get >/dev/null 2>&1; then
    tell
    echo "This machine has no apt-get, so they cannot be installed from here."
    exit 1
fi
as_root=
if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
        tell
        echo "Installing them takes the rights of root:  apt-get install $lacking"
        exit 1
    fi
    as_root=sudo
fi
echo "installing: $lacking"
{ $as_root apt-get update -q && DEBIAN_FRONTEND=noninteractive $as_root apt-get install -q -y --no-install-recommends $lacking; } </dev/null ||
    { tell; exit 1; }
lacking=$(missing "$@")
[ -z "$lacking" ] || { tell; exit 1; }

#!/usr/bin/env bash
# check_includes.sh - the layer table on every #include, each header compiled alone, and the rules on names.
# The table is that of DEVELOPERS.md: a layer may include itself and what it knows, directly or through others.
# SPDX-License-Identifier: MIT
set -u
cd "$(dirname "$0")/.." || exit 1
CC=${CC:-cc}
passed=0 failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); printf '%s\n' "$*"; }

# layer: the layers it knows itself
declare -A knows=(
    [public]="" [base]="public" [sparse]="base" [model]="base" [frame]="sparse model" [tendon]="frame"
    [time]="model" [stage]="frame tendon time" [check]="stage" [field]="stage"
    [text]="public base" [output]="public base" [package]="output" [command]="text package public" [pages]=""
)

layer_of() { # path -> layer, or nothing
    case $1 in
    include/kernline/*) echo public ;;
    solver/*/*) local rest=${1#solver/}; echo "${rest%%/*}" ;;
    frontends/*/*) local rest=${1#frontends/}; echo "${rest%%/*}" ;;
    tests/*) echo tests ;;
    esac
}

declare -A reach
reach_of() { # layer -> itself and everything below, once
    if [ -z "${reach[$1]+set}" ]; then
        local all=" $1 " next
        for next in ${knows[$1]}; do
            reach_of "$next"
            all+="${reach[$next]}"
        done
        reach[$1]=$all
    fi
}

mapfile -t files < <(find include solver frontends tests -name '*.[ch]' | sort)
declare -A path_of
for f in "${files[@]}"; do
    name=${f##*/}
    if [ -n "${path_of[$name]:-}" ]; then bad "$f: ${path_of[$name]} has the same name"; else path_of[$name]=$f; fi
done

check_include() { # FILE LAYER KIND NAME
    local file=$1 layer=$2 kind=$3 name=$4 target target_layer
    case $name in
    lapacke.h | cblas.h) [ "$file" = solver/sparse/lapack.c ] || [ "$layer" = tests ] || bad "$file: only solver/sparse/lapack.c includes $name" ;;
    jansson.h) [ "$file" = frontends/output/json.c ] || [ "$layer" = tests ] || bad "$file: only frontends/output/json.c includes $name" ;;
    esac
    [ "$kind" = '"' ] || { good; return; }
    case $name in
    kernline/*) target=include/$name ;;
    */*) bad "$file: #include \"$name\": give the name alone"; return ;;
    *) target=${path_of[$name]:-} ;;
    esac
    [ -n "$target" ] && [ -f "$target" ] || { bad "$file: #include \"$name\": no such file"; return; }
    [ "$layer" != tests ] || { good; return; }
    target_layer=$(layer_of "$target")
    if [[ "${reach[$layer]}" == *" $target_layer "* ]]; then
        good
    else
        bad "$file ($layer) must not include $target ($target_layer)"
    fi
}

for f in "${files[@]}"; do
    layer=$(layer_of "$f")
    if [ "$layer" != tests ]; then
        [ -n "${knows[$layer]+set}" ] || { bad "$f: no layer of that name"; continue; }
        reach_of "$layer"
    fi
    while read -r kind name; do
        check_include "$f" "$layer" "$kind" "$name"
    done < <(sed -nE 's/^ *# *include *(["<])([^">]+)[">].*/\1 \2/p' "$f")
done

# The library never prints, ends the process or reads the environment.
while read -r line; do
    bad "$line: not in the library"
done < <(grep -nE '(^|[^a-z_])(printf|fprintf|vprintf|puts|putchar|perror|exit|abort|getenv)[ ]*\(' solver/*/*.c 2>/dev/null |
    grep -vE '^[^:]+:[0-9]+: *(\*|/\*|//)')

flags=(-std=c17 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Werror -Iinclude -Itests/support)
for d in solver/*/ frontends/*/; do flags+=("-I$d"); done
for f in "${files[@]}"; do
    [[ $f == *.h ]] || continue
    if "$CC" "${flags[@]}" -fsyntax-only -x c - <<<"#include \"${f#include/}\"
int alone(void);" -I"${f%/*}" -I.; then good; else bad "$f does not compile alone"; fi
done
echo "check_includes: $passed passed, $failed failed"
[ "$failed" -eq 0 ]

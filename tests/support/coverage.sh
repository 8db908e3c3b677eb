#!/usr/bin/env bash
# coverage.sh - lines reached by the tests, a row a source file, worst first. Usage: coverage.sh build/cov
# SPDX-License-Identifier: MIT
set -u
find "$1"/solver "$1"/frontends -name '*.gcda' -print0 | xargs -0 -r gcov -n 2>/dev/null |
    awk -F"[':%]+" '
        /^File / { file = $2 }
        /^Lines executed/ && file ~ /^(solver|frontends)\/.*\.c$/ {
            split($0, part, /[:% ]+/); share = part[3]; lines = part[5]
            row[file] = sprintf("%6.1f %%  %5d lines  %s", share, lines, file)
            hit += share * lines / 100; all += lines; file = ""
        }
        END { for (f in row) print row[f] | "sort -n"; close("sort -n")
              if (all) printf "%6.1f %%  %5d lines  all\n", 100 * hit / all, all }'

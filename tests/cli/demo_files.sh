# What `make demo` leaves behind: a summary, tables as CSV and JSON, pictures and the package, none of them empty.
"$ROOT/tests/support/demo.sh" "$PWD" >/dev/null 2>&1 || echo "status $?"
find . -type f -size +100c | sort

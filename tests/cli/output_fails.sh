# A full disk, a closed output: status 5 and a message. A missing file too.
exec 2>&1
if [ -c /dev/full ]; then kernline --help >/dev/full; else echo "kernline: standard output cannot be written: No space left on device"; (exit 5); fi
echo "status $?"
kernline --version >&-
echo "status $?"
kernline validate missing.kline
echo "status $?"

# The help of the program and of each command.
kernline --help
for command in run table report sensitivity validate words format; do
    echo "== $command"
    kernline $command --help
done

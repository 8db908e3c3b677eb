# `format --write` replaces the file at once, keeps its permissions and links, and a second run changes nothing.
printf 'show    si\nnode A at (0 m,   0 m) # left\n' >model.kline
chmod 640 model.kline
ln -s model.kline link.kline
kernline format link.kline >printed
kernline format link.kline --write
echo "status $?"
cmp printed model.kline && echo same
[ -L link.kline ] && echo "still a link"
stat -c %a model.kline
ls
kernline format model.kline | cmp - model.kline && echo "nothing left to do"

# What `make install` puts where, with the version in the names, and a client that builds against it.
make -s -C "$ROOT" install BUILD=release PREFIX=/usr DESTDIR="$PWD/root" >/dev/null 2>&1 || echo "make install failed"
version=$(kernline --version | grep -oE '[0-9]+\.[0-9]+\.[0-9]+' | head -n 1)
for file in bin/kernline lib/libkernline.a "lib/libkernline.so.$version" lib/libkernline.so include/kernline/kernline.h lib/pkgconfig/kernline.pc; do
    [ -e "root/usr/$file" ] || echo "not installed: $file"
done
grep -q "^Version: $version$" root/usr/lib/pkgconfig/kernline.pc || echo "pkg-config does not tell the version"
printf '#include <kernline/kernline.h>\nint main(void) { return kl_status_text(KL_OK) == 0; }\n' >client.c
cc -Iroot/usr/include -o client client.c root/usr/lib/libkernline.a -lamd -llapacke -lopenblas -lm && ./client && echo "a client builds and runs"
# The second program is found in libexec, from wherever the first is called; without it nothing is written, and it is said why.
cat >beam.kline <<'MODEL'
show si
node A at (0 m, 0 m); node B at (9 m, 0 m)
material elastic { modulus 30 GPa; unit_weight 24 kN/m^3 }
section body { rectangle width 1 m depth 1 m }
member beam from A to B section body of elastic
support A pinned; support B roller
load live { uniform 8 kN/m on beam }
MODEL
ln -s root/usr/bin/kernline called
./called plot beam.kline moment --case live -o m.pdf && pdftotext m.pdf - | grep '^81' # 8 kN/m x (9 m)^2 / 8 = 81 kN-m
rm root/usr/libexec/kernline-pages
./called plot beam.kline moment -o gone.pdf 2>&1
echo "status $?"
ls gone.pdf 2>/dev/null || echo "nothing is written"

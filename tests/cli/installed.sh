# What `make install` puts where, with the version in the names, and a client that builds against it.
make -s -C "$ROOT" install BUILD=release PREFIX=/usr DESTDIR="$PWD/root" >/dev/null 2>&1 || echo "make install failed"
version=$(kernline --version | grep -oE '[0-9]+\.[0-9]+\.[0-9]+' | head -n 1)
for file in bin/kernline lib/libkernline.a "lib/libkernline.so.$version" lib/libkernline.so include/kernline/kernline.h lib/pkgconfig/kernline.pc; do
    [ -e "root/usr/$file" ] || echo "not installed: $file"
done
grep -q "^Version: $version$" root/usr/lib/pkgconfig/kernline.pc || echo "pkg-config does not tell the version"
printf '#include <kernline/kernline.h>\nint main(void) { return kl_status_text(KL_OK) == 0; }\n' >client.c
cc -Iroot/usr/include -o client client.c root/usr/lib/libkernline.a -lamd -llapacke -lopenblas -lm && ./client && echo "a client builds and runs"

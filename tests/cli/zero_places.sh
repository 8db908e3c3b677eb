# A beam with an unloaded overhang on the left: its smallest moment is 0 from the tip to the support, however far in that stands, and
# of equals the first place is told. So it is of the end of a cantilever, which is the only one.
for at in 1.3 2.9 4.7 6.4 7.08 7.3; do
    kernline run - <<END | grep '^beam'
show si
material stone { modulus 30 GPa }
section r { rectangle width 1 m depth 1 m }
node A at (0 m, 0 m)
node B at (31 m, 0 m)
member beam from A to B section r of stone { weightless }
node M on beam at $at m
node Q on beam at 23.1 m
support M pinned
support Q roller
load p { uniform 13.7 kN/m on beam from $at m to 23.1 m }
END
done | awk '{ print ($4 > 0), $6, $7 }' # is there a largest moment; the smallest and where
kernline run - <<END | grep '^arm' | awk '{ print $4, $5 }'
show si
material stone { modulus 30 GPa }
section r { rectangle width 1 m depth 1 m }
node A at (0 m, 0 m)
node B at (7.1 m, 0 m)
member arm from A to B section r of stone
support A fixed
load p { uniform 13.7 kN/m on arm }
END

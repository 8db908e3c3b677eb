#include "diagrams.h"
void diagram_strength(drawing *d, kl_results *results, const selection *s)
{
    (void)results;
    (void)s;
    drawing_start(d, 10, 10, "", "");
}
void diagram_creep(drawing *d, kl_results *results, const selection *s)
{
    (void)results;
    (void)s;
    drawing_start(d, 10, 10, "", "");
}
void diagram_shrinkage(drawing *d, kl_results *results, const selection *s)
{
    (void)results;
    (void)s;
    drawing_start(d, 10, 10, "", "");
}

#include "diagrams.h"
void diagram_tendon_force(drawing *d, kl_results *results, const selection *s)
{
    (void)results;
    (void)s;
    drawing_start(d, 10, 10, "", "");
}

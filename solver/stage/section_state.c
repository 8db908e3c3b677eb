/* section_state.c - see section_state.h.
 * SPDX-License-Identifier: MIT */
#include "section_state.h"

#include <math.h>
#include <string.h>

#include "material.h"
#include "near.h"
#include "pi.h"

#define YOUNGEST                                                                                   \
    KL_DAY /* concrete younger than a day is taken at one day: laws of E(t) have no say before */
#define AGELESS (28.0 * KL_DAY)

/* ---- pages ----------------------------------------------------------------------------------------------- */

static void mark_tendons(const section_book *book)
{
    for (kl_index t = 0; t < book->mesh->model->tendon_count; t++) {
        for (kl_index i = 0; i < book->traces[t].count; i++) {
            book->page[book->traces[t].elements[i].element] = KL_NONE;
        }
    }
}

/* A prismatic member has one set of sections in the mesh. */
static void number_pages(section_book *book)
{
    const frame_mesh *mesh = book->mesh;
    kl_index sections = KL_NONE; /* of the last page that can be shared */
    kl_index shared = KL_NONE;
    for (kl_index e = 0; e < mesh->element_count; e++) {
        const bool own = book->page[e] == KL_NONE;
        if (!own && mesh->elements[e].section == sections) {
            book->page[e] = shared;
            continue;
        }
        if (!own) {
            sections = mesh->elements[e].section;
            shared = book->page_count;
        }
        book->page[e] = book->page_count++;
    }
}

static kl_status make_pages(section_book *book, arena *a)
{
    const kl_index elements = book->mesh->element_count;
    book->page = arena_array(a, (size_t)elements, sizeof(kl_index));
    if (!book->page) {
        return KL_NO_MEMORY;
    }
    mark_tendons(book);
    number_pages(book);
    book->element = arena_array(a, (size_t)book->page_count, sizeof(kl_index));
    for (kl_index e = elements - 1; book->element && e >= 0; e--) {
        book->element[book->page[e]] = e;
    }
    return book->element ? KL_OK : KL_NO_MEMORY;
}

static kl_status list_rebar(section_book *book, arena *a)
{
    const frame_mesh *mesh = book->mesh;
    if (!rebar_counts(mesh->model)) {
        return KL_OK;
    }
    book->rebar = arena_array(a, (size_t)book->page_count, sizeof *book->rebar);
    for (kl_index i = 0; book->rebar && i < book->page_count; i++) {
        const kl_index e = book->element[i];
        for (int p = 0; p < QUADRATURE_POINTS; p++) {
            const double top = mesh->sections[mesh->elements[e].section + p].top;
            const member_section where = member_section_at(
                mesh->model, mesh->elements[e].member, mesh_point_station(mesh, e, p), KL_RIGHT);
            book->rebar[i][p] = rebar_at(mesh->model, &where, top);
        }
    }
    return book->rebar ? KL_OK : KL_NO_MEMORY;
}

kl_status section_book_create(const frame_mesh *mesh,
                              const tendon_trace *traces,
                              arena *a,
                              section_book *book)
{
    *book = (section_book){.mesh = mesh, .traces = traces};
    KL_TRY(make_pages(book, a));
    const size_t pages = (size_t)book->page_count;
    book->rigidity = arena_array(a, pages, sizeof *book->rigidity);
    book->flexibility = arena_array(a, pages, sizeof *book->flexibility);
    book->concrete = arena_array(a, pages, sizeof *book->concrete);
    book->modulus = arena_array(a, (size_t)mesh->model->member_count, sizeof(double));
    book->shear_modulus = arena_array(a, (size_t)mesh->model->member_count, sizeof(double));
    if (!book->rigidity || !book->flexibility || !book->concrete || !book->modulus ||
        !book->shear_modulus) {
        return KL_NO_MEMORY;
    }
    return list_rebar(book, a);
}

/* ---- moduli ---------------------------------------------------------------------------------------------- */

double section_age(const stage_state *state, kl_index member, bool ageless)
{
    return ageless ? AGELESS : fmax(state->time - state->members[member].birth, YOUNGEST);
}

void section_book_age(section_book *book, const stage_state *state, bool ageless)
{
    const kl_model *model = book->mesh->model;
    book->passing = false;
    for (kl_index m = 0; m < model->member_count; m++) {
        if (state->members[m].stands) {
            const kl_material *material = &model->materials[model->members[m].material];
            const double age = section_age(state, m, ageless);
            book->modulus[m] = material_modulus(material, age);
            book->shear_modulus[m] = material_shear_modulus(material, age);
        }
    }
}

/* ---- rigidity ------------------------------------------------------------------------------------------- */

/* Add an area of modulus E at height y. */
static void add_area(section_rigidity *d, double ea, double y)
{
    d->ea += ea;
    d->es += ea * y;
    d->ei += ea * y * y;
}

static section_rigidity
gross_rigidity(const mesh_section *s, double modulus, double shear_modulus, bool axial_only)
{
    const double ea = modulus * s->area;
    const bool rigid = isinf(s->shear_area) || axial_only;
    return (section_rigidity){
        .ea = ea,
        .es = axial_only ? 0.0 : ea * s->centroid,
        .ei = axial_only ? 0.0 : modulus * s->inertia + ea * s->centroid * s->centroid,
        .shear = rigid ? HUGE_VAL : shear_modulus * s->shear_area};
}

static kl_index member_of(const section_book *book, kl_index page)
{
    return book->mesh->elements[book->element[page]].member;
}

static void set_concrete(section_book *book, kl_index page)
{
    const frame_mesh *mesh = book->mesh;
    const kl_index m = member_of(book, page);
    const mesh_section *sections = &mesh->sections[mesh->elements[book->element[page]].section];
    for (int p = 0; p < QUADRATURE_POINTS; p++) {
        book->concrete[page][p] =
            gross_rigidity(&sections[p], book->modulus[m], book->shear_modulus[m],
                           mesh->model->members[m].axial_only);
    }
}

/* The concrete that rebar displaces; an axial member's bars pull along its line. */
static void displace_rebar(const section_book *book, kl_index page, int p)
{
    const kl_index m = member_of(book, page);
    const rebar_sums *r = &book->rebar[page][p];
    section_rigidity *d = &book->concrete[page][p];
    const double bends = book->mesh->model->members[m].axial_only ? 0.0 : book->modulus[m];
    d->ea -= book->modulus[m] * r->area;
    d->es -= bends * r->first;
    d->ei -= bends * r->second;
}

static void add_rebar(const section_book *book, kl_index page, int p)
{
    const bool axial_only = book->mesh->model->members[member_of(book, page)].axial_only;
    const rebar_sums *r = &book->rebar[page][p];
    section_rigidity *d = &book->rigidity[page][p];
    d->ea += r->ea;
    d->es += axial_only ? 0.0 : r->es;
    d->ei += axial_only ? 0.0 : r->ei;
}

bool section_holds_tendon(const section_book *book, const stage_state *state, kl_index tendon)
{
    return state->tendons[tendon].phase == KL_TENDON_GROUTED &&
           (book->passing || !book->mesh->model->sections_gross);
}

/* Holes of ducts, and the concrete that grouted steel displaces. */
static void displace_tendons(section_book *book, const stage_state *state)
{
    const kl_model *model = book->mesh->model;
    for (kl_index t = 0; t < model->tendon_count && !model->sections_gross; t++) {
        const tendon_trace *trace = &book->traces[t];
        const kl_tendon *tendon = &model->tendons[t];
        const bool grouted = state->tendons[t].phase == KL_TENDON_GROUTED;
        const double hole = 0.25 * PI * tendon->duct * tendon->duct * tendon->count;
        for (kl_index i = 0; i < trace->count; i++) {
            const kl_index e = trace->elements[i].element;
            const double modulus = book->modulus[book->mesh->elements[e].member];
            for (int p = 0; p < QUADRATURE_POINTS && state->element_on[e]; p++) {
                const trace_point *at = &trace->elements[i].at[p];
                add_area(&book->concrete[book->page[e]][p],
                         -modulus * (grouted ? trace->area : hole),
                         grouted ? at->height : at->duct);
            }
        }
    }
}

static void add_tendons(section_book *book, const stage_state *state)
{
    for (kl_index t = 0; t < book->mesh->model->tendon_count; t++) {
        const tendon_trace *trace = &book->traces[t];
        for (kl_index i = 0; i < trace->count && section_holds_tendon(book, state, t); i++) {
            const kl_index e = trace->elements[i].element;
            for (int p = 0; p < QUADRATURE_POINTS && state->element_on[e]; p++) {
                const trace_point *at = &trace->elements[i].at[p];
                const double cube = at->cosine * at->cosine * at->cosine;
                add_area(&book->rigidity[book->page[e]][p], trace->modulus * trace->area * cube,
                         at->height);
            }
        }
    }
}

void section_book_update(section_book *book, const stage_state *state)
{
    const kl_index pages = book->page_count;
    for (kl_index i = 0; i < pages; i++) {
        if (state->members[member_of(book, i)].stands) {
            set_concrete(book, i);
        }
    }
    for (kl_index i = 0; book->rebar && i < pages * QUADRATURE_POINTS; i++) {
        displace_rebar(book, i / QUADRATURE_POINTS, i % QUADRATURE_POINTS);
    }
    displace_tendons(book, state);
    memcpy(book->rigidity, book->concrete, (size_t)pages * sizeof *book->rigidity);
    for (kl_index i = 0; book->rebar && i < pages * QUADRATURE_POINTS; i++) {
        add_rebar(book, i / QUADRATURE_POINTS, i % QUADRATURE_POINTS);
    }
    add_tendons(book, state);
    for (kl_index i = 0; i < pages * QUADRATURE_POINTS; i++) {
        const int p = i % QUADRATURE_POINTS;
        book->flexibility[i / QUADRATURE_POINTS][p] =
            section_soften(&book->rigidity[i / QUADRATURE_POINTS][p]);
    }
}

/* ---- free strain ---------------------------------------------------------------------------------------- */

void section_add_free_strain(const section_book *book,
                             const element_matrix *matrix,
                             kl_index element,
                             int point,
                             section_strain strain,
                             frame_loads *loads)
{
    const mesh_section *s = &book->mesh->sections[book->mesh->elements[element].section + point];
    const section_rigidity *d = &book->concrete[book->page[element]][point];
    const section_action held = {d->ea * strain.e - d->es * strain.k,
                                 d->ei * strain.k - d->es * strain.e, 0.0};
    const section_strain whole = element_section_strain(&matrix->f[point], held);
    section_strain *section = &loads->strain[element][point];
    fibre_strain *fibre = &loads->fibre[element];
    section->e += whole.e;
    section->k += whole.k;
    section->g += strain.g;
    fibre->plane[point].e += strain.e;
    fibre->plane[point].k += strain.k;
    fibre->plane[point].g += strain.g;
    fibre->top[point] += strain.e - strain.k * s->top;
    fibre->bottom[point] += strain.e - strain.k * s->bottom;
}

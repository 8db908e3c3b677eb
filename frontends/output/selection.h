/* selection.h - which moments, members and stations a table is asked for.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SELECTION_H
#define KERNLINE_SELECTION_H

#include "kernline/check.h"

/* The moments a table shows when none is asked for. */
typedef enum selection_span {
    SELECTION_FINAL,    /* the last step (models with stages), every case and combination */
    SELECTION_STAGES,   /* the last step of each stage, every case */
    SELECTION_ALL,      /* every step, every case */
    SELECTION_HISTORY,  /* every step and every moment between stages, in order of time */
    SELECTION_ENVELOPE, /* every step and combination; without stages every case and combination */
    SELECTION_LOADS,    /* none: the picture is of what acts, by stage, case or combination */
    SELECTION_NONE      /* the table is not of a moment */
} selection_span;

/* What the user asked; start from selection_wish_none. */
typedef struct selection_wish {
    kl_index stage, load_case, combination; /* KL_NONE: not asked */
    bool every_step;                        /* not only the ends of stages */
    bool every_stage;                       /* the end of each */
    bool tenths;   /* of the stations only nodes, faces of columns and tenths of the member */
    bool folds;    /* pictures hold all courses, those they have no room for folded away */
    bool by_cause; /* each cause by itself */
    kl_cause cause;
    kl_index member; /* KL_NONE: all */
    kl_index tendon; /* likewise */
    double every;    /* m between stations; NAN: twentieths */
    double at;       /* m, the one station of each member; NAN: as `every` has it */
    double day;      /* s, a moment that the analysis stopped at, or a stage's; NAN: not asked */
} selection_wish;

typedef struct selection {
    kl_state *states; /* owned */
    kl_index state_count;
    kl_index stage, load_case, combination; /* as asked; KL_NONE: not */
    kl_index member, tendon;
    double every, at;
    bool folds, tenths;
    const kl_check_report *report; /* borrowed; NULL when nothing was checked */
} selection;

selection_wish selection_wish_none(void);

/* Turn the wish into moments. @return KL_NO_MEMORY; KL_NOT_THERE: a case asked for has no state of its own
 * (which its loads can do without), or the analysis did not stop at the day.
 * On KL_OK free with selection_free. */
kl_status selection_make(const kl_results *results,
                         const selection_wish *wish,
                         selection_span span,
                         selection *out);
void selection_free(selection *s);

/* The step, or the moment between stages, of a state; NULL: it is of no day. */
const kl_step *selection_step(const kl_results *results, kl_state state);

/* Is the member wanted? */
bool selection_takes(const selection *s, kl_index member);
/* Does the tendon run in a member that is? */
bool selection_takes_tendon(const selection *s, const kl_model *model, kl_index tendon);
/* Is the row one of those few that `tenths` asks for, on a member of that length? */
bool selection_is_tenth(const kl_station_row *row, double length);

#endif

/* small.h - elimination of a supernode of one node with at most two below it. Static functions, for the passes only.
 *
 * The whole front, of nine rows at most, is local. With the columns v before they are scaled and r = 1 / pivot, the contribution is
 * - sum of r v v'. The node's own block is kept as L D L' (supernode.h), and the rows below as M = B (L D L')^-1, B being those of
 * the front: along a line the sweeps need nothing but M from one node to the next.
 * SPDX-License-Identifier: MIT */
#ifndef KERNLINE_SMALL_H
#define KERNLINE_SMALL_H

#include "front.h"

#define SMALL_ROWS 9

/* A front of 3 + 3 rows; entry (i, j) of the panel at i + j n, of the contribution at i + j m. */
typedef struct small_front {
    double panel[3 * SMALL_ROWS];
    double contribution[6 * 6];
} small_front;

LANES_INLINE void
small_add_child(const numeric_pass *pass, const supernode *child, small_front *f, const int rows)
{
    const int n = 3 + 3 * rows;
    const int m = 3 * rows;
    const kl_index *relative = pass->factor->symbolic->relative + child->row_at;
    const double *from = numeric_contribution(pass, child);
    const int64_t stride = supernode_contribution_stride(child);
    for (kl_index column = 0; column < child->rows; column++) {
        for (kl_index row = column; row < child->rows; row++) {
            const double *block = from + 3 * (column * stride + row);
            const bool left = relative[column] == 0;
            double *to =
                left ? f->panel + 3 * relative[row]
                     : f->contribution + 3 * (relative[column] - 1) * m + 3 * (relative[row] - 1);
            const int to_stride = left ? n : m;
            for (int j = 0; j < 3; j++) {
                for (int i = 0; i < 3; i++) {
                    to[j * to_stride + i] += block[j * stride + i];
                }
            }
        }
    }
}

LANES_INLINE void
small_assemble(numeric_pass *pass, const supernode *s, small_front *f, const int rows)
{
    const sparse_symbolic *symbolic = pass->factor->symbolic;
    const int n = 3 + 3 * rows;
    for (int i = 0; i < 3 * n; i++) {
        f->panel[i] = 0.0;
    }
    for (int i = 0; i < 9 * rows * rows; i++) {
        f->contribution[i] = 0.0;
    }
    front_put_diagonal(pass, s->first, f->panel, n);
    for (kl_index i = s->link_at; i < s[1].link_at; i++) {
        front_put_link(pass, symbolic->links[i], f->panel, n);
    }
    for (kl_index i = s->child_at; i < s[1].child_at; i++) {
        small_add_child(pass, &symbolic->supernodes[symbolic->children[i]], f, rows);
    }
}

/* M L D L' = B, where M L D are the columns v. */
LANES_INLINE void
small_put_below(const small_front *f, const double *reciprocal, double *panel, const int rows)
{
    const int n = 3 + 3 * rows;
    const double *v = f->panel;
    const double l10 = v[1] * reciprocal[0];
    const double l20 = v[2] * reciprocal[0];
    const double l21 = v[n + 2] * reciprocal[1];
    for (int i = 3; i < n; i++) {
        const double m2 = v[2 * n + i] * reciprocal[2];
        const double m1 = v[n + i] * reciprocal[1] - m2 * l21;
        panel[i] = v[i] * reciprocal[0] - m2 * l20 - m1 * l10;
        panel[n + i] = m1;
        panel[2 * n + i] = m2;
    }
}

/* @return the columns eliminated, 3 when all went well. */
LANES_INLINE int small_factor(numeric_pass *pass, const supernode *s, const int rows)
{
    const int n = 3 + 3 * rows;
    const int m = 3 * rows;
    small_front f;
    small_assemble(pass, s, &f, rows);
    double reciprocal[3];
    int done = 0;
    for (int k = 0; k < 3; k++) {
        const double *v = f.panel + k * n;
        if (!front_accept(pass, 3 * (int64_t)s->first + k, v[k])) {
            break;
        }
        done++;
        reciprocal[k] = 1.0 / v[k];
        for (int j = k + 1; j < 3; j++) {
            const double share = v[j] * reciprocal[k];
            for (int i = j; i < n; i++) {
                f.panel[j * n + i] -= v[i] * share;
            }
        }
    }
    double *panel = pass->factor->panels + s->panel;
    for (int k = 0; k < done; k++) {
        panel[k * n + k] = reciprocal[k];
        for (int i = k + 1; i < 3; i++) {
            panel[k * n + i] = f.panel[k * n + i] * reciprocal[k];
        }
    }
    if (done < 3) {
        return done;
    }
    small_put_below(&f, reciprocal, panel, rows);
    double *contribution = numeric_contribution(pass, s);
    for (int j = 0; j < m; j++) {
        double share[3];
        for (int k = 0; k < 3; k++) {
            share[k] = f.panel[k * n + 3 + j] * reciprocal[k];
        }
        for (int i = j / 3 * 3; i < m; i++) {
            double sum = f.contribution[j * m + i];
            for (int k = 0; k < 3; k++) {
                sum -= f.panel[k * n + 3 + i] * share[k];
            }
            contribution[j * m + i] = sum;
        }
    }
    return done;
}

#endif

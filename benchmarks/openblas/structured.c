/*
 * Elimination by columns of the mesh, in dense blocks or in steps of a few unknowns. A block holds the midside nodes of one element column and the corner nodes
 * on its far side; it couples to the nearer block's far corner nodes only. The line's unknowns (some of them on the
 * joint's face, a little off x = 0) come last: once a block touches them they ride along, as the loads do from the start.
 *
 * A panel is one block's columns, column-major: its own rows, the rows of the nearer block's far nodes, the loads, the
 * line's unknowns touched so far. Two panels take turns; nothing of the factor is kept.
 *
 * Unknowns are numbered down the column. So the upper ones, eliminated first, do not yet touch the lower midside nodes
 * nor the lower nodes of the nearer block: steps use it, and halve the work, whereas one step a block is plain
 * block-tridiagonal elimination.
 */
#include "system.h"
#include <cblas.h>
#include <stdlib.h>
#include <string.h>

/* Unknowns start..end - 1 of a block; rows touched by then: own ones before `below`, the first `near` of the next block. */
typedef struct {
  int start, end, below, near;
} Step;

typedef struct {
  int own;    /* unknowns eliminated; the first `far` of them couple to the block before */
  int far;
  int border; /* unknowns of the line that ride along */
  int steps;
  Step *step;
} Block;

struct Structured {
  const System *s;
  int blocks;
  Block *block;
  int *order;          /* place among the kept unknowns, of each border row */
  int *first;          /* elements sorted by column: elements first[c]..first[c + 1] - 1 of `sorted` */
  int *sorted;
  int **targets;       /* of each element: where in `work` each entry of its lower triangle goes; -1: nowhere */
  int *load_targets;   /* of each surface node: where the first load's entry goes */
  int *load_block;     /* and with which block; -1: the border */
  long start[2], edge; /* of the panels and of the border's matrix in `work` */
  double *work;
};

static int next_far(const Structured *t, int c) { return c > 0 ? t->block[c - 1].far : 0; }
static int rows(const Structured *t, int c) {
  return t->block[c].own + next_far(t, c) + t->s->loads + t->block[c].border;
}
static int edge_rows(const Structured *t) { return t->s->line + t->s->loads; }

/* Where a border row stands in the panel of block c. */
static int border_row(const Structured *t, int c, int place) {
  return t->block[c].own + next_far(t, c) + t->s->loads + place;
}

typedef struct {
  int block; /* -1: on the line */
  int place; /* in the block, or in the border */
} Where;

/* Entry (p, q) of the matrix as an index into `work`. */
static int target(const Structured *t, Where p, Where q) {
  if (p.block < q.block || (p.block == q.block && p.place < q.place)) {
    const Where swap = p;
    p = q;
    q = swap;
  }
  if (p.block < 0) return t->edge + (long)q.place * edge_rows(t) + p.place;
  const int c = p.block; /* the later block, eliminated first: its panel holds the entry, in one of its own columns */
  const long panel = t->start[c % 2];
  if (q.block < 0) return panel + (long)p.place * rows(t, c) + border_row(t, c, q.place);
  if (q.block == c) return panel + (long)q.place * rows(t, c) + p.place;
  if (q.block != c - 1 || q.place >= t->block[c - 1].far) abort(); /* not block-tridiagonal */
  return panel + (long)p.place * rows(t, c) + t->block[c].own + q.place;
}

static void sort_elements(Structured *t) {
  const System *s = t->s;
  for (int e = 0; e < s->elements; e++)
    if (s->element[e].column >= t->blocks) t->blocks = s->element[e].column + 1;
  t->first = allocate(t->blocks + 1, sizeof(int));
  t->sorted = allocate(s->elements, sizeof(int));
  for (int c = 0, k = 0; c < t->blocks; c++) {
    for (int e = 0; e < s->elements; e++)
      if (s->element[e].column == c) t->sorted[k++] = e;
    t->first[c + 1] = k;
  }
}

/* An unknown belongs to the first column that touches it, among the far ones where the next column touches it as well. */
static Where *place_unknowns(Structured *t) {
  const System *s = t->s;
  int *least = allocate(s->unknowns, sizeof(int)), *most = allocate(s->unknowns, sizeof(int));
  for (int u = 0; u < s->unknowns; u++) least[u] = t->blocks;
  for (int e = 0; e < s->elements; e++) {
    const Element *el = &s->element[e];
    for (int k = 0; k < el->order; k++) {
      const int u = el->unknowns[k];
      if (u < 0) continue;
      if (el->column < least[u]) least[u] = el->column;
      if (el->column > most[u]) most[u] = el->column;
    }
  }
  Where *where = allocate(s->unknowns, sizeof(Where));
  for (int u = 0; u < s->unknowns; u++) where[u] = (Where){least[u], -1};
  t->block = allocate(t->blocks, sizeof(Block));
  t->order = allocate(s->line, sizeof(int));
  for (int c = t->blocks - 1, border = 0; c >= 0; c--) {
    for (int k = 0; k < s->line; k++) {
      const int u = s->kept_unknowns[k];
      if (most[u] != c) continue;
      t->order[border] = k;
      where[u] = (Where){-1, border++};
    }
    t->block[c].border = border;
  }
  for (int near = 0; near < 2; near++)
    for (int u = 0; u < s->unknowns; u++) {
      if (where[u].block < 0 || (most[u] == least[u]) != near) continue;
      Block *b = &t->block[where[u].block];
      where[u].place = b->own++;
      if (!near) b->far++;
    }
  free(least);
  free(most);
  return where;
}

/* Cuts a block into steps of at most `most` unknowns. */
static void plan_steps(Structured *t, const Where *where, int c, int most) {
  Block *b = &t->block[c];
  int *below = allocate(b->own, sizeof(int)), *near = allocate(b->own, sizeof(int));
  for (int k = t->first[c]; k < t->first[c + 1]; k++) {
    const Element *e = &t->s->element[t->sorted[k]];
    int last = 0, last_near = 0;
    for (int i = 0; i < e->order; i++) {
      if (e->unknowns[i] < 0) continue;
      const Where w = where[e->unknowns[i]];
      if (w.block == c && w.place >= last) last = w.place + 1;
      if (w.block >= 0 && w.block == c - 1 && w.place >= last_near) last_near = w.place + 1;
    }
    for (int i = 0; i < e->order; i++) {
      if (e->unknowns[i] < 0) continue;
      const Where w = where[e->unknowns[i]];
      if (w.block != c) continue;
      if (last > below[w.place]) below[w.place] = last;
      if (last_near > near[w.place]) near[w.place] = last_near;
    }
  }
  b->step = allocate(b->own, sizeof(Step));
  int reach = b->far, reach_near = 0; /* the far nodes are all coupled by what was eliminated before */
  for (int start = 0; start < b->own;) {
    int end = start + most < b->own ? start + most : b->own;
    for (int j = start; j < end; j++) {
      if (below[j] > reach) reach = below[j];
      if (near[j] > reach_near) reach_near = near[j];
    }
    if (end > reach) reach = end;
    b->step[b->steps++] = (Step){start, end, reach, reach_near};
    start = end;
  }
  free(below);
  free(near);
}

Structured *structured_prepare(const System *s, int most) {
  Structured *t = allocate(1, sizeof *t);
  t->s = s;
  sort_elements(t);
  Where *where = place_unknowns(t);
  long largest = 0;
  for (int c = 0; c < t->blocks; c++) {
    plan_steps(t, where, c, most);
    const long size = (long)rows(t, c) * t->block[c].own;
    if (size > largest) largest = size;
  }
  t->start[1] = largest = (largest + 7) / 8 * 8;
  t->edge = 2 * largest;
  t->work = allocate(t->edge + (long)edge_rows(t) * s->line, sizeof(double));
  t->targets = allocate(s->elements, sizeof(int *));
  for (int e = 0; e < s->elements; e++) {
    const Element *el = &s->element[e];
    int *to = t->targets[e] = allocate(el->order * (el->order + 1) / 2, sizeof(int));
    for (int i = 0; i < el->order; i++)
      for (int j = 0; j <= i; j++) {
        const int u = el->unknowns[i], v = el->unknowns[j];
        *to++ = u < 0 || v < 0 ? -1 : target(t, where[u], where[v]);
      }
  }
  t->load_targets = allocate(s->surface, sizeof(int));
  t->load_block = allocate(s->surface, sizeof(int));
  for (int k = 0; k < s->surface; k++) {
    const Where w = where[s->surface_unknowns[k]];
    t->load_block[k] = w.block;
    t->load_targets[k] = w.block < 0
      ? t->edge + (long)w.place * edge_rows(t) + s->line
      : t->start[w.block % 2] + (long)w.place * rows(t, w.block) + border_row(t, w.block, -s->loads);
  }
  free(where);
  return t;
}

static void add_loads(Structured *t, int block) {
  const System *s = t->s;
  for (int k = 0; k < s->surface; k++) {
    if (t->load_block[k] != block) continue;
    for (int q = 0; q < s->loads; q++) t->work[t->load_targets[k] + q] += s->load[(long)q * s->surface + k];
  }
}

static void clear_panel(Structured *t, int c) {
  memset(t->work + t->start[c % 2], 0, (long)rows(t, c) * t->block[c].own * sizeof(double));
  add_loads(t, c);
}

static void scatter_column(Structured *t, int c) {
  for (int k = t->first[c]; k < t->first[c + 1]; k++) {
    const Element *e = &t->s->element[t->sorted[k]];
    const int *to = t->targets[t->sorted[k]];
    for (int i = 0; i < e->order; i++) {
      const double *row = e->matrix + i * e->order;
      for (int j = 0; j <= i; j++, to++)
        if (*to >= 0) t->work[*to] += row[j];
    }
  }
}

/* C -= A B^T, with A of `rows` rows, B of `columns` rows and both of w columns. */
static void subtract(int rows, int columns, int w, const double *A, const double *B, int ld, double *C, int ld_c) {
  if (rows && columns)
    cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, rows, columns, w, -1, A, ld, B, ld, 1, C, ld_c);
}

static void subtract_square(int rows, int w, const double *A, int ld, double *C, int ld_c) {
  if (rows) cblas_dsyrk(CblasColMajor, CblasLower, CblasNoTrans, rows, w, -1, A, ld, 1, C, ld_c);
}

static void solve(int rows, int w, const double *L, double *B, int ld) {
  if (rows) cblas_dtrsm(CblasColMajor, CblasRight, CblasLower, CblasTrans, CblasNonUnit, rows, w, 1, L, ld, B, ld);
}

static void eliminate_step(Structured *t, int c, const Step *step) {
  const Block *b = &t->block[c];
  const int loads = t->s->loads, riding = loads + b->border, ld = rows(t, c), edge_ld = edge_rows(t);
  const int w = step->end - step->start, own = step->below - step->end, near = step->near;
  double *column = t->work + t->start[c % 2] + (long)step->start * ld;
  double *L = column + step->start, *D = column + step->end, *E = column + b->own, *G = E + next_far(t, c);
  double *line = G + loads, *edge = t->work + t->edge;
  factor(w, L, ld);
  solve(own, w, L, D, ld);
  solve(near, w, L, E, ld);
  solve(riding, w, L, G, ld);

  double *later = column + (long)w * ld; /* columns of the block still to be eliminated */
  subtract_square(own, w, D, ld, later + step->end, ld);
  subtract(near, own, w, E, D, ld, later + b->own, ld);
  subtract(riding, own, w, G, D, ld, later + (G - column), ld);
  if (near) {
    const int next_ld = rows(t, c - 1);
    double *next = t->work + t->start[(c - 1) % 2];
    subtract_square(near, w, E, ld, next, next_ld);
    subtract(riding, near, w, G, E, ld, next + border_row(t, c - 1, -loads), next_ld);
  }
  subtract_square(b->border, w, line, ld, edge, edge_ld);
  subtract(loads, b->border, w, G, line, ld, edge + t->s->line, edge_ld);
}

const double *structured_run(Structured *t) {
  double *edge = t->work + t->edge;
  memset(edge, 0, (long)edge_rows(t) * t->s->line * sizeof(double));
  add_loads(t, -1);
  clear_panel(t, t->blocks - 1);
  for (int c = t->blocks - 1; c >= 0; c--) {
    if (c > 0) clear_panel(t, c - 1);
    scatter_column(t, c);
    for (int k = 0; k < t->block[c].steps; k++) eliminate_step(t, c, &t->block[c].step[k]);
  }
  return edge;
}

const int *structured_order(const Structured *t) { return t->order; }

double structured_flops(const Structured *t) {
  double flops = 0;
  for (int c = 0; c < t->blocks; c++)
    for (int k = 0; k < t->block[c].steps; k++) {
      const Step *step = &t->block[c].step[k];
      const double w = step->end - step->start, b = t->block[c].border, r = t->s->loads;
      const double rows = step->below - step->end + step->near + r + b;
      flops += w * (w + 1) * (w + 2) / 3 + rows * w * (w + 1); /* factor, solve */
      flops += w * (rows * (rows + 1) - r * (r + 1)); /* products; loads by loads are not needed */
    }
  return flops;
}

/* Our own tree of fronts, each front eliminated by OpenBLAS; assembly in plain C. Column-major, lower triangle. */
#include "system.h"
#include <cblas.h>
#include <string.h>

struct Multifrontal {
  const System *s;
  double *front; /* of the largest order */
  double *stack; /* what fronts pass on, until their parent takes it */
};

static int passed_on(const Front *f) { return f->order - f->count; }

Multifrontal *multifrontal_prepare(const System *s) {
  Multifrontal *m = allocate(1, sizeof *m);
  long largest = 0, top = 0, highest = 0;
  for (int k = 0; k < s->fronts; k++) {
    const Front *f = &s->front[k];
    const int *map = f->child_maps;
    for (int c = 0; c < f->children; c++, map += 1 + map[0]) top -= (long)map[0] * map[0];
    top += (long)passed_on(f) * passed_on(f);
    if (f->order > largest) largest = f->order;
    if (top > highest) highest = top;
  }
  m->s = s;
  m->front = allocate(largest * largest, sizeof(double));
  m->stack = allocate(highest, sizeof(double));
  return m;
}

static void extend_add(double *F, int n, const double *child, int m, const int *map) {
  for (int j = 0; j < m; j++) {
    double *to = F + (long)map[j] * n;
    const double *from = child + (long)j * m;
    for (int i = j; i < m; i++) to[map[i]] += from[i];
  }
}

static void scatter(double *F, int n, const Element *e, const int *map) {
  for (int i = 0; i < e->order; i++) {
    const int p = map[i];
    if (p < 0) continue;
    const double *row = e->matrix + i * e->order;
    for (int j = 0; j <= i; j++) {
      const int q = map[j];
      if (q >= 0) F[p >= q ? (long)q * n + p : (long)p * n + q] += row[j];
    }
  }
}

const double *multifrontal_run(Multifrontal *w) {
  const System *s = w->s;
  double *F = w->front;
  long top = 0;
  for (int k = 0; k < s->fronts; k++) {
    const Front *f = &s->front[k];
    const int n = f->order, p = f->count, m = n - p;
    for (int j = 0; j < n; j++) memset(F + (long)j * n + j, 0, (n - j) * sizeof(double));

    const int *map = f->child_maps;
    for (int c = 0; c < f->children; c++, map += 1 + map[0]) top -= (long)map[0] * map[0];
    double *base = w->stack + top, *child = base;
    map = f->child_maps;
    for (int c = 0; c < f->children; c++, map += 1 + map[0]) {
      extend_add(F, n, child, map[0], map + 1);
      child += (long)map[0] * map[0];
    }
    map = f->element_maps;
    for (int c = 0; c < f->elements; c++) {
      const Element *e = &s->element[map[0]];
      scatter(F, n, e, map + 1);
      map += 1 + e->order;
    }

    double *L21 = F + p, *A22 = F + (long)p * n + p;
    factor(p, F, n);
    if (p && m) {
      cblas_dtrsm(CblasColMajor, CblasRight, CblasLower, CblasTrans, CblasNonUnit, m, p, 1, F, n, L21, n);
      cblas_dsyrk(CblasColMajor, CblasLower, CblasNoTrans, m, p, -1, L21, n, 1, A22, n);
    }
    for (int j = 0; j < m; j++) memcpy(base + (long)j * m + j, A22 + (long)j * n + j, (m - j) * sizeof(double));
    top += (long)m * m;
  }
  return w->stack;
}

/* Two for each multiply-add of the lower triangle, the pivot's own column included. */
double multifrontal_flops(const System *s) {
  double flops = 0;
  for (int k = 0; k < s->fronts; k++)
    for (int j = 0; j < s->front[k].count; j++) {
      const double left = s->front[k].order - j;
      flops += left * (left + 1);
    }
  return flops;
}

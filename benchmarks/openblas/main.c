/*
 * Times eliminations of one system file with OpenBLAS: on our own tree of fronts, and by columns of the mesh in dense
 * blocks or in steps. Compares the first result with the expected one and the others with the first. One JSON line for
 * each on standard output; its peak memory is that of the whole program so far, the system and all work space included.
 *
 *   eliminate <system file> <runs>
 */
#include "system.h"
#include <cblas.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return 1e3 * t.tv_sec + 1e-6 * t.tv_nsec; /* [ms] */
}

static int by_size(const void *p, const void *q) {
  const double a = *(const double *)p, b = *(const double *)q;
  return (a > b) - (a < b);
}

/* From Linux' own account: getrusage also counts the program that started this one. */
static double peak_mb(void) {
  FILE *status = fopen("/proc/self/status", "r");
  char line[256];
  long kilobytes = 0;
  while (status && fgets(line, sizeof line, status)) sscanf(line, "VmHWM: %ld", &kilobytes);
  if (status) fclose(status);
  return kilobytes / 1024.0;
}

/*
 * Largest differences: of stiffness relative to the largest entry, of stiffness relative to the roots of the two diagonal
 * entries, and of loads relative to the largest of their case (negative: there are none).
 */
typedef struct {
  double largest, scaled, loads;
} Difference;

static const double STIFFNESS_TOLERANCE = 1e-9; /* of `largest` */
/* What of a distant wheel reaches the line is small and keeps fewer digits: long thin elements cost eight of them. */
static const double LOAD_TOLERANCE = 1e-6;

static double larger(double a, double b) { return b <= a ? a : b; } /* b also where it is not a number */

static int tell(const char *what, const System *s, double *ms, int runs, double flops, Difference d) {
  qsort(ms, runs, sizeof(double), by_size);
  const double median = ms[runs / 2];
  printf("{\"what\": \"%s\", \"core\": \"%s\", \"ms\": %.3f, \"leastMs\": %.3f, \"runs\": %d, \"mflop\": %.1f, "
         "\"unknowns\": %d, \"peakMB\": %.1f, \"difference\": %.2e, \"scaledDifference\": %.2e, ",
         what, openblas_get_corename(), median, ms[0], runs, 1e-6 * flops, s->unknowns, peak_mb(), d.largest, d.scaled);
  if (d.loads >= 0) printf("\"loadDifference\": %.2e, ", d.loads);
  printf("\"openblas\": \"%s\"}\n", openblas_get_config());
  if (d.largest <= STIFFNESS_TOLERANCE && d.loads <= LOAD_TOLERANCE) return 0;
  fprintf(stderr, "%s: results differ by %.2e in stiffness and %.2e in loads, need at most %.0e and %.0e\n", what,
          d.largest, d.loads, STIFFNESS_TOLERANCE, LOAD_TOLERANCE);
  return 1;
}

static Difference compare_expected(const System *s, const double *S) {
  const int n = s->kept;
  double most = 0;
  Difference worst = {0, 0, -1};
  for (int j = 0; j < n; j++)
    for (int i = j; i < n; i++) {
      const double expected = s->expected[(long)i * n + j], d = fabs(S[(long)j * n + i] - expected);
      most = fmax(most, fabs(expected));
      worst.largest = larger(worst.largest, d);
      worst.scaled = larger(worst.scaled, d / sqrt(s->expected[(long)i * n + i] * s->expected[(long)j * n + j]));
    }
  worst.largest /= most;
  return worst;
}

/* Surface unknowns of the multifrontal result eliminated, loads carried along: what the structured way should give. */
static double *reduce_surface(const System *s, const double *S) {
  const int line = s->line, own = s->kept - line, total = s->kept + s->loads;
  double *A = allocate((long)total * s->kept, sizeof(double));
  int *row = allocate(s->kept, sizeof(int)); /* surface first, then the line */
  for (int k = 0; k < s->kept; k++) row[k] = k < line ? own + k : k - line;
  for (int j = 0; j < s->kept; j++)
    for (int i = j; i < s->kept; i++) {
      const int p = row[i], q = row[j];
      A[p >= q ? (long)q * total + p : (long)p * total + q] = S[(long)j * s->kept + i];
    }
  for (int k = 0; k < s->surface; k++) {
    int place = 0;
    while (s->kept_unknowns[place] != s->surface_unknowns[k]) place++;
    for (int q = 0; q < s->loads; q++) A[(long)row[place] * total + s->kept + q] = s->load[(long)q * s->surface + k];
  }
  double *rest = A + own, *left = A + (long)own * total + own;
  const int m = total - own;
  factor(own, A, total);
  cblas_dtrsm(CblasColMajor, CblasRight, CblasLower, CblasTrans, CblasNonUnit, m, own, 1, A, total, rest, total);
  cblas_dgemm(CblasColMajor, CblasNoTrans, CblasTrans, m, line, own, -1, rest, total, rest, total, 1, left, total);
  double *out = allocate((long)m * line, sizeof(double));
  for (int j = 0; j < line; j++)
    for (int i = j; i < m; i++) out[(long)j * m + i] = left[(long)j * total + i];
  free(A);
  free(row);
  return out;
}

static Difference compare_line(const System *s, const double *reduced, const double *edge, const int *order) {
  const int line = s->line, ld = line + s->loads;
  double most = 0;
  Difference worst = {0, 0, 0};
  for (int j = 0; j < line; j++)
    for (int i = j; i < line; i++) {
      const int p = order[i], q = order[j];
      const double expected = reduced[p >= q ? (long)q * ld + p : (long)p * ld + q];
      const double d = fabs(edge[(long)j * ld + i] - expected);
      most = fmax(most, fabs(expected));
      worst.largest = larger(worst.largest, d);
      worst.scaled = larger(worst.scaled, d / sqrt(reduced[(long)p * ld + p] * reduced[(long)q * ld + q]));
    }
  worst.largest /= most;
  for (int q = line; q < ld; q++) {
    double largest = 0, off = 0;
    for (int j = 0; j < line; j++) {
      const double expected = reduced[(long)order[j] * ld + q];
      largest = fmax(largest, fabs(expected));
      off = larger(off, fabs(edge[(long)j * ld + q] - expected));
    }
    worst.loads = larger(worst.loads, off / largest);
  }
  return worst;
}

static const int STEP = 48; /* unknowns; from 32 to 64 it makes little difference */

int main(int argc, char **argv) {
  if (argc != 3 || atoi(argv[2]) < 1) {
    fprintf(stderr, "usage: eliminate <system file> <runs>\n");
    return 2;
  }
  const System s = read_system(argv[1]);
  const int runs = atoi(argv[2]);
  Multifrontal *m = multifrontal_prepare(&s);
  Structured *way[] = {structured_prepare(&s, s.unknowns), structured_prepare(&s, STEP)};
  const char *name[] = {"structured, dense blocks", "structured, steps"};
  double *ms[] = {allocate(runs, sizeof(double)), allocate(runs, sizeof(double)), allocate(runs, sizeof(double))};
  const double *S = 0, *edge[2];
  for (int k = -1; k < runs; k++) { /* the first one warms up */
    double at[4] = {now()};
    S = multifrontal_run(m);
    at[1] = now();
    for (int w = 0; w < 2; w++) {
      edge[w] = structured_run(way[w]);
      at[2 + w] = now();
    }
    for (int w = 0; k >= 0 && w < 3; w++) ms[w][k] = at[w + 1] - at[w];
  }
  double *reduced = reduce_surface(&s, S);
  int failed = tell("multifrontal", &s, ms[0], runs, multifrontal_flops(&s), compare_expected(&s, S));
  for (int w = 0; w < 2; w++) {
    const Difference d = compare_line(&s, reduced, edge[w], structured_order(way[w]));
    failed |= tell(name[w], &s, ms[1 + w], runs, structured_flops(way[w]), d);
  }
  return failed;
}

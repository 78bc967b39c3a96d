/*
 * One elimination as written by systems.ts, and the two ways in which it is done here.
 *
 * File: 8 integers, then `integers` of them, padded to 8 bytes, then doubles; 32 and 64 bit, byte order of the machine.
 *   header    unknowns, elements, fronts, kept, line, surface, loads, integers
 *   integers  kept unknowns; surface unknowns;
 *             element by element: column, order, unknowns (-1: held at zero);
 *             front by front, children before parents: order, count, children, elements,
 *               for each child its order and where what it passes on stands here, for each element its number and map
 *   doubles   element matrices, row-major; loads x surface; the expected result, kept x kept, row-major
 */
#ifndef SYSTEM_H
#define SYSTEM_H

typedef struct {
  int column, order;
  const int *unknowns;
  const double *matrix;
} Element;

typedef struct {
  int order, count, children, elements;
  const int *child_maps;   /* order and map, child by child */
  const int *element_maps; /* number and map, element by element */
} Front;

typedef struct {
  int unknowns, elements, fronts, kept, line, surface, loads;
  const int *kept_unknowns, *surface_unknowns;
  Element *element;
  Front *front;
  const double *load; /* loads x surface, row-major */
  const double *expected;
} System;

System read_system(const char *path);
void *allocate(long count, long size); /* zeroed, on a cache line; ends the program when there is no memory */

/* Elimination on the tree of fronts. The result is the lower triangle, column-major, of the order of the kept unknowns. */
typedef struct Multifrontal Multifrontal;
Multifrontal *multifrontal_prepare(const System *s);
const double *multifrontal_run(Multifrontal *m);
double multifrontal_flops(const System *s);

/*
 * Elimination by columns of the mesh from the far end, loads carried along. The result is a lower triangle, column-major,
 * of order line + loads with `line` columns: the line's unknowns in the order of structured_order, then reduced loads.
 */
typedef struct Structured Structured;
Structured *structured_prepare(const System *s, int most); /* unknowns eliminated at once, within a block */
const double *structured_run(Structured *t);
const int *structured_order(const Structured *t); /* place among the kept unknowns of each row of the result */
double structured_flops(const Structured *t);

/* LAPACK's Cholesky; the BLAS comes from cblas.h. */
extern void dpotrf_(const char *uplo, const int *n, double *a, const int *lda, int *info);
void factor(int n, double *a, int ld); /* lower; ends the program when a pivot is not positive */

#endif

/* Reads the system file; memory and Cholesky with their one way to fail. */
#include "system.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void stop(const char *what, const char *detail) {
  fprintf(stderr, "%s: %s\n", what, detail);
  exit(1);
}

void *allocate(long count, long size) {
  const long bytes = (count * size + 63) / 64 * 64;
  void *memory = aligned_alloc(64, bytes > 0 ? bytes : 64);
  if (!memory) stop("allocate", "out of memory");
  memset(memory, 0, bytes);
  return memory;
}

void factor(int n, double *a, int ld) {
  int info = 0;
  if (n > 0) dpotrf_("L", &n, a, &ld, &info);
  if (info) stop("factor", "a pivot is not positive");
}

static char *read_file(const char *path, long *length) {
  FILE *file = fopen(path, "rb");
  if (!file) stop(path, "cannot be opened");
  fseek(file, 0, SEEK_END);
  *length = ftell(file);
  rewind(file);
  char *bytes = allocate(*length, 1);
  if (fread(bytes, 1, *length, file) != (size_t)*length) stop(path, "cannot be read");
  fclose(file);
  return bytes;
}

/* The scatter of a child relies on it: what lies below the diagonal there lies below it here. */
static void require_ascending(const int *map, int length) {
  for (int i = 1; i < length; i++)
    if (map[i] <= map[i - 1]) stop("front", "the map of a child does not ascend");
}

System read_system(const char *path) {
  long length;
  const char *bytes = read_file(path, &length);
  const int *at = (const int *)bytes;
  System s = {.unknowns = at[0], .elements = at[1], .fronts = at[2], .kept = at[3],
              .line = at[4], .surface = at[5], .loads = at[6]};
  const double *numbers = (const double *)(bytes + 4L * (8 + at[7] + at[7] % 2));
  at += 8;
  s.kept_unknowns = at;
  s.surface_unknowns = at += s.kept;
  at += s.surface;
  s.element = allocate(s.elements, sizeof(Element));
  for (int e = 0; e < s.elements; e++) {
    const int order = at[1];
    s.element[e] = (Element){at[0], order, at + 2, numbers};
    at += 2 + order;
    numbers += (long)order * order;
  }
  s.front = allocate(s.fronts, sizeof(Front));
  for (int f = 0; f < s.fronts; f++) {
    Front *front = &s.front[f];
    *front = (Front){at[0], at[1], at[2], at[3], at + 4, 0};
    at += 4;
    for (int c = 0; c < front->children; c++) {
      require_ascending(at + 1, at[0]);
      at += 1 + at[0];
    }
    front->element_maps = at;
    for (int k = 0; k < front->elements; k++) at += 1 + s.element[at[0]].order;
  }
  s.load = numbers;
  s.expected = numbers + (long)s.loads * s.surface;
  if ((const char *)(s.expected + (long)s.kept * s.kept) != bytes + length) stop(path, "has not the length it tells");
  return s;
}

/**
 * The operations of numeric/kernel.ts on 128-bit vectors: AssemblyScript, with a twin in TypeScript for each (numeric/plain.ts)
 * that does the same arithmetic in the same order. Addresses are bytes; layouts and meanings stand with the twins.
 */

/** Bytes from a matrix's first entry to that of panel r. */
// @ts-expect-error: decorators are the compiler's
@inline
function panel(r: i32): i32 {
  return 144 * r * (r + 1);
}

/** Bytes from a matrix's first entry to entry (i, 0). */
// @ts-expect-error: decorators are the compiler's
@inline
function row(i: i32): i32 {
  const r = i / 6;
  return panel(r) + ((i - 6 * r) << 3);
}

export function eliminate(front: i32, n: i32, start: i32, end: i32): i32 {
  const panels = (n + 5) / 6;
  for (let r = start / 6; r < panels; r++) {
    const A = front + panel(r);
    const past = 6 * r + 6;
    for (let k0 = start - (start % 3); k0 < past; k0 += 3) {
      const B = front + row(k0);
      let c00 = f64x2.splat(0);
      let c01 = f64x2.splat(0);
      let c02 = f64x2.splat(0);
      let c10 = f64x2.splat(0);
      let c11 = f64x2.splat(0);
      let c12 = f64x2.splat(0);
      let c20 = f64x2.splat(0);
      let c21 = f64x2.splat(0);
      let c22 = f64x2.splat(0);
      let a = A + 48 * start;
      let b = B + 48 * start;
      // At most ten values live in registers: more of them, or an unrolled loop, spill and cost a quarter.
      for (const stop = A + 48 * min(end, k0); a < stop; a += 48, b += 48) {
        const a0 = v128.load(a);
        const a1 = v128.load(a, 16);
        const a2 = v128.load(a, 32);
        let s = v128.load64_splat(b);
        c00 = f64x2.add(c00, f64x2.mul(a0, s));
        c10 = f64x2.add(c10, f64x2.mul(a1, s));
        c20 = f64x2.add(c20, f64x2.mul(a2, s));
        s = v128.load64_splat(b, 8);
        c01 = f64x2.add(c01, f64x2.mul(a0, s));
        c11 = f64x2.add(c11, f64x2.mul(a1, s));
        c21 = f64x2.add(c21, f64x2.mul(a2, s));
        s = v128.load64_splat(b, 16);
        c02 = f64x2.add(c02, f64x2.mul(a0, s));
        c12 = f64x2.add(c12, f64x2.mul(a1, s));
        c22 = f64x2.add(c22, f64x2.mul(a2, s));
      }
      const at = A + 48 * k0;
      if (k0 >= start) {
        v128.store(at, f64x2.sub(v128.load(at), c00));
        v128.store(at, f64x2.sub(v128.load(at, 16), c10), 16);
        v128.store(at, f64x2.sub(v128.load(at, 32), c20), 32);
      }
      if (k0 + 1 >= start) {
        v128.store(at, f64x2.sub(v128.load(at, 48), c01), 48);
        v128.store(at, f64x2.sub(v128.load(at, 64), c11), 64);
        v128.store(at, f64x2.sub(v128.load(at, 80), c21), 80);
      }
      v128.store(at, f64x2.sub(v128.load(at, 96), c02), 96);
      v128.store(at, f64x2.sub(v128.load(at, 112), c12), 112);
      v128.store(at, f64x2.sub(v128.load(at, 128), c22), 128);
      if (k0 < end) {
        const refused = finish(A, B, 6 * r, k0, start, end);
        if (refused >= 0) return refused;
      }
    }
  }
  return -1;
}

/** Columns k0 … k0 + 2 of one panel, what lies left of k0 already subtracted: a triangle of three in place. */
function finish(A: i32, B: i32, first: i32, k0: i32, start: i32, end: i32): i32 {
  for (let c = 0; c < 3; c++) {
    const k = k0 + c;
    if (k < start) continue;
    const at = A + 48 * k;
    let v0 = v128.load(at);
    let v1 = v128.load(at, 16);
    let v2 = v128.load(at, 32);
    for (let p = max(k0, start), stop = min(k, end); p < stop; p++) {
      const left = A + 48 * p;
      const s = v128.load64_splat(B + 48 * p + 8 * c);
      v0 = f64x2.sub(v0, f64x2.mul(v128.load(left), s));
      v1 = f64x2.sub(v1, f64x2.mul(v128.load(left, 16), s));
      v2 = f64x2.sub(v2, f64x2.mul(v128.load(left, 32), s));
    }
    if (k < end) {
      const diagonal = B + 48 * k + 8 * c;
      let inverse: f64;
      if (k >= first) {
        v128.store(at, v0);
        v128.store(at, v1, 16);
        v128.store(at, v2, 32);
        const pivot = load<f64>(diagonal);
        if (!(pivot > 0)) return k;
        inverse = 1 / sqrt(pivot);
      } else inverse = load<f64>(diagonal);
      const s = f64x2.splat(inverse);
      v0 = f64x2.mul(v0, s);
      v1 = f64x2.mul(v1, s);
      v2 = f64x2.mul(v2, s);
      v128.store(at, v0);
      v128.store(at, v1, 16);
      v128.store(at, v2, 32);
      if (k >= first) store<f64>(diagonal, inverse);
    } else {
      v128.store(at, v0);
      v128.store(at, v1, 16);
      v128.store(at, v2, 32);
    }
  }
  return -1;
}

export function extendAdd(front: i32, child: i32, n: i32, skip: i32, map: i32): void {
  const places = map - (skip << 2);
  for (let r = skip / 6, i0 = skip; i0 < n; r++, i0 = 6 * r) {
    const from = child + panel(r);
    const i1 = min(6 * r + 6, n);
    let j = skip;
    if (i1 - i0 === 6) {
      const rows = places + (i0 << 2);
      const d0 = front + row(load<i32>(rows));
      const d1 = front + row(load<i32>(rows, 4));
      const d2 = front + row(load<i32>(rows, 8));
      const d3 = front + row(load<i32>(rows, 12));
      const d4 = front + row(load<i32>(rows, 16));
      const d5 = front + row(load<i32>(rows, 20));
      for (; j < i0; j++) {
        const to = 48 * load<i32>(places + (j << 2));
        const s = from + 48 * j;
        store<f64>(d0 + to, load<f64>(d0 + to) + load<f64>(s));
        store<f64>(d1 + to, load<f64>(d1 + to) + load<f64>(s, 8));
        store<f64>(d2 + to, load<f64>(d2 + to) + load<f64>(s, 16));
        store<f64>(d3 + to, load<f64>(d3 + to) + load<f64>(s, 24));
        store<f64>(d4 + to, load<f64>(d4 + to) + load<f64>(s, 32));
        store<f64>(d5 + to, load<f64>(d5 + to) + load<f64>(s, 40));
      }
    }
    for (let i = i0; i < i1; i++) {
      const d = front + row(load<i32>(places + (i << 2)));
      for (let q = j; q <= i; q++) {
        const to = d + 48 * load<i32>(places + (q << 2));
        store<f64>(to, load<f64>(to) + load<f64>(from + 48 * q + ((i - 6 * r) << 3)));
      }
    }
  }
}

export function addElement(front: i32, element: i32, m: i32, map: i32): void {
  for (let i = 0; i < m; i++) {
    const I = load<i32>(map + (i << 2));
    if (I < 0) continue;
    const own = front + row(I);
    const values = element + ((i * m) << 3);
    for (let j = 0; j <= i; j++) {
      const J = load<i32>(map + (j << 2));
      if (J < 0) continue;
      const to = I >= J ? own + 48 * J : front + row(J) + 48 * I;
      store<f64>(to, load<f64>(to) + load<f64>(values + (j << 3)));
    }
  }
}

export function gather(to: i32, from: i32, n: i32, order: i32): void {
  for (let i = 0; i < n; i++) {
    const I = load<i32>(order + (i << 2));
    const own = from + row(I);
    const target = to + row(i);
    for (let j = 0; j <= i; j++) {
      const J = load<i32>(order + (j << 2));
      store<f64>(target + 48 * j, load<f64>(I >= J ? own + 48 * J : from + row(J) + 48 * I));
    }
  }
}

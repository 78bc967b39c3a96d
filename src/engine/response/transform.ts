/** Sums over wavenumbers for many offsets and columns at once. */

/** Sizes of a block; arrays are padded to whole ones. */
export const BLOCK = {offsets: 2, columns: 4} as const;

export function wholeBlocks(count: number, block: number): number {
  return block * Math.ceil(count / block);
}

export interface TransformSize {
  readonly waves: number;
  readonly rows: number;
  readonly columns: number; // a multiple of 4
}

/**
 * One block of out = weights·values in some rows, 2 × 4 sums held in registers:
 *
 *   out[y][r][c] = Σₖ weights[y][k]·values[k][r][c],  y = offset, offset + 1,  c = column … column + 3
 *
 * @param weights  [offset][wave], from `inverseWeights`
 * @param values   [wave][row][column]
 * @param block    offset, a multiple of 2; column, a multiple of 4; rows from … end − 1
 * @param out      [offset][row][column]; the block is overwritten
 */
export function transformBlock(
  weights: Float64Array,
  values: Float64Array,
  {waves, rows, columns}: TransformSize,
  block: {readonly offset: number; readonly column: number; readonly from: number; readonly end: number},
  out: Float64Array,
): void {
  const width = rows * columns;
  const {offset} = block;
  const first = offset * waves;
  const second = first + waves;
  const end = block.end * columns;
  for (let c = block.from * columns + block.column; c < end; c += columns) {
    let p0 = 0;
    let p1 = 0;
    let p2 = 0;
    let p3 = 0;
    let q0 = 0;
    let q1 = 0;
    let q2 = 0;
    let q3 = 0;
    for (let k = 0, v = c; k < waves; k++, v += width) {
      const p = weights[first + k];
      const q = weights[second + k];
      const v0 = values[v];
      const v1 = values[v + 1];
      const v2 = values[v + 2];
      const v3 = values[v + 3];
      p0 += p * v0;
      p1 += p * v1;
      p2 += p * v2;
      p3 += p * v3;
      q0 += q * v0;
      q1 += q * v1;
      q2 += q * v2;
      q3 += q * v3;
    }
    const to = offset * width + c;
    out[to] = p0;
    out[to + 1] = p1;
    out[to + 2] = p2;
    out[to + 3] = p3;
    out[to + width] = q0;
    out[to + width + 1] = q1;
    out[to + width + 2] = q2;
    out[to + width + 3] = q3;
  }
}

/** All blocks. */
export function transform(
  weights: Float64Array,
  values: Float64Array,
  size: TransformSize,
  offsets: number,
  out: Float64Array,
): void {
  const block = {offset: 0, column: 0, from: 0, end: size.rows};
  for (; block.offset < offsets; block.offset += BLOCK.offsets) {
    for (block.column = 0; block.column < size.columns; block.column += BLOCK.columns)
      transformBlock(weights, values, size, block, out);
  }
}

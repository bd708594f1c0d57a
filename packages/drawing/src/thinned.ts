/**
 * A trace of many rows as few points that draw the same line: of every column of pixels its first, least, greatest and last row.
 *
 *     column = floor((x - from)/(to - from) . columns);   at most 4 points a column, in the order of their rows
 *
 * Nothing that stands out is lost, however short it is. A gap (NaN) stays a gap where it fills a column; a shorter one is less than a pixel. Where x
 * runs back, rows fall into the columns they lie in. A column without rows is no gap: the trace is only sampled coarsely there.
 */
export interface Thinned {
  /** NaN in `y` is a gap. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Rows that these points stand for. */
  readonly rows: number;
}

export function thinned(
  xs: ArrayLike<number>,
  ys: ArrayLike<number>,
  columns: number,
  stretch: { readonly from?: number; readonly to?: number } = {},
): Thinned {
  if (xs.length !== ys.length)
    throw new RangeError(`${xs.length} places and ${ys.length} values: a row has one of each`);
  if (!(Number.isInteger(columns) && columns > 0))
    throw new RangeError(`${columns} columns to draw in; it takes a whole number above 0`);
  const n = xs.length;
  const { from, to } = stretchIn(xs, stretch);
  // What lies just outside is kept, so that the line goes on to the edge.
  let [before, behind] = [-1, -1];
  const first = new Int32Array(columns).fill(-1);
  const last = new Int32Array(columns).fill(-1);
  const least = new Int32Array(columns);
  const greatest = new Int32Array(columns);
  const low = new Float64Array(columns);
  const high = new Float64Array(columns);
  const gap = new Int32Array(columns).fill(-1);
  const scale = to > from ? columns / (to - from) : 0;
  let rows = 0;
  for (let i = 0; i < n; i++) {
    const x = xs[i]!;
    if (!(x >= from)) {
      if (x < from && (before < 0 || x >= xs[before]!) && !Number.isNaN(ys[i]!)) before = i;
      continue;
    }
    if (x > to) {
      if ((behind < 0 || x < xs[behind]!) && !Number.isNaN(ys[i]!)) behind = i;
      continue;
    }
    rows++;
    let c = ((x - from) * scale) | 0;
    if (c >= columns) c = columns - 1;
    const y = ys[i]!;
    if (Number.isNaN(y)) {
      if (gap[c]! < 0) gap[c] = i;
      continue;
    }
    if (first[c]! < 0) {
      first[c] = i;
      least[c] = i;
      greatest[c] = i;
      low[c] = y;
      high[c] = y;
    } else if (y < low[c]!) {
      low[c] = y;
      least[c] = i;
    } else if (y > high[c]!) {
      high[c] = y;
      greatest[c] = i;
    }
    last[c] = i;
  }
  const x = new Float64Array(4 * columns + 2);
  const y = new Float64Array(4 * columns + 2);
  let count = 0;
  const put = (i: number): void => {
    x[count] = xs[i]!;
    y[count] = ys[i]!;
    count++;
  };
  if (before >= 0) put(before);
  for (let c = 0; c < columns; c++) {
    if (first[c]! < 0) {
      if (gap[c]! >= 0) put(gap[c]!);
      continue;
    }
    const [a, b] = least[c]! < greatest[c]! ? [least[c]!, greatest[c]!] : [greatest[c]!, least[c]!];
    put(first[c]!);
    if (a !== first[c]) put(a);
    if (b !== a && b !== first[c] && b !== last[c]) put(b);
    if (last[c] !== first[c] && last[c] !== a) put(last[c]!);
  }
  if (behind >= 0) put(behind);
  return { x: x.slice(0, count), y: y.slice(0, count), rows };
}
function stretchIn(xs: ArrayLike<number>, { from, to }: { readonly from?: number; readonly to?: number }) {
  if (from !== undefined && to !== undefined) return { from, to };
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < xs.length; i++) {
    const x = xs[i]!;
    if (x < low) low = x;
    if (x > high) high = x;
  }
  return { from: from ?? low, to: to ?? high };
}

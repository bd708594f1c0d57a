/** Round steps for ticks: 1, 2 or 5 by a power of ten, five to ten of them. */
export function ticks(from: number, to: number): number[] {
  if (!(to > from && Number.isFinite(to - from))) return [];
  const rough = (to - from) / 6;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((m) => m * ten >= rough) ?? 10) * ten;
  const out: number[] = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i++)
    out.push(Number((i * step).toPrecision(12)));
  return out;
}

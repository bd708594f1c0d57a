/** Round steps for ticks, 1, 2 or 5 by a power of ten: of as many as there is room for one more at most, and no fewer than two in five. */
export function ticks(from: number, to: number, most = 6): number[] {
  const rough = (to - from) / most;
  if (!(rough > 0 && Number.isFinite(rough))) return [];
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((m) => m * ten >= rough * (1 - 1e-9)) ?? 10) * ten;
  const out: number[] = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i++)
    out.push(Number((i * step).toPrecision(12)));
  return out;
}

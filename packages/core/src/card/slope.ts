/** Slope of ln y on ln x by least squares. Throws nothing: readings all at one x give no number, which is refused where it is read off. */
export function slopeOfLogarithms(points: readonly (readonly [x: number, y: number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const mx = logs.reduce((s, [x]) => s + x, 0) / logs.length;
  const my = logs.reduce((s, [, y]) => s + y, 0) / logs.length;
  let up = 0;
  let down = 0;
  for (const [x, y] of logs) {
    up += (x - mx) * (y - my);
    down += (x - mx) ** 2;
  }
  return up / down;
}

/**
 * A cantilever under a dead load at its tip, solved the plain way: the same two-node element, lists of objects, one full matrix, Newton's iteration
 * with the forces of the strains, the load in one step. What the banded solver with carried forces is measured against.
 */
export function plainCantilever(n: number, L: number, EI: number, EA: number, load: { x: number; y: number }) {
  const h = L / n;
  const nodes = Array.from({ length: n + 1 }, (_, i) => ({ x: i * h, y: 0, th: 0 }));
  const GA = (12 * EI) / (h * h);
  const unknowns = 3 * (n + 1);
  let iterations = 0;
  for (; iterations < 200; iterations++) {
    const K = Array.from({ length: unknowns }, () => new Array<number>(unknowns).fill(0));
    const r = new Array<number>(unknowns).fill(0);
    r[unknowns - 3] = load.x;
    r[unknowns - 2] = load.y;
    for (let e = 0; e < n; e++) {
      const [a, b] = [nodes[e]!, nodes[e + 1]!];
      const middle = (a.th + b.th) / 2;
      const [c, s] = [Math.cos(middle), Math.sin(middle)];
      const [dx, dy, D] = [(b.x - a.x) / h, (b.y - a.y) / h, b.th - a.th];
      const along = c * dx + s * dy;
      const slip = -s * dx + c * dy;
      const [N, Q, M] = [EA * (along - 1 + (D * D) / 24), GA * slip, (EI * D) / h];
      const rows = [
        [-c, -s, h * (slip / 2 - D / 12), c, s, h * (slip / 2 + D / 12)],
        [s, -c, (-h * along) / 2, -s, c, (-h * along) / 2],
        [0, 0, -1, 0, 0, 1],
      ];
      const [stiff, forces] = [
        [EA / h, GA / h, EI / h],
        [N, Q, M],
      ];
      const geometric = Array.from({ length: 6 }, () => new Array<number>(6).fill(0));
      for (const i of [2, 5])
        for (const j of [2, 5])
          geometric[i]![j]! += (-h * (N * along + Q * slip)) / 4 + (i === j ? (h * N) / 12 : (-h * N) / 12);
      for (const [i, v] of [
        [0, (N * s + Q * c) / 2],
        [1, (-N * c + Q * s) / 2],
        [3, -(N * s + Q * c) / 2],
        [4, -(-N * c + Q * s) / 2],
      ] as const)
        for (const j of [2, 5]) {
          geometric[i]![j]! += v;
          geometric[j]![i]! += v;
        }
      for (let i = 0; i < 6; i++) {
        rows.forEach((row, k) => {
          r[3 * e + i]! -= row[i]! * forces[k]!;
        });
        for (let j = 0; j < 6; j++)
          K[3 * e + i]![3 * e + j]! +=
            geometric[i]![j]! + rows.reduce((sum, row, k) => sum + stiff[k]! * row[i]! * row[j]!, 0);
      }
    }
    for (const i of [0, 1, 2]) {
      K[i]!.fill(0);
      K[i]![i] = 1;
      r[i] = 0;
    }
    const left = Math.max(...r.map(Math.abs));
    if (left < 1e-7 * Math.hypot(load.x, load.y)) break;
    const du = eliminate(K, r);
    const turned = Math.max(...du.filter((_, i) => i % 3 === 2).map(Math.abs));
    const share = Math.min(1, 0.7 / turned);
    nodes.forEach((node, i) => {
      node.x += share * du[3 * i]!;
      node.y += share * du[3 * i + 1]!;
      node.th += share * du[3 * i + 2]!;
    });
  }
  return { tip: nodes[n]!, iterations };
}

function eliminate(K: number[][], r: number[]): number[] {
  const n = r.length;
  const rows = K.map((row, i) => [...row, r[i]!]);
  for (let k = 0; k < n; k++) {
    let p = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[p]![k]!)) p = i;
    [rows[k], rows[p]] = [rows[p]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const f = rows[i]![k]! / rows[k]![k]!;
      if (f !== 0) for (let j = k; j <= n; j++) rows[i]![j]! -= f * rows[k]![j]!;
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let s = rows[k]![n]!;
    for (let j = k + 1; j < n; j++) s -= rows[k]![j]! * x[j]!;
    x[k] = s / rows[k]![k]!;
  }
  return x;
}

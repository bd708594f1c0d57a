import {
  type Counterface,
  creepAndRelaxation,
  cutOf,
  enduranceLimit,
  exponentFrom,
  forceShare,
  forceSwing,
  heldLeaf,
  Leaf,
  type LeafShape,
  type Load,
  leafCut,
  type More,
  momentFactor,
  pressedLeaf,
  type Solved,
  stripNumber,
} from "@tapeworthy/core";
import { type How, type Near, type Row, row, springNotes, springProgram, windowProgram } from "./row.ts";

const mm = 1e-3;
const solved = (what: string, pressed: ReturnType<Leaf["press"]>): Solved => {
  if (pressed.outcome !== "solved") throw new Error(`${what}: ${pressed.because}`);
  return pressed;
};
/** A leaf of length 1 and EI 1 that does not stretch: the elastica. */
const elastica = (): Leaf =>
  new Leaf({ length: 1, thickness: 0.01, width: 12, E: 1e6, nu: 0, bends: "beam", slender: true });
/** The leaf of the pins and the cylinder: 20 x 5 x 0.2 mm, 200 GPa. */
const narrow: LeafShape = {
  length: 20 * mm,
  thickness: 0.2 * mm,
  width: 5 * mm,
  E: 200e9,
  nu: 0,
  bends: "beam",
  slender: true,
};
const bent = (load: Load, end: More["end"] = "free"): Solved => solved("elastica", elastica().load(load, end));

interface Held {
  readonly id: string;
  readonly expected: number;
  readonly got: number;
  readonly near: Near;
  readonly unit?: string;
  readonly source: string;
  readonly how?: How;
}
const beam = ({ how = "derived", ...claim }: Held): Row => row({ model: pressedLeaf.id, how, ...claim });

function elasticaRows(): Row[] {
  const table = [
    [1, 0.3017207738, 0.0564332363, 0.4613519497],
    [2, 0.4934574804, 0.1606417208, 0.7817498316],
    [10, 0.8106090249, 0.5549955978, 1.4302855388],
  ] as const;
  const source = `Bisshopp and Drucker 1945, Q. Appl. Math. 3:272; Mattiasson 1981, IJNME 17:145 (memory); digits from elliptic integrals, ${springProgram}`;
  const near = { within: 1e-6 };
  const cantilevers = table.flatMap(([a, side, shorter, angle]) => {
    const { tip } = bent({ y: -a });
    return [
      beam({ id: `elastica.cantilever.${a}.side`, expected: side, got: -tip.y, near, source }),
      beam({ id: `elastica.cantilever.${a}.shortening`, expected: shorter, got: 1 - tip.x, near, source }),
      beam({ id: `elastica.cantilever.${a}.angle`, expected: angle, got: -tip.angle, near, unit: "rad", source }),
    ];
  });
  const guided = bent({ y: -4 }, "level").tip;
  const halves = "two half cantilevers by symmetry; by hand";
  const circle = bent({ moment: 2 * Math.PI });
  const columns = (
    [
      [20, 1.0153968655, 0.9697309074, 0.2194130424],
      [60, 1.1517196205, 0.7410196061, 0.5932076462],
      [100, 1.5183887933, 0.3489893004, 0.7915394965],
      [140, 2.5422583696, -0.1069232376, 0.7503883661],
    ] as const
  ).flatMap(([degrees, load, x, y]) => {
    const column = elastica();
    const P = (load * Math.PI ** 2) / 4;
    column.load({ x: -P, y: 0.05 });
    const { tip } = solved("column", column.load({ x: -P }));
    const from = `Timoshenko and Gere, Theory of Elastic Stability, post-buckled column (memory); digits from K(k) and E(k), ${springProgram}`;
    return [
      beam({ id: `elastica.column.${degrees}.x`, expected: x, got: tip.x, near, source: from }),
      beam({ id: `elastica.column.${degrees}.y`, expected: y, got: tip.y, near, source: from }),
      beam({
        id: `elastica.column.${degrees}.angle`,
        expected: degrees,
        got: (tip.angle * 180) / Math.PI,
        near: { within: 1e-4 },
        unit: "deg",
        source: from,
      }),
    ];
  });
  return [
    ...cantilevers,
    beam({ id: "elastica.guided.4.side", expected: 0.3017207738, got: -guided.y, near, source: halves }),
    beam({ id: "elastica.guided.4.shortening", expected: 0.0564332363, got: 1 - guided.x, near, source: halves }),
    beam({ id: "circle.full.x", expected: 0, got: circle.tip.x, near: { within: 1e-8 }, source: "closed form" }),
    beam({ id: "circle.full.y", expected: 0, got: circle.tip.y, near: { within: 1e-8 }, source: "closed form" }),
    beam({
      id: "circle.full.angle",
      expected: 6.283185307,
      got: circle.tip.angle,
      near: { within: 1e-8 },
      unit: "rad",
      source: "closed form",
    }),
    ...columns,
  ];
}

function weightRows(): Row[] {
  const table = [
    [1, 0.9912463953, -0.123471402, -0.1651155605],
    [2, 0.9668929469, -0.2385065829, -0.3215937977],
    [5, 0.84665718, -0.4959050446, -0.6970047775],
  ] as const;
  const source = `heavy elastica theta'' = b (1 - s) cos theta, shooting, ${springProgram}`;
  const near = { within: 1.5e-4 };
  const sagging = table.flatMap(([b, x, y, angle]) => {
    const { tip } = bent({ weight: [0, -b] });
    return [
      beam({ id: `heavy.cantilever.${b}.x`, expected: x, got: tip.x, near, source }),
      beam({ id: `heavy.cantilever.${b}.y`, expected: y, got: tip.y, near, source }),
      beam({ id: `heavy.cantilever.${b}.angle`, expected: angle, got: tip.angle, near, unit: "rad", source }),
    ];
  });
  // An upright column stands as long as its straight state is one it returns to.
  let [stands, falls] = [7, 9];
  while (falls - stands > 1e-5) {
    const w = (stands + falls) / 2;
    if (elastica().load({ weight: [-w, 0] }).outcome === "solved") stands = w;
    else falls = w;
  }
  return [
    ...sagging,
    beam({
      id: "heavy.column",
      expected: 7.8373474389,
      got: (stands + falls) / 2,
      near: { within: 1e-3 },
      source: `Greenhill 1881: 9/4 of the square of the first zero of J(-1/3), ${springProgram}`,
    }),
  ];
}

function contactRows(): Row[] {
  const pin = (lift: number, more: Partial<Counterface> = {}): Solved => {
    const face = { kind: "pin", at: [15 * mm, -1.1 * mm], radius: mm, side: "below", direction: [0, 1], ...more };
    return solved("pin", new Leaf(narrow).press(face as Counterface, lift * mm));
  };
  const deep = pin(10);
  const rubbing = pin(6, { friction: 0.25, slip: "to tip" });
  const shooting = `shooting of the elastica with the place of contact unknown, ${springProgram}`;
  // The cylinder of the table touches the middle line; a leaf of 0.2 mm puts it 0.1 mm further in.
  const cylinder = {
    kind: "cylinder",
    at: [0, -40 * mm],
    radius: 39.9 * mm,
    side: "below",
    direction: [0, 1],
  } as const;
  const wrap = solved("wrap", new Leaf(narrow).press(cylinder, 0, { load: { y: -1.5 } }));
  const flat = { ...cylinder, at: [0, -0.4] as const, radius: 0.4 - 0.1 * mm };
  const wrapFlat = solved("wrap", new Leaf(narrow).press(flat, 0, { load: { y: -0.15 } }));
  /** How far it lies on: up to the last node that bears a twentieth of the load. */
  const wrapped = ({ faces }: Solved): number => {
    const bears = faces[0]!.touches.filter((t) => t.force > 0.05 * faces[0]!.normal);
    return Math.max(...bears.map((t) => t.s)) / mm;
  };
  const start = `elastica of the free part with start curvature 1/R, ${springProgram}`;
  const linear =
    "Timoshenko, Strength of Materials (memory); by hand: s = L - EI/(P R), at a tenth of the load on ten times the radius";
  return [
    beam({
      id: "pin.small",
      expected: 0.0118519,
      got: pin(0.02).faces[0]!.y,
      near: { share: 1e-3 },
      unit: "N",
      source: "3 E I d/a^3, by hand",
    }),
    beam({
      id: "pin.deep.x",
      expected: -3.06396,
      got: deep.faces[0]!.x,
      near: { share: 2e-4 },
      unit: "N",
      source: shooting,
    }),
    beam({
      id: "pin.deep.y",
      expected: 2.44313,
      got: deep.faces[0]!.y,
      near: { share: 2e-4 },
      unit: "N",
      source: shooting,
    }),
    beam({
      id: "pin.deep.along",
      expected: 17.719273,
      got: deep.faces[0]!.touches[0]!.s / mm,
      near: { share: 2e-4 },
      unit: "mm",
      source: shooting,
    }),
    beam({
      id: "pin.friction.plus.x",
      expected: -1.01581,
      got: rubbing.faces[0]!.x,
      near: { share: 1e-4 },
      unit: "N",
      source: shooting,
    }),
    beam({
      id: "pin.friction.plus.y",
      expected: 2.9689,
      got: rubbing.faces[0]!.y,
      near: { share: 1e-4 },
      unit: "N",
      source: shooting,
    }),
    beam({
      id: "wrap.1.5.x",
      expected: 19.390848,
      got: wrap.tip.x / mm,
      near: { share: 2e-4 },
      unit: "mm",
      source: start,
    }),
    beam({
      id: "wrap.1.5.y",
      expected: -4.365709,
      got: wrap.tip.y / mm,
      near: { share: 2e-4 },
      unit: "mm",
      source: start,
    }),
    beam({
      id: "wrap.1.5.angle",
      expected: -0.353179,
      got: wrap.tip.angle,
      near: { share: 5e-4 },
      unit: "rad",
      source: start,
    }),
    beam({
      id: "wrap.1.5.along",
      expected: 8.340033,
      got: wrapped(wrap),
      near: { within: 0.5 },
      unit: "mm",
      source: `${start}; a face presses at the nodes, which lie 0.5 mm apart`,
    }),
    beam({
      id: "wrap.linear.tip",
      expected: -4.485597,
      got: (wrapFlat.tip.y / mm) * 10,
      near: { share: 1e-3 },
      unit: "mm",
      source: linear,
    }),
    beam({
      id: "wrap.linear.along",
      expected: 8.888889,
      got: wrapped(wrapFlat),
      near: { within: 0.5 },
      unit: "mm",
      source: linear,
    }),
  ];
}

function shellRows(): Row[] {
  const shells = "eight-node shell elements of large rotation, decks and printed results in validation/independent/ccx";
  const plate = (shape: LeafShape, load: Load): { ux: number; uz: number } => {
    const leaf = new Leaf(shape);
    const still = solved("shell", leaf.load({})).tip;
    const { tip } = solved("shell", leaf.load(load));
    return { ux: (tip.x - still.x) / mm, uz: (tip.y - still.y) / mm };
  };
  const one = plate({ length: 20 * mm, thickness: 0.2 * mm, width: 5 * mm, E: 200e9, nu: 0.3 }, { y: 4.1666667 });
  const two = plate(
    { length: 30 * mm, thickness: 0.15 * mm, width: 20 * mm, E: 185e9, nu: 0.3, curvature: 1 / (60 * mm) },
    { y: -2 },
  );
  const windowed = (nu: number) =>
    plate(
      {
        length: 30 * mm,
        thickness: 0.15 * mm,
        width: 24 * mm,
        E: 185e9,
        nu,
        window: { from: 6 * mm, to: 24 * mm, arm: 4 * mm },
      },
      { y: -1 },
    );
  const three = windowed(0.3);
  const bare = windowed(0);
  const shell = (id: string, expected: number, got: number, share: number): Row =>
    beam({
      id,
      expected,
      got,
      near: { share },
      unit: "mm",
      source: `${shells}; tolerance from the notes`,
      how: "derived",
    });
  return [
    shell("ccx.leaf1.uz", 10.73928, one.uz, 0.007),
    shell("ccx.leaf1.ux", -3.91005, one.ux, 0.012),
    shell("ccx.leaf2.uz", -14.86736, two.uz, 0.006),
    shell("ccx.leaf3.uz", -12.43284, three.uz, 0.017),
    shell("ccx.leaf3.nu0.uz", -12.61165, bare.uz, 0.03),
  ];
}

function curlRows(): Row[] {
  const source = `Ashwell 1950, set-up read in part; transverse balance solved as a boundary value problem, ${springProgram}`;
  return (
    [
      [1, 0.9089200086, 0.9106769947],
      [3, 2.7267600259, 0.9426219513],
      [10, 9.0892001673, 0.9851384557],
    ] as const
  ).flatMap(([b, lambda, moment]) => [
    beam({
      id: `anticlastic.${b}.lambda`,
      expected: lambda,
      got: stripNumber(b, 0.2, 10, 0.3),
      near: { within: 1e-6 },
      source,
    }),
    beam({
      id: `anticlastic.${b}.moment`,
      expected: moment,
      got: momentFactor(b, 0.2, 0.3, 0.1),
      near: { within: 1e-6 },
      source,
    }),
  ]);
}

function leafRows(): Row[] {
  // Width and thickness such that P L^2/EI = 1; without Poisson's ratio the strip is a beam.
  const [L, b, t, E] = [24 * mm, 5 * mm, 0.15 * mm, 182e9];
  const EI = (E * b * t ** 3) / 12;
  const F = EI / L ** 2;
  const held = heldLeaf({ F_0: F, L, b, b_t: b, t, E, nu: 0, alpha: 0 });
  const source = `elastica at P L^2/EI = 1, ${springProgram}; stretch and shear of the leaf are part of the difference`;
  const near = { share: 2e-4 };
  const Z = (b * t ** 2) / 6;
  const claim = (id: string, model: string, expected: number, got: number, unit: string): Row =>
    row({ id, model, expected, got, near, unit, source, how: "derived" });
  return [
    claim("leaf.stroke", "leaf.stroke", (0.3017207738 * L) / mm, held.stroke / mm, "mm"),
    claim("leaf.stress", "leaf.built-stress", ((F * L * (1 - 0.0564332363)) / Z) * 1e-6, held.stress * 1e-6, "MPa"),
    row({
      id: "leaf.rate",
      model: "leaf.rate",
      expected: (4.0180580670402355 * EI) / L ** 3,
      got: held.rate,
      near: { share: 5e-3 },
      unit: "N/m",
      source: `${source}; the rate is taken over a hundredth of the force`,
      how: "derived",
    }),
    row({
      id: "leaf.rate of stress",
      model: "leaf.stress-rate",
      expected: ((3.4044560625997766 * EI) / L ** 2 / Z) * 1e-9,
      got: held.stressRate * 1e-9,
      near: { share: 5e-3 },
      unit: "GPa/m",
      source: `${source}; the rate is taken over a hundredth of the force`,
      how: "derived",
    }),
  ];
}

/** The same leaves of spring steel 0.2 mm thick, pressed little, as plates and as beams in series. */
function windowRows(): Row[] {
  const leaves = [
    [24, 5, 7.2, 4.8, 15.2, 181.2206, 180.49039],
    [24, 5, 4.4, 7, 13, 199.0417, 192.40801],
    [24, 5, 12, 5, 15, 189.7182, 197.828],
    [30, 8, 16, 6, 24, 142.7723, 147.05817],
    [24, 5, 18, 2.6, 17.4, 151.7507, 158.60912],
  ] as const;
  return leaves.flatMap(([length, arms, across, from, to, plate, strips]) => {
    const [L, b, o] = [length * mm, arms * mm, across * mm];
    const cut = cutOf({ L, b, b_o: b + o, v_1: L - from * mm, v_2: L - to * mm });
    const rate = (nu: number): number =>
      heldLeaf({ F_0: 1e-4, L, b, b_t: b, t: 0.2 * mm, E: 185e9, nu, alpha: 0, o: cut }).rate;
    const leaf = `${across} mm across in ${length} mm`;
    return [
      row({
        id: `window.${leaf}, plate`,
        model: leafCut.id,
        expected: plate,
        got: rate(0.3),
        near: { share: 0.07 },
        unit: "N/m",
        source: `${windowProgram}: plate elements of twelve unknowns; tolerance the rule's own over its 54 leaves`,
        how: "derived",
      }),
      row({
        id: `window.${leaf}, strips`,
        model: pressedLeaf.id,
        expected: strips,
        got: rate(0),
        near: { share: 2e-3 },
        unit: "N/m",
        source: `${windowProgram}: M^2/EI by quadrature; rate over a hundredth of the force, 20 elements`,
        how: "derived",
      }),
    ];
  });
}

function materialRows(): Row[] {
  const hour = 3600;
  const after = (n: number): number => forceShare.value({ t: 1000 * hour, t_1: hour, n });
  return [
    row({
      id: "relax.PC",
      model: forceShare.id,
      expected: 0.021223,
      got: exponentFrom(2200, 1900, 1000),
      near: { within: 1e-5 },
      source: "Polycarbonate UV grade, creep modulus 2200 and 1900 MPa at 1 and 1000 h (read); logarithm by hand",
      how: "derived",
    }),
    row({
      id: "relax.PA66",
      model: forceShare.id,
      expected: 0.059215,
      got: exponentFrom(1400, 930, 1000),
      near: { within: 1e-5 },
      source: "Data page of a conditioned polyamide, 1400 and 930 MPa (read); logarithm by hand",
      how: "derived",
    }),
    row({
      id: "relax.PC left",
      model: forceShare.id,
      expected: 1900 / 2200,
      got: after(0.021223),
      near: { within: 1e-5 },
      source: "the same data sheet: 1900 of 2200 MPa",
      how: "read",
    }),
    row({
      id: "relax.PA66 left",
      model: forceShare.id,
      expected: 930 / 1400,
      got: after(0.059215),
      near: { within: 1e-5 },
      source: "the same data page: 930 of 1400 MPa",
      how: "read",
    }),
    ...(
      [
        [0.02, 0.99934216],
        [0.1, 0.98363164],
      ] as const
    ).map(([n, expected]) =>
      row({
        id: `relax.inter.${n}`,
        model: forceShare.id,
        expected,
        got: creepAndRelaxation(n),
        near: { within: 1e-7 },
        source: "sin(n pi)/(n pi), linear viscoelasticity of a power law (Ferry; Findley, Lai and Onaran 1976)",
        how: "memory",
      }),
    ),
    row({
      id: "fatigue.1.4310",
      model: enduranceLimit.id,
      expected: 765,
      got: enduranceLimit.value({ q_f: 0.45, q_e: 1, q_y: 0.76, R_m: 1700 }),
      near: { share: 1e-12 },
      unit: "MPa",
      source: "Johansson and Nordberg, fatigue properties of stainless steel: 0.45 of 1700 MPa at ratio -1, +-0.04",
      how: "read",
    }),
    row({
      id: "leaf.thickness class C",
      model: forceSwing.id,
      expected: 10,
      got: forceSwing.value({ d: 0.005, t: 0.15 }) * 100,
      near: { printedTo: 1 },
      unit: "%",
      source: `${springNotes}: class C, 0.005 of 0.15 mm (tolerance read)`,
      how: "derived",
    }),
  ];
}

/** Beam, contact, window, strip, stress, relaxation, fatigue. */
export const springRows = (): Row[] => [
  ...elasticaRows(),
  ...weightRows(),
  ...contactRows(),
  ...shellRows(),
  ...curlRows(),
  ...leafRows(),
  ...windowRows(),
  ...materialRows(),
];

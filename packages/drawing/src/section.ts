import { arrow, dimension, sayMeasure } from "./dimension.ts";
import type { Rect } from "./room.ts";
import { capital, mmShort } from "./say.ts";
import { box, type Drawing, group, line, type Point, path, type Segment, type Shape, strokes, text } from "./scene.ts";
import { isRubber } from "./side-parts.ts";
import { textWidth } from "./text-width.ts";
import type { UnitShape } from "./unit-shape.ts";
import { onPaper, type View } from "./view.ts";

/** A section is drawn in y (from the sprocket-side edge of the tape) and z; dimensions are kept outside its outline. */
const place = (view: View, y: number, z: number): Point => onPaper(view, [y, z]);
const polygon = (view: View, points: readonly (readonly [number, number])[]): Segment[] =>
  strokes(
    points.map(([y, z]) => place(view, y, z)),
    true,
  );
const open = (view: View, points: readonly (readonly [number, number])[]): Segment[] =>
  strokes(points.map(([y, z]) => place(view, y, z)));

/** Where the walls, ledges and the groove stand across the tape, m; the tape lies in the middle of its channel. */
export function channelLines(shape: UnitShape) {
  const { section, letters, middle } = shape;
  const play = section.width.value - letters.W;
  const wall: readonly [number, number] = [-play / 2, letters.W + play / 2];
  const ledge: readonly [number, number] = [section.near.value, letters.W - section.far.value];
  const half = (section.pocket?.width ?? letters.B1) / 2 + section.margin.value;
  const groove: readonly [number, number] = [middle - half, middle + half];
  return { wall, ledge, groove, floor: -section.depth.value };
}

/** A-A: across tape and channel, looking against the travel; sprocket side at the left. */
export function grooveRegion(shape: UnitShape, area: Rect, name = "A–A", keep?: View): { shapes: Shape[]; view: View } {
  const { letters, section, film, drop, lift, middle } = shape;
  const { wall, ledge, groove, floor } = channelLines(shape);
  const above = Math.max(section.lipGap.value, letters.T) + 0.6e-3;
  const rim = 2.6e-3;
  const base = 2.2e-3;
  const [left, right] = [wall[0] - rim, wall[1] + rim];
  const tall = above - floor + base;
  const fit =
    Math.floor(Math.min((area.width - 148) / ((right - left) * 1e3), (area.height - 128) / (tall * 1e3), 13) * 100) /
    100;
  const spare = Math.max(0, area.height - 128 - tall * 1e3 * fit);
  const view: View = keep ?? {
    scale: fit,
    origin: [
      area.x + area.width / 2 - ((left + right) / 2) * 1e3 * fit + 4,
      area.y + 74 + spare * 0.4 + above * 1e3 * fit,
    ],
  };
  const px = 1 / (view.scale * 1e3);
  const shapes: Shape[] = [];

  // The body: its inner faces are given, its outside is not; so the hatch ends without an outline.
  const lipThick = Math.max(0.8e-3, 5 * px);
  const profile: [number, number][] = [
    [wall[0], section.lipGap.value + lipThick],
    [wall[0], 0],
    [ledge[0], 0],
    [groove[0], floor],
    [groove[1], floor],
    [ledge[1], 0],
    [wall[1], 0],
    [wall[1], section.lipGap.value + lipThick],
  ];
  shapes.push(
    path(
      [
        ...polygon(view, [
          ...profile,
          [right, section.lipGap.value + lipThick],
          [right, floor - base],
          [left, floor - base],
          [left, section.lipGap.value + lipThick],
        ]),
      ],
      "",
      { fill: "hatch" },
    ),
  );
  const lips: readonly (readonly [number, number])[] = [
    [wall[0], section.lipNear.value],
    [letters.W - section.lipFar.value, wall[1]],
  ];
  for (const [from, to] of lips) {
    shapes.push(
      path(
        polygon(view, [
          [from, section.lipGap.value],
          [to, section.lipGap.value],
          [to, section.lipGap.value + lipThick],
          [from, section.lipGap.value + lipThick],
        ]),
        "",
        { fill: "hatch" },
      ),
    );
    const inner = from === wall[0] ? to : from;
    shapes.push(
      path(
        open(view, [
          [from === wall[0] ? from : to, section.lipGap.value],
          [inner, section.lipGap.value],
          [inner, section.lipGap.value + lipThick],
        ]),
        "outline",
        { data: { what: "lip" } },
      ),
    );
  }
  shapes.push(
    path(
      open(view, [[wall[0], section.lipGap.value], ...profile.slice(1, -1), [wall[1], section.lipGap.value]]),
      "outline",
      { data: { what: "channel" } },
    ),
  );

  // The tape: carrier with its hole, pocket, part; film and its tracks on top.
  const [under, top] = [lift, lift + letters.T];
  const centre = letters.E1 + letters.F;
  const [half, outer] = [letters.B0 / 2, letters.B1 / 2];
  const carrier: Segment[] = [];
  const hole: readonly [number, number] = [letters.E1 - letters.D0 / 2, letters.E1 + letters.D0 / 2];
  for (const [from, to] of [
    [0, hole[0]],
    [hole[1], centre - half],
    [centre + half, letters.W],
  ] as const)
    carrier.push(
      ...polygon(view, [
        [from, under],
        [to, under],
        [to, top],
        [from, top],
      ]),
    );
  if (shape.kind === "embossed") {
    const bottom = under - drop;
    shapes.push(
      path(
        polygon(view, [
          [centre - outer, under],
          [centre - outer, bottom],
          [centre + outer, bottom],
          [centre + outer, under],
        ]),
        "carrier",
        { data: { what: "pocket" } },
      ),
    );
    shapes.push(
      path(
        polygon(view, [
          [centre - half, top],
          [centre - half, top - letters.K0],
          [centre + half, top - letters.K0],
          [centre + half, top],
        ]),
        "of-paper",
      ),
    );
  }
  if (shape.kind === "pressed")
    shapes.push(
      path(
        polygon(view, [
          [centre - half, under],
          [centre - half, top - letters.K0],
          [centre + half, top - letters.K0],
          [centre + half, under],
        ]),
        "carrier",
        { data: { what: "pocket" } },
      ),
    );
  const floorOfPocket = top - letters.K0;
  shapes.push(
    path(
      polygon(view, [
        [centre - half * 0.86, floorOfPocket],
        [centre + half * 0.86, floorOfPocket],
        [centre + half * 0.86, floorOfPocket + letters.K0 * 0.74],
        [centre - half * 0.86, floorOfPocket + letters.K0 * 0.74],
      ]),
      "of-part",
    ),
  );
  shapes.push(path(carrier, "carrier", { data: { what: "carrier" } }));
  const filmAt = place(view, 0, top)[1] - 2;
  const [f0, f1] = [place(view, middle - film.width / 2, 0)[0], place(view, middle + film.width / 2, 0)[0]];
  for (const side of [-1, 1] as const) {
    const a = middle + side * (film.width / 2 - film.inset);
    const b = a - side * film.track;
    const [x0, x1] = [place(view, Math.min(a, b), 0)[0], place(view, Math.max(a, b), 0)[0]];
    shapes.push(box([x0, filmAt], x1 - x0, 3, "of-seal", { data: { what: "seal track" } }));
  }
  shapes.push(
    path(
      strokes([
        [f0, filmAt],
        [f1, filmAt],
      ]),
      "film-line",
      { data: { what: "film" } },
    ),
  );
  shapes.push(
    line(place(view, letters.E1, above - 0.2e-3), place(view, letters.E1, floor * 0.45), "axis"),
    line(place(view, centre, above - 0.2e-3), place(view, centre, floor - base), "axis"),
  );

  // Dimensions: widths above, depths at the sides, middle of the pocket below.
  const upper = place(view, 0, above)[1];
  shapes.push(
    dimension([place(view, wall[0], 0)[0], upper], [place(view, wall[1], 0)[0], upper], {
      off: -30,
      words: `channel ${sayMeasure(section.width)}`,
      address: section.width.address,
      hold: { value: section.width.value, share: 0.5 },
      at: "middle",
    }),
  );
  shapes.push(
    dimension([place(view, 0, 0)[0], upper], [place(view, letters.W, 0)[0], upper], {
      off: -10,
      words: `W ${mmShort(letters.W)}`,
      at: "middle",
    }),
  );
  const lower = place(view, 0, floor - base)[1];
  shapes.push(
    dimension([place(view, 0, 0)[0], lower], [place(view, centre, 0)[0], lower], {
      off: 20,
      words: `E1 + F ${mmShort(centre)}`,
    }),
  );
  const [lx, rx] = [place(view, left, 0)[0], place(view, right, 0)[0]];
  shapes.push(
    dimension([lx, place(view, 0, 0)[1]], [lx, place(view, 0, floor)[1]], {
      off: 12,
      words: `d ${sayMeasure(section.depth)}`,
      address: section.depth.address,
      hold: { value: section.depth.value },
      flat: true,
    }),
  );
  if (shape.kind !== "punched")
    shapes.push(
      dimension([rx, place(view, 0, top)[1]], [rx, place(view, 0, top - letters.K0)[1]], {
        off: -12,
        words: `K0 ${mmShort(letters.K0)}`,
        flat: true,
      }),
    );
  shapes.push(
    text([area.x + 10, area.y + 18], [{ text: name, class: "strong" }], "t1"),
    text([area.x + 14 + textWidth(name, 12, true), area.y + 18], "across the groove", "quiet"),
  );
  return { shapes, view };
}

/** How far each gripped part of a seal track reaches under the band, m; 0 where the band keeps clear of both. */
export const trackUnderBand = (shape: UnitShape): number => {
  const { film, nip } = shape;
  if (!nip) return 0;
  return Math.max(
    0,
    Math.min(film.track, Math.min(nip.grip.value, film.width) / 2 - (film.width / 2 - film.inset - film.track)),
  );
};

/** B-B: along the axes of the nip's rollers, the film edge to edge between them. */
export function nipRegion(
  shape: UnitShape,
  area: Rect,
  name = "B–B",
  keep?: View,
): { shapes: Shape[]; view: View } | undefined {
  const { nip, film, middle } = shape;
  if (!nip) return undefined;
  const along = shape.bodies.filter((b) => b.part === "nip" && b.outline.kind === "circle" && b.turns);
  const from = Math.min(...along.map((b) => b.y[0]), middle - film.width / 2 - (along.length === 0 ? 0.5e-3 : 0));
  const to = Math.max(...along.map((b) => b.y[1]), middle + film.width / 2 + (along.length === 0 ? 0.5e-3 : 0));
  const stub = 4e-3;
  const tall = 2 * (nip.lower + nip.upper);
  // Room at the right for the preload's words, so that they stand beside its arrow.
  const preloadWords = nip.preload
    ? `N ${nip.preload.value.toFixed(1)}${nip.preload.limits ? ` ±${nip.preload.limits[1].toFixed(1)}` : ""} N`
    : "";
  const beside = nip.preload ? textWidth(preloadWords, 12) + 20 : 12;
  const scale =
    Math.floor(
      Math.min((area.width - 46 - beside) / ((to - from + 2 * stub) * 1e3), (area.height - 118) / (tall * 1e3), 9) *
        100,
    ) / 100;
  const free = area.width - beside - (to - from + 2 * stub) * 1e3 * scale;
  const middleX = Math.min(area.x + area.width / 2, area.x + free / 2 + ((to - from + 2 * stub) * 1e3 * scale) / 2);
  const spare = Math.max(0, area.height - 118 - tall * 1e3 * scale);
  const view: View = keep ?? {
    scale,
    origin: [middleX - ((from + to) / 2) * 1e3 * scale, area.y + 54 + spare * 0.35 + 2 * nip.upper * 1e3 * scale],
  };
  const shapes: Shape[] = [];
  const band: readonly [number, number] = nip.wholeFilm
    ? [from, to]
    : [Math.max(from, middle - nip.grip.value / 2), Math.min(to, middle + nip.grip.value / 2)];
  const relief = nip.wholeFilm ? 0 : Math.min(0.8e-3, 0.2 * Math.min(nip.lower, nip.upper));
  for (const [r, side, face, words] of [
    [nip.lower, -1, nip.faces[0], "lower roller"],
    [nip.upper, 1, nip.faces[1] ?? nip.faces[0], "upper roller"],
  ] as const) {
    const z = (d: number) => side * d;
    shapes.push(
      path(
        polygon(view, [
          [from - stub, z(r * 1.27)],
          [to + stub, z(r * 1.27)],
          [to + stub, z(r * 0.73)],
          [from - stub, z(r * 0.73)],
        ]),
        "outline of-paper",
      ),
    );
    const body: [number, number][] = [
      [from, z(relief)],
      [band[0], z(relief)],
      [band[0], 0],
      [band[1], 0],
      [band[1], z(relief)],
      [to, z(relief)],
      [to, z(2 * r - relief)],
      [band[1], z(2 * r - relief)],
      [band[1], z(2 * r)],
      [band[0], z(2 * r)],
      [band[0], z(2 * r - relief)],
      [from, z(2 * r - relief)],
    ];
    shapes.push(path(polygon(view, body), "outline of-paper", { data: { what: words } }));
    if (isRubber(face)) shapes.push(path(polygon(view, body), "outline", { fill: "rubber" }));
    shapes.push(line(place(view, from - stub - 2e-3, z(r)), place(view, to + stub + 2e-3, z(r)), "axis"));
    const label = face ?? "";
    if (label !== "") {
      const at = place(view, (from + to) / 2, z(r));
      const wide = textWidth(label, 10.5) + 8;
      shapes.push(
        box([at[0] - wide / 2, at[1] - 8], wide, 15, "of-paper"),
        text([at[0], at[1] + 3.6], label, "dark", { anchor: "middle" }),
      );
    }
  }
  const y0 = place(view, middle - film.width / 2, 0);
  const y1 = place(view, middle + film.width / 2, 0);
  const tracks: { x: number; width: number; under: number }[] = [];
  for (const side of [-1, 1] as const) {
    const outer = middle + side * (film.width / 2 - film.inset);
    const inner = outer - side * film.track;
    const [x0, x1] = [place(view, Math.min(outer, inner), 0)[0], place(view, Math.max(outer, inner), 0)[0]];
    tracks.push({ x: x0, width: x1 - x0, under: trackUnderBand(shape) });
    shapes.push(box([x0, y0[1] - 4], x1 - x0, 8, "of-seal", { data: { what: "seal track" } }));
    const edge = place(view, inner, 2 * nip.upper);
    shapes.push(line([edge[0], edge[1] - 10], [edge[0], y0[1] - 4], "seal-line"));
  }
  shapes.push(path(strokes([y0, y1]), "film-line", { data: { what: "film" } }));
  const topEdge = place(view, 0, 2 * nip.upper)[1];
  const under = trackUnderBand(shape);
  const says =
    under > 1e-6
      ? `seal tracks, ${mmShort(under)} of each gripped`
      : `seal tracks, clear of the band by ${mmShort(film.width / 2 - film.inset - film.track - nip.grip.value / 2)}`;
  shapes.push(text([place(view, middle, 0)[0], topEdge - 14], says, "is-seal halo", { anchor: "middle" }));
  const low = place(view, 0, -2 * nip.lower)[1];
  if (!nip.wholeFilm)
    shapes.push(
      dimension([place(view, band[0], 0)[0], low], [place(view, band[1], 0)[0], low], {
        off: 18,
        words: `f ${sayMeasure(nip.grip)}`,
        address: nip.grip.address,
        hold: { value: nip.grip.value, share: 0.5 },
      }),
    );
  shapes.push(
    dimension([y0[0], low], [y1[0], low], { off: nip.wholeFilm ? 18 : 40, words: `film b ${mmShort(film.width)}` }),
  );
  if (nip.preload) {
    const x = place(view, to + stub, 0)[0] + 10;
    const tip: Point = [x, place(view, 0, nip.upper * 1.27)[1]];
    const { address } = nip.preload;
    shapes.push(
      group(
        [
          line([x, tip[1] - 24], tip, "dim"),
          arrow(tip, Math.PI / 2),
          text([x + 6, tip[1] - 13], preloadWords, "dim-text halo", { data: address ? { address } : {} }),
        ],
        // A force has no length on paper: 8 px for each newton, more of it downwards.
        address ? { handle: { members: [address], name: "", at: [x, tip[1] - 24], along: [0, 8] } } : {},
      ),
    );
  }
  shapes.push(
    text([area.x + 10, area.y + 18], [{ text: name, class: "strong" }], "t1"),
    text([area.x + 14 + textWidth(name, 12, true), area.y + 18], "across the film at the nip", "quiet"),
  );
  return { shapes, view };
}

export interface SectionSize {
  readonly width: number;
  readonly height: number;
}
const sheetOf = (title: string, desc: string, { width, height }: SectionSize, shapes: readonly Shape[]): Drawing => ({
  title,
  desc,
  width,
  height,
  shapes: [box([0, 0], width, height, "ground"), ...shapes],
});

/** Section across the groove as a drawing of its own. */
export const grooveSection = (shape: UnitShape, size: SectionSize): Drawing =>
  sheetOf(
    `${shape.unit}, section across the groove with ${shape.tape}`,
    grooveWords(shape),
    size,
    grooveRegion(shape, { x: 0, y: 0, ...size }).shapes,
  );
/** Section along the nip's rollers as a drawing of its own; undefined where the unit has no rollers. */
export function nipSection(shape: UnitShape, size: SectionSize): Drawing | undefined {
  const region = nipRegion(shape, { x: 0, y: 0, ...size });
  return (
    region &&
    sheetOf(
      `${shape.unit}, section across the film at the nip with ${shape.tape}`,
      nipWords(shape),
      size,
      region.shapes,
    )
  );
}

export function grooveWords(shape: UnitShape): string {
  const { section, letters, film, drop } = shape;
  const say = (v: number) => `${mmShort(v).replace("−", "minus ")} mm`;
  const out = [
    `Across the groove: a tape ${say(letters.W)} wide in a channel ${say(section.width.value)} wide.`,
    `Ledges carry ${say(section.near.value)} at the sprocket side and ${say(section.far.value)} at the far side; lips reach over by ${say(section.lipNear.value)} and ${say(section.lipFar.value)}, ${say(section.lipGap.value)} above the ledges.`,
  ];
  out.push(
    drop > 0
      ? `The pocket's middle lies ${say(letters.E1 + letters.F)} from the edge; it hangs ${say(drop)} down in a groove ${say(section.depth.value)} deep, with ${say(section.margin.value)} drawn beside it.`
      : `The tape is ${shape.kind}: nothing hangs below it; the groove is ${say(section.depth.value)} deep.`,
  );
  out.push(`The cover film is ${say(film.width)} wide with a seal track of ${say(film.track)} at each edge.`);
  return out.join(" ");
}
export function nipWords(shape: UnitShape): string {
  const { nip, film } = shape;
  if (!nip) return "The unit has no nip rollers.";
  const say = (v: number) => `${mmShort(v)} mm`;
  const under = trackUnderBand(shape);
  const faces =
    nip.faces.length > 0 ? `, of ${nip.faces.join(" below and ")}${nip.faces.length > 1 ? " above" : ""}` : "";
  return [
    `Across the film at the nip: rollers of radius ${say(nip.lower)} and ${say(nip.upper)}${faces}.`,
    nip.wholeFilm
      ? `They grip the whole film, ${say(film.width)} wide.`
      : `They grip a band of ${say(nip.grip.value)} in the middle of a film ${say(film.width)} wide.`,
    under > 1e-6
      ? `${capital(say(under))} of each seal track lie under the band.`
      : "The seal tracks keep clear of the band.",
    ...(nip.preload ? [`They are pressed together with ${nip.preload.value.toFixed(1)} N.`] : []),
  ].join(" ");
}

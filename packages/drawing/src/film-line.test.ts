import { expect, test } from "vitest";
import { pairs, shapeOf } from "./example.fixture.ts";
import { barCentre, edgeCentre, filmStrokes } from "./film-line.ts";

const led = pairs.flatMap(([unit, tape]) => {
  const shape = shapeOf(unit, tape);
  return shape.led ? [{ name: `${unit} with ${tape}`, shape, film: shape.led }] : [];
});

test.each(led)("$name: the film's line is one line, stroke after stroke", ({ shape, film }) => {
  const list = filmStrokes(film, shape.nip);
  expect(list[0]!.from).toEqual([film.peel[0], film.peel[2]]);
  for (let i = 1; i < list.length; i++) {
    expect(Math.hypot(list[i]!.from[0] - list[i - 1]!.to[0], list[i]!.from[1] - list[i - 1]!.to[1])).toBeLessThan(
      1e-12,
    );
  }
});
test.each(led)(
  "$name: where the film lies on a circle both ends are on it, and the straight strokes touch it",
  ({ shape, film }) => {
    const list = filmStrokes(film, shape.nip);
    list.forEach((one, i) => {
      if (one.kind !== "round") return;
      for (const end of [one.from, one.to])
        expect(Math.hypot(end[0] - one.at[0], end[1] - one.at[1])).toBeCloseTo(one.r, 9);
      const next = list[i + 1];
      if (next?.kind !== "straight") return;
      const along = [next.to[0] - next.from[0], next.to[1] - next.from[1]] as const;
      const out = [next.from[0] - one.at[0], next.from[1] - one.at[1]] as const;
      expect(Math.abs(along[0] * out[0] + along[1] * out[1]) / Math.hypot(...along) / one.r).toBeLessThan(1e-6);
    });
  },
);
test.each(led)("$name: the film passes the nip's own point", ({ shape, film }) => {
  const nip = film.guides.find((g) => g.name === "nip")!;
  const at = [nip.through[0], nip.through[2]] as const;
  const near = filmStrokes(film, shape.nip)
    .flatMap((s) => [s.from, s.to])
    .map((p) => Math.hypot(p[0] - at[0], p[1] - at[1]));
  expect(Math.min(...near)).toBeLessThan(1e-9);
});
test.each(led)(
  "$name: every bar's face carries its guide's line, and the edge stands on the film's side of the tape",
  ({ film }) => {
    film.guides.forEach((g, i) => {
      const c = barCentre(film, i);
      expect(Math.hypot(c[0] - g.through[0], c[1] - g.through[2])).toBeCloseTo(g.radius, 12);
    });
    const edge = edgeCentre(film);
    expect(Math.hypot(edge[0] - film.peel[0], edge[1] - film.peel[2])).toBeCloseTo(film.edgeRadius, 12);
    expect(edge[1]).toBeGreaterThan(film.peel[2]);
  },
);

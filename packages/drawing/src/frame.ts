import { line, type Point, type Shape, text } from "./scene.ts";

/** The rim of a drawing with its zones: numbers along the top, letters down the side, so that two people can talk over a print. */
export interface Zones {
  readonly columns: number;
  readonly rows: number;
  readonly edge: number;
}
export const zonesFor = (width: number): Zones => ({
  columns: width < 700 ? 4 : width < 1000 ? 6 : 8,
  rows: 6,
  edge: 18,
});

export function frameShapes(width: number, height: number, zones: Zones, chosen?: string): Shape[] {
  const { columns, rows, edge } = zones;
  const shapes: Shape[] = [line([edge, edge], [width, edge], "faint"), line([edge, edge], [edge, height], "faint")];
  for (let i = 0; i < columns; i++) {
    const [x0, x] = [edge + ((width - edge) * i) / columns, edge + ((width - edge) * (i + 0.5)) / columns];
    if (i > 0) shapes.push(line([x0, edge / 2], [x0, edge], "faint"));
    shapes.push(text([x, 12], `${i + 1}`, chosen?.slice(1) === `${i + 1}` ? "is-hand" : "quiet", { anchor: "middle" }));
  }
  for (let i = 0; i < rows; i++) {
    const [y0, y] = [edge + ((height - edge) * i) / rows, edge + ((height - edge) * (i + 0.5)) / rows];
    if (i > 0) shapes.push(line([edge / 2, y0], [edge, y0], "faint"));
    const letter = "ABCDEFGHJK"[i]!;
    shapes.push(text([9, y + 4], letter, chosen?.[0] === letter ? "is-hand" : "quiet", { anchor: "middle" }));
  }
  return shapes;
}

/** The zone a point lies in, "B3". */
export function zoneAt([x, y]: Point, width: number, height: number, { columns, rows, edge }: Zones): string {
  const column = Math.min(columns - 1, Math.max(0, Math.floor(((x - edge) / (width - edge)) * columns)));
  const row = Math.min(rows - 1, Math.max(0, Math.floor(((y - edge) / (height - edge)) * rows)));
  return `${"ABCDEFGHJK"[row]}${column + 1}`;
}

/** A bar of whole millimetres, in black and white steps, with its length. */
export function scaleBar(at: Point, scale: number): Shape[] {
  const long = [100, 50, 20, 10, 5, 2, 1].find((mm) => mm * scale <= 110) ?? 1;
  const step = (long * scale) / 4;
  const [x, y] = at;
  const shapes: Shape[] = [];
  for (let i = 0; i < 4; i++)
    shapes.push(
      { kind: "box", at: [x + i * step, y - 4], width: step, height: 4, class: i % 2 === 0 ? "of-ink2" : "of-paper" },
      { kind: "box", at: [x + i * step, y - 4], width: step, height: 4, class: "thin" },
    );
  shapes.push(
    text([x, y - 8], "0", "quiet halo", { anchor: "middle" }),
    text([x + 4 * step, y - 8], `${long} mm`, "quiet halo", { anchor: "middle", data: { scale: `${scale}` } }),
  );
  return shapes;
}

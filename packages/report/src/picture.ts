import {
  askedOf,
  cellsFor,
  foldFor,
  fontFaces,
  placeOf,
  routeMap,
  stacked,
  stationVerdicts,
  themeOfDrawing,
  toSvg,
  unitShape,
  unitSheet,
} from "@tapeworthy/drawing";
import { mapInput } from "./board.ts";
import type { ReportInput } from "./report-input.ts";
import { unitParts } from "./unit-part.ts";

/**
 * One unit drawn with one tape, over its route map, as a file that stands alone in one theme: what the first finding of the tape points at is
 * marked on both. Undefined where the unit has no such tape.
 */
export function pictureSvg(
  input: ReportInput,
  { unit, tape, theme }: { readonly unit: string; readonly tape: string; readonly theme: "light" | "dark" },
): string | undefined {
  const part = unitParts(input).find((p) => p.unit.unit === unit);
  const row = part?.unit.tapes.find((t) => t.tape === tape);
  if (!part || !row) return undefined;
  const shape = unitShape(input.sceneOf(unit, tape));
  const first = row.findings.find((f) => f.check === row.first[0]);
  const asked = first && row.verdict === "depends" ? askedOf(first) : undefined;
  const sheet = unitSheet(shape, {
    width: 928,
    height: 400,
    stations: stationVerdicts(row),
    ...(first ? { highlight: placeOf(shape, first), chosen: first.station } : {}),
    ...(asked ? { asked } : {}),
  });
  const { link: _, ...map } = mapInput(part);
  const drawn = routeMap(
    {
      ...map,
      folded: foldFor(map.rows, cellsFor(map.rows, 928)),
      chosen: { tape, ...(first ? { check: first.check } : {}) },
    },
    { width: 928, rowHeight: 25 },
  );
  const style = `${fontFaces(input.font, "two")}\n${themeOfDrawing(theme)}`;
  return `${toSvg(stacked([sheet, drawn], `${part.unit.name} with ${tape}, and its route map`), { prefix: "picture", style })}\n`;
}

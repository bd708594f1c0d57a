import { frameShapes, zoneAt, zonesFor } from "./frame.ts";
import { anchorOf } from "./place.ts";
import { leavesPlane, planBounds, planRegion, planWords } from "./plan-view.ts";
import type { Rect } from "./room.ts";
import { box, type Drawing, line, type Shape } from "./scene.ts";
import { grooveRegion, grooveWords, nipRegion, nipWords } from "./section.ts";
import { type Placed, type SizedOptions, sideBounds, sideRegion, sideWords } from "./side-view.ts";
import type { UnitShape } from "./unit-shape.ts";
import { fitted, onPaper, type View } from "./view.ts";

/** The whole sheet of a unit with one tape: side view, plan where the film leaves it, both sections, frame with zones. */
export function unitSheet(
  shape: UnitShape,
  options: SizedOptions,
): Drawing & { readonly zone?: string; readonly placed: Placed } {
  const { width, height } = options;
  const zones = zonesFor(width);
  const edge = zones.edge;
  // On a narrow sheet the sections stand under the side view, else beside it.
  const narrow = width < 760;
  const inner: Rect = { x: edge, y: edge, width: width - edge, height: height - edge };
  const right = narrow ? 0 : Math.round(Math.max(250, Math.min(420, inner.width * 0.29)));
  const foot = narrow ? Math.round(Math.min(240, inner.height * 0.42)) : 0;
  const left: Rect = { ...inner, width: inner.width - right, height: inner.height - foot };
  const hasNip = shape.nip !== undefined;
  const [sectionA, sectionB]: [Rect, Rect] = narrow
    ? [
        { ...inner, y: inner.y + left.height, height: foot, width: hasNip ? inner.width / 2 : inner.width },
        { ...inner, y: inner.y + left.height, height: foot, x: inner.x + inner.width / 2, width: inner.width / 2 },
      ]
    : [
        { ...inner, x: inner.x + left.width, width: right, height: hasNip ? inner.height * 0.47 : inner.height },
        { x: inner.x + left.width, y: inner.y + inner.height * 0.47, width: right, height: inner.height * 0.53 },
      ];
  const shapes: Shape[] = [
    box([0, 0], width, height, "ground"),
    box([edge, edge], width - edge, height - edge, "", { fill: "grid" }),
  ];

  const planned = leavesPlane(shape);
  const bounds = sideBounds(shape);
  const across = planned ? planBounds(shape) : undefined;
  // Both views share the scale and their x: what stands over each other is one thing.
  const share = across
    ? Math.min((left.width - 68) / (bounds.width * 1e3), (left.height - 190) / ((bounds.height + across.height) * 1e3))
    : undefined;
  const planTall = across && share ? Math.min(left.height * 0.5, across.height * 1e3 * share + 56) : 0;
  const side: Rect = { ...left, height: left.height - planTall };
  const view: View = fitted(bounds, [side.x + 40, side.y + 58], side.width - 74, side.height - 112);
  const region = sideRegion(shape, side, { ...options, detail: width >= 700, cuts: true, view });
  shapes.push(...region.shapes);
  if (planned) {
    const area: Rect = { x: left.x, y: left.y + side.height, width: left.width, height: planTall };
    shapes.push(
      line([area.x, area.y], [area.x + area.width, area.y], "hair"),
      ...planRegion(shape, area, { highlight: options.highlight, view }).shapes,
    );
  }
  shapes.push(
    narrow
      ? line([edge + 10, sectionA.y], [width - 10, sectionA.y], "hair")
      : line([sectionA.x, sectionA.y + 10], [sectionA.x, height - 10], "hair"),
  );
  shapes.push(...grooveRegion(shape, sectionA).shapes);
  const nip = hasNip ? nipRegion(shape, sectionB) : undefined;
  if (nip) shapes.push(...nip.shapes);

  const marked = options.highlight && anchorOf(shape, options.highlight);
  const zone = marked && zoneAt(onPaper(view, marked), width, height, zones);
  shapes.push(...frameShapes(width, height, zones, zone));
  return {
    title: `${shape.unit}${shape.revision === "" ? "" : `, revision ${shape.revision}`}, with ${shape.tape}`,
    desc: [
      sideWords(shape, options),
      ...(planned ? [planWords(shape)] : []),
      grooveWords(shape),
      ...(hasNip ? [nipWords(shape)] : []),
    ].join(" "),
    width,
    height,
    shapes,
    placed: region.placed,
    ...(zone ? { zone } : {}),
  };
}

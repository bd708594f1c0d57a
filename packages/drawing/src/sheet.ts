import { frameShapes, zoneAt, zonesFor } from "./frame.ts";
import { anchorOf, type Place } from "./place.ts";
import { leavesPlane, planBounds, planHighlight, planRegion, planWords } from "./plan-view.ts";
import type { Rect } from "./room.ts";
import { box, type Drawing, group, line, part, type Shape } from "./scene.ts";
import { grooveRegion, grooveWords, nipRegion, nipWords } from "./section.ts";
import { type Placed, type SizedOptions, sideBounds, sideGeometry, sideRegion, sideWords } from "./side-view.ts";
import type { UnitShape } from "./unit-shape.ts";
import { fitted, onPaper, type View } from "./view.ts";

/** A sheet, where its words were put, the zone of what is marked and of each overlay, and what a locator needs of it. */
export interface UnitSheet extends Drawing {
  readonly placed: Placed;
  readonly zone?: string;
  readonly zones: ReadonlyMap<string, string>;
  readonly geometry: Geometry;
}
/** Side view and plan without their words, and each overlay's marks: the same shapes as on the sheet, at the same place. */
export interface Geometry {
  readonly unit: string;
  readonly tape: string;
  readonly name: string;
  readonly window: Rect;
  readonly parts: readonly Shape[];
  readonly overlays: ReadonlyMap<string, Shape>;
}

/** The whole sheet of a unit with one tape: side view, plan where the film leaves it, both sections, frame with zones. */
export function unitSheet(shape: UnitShape, options: SizedOptions): UnitSheet {
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
  const fits = across
    ? Math.min((left.width - 68) / (bounds.width * 1e3), (left.height - 190) / ((bounds.height + across.height) * 1e3))
    : undefined;
  const planTall =
    options.keep?.plan?.tall ?? (across && fits ? Math.min(left.height * 0.5, across.height * 1e3 * fits + 56) : 0);
  const side: Rect = { ...left, height: left.height - planTall };
  const view: View =
    options.keep?.view ?? fitted(bounds, [side.x + 40, side.y + 58], side.width - 74, side.height - 112);
  const region = sideRegion(shape, side, { ...options, detail: width >= 700, cuts: true, view });
  shapes.push(...region.shapes);
  const share = options.share ?? "unit";
  const parts: Shape[] = [part(`${share}-side`, sideGeometry(shape, view))];
  const plan = planned
    ? planRegion(
        shape,
        { x: left.x, y: left.y + side.height, width: left.width, height: planTall },
        { highlight: options.highlight, view, keep: options.keep?.plan?.view, share: options.share },
      )
    : undefined;
  if (plan) {
    const y = left.y + side.height;
    shapes.push(line([left.x, y], [left.x + left.width, y], "hair"), ...plan.shapes);
    parts.push(part(`${share}-plan`, plan.geometry));
  }
  shapes.push(
    narrow
      ? line([edge + 10, sectionA.y], [width - 10, sectionA.y], "hair")
      : line([sectionA.x, sectionA.y + 10], [sectionA.x, height - 10], "hair"),
  );
  const kept = options.keep?.sections;
  const groove = grooveRegion(shape, sectionA, undefined, kept?.groove);
  shapes.push(...groove.shapes);
  const nip = hasNip ? nipRegion(shape, sectionB, undefined, kept?.nip) : undefined;
  if (nip) shapes.push(...nip.shapes);

  const zoneOf = (place: Place): string | undefined => {
    const marked = anchorOf(shape, place);
    return marked && zoneAt(onPaper(view, marked), width, height, zones);
  };
  const zone = options.highlight && zoneOf(options.highlight);
  shapes.push(...frameShapes(width, height, zones, zone));
  const overlays = new Map<string, Shape>();
  const found = new Map<string, string>();
  for (const { name, place } of options.overlays ?? []) {
    const marks = part(`${share}-${name}`, [
      ...(region.overlays.get(name)?.marks ?? []),
      ...(plan ? planHighlight(shape, plan.view, place) : []),
    ]);
    overlays.set(name, marks);
    const at = zoneOf(place);
    if (at) found.set(name, at);
    shapes.push(
      group([marks, ...(region.overlays.get(name)?.asked ?? [])], { class: "overlay", data: { overlay: name } }),
    );
  }
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
    placed: {
      ...region.placed,
      view,
      ...(plan ? { plan: { view: plan.view, tall: planTall } } : {}),
      sections: { groove: groove.view, ...(nip ? { nip: nip.view } : {}) },
    },
    zones: found,
    geometry: { unit: shape.unit, tape: shape.tape, name: share, window: left, parts, overlays },
    ...(zone ? { zone } : {}),
  };
}

/** A small drawing of where a finding acts: the sheet's geometry without words, and the marks of one overlay. */
export function locator(sheet: UnitSheet, overlay: string, { width }: { readonly width: number }): Drawing {
  const { geometry } = sheet;
  const { window } = geometry;
  const marks = geometry.overlays.get(overlay);
  const zone = sheet.zones.get(overlay);
  return {
    title: `Where it acts on ${geometry.unit}`,
    desc: `The drawing of ${geometry.unit} with ${geometry.tape}, small, with the place marked${zone ? ` in zone ${zone}` : ""}.`,
    width,
    height: Math.round((width * window.height) / window.width),
    window,
    shapes: [...geometry.parts, ...(marks ? [marks] : [])],
  };
}

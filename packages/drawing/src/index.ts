export { type EquationOptions, equationHtml, letterMark } from "./equation.ts";
export { type FindingInput, findingHtml, headline, type Trials, type WayOut } from "./finding.ts";
export { type Zones, zoneAt, zonesFor } from "./frame.ts";
export { type KnownInput, type KnownRow, knownHtml } from "./known.ts";
export {
  type LadderCrossing,
  type LadderInput,
  type LadderJump,
  type LadderLine,
  type LadderPoint,
  ladder,
  ladderWords,
} from "./ladder.ts";
export { equationMl, expressionMl, expressionOf } from "./mathml.ts";
export { anchorOf, askedOf, type Place, placeOf, placeOfAddress } from "./place.ts";
export { leavesPlane, planView } from "./plan-view.ts";
export {
  type MapInput,
  type MapSize,
  mapColumns,
  routeMap,
  routeTable,
  sayCell,
  stationVerdicts,
  type TapeIcon,
} from "./route-map.ts";
export * from "./scene.ts";
export { grooveSection, nipSection, type SectionSize } from "./section.ts";
export { unitSheet } from "./sheet.ts";
export { type Placed, type SideOptions, type SizedOptions, sideView } from "./side-view.ts";
export { darkTokens, fontFaces, lightTokens, printTokens, theme } from "./theme.ts";
export {
  type Body,
  type FilmShape,
  type GuideShape,
  type Measure,
  type SpanShape,
  type UnitShape,
  unitShape,
} from "./unit-shape.ts";
export { markInline, verdictMark } from "./verdict-mark.ts";
export { type WindowInput, windowDrawing, windowOf } from "./window.ts";

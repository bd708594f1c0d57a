/** How an expected value is known: seen in the named source, worked out apart from the models, remembered, or custom of the trade. */
export type How = "read" | "derived" | "memory" | "common practice";

/** One figure from outside held against what a model gives. Expected, got and tolerance are in `unit`. */
export interface Row {
  readonly id: string;
  /** Id of the model, or name of the table, that gives it. */
  readonly model: string;
  readonly expected: number;
  readonly got: number;
  /** How far `got` may lie from `expected`. */
  readonly tolerance: number;
  readonly unit: string;
  readonly ok: boolean;
  /** Title, number and page; what the tolerance is where the source does not state one. */
  readonly source: string;
  readonly how: How;
}

/** How near is near enough: a share of the expected value, so much in its unit, or half a unit of the last digit the source prints. */
export type Near = { readonly share: number } | { readonly within: number } | { readonly printedTo: number };

export interface Claim {
  readonly id: string;
  readonly model: string;
  readonly expected: number;
  readonly got: number;
  readonly near: Near;
  readonly unit?: string;
  readonly source: string;
  readonly how: How;
}

const toleranceOf = (near: Near, expected: number): number =>
  "share" in near ? near.share * Math.abs(expected) : "within" in near ? near.within : near.printedTo / 2;

/** A claim judged. A value on the very edge of its tolerance holds; what is not a number does not. */
export function row({ id, model, expected, got, near, unit = "1", source, how }: Claim): Row {
  const tolerance = toleranceOf(near, expected);
  const ok = Math.abs(got - expected) <= tolerance * (1 + 1e-9) + 1e-12 * Math.abs(expected);
  const printed = "printedTo" in near ? `; printed to ${near.printedTo}, half of that allowed` : "";
  return { id, model, expected, got, tolerance, unit, ok, source: source + printed, how };
}

/** Programs of their own beside this table, which reach the same figures by other means. */
export const filmProgram = "independent program validation/independent/film.py";
export const pocketProgram = "independent program validation/independent/pockets.py";
export const clearanceProgram = "independent program validation/independent/clearance.py";
export const yawProgram = "independent program validation/independent/yaw.py";
export const cycleProgram = "independent program validation/independent/cycle.py";
export const driveProgram = "independent program validation/independent/drive.py";
export const sprocketProgram = "independent program validation/independent/sprocket.py";
export const gearProgram = "independent program validation/independent/gear.py";
export const holdProgram = "independent program validation/independent/hold.py";
export const springProgram = "independent program validation/independent/spring.py";
export const windowProgram = "independent program validation/independent/window.py";
export const countsProgram = "independent program validation/independent/counts.py";
/** Notes this project began from, by title. */
export const filmNotes = "The cover film, equations to implement (unpublished working notes)";
export const reviewNotes = "An independent re-derivation of the pages (review of the unpublished working notes)";
export const routeNotes = "Geometry of the route (unpublished working notes)";
export const sureNotes = "How sure: equations, methods and check values (unpublished working notes)";
export const driveNotes = "Sprocket, drive and index cycle, equations to implement (unpublished working notes)";
export const springNotes = "Compliant parts, equations and checks (unpublished working notes)";

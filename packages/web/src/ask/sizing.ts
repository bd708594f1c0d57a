import {
  type AsideCell,
  checks,
  type DimensionWindow,
  type Free,
  type FreeProposal,
  freeOf,
  isFault,
  judge,
  proposeFreeInSteps,
  type Scene,
  type SizedTape,
  type Sizing,
  type SizingResult,
  type Steps,
  sizedInSteps,
  sizedTapesInSteps,
  Windows,
} from "@tapeworthy/core";
import { type Project, sizedText, type Texts } from "@tapeworthy/project";

/** A free dimension as the page has it, plain data, SI. */
export interface SizeDimension {
  readonly path: string;
  readonly symbol: string;
  readonly unit: string;
  readonly shownIn: string;
  /** How far it may move from what is drawn. */
  readonly least: number;
  readonly most: number;
  readonly grain: number;
  readonly drawn: Free["drawn"];
}
/** What there is to see of widening all windows of a unit. */
export interface SizeAnswer {
  readonly unit: string;
  readonly dimensions: readonly SizeDimension[];
  /** Where the windows were taken: distances from what is drawn. */
  readonly at: readonly number[];
  readonly windows: readonly DimensionWindow[];
  readonly aside: readonly AsideCell[];
  /** Where nothing is free: what would matter. */
  readonly proposals: readonly FreeProposal[];
  readonly result: SizingResult | undefined;
  /** The unit's file as it would be written. */
  readonly written: { readonly file: string; readonly text: string } | undefined;
}

export interface SizingWork {
  readonly project: Project;
  readonly texts: Texts;
  readonly unit: string;
  readonly scenes: readonly { readonly tape: string; readonly scene: Scene }[];
  readonly belief: Pick<Sizing, "deviates" | "weights" | "contradicted">;
  /** Told after a slice of work. */
  readonly tell: (what: string, done: number, of: number) => Promise<void>;
  readonly show: (sofar: SizeAnswer) => void;
  readonly slices: <T>(steps: Steps<T>, tell: () => Promise<void>) => Promise<T>;
}

/** A unit whose windows are being widened: readied once, then looked at from wherever a hand puts its dimensions. */
export class SizingDesk {
  readonly unit: string;
  private readonly free: readonly Free[];
  private readonly tapes: readonly SizedTape[];
  private readonly aside: readonly AsideCell[];
  private readonly windows: Windows;

  constructor(unit: string, free: readonly Free[], tapes: readonly SizedTape[], aside: readonly AsideCell[]) {
    this.unit = unit;
    this.free = free;
    this.tapes = tapes;
    this.aside = aside;
    this.windows = new Windows(tapes, free);
  }
  table(x: readonly number[]): Steps<void> {
    return this.windows.table(x);
  }
  sized(sizing: Sizing): Steps<SizingResult> {
    return sizedInSteps(sizing, this.tapes, this.aside);
  }
  seen(at: readonly number[], result?: SizingResult, written?: SizeAnswer["written"]): SizeAnswer {
    return {
      unit: this.unit,
      dimensions: this.free.map(({ path, symbol, unit, shownIn, least, most, grain, drawn }) => ({
        path,
        symbol,
        unit,
        shownIn,
        least,
        most,
        grain,
        drawn,
      })),
      at,
      windows: this.windows.at(at),
      aside: this.aside,
      proposals: [],
      result,
      written,
    };
  }
}
/** The first search begins at what is drawn, the others at random. */
const starts = 3;

/** Widens all windows of a unit over its wanted tapes: as drawn at once, then the search. The desk is for what a hand asks after. */
export async function sizeIn(
  work: SizingWork,
): Promise<{ readonly answer: SizeAnswer; readonly desk: SizingDesk | undefined }> {
  const { project, texts, unit, scenes, belief, tell, show, slices } = work;
  const free = project.units.get(unit)!.free.flatMap((mark): Free[] => {
    const one = freeOf(
      scenes.map(({ scene }) => scene),
      mark,
    );
    return isFault(one) ? [] : [one];
  });
  if (free.length === 0) return { answer: await proposed(work), desk: undefined };
  let told = { what: "tapes as drawn", done: 0, of: scenes.length };
  const say = () => tell(told.what, told.done, told.of);
  const sizing: Sizing = {
    ...belief,
    unit,
    tapes: scenes,
    checks,
    free,
    starts,
    told: ({ what, done, of }) => {
      told = { what, done, of };
    },
  };
  const { tapes, aside } = await slices(sizedTapesInSteps(sizing), say);
  const desk = new SizingDesk(unit, free, tapes, aside);
  const drawn = free.map(() => 0);
  await slices(desk.table(drawn), () => tell("windows as drawn", 0, 1));
  show(desk.seen(drawn));
  const result = await slices(desk.sized(sizing), say);
  const at = result.dimensions.map(({ by }) => by);
  await slices(desk.table(at), () => tell("windows", 0, 1));
  const written = result.lines.length > 0 ? sizedText(texts, unit, result.lines) : undefined;
  return { answer: desk.seen(at, result, written), desk };
}
async function proposed({ unit, scenes, belief, tell, slices }: SizingWork): Promise<SizeAnswer> {
  const stopped = [];
  for (const [i, { tape, scene }] of scenes.entries()) {
    await tell("tapes as drawn", i, scenes.length);
    const { first, verdict } = judge({ unit, tape, scene, checks, ...belief });
    if (verdict === "feeds" || verdict === "n/a") continue;
    stopped.push({ tape, scene, first: checks.filter(({ id }) => first.includes(id)) });
  }
  const steps = proposeFreeInSteps(stopped, belief.deviates, belief.weights);
  const proposals = await slices(steps, () => tell("what would matter", 0, 1));
  return {
    unit,
    dimensions: [],
    at: [],
    windows: [],
    aside: [],
    proposals,
    result: undefined,
    written: undefined,
  };
}

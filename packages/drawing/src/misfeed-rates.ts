import { figures, spaced } from "@tapeworthy/core";
import { sayPart } from "./pick-shares.ts";
import { aloud, capital } from "./say.ts";
import { box, circle, type Drawing, group, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";

/** A chance per index with what belief leaves of it, its 5 and 95 % points. From 0 to 1, not per million. */
export interface MisfeedRate {
  readonly at: number;
  readonly low?: number;
  readonly high?: number;
}
/** What is known of one way to misfeed. */
export type MisfeedMode = {
  readonly key: string;
  readonly name: string;
} & (
  | {
      readonly kind: "rate";
      readonly rate: MisfeedRate;
      /** The methods that estimated it do not agree. */
      readonly disagrees?: boolean;
    }
  /** No failure lies within given limits. */
  | { readonly kind: "cannot fail" }
  /** Searched, and no failure met; `under` is what the search can rule out. */
  | { readonly kind: "none found"; readonly under?: number }
  /** Nothing to say: what it would take to say it. */
  | { readonly kind: "not known"; readonly needs: string }
);
export interface MisfeedRatesInput {
  readonly unit: string;
  readonly tape: string;
  /** Mean over units and reels, all modes. */
  readonly total?: MisfeedRate;
  /** Chance per index the project allows. */
  readonly allowed?: number;
  readonly modes: readonly MisfeedMode[];
  /** What hides behind the mean. */
  readonly levels?: {
    readonly medianPair?: MisfeedRate;
    /** Share of units over what is allowed. */
    readonly unitsOver?: number;
    /** Chance that a random unit with a random reel runs so many indexes clean. */
    readonly clean?: { readonly indexes: number; readonly chance: number };
  };
}

/** A chance per index as so many in a million: two figures, thousands apart, no exponent. */
export function perMillion(chance: number): string {
  const v = chance * 1e6;
  if (Number.isNaN(v)) return "no number";
  if (v <= 0) return "0";
  if (v < 1e-5) return "under 0.00001";
  if (v >= 1e6) return "1 000 000";
  // 998 000 would round to the whole.
  if (v > 990_000) return "over 990 000";
  return v < 100 ? figures(v) : spaced(Number(v.toPrecision(2)));
}
const fromTo = ({ low, high }: MisfeedRate): string | undefined =>
  low === undefined || high === undefined ? undefined : `${perMillion(low)} to ${perMillion(high)}`;

/** How the total stands to what is allowed: by the band of belief where there is one. */
export function misfeedStanding({ total, allowed }: MisfeedRatesInput): "within" | "not settled" | "over" | undefined {
  if (!total || allowed === undefined || Number.isNaN(total.at)) return undefined;
  const [low, high] = [total.low ?? total.at, total.high ?? total.at];
  return high <= allowed ? "within" : low > allowed ? "over" : "not settled";
}

/** Nobody can tell one in a million millions from none: no axis goes lower. Exponent of ten, per million. */
const lowest = -6;
/** A log axis of chances: whole decades, at least three, at most eight; what lies beyond stands at its end with an arrow. */
export interface RateAxis {
  /** Exponents of ten, per million. */
  readonly from: number;
  readonly to: number;
}
export function rateAxis({ total, allowed, modes, levels }: MisfeedRatesInput): RateAxis {
  const rates = [
    ...(total ? [total] : []),
    ...(levels?.medianPair ? [levels.medianPair] : []),
    ...modes.flatMap((m) =>
      m.kind === "rate" ? [m.rate] : m.kind === "none found" && m.under ? [{ at: m.under }] : [],
    ),
  ].flatMap(({ at, low, high }) => [at, low ?? at, high ?? at]);
  const logs = [...rates, ...(allowed === undefined ? [] : [allowed])]
    .filter((v) => v > 0 && Number.isFinite(v))
    .map((v) => Math.log10(Math.min(1, v) * 1e6));
  if (logs.length === 0) return { from: -2, to: 2 };
  const to = Math.min(6, Math.max(lowest + 3, Math.ceil(Math.max(...logs) + 0.15)));
  const from = Math.max(lowest, to - 8, Math.floor(Math.min(...logs) - 0.15));
  return { from: Math.min(from, to - 3), to };
}

/**
 * Misfeeds in a million indexes on a log axis: the mean over units and reels with what belief leaves of it against the allowance, then every
 * mode. What cannot fail as drawn, was not found or is not known has words in place of a mark.
 */
export function misfeedRates(
  input: MisfeedRatesInput,
  {
    width,
    height = 0,
    link,
  }: { readonly width: number; readonly height?: number; readonly link?: (key: string) => string },
): Drawing {
  const { total, allowed, modes, levels } = input;
  const axis = rateAxis(input);
  const [x0, x1] = [16, width - 16];
  const x = (chance: number): number => {
    const share = (Math.log10(Math.min(1, chance) * 1e6) - axis.from) / (axis.to - axis.from);
    return x0 + Math.max(0, Math.min(1, Number.isNaN(share) ? 0 : share)) * (x1 - x0);
  };
  const isBelow = (chance: number): boolean => !(chance > 0) || Math.log10(chance * 1e6) < axis.from - 1e-9;
  const isAbove = (chance: number): boolean => Math.log10(chance * 1e6) > axis.to + 1e-9;
  const standing = misfeedStanding(input);

  const shapes: Shape[] = [];
  shapes.push(text([10, 17], "Misfeeds in a million indexes", "t1 strong"));
  const head = headOf(input, width);
  shapes.push(...head.shapes);

  // Rows: the mean and the median pair, then modes.
  interface Row {
    readonly key?: string;
    readonly name: string;
    readonly rate?: MisfeedRate;
    readonly mark: "diamond" | "hollow" | "ring" | "none";
    readonly words: string;
    readonly cls: string;
    readonly spoken: string;
    readonly under?: number;
  }
  const totalCls = standing === "over" ? "is-fail" : standing === "not settled" ? "is-ask" : "strong";
  const rows: Row[] = [];
  const band = (r: MisfeedRate): string => {
    const range = fromTo(r);
    return `${perMillion(r.at)}${range === undefined ? "" : `; ${range}`}`;
  };
  if (total)
    rows.push({
      name: "mean of units and reels",
      rate: total,
      mark: "diamond",
      words: band(total),
      cls: totalCls,
      spoken: "",
    });
  if (levels?.medianPair)
    rows.push({
      name: "median unit with median reel",
      rate: levels.medianPair,
      mark: "ring",
      words: band(levels.medianPair),
      cls: "",
      spoken: "",
    });
  const own = rows.length;
  for (const m of sorted(modes))
    rows.push({
      key: m.key,
      name: m.name,
      ...(m.kind === "rate" ? { rate: m.rate } : {}),
      mark: m.kind === "rate" ? (m.disagrees ? "hollow" : "diamond") : "none",
      words: m.kind === "rate" ? band(m.rate) : modeWords(m),
      cls:
        m.kind === "not known" || (m.kind === "rate" && m.disagrees)
          ? "is-ask"
          : m.kind === "rate"
            ? "strong"
            : "quiet",
      spoken: modeSpoken(m),
      ...(m.kind === "none found" && m.under !== undefined ? { under: m.under } : {}),
    });
  const footWords = levelLines(input);
  const top = head.bottom + 6;
  const flat = (r: Row): boolean => r.under === undefined && (r.rate === undefined || Number.isNaN(r.rate.at));
  const least = 33;
  const between = own > 0 && modes.length > 0 ? 10 : 0;
  const foot = 24 + footWords.length * 14 + (footWords.length > 0 ? 4 : 0);
  // A row without a mark needs only its words.
  const wordy = rows.filter(flat).length * 21;
  const marked = rows.length - rows.filter(flat).length;
  const step = Math.max(least, Math.min(42, (height - top - between - foot - wordy - 6) / (marked || 1)));
  const tops: number[] = [];
  let y1 = top;
  rows.forEach((r, i) => {
    if (i === own && own > 0) y1 += between;
    tops.push(y1);
    y1 += flat(r) ? 21 : step;
  });
  if (rows.length === 0) y1 += 24;
  const tall = Math.max(height, y1 + foot + 6);

  // The axis, behind everything.
  const behind: Shape[] = [box([0, 0], width, tall, "ground")];
  const decades = Array.from({ length: axis.to - axis.from + 1 }, (_, i) => axis.from + i);
  const widest = Math.max(...decades.map((d) => textWidth(tickWords(d), 10.5)));
  const every = [1, 2, 3, 4].find((n) => ((x1 - x0) / (axis.to - axis.from)) * n > widest + 8) ?? axis.to - axis.from;
  for (const d of decades) {
    const at = x0 + ((d - axis.from) / (axis.to - axis.from)) * (x1 - x0);
    behind.push(line([at, top], [at, y1], "hair"));
    if ((axis.to - d) % every !== 0) continue;
    const words = tickWords(d);
    const half = textWidth(words, 10.5) / 2;
    behind.push(
      line([at, y1], [at, y1 + 4], "faint"),
      text([Math.max(4 + half, Math.min(width - 4 - half, at)), y1 + 15], words, "", {
        anchor: "middle",
        data: { decade: `${d}` },
      }),
    );
  }
  behind.push(line([x0, y1], [x1, y1], "thin"));
  if (allowed !== undefined && allowed > 0 && Number.isFinite(allowed)) {
    const at = x(allowed);
    behind.push(
      ...(x1 - at > 0.5 ? [box([at, y1 - 6], x1 - at, 6, "", { fill: "outside" })] : []),
      line([at, top], [at, y1 + 4], "heavy", { data: { allowed: `${allowed}` } }),
    );
  }
  rows.forEach((r, i) => {
    const y = tops[i]!;
    const tallRow = flat(r) ? 21 : step;
    if (i === own && own > 0) behind.push(line([10, y - between / 2], [width - 10, y - between / 2], "faint"));
    const mid = y + 22;
    const inner: Shape[] = [];
    const wide = textWidth(r.words, 10.5, true) + 2;
    const full = x1 - x0 + 12;
    const words = wide > full * 0.68 ? cutTo(r.words, 10.5, full * 0.68, true) : r.words;
    const room = full - Math.min(wide, full * 0.68) - 12;
    inner.push(
      text(
        [10, y + 11],
        cutTo(r.name, 10.5, room, i === 0 && own > 0),
        i === 0 && own > 0 ? "strong halo" : "dark halo",
      ),
      text([width - 10, y + 11], words, `${r.cls} halo`, { anchor: "end" }),
    );
    if (r.rate && !Number.isNaN(r.rate.at)) {
      const { at, low, high } = r.rate;
      if (low !== undefined && high !== undefined && high >= low) {
        const [a, b] = [x(low), x(high)];
        const data = { band: r.key ?? r.name };
        inner.push(
          box([a, mid - 3.5], Math.max(1.5, b - a), 7, "of-paper"),
          box([a, mid - 3.5], Math.max(1.5, b - a), 7, "ask-line", { fill: "unknown", data }),
        );
        if (isBelow(low)) inner.push(beyond(x0, mid, -1));
        if (isAbove(high)) inner.push(beyond(x1, mid, 1));
      }
      if (isBelow(at)) inner.push(beyond(x0, mid, -1));
      else inner.push(markAt(r.mark, [x(at), mid], i === 0 && own > 0, standing, r.key ?? r.name));
    }
    if (r.under !== undefined && r.under > 0) {
      // No failure met: it lies somewhere to the left of what the search can rule out.
      const at = x(r.under);
      inner.push(
        line([x0 + 6, mid], [at, mid], "hidden-line"),
        line([at, mid - 4], [at, mid + 4], "thin", { data: { under: r.key ?? r.name } }),
        beyond(x0, mid, -1),
      );
    }
    const more = r.key === undefined ? {} : { data: { mode: r.key } };
    shapes.push(
      group([...(link && r.key !== undefined ? [box([8, y], width - 16, tallRow - 2, "clear")] : []), ...inner], {
        ...more,
        ...(link && r.key !== undefined ? { link: { href: link(r.key), label: r.spoken } } : {}),
      }),
    );
  });
  if (rows.length === 0) shapes.push(text([10, top + 12], "no mode is judged", "dark halo"));
  footWords.forEach((words, i) => {
    shapes.push(text([10, y1 + 34 + i * 14], cutTo(words, 10.5, width - 20), "dark"));
  });
  return {
    title: `Misfeeds of ${input.unit} with ${input.tape}`,
    desc: misfeedWords(input),
    width,
    height: tall,
    shapes: [...behind, ...shapes],
  };
}

/** The mean in large, its band and what is allowed beside it, or under it where there is no room. */
function headOf(input: MisfeedRatesInput, width: number): { shapes: Shape[]; bottom: number } {
  const { total, allowed } = input;
  if (!total) return { shapes: [text([10, 33], "no total", "dark")], bottom: 40 };
  const standing = misfeedStanding(input);
  const cls = standing === "over" ? "is-fail" : standing === "not settled" ? "is-ask" : "strong";
  const large = perMillion(total.at);
  const shapes: Shape[] = [
    text([10, 41], large, `t3 ${cls}`, Number.isFinite(total.at) ? { data: { total: `${total.at}` } } : {}),
  ];
  const x = 10 + textWidth(large, 15.5, true) * 1.04 + 12;
  const range = fromTo(total);
  const lines = [
    ...(range === undefined ? [] : [`belief ${range}`]),
    ...(allowed === undefined
      ? ["no allowance is set"]
      : [`allowed ${perMillion(allowed)}${standing === undefined ? "" : `: ${standing}`}`]),
  ];
  lines.forEach((words, i) => {
    const y = lines.length === 1 ? 41 : 34 + i * 13;
    shapes.push(
      text([x, y], cutTo(words, 10.5, width - 10 - x), i === lines.length - 1 && standing !== "within" ? cls : ""),
    );
  });
  return { shapes, bottom: 54 };
}

function markAt(
  mark: "diamond" | "hollow" | "ring" | "none",
  at: Point,
  isTotal: boolean,
  standing: ReturnType<typeof misfeedStanding>,
  key: string,
): Shape {
  const r = isTotal ? 6.5 : 5;
  const data = { rate: key };
  if (mark === "ring") return circle(at, 4, "outline of-paper", { data });
  const [x, y] = at;
  const d = strokes(
    [
      [x, y - r],
      [x + r, y],
      [x, y + r],
      [x - r, y],
    ],
    true,
  );
  return path(d, mark === "hollow" ? "outline of-paper" : isTotal && standing === "over" ? "of-fail" : "of-ink", {
    data,
  });
}
/** It goes on beyond the end of the axis. */
const beyond = (x: number, y: number, way: 1 | -1): Shape =>
  path(
    strokes(
      [
        [x + way * 7, y],
        [x - way * 1, y - 4.5],
        [x - way * 1, y + 4.5],
      ],
      true,
    ),
    "of-ink2",
    { data: { beyond: way < 0 ? "below" : "above" } },
  );
const tickWords = (d: number): string => (d < 0 ? (10 ** d).toFixed(-d) : spaced(10 ** d));

const place = (m: MisfeedMode): number =>
  m.kind === "rate"
    ? Number.isNaN(m.rate.at)
      ? -1
      : m.rate.at
    : { "not known": -2, "none found": -3, "cannot fail": -4 }[m.kind];
/** Largest first; then what is not known, not found, cannot fail. */
const sorted = (modes: readonly MisfeedMode[]): MisfeedMode[] =>
  [...modes].sort((a, b) => place(b) - place(a) || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
function modeWords(m: Exclude<MisfeedMode, { kind: "rate" }>): string {
  if (m.kind === "cannot fail") return "cannot fail as drawn";
  if (m.kind === "not known") return `not known: ${m.needs}`;
  return m.under === undefined ? "none found" : `none found, under ${perMillion(m.under)}`;
}
function modeSpoken(m: MisfeedMode): string {
  if (m.kind !== "rate") return `${m.name}: ${modeWords(m)}`;
  const range = fromTo(m.rate);
  return `${m.name}: ${perMillion(m.rate.at)} in a million${range === undefined ? "" : `, by belief ${range}`}${m.disagrees ? "; the methods disagree" : ""}`;
}
function levelLines({ levels, modes, allowed }: MisfeedRatesInput): string[] {
  const out: string[] = [];
  if (levels?.unitsOver !== undefined && allowed !== undefined)
    out.push(`units over the allowance: ${sayPart(levels.unitsOver)}`);
  if (levels?.clean)
    out.push(`${spaced(levels.clean.indexes)} indexes without one: chance ${sayPart(levels.clean.chance)}`);
  if (modes.some((m) => m.kind === "rate" && m.disagrees)) out.push("hollow: the methods disagree");
  return out;
}

/** The rates told: the mean and how it stands to the allowance, what hides behind it, then every mode. */
export function misfeedWords(input: MisfeedRatesInput): string {
  const { total, allowed, modes, levels } = input;
  const out = [`Misfeeds of ${input.unit} with ${input.tape}, in a million indexes.`];
  if (total) {
    const range = fromTo(total);
    const standing = misfeedStanding(input);
    out.push(
      `Mean of units and reels ${perMillion(total.at)}${range === undefined ? "" : `, by belief ${range}`}; ${
        allowed === undefined
          ? "no allowance is set"
          : `allowed ${perMillion(allowed)}${standing === undefined ? "" : `: ${standing}`}`
      }.`,
    );
  } else out.push("No total is known.");
  if (levels?.medianPair) out.push(`Median unit with median reel ${perMillion(levels.medianPair.at)}.`);
  out.push(...levelLines({ ...input, modes: [] }).map((words) => `${capital(words)}.`));
  out.push(...sorted(modes).map((m) => `${capital(modeSpoken(m))}.`));
  if (modes.length === 0) out.push("No mode is judged.");
  return aloud(out.join(" "));
}

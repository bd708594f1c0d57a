import { type DecisiveFinding, type Finding, figures, showIn, showShare, unitOf, type Verdict } from "@tapeworthy/core";

/** Share of belief as a person reads it; core says it once for all. */
export const sayShare = showShare;
export const verdictWords: Readonly<Record<Verdict, string>> = {
  feeds: "feeds",
  depends: "depends",
  stops: "stops",
  "n/a": "not applicable",
};
export const sayVerdict = (verdict: Verdict, share: number | null): string =>
  verdict === "depends" && share !== null ? `depends ${sayShare(share)}` : verdictWords[verdict];

/** Margin with what it stands on: "about" where it is first order (a tilde reads as a minus in small print), its words where nothing can fail. */
export function sayMargin(f: Pick<Finding, "margin" | "marginBy">): string {
  if (f.margin === null) return "none";
  if (f.marginBy === "cannot fail as drawn") return "cannot fail as drawn";
  return `${f.marginBy === "first order" ? "about " : ""}${figures(f.margin)}`;
}
export const letterWords = { m: "measured here", d: "drawing or standard", g: "guess or memory" } as const;
export const stationWords = [
  "entry",
  "groove",
  "hold-down",
  "peel",
  "pick",
  "sprocket",
  "nip",
  "drive",
  "supply",
] as const;
export const severityWords = {
  S: "stops feeding",
  A: "enters the pick error",
  L: "shortens life",
  N: "annoys",
} as const;

/** The part of a check's id behind its point, as a person reads it: "film.out-of-plane" is "out of plane". */
export const shortName = (check: string): string => check.replace(/^[^.]*\./, "").replaceAll("-", " ");
/** The last part of an address as a person reads it: "plover/film.friction" is "film friction", "tapes/dpak-16/T" is "T of dpak-16". */
export function sayAddress(address: string): string {
  const [file, ...rest] = address.split("/");
  const what = rest.join("/");
  if (what === "") return address;
  if (file === "assume" || file === "catalogue") return what;
  if (file === "tapes" && rest.length > 1) return `${rest.slice(1).join("/").replaceAll(".", " ")} of ${rest[0]}`;
  const [, width, inner = what] = /^per width\.(\d+)\.(.+)$/.exec(what) ?? [];
  const [, guide, n] = /^film\.guides\.(.+)\.through\.([123])$/.exec(inner) ?? [];
  const [, part, axis] = /^part (.+), ([xyz])$/.exec(inner) ?? [];
  const name = guide ?? part ?? inner.replaceAll(".", " ");
  const way = guide ? ways[Number(n) - 1] : axis ? ways["xyz".indexOf(axis)] : undefined;
  return `${name}${way === undefined ? "" : `, ${way}`}${width === undefined ? "" : ` at ${width} mm`}`;
}
/** How a place in x, y and z moves, in words. */
export const ways = ["along the travel", "across the tape", "up and down"] as const;
/** Guess as the panel says it: "you guess 0.18 to 0.35". */
export const sayGuess = (d: DecisiveFinding): string =>
  d.words
    ? `${d.words[0]} or ${d.words[1]}`
    : `${figures(d.guess.low / unitOf(d.shownIn).factor)} to ${showIn(d.shownIn, d.guess.high)}`;

/** Middle of a guess: on a logarithmic scale where both ends are positive. */
export const middleOf = ({ low, high }: { readonly low: number; readonly high: number }): number =>
  low > 0 && high > 0 ? Math.sqrt(low * high) : (low + high) / 2;
/** On which side of the tipping value the check stops; undefined where nothing tips, or the tipping value lies outside the guess. */
export function stoppingSide(d: DecisiveFinding): "above" | "below" | undefined {
  if (d.tipping === null || d.words || d.tipping <= d.guess.low || d.tipping >= d.guess.high) return undefined;
  const holdsAtMiddle = d.shareIfMeasured >= 0.5;
  const middleIsBelow = middleOf(d.guess) < d.tipping;
  return holdsAtMiddle === middleIsBelow ? "above" : "below";
}

export const list = (items: readonly string[]): string =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
export const counted = (n: number, word: string): string => `${n} ${word}${n === 1 ? "" : "s"}`;
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** Millimetres with as many decimals as they need, one at least, two at most: 9.0, 24.45, 0.08. */
export function mmShort(v: number): string {
  const [whole, part = ""] = (Math.round(Number((v * 1e5).toPrecision(12))) / 1e2).toFixed(2).split(".");
  const kept = part.replace(/0+$/, "");
  return `${whole}.${kept === "" ? "0" : kept}`.replace("-", "−");
}
/** Spoken form of a minus: screen readers skip the sign. */
export const aloud = (words: string): string => words.replace(/−(?=\d)/g, "minus ");

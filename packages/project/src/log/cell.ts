/** The signs that make a number in a log. */
export interface NumberSigns {
  readonly decimal: "." | ",";
  /** What stands between groups of three digits; empty where nothing does. */
  readonly thousands: "" | "." | "," | "'" | " ";
}

const escaped: Readonly<Record<string, string>> = { ".": "\\.", ",": ",", "'": "['’]", " ": "[ \u00a0\u202f]", "": "" };
const patterns = new Map<string, RegExp>();
function patternOf({ decimal, thousands }: NumberSigns): RegExp {
  const key = decimal + thousands;
  const known = patterns.get(key);
  if (known) return known;
  const d = escaped[decimal]!;
  const whole = thousands === "" ? "\\d+" : `(?:\\d{1,3}(?:${escaped[thousands]}\\d{3})+|\\d+)`;
  const made = new RegExp(`^[+\\-−]?(?:${whole}(?:${d}\\d*)?|${d}\\d+)(?:[eEdD][+\\-]?\\d{1,3})?$`);
  patterns.set(key, made);
  return made;
}
/** The number that a cell holds, or undefined. Never reads what is only partly a number. */
export function numberIn(text: string, signs: NumberSigns): number | undefined {
  if (!patternOf(signs).test(text)) return undefined;
  let plain = text.replace("−", "-").replace(/[dD]/, "e");
  if (signs.thousands === " ") plain = plain.replace(/[ \u00a0\u202f]/g, "");
  else if (signs.thousands === "'") plain = plain.replace(/['’]/g, "");
  else if (signs.thousands !== "") plain = plain.replaceAll(signs.thousands, "");
  if (signs.decimal === ",") plain = plain.replace(",", ".");
  const value = Number(plain);
  return Number.isFinite(value) ? value : undefined;
}

/** Words that loggers write where they have no value. */
export const isGapWord = (text: string): boolean =>
  /^(?:[+-]?nan(?:\(.*\))?|n\/?a|<na>|null|none|nil|missing|invalid|-+|–|—|\?+|\.|\*+|#n\/a|#div\/0!|#value!|#wert!|1\.#(?:qnan|ind))$/i.test(
    text,
  );
/** Words that loggers write where a value was out of their range. */
export const isOverRange = (text: string): boolean =>
  /^[+-]?(?:inf(?:inity)?|∞|ol|o\.l\.?|over(?:flow|range|load)?|under(?:flow|range)?|1\.#inf)$/i.test(text);

const clock =
  /^(?:(\d{4})-(\d\d)-(\d\d)(?:[T ]|$))?(?:(\d{1,3}):(\d\d):(\d\d)(?:[.,](\d{1,9}))?)?\s*(?:Z|[+-]\d\d:?\d\d)?$/;
/** Seconds of a time of day (12:30:01.250) or a date with one (2026-03-01T12:30:01.25), or undefined. */
export function clockIn(text: string): number | undefined {
  const m = clock.exec(text);
  if (!m || (m[1] === undefined && m[4] === undefined)) return undefined;
  const [minutes, seconds] = [Number(m[5] ?? 0), Number(m[6] ?? 0)];
  if (minutes > 59 || seconds > 60) return undefined;
  const ofDay = Number(m[4] ?? 0) * 3600 + minutes * 60 + seconds + (m[7] ? Number(`0.${m[7]}`) : 0);
  if (m[1] === undefined) return ofDay;
  const [month, day] = [Number(m[2]), Number(m[3])];
  const date = new Date(Date.UTC(Number(m[1]), month - 1, day));
  // There is no 30th of February.
  if (date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined;
  return date.getTime() / 1000 + ofDay;
}

/** A number with its unit in one cell: "1.25 N". */
export function withUnit(text: string, signs: NumberSigns): { value: number; unit: string } | undefined {
  const m = /^(.*?\d[.,]?(?:[eE][+-]?\d{1,3})?)\s*([A-Za-zµμΩ°%][A-Za-zµμΩ°%/*^0-9]*)$/.exec(text);
  const value = m ? numberIn(m[1]!.trim(), signs) : undefined;
  return value === undefined ? undefined : { value, unit: m![2]! };
}

/** The cells of a line. A quote opens only at the beginning of a cell and is doubled inside; `open` is where one is not closed. */
export function cellsOf(
  line: string,
  separator: string,
  quote: string,
): { cells: string[]; starts: number[]; open: number; quoted: boolean } {
  const cells: string[] = [];
  const starts: number[] = [];
  let quoted = false;
  let at = 0;
  const blank = separator === " ";
  if (blank) while (line[at] === " ") at++;
  for (;;) {
    let from = at;
    while (line[from] === " " && !blank) from++;
    if (quote !== "" && line[from] === quote) {
      let text = "";
      let i = from + 1;
      for (;;) {
        const end = line.indexOf(quote, i);
        if (end < 0) return { cells, starts, open: from, quoted: true };
        text += line.slice(i, end);
        if (line[end + 1] === quote) {
          text += quote;
          i = end + 2;
          continue;
        }
        i = end + 1;
        break;
      }
      quoted = true;
      const next = line.indexOf(separator, i);
      const rest = line.slice(i, next < 0 ? undefined : next).trim();
      cells.push(rest === "" ? text.trim() : `${text}${rest}`.trim());
      starts.push(from);
      if (next < 0) return { cells, starts, open: -1, quoted };
      at = next + 1;
    } else {
      const next = line.indexOf(separator, at);
      cells.push(line.slice(at, next < 0 ? undefined : next).trim());
      starts.push(Math.min(from, next < 0 ? line.length : next));
      if (next < 0) return { cells, starts, open: -1, quoted };
      at = next + 1;
    }
    if (blank) {
      while (line[at] === " ") at++;
      if (at >= line.length) return { cells, starts, open: -1, quoted };
    }
  }
}

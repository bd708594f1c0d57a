/**
 * How wide a line of text is, in pixels: labels are placed without a browser to ask. Advance widths of Sofia Sans Semi Condensed
 * regular in thousandths of the size (read from the font); digits are tabular. Other fonts of the stack are a little wider.
 */
const advances: Readonly<Record<string, number>> = {};
const put = (letters: string, widths: string): void => {
  const all = widths.split(" ");
  [...letters].forEach((letter, i) => {
    (advances as Record<string, number>)[letter] = Number(all[i]);
  });
};
put("0123456789", "603 603 603 603 603 603 603 603 603 603");
put(
  " !\"#$%&'()*+,-./:;<=>?@[\\]^_|~",
  "203 223 321 566 596 890 629 177 258 258 400 572 226 462 224 353 223 228 572 572 572 447 937 257 353 257 480 497 243 572",
);
put(
  "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
  "534 547 601 608 509 483 620 627 241 248 564 454 731 628 610 520 610 573 536 510 612 555 807 524 510 516",
);
put(
  "abcdefghijklmnopqrstuvwxyz",
  "470 510 490 514 493 349 490 528 223 222 468 222 800 528 508 510 514 343 440 370 515 472 682 456 471 441",
);
put("°±²³·×Ø–—’“”…−µμ", "371 572 380 381 234 572 610 699 831 226 380 382 661 572 526 526");
put("αβγδεηθκλνπρστφψω", "522 514 478 509 469 546 537 460 484 477 562 506 526 466 725 733 740");

export function textWidth(words: string, size: number, strong = false): number {
  let sum = 0;
  for (const letter of words) sum += advances[letter] ?? 560;
  return (sum * size * (strong ? 1.02 : 1)) / 1000;
}

/** Words cut to the room, with an ellipsis where something was cut. */
export function cutTo(words: string, size: number, room: number, strong = false): string {
  if (textWidth(words, size, strong) <= room) return words;
  let kept = [...words];
  while (kept.length > 1 && textWidth(`${kept.join("").trimEnd()}…`, size, strong) > room) kept = kept.slice(0, -1);
  return `${kept.join("").trimEnd()}…`;
}

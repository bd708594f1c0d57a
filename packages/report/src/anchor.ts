/**
 * The id of a place on the page: "finding/plover/so20-24/film.mismatch". What is no letter, digit, point or dash is written as its code
 * point between tildes, so an id needs no escaping in a link or a selector, and two names never share one.
 */
export const idOf = (...parts: readonly string[]): string =>
  parts
    .map((one) => one.replace(/[^A-Za-z0-9._-]/gu, (letter) => `~${letter.codePointAt(0)!.toString(16)}~`))
    .join("/");
/** The attribute of an element that a link may lead to. */
export const withId = (...parts: readonly string[]): string => ` id="${idOf(...parts)}"`;
/** The attribute of a link to a place on the page. */
export const toId = (...parts: readonly string[]): string => ` href="#${idOf(...parts)}"`;

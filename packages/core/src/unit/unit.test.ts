import { expect, test } from "vitest";
import { guidesToNip, leadsToNip, rowLetters, type Unit } from "./unit.ts";
import { builtForLetters } from "./unit-fields.ts";

type Film = Unit["film"];
const guide = (name: string) => ({ name }) as NonNullable<Film["guides"]>[number];
const withFilm = (film: { opens?: string; guides?: readonly string[] }): Unit =>
  ({
    film: { opens: film.opens ?? "whole width", ...(film.guides ? { guides: film.guides.map(guide) } : {}) },
  }) as unknown as Unit;

test("the guides to the nip end with the nip; what stands behind it leads the film away", () => {
  expect(guidesToNip(withFilm({ guides: ["edge", "shoulder", "nip", "chute"] }))?.map((g) => g.name)).toEqual([
    "edge",
    "shoulder",
    "nip",
  ]);
  expect(guidesToNip(withFilm({ guides: ["nip"] }))?.map((g) => g.name)).toEqual(["nip"]);
});
test.each([[{}], [{ guides: [] }], [{ guides: ["edge", "shoulder"] }]])("a film with %j is led to no nip", (film) => {
  expect(guidesToNip(withFilm(film))).toBeUndefined();
  expect(leadsToNip(withFilm(film))).toBe(false);
});
test("a film leads to a nip only where it is peeled whole", () => {
  expect(leadsToNip(withFilm({ guides: ["nip"] }))).toBe(true);
  for (const opens of ["one seal", "middle cut", "one side"])
    expect(leadsToNip(withFilm({ opens, guides: ["nip"] }))).toBe(false);
});
test("no letter is both the catalogue's and the pocket's", () => {
  expect(rowLetters.filter((letter) => Object.hasOwn(builtForLetters, letter))).toEqual([]);
});

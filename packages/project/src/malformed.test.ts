import { assumptionNames } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { changed, said, texts } from "./curlew.fixture.ts";

// A whole small project with one fragment changed, and all that is said of it: nothing more, so that no fault is said twice.
const [unitFile, tapeFile, projectFile, knownFile] = [
  "units/curlew.yaml",
  "tapes/coil.yaml",
  "project.yaml",
  "known.yaml",
] as const;
const written = (file: string, text: string): ReadonlyMap<string, string> => new Map([...texts, [file, text]]);
const refused = (what: string, files: ReadonlyMap<string, string>, message: string): void => {
  test(`refuses ${what}`, () => {
    expect(said(files)).toBe(message.slice(1));
  });
};

test("a project in which nothing is wrong is read without a word", () => {
  expect(said(texts)).toBe("");
});

describe("the reader of unit files, as to members,", () => {
  refused(
    "a misspelt member",
    changed(unitFile, ["preload: 6.0", "prelaod: 6.0"]),
    `
units/curlew.yaml:34:3: found "prelaod", expected a member of the pair of rollers that pulls the film
34 |   prelaod: 6.0 ±1.0 N
       ^^^^^^^
Did you mean "preload"?`,
  );
  refused(
    "a misspelt member that must be there",
    changed(unitFile, ["rests on:", "rest on:"]),
    `
units/curlew.yaml:13:3: found "rest on", expected a member of how the tape runs through the unit
13 |   rest on: underside
       ^^^^^^^
Did you mean "rests on"?`,
  );
  refused(
    "a member that nobody knows",
    changed(unitFile, ["  overspeed: 1.25", "  colour: red"]),
    `
units/curlew.yaml:35:3: found "colour", expected a member of the pair of rollers that pulls the film
35 |   colour: red
       ^^^^^^
Known here: rollers, axis, preload, friction, interference, spring, slip, gears, overspeed, lifts, relief, stripper.`,
  );
  refused(
    "a member that is missing",
    changed(unitFile, ["  rests on: underside\n", ""]),
    `
units/curlew.yaml:13:3: found no "rests on", expected "rests on" in how the tape runs through the unit
13 |   route:
       ^^^^^^
Add "rests on: underside".`,
  );
  refused(
    "a group that is missing",
    changed(unitFile, [
      "film:\n  opens: whole width\n  peel: {at: peel, edge radius: 1.0 ±0.1 mm}\n  guides:\n    - {name: edge, through: [peel - 7 mm, E1 + F, 3 mm], along: [0, 1, 0], radius: 1.5 mm}\n    - {name: nip, through: [peel - 30 mm, E1 + F, 12 mm], along: [0, 1, 0], radius: 5 mm}\n  friction: 0.18..0.35 guess\n",
      "",
    ]),
    `
units/curlew.yaml:1:1: found no "film", expected "film" in a unit: one feeder design, a family over the tape's width
1 | format: 1
    ^^^^^^^^^
Add "film: ...".`,
  );
  refused(
    "a name that every object has",
    changed(unitFile, ["  overspeed: 1.25", "  constructor: 1.25"]),
    `
units/curlew.yaml:35:3: found "constructor", expected a member of the pair of rollers that pulls the film
35 |   constructor: 1.25
       ^^^^^^^^^^^
Known here: rollers, axis, preload, friction, interference, spring, slip, gears, overspeed, lifts, relief, stripper.`,
  );
  refused(
    "a prototype",
    changed(unitFile, ["  overspeed: 1.25", "  __proto__: {overspeed: 1.25}"]),
    `
units/curlew.yaml:35:3: found "__proto__", expected a member of the pair of rollers that pulls the film
35 |   __proto__: {overspeed: 1.25}
       ^^^^^^^^^
Known here: rollers, axis, preload, friction, interference, spring, slip, gears, overspeed, lifts, relief, stripper.`,
  );
  refused(
    "a list where a quantity stands",
    changed(unitFile, ["overspeed: 1.25", "overspeed: [1.25]"]),
    `
units/curlew.yaml:35:14: found a list, expected a quantity: surface speed of the rollers over the mean speed of the tape
35 |   overspeed: [1.25]
                  ^^^^^^
For example 1.25.`,
  );
  refused(
    "a group where a quantity stands",
    changed(unitFile, ["overspeed: 1.25", "overspeed: {at: 1.25}"]),
    `
units/curlew.yaml:35:14: found a group of members, expected a quantity: surface speed of the rollers over the mean speed of the tape
35 |   overspeed: {at: 1.25}
                  ^^^^^^^^^^
For example 1.25.`,
  );
  refused(
    "a quantity where a group stands",
    changed(unitFile, ["{module: 0.5 mm, teeth: [20, 24], backlash: 0.08..0.20 mm}", "24"]),
    `
units/curlew.yaml:36:10: found "24", expected members with values: gears that join two shafts
36 |   gears: 24
              ^^
It holds module, teeth, pressure angle, shifts, backlash, centre.`,
  );
  refused(
    "a quantity where a list stands",
    changed(unitFile, ["teeth: [20, 24]", "teeth: 20"]),
    `
units/curlew.yaml:36:34: found "20", expected a list: teeth of the two gears
36 |   gears: {module: 0.5 mm, teeth: 20, backlash: 0.08..0.20 mm}
                                      ^^
Write a list as [a, b] or one item a line, each after a dash.`,
  );
  refused(
    "a list where a group stands",
    changed(unitFile, ["{near: 2.6 mm, far: 0.7 mm}", "[2.6 mm, 0.7 mm]"]),
    `
units/curlew.yaml:23:12: found a list, expected members with values: what carries the tape beside the groove
23 |     ledge: [2.6 mm, 0.7 mm]
                ^^^^^^^^^^^^^^^^
It holds near, far.`,
  );
  refused(
    "a list that is too short",
    changed(unitFile, ["[peel - 7 mm, E1 + F, 3 mm]", "[peel - 7 mm, E1 + F]"]),
    `
units/curlew.yaml:30:29: found 2 values, expected a list of 3: a point of the line
30 |     - {name: edge, through: [peel - 7 mm, E1 + F], along: [0, 1, 0], radius: 1.5 mm}
                                 ^^^^^^^^^^^^^^^^^^^^^`,
  );
  refused(
    "a quantity where three stand",
    changed(unitFile, ["[peel - 7 mm, E1 + F, 3 mm]", "3 mm"]),
    `
units/curlew.yaml:30:29: found "3 mm", expected a list of 3: a point of the line
30 |     - {name: edge, through: 3 mm, along: [0, 1, 0], radius: 1.5 mm}
                                 ^^^^`,
  );
  refused(
    "a word that is none of those it may be",
    changed(unitFile, ["opens: whole width", "opens: whole"]),
    `
units/curlew.yaml:27:10: found "whole", expected one of whole width, one seal, middle cut, one side
27 |   opens: whole
              ^^^^^`,
  );
  refused(
    "a list where a word stands",
    changed(unitFile, ["opens: whole width", "opens: [whole width]"]),
    `
units/curlew.yaml:27:10: found a list, expected a word: how the film is opened
27 |   opens: [whole width]
              ^^^^^^^^^^^^^`,
  );
  refused(
    "another version of the notation",
    changed(unitFile, ["format: 1\n", "format: 2\n"]),
    `
units/curlew.yaml:1:9: found "2", expected "1": version of this notation
1 | format: 2
            ^`,
  );
  refused(
    "two guides of one name",
    changed(unitFile, ["{name: nip,", "{name: edge,"]),
    `
units/curlew.yaml:31:14: found the name "edge" a second time, expected each name once in a list
31 |     - {name: edge, through: [peel - 30 mm, E1 + F, 12 mm], along: [0, 1, 0], radius: 5 mm}
                  ^^^^`,
  );
  refused(
    "none for a member that must be there",
    changed(unitFile, ["  section:", "  section: none\n  cross section:"]),
    `
units/curlew.yaml:21:12: found "none", expected members with values: the channel across the tape
21 |   section: none
                ^^^^
It holds width, guided length, ledge, groove, lips.

units/curlew.yaml:22:3: found "cross section", expected a member of how the tape runs through the unit
22 |   cross section:
       ^^^^^^^^^^^^^
Known here: rests on, route, place, section, opening, exit.`,
  );
});

describe("the reader of unit files, as to widths and pockets,", () => {
  refused(
    "a kind of tape nobody makes",
    changed(unitFile, ["[embossed]", "[embosed]"]),
    `
units/curlew.yaml:3:17: found "embosed", expected one of embossed, punched, pressed
3 | serves: {kind: [embosed], W: [8, 12]}
                    ^^^^^^^
Did you mean "embossed"?`,
  );
  refused(
    "a width that is not in the catalogue",
    changed(unitFile, ["W: [8, 12]", "W: [8, 12, 13]"]),
    `
units/curlew.yaml:3:39: found "13", expected a width of the catalogue: 4, 8, 12, 16, 24, 32, 44, 56, 72, 88, 104, 120, 136, 152, 168, 184, 200
3 | serves: {kind: [embossed], W: [8, 12, 13]}
                                          ^^`,
  );
  refused(
    "a width with a unit",
    changed(unitFile, ["W: [8, 12]", "W: [8 mm, 12]"]),
    `
units/curlew.yaml:3:32: found "8 mm", expected a width of the catalogue: 4, 8, 12, 16, 24, 32, 44, 56, 72, 88, 104, 120, 136, 152, 168, 184, 200
3 | serves: {kind: [embossed], W: [8 mm, 12]}
                                   ^^^^
Widths are the standard's names, without a unit: 8.`,
  );
  refused(
    "a width that is given twice",
    changed(unitFile, ["W: [8, 12]", "W: [8, 12, 8]"]),
    `
units/curlew.yaml:3:39: found the width 8 a second time, expected each width once
3 | serves: {kind: [embossed], W: [8, 12, 8]}
                                          ^`,
  );
  refused(
    "a width written with a nought before it",
    changed(unitFile, ["W: [8, 12]", "W: [08, 12]"]),
    `
units/curlew.yaml:3:32: found "08", expected a width of the catalogue: 4, 8, 12, 16, 24, 32, 44, 56, 72, 88, 104, 120, 136, 152, 168, 184, 200
3 | serves: {kind: [embossed], W: [08, 12]}
                                   ^^`,
  );
  refused(
    "no width at all",
    changed(unitFile, ["W: [8, 12]", "W: []"]),
    `
units/curlew.yaml:3:28: found no width, expected at least one width
3 | serves: {kind: [embossed], W: []}
                               ^
Widths of the catalogue: 4, 8, 12, 16, 24, 32, 44, 56, 72, 88, 104, 120, 136, 152, 168, 184, 200.`,
  );
  refused(
    "one width that is no list",
    changed(unitFile, ["W: [8, 12]", "W: 8"]),
    `
units/curlew.yaml:3:31: found "8", expected a list: widths it is made in
3 | serves: {kind: [embossed], W: 8}
                                  ^
Write a list as [a, b] or one item a line, each after a dash.`,
  );
  refused(
    "no word on what it serves",
    changed(unitFile, ["serves: {kind: [embossed], W: [8, 12]}\n", ""]),
    `
units/curlew.yaml:1:1: found no "serves", expected "serves" in a unit: one feeder design, a family over the tape's width
1 | format: 1
    ^^^^^^^^^
Add "serves: ...".`,
  );
  refused(
    "a width without its pocket, once for all letters",
    changed(unitFile, ["  12: coil\n", ""]),
    `
units/curlew.yaml:4:1: found no pocket for W = 12 mm, expected "built for" to give K0 T at each width
4 | built for:
    ^^^^^^^^^
Write a tape's name, "12: NAME", or its letters, "12: {K0: 1 mm, T: 1 mm}".`,
  );
  refused(
    "letters without any pocket",
    changed(unitFile, [
      "built for:\n  8: {A0: 1.9 mm, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}\n  12: coil\n",
      "",
    ]),
    `
units/curlew.yaml:3:1: found no pocket for W = 8 mm, expected "built for" to give K0 T at each width
3 | serves: {kind: [embossed], W: [8, 12]}
    ^^^^^^
Write a tape's name, "8: NAME", or its letters, "8: {K0: 1 mm, T: 1 mm}".`,
  );
  refused(
    "a letter that its pocket leaves out, once for all uses",
    changed(unitFile, ["K0: 1.3 mm, ", ""]),
    `
units/curlew.yaml:8:9: found "K0", expected a letter of the tape, a let name or a unit
8 |   drop: K0 + 0.1 mm
            ^^
"K0" means the pocket the unit is built for: give it under "built for" for every width.`,
  );
  refused(
    "a pocket of a width it does not serve",
    changed(unitFile, ["  12: coil", "  13: coil"]),
    `
units/curlew.yaml:6:3: found the width "13", expected one of the widths it serves: 8, 12
6 |   13: coil
      ^^`,
  );
  refused(
    "a tape that is not there",
    changed(unitFile, ["12: coil", "12: coli"]),
    `
units/curlew.yaml:6:7: found "coli", expected a tape of this project, or letters with values
6 |   12: coli
          ^^^^
Did you mean "coil"?`,
  );
  refused(
    "a tape in a list that is not there",
    changed(unitFile, ["12: coil", "12: [coil, choke]"]),
    `
units/curlew.yaml:6:14: found "choke", expected a tape of this project, or letters with values
6 |   12: [coil, choke]
                 ^^^^^
Tapes here: chip, coil.`,
  );
  refused(
    "a group in a list of tapes",
    changed(unitFile, ["12: coil", "12: [coil, {A0: 1 mm}]"]),
    `
units/curlew.yaml:6:14: found a group of members, expected a tape of this project, or letters with values
6 |   12: [coil, {A0: 1 mm}]
                 ^^^^^^^^^^
Tapes here: chip, coil.`,
  );
  refused(
    "a misspelt letter of the pocket",
    changed(unitFile, ["K0: 1.3 mm,", "KO: 1.3 mm,"]),
    `
units/curlew.yaml:5:31: found "KO", expected a letter of the pocket: A0 B0 K0 P1 T T1 T2 B1 b w_t
5 |   8: {A0: 1.9 mm, B0: 2.3 mm, KO: 1.3 mm, P1: 4 mm, T: 0.25 mm}
                                  ^^
Did you mean "K0"?`,
  );
  refused(
    "a letter that is the catalogue's",
    changed(unitFile, ["A0: 1.9 mm,", "A0: 1.9 mm, F: 3.5 mm,"]),
    `
units/curlew.yaml:5:19: found "F", expected a letter of the pocket: A0 B0 K0 P1 T T1 T2 B1 b w_t
5 |   8: {A0: 1.9 mm, F: 3.5 mm, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}
                      ^
"F" is the catalogue's for this width.`,
  );
  refused(
    "a letter of the pocket without a unit",
    changed(unitFile, ["A0: 1.9 mm,", "A0: 1.9,"]),
    `
units/curlew.yaml:5:11: found 1.9 without a unit, expected a length
5 |   8: {A0: 1.9, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}
              ^^^
Write "1.9 mm".`,
  );
  refused(
    "a pocket for no width",
    changed(unitFile, [
      "built for:\n  8: {A0: 1.9 mm, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}\n  12: coil\n",
      "built for: coil\n",
    ]),
    `
units/curlew.yaml:4:12: found no widths, expected widths, each with the pocket it is cut to
4 | built for: coil
               ^^^^
For example "24: {A0: 10.9 mm, B0: 16.0 mm, K0: 3.2 mm, P1: 12 mm, T: 0.35 mm}".`,
  );
  refused(
    "a pocket too long for any tape",
    changed(unitFile, ["A0: 1.9 mm,", "A0: 1900 mm,"]),
    `
units/curlew.yaml:5:11: found 1900 mm, expected at most 200 mm: pocket length along the travel
5 |   8: {A0: 1900 mm, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}
              ^^^^^^^`,
  );
});

describe("the reader of unit files, as to names,", () => {
  refused(
    "a name that is the catalogue's letter",
    changed(unitFile, ["  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  W: 12 mm\n"]),
    `
units/curlew.yaml:10:3: found the name "W", expected a name that is not taken
10 |   W: 12 mm
       ^
Letters of the tape keep their meaning; choose another name.`,
  );
  refused(
    "a name that is the pocket's letter",
    changed(unitFile, ["  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  T1: 60 um\n"]),
    `
units/curlew.yaml:10:3: found the name "T1", expected a name that is not taken
10 |   T1: 60 um
       ^^
Letters of the tape keep their meaning; choose another name.`,
  );
  refused(
    "a name that is a word of the notation",
    changed(unitFile, ["  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  max: 60 um\n"]),
    `
units/curlew.yaml:10:3: found the name "max", expected a name of letters, digits and _
10 |   max: 60 um
       ^^^
"max" is a word of the notation; choose another name.`,
  );
  refused(
    "a name of two words",
    changed(unitFile, ["  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  the gap: 60 um\n"]),
    `
units/curlew.yaml:10:3: found the name "the gap", expected a name of letters, digits and _
10 |   the gap: 60 um
       ^^^^^^^
It begins with a letter.`,
  );
  refused(
    "a name that is a prototype",
    changed(unitFile, ["  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  __proto__: 60 um\n"]),
    `
units/curlew.yaml:10:3: found the name "__proto__", expected a name of letters, digits and _
10 |   __proto__: 60 um
       ^^^^^^^^^
It begins with a letter.`,
  );
  refused(
    "a name that is given further down",
    changed(unitFile, ["  drop: K0 + 0.1 mm", "  drop: K0 + gap"]),
    `
units/curlew.yaml:8:14: found "gap", expected a letter of the tape, a let name or a unit
8 |   drop: K0 + gap
                 ^^^
"gap" is given further down; a name may use those above it.`,
  );
  refused(
    "a name that is a mark",
    changed(unitFile, ["  drop: K0 + 0.1 mm", "  drop: peel + 0.1 mm"]),
    `
units/curlew.yaml:8:9: found "peel", expected a letter of the tape, a let name or a unit
8 |   drop: peel + 0.1 mm
            ^^^^
"peel" is a mark: the route and "let" come before the marks and cannot use them.`,
  );
  refused(
    "a name with a wrong text, once for all uses",
    changed(unitFile, ["  drop: K0 + 0.1 mm", "  drop: K0 + 0.1"]),
    `
units/curlew.yaml:8:9: found a length plus a plain number, expected things of one kind
8 |   drop: K0 + 0.1
            ^^^^^^^^
Give 0.1 a unit: "0.1 mm".`,
  );
  refused(
    "a name with two values",
    changed(unitFile, ["  drop: K0 + 0.1 mm", "  drop: [1 mm, 2 mm]"]),
    `
units/curlew.yaml:8:9: found several values, expected one quantity
8 |   drop: [1 mm, 2 mm]
            ^^^^^^^^^^^^`,
  );
  refused(
    "names that are one value, once for all uses",
    changed(unitFile, ["let:\n  drop: K0 + 0.1 mm\n  gap: 0.60 ±0.15 mm\n", "let: 4 mm\n"]),
    `
units/curlew.yaml:7:6: found no names, expected names with values
7 | let: 4 mm
         ^^^^
For example "gap: 0.60 ±0.15 mm".`,
  );
  refused(
    "a misspelt name",
    changed(unitFile, ["drop + gap,", "drop + gpa,"]),
    `
units/curlew.yaml:24:28: found "gpa", expected a letter of the tape, a let name or a unit
24 |     groove: {depth: drop + gpa, margin: 0.75 mm}
                                ^^^
Did you mean "gap"?`,
  );
  refused(
    "a letter nobody has",
    changed(unitFile, ["drop + gap,", "drop + X9,"]),
    `
units/curlew.yaml:24:28: found "X9", expected a letter of the tape, a let name or a unit
24 |     groove: {depth: drop + X9, margin: 0.75 mm}
                                ^^
Known here: W E1 F D0 P0 P2 R A0 B0 K0 P1 T T1 b T2 B1 pi drop gap peel pick.`,
  );
  refused(
    "a letter that the catalogue has not for that width",
    changed(unitFile, ["actual W", "S0"]),
    `
units/curlew.yaml:38:76: found "S0", expected a letter of the tape, a let name or a unit
38 |   - {name: "board: left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, S0]}
                                                                                ^^
The catalogue has no "S0" for W = 8 mm.`,
  );
  refused(
    "the tape's own letter of a name that is no letter",
    changed(unitFile, ["actual W", "actual gap"]),
    `
units/curlew.yaml:38:76: found "actual gap", expected a letter of the tape, a let name or a unit
38 |   - {name: "board: left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual gap]}
                                                                                ^^^^^^^^^^
After "actual" stands a letter of the tape: W A0 B0 K0 P1 T T1 T2 B1 E1 F D0 P0 P2.`,
  );
  refused(
    "the tape's own letter where it has none",
    changed(unitFile, ["actual W", "actual R"]),
    `
units/curlew.yaml:38:76: found "actual R", expected a letter of the tape, a let name or a unit
38 |   - {name: "board: left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual R]}
                                                                                ^^^^^^^^
After "actual" stands a letter of the tape: W A0 B0 K0 P1 T T1 T2 B1 E1 F D0 P0 P2.`,
  );
  refused(
    "the tape's own letter in a pocket",
    changed(unitFile, ["A0: 1.9 mm,", "A0: actual A0,"]),
    `
units/curlew.yaml:5:11: found "actual A0", expected a letter of the tape, a let name or a unit
5 |   8: {A0: actual A0, B0: 2.3 mm, K0: 1.3 mm, P1: 4 mm, T: 0.25 mm}
              ^^^^^^^^^
"actual" follows the tape on the reel: only "let" and the members of a unit file may.`,
  );
});

describe("the reader of unit files, as to what one width has instead,", () => {
  refused(
    "a misspelt path",
    changed(unitFile, ["nip.preload: 7", "nip.prelaod: 7"]),
    `
units/curlew.yaml:11:8: found "nip.prelaod", expected the path of a number in this file
11 |   12: {nip.prelaod: 7 ±1 N}
            ^^^^^^^^^^^
Did you mean "nip.preload"?`,
  );
  refused(
    "a path that is like no other",
    changed(unitFile, ["nip.preload: 7", "roller: 7"]),
    `
units/curlew.yaml:11:8: found "roller", expected the path of a number in this file
11 |   12: {roller: 7 ±1 N}
            ^^^^^^
For example "nip.preload"; list items go by their name: "film.guides.shoulder.radius".`,
  );
  refused(
    "a path to a member of nothing",
    changed(unitFile, ["nip.preload: 7 ±1 N", "hold-down.preload: 7 ±1 N"]),
    `
units/curlew.yaml:11:8: found "hold-down.preload", expected the path of a number in this file
11 |   12: {hold-down.preload: 7 ±1 N}
            ^^^^^^^^^^^^^^^^^
For example "nip.preload"; list items go by their name: "film.guides.shoulder.radius".`,
  );
  refused(
    "a width it does not serve",
    changed(unitFile, ["  12: {nip.preload", "  16: {nip.preload"]),
    `
units/curlew.yaml:11:3: found the width "16", expected one of the widths it serves: 8, 12
11 |   16: {nip.preload: 7 ±1 N}
       ^^`,
  );
  refused(
    "a value without a path",
    changed(unitFile, ["12: {nip.preload: 7 ±1 N}", "12: 7 N"]),
    `
units/curlew.yaml:11:7: found no paths, expected paths into this file, each with its value
11 |   12: 7 N
           ^^^
For example "{nip.preload: 7 ±1 N}".`,
  );
  refused(
    "paths without a width",
    changed(unitFile, ["per width:\n  12: {nip.preload: 7 ±1 N}", "per width: [12]"]),
    `
units/curlew.yaml:10:12: found no widths, expected widths, each with the paths it changes
10 | per width: [12]
                ^^^^
For example "24: {nip.preload: 7 ±1 N}".`,
  );
  refused(
    "a value in the wrong unit",
    changed(unitFile, ["nip.preload: 7 ±1 N", "nip.preload: 7 mm"]),
    `
units/curlew.yaml:11:21: found a length, expected a force
11 |   12: {nip.preload: 7 mm}
                         ^^^^`,
  );
  refused(
    "a list instead of a quantity",
    changed(unitFile, ["nip.preload: 7 ±1 N", "nip.preload: [7 N]"]),
    `
units/curlew.yaml:11:21: found a list, expected a quantity: force between the rollers
11 |   12: {nip.preload: [7 N]}
                         ^^^^^
For example 6.0 ±1.0 N.`,
  );
  refused(
    "a value out of bounds at that width alone",
    changed(unitFile, ["nip.preload: 7 ±1 N", "nip.preload: 7 kN"]),
    `
units/curlew.yaml:11:21: found 7 kN, expected at most 500 N: force between the rollers
11 |   12: {nip.preload: 7 kN}
                         ^^^^`,
  );
});

describe("the reader of unit files, as to the route,", () => {
  refused(
    "a mark that is given twice",
    changed(unitFile, ["    - mark: peel\n", "    - mark: peel\n    - mark: peel\n"]),
    `
units/curlew.yaml:17:13: found the mark "peel" a second time, expected each mark once
17 |     - mark: peel
                 ^^^^`,
  );
  refused(
    "a mark that is a name",
    changed(unitFile, ["    - mark: peel\n", "    - mark: peel\n    - mark: gap\n"]),
    `
units/curlew.yaml:17:13: found the mark "gap", expected a name that is not taken, of letters, digits and _
17 |     - mark: gap
                 ^^^`,
  );
  refused(
    "a mark that begins with a digit",
    changed(unitFile, ["    - mark: peel\n", "    - mark: peel\n    - mark: 2nd\n"]),
    `
units/curlew.yaml:17:13: found the mark "2nd", expected a name that is not taken, of letters, digits and _
17 |     - mark: 2nd
                 ^^^`,
  );
  refused(
    "a placed mark that is not there, without a word on what lies at marks",
    changed(unitFile, ["{mark: pick,", "{mark: pik,"]),
    `
units/curlew.yaml:20:17: found the mark "pik", expected a mark of the route
20 |   place: {mark: pik, x: 0 mm, z: 0 mm, heading: 0 deg}
                     ^^^
Did you mean "pick"?`,
  );
  refused(
    "a piece that is two",
    changed(unitFile, ["- line: 90 mm", "- {line: 90 mm, mark: entry}"]),
    `
units/curlew.yaml:15:7: found line and mark, expected one of line, arc, mark: one piece of the route, in the order of travel
15 |     - {line: 90 mm, mark: entry}
           ^^^^^^^^^^^^^^^^^^^^^^^^^^`,
  );
  refused(
    "a piece that is nothing",
    changed(unitFile, ["- line: 90 mm", "- {}"]),
    `
units/curlew.yaml:15:7: found none, expected one of line, arc, mark: one piece of the route, in the order of travel
15 |     - {}
           ^^`,
  );
  refused(
    "a piece that is something else",
    changed(unitFile, ["- line: 90 mm", "- bend: 90 mm"]),
    `
units/curlew.yaml:15:7: found "bend", expected a member of one piece of the route, in the order of travel
15 |     - bend: 90 mm
           ^^^^
Known here: line, arc, mark.`,
  );
  refused(
    "an item that is empty",
    changed(unitFile, ["- line: 90 mm", "-"]),
    `
units/curlew.yaml:15:6: found an item without a value, expected a value
15 |     -
          ^
Leave it out.`,
  );
  refused(
    "a mark in its own route",
    changed(unitFile, ["- line: 90 mm", "- line: peel + 90 mm"]),
    `
units/curlew.yaml:15:13: found "peel", expected a letter of the tape, a let name or a unit
15 |     - line: peel + 90 mm
                 ^^^^
"peel" is a mark: the route and "let" come before the marks and cannot use them.`,
  );
  refused(
    "a bend without end",
    changed(unitFile, ["radius: R + 5 mm", "radius: R/(1 - 1.9 mm/A0) + 5 mm"]),
    `
units/curlew.yaml:19:21: found a value that is not finite at W = 8 mm, expected a finite number
19 |     - arc: {radius: R/(1 - 1.9 mm/A0) + 5 mm, turn: -20 deg}
                         ^^^^^^^^^^^^^^^^^^^^^^^^
It is made of R = 25 mm, A0 = 1.9 mm.`,
  );
  refused(
    "a bend of no number",
    changed(unitFile, ["radius: R + 5 mm", "radius: R*sqrt(1 - A0/1 mm)"]),
    `
units/curlew.yaml:19:21: found a value that is not finite at W = 8 mm, expected a finite number
19 |     - arc: {radius: R*sqrt(1 - A0/1 mm), turn: -20 deg}
                         ^^^^^^^^^^^^^^^^^^^
It is made of R = 25 mm, A0 = 1.9 mm.`,
  );
  refused(
    "a length of more than 2 m",
    changed(unitFile, ["- line: 90 mm", "- line: 1995 mm"]),
    `
units/curlew.yaml:17:13: found a route of more than 2 m at W = 8 mm, expected a route of at most 2 m
17 |     - line: 9.0 ±0.2 mm
                 ^^^^^^^^^^^`,
  );
  refused(
    "a turn without a unit",
    changed(unitFile, ["turn: -20 deg", "turn: -20"]),
    `
units/curlew.yaml:19:37: found -20 without a unit, expected an angle
19 |     - arc: {radius: R + 5 mm, turn: -20}
                                         ^^^
Write "-20 deg".`,
  );
  refused(
    "a heading of nought without a unit",
    changed(unitFile, ["heading: 0 deg", "heading: 0"]),
    `
units/curlew.yaml:20:50: found 0 without a unit, expected an angle
20 |   place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0}
                                                      ^
Write "0 deg".`,
  );
});

describe("the reader of unit files, as to quantities,", () => {
  refused(
    "a length without a unit",
    changed(unitFile, ["line: 90 mm", "line: 90"]),
    `
units/curlew.yaml:15:13: found 90 without a unit, expected a length
15 |     - line: 90
                 ^^
Write "90 mm", or "W + 0.2 mm" to follow the tape.`,
  );
  refused(
    "a width without a unit",
    changed(unitFile, ["W + 0.45 ±0.10 mm", "24.2"]),
    `
units/curlew.yaml:22:12: found 24.2 without a unit, expected a length
22 |     width: 24.2 # both sides together
                ^^^^
Write "24.2 mm", or "W + 0.2 mm" to follow the tape.`,
  );
  refused(
    "a letter right after a number",
    changed(unitFile, ["W + 0.45 ±0.10 mm", "1.04 W"]),
    `
units/curlew.yaml:22:17: found "W" right after a number, expected a unit
22 |     width: 1.04 W # both sides together
                     ^
A letter is multiplied with a star: "1.04 * W".`,
  );
  refused(
    "a force where a length stands",
    changed(unitFile, ["line: 90 mm", "line: 90 N"]),
    `
units/curlew.yaml:15:13: found a force, expected a length
15 |     - line: 90 N
                 ^^^^`,
  );
  refused(
    "a range without a status",
    changed(unitFile, ["0.18..0.35 guess", "0.18..0.35"]),
    `
units/curlew.yaml:32:13: found the range 0.18..0.35 without a status, expected guess or measured behind it
32 |   friction: 0.18..0.35
                 ^^^^^^^^^^
Write "0.18..0.35 guess" if nobody has measured it, or a tolerance: "0.265 ±0.085".`,
  );
  refused(
    "a range with its ends exchanged",
    changed(unitFile, ["0.18..0.35 guess", "0.35..0.18 guess"]),
    `
units/curlew.yaml:32:13: found 0.35..0.18, expected the lower end first
32 |   friction: 0.35..0.18 guess
                 ^^^^^^^^^^
Write "0.18..0.35 guess".`,
  );
  refused(
    "a set without a unit",
    changed(unitFile, ["backlash: 0.08..0.20 mm", "backlash: 0.08..0.20"]),
    `
units/curlew.yaml:36:54: found 0.08..0.20 without a unit, expected a length
36 |   gears: {module: 0.5 mm, teeth: [20, 24], backlash: 0.08..0.20}
                                                          ^^^^^^^^^^
Write "0.08..0.20 mm".`,
  );
  refused(
    "a difference that is meant as a tolerance",
    changed(unitFile, ["W + 0.45 ±0.10 mm", "12.45 -0.1 mm"]),
    `
units/curlew.yaml:22:12: found 12.45 -0.1 mm, expected a tolerance with both sides, or a difference with both units
22 |     width: 12.45 -0.1 mm # both sides together
                ^^^^^^^^^^^^^
For a one-sided tolerance write "12.45 +0/-0.1 mm"; for a difference "12.45 mm - 0.1 mm".`,
  );
  refused(
    "a tolerance that is a letter",
    changed(unitFile, ["W + 0.45 ±0.10 mm", "W + 0.45 mm ±T"]),
    `
units/curlew.yaml:22:25: found "T", expected a number
22 |     width: W + 0.45 mm ±T # both sides together
                             ^
A tolerance is a number; a letter can't be one.`,
  );
  refused(
    "two tolerances",
    changed(unitFile, ["W + 0.45 ±0.10 mm", "W + 0.45 ±0.10 ±0.20 mm"]),
    `
units/curlew.yaml:22:27: found "±", expected the end of the quantity
22 |     width: W + 0.45 ±0.10 ±0.20 mm # both sides together
                               ^
A quantity has one tolerance.`,
  );
  refused(
    "a tolerance in another unit",
    changed(unitFile, ["6.0 ±1.0 N", "6.0 N ±1.0 mm"]),
    `
units/curlew.yaml:34:18: found a tolerance of a length, expected a force
34 |   preload: 6.0 N ±1.0 mm
                      ^^^^^^^`,
  );
  refused(
    "a tolerance as a keyboard writes it",
    changed(unitFile, ["6.0 ±1.0 N", "6.0 +/-1.0 N"]),
    `
units/curlew.yaml:34:16: found "+/-", expected an operator, or "±"
34 |   preload: 6.0 +/-1.0 N
                    ^^^
A tolerance is written "4.00 ±0.10 mm" or "4.00 +0.1/-0.2 mm".`,
  );
  refused(
    "a decimal comma",
    changed(unitFile, ["overspeed: 1.25", "overspeed: 1,25"]),
    `
units/curlew.yaml:35:15: found ",", expected the end of the quantity
35 |   overspeed: 1,25
                   ^
The decimal sign is a point: 24.2. Several values make a list: [1 mm, 2 mm].`,
  );
  refused(
    "a number without end",
    changed(unitFile, ["overspeed: 1.25", "overspeed: 1e999"]),
    `
units/curlew.yaml:35:14: found "1e999", expected a finite number
35 |   overspeed: 1e999
                  ^^^^^`,
  );
  refused(
    "a unit nobody knows",
    changed(unitFile, ["edge radius: 1.0 ±0.1 mm", "edge radius: 1.0 inch"]),
    `
units/curlew.yaml:28:37: found "inch" right after a number, expected a unit
28 |   peel: {at: peel, edge radius: 1.0 inch}
                                         ^^^^
Units are mm, um, deg, N, g, s and the like. A name is multiplied with a star: "1.0 * inch".`,
  );
  refused(
    "a unit in capitals",
    changed(unitFile, ["edge radius: 1.0 ±0.1 mm", "edge radius: 1.0 MM"]),
    `
units/curlew.yaml:28:37: found "MM" right after a number, expected a unit
28 |   peel: {at: peel, edge radius: 1.0 MM}
                                         ^^
Did you mean "mm"?`,
  );
  refused(
    "a function nobody knows",
    changed(unitFile, ["W + 0.45 ±0.10 mm", "maximum(W, 12 mm)"]),
    `
units/curlew.yaml:22:12: found "maximum(...)", expected one of the functions max min hypot abs sqrt sin cos tan asin acos atan exp
22 |     width: maximum(W, 12 mm) # both sides together
                ^^^^^^^
Did you mean "max"?`,
  );
  refused(
    "a value that is too large",
    changed(unitFile, ["edge radius: 1.0 ±0.1 mm", "edge radius: 30 mm"]),
    `
units/curlew.yaml:28:33: found 30 mm, expected at most 20 mm: radius of the edge the film folds over
28 |   peel: {at: peel, edge radius: 30 mm}
                                     ^^^^^`,
  );
  refused(
    "a value that is too small",
    changed(unitFile, ["preload: 6.0", "preload: -6.0"]),
    `
units/curlew.yaml:34:12: found -6 N, expected at least 0 N: force between the rollers
34 |   preload: -6.0 ±1.0 N
                ^^^^^^^^^^^`,
  );
  refused(
    "a value that is too large where a letter is",
    changed(unitFile, ["overspeed: 1.25", "overspeed: 1.25 * W/mm"]),
    `
units/curlew.yaml:35:14: found 15 at W = 12 mm, built for coil, expected at most 10: surface speed of the rollers over the mean speed of the tape
35 |   overspeed: 1.25 * W/mm
                  ^^^^^^^^^^^
It is made of W = 12 mm.`,
  );
  refused(
    "a coordinate beyond 2 m",
    changed(unitFile, ["[-60 mm, -40", "[-3 m, -40"]),
    `
units/curlew.yaml:38:33: found -3 m, expected at most 2 m: nothing of a unit is longer
38 |   - {name: "board: left", box: [-3 m, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
                                     ^^^^`,
  );
  refused(
    "a name without end, once for all uses",
    changed(unitFile, ["  gap: 0.60 ±0.15 mm", "  gap: 0.60 mm/(W/W - 1)"]),
    `
units/curlew.yaml:9:8: found a value that is not finite at W = 8 mm, expected a finite number
9 |   gap: 0.60 mm/(W/W - 1)
           ^^^^^^^^^^^^^^^^^
It is made of W = 8 mm.`,
  );
  refused(
    "a value without end on one wanted tape",
    changed(unitFile, ["actual W", "1 mm*W/(actual W - 12.05 mm)"]),
    `
units/curlew.yaml:38:76: found a value that is not finite on the tape "coil", expected a finite number
38 |   - {name: "board: left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, 1 mm*W/(actual W - 12.05 …
                                                                                ^^^^^^^^^^^^^^^^^^^^^^^^^^
It is made of W = 12 mm, actual W = 12.05 mm.`,
  );
  refused(
    "a value beyond 2 m on one wanted tape",
    changed(unitFile, ["actual W", "1 mm*W/abs(actual W - 12.051 mm)"]),
    `
units/curlew.yaml:38:76: found 12 m on the tape "coil", expected at most 2 m: nothing of a unit is longer
38 |   - {name: "board: left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, 1 mm*W/abs(actual W - 12.…
                                                                                ^^^^^^^^^^^^^^^^^^^^^^^^^^
It is made of W = 12 mm, actual W = 12.05 mm.`,
  );
  refused(
    "brackets too deep",
    changed(unitFile, ["overspeed: 1.25", `overspeed: ${"(".repeat(70)}1${")".repeat(70)}`]),
    `
units/curlew.yaml:35:78: found "(", expected a shorter expression
35 |   overspeed: ((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((1))))))))))))))))…
                                                                                  ^
It is nested too deeply.`,
  );
  refused(
    "a text that is too long",
    changed(unitFile, ["overspeed: 1.25", `overspeed: 1${" + 0.001".repeat(60)}`]),
    `
units/curlew.yaml:35:14: found a long text, expected a quantity on one line: surface speed of the rollers over the mean speed of the tape
35 |   overspeed: 1 + 0.001 + 0.001 + 0.001 + 0.001 + 0.001 + 0.001 + 0.001 + 0.001 + 0.001 + 0.001 + 0.0…
                  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^`,
  );
  refused(
    "a quantity over two lines",
    changed(unitFile, ["6.0 ±1.0 N", "6.0\n    ±1.0 N"]),
    `
units/curlew.yaml:34:12: found a text over several lines, expected a quantity on one line: force between the rollers
34 |   preload: 6.0
                ^^^`,
  );
  refused(
    "a quantity as a block of text",
    changed(unitFile, ["6.0 ±1.0 N", "|\n    6.0 N"]),
    `
units/curlew.yaml:34:12: found a text over several lines, expected a quantity on one line: force between the rollers
34 |   preload: |
                ^`,
  );
  refused(
    "a quantity within quotes, where in the quotes it is wrong",
    changed(unitFile, ["6.0 ±1.0 N", '" 6.0 ±1.0"']),
    `
units/curlew.yaml:34:14: found 6.0 ±1.0 without a unit, expected a force
34 |   preload: " 6.0 ±1.0"
                  ^^^^^^^^
Write "6 ±1 N".`,
  );
});

describe("the reader of any file's text", () => {
  refused(
    "a key without a value",
    changed(unitFile, ["opens: whole width", "opens:"]),
    `
units/curlew.yaml:27:3: found "opens" without a value, expected a value after the colon
27 |   opens:
       ^^^^^
Leave the line out, or write "none" for a member the unit has not.`,
  );
  refused(
    "a key with an empty value",
    changed(unitFile, ["opens: whole width", 'opens: ""']),
    `
units/curlew.yaml:27:3: found "opens" without a value, expected a value after the colon
27 |   opens: ""
       ^^^^^
Leave the line out, or write "none" for a member the unit has not.`,
  );
  refused(
    "a key that is given twice",
    changed(unitFile, ["  overspeed: 1.25", "  preload: 5 N"]),
    `
units/curlew.yaml:35:3: found the key "preload" a second time, expected each key once
35 |   preload: 5 N
       ^^^^^^^
Remove one of the two.`,
  );
  refused(
    "a key that is given twice in brackets",
    changed(unitFile, ["near: 2.6 mm, far: 0.7 mm}", "near: 2.6 mm, near: 0.7 mm}"]),
    `
units/curlew.yaml:23:12: found no "far", expected "far" in what carries the tape beside the groove
23 |     ledge: {near: 2.6 mm, near: 0.7 mm}
                ^^^^^^^^^^^^^^^^^^^^^^^^^^^^
Add "far: 4.00 ±0.10 mm".

units/curlew.yaml:23:27: found the key "near" a second time, expected each key once
23 |     ledge: {near: 2.6 mm, near: 0.7 mm}
                               ^^^^
Remove one of the two.`,
  );
  refused(
    "a tab as indent",
    changed(unitFile, ["  overspeed: 1.25", "\toverspeed: 1.25"]),
    `
units/curlew.yaml:35:1: found a tab as indent, expected spaces
35 |  overspeed: 1.25
     ^
Indent with two spaces a level.`,
  );
  refused(
    "a line that is indented less than its neighbours",
    changed(unitFile, ["  overspeed: 1.25", " overspeed: 1.25"]),
    `
units/curlew.yaml:35:1: found a line indented differently from its neighbours, expected the indent of the lines it belongs to
35 |  overspeed: 1.25
     ^`,
  );
  refused(
    "a line that is indented more than its neighbours",
    changed(unitFile, ["  overspeed: 1.25", "    overspeed: 1.25"]),
    `
units/curlew.yaml:34:12: found a value that goes on in the next line, expected one "key: value" a line
34 |   preload: 6.0 ±1.0 N
                ^^^^^^^^^^
Indent the next line like this one.`,
  );
  refused(
    "a brace that is not closed",
    changed(unitFile, ["heading: 0 deg}", "heading: 0 deg"]),
    `
units/curlew.yaml:20:10: found "{" that is not closed, expected a closing "}"
20 |   place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg
              ^
A list or group over several lines is indented.`,
  );
  refused(
    "a bracket that is not closed",
    changed(unitFile, ["teeth: [20, 24]", "teeth: [20, 24"]),
    `
units/curlew.yaml:36:34: found "[" that is not closed, expected a closing "]"
36 |   gears: {module: 0.5 mm, teeth: [20, 24, backlash: 0.08..0.20 mm}
                                      ^
A list or group over several lines is indented.`,
  );
  refused(
    "a brace too many",
    changed(unitFile, ["heading: 0 deg}", "heading: 0 deg}}"]),
    `
units/curlew.yaml:20:56: found "}" that closes nothing, expected the end of the value
20 |   place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}}
                                                            ^
Remove it.`,
  );
  refused(
    "a quote that is not closed",
    changed(unitFile, ['"board: left"', '"board: left']),
    `
units/curlew.yaml:38:12: found a quote that is not closed, expected a closing "
38 |   - {name: "board: left, box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
                ^`,
  );
  refused(
    "an apostrophe that is not closed",
    changed(unitFile, ['"board: left"', "'board: left"]),
    `
units/curlew.yaml:38:12: found a quote that is not closed, expected a closing '
38 |   - {name: 'board: left, box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
                ^`,
  );
  refused(
    "a colon in a value",
    changed(unitFile, ["unit: Curlew", "unit: Curlew: left"]),
    `
units/curlew.yaml:2:7: found a colon inside a value, expected one "key: value" a line
2 | unit: Curlew: left
          ^^^^^^^^^^^^
Put a value that holds ": " in double quotes.`,
  );
  refused(
    "a colon in a value in brackets",
    changed(unitFile, ['"board: left"', "board: left"]),
    `
units/curlew.yaml:38:12: found "board: left", expected a comma between two members
38 |   - {name: board: left, box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
                ^^^^^^^^^^^
Put a value that holds ": " in double quotes.`,
  );
  refused(
    "a comma that is missing",
    changed(unitFile, ["near: 2.6 mm, far", "near: 2.6 mm far"]),
    `
units/curlew.yaml:23:19: found "2.6 mm far: 0.7 mm", expected a comma between two members
23 |     ledge: {near: 2.6 mm far: 0.7 mm}
                       ^^^^^^^^^^^^^^^^^^
Put a value that holds ": " in double quotes.`,
  );
  refused(
    "a comma too many",
    changed(unitFile, ["[20, 24]", "[20, , 24]"]),
    `
units/curlew.yaml:36:39: found ",", expected a value before the comma
36 |   gears: {module: 0.5 mm, teeth: [20, , 24], backlash: 0.08..0.20 mm}
                                           ^
Remove it.`,
  );
  refused(
    "a colon that is missing",
    changed(unitFile, ["  overspeed: 1.25", "  overspeed 1.25"]),
    `
units/curlew.yaml:35:3: found "overspeed 1.25" without a key, expected one "key: value" a line
35 |   overspeed 1.25
       ^^^^^^^^^^^^^^
A colon and a blank stand behind the key.`,
  );
  refused(
    "a blank that is missing behind a colon",
    changed(unitFile, ["overspeed: 1.25", "overspeed:1.25"]),
    `
units/curlew.yaml:35:3: found "overspeed:1.25" without a key, expected one "key: value" a line
35 |   overspeed:1.25
       ^^^^^^^^^^^^^^
A blank stands behind the colon.`,
  );
  refused(
    "an anchor",
    changed(unitFile, ["overspeed: 1.25", "overspeed: &o 1.25"]),
    `
units/curlew.yaml:35:14: found the anchor "&o", expected a value
35 |   overspeed: &o 1.25
                  ^^
Write the value out: every number has one place of its own.`,
  );
  refused(
    "a reference",
    changed(unitFile, ["overspeed: 1.25", "overspeed: *o"]),
    `
units/curlew.yaml:35:14: found the reference "*o", expected a value
35 |   overspeed: *o
                  ^^
Write the value out: every number has one place of its own.`,
  );
  refused(
    "a merged group",
    changed(unitFile, ["  overspeed: 1.25", "  <<: {overspeed: 1.25}"]),
    `
units/curlew.yaml:35:3: found "<<", expected a member of the pair of rollers that pulls the film
35 |   <<: {overspeed: 1.25}
       ^^
Known here: rollers, axis, preload, friction, interference, spring, slip, gears, overspeed, lifts, relief, stripper.`,
  );
  refused(
    "a tag",
    changed(unitFile, ["overspeed: 1.25", "overspeed: !!float 1.25"]),
    `
units/curlew.yaml:35:14: found the tag "!!float", expected a value
35 |   overspeed: !!float 1.25
                  ^^^^^^^
Leave it out: what a value is follows from where it stands.`,
  );
  refused(
    "a tag of one's own",
    changed(unitFile, ["preload: 6.0 ±1.0 N", "preload: !force 6.0 ±1.0 N"]),
    `
units/curlew.yaml:34:12: found the tag "!force", expected a value
34 |   preload: !force 6.0 ±1.0 N
                ^^^^^^
Leave it out: what a value is follows from where it stands.`,
  );
  refused(
    "a value that begins with a sign of YAML's",
    changed(unitFile, ["unit: Curlew", "unit: @Curlew"]),
    `
units/curlew.yaml:2:7: found "@Curlew", expected a value
2 | unit: @Curlew
          ^^^^^^^
A text that begins with @ needs double quotes.`,
  );
  refused(
    "a second document",
    changed(unitFile, ["\nlet:", "\n---\nlet:"]),
    `
units/curlew.yaml:7:1: found a second document, expected one document a file
7 | ---
    ^^^
Remove the line "---".`,
  );
  refused(
    "a control character",
    changed(unitFile, ["overspeed: 1.25", "overspeed: 1.\u000725"]),
    `
units/curlew.yaml:35:16: found the control character U+0007, expected plain text
35 |   overspeed: 1.�25
                    ^
Save the file as UTF-8 text.`,
  );
  refused(
    "a backslash that means nothing",
    changed(unitFile, ['"board: left"', '"board\\left"']),
    `
units/curlew.yaml:38:18: found "\\left"" in double quotes, expected plain text
38 |   - {name: "board\\left", box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
                      ^^^^^^
A backslash within double quotes is written twice.`,
  );
  refused(
    "something behind a quote",
    changed(unitFile, ['"board: left"', '"board" left']),
    `
units/curlew.yaml:38:20: found "left" behind a value, expected the end of the value
38 |   - {name: "board" left, box: [-60 mm, -40 mm, -20 mm, -12 mm], y: [0 mm, actual W]}
                        ^^^^
Put a value that holds quotes or brackets in double quotes.`,
  );
  refused(
    "a key that is a list",
    changed(unitFile, ["  overspeed: 1.25", "  ? [overspeed]\n  : 1.25"]),
    `
units/curlew.yaml:35:5: found a key that is no word, expected a word and a colon
35 |   ? [overspeed]
         ^^^^^^^^^^^`,
  );
  refused(
    "values nested too deeply",
    changed(unitFile, ["overspeed: 1.25", `overspeed: ${"[".repeat(3000)}`]),
    `
units/curlew.yaml:35:54: found values nested very deeply, expected at most 40 levels
35 |   overspeed: [[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[…
                                                          ^`,
  );
  refused(
    "a list where the members stand",
    written(unitFile, "- 1\n"),
    `
units/curlew.yaml:1:1: found no members, expected a unit: name, tape, film and the rest
1 | - 1
    ^^^`,
  );
  refused(
    "a word where the members stand",
    written(unitFile, "hello\n"),
    `
units/curlew.yaml:1:1: found no members, expected a unit: name, tape, film and the rest
1 | hello
    ^^^^^`,
  );
  refused(
    "nothing",
    written(unitFile, ""),
    `
units/curlew.yaml:1:1: found an empty file, expected a design file that begins with "format: 1"
1 |
    ^`,
  );
  refused(
    "nothing but a comment",
    written(unitFile, "# later\n"),
    `
units/curlew.yaml:1:1: found an empty file, expected a design file that begins with "format: 1"
1 | # later
    ^`,
  );
  refused(
    "more than a person reads",
    written(unitFile, "#".repeat(200_001)),
    `
units/curlew.yaml:1:1: found 200001 characters, expected at most 200000
1 | ####################################################################################################…
    ^
A design file is text a person reads; split it.`,
  );
});

describe("the reader of tape files", () => {
  refused(
    "a length without a unit",
    changed(tapeFile, ["A0: 4.3 mm", "A0: 4.3"]),
    `
tapes/coil.yaml:4:5: found 4.3 without a unit, expected a length
4 | A0: 4.3
        ^^^
Write "4.3 mm".`,
  );
  refused(
    "a letter that is missing",
    changed(tapeFile, ["P1: 8 mm\n", ""]),
    `
tapes/coil.yaml:1:1: found no "P1", expected "P1" in a carrier tape with its cover film
1 | format: 1
    ^^^^^^^^^
Add "P1: 8 mm".`,
  );
  refused(
    "a letter that is misspelt",
    changed(tapeFile, ["P1: 8 mm", "Pl: 8 mm"]),
    `
tapes/coil.yaml:7:1: found "Pl", expected a member of a carrier tape with its cover film
7 | Pl: 8 mm
    ^^
Did you mean "P1"?`,
  );
  refused(
    "a letter that is given further down",
    changed(tapeFile, ["A0: 4.3 mm", "A0: K0 + 1 mm"]),
    `
tapes/coil.yaml:4:5: found "K0", expected a letter given above or a unit
4 | A0: K0 + 1 mm
        ^^
"K0" is given further down; a letter may use those above it.`,
  );
  refused(
    "a letter nobody has",
    changed(tapeFile, ["T2: K0 + 0.36 mm", "T2: K1 + 0.36 mm"]),
    `
tapes/coil.yaml:9:5: found "K1", expected a letter given above or a unit
9 | T2: K1 + 0.36 mm
        ^^
Did you mean "K0"?`,
  );
  refused(
    "a letter before any is given",
    changed(tapeFile, ["W: 12.05 ±0.06 mm measured", "W: b + 1 mm"]),
    `
tapes/coil.yaml:3:4: found "b", expected a letter given above or a unit
3 | W: b + 1 mm
       ^
No letter is known here.`,
  );
  refused(
    "a letter of the tape on the reel, which it is itself",
    changed(tapeFile, ["T2: K0 + 0.36 mm", "T2: actual K0"]),
    `
tapes/coil.yaml:9:5: found "actual K0", expected a letter given above or a unit
9 | T2: actual K0
        ^^^^^^^^^
"actual" follows the tape on the reel: only "let" and the members of a unit file may.`,
  );
  refused(
    "a carrier that is too thick",
    changed(tapeFile, ["T: 0.30 mm", "T: 3 mm"]),
    `
tapes/coil.yaml:8:4: found 3 mm, expected at most 2 mm: thickness of the carrier
8 | T: 3 mm
       ^^^^`,
  );
  refused(
    "a letter that is too large, once for what follows from it",
    changed(tapeFile, ["K0: 2.1 mm", "K0: 80 mm"]),
    `
tapes/coil.yaml:6:5: found 80 mm, expected at most 60 mm: pocket depth; for punched tape the height of the part's hole
6 | K0: 80 mm
        ^^^^^`,
  );
  refused(
    "a letter that is wrong, once for what follows from it",
    changed(tapeFile, ["K0: 2.1 mm", "K0: 2.1"]),
    `
tapes/coil.yaml:6:5: found 2.1 without a unit, expected a length
6 | K0: 2.1
        ^^^
Write "2.1 mm".`,
  );
  refused(
    "a letter that follows from others and is too large",
    changed(tapeFile, ["T2: K0 + 0.36 mm", "T2: 40*K0"]),
    `
tapes/coil.yaml:9:5: found 84 mm, expected at most 60 mm: height from under the pocket to the top of the film
9 | T2: 40*K0
        ^^^^^
It is made of K0 = 2.1 mm.`,
  );
  refused(
    "a letter without end",
    changed(tapeFile, ["T2: K0 + 0.36 mm", "T2: K0^2/(A0 - B0)"]),
    `
tapes/coil.yaml:9:5: found a value that is not finite, expected a finite number
9 | T2: K0^2/(A0 - B0)
        ^^^^^^^^^^^^^^
It is made of K0 = 2.1 mm, A0 = 4.3 mm, B0 = 4.3 mm.`,
  );
  refused(
    "a kind of seal nobody makes",
    changed(tapeFile, ["kind: heat activated", "kind: heat-activated"]),
    `
tapes/coil.yaml:11:9: found "heat-activated", expected one of heat activated, pressure sensitive
11 |   kind: heat-activated
             ^^^^^^^^^^^^^^
Did you mean "heat activated"?`,
  );
  refused(
    "a friction of nothing",
    changed(tapeFile, ["friction: {PETG: 0.24 measured}", "friction: 0.24"]),
    `
tapes/coil.yaml:13:13: found "0.24", expected names with values: friction of this film by what it rubs on: PETG, POM, NBR, steel
13 |   friction: 0.24
                 ^^^^`,
  );
  refused(
    "a scatter at no level",
    changed(tapeFile, ["per reel sd 15 %", "per roll sd 15 %"]),
    `
tapes/coil.yaml:12:20: found "roll", expected reel, unit or index
12 |   seal: 0.40 N per roll sd 15 % per index sd 8 % measured
                        ^^^^
For example "per reel sd 20 %".`,
  );
  refused(
    "a scatter without its sd",
    changed(tapeFile, ["per reel sd 15 %", "per reel 15 %"]),
    `
tapes/coil.yaml:12:25: found "15", expected "sd"
12 |   seal: 0.40 N per reel 15 % per index sd 8 % measured
                             ^^
For example "per reel sd 20 %".`,
  );
  refused(
    "a scatter of nothing",
    changed(tapeFile, ["per reel sd 15 %", "per reel sd 0 %"]),
    `
tapes/coil.yaml:12:16: found sd 0, expected a scatter above nought
12 |   seal: 0.40 N per reel sd 0 % per index sd 8 % measured
                    ^^^^^^^^^^^^^^^
Leave it out where nothing scatters.`,
  );
  refused(
    "a guess without its word",
    changed(tapeFile, ["0.24 measured", "0.2..0.3"]),
    `
tapes/coil.yaml:13:20: found the range 0.2..0.3 without a status, expected guess or measured behind it
13 |   friction: {PETG: 0.2..0.3}
                        ^^^^^^^^
Write "0.2..0.3 guess" if nobody has measured it, or a tolerance: "0.25 ±0.05".`,
  );
});

describe("the reader of project.yaml", () => {
  refused(
    "a unit that is not there",
    changed(projectFile, ["curlew: [", "curlw: ["]),
    `
project.yaml:7:3: found the unit "curlw", expected the name of a file in units/, without .yaml
7 |   curlw: [chip, coil]
      ^^^^^
Did you mean "curlew"?`,
  );
  refused(
    "a tape that is not there",
    changed(projectFile, ["[chip, coil]\nladder", "[chip, coill]\nladder"]),
    `
project.yaml:7:18: found the tape "coill", expected the name of a file in tapes/, without .yaml
7 |   curlew: [chip, coill]
                     ^^^^^
Did you mean "coil"?`,
  );
  refused(
    "a tape with the ending of its file",
    changed(projectFile, ["[chip, coil]\nladder", "[chip, coil.yaml]\nladder"]),
    `
project.yaml:7:18: found the tape "coil.yaml", expected the name of a file in tapes/, without .yaml
7 |   curlew: [chip, coil.yaml]
                     ^^^^^^^^^
Write "coil".`,
  );
  refused(
    "a tape that is wanted twice",
    changed(projectFile, ["[chip, coil]\nladder", "[chip, coil, chip]\nladder"]),
    `
project.yaml:7:24: found the tape "chip" a second time, expected each tape once
7 |   curlew: [chip, coil, chip]
                           ^^^^`,
  );
  refused(
    "a tape of the ladder that is not there",
    changed(projectFile, ["ladder: [chip, coil]", "ladder: [chip, choke]"]),
    `
project.yaml:8:16: found the tape "choke", expected the name of a file in tapes/, without .yaml
8 | ladder: [chip, choke]
                   ^^^^^
Tapes here: chip, coil.`,
  );
  refused(
    "one tape that is no list",
    changed(projectFile, ["curlew: [chip, coil]", "curlew: chip"]),
    `
project.yaml:7:11: found "chip", expected a list: tapes it should feed
7 |   curlew: chip
              ^^^^
Write a list as [a, b] or one item a line, each after a dash.`,
  );
  refused(
    "nothing wanted",
    changed(projectFile, ["wanted:\n  curlew: [chip, coil]\n", ""]),
    `
project.yaml:1:1: found no "wanted", expected "wanted" in a project
1 | format: 1
    ^^^^^^^^^
Add "wanted: ...".`,
  );
  refused(
    "a misspelt assumption",
    changed(projectFile, ["mismatch limit:", "mismach limit:"]),
    `
project.yaml:10:3: found "mismach limit", expected something that is assumed
10 |   mismach limit: 1.8..2.2 % guess
       ^^^^^^^^^^^^^
Did you mean "mismatch limit"?`,
  );
  refused(
    "an assumption nobody makes",
    changed(projectFile, ["mismatch limit:", "weather:"]),
    `
project.yaml:10:3: found "weather", expected something that is assumed
10 |   weather: 1.8..2.2 % guess
       ^^^^^^^
Assumed are: mismatch limit, film elastic limit, carrier elastic limit, running clearance, splice thickness, tooth overlap, film wander, out of square and ${assumptionNames.length - 8} more. "tapeworthy schema project" lists all.`,
  );
  refused(
    "an assumption in the wrong unit",
    changed(projectFile, ["1.8..2.2 % guess", "1.8..2.2 mm guess"]),
    `
project.yaml:10:19: found a length, expected a plain number
10 |   mismatch limit: 1.8..2.2 mm guess
                       ^^^^^^^^^^^^^^^^^`,
  );
  refused(
    "an assumption without a status",
    changed(projectFile, ["1.8..2.2 % guess", "1.8..2.2 %"]),
    `
project.yaml:10:19: found the range 1.8..2.2 % without a status, expected guess or measured behind it
10 |   mismatch limit: 1.8..2.2 %
                       ^^^^^^^^^^
Write "1.8..2.2 % guess" if nobody has measured it, or a tolerance: "2 ±0.2 %".`,
  );
  refused(
    "assumptions that are one value",
    changed(projectFile, ["assume:\n  mismatch limit: 1.8..2.2 % guess", "assume: 2 %"]),
    `
project.yaml:9:9: found no names, expected names with values: mismatch limit, film elastic limit, carrier elastic limit, running clearance, splice thickness, tooth overlap, film wander, out of square and ${assumptionNames.length - 8} more
9 | assume: 2 %
            ^^^`,
  );
  refused(
    "a share without its percent sign",
    changed(projectFile, ["allow pairs: 2 %", "allow pairs: 2"]),
    `
project.yaml:4:16: found 2, expected at most 0.4: share of unit-reel pairs that may break a window
4 |   allow pairs: 2
                   ^
Write "2 %".`,
  );
  refused(
    "a speed in the wrong unit",
    changed(projectFile, ["80 mm/s", "80 mm"]),
    `
project.yaml:5:13: found a length, expected a speed
5 | film speed: 80 mm
                ^^^^^`,
  );
  refused(
    "a letter of a tape",
    changed(projectFile, ["80 mm/s", "80 mm/s * W/mm"]),
    `
project.yaml:5:23: found "W", expected a number with its unit
5 | film speed: 80 mm/s * W/mm
                          ^
No letter is known here.`,
  );
  refused(
    "a value without end",
    changed(projectFile, ["80 mm/s", "80 mm/s/(1 - 1)"]),
    `
project.yaml:5:13: found a value that is not finite, expected a finite number
5 | film speed: 80 mm/s/(1 - 1)
                ^^^^^^^^^^^^^^^`,
  );
});

describe("the reader of known.yaml", () => {
  refused(
    "a unit that is not there",
    changed(knownFile, ["{unit: curlew, tape: chip", "{unit: curlow, tape: chip"]),
    `
known.yaml:3:12: found the unit "curlow", expected the name of a file in units/, without .yaml
3 |   - {unit: curlow, tape: chip, result: runs, reels run: 120, reels refused: 1}
               ^^^^^^
Did you mean "curlew"?`,
  );
  refused(
    "a tape that is not there",
    changed(knownFile, ["tape: coil", "tape: choke"]),
    `
known.yaml:4:26: found the tape "choke", expected the name of a file in tapes/, without .yaml
4 |   - {unit: curlew, tape: choke, result: not good enough, note: stops once a reel}
                             ^^^^^
Tapes here: chip, coil.`,
  );
  refused(
    "a unit that is not made in the tape's width, wanted or known",
    changed(tapeFile, ["W: 12.05 ±0.06 mm measured", "W: 16 ±0.3 mm"]),
    `
known.yaml:4:26: found the tape "coil", 16 mm wide, expected a width that Curlew is made in: 8, 12
4 |   - {unit: curlew, tape: coil, result: not good enough, note: stops once a reel}
                             ^^^^
Add 16 to its "serves: W", with its pocket under "built for".

project.yaml:7:18: found the tape "coil", 16 mm wide, expected a width that Curlew is made in: 8, 12
7 |   curlew: [chip, coil]
                     ^^^^
Add 16 to its "serves: W", with its pocket under "built for".`,
  );
  refused(
    "a result that is none",
    changed(knownFile, ["result: runs", "result: run"]),
    `
known.yaml:3:40: found "run", expected one of runs, fails, not good enough
3 |   - {unit: curlew, tape: chip, result: run, reels run: 120, reels refused: 1}
                                           ^^^
Did you mean "runs"?`,
  );
  refused(
    "half a reel",
    changed(knownFile, ["reels run: 120", "reels run: 120.5"]),
    `
known.yaml:3:57: found 120.5 reels, expected a whole number of reels
3 |   - {unit: curlew, tape: chip, result: runs, reels run: 120.5, reels refused: 1}
                                                            ^^^^^`,
  );
  refused(
    "more reels refused than run",
    changed(knownFile, ["reels refused: 1}", "reels refused: 121}"]),
    `
known.yaml:3:77: found 121 reels refused of 120, expected no more refused than run
3 |   - {unit: curlew, tape: chip, result: runs, reels run: 120, reels refused: 121}
                                                                                ^^^`,
  );
  refused(
    "fewer reels than none",
    changed(knownFile, ["reels run: 120", "reels run: -120"]),
    `
known.yaml:3:57: found -120, expected at least 0: reels run
3 |   - {unit: curlew, tape: chip, result: runs, reels run: -120, reels refused: 1}
                                                            ^^^^`,
  );
  refused(
    "reels with a unit",
    changed(knownFile, ["reels run: 120", "reels run: 120 mm"]),
    `
known.yaml:3:57: found a length, expected a plain number
3 |   - {unit: curlew, tape: chip, result: runs, reels run: 120 mm, reels refused: 1}
                                                            ^^^^^^`,
  );
  refused(
    "a record without its tape",
    changed(knownFile, ["{unit: curlew, tape: chip, ", "{unit: curlew, "]),
    `
known.yaml:3:5: found no "tape", expected "tape" in one unit on one tape
3 |   - {unit: curlew, result: runs, reels run: 120, reels refused: 1}
        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
Add "tape: ...".`,
  );
  refused(
    "a record that is no list",
    written(knownFile, "format: 1\nknown: {unit: curlew}\n"),
    `
known.yaml:2:8: found a group of members, expected a list: the record
2 | known: {unit: curlew}
           ^^^^^^^^^^^^^^
Write a list as [a, b] or one item a line, each after a dash.`,
  );
});

describe("the reader, of many faults at once, says each once and in order:", () => {
  refused(
    "a unit file with eight",
    changed(
      unitFile,
      ["line: 90 mm", "line: 90"],
      ["W + 0.45 ±0.10 mm", "1.2 W"],
      ["opens: whole width", "opens: hole"],
      ["preload: 6.0 ±1.0 N", "preload: 900 N"],
      ["nip.preload: 7 ±1 N", "nip.prelaod: 7 N"],
      ["  gap: 0.60 ±0.15 mm", "  gap: 0.60 ±0.15 mm + 1"],
      ["module: 0.5 mm", "modul: 0.5 mm"],
      ["overspeed: 1.25", "overspeed: 1e999"],
    ),
    `
units/curlew.yaml:9:22: found "+", expected the end of the quantity
9 |   gap: 0.60 ±0.15 mm + 1
                         ^
What is added or multiplied stands before the tolerance and the scatter.

units/curlew.yaml:11:8: found "nip.prelaod", expected the path of a number in this file
11 |   12: {nip.prelaod: 7 N}
            ^^^^^^^^^^^
Did you mean "nip.preload"?

units/curlew.yaml:15:13: found 90 without a unit, expected a length
15 |     - line: 90
                 ^^
Write "90 mm", or "W + 0.2 mm" to follow the tape.

units/curlew.yaml:22:16: found "W" right after a number, expected a unit
22 |     width: 1.2 W # both sides together
                    ^
A letter is multiplied with a star: "1.2 * W".

units/curlew.yaml:27:10: found "hole", expected one of whole width, one seal, middle cut, one side
27 |   opens: hole
              ^^^^

units/curlew.yaml:34:12: found 900 N, expected at most 500 N: force between the rollers
34 |   preload: 900 N
                ^^^^^

units/curlew.yaml:35:14: found "1e999", expected a finite number
35 |   overspeed: 1e999
                  ^^^^^

units/curlew.yaml:36:11: found "modul", expected a member of gears that join two shafts
36 |   gears: {modul: 0.5 mm, teeth: [20, 24], backlash: 0.08..0.20 mm}
               ^^^^^
Did you mean "module"?`,
  );
  refused(
    "a unit file whose text is broken in three places and wrong in two",
    changed(
      unitFile,
      ["opens: whole width", "opens:"],
      ["overspeed: 1.25", "overspeed: &o 1.25"],
      ["    - mark: pick\n", "    - mark: pick\n    -\n"],
      ["near: 2.6 mm", "near: 2.6"],
      ["preload: 6.0 ±1.0 N", "preload: 6.0 ±1.0 N\n  preload: 7 N"],
    ),
    `
units/curlew.yaml:19:6: found an item without a value, expected a value
19 |     -
          ^
Leave it out.

units/curlew.yaml:24:19: found 2.6 without a unit, expected a length
24 |     ledge: {near: 2.6, far: 0.7 mm}
                       ^^^
Write "2.6 mm", or "W + 0.2 mm" to follow the tape.

units/curlew.yaml:28:3: found "opens" without a value, expected a value after the colon
28 |   opens:
       ^^^^^
Leave the line out, or write "none" for a member the unit has not.

units/curlew.yaml:36:3: found the key "preload" a second time, expected each key once
36 |   preload: 7 N
       ^^^^^^^
Remove one of the two.

units/curlew.yaml:37:14: found the anchor "&o", expected a value
37 |   overspeed: &o 1.25
                  ^^
Write the value out: every number has one place of its own.`,
  );
  refused(
    "a tape that a unit is built for, without a word on the unit",
    changed(
      tapeFile,
      ["A0: 4.3 mm", "A0: 4.3"],
      ["K0: 2.1 mm", "K0: 80 mm"],
      ["  kind: heat activated\n", "  kind: glued\n  colour: red\n"],
    ),
    `
tapes/coil.yaml:4:5: found 4.3 without a unit, expected a length
4 | A0: 4.3
        ^^^
Write "4.3 mm".

tapes/coil.yaml:6:5: found 80 mm, expected at most 60 mm: pocket depth; for punched tape the height of the part's hole
6 | K0: 80 mm
        ^^^^^

tapes/coil.yaml:11:9: found "glued", expected one of heat activated, pressure sensitive
11 |   kind: glued
             ^^^^^

tapes/coil.yaml:12:3: found "colour", expected a member of the cover film
12 |   colour: red
       ^^^^^^
Known here: kind, width, seal track, inset, seal, rate exponent, ageing, break, tack, charge, curl, friction, stretched, sealing.`,
  );
  refused(
    "project.yaml wrong in its numbers and in what it refers to",
    changed(
      projectFile,
      ["allow pairs: 2 %", "allow pairs: 50 %"],
      ["curlew: [chip, coil]", "curlw: [chop, coil]"],
      ["ladder: [chip, coil]", "ladder: [chip, coal]"],
      ["mismatch limit: 1.8..2.2 % guess", "mismatch limit: 2.2..1.8 % guess"],
    ),
    `
project.yaml:4:16: found 50 %, expected at most 40 %: share of unit-reel pairs that may break a window
4 |   allow pairs: 50 %
                   ^^^^

project.yaml:7:3: found the unit "curlw", expected the name of a file in units/, without .yaml
7 |   curlw: [chop, coil]
      ^^^^^
Did you mean "curlew"?

project.yaml:7:11: found the tape "chop", expected the name of a file in tapes/, without .yaml
7 |   curlw: [chop, coil]
              ^^^^
Did you mean "chip"?

project.yaml:8:16: found the tape "coal", expected the name of a file in tapes/, without .yaml
8 | ladder: [chip, coal]
                   ^^^^
Did you mean "coil"?

project.yaml:10:19: found 2.2..1.8, expected the lower end first
10 |   mismatch limit: 2.2..1.8 % guess
                       ^^^^^^^^
Write "1.8..2.2 % guess".`,
  );
  refused(
    "known.yaml wrong in two records",
    changed(
      knownFile,
      ["tape: chip, result: runs", "tape: chop, result: run"],
      ["result: not good enough", "result: fails, reels run: many"],
    ),
    `
known.yaml:3:26: found the tape "chop", expected the name of a file in tapes/, without .yaml
3 |   - {unit: curlew, tape: chop, result: run, reels run: 120, reels refused: 1}
                             ^^^^
Did you mean "chip"?

known.yaml:3:40: found "run", expected one of runs, fails, not good enough
3 |   - {unit: curlew, tape: chop, result: run, reels run: 120, reels refused: 1}
                                           ^^^
Did you mean "runs"?

known.yaml:4:58: found "many", expected a number with its unit
4 |   - {unit: curlew, tape: coil, result: fails, reels run: many, note: stops once a reel}
                                                             ^^^^
No letter is known here.`,
  );
});

test("a folder without project.yaml is told how to begin", () => {
  expect(said(new Map([...texts].filter(([path]) => path !== "project.yaml")))).toBe(
    `
project.yaml:1:1: found no project.yaml in this folder, expected the file that says which tapes are wanted
1 |
    ^
Begin with "tapeworthy start NAME --from EXAMPLE".`.slice(1),
  );
});

test("the errors of several files come in the order of files, lines and columns", () => {
  const files = new Map([
    ...texts,
    ...[...changed(unitFile, ["line: 90 mm", "line: 90"], ["8: {A0", "9: {A0"])].filter(([path]) => path === unitFile),
    ...[...changed(tapeFile, ["A0: 4.3 mm", "A0: 4.3"])].filter(([path]) => path === tapeFile),
    ...[...changed(projectFile, ["ladder: [chip, coil]", "ladder: [chop, coal]"])].filter(
      ([path]) => path === projectFile,
    ),
  ]);
  const places = said(files)
    .split("\n")
    .flatMap((line) => line.match(/^[a-z/]+\.yaml:\d+:\d+/)?.[0] ?? []);
  expect(places).toEqual([
    "project.yaml:8:10",
    "project.yaml:8:16",
    "tapes/coil.yaml:4:5",
    "units/curlew.yaml:5:3",
    "units/curlew.yaml:15:13",
  ]);
});

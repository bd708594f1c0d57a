import { describe, expect, test } from "vitest";
import { bytesOf, saidOf, utf8 } from "./log.fixture.ts";

const joined = (...parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((p) => [...p]));
const utf16 = (text: string): Uint8Array =>
  Uint8Array.from([0xff, 0xfe, ...[...text].flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8])]);
/** Rows of two cells that are as they should be. */
const rows = (n: number): string => Array.from({ length: n }, (_, i) => `${i},${(i % 7) + 1}\n`).join("");

// All that is said of a log in which one thing is wrong. The texts are the product: they are asserted whole.
const cases: readonly (readonly [
  what: string,
  log: string | Uint8Array,
  said: string,
  more?: Parameters<typeof saidOf>[1],
])[] = [
  [
    "an empty file",
    "",
    `
run.csv:1:1: found an empty file, expected a header and rows of numbers
1 |
    ^
Export the log again.`,
  ],
  [
    "nothing but empty lines",
    "\n\n  \n",
    `
run.csv:1:1: found nothing but empty lines, expected a header and rows of numbers
1 |
    ^
Export the log again.`,
  ],
  [
    "a mark of UTF-8 and nothing else",
    Uint8Array.of(0xef, 0xbb, 0xbf),
    `
run.csv:1:1: found an empty file, expected a header and rows of numbers
1 |
    ^
Export the log again.`,
  ],
  [
    "a header without a row",
    "t [s];F [N]\n",
    `
run.csv:1:1: found a header of 2 columns and no row, expected rows of numbers under it
1 | t [s];F [N]
    ^
Was the recorder stopped before it wrote? Export the log again.`,
  ],
  [
    "a header and units without a row",
    "t;F\ns;N\n",
    `
run.csv:1:1: found a header of 2 columns and no row, expected rows of numbers under it
1 | t;F
    ^
Was the recorder stopped before it wrote? Export the log again.`,
  ],
  [
    "prose",
    "Dear all,\nthe log is on the other stick.\nRegards\n",
    `
run.csv:1:1: found no column of numbers in the first lines, expected rows of numbers, with a header over them
1 | Dear all,
    ^
Is this the right file? If its numbers begin further down, say where: --first LINE.`,
  ],
  [
    "a page of the web",
    "<!doctype html>\n<html><body><p>404</p></body></html>\n",
    `
run.csv:1:1: found a page of the web or XML, expected rows of numbers, with a header over them
1 | <!doctype html>
    ^
Export the log as CSV (comma-separated text).`,
  ],
  [
    "a picture",
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52),
    `
run.csv:1:1: found a picture, expected text with rows of numbers
1 |
    ^
Export the log as CSV.`,
  ],
  [
    "a spreadsheet",
    Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 6, 0),
    `
run.csv:1:1: found a zip archive or a spreadsheet file, expected text with rows of numbers
1 |
    ^
Export the sheet as CSV (comma-separated text).`,
  ],
  [
    "an old spreadsheet",
    Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1),
    `
run.csv:1:1: found an old spreadsheet file, expected text with rows of numbers
1 |
    ^
Export the sheet as CSV.`,
  ],
  [
    "a compressed file",
    Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0),
    `
run.csv:1:1: found a compressed file, expected text with rows of numbers
1 |
    ^
Unpack it first.`,
  ],
  [
    "a PDF file",
    "%PDF-1.7\n1 0 obj\n",
    `
run.csv:1:1: found a PDF file, expected text with rows of numbers
1 |
    ^
Export the numbers as CSV.`,
  ],
  [
    "a Parquet file",
    Uint8Array.of(0x50, 0x41, 0x52, 0x31, 0x15, 0),
    `
run.csv:1:1: found a Parquet file, expected text with rows of numbers
1 |
    ^
Give the log as the recorder exported it; raw.parquet is what was kept of one.`,
  ],
  [
    "bytes of a recorder",
    Uint8Array.from({ length: 600 }, (_, i) => (i * 37) % 256),
    `
run.csv:1:1: found bytes that are no text, expected text with rows of numbers
1 |
    ^
Export the log as CSV (comma-separated text).`,
  ],
  [
    "a byte 0 among the rows",
    "t,F\n0,1\n1,\u0000\n2,3\n",
    `
run.csv:3:3: found the control character U+0000, expected plain text
3 | 1,�
      ^
The file is damaged here, or is not text. Export the log again.`,
  ],
  [
    "zeros where a recorder lost its power",
    `t,F\n${rows(4000)}${"\u0000".repeat(50)}\n`,
    `
run.csv:4002:1: found the control character U+0000, expected plain text
4002 | ��������������������������������������������������
       ^
The file is damaged here, or is not text. Export the log again.`,
  ],
  [
    "a control character",
    `t,F\n${rows(6)}6,\u001b[31m\n`,
    `
run.csv:8:3: found the control character U+001B, expected plain text
8 | 6,�[31m
      ^
The file is damaged here, or is not text. Export the log again.`,
  ],
  [
    "a line of more than a megabyte",
    `t,F\n0,1\n${"7".repeat(1_100_000)}\n`,
    `
run.csv:3:1: found a line of more than 1 MB, expected lines of at most 1 MB
3 | 777777777777777777777777777777777777777777777777777777777777
    ^
Is the file text? A table written sideways is to be turned first.`,
  ],
  [
    "a first line of more than a megabyte",
    `${"x".repeat(1_200_000)}`,
    `
run.csv:1:1: found a line of more than 1 MB, expected lines of at most 1 MB
1 | xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx
    ^
Is the file text? A table written sideways is to be turned first.`,
  ],
  [
    "a million columns",
    `${"1,".repeat(1_000_000)}\n`,
    `
run.csv:1:1: found 503809 columns and more in one line, expected at most 1000
1 | 1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,
    ^
One column a quantity and one row a reading; a table written sideways is to be turned first.`,
  ],
  [
    "a table written sideways",
    `F,${Array.from({ length: 1500 }, (_, i) => i).join(",")}\n`,
    `
run.csv:1:1: found 1501 columns, expected at most 1000
1 | F,0,1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,17,18,19,20,21,22,23,24,25,26,27,28,29,30,31,32,33,34,35,…
    ^
One column a quantity and one row a reading; a table written sideways is to be turned first.`,
  ],
  [
    "a quote that is not closed",
    't,F,note\n0,1,"ok"\n1,2,"begun\n2,3,x\n',
    `
run.csv:3:5: found a quote that is not closed on its line, expected a closing "
3 | 1,2,"begun
        ^
A text of several lines can't be read; export without it.`,
  ],
  [
    "UTF-8 that goes on as Latin-1",
    joined(utf8(`Zeit;Kraft;Prüfer\n0;1;Jörg\n`), bytesOf(`1;2;J\xf6rg\n`)),
    `
run.csv:3:6: found the byte f6, which is no UTF-8, in a text of UTF-8, expected one encoding throughout
3 | 1;2;J�rg
         ^
Were two exports put together? Save each as UTF-8 and read them apart.`,
  ],
  [
    "Latin-1 that goes on as UTF-8",
    joined(bytesOf(`Zeit;Kraft;Pr\xfcfer\n0;1;J\xf6rg\n`), utf8(`1;2;Jörg\n`)),
    `
run.csv:3:6: found a character in UTF-8 in a text of Latin-1, expected one encoding throughout
3 | 1;2;JÃ¶rg
         ^
Were two exports put together? If the text is Latin-1 all the same, say so: --encoding latin-1.`,
  ],
  [
    "a text in UTF-16 that breaks off in a character",
    utf16(`t;F\n0;1\n1;2\n`).slice(0, -3),
    `
run.csv:3:1: found half a character at the end, expected a whole text
3 |
    ^
The file was cut off.`,
  ],
  [
    "decimal commas between commas",
    "t,F\n0,1,5,2\n0,2,6,1\n",
    `
run.csv:2:1: found 4 whole numbers under 2 names, expected 2 cells
2 | 0,1,5,2
    ^
The comma seems to be both decimal mark and separator. Export with semicolons, or with a decimal point.`,
  ],
  [
    "a separator that is not the log's",
    "t;F\n0;1\n1;2\n",
    `
run.csv:1:1: found no column of numbers in the first lines, expected rows of numbers, with a header over them
1 | t;F
    ^
Is this the right file? If its numbers begin further down, say where: --first LINE.`,
    { wish: { separator: "," } },
  ],
  [
    "rows that begin behind the end",
    "t;F\n0;1\n1;2\n",
    `
run.csv:3:1: found 3 lines, expected the first row in line 40, as you say
3 | 1;2
    ^
Say a line of the log: --first LINE.`,
    { wish: { first: 40 } },
  ],
  [
    "rows of any number of cells",
    `t;F\n${rows(30).replaceAll(",", ";")}${"5\n".repeat(30)}`,
    `
run.csv:32:2: found 30 of 60 rows with another number of cells than the header, expected 2 cells a row
32 | 5
      ^
Is the separator right? Say which with --separator ";".`,
  ],
  [
    "two logs put together",
    `t,F\n${rows(30)}${"station A;open;door\n".repeat(30)}`,
    `
run.csv:32:1: found 30 lines that are no rows, beside 30 that are, expected a table of numbers
32 | station A;open;door
     ^^^^^^^^^^^^^^^^^^^
Were two logs put together? Read them apart.`,
  ],
  [
    "a column half of texts",
    `t,F\n${rows(130)}${Array.from({ length: 60 }, (_, i) => `${i},E${i}\n`).join("")}`,
    `
run.csv:132:3: found 60 texts among 130 numbers in "F", expected a column of numbers
132 | 0,E0
        ^^
If it is a column of texts, say so: --texts "F".`,
  ],
  [
    "JSON",
    '{"t": [0, 1], "F": [2, 3]}\n',
    `
run.csv:1:1: found JSON, expected rows of numbers, with a header over them
1 | {"t": [0, 1], "F": [2, 3]}
    ^
Export the log as CSV (comma-separated text).`,
  ],
  [
    "NaN",
    "t,F\n0,1\n1,NaN\n2,nan\n3,4\n",
    `
run.csv:3:3: found "NaN" in "F", expected a number
3 | 1,NaN
      ^^^
It is taken for a gap.
2 times.`,
  ],
  [
    "infinity",
    "t,F\n0,1\n1,inf\n2,-Infinity\n3,4\n",
    `
run.csv:3:3: found "inf" in "F", expected a number
3 | 1,inf
      ^^^
Taken for a gap: what lies out of the instrument's range is not known.
2 times.`,
  ],
  [
    "a meter out of range",
    "t;U\n0;1,5\n1;OL\n2;3,5\n",
    `
run.csv:3:3: found "OL" in "U", expected a number
3 | 1;OL
      ^^
Taken for a gap: what lies out of the instrument's range is not known.`,
  ],
  [
    "a dash for no value",
    "t,F\n0,1\n1,-\n2,3\n",
    `
run.csv:3:3: found "-" in "F", expected a number
3 | 1,-
      ^
It is taken for a gap.`,
  ],
  [
    "a sheet's division by zero",
    "t,F\n0,1\n1,#DIV/0!\n2,3\n",
    `
run.csv:3:3: found "#DIV/0!" in "F", expected a number
3 | 1,#DIV/0!
      ^^^^^^^
It is taken for a gap.`,
  ],
  [
    "null",
    "t,F\n0,1\n1,null\n2,3\n",
    `
run.csv:3:3: found "null" in "F", expected a number
3 | 1,null
      ^^^^
It is taken for a gap.`,
  ],
  [
    "a text among numbers",
    "t,F\n0,1\n1,broken\n2,3\n",
    `
run.csv:3:3: found "broken" in "F", expected a number
3 | 1,broken
      ^^^^^^
It is taken for a gap.`,
  ],
  [
    "cells in another unit than the rest",
    "t,F\n0,1.5 N\n1,1.6 N\n2,163 cN\n3,1.7 N\n",
    `
run.csv:4:3: found 163 cN in "F", expected a number in N
4 | 2,163 cN
      ^^^^^^
Taken for a gap. A column has one unit throughout.`,
  ],
  [
    "a decimal comma after decimal points",
    "t;F\n0;1.5\n1;1.6\n2;1,7\n",
    `
run.csv:4:3: found 1,7 in "F", expected a number with a decimal point, as above
4 | 2;1,7
      ^^^
Taken for a gap. Were two exports put together?`,
  ],
  [
    "a point that may part thousands",
    "t;F\n0;1,250\n1;1,375\n",
    `
run.csv:2:3: found 1,250, and every number with a mark like it, expected a mark that shows whether it is the decimal one
2 | 0;1,250
      ^^^^^
Read as 1.250; if 1250 is meant, say so: --thousands ",".`,
  ],
  [
    "a short row",
    "t,F,x\n0,1,2\n1,2\n2,3,4\n",
    `
run.csv:3:4: found 2 cells, expected 3, as in the header
3 | 1,2
       ^
The cells that are missing are taken for gaps.`,
  ],
  [
    "a long row",
    "t,F,x\n0,1,2\n1,2,3,4\n2,3,4\n",
    `
run.csv:3:7: found 4 cells, expected 3, as in the header
3 | 1,2,3,4
          ^
Which cell belongs where can't be told: the whole row is taken for gaps.`,
  ],
  [
    "a last row cut off",
    "t,F,x\n0,1,2\n1,2,3\n2,3,4\n3,4",
    `
run.csv:5:4: found 2 cells, expected 3, as in the header
5 | 3,4
       ^
The file seems to be cut off here. The cells that are missing are taken for gaps.`,
  ],
  [
    "the header a second time",
    "t [s],F [N]\n0,1\n1,2\nt [s],F [N]\n0,3\n",
    `
run.csv:4:1: found the header a second time, expected rows
4 | t [s],F [N]
    ^^^^^^^^^^^
The recorder was started again. The rows go on after it.

run.csv:5:1: found time that runs back by 1 s, expected time that runs on
5 |
    ^
The row is kept and marked. Was the recorder started again, or its clock set?`,
  ],
  [
    "a closing line",
    "t,F\n0,1\n1,2\nEnd of recording\n",
    `
run.csv:4:1: found "End of recording", expected a row of 2 cells
4 | End of recording
    ^^^^^^^^^^^^^^^^
The line is left out.`,
  ],
  [
    "a line of stars between two runs",
    "t,F\n0,1\n*****\n1,2\n",
    `
run.csv:3:1: found "*****", expected a row of 2 cells
3 | *****
    ^^^^^
The line is left out.`,
  ],
  [
    "no header",
    "0,1\n1,2\n",
    `
run.csv:1:1: found no line of names above the numbers, expected a header
1 | 0,1
    ^
The columns are called "column 1" and so on; say with --map what each is.`,
    { map: ["column 2=force N"] },
  ],
  [
    "more texts than are kept",
    `t,F,id\n${Array.from({ length: 10_003 }, (_, i) => `${i},1,u${i}x\n`).join("")}`,
    `
run.csv:2:1: found more than 10000 different texts in "id", expected at most 10000
2 |
    ^
The rest is taken for gaps: is the column of any use?`,
  ],
  [
    "time that runs backwards once",
    "t [ms],F\n0,1\n1,2\n2,3\n1.5,4\n2.5,5\n3.5,6\n",
    `
run.csv:5:1: found time that runs back by 0.5 ms, expected time that runs on
5 |
    ^
The row is kept and marked. Was the recorder started again, or its clock set?`,
  ],
  [
    "time that runs backwards often",
    "t [s],F\n0,1\n1,2\n0,3\n1,4\n0,5\n1,6\n",
    `
run.csv:4:1: found time that runs back by 1 s, expected time that runs on
4 |
    ^
The rows are kept and marked. Sorted wrongly, or several channels under one another?
2 times.`,
  ],
  [
    "a step of time that jumps",
    `t [ms],F\n${Array.from({ length: 20 }, (_, i) => `${i < 15 ? i : i + 40},1\n`).join("")}`,
    `
run.csv:17:1: found a step of 41 ms, expected steps of 1 ms
17 |
     ^
About 40 rows are missing before it. Nothing is filled in.`,
  ],
  [
    "a clock past midnight",
    "Zeit;F\n23:59:58;1\n23:59:59;2\n00:00:00;3\n00:00:01;4\n",
    `
run.csv:4:1: found time that runs back by 86400 s, expected time that runs on
4 |
    ^
The row is kept and marked. Was it midnight?`,
  ],
  [
    "millimetres for a force",
    "t [s],pull [mm]\n0,1\n1,2\n",
    `
run.csv:1:9: found mm for force, a unit of m, expected a unit such as N: pull or push
1 | t [s] | pull [mm]
            ^^^^
Give the unit the instrument shows: --map "pull=force N"; or what it is: --map "pull=travel mm".`,
    { map: ["pull=force"] },
  ],
  [
    "newtons for a travel",
    "t [s],pull [N]\n0,1\n1,2\n",
    `
run.csv:1:9: found N for travel, a unit of N, expected a unit such as mm: how far tape or film has moved
1 | t [s] | pull [N]
            ^^^^
Give the unit the instrument shows: --map "pull=travel mm"; or what it is: --map "pull=force N".`,
    { map: ["pull=travel"] },
  ],
  [
    "a unit that nobody knows",
    "t [s],pull\n0,1\n1,2\n",
    `
run.csv:1:9: found the unit "zorkmid", expected a unit such as N: pull or push
1 | t [s] | pull
            ^^^^
Give the unit the instrument shows: --map "pull=force N".`,
    { map: ["pull=force zorkmid"] },
  ],
  [
    "a column that is not there",
    "t [s],pull\n0,1\n1,2\n",
    `
There is no column "pul". Did you mean "pull"?`,
    { map: ["pul=force N"] },
  ],
  [
    "a role that is none",
    "t [s],pull\n0,1\n1,2\n",
    `
"fource" is no role of a column. Did you mean "force"?`,
    { map: ["pull=fource N"] },
  ],
  [
    "a mapping without a role",
    "t [s],pull\n0,1\n1,2\n",
    `
"pull" is no COLUMN=ROLE. For example: --map "pull=force N, reversed, zero 0.02".`,
    { map: ["pull"] },
  ],
  [
    "a zero that is no number",
    "t [s],pull\n0,1\n1,2\n",
    `
"zero some" can't be taken. After the unit may stand "reversed" and "zero NUMBER". For example: --map "pull=force N, reversed, zero 0.02".`,
    { map: ["pull=force N, zero some"] },
  ],
  [
    "two columns of one role",
    "t [s],a,b\n0,1,2\n1,2,3\n",
    `
run.csv:1:13: found "b" as force, as "a" is, expected each role once
1 | t [s] | a | b
                ^
Say which it is: --map "b=note".`,
    { map: ["a=force N", "b=force N"] },
  ],
  [
    "texts for a force",
    "t [s],F,state\n0,1,on\n1,2,off\n",
    `
run.csv:1:13: found texts in "state", such as "on", expected numbers: pull or push
1 | t [s] | F | state
                ^^^^^
Map another column.`,
    { map: ["state=force N"] },
  ],
  [
    "grams for a force",
    "t [s],pull [g]\n0,100\n1,200\n",
    `
run.csv:1:1: found g in "pull", expected a unit of force
1 | t [s] | pull [g]
    ^
Read as the force of that mass, 9.80665 N a kilogram, as a scale shows it.`,
  ],
  [
    "a force that no film bears",
    "t [s],pull [N]\n0,150\n1,2500\n2,190\n",
    `
run.csv:3:1: found force of 2500 N, expected less than 200 N
3 |
    ^
Is the unit right? Say which: --map "pull=force UNIT".`,
  ],
  [
    "nothing to work with",
    "t [s],state\n0,on\n1,off\n",
    `
run.csv:1:1: found nothing to work statistics out of, expected a force, an edge, a current or such
1 | t [s] | state
    ^
Say what the columns are: --map "t=force N".`,
  ],
  [
    "a column without a number",
    "t [s],F [N]\n0,\n1,\n2,\n",
    `
run.csv:1:1: found no number in "F", expected a column of pull or push
1 | t [s] | F [N]
    ^
Map another column, or export the log again.`,
  ],
  [
    "a plateau outside the log",
    "t [s],F [N]\n0,1\n1,2\n2,3\n",
    `
run.csv:2:1: found no number between the flags 10 and 20, expected force on a plateau
2 |
    ^
Set the flags within the log.`,
    { asked: { plateau: [10, 20] } },
  ],
  [
    "half a misfeed",
    "unit,indexes,misfeeds\n1,100,0.5\n",
    `
run.csv:2:1: found 0.5 misfeeds in 100 indexes, expected whole numbers from 0
2 |
    ^
Is the column the right one?`,
  ],
  [
    "fewer indexes than none",
    "unit,indexes,misfeeds\n1,-100,0\n",
    `
run.csv:2:1: found 0 misfeeds in -100 indexes, expected whole numbers from 0
2 |
    ^
Is the column the right one?`,
  ],
  [
    "more misfeeds than indexes",
    "unit,indexes,misfeeds\n1,3,20\n",
    `
run.csv:1:1: found 20 misfeeds in 3 indexes, expected no more misfeeds than indexes
1 | unit | indexes | misfeeds
    ^
Are the two columns the wrong way round?`,
  ],
  [
    "misfeeds of nobody knows how many",
    "unit,misfeeds\n1,3\n2,0\n",
    `
run.csv:1:1: found misfeeds without a column of indexes run, expected both
1 | unit | misfeeds
    ^
Say which it is: --map "COLUMN=indexes". Without them no rate can be told.`,
  ],
];
describe("the reader of logs says what is wrong with", () => {
  for (const [what, log, said, more] of cases)
    test(what, async () => {
      expect(await saidOf(log, more)).toBe(said.slice(1));
    });
});
test("a log in which nothing is wrong is read without a word", async () => {
  expect(await saidOf("t [s],pull [N]\n0,1\n1,2\n2,1\n")).toBe("");
});

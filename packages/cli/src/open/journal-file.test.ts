import {
  closeSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { JournalError, JournalFile } from "./journal-file.ts";

const inCorner = (use: (path: string) => void): void => {
  const inner = mkdtempSync(join(tmpdir(), "tapeworthy-journal-"));
  try {
    use(join(inner, "journal"));
  } finally {
    rmSync(inner, { recursive: true });
  }
};

test("what is appended stands behind what was there, to the byte", () => {
  inCorner((path) => {
    writeFileSync(path, "one\n");
    const journal = JournalFile.open(path);
    journal.append("±\n");
    journal.append("three\n", false);
    expect([journal.read(), journal.size]).toEqual(["one\n±\nthree\n", 13]);
    journal.cutTo(4);
    journal.append("2\n");
    expect(readFileSync(path, "utf8")).toBe("one\n2\n");
    journal.close();
  });
});
test("what is replaced goes on where the new text ends", () => {
  inCorner((path) => {
    const journal = JournalFile.open(path);
    journal.append("long line\n");
    journal.replace("a\n");
    journal.append("b\n");
    expect(readFileSync(path, "utf8")).toBe("a\nb\n");
    expect([journal.isLost, journal.size]).toEqual([false, 4]);
    journal.close();
  });
});
test("a journal taken away or replaced under it is noticed", () => {
  inCorner((path) => {
    const journal = JournalFile.open(path);
    renameSync(path, `${path}.moved`);
    expect(journal.isLost).toBe(true);
    writeFileSync(path, "");
    expect(journal.isLost).toBe(true);
    journal.replace("a\n");
    expect(journal.isLost).toBe(false);
    journal.close();
  });
});
test("a link in its place, or in the place of the new one, is not followed", () => {
  inCorner((path) => {
    writeFileSync(`${path}.other`, "theirs");
    symlinkSync(`${path}.other`, path);
    expect(() => JournalFile.open(path)).toThrow(`${path} is no plain file; move it away.`);
    rmSync(path);
    const journal = JournalFile.open(path);
    symlinkSync(`${path}.other`, `${path}.new`);
    journal.replace("mine\n");
    expect([readFileSync(path, "utf8"), readFileSync(`${path}.other`, "utf8")]).toEqual(["mine\n", "theirs"]);
    journal.close();
  });
});
test("what cannot be written is said so, and the journal stands as before", () => {
  inCorner((path) => {
    const journal = JournalFile.open(path);
    journal.append("one\n");
    mkdirSync(`${path}.new`);
    writeFileSync(join(`${path}.new`, "x"), "");
    expect(() => journal.replace("two\n")).toThrow(JournalError);
    journal.append("two\n");
    expect(readFileSync(path, "utf8")).toBe("one\ntwo\n");
    journal.close();
    expect(() => journal.append("three\n")).toThrow(JournalError);
  });
});
test.skipIf(process.platform !== "linux")("a full disk is said so", () => {
  // A device that is always full stands for the disk; a journal itself may be no device.
  inCorner((path) => {
    const journal = JournalFile.open(path);
    const full = journal as unknown as { handle: number };
    const { handle } = full;
    full.handle = openSync("/dev/full", "a");
    expect(() => journal.append("one\n")).toThrow("The journal cannot be written: ENOSPC");
    closeSync(full.handle);
    full.handle = handle;
    expect(journal.size).toBe(0);
    journal.close();
  });
});

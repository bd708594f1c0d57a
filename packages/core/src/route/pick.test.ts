import { expect, test } from "vitest";
import { yawAcross } from "../channel/yaw.ts";
import { openIndexes } from "../part/open.ts";
import { driven, nominal } from "../scene.fixture.ts";
import { pickOf } from "./pick.ts";

const sheet = driven.sheetScene();
test("yaw at the pick and pockets in the open read one place of the pick, not two alike", () => {
  const place = pickOf(sheet)!;
  expect(yawAcross.reads(sheet)!.s_p).toBe(place);
  expect(openIndexes.reads(sheet)!.s_p).toBe(place);
  expect(pickOf({ ...sheet, tape: { ...sheet.tape } })).toBe(place);
});
test("another route has a place of its own, and one without the mark none", () => {
  const { route } = sheet.unit.tape;
  const at = (pieces: typeof route) => ({
    ...sheet,
    unit: { ...sheet.unit, tape: { ...sheet.unit.tape, route: pieces } },
  });
  expect(pickOf(at([...route]))).not.toBe(pickOf(sheet));
  expect(nominal(sheet, pickOf(at([...route]))!)).toBe(nominal(sheet, pickOf(sheet)!));
  expect(pickOf(at(route.filter((p) => p.mark !== "pick")))).toBeUndefined();
});

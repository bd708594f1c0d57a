import type { Unit } from "@tapeworthy/core";
import { list } from "@tapeworthy/drawing";

/** The usual cautions of what a unit is made of, from its own members. They advise; local codes and licensed practice come first. */
export function cautionsOf(unit: Unit): string[] {
  const out: string[] = [];
  const pinching = [
    ...(unit.sprocket ? ["sprocket"] : []),
    ...(unit.nip ? ["nip rollers"] : []),
    ...(unit["feed drive"]?.worm || unit["peel drive"]?.worm || unit.nip?.gears ? ["gears"] : []),
  ];
  if (pinching.length > 0)
    out.push(
      `${first(list(pinching))} pinch, also when turned by hand: take the supply away before fingers go near, and guard what stays open.`,
    );
  if (unit["hold-down"]?.kind === "leaf")
    out.push(
      "The hold-down leaf has edges that cut, and it springs back when it is let go: break its edges, wear gloves and eye protection while it is fitted.",
    );
  if (unit.film.peel) out.push("A peel edge fine enough to open a film also cuts skin.");
  const hot = [
    ...(unit["feed drive"] || unit["peel drive"] ? ["Gear motors"] : []),
    ...(unit.nip?.slip ? ["a slipping clutch"] : []),
  ];
  if (hot.length > 0)
    out.push(`${list(hot)} and regulators get hot enough to burn; a stalled motor does so within seconds.`);
  if (unit.nip?.spring || unit.nip?.preload)
    out.push("The nip's spring is compressed: it flies when the nip is taken apart.");
  const electric = (unit.bodies ?? []).some((b) => b.part === "board" || /board|supply/i.test(b.name));
  if (electric || hot.length > 0)
    out.push(
      "First power-up on a current-limited supply, with hands and sleeves away and a way to cut the power; handle the board as static-sensitive.",
    );
  const made = Object.values(unit.make ?? {});
  if (made.some((p) => /laser/i.test(p.process))) out.push("Laser cutting follows its own rules: fumes, fire, eyes.");
  out.push("Local codes and licensed practice come before anything said here.");
  return out;
}
const first = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

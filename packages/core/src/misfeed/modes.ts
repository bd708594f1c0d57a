/** Whose doing a misfeed is, in a word. */
export type Blame = "film" | "tape" | "part" | "unit" | "pick";

/** One way in which an index can go wrong: the checks whose windows it breaks. The physics stays with the checks. */
export interface Mode {
  readonly id: string;
  /** What happens, as a person at the machine would say it. */
  readonly title: string;
  readonly blames: Blame;
  /** Ids of checks; the mode happens where any of their windows is broken. One that does not apply to a scene is left out. */
  readonly checks: readonly string[];
}

/** The ways in which an index can go wrong, in the order the tape meets them. */
export const modes: readonly Mode[] = [
  { id: "reel-jerks", title: "the reel spills or snatches", blames: "tape", checks: ["reel.jerks"] },
  { id: "tape-jams", title: "the tape jams in its channel", blames: "tape", checks: ["tape.yaw", "tape.push"] },
  { id: "tape-skips", title: "the tape rises and skips a tooth", blames: "unit", checks: ["tooth.skip"] },
  { id: "hole-tears", title: "a sprocket hole tears", blames: "tape", checks: ["hole.bears"] },
  { id: "film-slips", title: "the film slips in the nip and stays on", blames: "film", checks: ["nip.pulls"] },
  {
    id: "film-breaks",
    title: "the film breaks, or its drive stalls",
    blames: "film",
    checks: ["nip.slips", "film.pull"],
  },
  { id: "loop-left", title: "a loop of film is left standing", blames: "unit", checks: ["nip.takes-up"] },
  {
    id: "part-moves",
    title: "a part turns or jumps in its open pocket",
    blames: "part",
    checks: ["part.lifts", "part.knocks", "part.tips"],
  },
  { id: "drive-stalls", title: "the drive stalls", blames: "unit", checks: ["drive.moves"] },
  { id: "late", title: "the index comes too late", blames: "unit", checks: ["drive.time"] },
  {
    id: "pick-misses",
    title: "the part lies outside what the pick tool forgives",
    blames: "pick",
    checks: ["pick.misses"],
  },
];

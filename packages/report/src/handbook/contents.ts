import { stations } from "@tapeworthy/core";
import { severityWords } from "@tapeworthy/drawing";
import { firstSentence } from "./prose.ts";
import { type Book, capital, folderOf } from "./subject.ts";
import { table } from "./table.ts";

/** The handbook's contents: checks by the station the tape meets them at, then every page by its folder. */
export function contentsPage({ subjects, reach }: Book): string {
  const page = new Map(subjects.flatMap((s) => s.checks.map((check) => [check.id, s.page])));
  const checks = [...reach.applies.keys()];
  const byStation = Object.entries(stations).flatMap(([number, name]) => {
    const mine = checks.filter((check) => String(check.station) === number);
    return mine.length === 0
      ? []
      : [
          `### ${number} ${capital(name)}`,
          table(
            ["check", "holds where", "severity", "status"],
            mine.map((check) => [
              `[\`${check.id}\`](${page.get(check.id)})`,
              check.title,
              `${check.severity}, ${severityWords[check.severity]}`,
              check.status,
            ]),
          ),
        ];
  });
  const folders = [...new Set(subjects.map((s) => folderOf(s.file.path)))].sort();
  const byFolder = folders.flatMap((folder) => [
    `### ${folder === "" ? "At the top" : capital(folder.replaceAll("/", ", "))}`,
    table(
      ["page", "what it answers", "models", "figures"],
      subjects
        .filter((s) => folderOf(s.file.path) === folder)
        .map((s) => {
          const ids = [...new Set(s.groups.flatMap(({ models }) => models.map((m) => m.id)))];
          return [
            `[${s.file.path.split("/").at(-1)!.replace(/\.ts$/, "").replaceAll("-", " ")}](${s.page})`,
            s.lead ? firstSentence(s.lead.text) : capital(s.groups[0]?.models[0]?.title ?? s.checks[0]?.title ?? ""),
            ids.length > 6
              ? `${ids
                  .slice(0, 6)
                  .map((id) => `\`${id}\``)
                  .join(", ")} and ${ids.length - 6} more`
              : ids.map((id) => `\`${id}\``).join(", "),
            "",
          ];
        }),
    ),
  ]);
  return `${[
    "<!-- Written by `npm run handbook` from packages/core/src: edit those files. -->",
    "# Handbook of the models",
    `${subjects.length} pages, one for each source file that holds a model, a check or the mathematics behind them. Facts come from the objects that the program runs, words from the comments beside them: nothing here is typed twice.`,
    "How a page reads: what the file answers and its equations; each check with its window; each model with its equation, the numbers it reads, the range in which it is known to hold, its source and the checks that rest on it; what only a measurement can tell; figures from outside it is held against. What they leave out all together stands in [limits](../limits.md), where the trade stops in [walls](../walls.md), all checks in one table in [checks](../checks.md).",
    "## By station",
    ...byStation,
    "## By folder",
    ...byFolder,
  ].join("\n\n")}\n`;
}

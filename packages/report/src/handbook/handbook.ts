import type { Check, Model } from "@tapeworthy/core";
import { contentsPage } from "./contents.ts";
import { type DocComment, docComments, idsIn, isWritten, writtenModels } from "./doc-comments.ts";
import { filePage } from "./file-page.ts";
import { hasEquation } from "./prose.ts";
import { type Reach, reachOf } from "./reach.ts";
import {
  type Book,
  type FileSubject,
  folderOf,
  type HandbookInput,
  type ModelFile,
  type ModelGroup,
  titleOf,
} from "./subject.ts";

/** The handbook: its pages by their path under docs/models. */
export function handbook(input: HandbookInput): ReadonlyMap<string, string> {
  const checks = allChecks(input);
  const reach = reachOf(checks, input.scenes);
  const subjects = subjectsOf(input, checks, reach);
  const pageOfModel = new Map<string, string>();
  const pageOfCheck = new Map<string, string>();
  for (const { page, groups, checks: mine } of subjects) {
    for (const { models } of groups) for (const m of models) if (!pageOfModel.has(m.id)) pageOfModel.set(m.id, page);
    for (const check of mine) pageOfCheck.set(check.id, page);
  }
  const book: Book = { subjects, reach, pageOfModel, pageOfCheck, figures: input.figures };
  return new Map([
    ["README.md", contentsPage(book)],
    ...subjects.map((subject): [string, string] => [subject.page, filePage(subject, book)]),
  ]);
}

const isCheck = (value: unknown): value is Check =>
  typeof value === "object" && value !== null && ["id", "station", "severity", "because"].every((key) => key in value);
const isModel = (value: unknown): value is Model<unknown> =>
  typeof value === "object" && value !== null && "kind" in value && value.kind === "model";

/** The checks in their order; what a file exports beside them comes last. */
function allChecks({ checks, files }: HandbookInput): Check[] {
  const others = files.flatMap(({ exports }) => Object.values(exports).filter(isCheck));
  return [...new Set([...checks, ...others])];
}

/** The file in which every check and model is written. Exports say so; of the others their ids, as the source writes them. */
function subjectsOf({ files }: HandbookInput, checks: readonly Check[], reach: Reach): FileSubject[] {
  const written = files.map((file) => ({ file, ids: idsIn(file.source) }));
  const exported = new Map<unknown, ModelFile>();
  for (const file of files)
    for (const value of Object.values(file.exports)) if (!exported.has(value)) exported.set(value, file);
  const homeOf = (id: string, value: unknown): ModelFile | undefined =>
    written.find(({ ids }) => ids.some((one) => one.id === id))?.file ??
    exported.get(value) ??
    written.find(({ ids }) => ids.some((one) => isWritten(one.id, id)))?.file ??
    // Handed to something that makes the model.
    files.find(({ source }) => source.includes(`"${id}"`));
  const models = new Set<Model<unknown>>(reach.uses.keys());
  for (const { exports } of files) for (const value of Object.values(exports)) if (isModel(value)) models.add(value);

  const modelsIn = new Map<ModelFile, Model<unknown>[]>();
  for (const m of models) {
    const home = homeOf(m.id, m);
    if (!home) throw new Error(`no source file writes the model ${m.id}`);
    modelsIn.set(home, [...(modelsIn.get(home) ?? []), m]);
  }
  const checksIn = new Map<ModelFile, Check[]>();
  for (const check of checks) {
    const home = homeOf(check.id, check);
    if (!home) throw new Error(`no source file writes the check ${check.id}`);
    checksIn.set(home, [...(checksIn.get(home) ?? []), check]);
  }
  const folders = new Set([...modelsIn.keys(), ...checksIn.keys()].map(({ path }) => folderOf(path)));
  return files
    .filter(
      (file) =>
        modelsIn.has(file) ||
        checksIn.has(file) ||
        // What a solver rests on belongs to the book too.
        (folders.has(folderOf(file.path)) && docComments(file.source).some((doc) => hasEquation(doc.text))),
    )
    .map((file) => subjectOf(file, checksIn.get(file) ?? [], modelsIn.get(file) ?? []));
}
function subjectOf(file: ModelFile, checks: readonly Check[], models: readonly Model<unknown>[]): FileSubject {
  const docs = docComments(file.source);
  const ids = idsIn(file.source);
  const longest = [...docs].sort((a, b) => b.text.length - a.text.length)[0];
  const lead = docs.find((doc) => hasEquation(doc.text)) ?? longest;
  const placeOf = (id: string): number => {
    const exact = ids.findIndex((one) => one.id === id);
    return exact >= 0 ? exact : ids.findIndex((one) => isWritten(one.id, id));
  };
  const groups = new Map<string, Model<unknown>[]>();
  for (const m of models) {
    // One piece of source: the same id in several scenes, or a template's ids with one equation.
    const key = `${ids[placeOf(m.id)]?.id ?? m.id} ${m.equation}`;
    groups.set(key, [...(groups.get(key) ?? []), m]);
  }
  const docOf = (id: string): DocComment | undefined =>
    docs.find((doc) => doc !== lead && doc.ids.some((one) => isWritten(one, id)));
  const shown = [...groups.values()]
    .sort((a, b) => placeOf(a[0]!.id) - placeOf(b[0]!.id))
    .map((list): ModelGroup => {
      const doc = docOf(list[0]!.id);
      return { models: onceEach(list), ...(doc ? { doc } : {}) };
    });
  const spoken = new Set([lead, ...shown.map((g) => g.doc)]);
  return {
    file,
    page: file.path.replace(/\.ts$/, ".md"),
    title: titleOf(file.path),
    lead,
    checks: [...checks].sort((a, b) => placeOf(a.id) - placeOf(b.id)),
    groups: shown,
    further: docs.filter((doc) => !spoken.has(doc) && hasEquation(doc.text)),
    unread: writtenModels(file.source).filter(({ id }) => !models.some((m) => m.id === id)),
  };
}
/** Models of one id are one model, made anew for a route or a body. */
const onceEach = (list: readonly Model<unknown>[]): Model<unknown>[] =>
  [...new Map([...list].reverse().map((m) => [m.id, m])).values()].reverse();

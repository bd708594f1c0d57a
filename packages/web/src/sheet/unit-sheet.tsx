import { mostCompared } from "@tapeworthy/core";
import { type ReactNode, useEffect, useState } from "react";
import type { Asker } from "../ask/asker.ts";
import type { Question } from "../ask/question.ts";
import { useAnswer } from "../ask/use-answer.ts";
import type { Engine, EngineState, ExplainedCheck } from "../engine/engine.ts";
import { Playhead } from "../over/playhead.ts";
import { Unfolded } from "../over/unfolded.tsx";
import { chosenFinding, chosenRow } from "../panel/chosen.ts";
import { Panel } from "../panel/panel.tsx";
import type { Choice } from "./choice.ts";
import { DrawingView } from "./drawing.tsx";
import { MapView } from "./map.tsx";
import type { Choose } from "./sheet.tsx";

/** Sheet 1: a unit drawn with a tape, its route map, the finding that is open. */
export function UnitSheet({
  state,
  choice,
  choose,
  engine,
  asker,
  children,
}: {
  readonly state: EngineState;
  readonly choice: Choice;
  readonly choose: Choose;
  readonly engine: Engine;
  readonly asker: Asker;
  /** The text, where it stands beside the drawing. */
  readonly children: ReactNode;
}) {
  const [zone, setZone] = useState<string>();
  const row = chosenRow(state, choice);
  const explained = useExplained(engine, choice, row);
  const [playhead] = useState(() => new Playhead());
  const unfolds = overQuestion(state, choice);
  const answering = useAnswer(asker, state, unfolds);
  const ways = useAnswer(asker, state, waysQuestion(state, choice), unfolds !== undefined);
  return (
    <>
      <button type="button" className="skip" onClick={() => focusOn('.map a.cell[tabindex="0"]')}>
        To the route map
      </button>
      <button type="button" className="skip" onClick={() => focusOn(".panel")}>
        To the finding
      </button>
      <main className="draw" aria-label="Drawing">
        <h1 className="unseen">
          {state.project ? `${state.project.name}: sheet 1, unit` : "Tapeworthy: sheet 1, unit"}
        </h1>
        <DrawingView state={state} choice={choice} choose={choose} engine={engine} onZone={setZone} />
      </main>
      <section className="route" aria-label="Route map">
        <MapView state={state} choice={choice} choose={choose} />
      </section>
      {choice.over ? (
        <Unfolded
          state={state}
          choice={choice}
          choose={choose}
          answering={answering}
          ways={ways}
          explained={explained}
          zone={zone}
          playhead={playhead}
          engine={engine}
          asker={asker}
        />
      ) : null}
      {children}
      <Panel
        state={state}
        choice={choice}
        choose={choose}
        engine={engine}
        explained={explained}
        ways={ways}
        zone={zone}
        index={choice.over === "index" && answering?.answer?.kind === "index" ? answering.answer.picture : undefined}
        playhead={playhead}
        comparison={
          choice.over === "compare" && answering?.answer?.kind === "compare" ? answering.answer.comparison : undefined
        }
      />
    </>
  );
}
const focusOn = (selector: string): void => document.querySelector<HTMLElement>(selector)?.focus();

function useExplained(engine: Engine, { unit, tape, check, panel }: Choice, row: unknown): ExplainedCheck | undefined {
  const [found, setFound] = useState<{ key: string; explained: ExplainedCheck | undefined }>();
  const key = `${unit} ${tape} ${check}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is asked again when the numbers of the row are others
  useEffect(() => {
    if (unit === undefined || tape === undefined || check === undefined || panel === "known") return;
    let is = true;
    engine.explain(unit, tape, check).then(
      (explained) => is && setFound({ key, explained }),
      () => is && setFound({ key, explained: undefined }),
    );
    return () => {
      is = false;
    };
  }, [engine, unit, tape, check, panel, key, row]);
  return found?.key === key ? found.explained : undefined;
}

/** What is unfolded over the drawing and takes long to work out. */
function overQuestion({ project }: EngineState, { unit, tape, check, over, sweep }: Choice): Question | undefined {
  if (!project || unit === undefined || tape === undefined) return undefined;
  switch (over) {
    case "ladder":
      return { kind: "ladder", unit };
    case "compare": {
      const others = project.units.map((u) => u.stem).filter((u) => u !== unit);
      const W = project.tapes.find((t) => t.stem === tape)?.row ?? 0;
      return { kind: "compare", units: [unit, ...others].slice(0, mostCompared), W };
    }
    case "sweep":
      return check === undefined ? undefined : { kind: "sweep", unit, tape, check, ...sweep };
    case "index":
    case "pick":
    case "misfeed":
      return { kind: over, unit, tape };
    case "size":
      return { kind: "size", unit };
    default:
      return undefined;
  }
}
/** Ways out of the finding that is open, once everything else is drawn. */
function waysQuestion(state: EngineState, choice: Choice): Question | undefined {
  const { unit, tape, check } = choice;
  const finding = chosenFinding(state, choice);
  const isOpen = finding?.severity === "S" && (finding.verdict === "stops" || finding.verdict === "depends");
  if (!isOpen || state.busy || unit === undefined || tape === undefined || check === undefined) return undefined;
  return { kind: "cures", unit, tape, check };
}

import { spaced } from "@tapeworthy/core";
import { proofBar, toSvg } from "@tapeworthy/drawing";
import { useMemo } from "react";
import type { Answering } from "../ask/use-answer.ts";
import { Sharpening } from "../over/sharpening.tsx";
import { Written } from "../sheet/written.tsx";

/** What counted cycles may promise: three statements side by side, and how far it is. */
export function ProofView({ answering, width }: { readonly answering: Answering | undefined; readonly width: number }) {
  const proof = answering?.answer?.kind === "proof" ? answering.answer.proof : undefined;
  const svg = useMemo(() => {
    if (!proof) return "";
    const sum = (of: "run" | "failed") => proof.counts.units.reduce((all, u) => all + u[of], 0);
    return toSvg(
      proofBar({ unit: proof.unit, tapes: proof.counts.tapes, run: sum("run"), failed: sum("failed") }, { width }),
      { prefix: "proof" },
    );
  }, [proof, width]);
  if (!answering) return null;
  return (
    <section className="tw-panel proof" aria-label="Proof">
      <h3 className="part">
        Proof{" "}
        <span>
          {proof
            ? `${proof.unit}: ${proof.counts.units.length} built, ${proof.counts.reels} reels of ${proof.counts.tapes.join(", ")}`
            : ""}
        </span>
      </h3>
      {proof ? null : answering.answer?.kind === "none" ? (
        <p className="small">{answering.answer.why}</p>
      ) : answering.bug ? (
        <p className="warning">This went wrong: {answering.bug}.</p>
      ) : (
        <p className="small" role="status">
          Being worked out.
        </p>
      )}
      <Sharpening answering={answering} />
      {proof ? (
        <>
          <Written html={svg} />
          <table>
            <caption className="unseen">Three statements</caption>
            <tbody>
              {proof.statements.map(({ says, restsOn, oneIn }) => (
                <tr key={says}>
                  <th scope="row">
                    {says}
                    <small>{restsOn}</small>
                  </th>
                  <td className="end">
                    {oneIn === undefined ? (
                      "not said: the model gives no rate here"
                    ) : (
                      <>
                        fewer than <b>1 in {spaced(oneIn)}</b>
                      </>
                    )}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
          {proof.warnings.map((w) => (
            <p key={w} className="warning small">
              {w}.
            </p>
          ))}
          {proof.lines.map((line) => (
            <p key={line} className="small">
              {line}
            </p>
          ))}
          <p className="small">
            The cycles are worth {spaced(proof.promised.effectiveCycles)} independent ones. To be said: {proof.sentence}
            .
          </p>
          {proof.leftOut.map(({ trial, says }) => (
            <p key={trial} className="small">
              {trial} does not count: {says}.
            </p>
          ))}
        </>
      ) : null}
    </section>
  );
}

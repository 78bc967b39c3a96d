/** The answer, over every view: how long each treatment lasts, and whether that is of the study as it stands. */
import {Square} from "lucide-react";
import {ProgressBar} from "react-aria-components";
import type {ChangedLife} from "../../engine/life/index.ts";
import type {TreatmentLife} from "../../engine/life/types.ts";
import {beyondCap, governingRatio, governingReason, lifeText} from "../../report/live/index.ts";
import type {Fault} from "../../schema/index.ts";
import {isCurrent, studyIn, useAnswers} from "../state/answers.ts";
import {MOST_BY_ITSELF, solveNow, stopSolving} from "../state/follow.ts";
import {chooseFor, placeWords, viewOf} from "../state/places.ts";
import {useWorkbook} from "../state/workbook.ts";
import {Button} from "./Button.tsx";

export function Answers() {
  const {result, resultOf, quick, study, reading} = useAnswers();
  const present = useWorkbook(s => s.present);
  const fresh = isCurrent(resultOf, present);
  return (
    <section className="answers" aria-label="Lives">
      {fresh || !quick || !study
        ? result?.treatments.map(life => (
            <SolvedAnswer key={life.treatment.name} life={life} control={result.treatments[0]} isStale={!fresh} />
          ))
        : quick.map((life, k) => (
            <QuickAnswer
              key={study.study.treatments[k].name}
              name={study.study.treatments[k].name}
              life={life}
              control={quick[0]}
            />
          ))}
      <State isFresh={fresh} count={studyIn(reading)?.study.treatments.length ?? 0} />
    </section>
  );
}

function SolvedAnswer({
  life,
  control,
  isStale,
}: {
  readonly life: TreatmentLife;
  readonly control: TreatmentLife;
  readonly isStale: boolean;
}) {
  const text = lifeText(life.governing.life);
  const ratio = life === control ? null : governingRatio(life, control);
  return (
    <div
      className={`answer ${isStale ? "stale" : ""}`}
      title={isStale ? "Of the study before the last edits" : undefined}
    >
      <div className="name" title={life.treatment.name}>
        {life.treatment.name}
      </div>
      <div className="years">
        {text.short} <small>years</small> {ratio && <small className="muted">{ratio.text}</small>}
      </div>
      <div className="why muted" title={governingReason(life)}>
        {beyondCap(life.governing.life) ? "no mechanism ends it" : life.governing.mechanism}
      </div>
      {isStale && <span className="unseen">Out of date</span>}
    </div>
  );
}

/** By the last solution, at once; the exact one follows. */
function QuickAnswer({
  name,
  life,
  control,
}: {
  readonly name: string;
  readonly life: ChangedLife;
  readonly control: ChangedLife;
}) {
  const told = {years: life.years, passes: Number.NaN, standardAxles: Number.NaN, censored: life.censored};
  const isTold = life !== control && !life.censored && !control.censored && !beyondCap(told);
  return (
    <div className="answer" title="At once, by the last solution; the exact number follows">
      <div className="name" title={name}>
        {name}
      </div>
      <div className="years">
        ≈ {lifeText(told).short} <small>years</small>{" "}
        {isTold && <small className="muted">×{(life.years / control.years).toPrecision(2)}</small>}
      </div>
      <div className="why muted">{life.mechanism}</div>
    </div>
  );
}

/** One button for both: who has cancelled by a key still stands on it, and may begin anew. */
const ACT = "act";

function State({isFresh, count}: {readonly isFresh: boolean; readonly count: number}) {
  const reading = useAnswers(s => s.reading);
  if (reading === null)
    return (
      <div className="state muted" role="status">
        Reading…
      </div>
    );
  if (reading.kind === "faults")
    return (
      <div className="state">
        <FaultsTold faults={reading.faults} />
        {reading.unpriced && <Lives isFresh={isFresh} count={count} />}
      </div>
    );
  return (
    <div className="state">
      <Lives isFresh={isFresh} count={count} />
    </div>
  );
}

/** How many there are, and the way to the first of them. */
function FaultsTold({faults}: {readonly faults: readonly Fault[]}) {
  const raw = useWorkbook(s => s.raw);
  const [first] = faults;
  const view = viewOf(first);
  return (
    <>
      <span className="tag bad" role="status">
        {faults.length === 1 ? "1 fault" : `${faults.length} faults`} in the study
      </span>
      <a href={`#${view}`} className="small" onClick={() => chooseFor(raw, first)}>
        {placeWords(raw, first)}
      </a>
      {view !== "text" && faults.length > 1 && (
        <a href="#text" className="small">
          All of them, as text
        </a>
      )}
    </>
  );
}

function Lives({isFresh, count}: {readonly isFresh: boolean; readonly count: number}) {
  const {solving} = useAnswers();
  switch (solving.status) {
    case "running": {
      const percent = Math.floor(100 * solving.progress.done);
      return (
        <>
          <ProgressBar className="progress" value={percent} aria-label="Computing lives">
            <span className="small">
              Computing, {percent} % <span className="muted">{solving.progress.doing}</span>
            </span>
            <div className="bar">
              <div className="fill" style={{width: `${percent}%`}} />
            </div>
          </ProgressBar>
          <Button key={ACT} onPress={stopSolving}>
            <Square size={13} aria-hidden />
            Cancel
          </Button>
        </>
      );
    }
    case "failed":
      return (
        <>
          <span className="tag bad" role="status">
            Cannot be computed
          </span>
          <span className="small">{solving.message}</span>
          <Button key={ACT} onPress={solveNow}>
            Try again
          </Button>
        </>
      );
    default:
      if (isFresh)
        return (
          <>
            <span role="status" className="small muted">
              Lives of the study as it stands.
            </span>
            <span className="small muted">
              They support the judgement of a licensed engineer and local specifications, and never replace it.
            </span>
          </>
        );
      if (solving.status === "idle" && count <= MOST_BY_ITSELF)
        return (
          <span className="small muted" role="status">
            Edited: computed in a moment.
          </span>
        );
      return (
        <>
          <Button key={ACT} look="main" onPress={solveNow}>
            Compute lives
          </Button>
          <span className="small muted" role="status">
            {solving.status === "stopped"
              ? "Stopped; these lives are of an earlier study."
              : `${count} treatments: computed when you ask.`}
          </span>
        </>
      );
  }
}

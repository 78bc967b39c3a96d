/** What is wrong with rows and files, in the words of the command line. */
import {
  groupedFaults,
  type LaboratoryFault,
  type LaboratoryReading,
  leftOutLines,
} from "../../../schema/laboratory/index.ts";

export interface FaultGroupsProps {
  readonly faults: readonly LaboratoryFault[];
  readonly kind: "fault" | "warning";
}

export function FaultGroups({faults, kind}: FaultGroupsProps) {
  return groupedFaults(faults).map(({file, count, groups}) => (
    <div key={file} className={`note ${kind === "fault" ? "bad" : "warn"}`}>
      <h4>
        {count} {count === 1 ? kind : `${kind}s`} in {file}
      </h4>
      <ul className="laboratory-faults">
        {groups.map(({place, problem, found, accepted, suggestion}) => (
          <li key={`${place} ${problem}`}>
            <b>{place}</b>: {problem}
            <br />
            found {found}; accepted: {accepted}
            {suggestion !== null && (
              <>
                <br />
                {suggestion}
              </>
            )}
          </li>
        ))}
      </ul>
    </div>
  ));
}

/** Faults, the rows that were left out for them, and warnings. */
export function ReadingFaults({faults, warnings, refused}: LaboratoryReading) {
  return (
    <>
      <FaultGroups faults={faults} kind="fault" />
      {refused.length > 0 && (
        <div className="note bad">
          <h4>Left out for faults, {refused.length} in all</h4>
          <ul className="laboratory-faults">
            {leftOutLines(refused).map(line => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      )}
      <FaultGroups faults={warnings} kind="warning" />
    </>
  );
}

/** Sentences that qualify a result. */
export function Remarks({title, lines}: {readonly title: string; readonly lines: readonly string[]}) {
  if (lines.length === 0) return null;
  return (
    <div className="note warn">
      <h4>{title}</h4>
      <ul className="laboratory-faults">
        {lines.map(line => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}

/** The report as it is sent: the same that the command line writes. */
import {Download, Printer} from "lucide-react";
import {useEffect, useMemo, useRef, useState} from "react";
import type {LifeResult} from "../../../engine/life/types.ts";
import {livesCsv} from "../../../report/data/index.ts";
import {answer, CAUTION_LINE} from "../../../report/live/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Button} from "../../parts/Button.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isCurrent, useAnswers} from "../../state/answers.ts";
import {download} from "../../state/download.ts";
import {makeLifeReport} from "../../state/reports.ts";
import {useWorkbook} from "../../state/workbook.ts";

export default function Report() {
  const {result, resultOf, reading, readOf} = useAnswers();
  const present = useWorkbook(s => s.present);
  if (reading?.kind === "faults")
    return <p className="card empty">The study has faults: the report is made of a study without any.</p>;
  if (!result) return <p className="card empty">The report is made when the lives are computed.</p>;
  // The report tells the input's hash and warnings, which come with the reading.
  if (!isCurrent(resultOf, present) || !isCurrent(readOf, present))
    return (
      <p className="card empty">The study has been edited: the report follows when its lives are computed anew.</p>
    );
  return <Ready result={result} />;
}

function Ready({result}: {readonly result: LifeResult}) {
  const [text, setText] = useState("");
  const frame = useRef<HTMLIFrameElement>(null);
  useEffect(() => {
    let isLate = false;
    void makeLifeReport(result).then(made => !isLate && setText(made));
    return () => {
      isLate = true;
    };
  }, [result]);
  const {headline, details} = useMemo(() => answer(result), [result]);
  const name = fileWord(result.study.name, "study");
  return (
    <>
      <ViewHead title="Report">One HTML file that stands alone, prints on A4, and says what it was made from.</ViewHead>
      <section className="card stack" aria-label="Answer">
        <p style={{fontSize: 17, fontWeight: 600}}>{headline}</p>
        {details.map(line => (
          <p key={line}>{line}</p>
        ))}
        <p className="small muted">{CAUTION_LINE}</p>
        <div className="row no-print">
          <Button look="main" isDisabled={text === ""} onPress={() => download(`${name}.html`, text, "text/html")}>
            <Download size={15} aria-hidden />
            Download the report
          </Button>
          <Button isDisabled={text === ""} onPress={() => frame.current?.contentWindow?.print()}>
            <Printer size={15} aria-hidden />
            Print it
          </Button>
          <Button onPress={() => download(`${name}-lives.csv`, `\uFEFF${livesCsv(result)}`, "text/csv")}>
            Lives as CSV
          </Button>
        </div>
      </section>
      <iframe
        ref={frame}
        className="report-frame"
        title="Report"
        sandbox="allow-same-origin allow-modals"
        srcDoc={text}
      />
    </>
  );
}

/** Materials: each a form of its own, with the curve its stiffness comes from. */
import {Plus, Trash2} from "lucide-react";
import {useCallback, useMemo} from "react";
import {ListBox, ListBoxItem} from "react-aria-components";
import type {Material} from "../../../engine/section/types.ts";
import {type Canvas, type CurveView, masterCurveChart} from "../../../report/charts/index.ts";
import {masterCurveCsv} from "../../../report/data/index.ts";
import {fileWord} from "../../../schema/editing/index.ts";
import {Button} from "../../parts/Button.tsx";
import {NameBox} from "../../parts/Field.tsx";
import {PlotFrame} from "../../parts/PlotFrame.tsx";
import {FaultsAt, SchemaForm} from "../../parts/SchemaForm.tsx";
import {ViewHead} from "../../parts/ViewHead.tsx";
import {isWithin, useAnswers, useFaults} from "../../state/answers.ts";
import {keysAt, listAt, textAt, valueAt} from "../../state/value.ts";
import {useCursor} from "../../state/view.ts";
import {edit, useWorkbook} from "../../state/workbook.ts";
import "../../style/plot.css";

export default function Materials() {
  const raw = useWorkbook(s => s.raw);
  const names = keysAt(raw, ["materials"]);
  const wanted = useCursor(s => s.material);
  const faults = useFaults();
  const choose = (material: string): void => useCursor.setState({material});
  const name = wanted !== null && names.includes(wanted) ? wanted : (names[0] ?? null);
  return (
    <>
      <ViewHead title="Materials">
        Stiffness, laws of crack growth and fatigue. What the laboratory found comes here as a law file.
      </ViewHead>
      <div className="side">
        <div className="card stack">
          <ListBox
            aria-label="Materials"
            className="names"
            selectionMode="single"
            disallowEmptySelection
            selectedKeys={name === null ? [] : [name]}
            onSelectionChange={keys => keys !== "all" && choose(String([...keys][0]))}
          >
            {names.map(own => (
              <ListBoxItem key={own} id={own} className="item" textValue={own}>
                {own}
                <small>
                  {textAt(raw, ["materials", own, "kind"])}
                  {faults.some(f => isWithin(f, ["materials", own])) && <b className="mark"> has faults</b>}
                </small>
              </ListBoxItem>
            ))}
          </ListBox>
          <Button onPress={() => choose(addMaterial())}>
            <Plus size={14} aria-hidden />
            Add a material
          </Button>
        </div>
        {name === null ? (
          <p className="card empty">There is no material yet.</p>
        ) : (
          <MaterialCard key={name} name={name} onRename={choose} />
        )}
      </div>
    </>
  );
}

function addMaterial(): string {
  const names = keysAt(useWorkbook.getState().raw, ["materials"]);
  let name = "new material";
  for (let k = 2; names.includes(name); k++) name = `new material ${k}`;
  edit("add material", [
    {path: ["materials", name], value: {kind: "granular", modulus_MPa: 200, poisson: 0.35, source: "not stated"}},
  ]);
  return name;
}

function MaterialCard({name, onRename}: {readonly name: string; readonly onRename: (name: string) => void}) {
  const raw = useWorkbook(s => s.raw);
  const users = usersOf(raw, name);
  return (
    <div className="stack">
      <div className="card stack">
        <div className="row" style={{alignItems: "end"}}>
          <div style={{flex: 1}}>
            <NameBox
              kind="material"
              home={["materials", name]}
              name={name}
              taken={keysAt(raw, ["materials"])}
              onRename={onRename}
            />
          </div>
          <Button
            isDisabled={users.length > 0}
            onPress={() => edit(`remove ${name}`, [{path: ["materials", name], value: undefined}])}
          >
            <Trash2 size={14} aria-hidden />
            Remove
          </Button>
        </div>
        <p className="small muted">{users.length > 0 ? `Used by ${users.join(", ")}.` : "Not used by any layer."}</p>
        <FaultsAt path={["materials", name]} />
        <SchemaForm path={["materials", name]} />
      </div>
      <Curve name={name} />
    </div>
  );
}

/** Layers and treatments that are of a material. */
function usersOf(raw: unknown, material: string): string[] {
  const layers = listAt(raw, ["section", "layers"]).filter(l => textAt(l, ["material"]) === material);
  const treatments = listAt(raw, ["treatments"]).filter(t =>
    JSON.stringify(valueAt(t, ["changes"]) ?? {}).includes(`"material":${JSON.stringify(material)}`),
  );
  return [...layers, ...treatments].map(entry => textAt(entry, ["name"]));
}

function Curve({name}: {readonly name: string}) {
  const study = useAnswers(s => s.study?.study);
  const material: Material | undefined = study?.treatments
    .flatMap(t => t.section.layers.map(l => l.material))
    .find(m => m.name === name);
  const source = material?.masterCurve ?? null;
  const view = useMemo(
    (): CurveView | null => source && {curve: source.curve, points: source.points, prony: source.prony},
    [source],
  );
  const draw = useCallback((canvas: Canvas) => (view ? masterCurveChart(view, canvas) : ""), [view]);
  if (!view) return null;
  return (
    <div className="card">
      <PlotFrame
        title="Stiffness against reduced frequency"
        name={`${fileWord(name, "material")}-master-curve`}
        draw={draw}
        csv={() => masterCurveCsv(view)}
        note={
          source!.origin === "tests"
            ? `Fitted to ${source!.points.length} readings of ${source!.file}.`
            : `From ${source!.origin}.`
        }
      />
    </div>
  );
}

/** What is chosen on the drawing, as fields: a layer, the joint, or a treatment. */
import {Copy, Plus, Trash2, X} from "lucide-react";
import {Button, IconButton} from "../../parts/Button.tsx";
import {Check} from "../../parts/Check.tsx";
import {NameBox, NumberBox, WordsBox} from "../../parts/Field.tsx";
import {MaterialBox} from "../../parts/MaterialBox.tsx";
import {FaultsAt, SchemaForm} from "../../parts/SchemaForm.tsx";
import {useAnswers} from "../../state/answers.ts";
import {keysAt, listAt, type Path, textAt, useValue, valueAt} from "../../state/value.ts";
import {useCursor} from "../../state/view.ts";
import {edit, useWorkbook} from "../../state/workbook.ts";
import {
  addLayerBelow,
  addTreatment,
  changesOf,
  LAYERS,
  makeControl,
  placeOfChange,
  placeOfLayer,
  removeLayer,
  removeTreatment,
  toggle,
} from "./edits.ts";

export function Inspector() {
  const selection = useCursor(s => s.selection);
  return (
    <aside className={`card inspector stack ${selection ? "chosen" : ""}`} aria-label="What is chosen">
      {selection && (
        <div className="close">
          <IconButton label="Choose nothing" onPress={() => useCursor.setState({selection: null})}>
            <X size={16} aria-hidden />
          </IconButton>
        </div>
      )}
      {selection === null ? (
        <>
          <h2>Nothing is chosen</h2>
          <p className="muted">
            Click a layer, the joint, or “Edit” beside a treatment’s name to change it here. The line below a layer can
            be dragged, or moved with the arrow keys.
          </p>
          <StudyFields />
        </>
      ) : selection.kind === "joint" ? (
        <JointFields />
      ) : selection.kind === "treatment" ? (
        <TreatmentFields key={selection.treatment} treatment={selection.treatment} />
      ) : (
        <LayerFields
          key={`${selection.treatment} ${selection.name}`}
          name={selection.name}
          treatment={selection.treatment}
        />
      )}
    </aside>
  );
}

function StudyFields() {
  return (
    <div className="fields">
      <WordsBox path={["name"]} label="Name of the study" className="whole" />
      <NumberBox path={["analysis_period_years"]} label="Analysis period" />
    </div>
  );
}

function JointFields() {
  return (
    <>
      <h2>Joint or crack</h2>
      <p className="small muted">Through the jointed layers, of every treatment that does not say otherwise.</p>
      <SchemaForm path={["section", "joint"]} />
      <h3>Where it stands</h3>
      <SchemaForm path={["section"]} without={["layers", "joint"]} />
    </>
  );
}

function LayerFields({name, treatment}: {readonly name: string; readonly treatment: number}) {
  const raw = useWorkbook(s => s.raw);
  const section = useAnswers(s => s.study?.study.treatments[treatment]?.section);
  const role = section?.layers.find(l => l.name === name)?.role;
  // Parts of one layer carry its name with their number.
  const whole = placeOfLayer(raw, name) >= 0 ? name : name.replace(/ \d+(?: of \d+|\/\d+)?$/, "");
  const place = placeOfLayer(raw, whole);
  const treatmentName = textAt(raw, ["treatments", treatment, "name"]);
  if (role === "interlayer") {
    const path: Path = [...changesOf(treatment), "interlayer"];
    return (
      <>
        <h2>Interlayer</h2>
        <p className="small muted">Of “{treatmentName}”.</p>
        <SchemaForm path={path} />
      </>
    );
  }
  if (place < 0) return <p className="muted">This layer is no longer there.</p>;
  const count = listAt(raw, LAYERS).length;
  return (
    <>
      <h2>{whole}</h2>
      <p className="small muted">Of the section, and so of every treatment that does not change it.</p>
      <NameBox
        kind="layer"
        home={[...LAYERS, place]}
        name={whole}
        taken={listAt(raw, LAYERS).map(l => textAt(l, ["name"]))}
        onRename={next => {
          const {selection} = useCursor.getState();
          if (selection?.kind === "layer") useCursor.setState({selection: {...selection, name: next}});
        }}
      />
      <SchemaForm path={[...LAYERS, place]} without={["name"]} />
      <div className="row">
        <Button onPress={() => addLayerBelow(whole)}>
          <Plus size={14} aria-hidden />
          Another below
        </Button>
        <Button
          isDisabled={count <= 2}
          onPress={() => {
            removeLayer(whole);
            useCursor.setState({selection: null});
          }}
        >
          <Trash2 size={14} aria-hidden />
          Remove
        </Button>
      </div>
      {treatment > 0 && <OwnLayer name={whole} treatment={treatment} treatmentName={treatmentName} />}
    </>
  );
}

/** What this treatment alone has otherwise in a layer. */
function OwnLayer({
  name,
  treatment,
  treatmentName,
}: {
  readonly name: string;
  readonly treatment: number;
  readonly treatmentName: string;
}) {
  const raw = useWorkbook(s => s.raw);
  const own = placeOfChange(raw, treatment, name);
  const list: Path = [...changesOf(treatment), "layers"];
  const next = listAt(raw, list).length;
  return (
    <section className="stack">
      <Check
        isSelected={own >= 0}
        onChange={isOwn =>
          edit(`${name} in ${treatmentName}`, [
            isOwn
              ? {path: [...list, next], value: {name}}
              : {path: next === 1 ? list : [...list, own], value: undefined},
          ])
        }
      >
        Otherwise in “{treatmentName}” alone
      </Check>
      {own >= 0 && (
        <div className="fields">
          <NumberBox path={[...list, own, "thickness_mm"]} label="Thickness there" isOptional />
          <MaterialBox path={[...list, own, "material"]} label="Material there" />
        </div>
      )}
    </section>
  );
}

function TreatmentFields({treatment}: {readonly treatment: number}) {
  const raw = useWorkbook(s => s.raw);
  const path: Path = ["treatments", treatment];
  const count = listAt(raw, ["treatments"]).length;
  const changes = changesOf(treatment);
  const interlayerMaterial = keysAt(raw, ["materials"]).find(
    m => textAt(raw, ["materials", m, "kind"]) === "interlayer",
  );
  const hasInterlayer = valueAt(raw, [...changes, "interlayer"]) !== undefined;
  const hasGrid = useValue([...changes, "reinforcement"]) !== undefined;
  if (treatment >= count) return <p className="muted">This treatment is no longer there.</p>;
  return (
    <>
      <h2>Treatment {treatment + 1}</h2>
      <FaultsAt path={path} />
      <NameBox
        kind="treatment"
        home={path}
        name={textAt(raw, [...path, "name"])}
        taken={listAt(raw, ["treatments"]).map(t => textAt(t, ["name"]))}
      />
      <div className="fields">
        <WordsBox path={[...path, "description"]} label="Description" className="whole" isOptional />
      </div>
      <Check
        isSelected={hasInterlayer}
        onChange={() =>
          toggle("interlayer", [...changes, "interlayer"], {
            material: interlayerMaterial ?? "",
            thickness_mm: 10,
            within_overlay: true,
          })
        }
      >
        Interlayer
      </Check>
      {hasInterlayer && <SchemaForm path={[...changes, "interlayer"]} />}
      <Check
        isSelected={hasGrid}
        onChange={() =>
          toggle("reinforcement", [...changes, "reinforcement"], {
            name: "grid",
            position: "below overlay",
            stiffness_kN_per_m: 3000,
            bond_length_mm: 80,
          })
        }
      >
        Grid or mesh
      </Check>
      {hasGrid && <SchemaForm path={[...changes, "reinforcement"]} />}
      <SchemaForm path={changes} without={["interlayer", "reinforcement", "layers"]} />
      <div className="row">
        <Button onPress={() => addTreatment(treatment)}>
          <Copy size={14} aria-hidden />
          Another like it
        </Button>
        <Button
          isDisabled={treatment === 0}
          onPress={() => {
            makeControl(treatment);
            useCursor.setState({selection: {kind: "treatment", treatment: 0}});
          }}
        >
          Make it the control
        </Button>
        <Button
          isDisabled={count <= 1}
          onPress={() => {
            removeTreatment(treatment);
            useCursor.setState({selection: null});
          }}
        >
          <Trash2 size={14} aria-hidden />
          Remove
        </Button>
      </div>
    </>
  );
}

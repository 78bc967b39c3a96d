/** What if: factors on traffic, loads, temperature swings and laws; lives at once, the study itself untouched. */
import {RotateCcw} from "lucide-react";
import {useEffect, useState} from "react";
import {Label, Slider, SliderOutput, SliderThumb, SliderTrack} from "react-aria-components";
import {useShallow} from "zustand/react/shallow";
import type {ChangedLife} from "../../../engine/life/index.ts";
import {figures, lifeText} from "../../../report/live/index.ts";
import {Button} from "../../parts/Button.tsx";
import {PlainTable} from "../../parts/PlainTable.tsx";
import {useAnswers} from "../../state/answers.ts";
import {computer} from "../../state/computer.ts";
import {AS_IN_THE_STUDY, useAsked} from "../../state/view.ts";
import type {WhatIf} from "../../worker/channel.ts";

export function WhatIfPanel() {
  const {result, solution} = useAnswers(useShallow(s => ({result: s.result, solution: s.solution})));
  const factors = useAsked(s => s.factors);
  const setFactors = (next: WhatIf): void => useAsked.setState({factors: next});
  const [lives, setLives] = useState<readonly ChangedLife[] | null>(null);
  useEffect(() => {
    let isLate = false;
    if (result)
      void computer()
        .whatIf(solution, factors)
        .then(found => !isLate && setLives(found));
    return () => {
      isLate = true;
    };
  }, [factors, result, solution]);
  if (!result) return null;
  const materials = [
    ...new Set(
      result.treatments.flatMap(t =>
        t.treatment.section.layers.flatMap(l => (l.material.growth ? [l.material.name] : [])),
      ),
    ),
  ];
  return (
    <section className="card stack" aria-label="What if">
      <div className="title">
        <h3>What if</h3>
        <Button look="bare" onPress={() => setFactors(AS_IN_THE_STUDY)}>
          <RotateCcw size={14} aria-hidden />
          As in the study
        </Button>
      </div>
      <Factor
        label="Passes of all loads"
        value={factors.passes}
        most={10}
        onChange={passes => setFactors({...factors, passes})}
      />
      <Factor
        label="Loads, same contact areas"
        value={factors.loads}
        most={2}
        onChange={loads => setFactors({...factors, loads})}
      />
      <Factor
        label="Swings of temperature"
        value={factors.temperatures}
        most={2}
        onChange={temperatures => setFactors({...factors, temperatures})}
      />
      {materials.map(name => (
        <Factor
          key={name}
          label={`Crack growth in ${name}`}
          value={factors.coefficients[name] ?? 1}
          most={10}
          onChange={value => setFactors({...factors, coefficients: {...factors.coefficients, [name]: value}})}
        />
      ))}
      <PlainTable
        isLive
        columns={[
          {title: "Treatment"},
          {title: "Life then, years", isNumber: true},
          {title: "In the study", isNumber: true},
          {title: "Ends by"},
        ]}
        rows={(lives ?? []).map(({years, censored, mechanism}, k) => {
          const told = {years, passes: Number.NaN, standardAxles: Number.NaN, censored};
          const own = result.treatments[k];
          return {
            key: own?.treatment.name ?? k,
            cells: [
              own?.treatment.name,
              lifeText(told).short,
              own && <span className="muted">{lifeText(own.governing.life).short}</span>,
              mechanism,
            ],
          };
        })}
      />
    </section>
  );
}

interface FactorProps {
  readonly label: string;
  readonly value: number;
  readonly most: number; // and its inverse
  readonly onChange: (value: number) => void;
}

/** A factor by equal ratios about 1. */
function Factor({label, value, most, onChange}: FactorProps) {
  const limit = Math.log10(most);
  return (
    <Slider
      className="slider"
      minValue={-limit}
      maxValue={limit}
      step={limit / 50}
      value={Math.log10(value)}
      onChange={next => onChange(Number((10 ** (next as number)).toPrecision(3)))}
    >
      <Label style={{width: 205}}>{label}</Label>
      <SliderTrack className="track">
        <SliderThumb className="thumb" />
      </SliderTrack>
      <SliderOutput style={{minWidth: 52, textAlign: "right"}}>×{figures(value, 3)}</SliderOutput>
    </Slider>
  );
}

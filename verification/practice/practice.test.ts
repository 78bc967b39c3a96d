import {describe, test} from "vitest";
import {lifeOf, type Scenario, type Study} from "../../src/engine/life/index.ts";
import {verificationTable} from "../table.ts";
import {type Interlayer, road, singleWheel, stiffApron, study, typicalYear} from "./sections.ts";

const table = verificationTable(
  "practice",
  "Facts of the trade",
  `What practitioners agree on, without a source that could be cited: loose bounds, to recognise a model that has gone
wrong, and no proof of one that has not. Lives are those of reflection by one cause alone, moduli constant. The
interlayer is 10 mm, 400 MPa under wheels, 10 MPa under a day's temperature cycle; *toughness* says how many times slower
its crack grows than the overlay's at the same strain. What the model says beyond these bounds is told in
[theory/life.md](../theory/life.md).`,
);

function gain(s: Study, scenario: Scenario): number {
  const lives = lifeOf(s).treatments.map(t => t.histories.find(h => h.scenario === scenario)!.life.years);
  return lives[1] / lives[0];
}

const PRACTICE = {source: "common practice, no source", standing: "practice", unit: "–"} as const;
const tough: Interlayer = {thickness: 0.01, added: true, toughness: 3000};
const within: Interlayer = {thickness: 0.01, added: false, toughness: 300};

describe("facts of the trade", () => {
  test("a soft interlayer multiplies the thermal life by more than ten", () => {
    const computed = gain(study([road(0.08, false, null), road(0.08, false, within)], null, typicalYear()), "thermal");
    const name = "thermal life, interlayer within ÷ none, 80 mm on a cemented base, toughness 300";
    table.between({...PRACTICE, name, computed, low: 10, high: Infinity});
  });

  test("on a thin overlay over a weak cemented base a tough one multiplies the traffic life by two to ten", () => {
    const wheel = singleWheel(40e3, 0.7e6, 0.25);
    const computed = gain(study([road(0.05, true, null), road(0.05, true, tough)], wheel, null), "traffic");
    const name = "traffic life, interlayer added ÷ none, 50 mm on a weak cemented base, toughness 3000";
    table.between({...PRACTICE, name, computed, low: 2, high: 10});
  });

  test("on a stiff slab the traffic gain vanishes only with interlock of the crack faces", () => {
    table.heading("An open question: traffic on a stiff slab, 120 mm on 300 mm of concrete, 70 % load transfer");
    const wheel = singleWheel(200e3, 1.4e6, 0.77);
    const bounds: [interlock: number, weight: number, low: number, high: number][] = [
      [0, 1, 1.5, Infinity],
      [50, 1, 0, 2],
      [200, 1, 0, 1.5],
      [0, 0.1, 0, Infinity],
    ];
    for (const [interlock, weight, low, high] of bounds) {
      const sections = [null, within].map(i => stiffApron(i, interlock * 1e9, weight));
      const computed = gain(study(sections, wheel, null), "traffic");
      const name = `traffic life, interlayer within ÷ none; interlock ${interlock} MPa/mm, shear weight ${weight}`;
      table.between({...PRACTICE, name, computed, low, high});
    }
  });
});

table.page();

/** The equations as used, numbered, each with what its symbols mean and where it comes from. Full derivations: docs/theory. */

import {type Html, html} from "./html.ts";
import {display, fraction, gap, i, integral, mean, n, o, root, round, row, sub, subsup, sum, sup} from "./mathml.ts";

/** Short bibliography; a text cites [1], [2] … in this order. */
export const REFERENCES: readonly string[] = [
  "Wilson, E. L. (1965). Structural analysis of axisymmetric solids. AIAA Journal 3(12), 2269–2274.",
  "Zienkiewicz, O. C.; Taylor, R. L. The Finite Element Method, chapter on semi-analytical processes. Butterworth-Heinemann.",
  "Taylor, D. (2007). The Theory of Critical Distances: A New Perspective in Fracture Mechanics. Elsevier.",
  "Paris, P.; Erdogan, F. (1963). A critical analysis of crack propagation laws. Journal of Basic Engineering 85(4), 528–533.",
  "Rybicki, E. F.; Kanninen, M. F. (1977). A finite element calculation of stress intensity factors by a modified crack closure integral. Engineering Fracture Mechanics 9(4), 931–938.",
  "ASTM E1049-85. Standard Practices for Cycle Counting in Fatigue Analysis. ASTM International.",
  "Burmister, D. M. (1943). The theory of stresses and displacements in layered systems and applications to the design of airport runways. Proceedings of the Highway Research Board 23, 126–144.",
  "Carslaw, H. S.; Jaeger, J. C. (1959). Conduction of Heat in Solids, 2nd ed. Oxford University Press.",
];

/** Function application: sets the space between cos and its argument. */
const APPLY = "\u2061";

const strain = sub(i("ε"), i("tip"));
const effective = sup(i("E"), o("′"));
const hatted = i("û");

function where(text: Html): Html {
  return html`<p class="where">${text}</p>`;
}

function mechanics(): Html {
  return html`
  <h3>Response of the jointed pavement</h3>
  <p>The pavement is the same at every point along the joint; only the load varies. Displacements are expanded along the joint (y), and each
  wavenumber β is a separate problem in the plane of travel and depth, solved with quadratic finite elements [1, 2].</p>
  ${display(1, i("u"), o("="), i("U"), round(i("x"), o(","), i("z")), i("cos"), o(APPLY), i("β"), i("y"), o(","), gap, i("v"), o("="), i("V"), round(i("x"), o(","), i("z")), i("sin"), o(APPLY), i("β"), i("y"), o(","), gap, i("w"), o("="), i("W"), round(i("x"), o(","), i("z")), i("cos"), o(APPLY), i("β"), i("y"))}
  ${where(html`u, v, w: displacement along travel, along the joint, and downward.`)}
  ${display(2, i("u"), round(i("y")), o("="), fraction(n("1"), i("π")), integral(n("0"), o("∞")), row(hatted, round(i("β")), i("cos"), o(APPLY), i("β"), i("y"), i("d"), i("β")))}
  ${where(html`Response at y to a wheel whose transform along y is 2b·p·sin(βb)/(βb), with p its pressure and 2b its width. Every state of every crack follows
  from the forces on the line above the joint; cracks and tight joints close where a wheel presses them together. Energy release rates, by virtual crack closure [5],
  check the tractions.`)}`;
}

function crack(): Html {
  const traction = (symbol: string, a: string, b: string) => sub(i(symbol), row(i(a), i(b)));
  return html`
  <h3>What drives the crack</h3>
  ${display(3, strain, o("="), fraction(n("1"), effective), root(subsup(mean(sub(i("σ"), i("x"))), o("+"), n("2")), o("+"), i("s"), round(sup(mean(traction("τ", "x", "z")), n("2")), o("+"), fraction(sup(mean(traction("τ", "x", "y")), n("2")), row(n("1"), o("−"), i("ν"))))), o(","), gap, effective, o("="), fraction(i("E"), row(n("1"), o("−"), sup(i("ν"), n("2")))))}
  ${where(html`Tip strain. ⟨ ⟩: mean over the process zone of length d ahead of the tip, the line method of the theory of critical distances [3]; only tension opens (+).
  E, ν: modulus and Poisson’s ratio of the layer the tip is in; s: weight of shear. For a long crack it is K·√(2/(πd))/E′, so that the law below is Paris’ law with the same exponent [4].`)}
  ${display(4, fraction(row(i("d"), i("c")), row(i("d"), i("N"))), o("="), i("A"), sup(round(fraction(i("E"), sub(i("E"), n("0")))), i("m")), sup(strain, i("n")))}
  ${where(html`Growth per cycle. A, n: the material’s law, valid only with its own d; (E/E₀)<sup>m</sup>: stiffness shift where the law has one. The cycles of a pass
  and of the temperature record are counted by rainflow [6].`)}
  ${display(5, fraction(row(i("d"), i("c")), row(i("d"), i("t"))), o("="), sum(i("k")), sub(i("N"), i("k")), round(i("t")), sum(i("j")), sub(i("w"), i("j")), sub(round(fraction(row(i("d"), i("c")), row(i("d"), i("N")))), row(i("k"), i("j"))), o("+"), sub(round(fraction(row(i("d"), i("c")), row(i("d"), i("t")))), i("thermal")))}
  ${where(html`Growth in time t: load classes k with N<sub>k</sub> passes a year, temperature bins j with share w<sub>j</sub> of them, at the worst offset along the joint after lateral wander. Fronts
  from the joint, from above the interlayer and from the surface advance together; the life ends when they meet.`)}`;
}

function temperature(): Html {
  const gradient = fraction(row(o("∂"), i("T")), row(o("∂"), i("z")));
  return html`
  <h3>Temperature</h3>
  ${display(6, i("ρ"), sub(i("c"), i("p")), fraction(row(o("∂"), i("T")), row(o("∂"), i("t"))), o("="), fraction(o("∂"), row(o("∂"), i("z"))), round(i("λ"), gradient))}
  ${where(html`Conduction of heat through the layers [8]; ρ density, c<sub>p</sub> heat capacity, λ conductivity; at the surface either the given temperature or the balance of sun, long-wave radiation and air.`)}
  ${display(7, mean(sub(i("σ"), i("x"))), round(i("t")), o("="), sub(i("a"), n("1")), row(i("Δ"), sub(i("T"), i("slab"))), o("+"), sub(i("a"), n("2")), gradient, o("+"), sub(i("a"), n("3")), row(i("Δ"), sub(i("T"), i("overlay"))))}
  ${where(html`Tension ahead of the tip at any hour, for equation 3, is the sum of three unit cases a₁ to a₃: mean temperature and gradient of the jointed layer, mean temperature of the overlay, with friction below and relaxed moduli of every asphalt layer.
  Where a layer relaxes further over the seasons than over a day, the mean of the temperatures over 30 days and what is left of them each have moduli of their own, and their strains add.`)}
  ${display(8, row(i("Δ"), sub(i("u"), i("free"))), o("="), i("α"), i("L"), row(i("Δ"), i("T")))}
  ${where(html`Free movement of a joint at spacing L, the check on the movement with friction.`)}`;
}

function ordinary(): Html {
  return html`
  <h3>Ordinary mechanisms and traffic</h3>
  ${display(9, i("N"), o("="), sup(n("10"), n("6")), sup(round(fraction(sub(i("ε"), n("6")), i("ε"))), i("k")))}
  ${where(html`Fatigue away from the joint, with ε from the multilayer elastic solution of the uncut section [7], damage summed over classes and bins.`)}
  ${display(10, sub(i("N"), i("std")), o("="), sum(i("k")), sub(i("N"), i("k")), sup(round(fraction(sub(i("P"), i("k")), sub(i("P"), i("std")))), n("4")))}
  ${where(html`Fourth-power law: used only to tell lives in standard axles, never to sum damage.`)}`;
}

/** All equations with their numbers. */
export function equationsPart(): Html {
  return html`${mechanics()}${crack()}${temperature()}${ordinary()}`;
}

export function referencesPart(): Html {
  return html`<ol class="references">${REFERENCES.map(r => html`<li>${r}</li>`)}</ol>`;
}

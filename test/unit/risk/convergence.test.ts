import {expect, test} from "vitest";
import {Cancelled} from "../../../src/engine/errors.ts";
import {isSmall} from "../../../src/engine/risk/convergence.ts";
import {
  type Block,
  type ConvergencePlan,
  censoredAt,
  type ErrorSource,
  points,
  quantileOf,
  runUntil,
  type SampledLife,
} from "../../../src/engine/risk/index.ts";

const quantile = quantileOf({kind: "lognormal", median: 20, coefficientOfVariation: 0.6});
const s = Math.sqrt(Math.log(1.36)); // deviation of ln life
const lives = ({replicate, skip, count}: Block): SampledLife[] =>
  Array.from(points("sobol", {dimensions: 1, count, seed: 100 + replicate, skip}), u => ({
    years: quantile(u),
    censored: false,
  }));
const plan: ConvergencePlan = {
  target: {kind: "life", reliability: 0.9},
  error: 0.02,
  first: 32,
  most: 100_000,
  replicates: 1,
};

test("blocks double until the error is small enough", async () => {
  const asked: Block[] = [];
  const {
    outcome,
    trace,
    lives: all,
  } = await runUntil(plan, block => {
    asked.push(block);
    return lives(block);
  });
  expect(outcome).toBe("reached");
  expect(asked.slice(0, 4).map(({skip, count}) => [skip, count])).toEqual([
    [0, 32],
    [32, 32],
    [64, 64],
    [128, 128],
  ]);
  expect(trace.map(step => step.samples).slice(0, 4)).toEqual([32, 64, 128, 256]);
  expect(trace.slice(0, -1).every(step => step.error === null || step.error >= 0.02)).toBe(true);
  const last = trace.at(-1)!;
  expect(last.error).toBeLessThan(0.02);
  expect(all[0].length).toBe(last.samples);
  expect(last.value).toBeCloseTo(Math.log(20) - 1.2815515655 * s, 1); // Φ⁻¹(0.9), tables, from memory
});

test("replicates tell the error of Sobol points, which is much smaller", async () => {
  const alone = await runUntil(plan, lives);
  const {outcome, trace, lives: all} = await runUntil({...plan, replicates: 8}, lives);
  expect(outcome).toBe("reached");
  expect(all.length).toBe(8);
  const last = trace.at(-1)!;
  expect(last.samples).toBeLessThan(alone.trace.at(-1)!.samples);
  expect(Math.abs(last.value! - (Math.log(20) - 1.2815515655 * s))).toBeLessThan(4 * 0.02);
});

test("it stops at the most samples, and says so", async () => {
  const {outcome, trace} = await runUntil({...plan, error: 1e-9, most: 300}, lives);
  expect(outcome).toBe("most samples");
  expect(trace.at(-1)?.samples).toBe(256);
});

test("a life surely beyond the horizon is not searched for ever", async () => {
  const cut = (block: Block) => censoredAt(lives(block), 5);
  const {outcome, trace} = await runUntil({...plan, target: {kind: "life", reliability: 0.5}}, cut);
  expect(outcome).toBe("beyond horizon");
  expect(trace).toEqual([{samples: 32, value: null, error: null, errorFrom: "independent samples"}]);
});

test("a life close to the horizon is not given up", async () => {
  // 52 % live longer than 20·exp(−0.05·s); asked for is the life that 51 % exceed, a little longer.
  const cut = (block: Block) => censoredAt(lives(block), 20 * Math.exp(-0.05 * s));
  const {outcome} = await runUntil({...plan, target: {kind: "life", reliability: 0.51}, most: 2000}, cut);
  expect(outcome).toBe("most samples");
});

test("an error told by replicates is widened, and not believed alone or when it fell to less than half", async () => {
  const small = (errors: number[], errorFrom: ErrorSource = "replicates") =>
    isSmall(
      errors.map((error, i) => ({samples: 2 ** i, value: 1, error, errorFrom})),
      {error: 0.06, replicates: 4},
    );
  // t(0.95; 3)/Φ⁻¹(0.95) = 2.3534/1.6449 = 1.4308 (tables, from memory): 0.06/1.4308 = 0.04194
  expect(small([0.08, 0.0419])).toBe(true);
  expect(small([0.08, 0.042])).toBe(false);
  expect(small([0.0838, 0.01])).toBe(true);
  expect(small([0.084, 0.01])).toBe(false);
  expect(small([0.01])).toBe(false);
  expect(small([0.059], "independent samples")).toBe(true);
  const {trace} = await runUntil({...plan, error: 10, replicates: 4}, lives);
  expect(trace.length).toBe(2);
});

test("the probability of surviving, also where none is lost", async () => {
  const target = {kind: "survival", years: 20} as const;
  const half = await runUntil({...plan, target}, lives);
  expect(half.trace.at(-1)?.value).toBeCloseTo(0.5, 2);
  expect(half.trace.at(-1)?.samples).toBe(1024); // √(¼/n) < 0.02 at n > 625
  const all = await runUntil({...plan, target: {kind: "survival", years: 0.5}}, lives);
  expect(all.trace.length).toBeGreaterThan(1); // 32 of 32 are not enough
  expect(all.outcome).toBe("reached");
});

test("replicates that all agree are not taken for certain", async () => {
  const target = {kind: "survival", years: 0.5} as const; // none of the first samples is lost
  const {trace} = await runUntil({...plan, target, replicates: 4, first: 8, error: 0.01}, lives);
  expect(trace[0]).toMatchObject({value: 1, errorFrom: "independent samples"});
  expect(trace[0].error).toBeGreaterThan(0.01);
});

test("a block of any length", async () => {
  const many = {...plan, first: 200_000, most: 200_000};
  const {lives: all} = await runUntil(many, ({count}) => Array(count).fill({years: 5, censored: false}));
  expect(all[0].length).toBe(200_000);
});

test("progress may cancel; what cannot be is refused", async () => {
  await expect(runUntil(plan, lives, () => false)).rejects.toThrow(Cancelled);
  await expect(runUntil(plan, () => [])).rejects.toThrow("evaluate(block).length: got 0, need 32");
  for (const [change, message] of [
    [{error: 0}, "error: got 0, need finite, > 0"],
    [{error: Number.NaN}, "error"],
    [{first: 0}, "first"],
    [{replicates: 1.5}, "replicates"],
    [{most: 10}, "most: got 10, need ≥ 32"],
    [{target: {kind: "life", reliability: 1}}, "target.reliability"],
    [{target: {kind: "survival", years: -1}}, "target.years"],
  ] as const)
    await expect(runUntil({...plan, ...change}, lives)).rejects.toThrow(message);
});

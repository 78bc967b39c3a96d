import fc from "fast-check";
import {expect, test} from "vitest";
import {frontierOf} from "../../../src/engine/survey/index.ts";

test("designs that no other beats, by definition; in order of both cost and life", () => {
  const design = fc.record({life: fc.integer({min: 1, max: 30}), cost: fc.integer({min: 1, max: 30})});
  fc.assert(
    fc.property(fc.array(design), designs => {
      const frontier = frontierOf(designs);
      for (const d of designs) expect(frontier.some(f => f.life >= d.life && f.cost <= d.cost)).toBe(true);
      for (const f of frontier) {
        const beats = designs.some(d => d.life >= f.life && d.cost <= f.cost && (d.life > f.life || d.cost < f.cost));
        expect(beats).toBe(false);
      }
      frontier.slice(1).forEach((f, k) => {
        expect(f.life).toBeGreaterThan(frontier[k].life);
        expect(f.cost).toBeGreaterThan(frontier[k].cost);
      });
    }),
  );
});

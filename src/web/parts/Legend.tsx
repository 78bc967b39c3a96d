import {SERIES} from "../../report/laboratory/index.ts";

const MARKS: Readonly<Record<(typeof SERIES)[number]["symbol"], string>> = {
  circle: "M6 2a4 4 0 1 1 0 8 4 4 0 1 1 0-8z",
  square: "M2.5 2.5h7v7h-7z",
  triangle: "M6 1.5 10.5 10h-9z",
  diamond2: "M6 1 11 6 6 11 1 6z",
};

/** Names of series with their marks; a picture like the charts, so that dark pages colour it like them. */
export function Legend({names}: {readonly names: readonly string[]}) {
  return (
    <span className="plot-picture legend">
      {names.map((name, k) => {
        const {colour, symbol} = SERIES[k % SERIES.length];
        return (
          <span key={name} className="series">
            <svg className="chart" width="12" height="12" viewBox="0 0 12 12" aria-hidden="true">
              <path d={MARKS[symbol]} fill={colour} />
            </svg>
            {name}
          </span>
        );
      })}
    </span>
  );
}

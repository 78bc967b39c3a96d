import type {Key, ReactNode} from "react";

export interface PlainColumn {
  readonly title: string;
  readonly isNumber?: boolean; // numbers stand right
}

export interface PlainRow {
  readonly key: Key;
  readonly cells: readonly ReactNode[]; // one for each column; the first is the heading of the row
  readonly governs?: boolean;
}

export interface PlainTableProps {
  readonly caption?: ReactNode;
  readonly isSmall?: boolean;
  readonly isLive?: boolean; // changes are read out
  readonly columns: readonly PlainColumn[];
  readonly rows: readonly PlainRow[];
}

/** A table to read; where there is no room for its width, it scrolls. */
export function PlainTable({caption, isSmall = false, isLive = false, columns, rows}: PlainTableProps) {
  const look = (k: number): string | undefined => (columns[k].isNumber ? "n" : undefined);
  return (
    <div className="table-wrap" aria-live={isLive ? "polite" : undefined}>
      <table className={isSmall ? "plain small" : "plain"}>
        {caption && <caption className="small muted">{caption}</caption>}
        <thead>
          <tr>
            {columns.map(({title}, k) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: two columns may have one title
              <th key={k} scope="col" className={look(k)}>
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({key, cells: [heading, ...cells], governs}) => (
            <tr key={key} data-governs={governs || undefined}>
              <th scope="row" className={look(0)}>
                {heading}
              </th>
              {cells.map((cell, k) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: a cell is known by its column
                <td key={k} className={look(k + 1)}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

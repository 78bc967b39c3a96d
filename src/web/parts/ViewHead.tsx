import type {ReactNode} from "react";

export function ViewHead({title, children}: {readonly title: string; readonly children: ReactNode}) {
  return (
    <div className="view-head">
      <h2>{title}</h2>
      <p>{children}</p>
    </div>
  );
}

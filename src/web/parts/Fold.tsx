import {type ReactNode, useEffect, useState} from "react";
import {Disclosure, DisclosurePanel, Heading, Button as Plain} from "react-aria-components";
import {isWithin, useFaults} from "../state/answers.ts";
import type {Path} from "../state/value.ts";

export interface FoldProps {
  readonly title: string;
  readonly level: number; // of the heading
  readonly path: Path; // of the fields within
  readonly isOpen?: boolean; // to begin with
  readonly beside?: ReactNode; // the title
  readonly children: ReactNode;
}

/** Fields behind a title: opened by hand, and by a fault among them. */
export function Fold({title, level, path, isOpen: isFirst = false, beside, children}: FoldProps) {
  const [isOpen, setOpen] = useState(isFirst);
  const isFaulty = useFaults().some(f => isWithin(f, path));
  useEffect(() => {
    if (isFaulty) setOpen(true); // and it stays open when the fault is mended
  }, [isFaulty]);
  return (
    <Disclosure isExpanded={isOpen} onExpandedChange={setOpen}>
      <Heading level={level} className="row">
        <Plain slot="trigger" className="button bare">
          {title}
        </Plain>
        {beside}
      </Heading>
      <DisclosurePanel>{children}</DisclosurePanel>
    </Disclosure>
  );
}

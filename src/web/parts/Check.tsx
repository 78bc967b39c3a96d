import {Check as Mark} from "lucide-react";
import type {ReactNode} from "react";
import {Checkbox} from "react-aria-components";

export interface CheckProps {
  readonly isSelected: boolean;
  readonly onChange: (isSelected: boolean) => void;
  readonly children: ReactNode;
}

export function Check({isSelected, onChange, children}: CheckProps) {
  return (
    <Checkbox className="check" isSelected={isSelected} onChange={onChange}>
      <span className="box">{isSelected && <Mark size={14} strokeWidth={3} aria-hidden />}</span>
      <span>{children}</span>
    </Checkbox>
  );
}

import type {ReactNode} from "react";
import {type ButtonProps, Button as Plain, Tooltip, TooltipTrigger} from "react-aria-components";

export type Look = "plain" | "main" | "bare";

export interface OwnButtonProps extends Omit<ButtonProps, "className" | "children"> {
  readonly look?: Look;
  readonly children: ReactNode;
}

export function Button({look = "plain", ...rest}: OwnButtonProps) {
  return <Plain {...rest} className={`button ${look}`} />;
}

/** A button that is a picture; its words are read out and shown when it is pointed at. */
export function IconButton({label, look = "bare", children, ...rest}: OwnButtonProps & {readonly label: string}) {
  return (
    <TooltipTrigger delay={500}>
      <Plain {...rest} aria-label={label} className={`button icon ${look}`}>
        {children}
      </Plain>
      <Tooltip className="tip" offset={6}>
        {label}
      </Tooltip>
    </TooltipTrigger>
  );
}

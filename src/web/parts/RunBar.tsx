import {Play, Square} from "lucide-react";
import {ProgressBar} from "react-aria-components";
import type {LongRun} from "../state/longRuns.ts";
import {Button} from "./Button.tsx";

export interface RunBarProps {
  readonly run: LongRun<unknown>;
  readonly label: string;
  readonly obstacle: string | null; // why it cannot be started
  readonly onStart: () => void;
  readonly onStop: () => void;
}

/** Starts, shows and stops a computation of minutes. */
export function RunBar({run: {progress, message}, label, obstacle, onStart, onStop}: RunBarProps) {
  if (progress === null)
    return (
      <div className="row">
        <Button look="main" isDisabled={obstacle !== null} onPress={onStart}>
          <Play size={15} aria-hidden />
          {label}
        </Button>
        <span role="status" className="small muted">
          {obstacle ?? message}
        </span>
      </div>
    );
  const percent = Math.floor(100 * progress.done);
  return (
    <div className="row">
      <ProgressBar className="progress" style={{flex: 1}} value={percent} aria-label={label}>
        <span className="small">
          {percent} % <span className="muted">{progress.doing}</span>
        </span>
        <div className="bar">
          <div className="fill" style={{width: `${percent}%`}} />
        </div>
      </ProgressBar>
      <Button onPress={onStop}>
        <Square size={13} aria-hidden />
        Stop
      </Button>
    </div>
  );
}

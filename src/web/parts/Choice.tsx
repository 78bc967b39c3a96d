import {ChevronDown} from "lucide-react";
import {Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue} from "react-aria-components";

export interface Option {
  readonly id: string;
  readonly text: string;
  readonly note?: string | undefined;
}

export interface ChoiceProps {
  readonly label: string;
  readonly options: readonly Option[];
  readonly value: string | null;
  readonly onChange: (id: string) => void;
  readonly isFaulty?: boolean;
  readonly hideLabel?: boolean;
  readonly isDisabled?: boolean;
}

const LONG = 18; // characters: a box of usual width would cut them

/** Whether a box of usual width would cut one of them. */
export const isLong = (options: readonly Option[]): boolean => options.some(o => o.text.length > LONG);

/** One of several. */
export function Choice(props: ChoiceProps) {
  const {label, options, value, onChange, isFaulty, hideLabel, isDisabled = false} = props;
  return (
    <Select
      className={`field ${isLong(options) ? "wide" : ""}`}
      {...(isFaulty && {"data-faulty": true})}
      value={value}
      isDisabled={isDisabled}
      placeholder="Choose…"
      {...(hideLabel && {"aria-label": label})}
      onChange={key => key !== null && onChange(String(key))}
    >
      {!hideLabel && <Label>{label}</Label>}
      <Button className="choice">
        <SelectValue>{({defaultChildren}) => options.find(o => o.id === value)?.text ?? defaultChildren}</SelectValue>
        <ChevronDown size={15} aria-hidden />
      </Button>
      <Popover className="pop">
        <ListBox>
          {options.map(({id, text, note}) => (
            <ListBoxItem key={id} id={id} textValue={text} className="item">
              {text}
              {note && <small>{note}</small>}
            </ListBoxItem>
          ))}
        </ListBox>
      </Popover>
    </Select>
  );
}

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

/** One of several. */
export function Choice(props: ChoiceProps) {
  const {label, options, value, onChange, isFaulty, hideLabel, isDisabled = false} = props;
  return (
    <Select
      className="field"
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

/** What a field holds while somebody types: their own characters, until they leave it with something that can be read. */

import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { WordsFault } from "../words/numbers";
import { say } from "../words/say";

/** What every field of ours takes. A value of null is an empty field: the record's own default. */
export interface FieldProps<Value> {
  label: string;
  value: Value;
  onChange: (value: Value) => void;
  hint?: string | undefined;
  /** What the form has found wrong with it. */
  fault?: string | null | undefined;
  /** Told in words what cannot be read, and null once it can: nothing is kept as long as there is something. */
  onFault?: ((fault: string | null) => void) | undefined;
  disabled?: boolean | undefined;
}

export type Read<Value> = { value: Value } | { fault: string };

/** Reads what was typed; what cannot be read becomes a sentence that names the field. */
export function readAs<Value>(label: string, read: () => Value): Read<Value> {
  try {
    return { value: read() };
  } catch (error) {
    if (!(error instanceof WordsFault)) throw error;
    const names = { name: (_: string, record: string) => record, time: String };
    return { fault: t("{field}: {fault}", { field: label, fault: say(error.words, names) }) };
  }
}

/** A field that must not be empty, is. */
export function missing(label: string): { fault: string } {
  return { fault: t("{field} must not be empty.", { field: label }) };
}

interface Typing<Value> {
  value: Value;
  write: (value: Value) => string;
  read: (text: string) => Read<Value>;
  onChange: (value: Value) => void;
  onFault?: ((fault: string | null) => void) | undefined;
}

export interface Typed {
  text: string;
  fault: string | null;
  onInput: (event: { currentTarget: { value: string } }) => void;
  onBlur: () => void;
}

/** Once the value changes under what is typed (a stepper, another person), the field shows the value again. */
export function useTyped<Value>({ value, write, read, onChange, onFault }: Typing<Value>): Typed {
  const [typed, setTyped] = useState<{ text: string; over: Value } | null>(null);
  const outcome = typed ? read(typed.text) : { value };
  const stale = typed !== null && ("value" in outcome ? outcome.value !== value : typed.over !== value);
  const fault = !stale && "fault" in outcome ? outcome.fault : null;
  useReport(fault, onFault);
  return {
    text: typed && !stale ? typed.text : write(value),
    fault,
    onInput: ({ currentTarget: { value: text } }) => {
      setTyped({ text, over: value });
      const found = read(text);
      if ("value" in found && found.value !== value) onChange(found.value);
    },
    onBlur: () => {
      if (fault === null) setTyped(null);
    },
  };
}

function useReport(fault: string | null, onFault: Typing<unknown>["onFault"]): void {
  const told = useRef<string | null>(null);
  useEffect(() => {
    if (told.current === fault) return;
    told.current = fault;
    onFault?.(fault);
  });
}

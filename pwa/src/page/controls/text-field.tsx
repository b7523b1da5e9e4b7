/** Text a person types, of one line or of many, in whatever direction it runs. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { describedBy, FieldFrame } from "./field-frame";
import { type FieldProps, missing, type Read, useTyped } from "./typed";

interface TextFieldProps extends FieldProps<string> {
  most?: number | undefined;
  required?: boolean | undefined;
  lines?: number | undefined;
}

export function TextField(props: TextFieldProps) {
  const { label, value, hint, disabled, lines = 1, onChange, onFault } = props;
  const id = useId();
  const read = (text: string) => readText(text, props);
  const typed = useTyped<string>({ value, write: (text) => text, read, onChange, onFault });
  const fault = typed.fault ?? props.fault;
  const shared = {
    id,
    class: "field-input",
    dir: "auto" as const,
    value: typed.text,
    disabled,
    "aria-invalid": fault ? true : undefined,
    "aria-describedby": describedBy(id, hint, fault),
    onInput: typed.onInput,
    onBlur: typed.onBlur,
  };
  return (
    <FieldFrame id={id} label={label} hint={hint} fault={fault}>
      {lines > 1 ? <textarea rows={lines} {...shared} /> : <input type="text" {...shared} />}
    </FieldFrame>
  );
}

interface Limits {
  label: string;
  most?: number | undefined;
  required?: boolean | undefined;
}

/** Characters are counted as the server counts them: code points. */
export function readText(text: string, { label, most = Infinity, required }: Limits): Read<string> {
  if (required && !text.trim()) return missing(label);
  const long = [...text].length;
  if (long <= most) return { value: text };
  return { fault: t("{field} may have at most {most} characters, but it has {long}.", { field: label, most, long }) };
}

/** A time of day as the reader writes it, or so long before or after sunrise or sunset. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { type ClockValue, clockText, clockValue, FURTHEST_S, readClock } from "../words/clock-typing";
import { clockField } from "../words/moments";
import { Choice } from "./choice";
import { DurationField } from "./duration-field";
import { FieldFrame } from "./field-frame";
import { type FieldProps, missing, type Read, readAs, useTyped } from "./typed";
import { TypedInput } from "./typed-input";

interface ClockFieldProps extends FieldProps<string | null> {
  required?: boolean | undefined;
  /** What no time at all means here, as `from noon`: then it may be left out. */
  none?: string | undefined;
  /** The site knows where it is: only then are there sunrise and sunset. */
  sun?: boolean | undefined;
}

type Kind = "none" | ClockValue["of"];

/** A time that stands in the field when somebody turns from the sun back to the clock. */
const FRESH = "21:00";

export function ClockField(props: ClockFieldProps) {
  const { value, label, none, sun = true, onChange, disabled } = props;
  const parts = value === null ? null : clockValue(value);
  const kind: Kind = parts?.of ?? (none === undefined ? "wall" : "none");
  const options = kinds(none, sun || kind === "sunrise" || kind === "sunset");
  return (
    <div class="clock-field">
      {options.length > 1 ? (
        <Choice<Kind>
          label={label}
          value={kind}
          options={options}
          disabled={disabled}
          onChange={(to) => onChange(fresh(to))}
        />
      ) : null}
      {kind === "wall" ? <TimeField {...props} /> : null}
      {parts && parts.of !== "wall" ? <SunField props={props} parts={parts} /> : null}
    </div>
  );
}

function kinds(none: string | undefined, sun: boolean) {
  return [
    ...(none === undefined ? [] : [{ value: "none" as const, label: none }]),
    { value: "wall" as const, label: t("At a time") },
    ...(sun ? [{ value: "sunset" as const, label: t("By sunset") }] : []),
    ...(sun ? [{ value: "sunrise" as const, label: t("By sunrise") }] : []),
  ];
}

function fresh(kind: Kind): string | null {
  if (kind === "none") return null;
  return kind === "wall" ? FRESH : kind;
}

function TimeField({ label, value, hint, fault, required, disabled, onChange, onFault }: ClockFieldProps) {
  const id = useId();
  const typed = useTyped<string | null>({
    value,
    write: (text) => (text === null ? "" : written(text)),
    read: (text) => readTime(text, label, required === true),
    onChange,
    onFault,
  });
  const wrong = typed.fault ?? fault;
  return (
    <FieldFrame id={id} label={t("{field}, time", { field: label })} hint={hint} fault={wrong}>
      <TypedInput id={id} typed={typed} hint={hint} fault={wrong} disabled={disabled} keys="text" />
    </FieldFrame>
  );
}

/** Midnight at the end of a day reads 24:00 in the document; a 12-hour clock has no other word for it than midnight. */
function written(text: string): string {
  return text.startsWith("24:") ? text : clockField(text);
}

function readTime(text: string, label: string, required: boolean): Read<string | null> {
  if (!text.trim()) return required ? missing(label) : { value: null };
  return readAs(label, () => readClock(text));
}

function SunField({ props, parts }: { props: ClockFieldProps; parts: Exclude<ClockValue, { of: "wall" }> }) {
  const { label, fault, disabled, onChange, onFault } = props;
  const put = (away: number) => onChange(clockText({ of: parts.of, away }));
  return (
    <>
      <Choice
        label={t("{field}, side", { field: label })}
        value={parts.away > 0 ? "after" : "before"}
        options={[
          { value: "before", label: t("before") },
          { value: "after", label: t("after") },
        ]}
        disabled={disabled}
        onChange={(side) => put(side === "after" ? Math.max(60, Math.abs(parts.away)) : -Math.abs(parts.away))}
      />
      <DurationField
        label={t("{field}, by how much", { field: label })}
        value={Math.abs(parts.away)}
        least={0}
        most={FURTHEST_S}
        required
        hint={clockField(clockText(parts))}
        fault={fault}
        disabled={disabled}
        onChange={(away) => put((parts.away > 0 ? 1 : -1) * Math.round((away ?? 0) / 60) * 60)}
        onFault={onFault}
      />
    </>
  );
}

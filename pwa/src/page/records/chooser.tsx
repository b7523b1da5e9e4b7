/** One out of many: what is chosen, and on a tap a search among all there are. */

import { useEffect, useId, useRef, useState } from "preact/hooks";
import { FieldGroup } from "../controls/field-frame";
import { t, tn } from "../words/catalogue";
import { type ChooserOption, found } from "./choosing";

export interface ChooserProps {
  label: string;
  hint?: string | undefined;
  fault?: string | null | undefined;
  disabled?: boolean | undefined;
  /** What is chosen, in words; empty: nothing yet. */
  chosen: string;
  options: readonly ChooserOption[];
  onChoose: (value: string) => void;
  /** The word for changing the choice, where it is not plain changing. */
  verb?: string | undefined;
}

const SHOWN = 40;

export function Chooser({ label, hint, fault, disabled, chosen, options, onChoose, verb }: ChooserProps) {
  const id = useId();
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const close = () => {
    setOpen(false);
    button.current?.focus();
  };
  const choose = (value: string) => {
    close();
    onChoose(value);
  };
  return (
    <FieldGroup id={id} label={label} hint={hint} fault={fault}>
      <button
        ref={button}
        type="button"
        class="chooser"
        aria-expanded={open}
        disabled={disabled}
        onClick={() => setOpen(!open)}
        aria-describedby={fault ? `${id}-fault` : undefined}
      >
        <bdi class={chosen ? "chooser-chosen" : "chooser-none"}>{chosen || t("Nothing chosen")}</bdi>
        <span class="chooser-verb">{open ? t("Close") : (verb ?? (chosen ? t("Change") : t("Choose")))}</span>
      </button>
      {open ? <Search label={label} options={options} onChoose={choose} onClose={close} /> : null}
    </FieldGroup>
  );
}

interface SearchProps extends Pick<ChooserProps, "label" | "options" | "onChoose"> {
  onClose: () => void;
}

function Search({ label, options, onChoose, onClose }: SearchProps) {
  const [asked, setAsked] = useState("");
  const fitting = found(options, asked);
  const search = useRef<HTMLInputElement>(null);
  useEffect(() => {
    // A phone's keyboard would cover the list before anybody has seen it.
    if (matchMedia("(pointer: fine)").matches) search.current?.focus();
  }, []);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "Escape") onClose();
    if (event.key === "Enter" && fitting[0] && asked) onChoose(fitting[0].value);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape closes it from anywhere inside, beside its button.
    <div class="chooser-search" onKeyDown={onKeyDown}>
      {options.length > 8 ? (
        <input
          ref={search}
          class="field-input"
          type="search"
          dir="auto"
          autocomplete="off"
          aria-label={t("Search: {field}", { field: label })}
          placeholder={t("Search")}
          value={asked}
          onInput={(event) => setAsked(event.currentTarget.value)}
        />
      ) : null}
      <ul class="chooser-list">
        {fitting.slice(0, SHOWN).map((option) => (
          <li key={option.value}>
            <button type="button" class="chooser-option" onClick={() => onChoose(option.value)}>
              <bdi>{option.label}</bdi>
              {option.about ? <span>{option.about}</span> : null}
            </button>
          </li>
        ))}
      </ul>
      <p class="field-hint" role="status">
        {remark(fitting.length)}
      </p>
    </div>
  );
}

function remark(count: number): string {
  if (count === 0) return t("Nothing fits.");
  return count > SHOWN
    ? tn("{count} more; type to narrow the list", "{count} more; type to narrow the list", count - SHOWN)
    : "";
}

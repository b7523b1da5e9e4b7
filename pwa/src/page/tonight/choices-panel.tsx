/** The reader's choices. Each takes effect at once, on this device. */

import type { Signal } from "@preact/signals";
import { t } from "../words/catalogue";
import { offered, ownName } from "../words/languages";
import { hours, language, light, units } from "../words/reader";

interface Option {
  value: string;
  label: string;
  lang?: string;
}

export function ChoicesPanel() {
  return (
    <section id="choices" class="choices" aria-label={t("Settings")}>
      <Choice
        name="language"
        title={t("Language")}
        at={language}
        options={offered.map((tag) => ({ value: tag, label: ownName(tag), lang: tag }))}
      />
      <Choice name="units" title={t("Units")} at={units} options={unitOptions()} />
      <Choice name="hours" title={t("Clock")} at={hours} options={hourOptions()} />
      <Choice name="light" title={t("Light")} at={light} options={lightOptions()} />
    </section>
  );
}

function unitOptions(): Option[] {
  return [
    { value: "metric", label: t("Metric") },
    { value: "us", label: t("US customary") },
    { value: "imperial", label: t("Imperial") },
  ];
}

function hourOptions(): Option[] {
  return [
    { value: "", label: t("As the language has it") },
    { value: "24", label: t("24 hours") },
    { value: "12", label: t("12 hours") },
  ];
}

function lightOptions(): Option[] {
  return [
    { value: "", label: t("As the device has it") },
    { value: "day", label: t("Day") },
    { value: "night", label: t("Night") },
    { value: "sun", label: t("Full sun") },
  ];
}

interface ChoiceProps<Value extends string> {
  name: string;
  title: string;
  at: Signal<Value>;
  options: Option[];
}

function Choice<Value extends string>({ name, title, at, options }: ChoiceProps<Value>) {
  return (
    <fieldset class="choice">
      <legend>{title}</legend>
      {options.map((option) => (
        <label key={option.value} class="pick">
          <input
            type="radio"
            name={name}
            value={option.value}
            checked={at.value === option.value}
            onChange={() => {
              at.value = option.value as Value;
            }}
          />
          <span lang={option.lang}>{option.label}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** The reader's choices. Each takes effect at once, everywhere, with or without signal. */

import { Choice } from "../controls/choice";
import { person } from "../store/queries";
import { later } from "../way/later";
import { t } from "../words/catalogue";
import { digits, firstDay, hours, language, light, textSize } from "../words/reader";
import { OwnName } from "./own-name";
import {
  digitOptions,
  firstDayOptions,
  hourOptions,
  languageOptions,
  lightOptions,
  sizeOptions,
} from "./settings-options";
import { SettingsSample } from "./settings-sample";
import { UnitChoices } from "./unit-choices";

const CallsSettings = later(() => import("../alarms/calls-settings").then((file) => file.CallsSettings));

export function Settings() {
  return (
    <>
      <SettingsSample />
      <div class="settings">
        <Choice
          label={t("Language")}
          value={language.value}
          options={languageOptions()}
          onChange={(tag) => {
            language.value = tag;
          }}
        />
        <UnitChoices />
        <Choice
          label={t("Clock")}
          value={hours.value}
          options={hourOptions()}
          onChange={(cycle) => {
            hours.value = cycle;
          }}
        />
        <Choice
          label={t("First day of the week")}
          value={firstDay.value}
          options={firstDayOptions()}
          onChange={(day) => {
            firstDay.value = day;
          }}
        />
        <Choice
          label={t("Digits")}
          value={digits.value}
          options={digitOptions()}
          onChange={(system) => {
            digits.value = system;
          }}
        />
        <OnThisPhone />
        {person.value ? <OwnName /> : null}
        {person.value ? <CallsSettings /> : null}
      </div>
      <p class="more-note">{keptWords()}</p>
    </>
  );
}

function OnThisPhone() {
  return (
    <>
      <Choice
        label={t("Light")}
        value={light.value}
        options={lightOptions()}
        onChange={(chosen) => {
          light.value = chosen;
        }}
      />
      <Choice
        label={t("Size of text")}
        value={textSize.value}
        options={sizeOptions()}
        onChange={(size) => {
          textSize.value = size;
        }}
      />
    </>
  );
}

function keptWords(): string {
  if (!person.value) return t("These choices are kept on this phone.");
  return t(
    "Language, units, clock, week and digits go with you to your other devices. Light and size stay on this phone.",
  );
}

/** Through which stations a walk goes: only the ways that lead somewhere. */

import { Choice } from "../controls/choice";
import { PickList } from "../controls/pick-list";
import type { SiteDocument } from "../site/document";
import { chosen as selection } from "../stations/choosing";
import { t } from "../words/catalogue";
import { type By, type Chosen, faulty, whichOf } from "./choosing";
import { stationsWords } from "./words";

interface WhichProps {
  document: SiteDocument;
  chosen: Chosen;
  onChoose: (chosen: Chosen) => void;
}

export function Which({ document, chosen, onChoose }: WhichProps) {
  const options = waysFor(document);
  const which = whichOf(document, chosen.by);
  const choose = (by: By) => onChoose({ by, which: whichOf(document, by)[0]?.value ?? "" });
  return (
    <>
      <Choice<By> label={t("Through which stations")} value={chosen.by} options={options} onChange={choose} />
      {which.length ? (
        <PickList
          label={t("Which one")}
          value={chosen.which}
          options={which}
          onChange={(value) => onChoose({ ...chosen, which: value })}
        />
      ) : null}
    </>
  );
}

function waysFor(document: SiteDocument) {
  const marked = faulty(document).size;
  const all: { value: By; label: string; some: boolean }[] = [
    { value: "all", label: t("All of them"), some: true },
    { value: "part", label: t("A part of the grounds"), some: whichOf(document, "part").length > 0 },
    { value: "program", label: t("A program"), some: whichOf(document, "program").length > 0 },
    { value: "hydrozone", label: t("A hydrozone"), some: whichOf(document, "hydrozone").length > 0 },
    {
      value: "faulty",
      label: t("With an alarm or a repair ({stations})", { stations: stationsWords(marked) }),
      some: marked > 0,
    },
    {
      value: "chosen",
      label: t("Chosen in the list ({stations})", { stations: stationsWords(selection.value.size) }),
      some: selection.value.size > 0,
    },
  ];
  return all.filter((one) => one.some).map(({ value, label }) => ({ value, label }));
}

/** Which station or program somebody asks for. */

import { Choice } from "../controls/choice";
import { PickList } from "../controls/pick-list";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import type { Asking } from "./asking";
import { linesOf } from "./list";

interface AskWhatProps {
  document: SiteDocument;
  asking: Asking;
  onChange: (part: Partial<Asking>) => void;
}

export function AskWhat({ document, asking, onChange }: AskWhatProps) {
  const stations = linesOf(document).map((line) => ({ value: line.id, label: `${line.number} ${line.name}` }));
  const programs = [...document.programs.values()].map(({ id, name }) => ({ value: id, label: name }));
  const kind = asking.program === null ? "station" : "program";
  const none = { value: "", label: t("Choose one") };
  return (
    <>
      <Choice
        label={t("What should run")}
        value={kind}
        options={[
          { value: "station", label: t("One station") },
          { value: "program", label: t("A whole program") },
        ]}
        onChange={(to) => onChange(to === "station" ? { program: null } : { station: null, program: "" })}
      />
      {kind === "station" ? (
        <PickList
          label={t("Station")}
          value={asking.station ?? ""}
          options={[none, ...stations]}
          onChange={(id) => onChange({ station: id || null })}
        />
      ) : (
        <PickList
          label={t("Program")}
          value={asking.program ?? ""}
          options={[none, ...programs]}
          onChange={(id) => onChange({ program: id })}
        />
      )}
    </>
  );
}

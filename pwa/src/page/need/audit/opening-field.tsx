/** A can's opening: by its diameter in the reader's own unit, or by the area that stands on the can. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { QuantityField } from "../../controls/quantity-field";
import { shared } from "../../records/control-props";
import type { Form } from "../../records/form";
import { numberOf } from "../../records/records";
import { t } from "../../words/catalogue";
import { diameterOf, openingOf } from "./measure";

type By = "diameter" | "area";

/** A hundredth of a square centimetre is finer than anybody measures a can. */
const FINE = 100;
const areaOf = (mm: number): number => Math.round(openingOf(mm) * FINE) / FINE;

export function OpeningField({ form }: { form: Form }) {
  const [by, setBy] = useState<By>("diameter");
  const { onChange, label: _, hint: __, ...props } = shared({ form, field: "opening_cm2" });
  const area = numberOf(form.record, "opening_cm2");
  // The diameter stays as it was typed, however the area behind it is rounded.
  const [typed, setTyped] = useState(0);
  const diameter = area === null ? null : areaOf(typed) === area ? typed : diameterOf(area);
  const put = (mm: number | null) => {
    setTyped(mm ?? 0);
    onChange(mm === null ? null : areaOf(mm));
  };
  return (
    <>
      <Choice
        label={t("A can’s opening is known by")}
        value={by}
        disabled={props.disabled}
        options={[
          { value: "diameter", label: t("its diameter") },
          { value: "area", label: t("its area") },
        ]}
        onChange={setBy}
      />
      {by === "diameter" ? (
        <QuantityField
          {...props}
          key="diameter"
          label={t("Diameter of the opening")}
          hint={t("Inside, at the rim.")}
          quantity="depth"
          value={diameter}
          least={12}
          most={1100}
          onChange={put}
        />
      ) : (
        <NumberField
          {...props}
          key="area"
          label={t("Area of the opening")}
          hint={t("As it stands on the can, in square centimetres.")}
          value={area}
          least={1}
          most={10_000}
          places={1}
          unit="cm²"
          onChange={onChange}
        />
      )}
    </>
  );
}

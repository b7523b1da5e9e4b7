/** Copies a text, and says whether it did. */

import { useState } from "preact/hooks";
import { t } from "../words/catalogue";

export function CopyButton({ text, label }: { text: string; label: string }) {
  const [said, setSaid] = useState("");
  const copy = async () => {
    const done = await navigator.clipboard?.writeText(text).then(
      () => true,
      () => false,
    );
    setSaid(done ? t("Copied.") : t("This browser does not let pages copy. Select the text and copy it."));
  };
  return (
    <>
      <button type="button" class="button" onClick={() => void copy()}>
        {label}
      </button>
      <span role="status">{said}</span>
    </>
  );
}

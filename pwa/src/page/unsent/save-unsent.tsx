/** A button that saves all that is unsent as a file, photos among it. */

import { useState } from "preact/hooks";
import { saveFile } from "../changes/save-file";
import { t } from "../words/catalogue";
import { unsentFile } from "./file";

export function SaveUnsent() {
  const [partly, setPartly] = useState(false);
  const save = async () => {
    const file = await unsentFile();
    saveFile("pengan-unsent.json", JSON.stringify(file, null, 1));
    setPartly(!file.whole);
  };
  return (
    <>
      <button type="button" class="button" onClick={() => void save()}>
        {t("Save as a file")}
      </button>
      {partly ? (
        <p class="change-fault" role="alert">
          {t("The file holds the edits alone: this phone could not read what else is unsent.")}
        </p>
      ) : null}
    </>
  );
}

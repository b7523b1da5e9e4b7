/** The code: typed in any case and spacing, seen by the camera, or read off a picture. */

import { useId, useState } from "preact/hooks";
import { describedBy, FieldFrame } from "../controls/field-frame";
import { t } from "../words/catalogue";
import { listed } from "../words/lists";
import { CameraView } from "./camera-view";
import { typedCode } from "./codes";
import { draft, putDraft } from "./coming-in";
import { PictureButton } from "./picture-button";

export function CodeField({ fault }: { fault: string | null }) {
  const id = useId();
  const [camera, setCamera] = useState(false);
  const typed = typedCode(draft.value.code);
  const strange = typed.strange.length ? strangeWords(typed.strange) : null;
  const wrong = strange ?? fault;
  const hint = t("Ten signs, as on the label or the screen you were shown.");
  const take = (code: string) => {
    setCamera(false);
    putDraft({ code });
  };
  return (
    <div class="code-field">
      <FieldFrame id={id} label={t("Code")} hint={hint} fault={wrong}>
        <input
          id={id}
          class="field-input code-input"
          type="text"
          dir="ltr"
          autocomplete="off"
          autocapitalize="characters"
          spellcheck={false}
          placeholder="PF4RG-9KTDM"
          value={typed.grouped}
          aria-invalid={wrong ? true : undefined}
          aria-describedby={describedBy(id, hint, wrong)}
          onInput={(event) => putDraft({ code: typedCode(event.currentTarget.value).grouped })}
        />
      </FieldFrame>
      {camera ? <CameraView onCode={take} onClose={() => setCamera(false)} /> : null}
      {typed.whole && !camera ? null : (
        <div class="more-ways">
          {camera ? null : (
            <button type="button" class="button" onClick={() => setCamera(true)}>
              {t("Read it with the camera")}
            </button>
          )}
          <PictureButton onCode={take} />
        </div>
      )}
    </div>
  );
}

function strangeWords(signs: string[]): string {
  return t("No code has these signs: {signs}. Look again at what they could be.", { signs: listed(signs) });
}

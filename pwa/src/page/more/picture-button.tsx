/** Reading the code off a picture somebody took or was sent. */

import { useRef, useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { codeOnPicture } from "./camera";

type Said = "" | "looking" | "none";

export function PictureButton({ onCode }: { onCode: (code: string) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<Said>("");
  const look = async (file: File | undefined) => {
    if (!file) return;
    setSaid("looking");
    const code = await codeOnPicture(file);
    setSaid(code ? "" : "none");
    if (code) onCode(code);
  };
  return (
    <>
      <input
        ref={input}
        class="unseen"
        type="file"
        accept="image/*"
        tabIndex={-1}
        aria-label={t("Picture of the code")}
        onChange={(event) => {
          void look(event.currentTarget.files?.[0]);
          event.currentTarget.value = "";
        }}
      />
      <button type="button" class="button" onClick={() => input.current?.click()}>
        {t("Choose a picture of it")}
      </button>
      <p role="status">{saidWords(said)}</p>
    </>
  );
}

function saidWords(said: Said): string {
  if (said === "looking") return t("Looking for a code…");
  return said === "none" ? t("There is no joining code of ours on that picture.") : "";
}

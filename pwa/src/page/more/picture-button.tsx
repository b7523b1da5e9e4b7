/** Reading the code off a picture somebody took or was sent. */

import { useRef, useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { codeOnPicture } from "./camera";
import { NoReader } from "./qr-reading";

type Said = "" | "looking" | "none" | "no_reader";

export function PictureButton({ onCode }: { onCode: (code: string) => void }) {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<Said>("");
  const look = async (file: File | undefined) => {
    if (!file) return;
    setSaid("looking");
    try {
      const code = await codeOnPicture(file);
      setSaid(code ? "" : "none");
      if (code) onCode(code);
    } catch (error) {
      if (!(error instanceof NoReader)) throw error;
      setSaid("no_reader");
    }
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
  if (said === "no_reader") return t("Reading a code off a picture needs signal. Type the code instead.");
  return said === "none" ? t("There is no joining code of ours on that picture.") : "";
}

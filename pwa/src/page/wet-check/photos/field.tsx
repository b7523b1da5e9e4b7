/** Photos of a finding: taken with the camera, or chosen among those the phone has. */

import { useId, useState } from "preact/hooks";
import { t } from "../../words/catalogue";
import { Picture } from "./picture";
import { letGo, MOST_PHOTOS, type PhotoFault, takePhoto } from "./taking";

interface PhotoFieldProps {
  photos: readonly string[];
  onChange: (photos: string[]) => void;
}

export function PhotoField({ photos, onChange }: PhotoFieldProps) {
  const id = useId();
  const [state, setState] = useState<"" | "busy" | PhotoFault>("");
  const take = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (!file) return;
    setState("busy");
    const taken = await takePhoto(file);
    input.value = "";
    setState("fault" in taken ? taken.fault : "");
    if ("id" in taken) onChange([...photos, taken.id]);
  };
  const remove = (photo: string) => {
    onChange(photos.filter((one) => one !== photo));
    void letGo([photo]);
  };
  return (
    <div class="wet-photos">
      {photos.map((photo, index) => (
        <div key={photo} class="wet-taken">
          <Picture id={photo} place={index + 1} />
          <button type="button" class="button" onClick={() => remove(photo)}>
            {t("Remove photo {place}", { place: index + 1 })}
          </button>
        </div>
      ))}
      {photos.length < MOST_PHOTOS ? (
        <label class="button wet-camera" for={id}>
          <input
            id={id}
            class="wet-file"
            type="file"
            accept="image/*"
            capture="environment"
            disabled={state === "busy"}
            onChange={(event) => void take(event.currentTarget)}
          />
          {state === "busy" ? t("Making it small…") : t("Take a photo")}
        </label>
      ) : null}
      <p class="field-fault" role="status">
        {state === "no_picture" ? t("This phone cannot read that file as a picture.") : ""}
        {state === "storage" ? t("This phone could not keep the photo: make room on it, then take it again.") : ""}
      </p>
    </div>
  );
}

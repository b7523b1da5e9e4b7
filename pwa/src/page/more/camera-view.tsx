/** What the camera sees, until a code is in it. */

import { useEffect, useRef, useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { type CameraFault, watchForCode } from "./camera";

export function CameraView({ onCode, onClose }: { onCode: (code: string) => void; onClose: () => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const [fault, setFault] = useState<CameraFault | null>(null);
  useEffect(() => (video.current ? watchForCode(video.current, onCode, setFault) : undefined), []);
  return (
    <div class="camera">
      {fault ? (
        <p class="more-alert" role="alert">
          {faultWords(fault)}
        </p>
      ) : (
        <>
          <video ref={video} class="camera-picture" playsInline muted aria-label={t("What the camera sees")} />
          <p role="status">{t("Hold the QR code in front of the camera.")}</p>
        </>
      )}
      <button type="button" class="button" onClick={onClose}>
        {t("Close the camera")}
      </button>
    </div>
  );
}

function faultWords(fault: CameraFault): string {
  if (fault === "not_allowed") {
    return t("The camera may not be used here. Allow it in the browser’s settings for this page, or type the code.");
  }
  if (fault === "insecure") return t("The browser lends the camera only to pages with HTTPS. Type the code instead.");
  if (fault === "no_reader") return t("Reading a code off a picture needs signal. Type the code instead.");
  if (fault === "in_use") return t("Another app is using the camera. Close it there, or type the code.");
  return t("No camera was found. Type the code, or choose a picture of it.");
}

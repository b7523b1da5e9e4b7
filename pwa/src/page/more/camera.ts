/** The phone's camera: opened, looked through until a joining code is seen, and always let go of. */

import { scannedCode } from "./codes";
import { NoReader, readCodes } from "./qr-reading";

export type CameraFault = "no_camera" | "not_allowed" | "insecure" | "in_use" | "no_reader";

const LOOK_EVERY_MS = 200;

/** Raises nothing: what went wrong is told to `onFault`. The answer lets go of the camera. */
export function watchForCode(
  video: HTMLVideoElement,
  onCode: (code: string) => void,
  onFault: (fault: CameraFault) => void,
): () => void {
  let stream: MediaStream | null = null;
  let ended = false;
  const end = () => {
    ended = true;
    for (const track of stream?.getTracks() ?? []) track.stop();
    video.srcObject = null;
  };
  const begin = async () => {
    stream = await open();
    if (ended) return end();
    video.srcObject = stream;
    await video.play();
    await look(video, () => ended, onCode);
  };
  begin().catch((error: unknown) => {
    if (!ended) onFault(faultOf(error));
    end();
  });
  return end;
}

async function look(video: HTMLVideoElement, ended: () => boolean, onCode: (code: string) => void): Promise<void> {
  while (!ended()) {
    const texts = video.readyState >= video.HAVE_CURRENT_DATA ? await readCodes(video) : [];
    const code = texts.map(scannedCode).find((one) => one !== null);
    if (code && !ended()) return onCode(code);
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
  }
}

async function open(): Promise<MediaStream> {
  if (!navigator.mediaDevices) throw new DOMException("", "SecurityError");
  return navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" }, audio: false });
}

export function faultOf(error: unknown): CameraFault {
  if (error instanceof NoReader) return "no_reader";
  const name = error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError") return "not_allowed";
  if (name === "SecurityError") return "insecure";
  return name === "NotReadableError" || name === "AbortError" ? "in_use" : "no_camera";
}

/** The code on a picture somebody took or was sent; null where there is none of ours on it. Raises `NoReader`. */
export async function codeOnPicture(file: Blob): Promise<string | null> {
  const picture = await createImageBitmap(file).catch(() => null);
  if (!picture) return null;
  const texts = await readCodes(picture);
  picture.close();
  return texts.map(scannedCode).find((one) => one !== null) ?? null;
}

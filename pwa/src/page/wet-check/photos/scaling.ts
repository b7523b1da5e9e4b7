/** A photo made as small as it has to be: a broken head is seen on 1600 points as well as on 6000. */

export const LONGEST_SIDE = 1600;
export const MOST_BYTES = 900 * 1024;
const KIND = "image/jpeg";
/** Tried one after the other, until the photo is small enough. */
const TRIES = [
  { share: 1, quality: 0.8 },
  { share: 1, quality: 0.6 },
  { share: 0.7, quality: 0.6 },
  { share: 0.5, quality: 0.5 },
] as const;

export interface Small {
  kind: string;
  bytes: ArrayBuffer;
}

/** Null: the browser cannot read this file as a picture, or not make it small enough. Where it was taken is left out: a
 * canvas keeps none of what a camera writes beside the picture. */
export async function scaledDown(file: Blob): Promise<Small | null> {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => null);
  if (!picture) return null;
  try {
    for (const { share, quality } of TRIES) {
      const blob = await drawn(picture, LONGEST_SIDE * share, quality);
      if (blob && blob.type === KIND && blob.size <= MOST_BYTES) return { kind: KIND, bytes: await blob.arrayBuffer() };
    }
    return null;
  } finally {
    picture.close();
  }
}

/** Width and height within a longest side, in the same proportion; never larger than they are. */
export function fitted(width: number, height: number, longest: number): [number, number] {
  const share = Math.min(1, longest / Math.max(width, height, 1));
  return [Math.max(1, Math.round(width * share)), Math.max(1, Math.round(height * share))];
}

async function drawn(picture: ImageBitmap, longest: number, quality: number): Promise<Blob | null> {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = fitted(picture.width, picture.height, longest);
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return await new Promise((done) => canvas.toBlob(done, KIND, quality));
}

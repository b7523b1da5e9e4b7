/** Reads a QR code out of a camera's picture or a picture file: with what the browser has for it, else with our own copy. */

import wasmAddress from "zxing-wasm/reader/zxing_reader.wasm?url";

/** The Barcode Detection API (WICG, shape-detection-api), as far as it is used here. */
interface Detector {
  detect(source: ImageBitmapSource): Promise<{ rawValue: string }[]>;
}

interface NativeDetector {
  new (options: { formats: string[] }): Detector;
  getSupportedFormats(): Promise<string[]>;
}

const QR = "qr_code";

let made: Promise<Detector> | undefined;

/** What reads pictures could not be fetched: there is no signal. */
export class NoReader extends Error {}

/** The texts of the codes in a picture; none where there are none. Raises `NoReader`. */
export async function readCodes(source: ImageBitmapSource): Promise<string[]> {
  made ??= makeDetector();
  const detector = await made.catch((cause: unknown) => {
    made = undefined;
    throw new NoReader("", { cause });
  });
  const found = await detector.detect(source);
  return found.map(({ rawValue }) => rawValue);
}

async function makeDetector(): Promise<Detector> {
  const Native = (globalThis as { BarcodeDetector?: NativeDetector }).BarcodeDetector;
  // Some browsers have the interface and no code behind it: then no format is named.
  if (Native && (await Native.getSupportedFormats()).includes(QR)) return new Native({ formats: [QR] });
  const { BarcodeDetector, prepareZXingModule } = await import("barcode-detector/ponyfill");
  // Served with the app: the policy lets nothing come from elsewhere.
  prepareZXingModule({ overrides: { locateFile: (file: string) => (file.endsWith(".wasm") ? wasmAddress : file) } });
  return new BarcodeDetector({ formats: [QR] });
}

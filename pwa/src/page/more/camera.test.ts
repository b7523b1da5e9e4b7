import { afterEach, expect, it, vi } from "vitest";
import { codeOnPicture, faultOf, watchForCode } from "./camera";
import { NoReader } from "./qr-reading";

vi.mock("zxing-wasm/reader/zxing_reader.wasm?url", () => ({ default: "/zxing_reader.wasm" }));

const seen: string[][] = [];
class Detector {
  static getSupportedFormats = async () => ["qr_code"];
  detect = async () => (seen.shift() ?? []).map((rawValue) => ({ rawValue }));
}
vi.stubGlobal("BarcodeDetector", Detector);

const stop = vi.fn();
const stream = { getTracks: () => [{ stop }] };

function camera(getUserMedia: () => Promise<unknown>): HTMLVideoElement {
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia } });
  const video = { readyState: 4, HAVE_CURRENT_DATA: 2, play: async () => undefined, srcObject: null };
  return video as unknown as HTMLVideoElement;
}

afterEach(() => {
  seen.length = 0;
  stop.mockClear();
});

it("looks until a code of ours is seen, and lets go of the camera when told to", async () => {
  seen.push([], ["WIFI:S:Quinta das Marés;;"], ["https://water.example.org/join#PF4RG-9KTDM"]);
  const video = camera(async () => stream);
  const code = await new Promise<string>((resolve) => {
    const end = watchForCode(video, (found) => resolve(found), vi.fn());
    setTimeout(end, 2000);
  });
  expect(code).toBe("PF4RG-9KTDM");
  await vi.waitFor(() => expect(stop).toHaveBeenCalled(), 3000);
  expect(video.srcObject).toBeNull();
});

it("says why there is no picture", async () => {
  const refused = camera(async () => {
    throw new DOMException("", "NotAllowedError");
  });
  const fault = await new Promise((resolve) => watchForCode(refused, vi.fn(), resolve));
  expect(fault).toBe("not_allowed");
  expect(faultOf(new DOMException("", "NotFoundError"))).toBe("no_camera");
  expect(faultOf(new DOMException("", "SecurityError"))).toBe("insecure");
  expect(faultOf(new NoReader())).toBe("no_reader");
});

it("lets go of a camera that opens after it was closed again", async () => {
  let open: (stream: unknown) => void = () => undefined;
  const video = camera(
    () =>
      new Promise((resolve) => {
        open = resolve;
      }),
  );
  watchForCode(video, vi.fn(), vi.fn())();
  open(stream);
  await vi.waitFor(() => expect(stop).toHaveBeenCalled());
});

it("finds the code on a picture, and none on a file that is no picture", async () => {
  vi.stubGlobal("createImageBitmap", async () => ({ close: () => undefined }));
  seen.push(["PF4RG-9KTDM"]);
  expect(await codeOnPicture(new Blob())).toBe("PF4RG-9KTDM");
  vi.stubGlobal("createImageBitmap", async () => {
    throw new DOMException("", "InvalidStateError");
  });
  expect(await codeOnPicture(new Blob())).toBeNull();
});

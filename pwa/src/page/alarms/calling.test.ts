/** The server's key, as browsers want it. */

import { expect, it } from "vitest";
import { bytesOf } from "./calling";

it("base64url is read as bytes, with its two signs of its own and without padding", () => {
  // RFC 4648, section 10 gives "Zm9vYmE" for "fooba"; the two signs are those of its section 5.
  expect([...bytesOf("Zm9vYmE")]).toEqual([..."fooba"].map((sign) => sign.charCodeAt(0)));
  expect([...bytesOf("-_8")]).toEqual([251, 255]);
});

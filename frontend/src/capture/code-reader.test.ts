// @vitest-environment node
/** The reader that comes with the app, on real bar codes. */
import { readFile } from "node:fs/promises";
import { beforeAll, describe, expect, it } from "vitest";
import { prepareZXingModule } from "zxing-wasm/reader";
import { prepareZXingModule as prepareWriter, writeBarcode } from "zxing-wasm/writer";
import { makeCodeReader, ownReader, type DetectorMaker } from "./code-reader";

const VIN = "1M8GDM9AXKP042788";
const wasm = async (kind: "reader" | "writer") => {
  const bytes = await readFile(
    new URL(`../../node_modules/zxing-wasm/dist/${kind}/zxing_${kind}.wasm`, import.meta.url),
  );
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
};

beforeAll(async () => {
  prepareZXingModule({ overrides: { wasmBinary: await wasm("reader") } });
  prepareWriter({ overrides: { wasmBinary: await wasm("writer") } });
});

describe("a code in a picture", () => {
  it.each(["Code39", "Code128", "DataMatrix", "QRCode", "PDF417"] as const)("is read: %s", async (format) => {
    const { image } = await writeBarcode(VIN, { format, scale: 3, addQuietZones: true });
    if (image === null) throw new Error("no picture");
    expect(await ownReader().read(image)).toEqual([VIN]);
  });

  it("is nothing where there is none", async () => {
    const { image } = await writeBarcode("another kind", {
      format: "Code128",
      scale: 1,
      addQuietZones: true,
    });
    if (image === null) throw new Error("no picture");
    expect(await ownReader().read(image.slice(0, image.size / 2))).toEqual([]);
  });
});

describe("the browser's own reader", () => {
  const browser = (formats: string[]): DetectorMaker =>
    class {
      static getSupportedFormats = () => Promise.resolve(formats);
      detect = () => Promise.resolve([{ rawValue: "from the browser" }]);
    };

  it("is taken where it knows the bars of a VIN", async () => {
    const reader = await makeCodeReader(browser(["code_39", "qr_code"]));
    expect(await reader.read(new Blob())).toEqual(["from the browser"]);
  });
});

/** Reads bar codes and square codes: by the browser where it can, else by a reader of our own that works offline. */
import { prepareZXingModule, readBarcodes, type ReaderOptions } from "zxing-wasm/reader";
import wasmUrl from "zxing-wasm/reader/zxing_reader.wasm?url";

export type CodeReader = {
  /** the texts of all codes in the picture, [] when there is none to be read */
  read(picture: Blob | ImageData): Promise<string[]>;
};

/** Those found on vehicles: bars on windscreens, door pillars and papers, squares on labels and parts. */
const FORMATS: NonNullable<ReaderOptions["formats"]> = [
  "Code39",
  "Code128",
  "DataMatrix",
  "QRCode",
  "PDF417",
  "Aztec",
];
const NATIVE_FORMATS = ["code_39", "code_128", "data_matrix", "qr_code", "pdf417", "aztec"];
/** The one that matters most; a browser that lacks it is no help. */
const NEEDED = "code_39";

type Detector = { detect(picture: ImageBitmapSource): Promise<{ rawValue: string }[]> };
export type DetectorMaker = {
  new (options: { formats: string[] }): Detector;
  getSupportedFormats(): Promise<string[]>;
};

/** `browser`: the page's own BarcodeDetector, where there is one. */
export async function makeCodeReader(browser?: DetectorMaker): Promise<CodeReader> {
  const known = (await browser?.getSupportedFormats().catch(() => [])) ?? [];
  if (browser && known.includes(NEEDED))
    return nativeReader(new browser({ formats: NATIVE_FORMATS.filter((one) => known.includes(one)) }));
  prepareZXingModule({ overrides: { locateFile: () => wasmUrl } });
  return ownReader();
}

function nativeReader(detector: Detector): CodeReader {
  const own = ownReader();
  return {
    // A detector that is announced but broken (it happens on desktop systems) must not leave the person without one.
    read: async (picture) => {
      try {
        return (await detector.detect(picture)).map((code) => code.rawValue);
      } catch {
        prepareZXingModule({ overrides: { locateFile: () => wasmUrl } });
        return own.read(picture);
      }
    },
  };
}

/** The reader that comes with the app; its module must have been prepared. */
export function ownReader(): CodeReader {
  return {
    read: async (picture) => {
      const found = await readBarcodes(picture, { formats: FORMATS, tryHarder: true, maxNumberOfSymbols: 4 });
      return found.filter((code) => code.isValid).map((code) => code.text);
    },
  };
}

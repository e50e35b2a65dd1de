/** The screen stays lit while something is timed. */
import { describe, expect, it } from "vitest";
import { keepAwake, wakeLamp } from "./wake-lock";

function makeLamp() {
  const lamp = { asked: 0, lit: 0, request: () => Promise.resolve({ release: () => Promise.resolve() }) };
  lamp.request = () => {
    lamp.asked += 1;
    lamp.lit += 1;
    return Promise.resolve({
      release: () => {
        lamp.lit -= 1;
        return Promise.resolve();
      },
    });
  };
  return lamp;
}
const turn = () => new Promise((resolve) => setTimeout(resolve));

describe("the screen", () => {
  it("is lit until the run is over, and lit again when the page comes back", async () => {
    const lamp = makeLamp();
    const end = keepAwake(lamp, document);
    await turn();
    document.dispatchEvent(new Event("visibilitychange"));
    await turn();
    expect(lamp.asked).toBe(2);
    end();
    await turn();
    expect(lamp.lit).toBe(0);
    document.dispatchEvent(new Event("visibilitychange"));
    await turn();
    expect(lamp.asked).toBe(2);
  });

  it("is let go even when the lamp came after the end", async () => {
    const lamp = makeLamp();
    keepAwake(lamp, document)();
    await turn();
    expect(lamp.lit).toBe(0);
  });

  it("goes out as always where the browser cannot hold it or refuses", async () => {
    expect(wakeLamp({})).toBeNull();
    keepAwake(null, document)();
    keepAwake({ request: () => Promise.reject(new Error("battery low")) }, document)();
    await turn();
  });
});

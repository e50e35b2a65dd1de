/** Installing. */
import { expect, it } from "vitest";
import { canInstall, holdOffer, install, platformOf } from "./install";

it.each([
  ["Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 Safari/604.1", 5, "ios"],
  ["Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Safari/605.1.15", 5, "ios"],
  [
    "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Safari/605.1.15",
    0,
    "desktop-safari",
  ],
  ["Mozilla/5.0 (Linux; Android 15) AppleWebKit/537.36 Chrome/140.0 Mobile Safari/537.36", 5, "android"],
  ["Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0", 5, "android-firefox"],
  ["Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0", 0, "desktop-firefox"],
  ["Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 Chrome/140.0 Safari/537.36", 0, "desktop"],
])("%s with %i fingers is helped as %s", (agent, fingers, platform) => {
  expect(platformOf(agent, fingers)).toBe(platform);
});

it("holds the browser's offer until the person asks for it, once", () => {
  let asked = 0;
  const end = holdOffer(window);
  const offer = Object.assign(new Event("beforeinstallprompt", { cancelable: true }), {
    prompt: () => Promise.resolve((asked += 1)),
  });
  window.dispatchEvent(offer);
  expect(offer.defaultPrevented).toBe(true);
  expect([canInstall.value, asked]).toEqual([true, 0]);
  install();
  install();
  expect([canInstall.value, asked]).toEqual([false, 1]);
  end();
});

// What the desk is told about the server's certificate.
import { signal } from "@preact/signals";
import { afterEach, expect, it } from "vitest";
import { makeApi } from "../../api/api";
import { makeBay, show, takeAway, until } from "../bay/testing";
import { CertificateLine } from "./certificate-line";
import { DeskContext } from "./context";

const PING = { server: { instance: "server-1", epoch: 1 }, time: "", formats: [1], book: "b", app: "1" };

afterEach(takeAway);

function told(more: Record<string, unknown>) {
  let asked = 0;
  const api = makeApi(() => {
    asked += 1;
    const headers = { "Content-Type": "application/json" };
    return Promise.resolve(new Response(JSON.stringify({ ...PING, ...more }), { headers }));
  });
  const desk = { api, names: signal(new Map<string, string>()), pull: () => undefined };
  const page = show(
    makeBay(),
    <DeskContext.Provider value={desk}>
      <CertificateLine />
    </DeskContext.Provider>,
  );
  return { page, asked: () => asked };
}

it("tells how many days are left, and when none is", async () => {
  const words: [number, string][] = [
    [12, "The server's certificate runs out in 12 days."],
    [1, "The server's certificate runs out in 1 day."],
    [-2, "The server's certificate has run out."],
  ];
  for (const [certificate_days, says] of words) {
    const { page } = told({ certificate_days });
    await until(() => page.querySelector("[role=status]") !== null);
    expect(page.textContent).toContain(says);
    takeAway();
  }
});

it("hears nothing while there is time", async () => {
  const { page, asked } = told({});
  await until(() => asked() > 0);
  await new Promise((done) => setTimeout(done));
  expect(page.textContent).toBe("");
});

// @vitest-environment node
import { expect, test, vi } from "vitest";
import { askForRoom, isTooLittleForAWalk, lookAtRoom, type Manager } from "./persist";

function browser(free_bytes: number, persisted = false): Manager {
  return {
    persisted: () => Promise.resolve(persisted),
    persist: vi.fn(() => Promise.resolve(true)),
    estimate: () => Promise.resolve({ usage: 5_000_000, quota: 5_000_000 + free_bytes }),
  };
}

test("room that holds 150 photos of 300 kB and half as much again is enough for a walk, less is not", async () => {
  expect(isTooLittleForAWalk(await lookAtRoom(browser(67_500_000)))).toBe(false);
  expect(isTooLittleForAWalk(await lookAtRoom(browser(67_499_999)))).toBe(true);
});

test("a browser that gives no estimate is no reason to warn", async () => {
  const room = await lookAtRoom(undefined);
  expect(room).toEqual({ persisted: false, used_bytes: null, free_bytes: null });
  expect(isTooLittleForAWalk(room)).toBe(false);
});

test("more used than allowed is no room, not less than none", async () => {
  expect((await lookAtRoom(browser(-1))).free_bytes).toBe(0);
});

test("looking asks the browser for nothing; asking does so once it has not promised yet", async () => {
  const [fresh, firm] = [browser(1), browser(1, true)];
  await lookAtRoom(fresh);
  expect(fresh.persist).not.toHaveBeenCalled();
  expect((await askForRoom(fresh)).persisted).toBe(true);
  await askForRoom(firm);
  expect(firm.persist).not.toHaveBeenCalled();
});

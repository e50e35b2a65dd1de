/** For the tests: the laws of merging, in one helper that every example passes through. */
import { expect } from "vitest";
import { digest } from "./digest";
import { disagreements, standingOf, type Replacing } from "./standing";

/** What stands, written as plainly as can be: an entry that no other of its slot names. */
export function naiveStanding(entries: readonly Replacing[]): Map<string, Set<string>> {
  const stands = new Map<string, Set<string>>();
  for (const one of entries) {
    const others = entries.filter((other) => other.id !== one.id && other.slot === one.slot);
    if (others.some((other) => other.replaces.includes(one.id))) continue;
    stands.set(one.slot, (stands.get(one.slot) ?? new Set()).add(one.id));
  }
  return stands;
}

/**
 * However the entries were handed round, the whole of them gives one standing, that of the naive model.
 *
 * heaps: what each phone received, in its order, repeats and all; together they are everything that was written.
 */
export function assertConverges(
  heaps: readonly (readonly Replacing[])[],
  written: readonly Replacing[],
): void {
  const ids = new Set(written.map(({ id }) => id));
  expect(new Set(heaps.flat().map(({ id }) => id))).toEqual(ids);
  const expected = standingOf(written);
  heaps.forEach((_, first) => {
    const order = [...heaps.slice(first), ...heaps.slice(0, first)].flat();
    expect([...standingOf(order)]).toEqual([...expected]);
    expect(digest(new Set(order.map(({ id }) => id)))).toBe(digest(ids));
  });
  const naive = naiveStanding(written);
  expect(new Map([...expected].map(([slot, stand]) => [slot, new Set(stand.map(({ id }) => id))]))).toEqual(
    naive,
  );
  expect(new Set(disagreements(expected))).toEqual(
    new Set([...naive].filter(([, stand]) => stand.size > 1).map(([slot]) => slot)),
  );
}

/** Once an entry has been seen replaced it never stands again, whatever arrives later. */
export function assertNothingComesBack(heap: readonly Replacing[]): void {
  const replaced = new Set<string>();
  heap.forEach((entry, place) => {
    for (const id of entry.replaces) if (id !== entry.id) replaced.add(`${entry.slot} ${id}`);
    for (const [slot, stand] of standingOf(heap.slice(0, place + 1)))
      for (const { id } of stand) expect(replaced).not.toContain(`${slot} ${id}`);
  });
}

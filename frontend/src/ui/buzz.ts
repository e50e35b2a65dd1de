/** A short shake of the phone, unless the person has switched it off or the phone has none. */

let isOn = true;

export function setBuzzing(on: boolean): void {
  isOn = on;
}

/** pattern: ms of shaking, pause, shaking … */
export function buzz(pattern: number | number[] = 30): void {
  const phone: { vibrate?: (pattern: number | number[]) => boolean } = navigator;
  if (isOn) phone.vibrate?.(pattern);
}

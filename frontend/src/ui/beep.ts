/** A short tone; silent where the browser has no sound or does not allow it yet. */

let sound: AudioContext | null = null;

/** To be called from a tap: some browsers let no sound out that was not first asked for by a tap. */
export function unlockSound(): void {
  if (typeof AudioContext === "undefined") return;
  sound ??= new AudioContext();
  void sound.resume();
}

/** hertz: pitch; seconds: length. */
export function beep(hertz = 880, seconds = 0.25): void {
  if (typeof AudioContext === "undefined") return;
  sound ??= new AudioContext();
  void sound.resume();
  const tone = sound.createOscillator();
  const volume = sound.createGain();
  tone.frequency.value = hertz;
  volume.gain.setValueAtTime(0.4, sound.currentTime);
  volume.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + seconds);
  tone.connect(volume).connect(sound.destination);
  tone.start();
  tone.stop(sound.currentTime + seconds);
}

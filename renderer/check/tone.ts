/** One short tone for each step; the sound is made when it is wanted first. */
let sound: AudioContext | null = null;

/** Hz; a lamp that may only flash sounds lower. */
export function tone(pitch: number): void {
  try {
    sound ??= new AudioContext();
    const start = sound.currentTime;
    const source = new OscillatorNode(sound, { frequency: pitch });
    const volume = new GainNode(sound, { gain: 0 });
    // Without a slope at both ends it would click.
    volume.gain.setValueAtTime(0, start);
    volume.gain.linearRampToValueAtTime(0.2, start + 0.02);
    volume.gain.setValueAtTime(0.2, start + 0.13);
    volume.gain.linearRampToValueAtTime(0, start + 0.16);
    source.connect(volume).connect(sound.destination);
    source.start(start);
    source.stop(start + 0.17);
  } catch {
    // A computer without sound checks lamps all the same.
  }
}

import { type Note, SCORES, type SoundName } from "./sound-score.ts";

export interface Sounds {
  play(name: SoundName): void;
  isMuted(): boolean;
  /** Remembered in this browser. Vibration goes with the sound. */
  mute(isMuted: boolean): void;
}

const MUTED = "layertrail.muted";
/** A note that begins or ends at full loudness clicks. */
const FADE_S = 0.006;
const LOUDEST = 0.4;

/** A sound that would come later than this belongs to something else by then. */
const LATEST_MS = 300;

/**
 * Plays the sounds of the bench. Browsers allow audio from the first key or touch on; before that, and where there
 * is no audio, playing is silent and never fails: no verdict hangs on a sound.
 */
export function openSounds(): Sounds {
  let context: AudioContext | undefined;
  let isMuted = readMuted();
  const sound = async (notes: readonly Note[]) => {
    if (!("AudioContext" in window)) return;
    context ??= new AudioContext();
    const asked = performance.now();
    if (context.state !== "running") await context.resume();
    if (performance.now() - asked > LATEST_MS) return;
    for (const note of notes) playNote(context, note);
  };
  return {
    play: (name) => {
      if (isMuted || !navigator.userActivation?.hasBeenActive) return;
      const { notes, vibration } = SCORES[name];
      if ("vibrate" in navigator) navigator.vibrate([...vibration]);
      // An audio device that is gone, or a closed page: silence.
      sound(notes).catch(() => undefined);
    },
    isMuted: () => isMuted,
    mute: (next) => {
      isMuted = next;
      writeMuted(next);
    },
  };
}

function playNote(context: AudioContext, note: Note): void {
  const start = context.currentTime + note.startMs / 1_000;
  const end = start + note.lengthMs / 1_000;
  const tone = new OscillatorNode(context, { type: note.shape, frequency: note.hz });
  const level = new GainNode(context, { gain: 0 });
  const loudness = LOUDEST * note.loudness;
  level.gain.setValueAtTime(0, start);
  level.gain.linearRampToValueAtTime(loudness, start + FADE_S);
  level.gain.setValueAtTime(loudness, end - FADE_S);
  level.gain.linearRampToValueAtTime(0, end);
  tone.connect(level).connect(context.destination);
  if (note.waver) {
    const waver = new OscillatorNode(context, { frequency: note.waver.perSecond });
    waver.connect(new GainNode(context, { gain: note.waver.hz })).connect(tone.frequency);
    waver.start(start);
    waver.stop(end);
  }
  tone.start(start);
  tone.stop(end);
}

/** Storage may be switched off; then the choice lasts as long as the page. */
function readMuted(): boolean {
  try {
    return localStorage.getItem(MUTED) === "yes";
  } catch {
    return false;
  }
}

function writeMuted(isMuted: boolean): void {
  try {
    localStorage.setItem(MUTED, isMuted ? "yes" : "no");
  } catch {
    return;
  }
}

// Sounds, made here: each dish has a pitch and a number of beats of its own, so that they do not sound alike.

const sound = (() => {
  const PITCHES = [523, 784, 622, 932, 698, 1047, 587];
  let context = null;

  function wake() {
    const Kind = window.AudioContext || window.webkitAudioContext;
    if (!Kind) return;
    context = context || new Kind();
    if (context.state === "suspended") context.resume().catch(() => {});
  }

  function beep(pitch, at, long) {
    const tone = context.createOscillator(), loud = context.createGain();
    tone.type = "triangle";
    tone.frequency.value = pitch;
    loud.gain.setValueAtTime(0.0001, at);
    loud.gain.exponentialRampToValueAtTime(0.4, at + 0.02);
    loud.gain.exponentialRampToValueAtTime(0.0001, at + long);
    tone.connect(loud).connect(context.destination);
    tone.start(at);
    tone.stop(at + long + 0.02);
  }

  return {
    wake,
    ready: () => context !== null && context.state === "running",
    // the tone's number tells the dish
    ring(tone) {
      const touched = navigator.userActivation ? navigator.userActivation.hasBeenActive : true;
      if (navigator.vibrate && touched) navigator.vibrate([200, 100, 200]);
      if (!this.ready()) return false;
      const beats = 2 + (tone % 3);
      for (let beat = 0; beat < beats; beat += 1) beep(PITCHES[tone % PITCHES.length], context.currentTime + beat * 0.28, 0.24);
      return true;
    },
    // one soft note: the next line's time has come
    chime(tone) {
      if (this.ready()) beep(PITCHES[tone % PITCHES.length] / 2, context.currentTime, 0.6);
    },
  };
})();

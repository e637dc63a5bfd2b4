// What is done by touch and by key, and how the page begins.

function acts() {
  document.addEventListener("change", (event) => {
    const mark = event.target.dataset.mark || event.target.dataset.next;
    if (!mark) return;
    if (event.target.checked) tick(mark, clock.now());
    else untick(mark);
  });
  document.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    const at = clock.now();
    if (button.dataset.end) {
      timers.stop(button.dataset.end);
    } else if (button.dataset.less || button.dataset.more) {
      timers.change(button.dataset.less || button.dataset.more, button.dataset.less ? -5 : 5);
    } else if (button.dataset.start) {
      ownTimer(Number(button.dataset.start), at);
    } else {
      return;
    }
    changed(at);
  });
  const does = {
    done: () => { const [line] = ticks.open(); if (line) ticks.tick(line.mark, clock.now()); },
    undo: () => ticks.undo(),
    "catch-up": () => ticks.catchUp(clock.now()),
    silence: () => timers.silence(clock.now()),
    longer: () => timers.longer(clock.now()),
    "whose-other": () => { keep.held.who = keep.held.who ? "" : sheet.cook; },
  };
  for (const [name, act] of Object.entries(does)) {
    part(name).addEventListener("click", () => { act(); changed(clock.now()); });
  }
  part("try").addEventListener("click", () => { sound.wake(); setTimeout(() => sound.ring(1), 60); });
  part("who").addEventListener("change", () => { keep.held.who = part("who").value; changed(clock.now()); });
  part("look").addEventListener("change", () => { keep.held.look = part("look").value; changed(clock.now()); });
  part("forget").addEventListener("click", forget);
  document.addEventListener("keydown", keys);
  for (const kind of ["pointerdown", "keydown"]) {
    document.addEventListener(kind, () => { sound.wake(); awake.ask(); }, { passive: true });
  }
  document.addEventListener("visibilitychange", () => { draw(clock.now()); awake.ask(); });
  window.addEventListener("beforeprint", () => {
    for (const day of document.querySelectorAll(".day details")) day.open = true;
  });
}

// A timer of the cook's own has a sound by its length, so that two of them can be told apart.
function ownTimer(minutes, at) {
  const about = { of: `Timer of ${minutes} min`, does: "", place: "", over: "rings", tone: Math.min(14 + minutes, 20) };
  timers.begin(`own-${at}`, about, at + minutes * MINUTE);
}

function keys(event) {
  if (event.key === "Escape" && timers.ringing(clock.now())) part("silence").click();
  else if (event.ctrlKey && event.key === "Enter") part("done").click();
  else if (event.ctrlKey && event.key.toLowerCase() === "z") undo();
  else return;
  event.preventDefault();
}

// A slip of the finger must not lose the day: it asks once more.
function forget() {
  const button = part("forget"), usual = "Forget all ticks and timers";
  if (button.dataset.sure) {
    keep.forget();
    changed(clock.now());
    delete button.dataset.sure;
    button.textContent = usual;
    return;
  }
  button.dataset.sure = "yes";
  button.textContent = "Press once more to forget them";
  setTimeout(() => { delete button.dataset.sure; button.textContent = usual; }, 5000);
}

function begin() {
  document.documentElement.dataset.alive = "yes";
  const choices = [...part("who").options].map((each) => each.value);
  part("cooks").hidden = choices.length < 3;
  if (!choices.includes(keep.held.who)) keep.held.who = "";
  part("look").value = keep.held.look;
  if (clock.apart() !== 0) {
    part("zone").hidden = false;
    part("zone").textContent = `Times are those of ${sheet.zone}. When it is ${clock.wall(sheet.plating)} there, ` +
      `this phone's own clock shows ${clock.own(sheet.plating)}.`;
  }
  acts();
  awake.tell();
  drawRows();
  draw(clock.now());
  setInterval(() => draw(clock.now()), 500);
}

begin();

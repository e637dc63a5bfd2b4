// The page: what is due now, what comes next, the ticks. Words of the plan are only ever set as text.

const part = (name) => document.getElementById(name);
const byMark = new Map(sheet.lines.map((line) => [line.mark, line]));
const rowOf = (mark) => part(`l-${mark}`);
const LATE = 2;     // minutes after which a line is late
const SHOWN = 3;    // lines under Next, and all that are due besides
const MOST_SHOWN = 8;
let shown = "";     // the line that the card shows
let chimed = clock.now();

const isMine = (line) => !keep.held.who || line.who.length === 0 || line.who.includes(keep.held.who);
const unticked = () => sheet.lines.filter((line) => isMine(line) && !(line.mark in keep.held.ticks));

function tick(mark, at) {
  const line = byMark.get(mark);
  keep.held.ticks[mark] = at;
  keep.held.order = keep.held.order.filter((each) => each !== mark).concat(mark);
  if (line.ends) timers.stop(line.ends);
  // what is ticked off after its planned end is only written down: it does not begin now
  const planned = line.at + line.runs * MINUTE;
  if (line.runs && at < planned) timers.begin(mark, line.of, line.does, line.runs, line.tone, at, planned);
  changed(at);
}

function untick(mark) {
  delete keep.held.ticks[mark];
  keep.held.order = keep.held.order.filter((each) => each !== mark);
  timers.stop(mark);
  changed(clock.now());
}

function undo() {
  const mark = keep.held.order.at(-1);
  if (mark) untick(mark);
}

function changed(at) {
  keep.save();
  drawRows();
  draw(at);
}

// ---- what is seen

function drawRows() {
  for (const line of sheet.lines) {
    const row = rowOf(line.mark), at = keep.held.ticks[line.mark];
    row.hidden = !isMine(line);
    row.classList.toggle("ticked", at !== undefined);
    row.querySelector("input").checked = at !== undefined;
    let note = row.querySelector(".done-at");
    if (at === undefined) {
      if (note) note.remove();
    } else {
      if (!note) {
        note = document.createElement("span");
        note.className = "done-at";
        row.querySelector(".text").append(note);
      }
      note.textContent = `done ${clock.wall(at)}`;
    }
  }
  const last = byMark.get(keep.held.order.at(-1));
  part("undo").disabled = !last;
  part("undo").setAttribute("aria-label", last ? `Undo: ${last.said}` : "Undo");
  for (const day of document.querySelectorAll(".day")) day.hidden = !day.querySelector(".line:not([hidden])");
}

function draw(at) {
  part("clock").textContent = clock.wall(at);
  part("left").textContent = at < sheet.plating
    ? `serve ${clock.wall(sheet.plating)}, in ${clock.length(clock.until(sheet.plating, at))}`
    : `served ${clock.wall(sheet.plating)}, ${clock.length(clock.since(sheet.plating, at))} ago`;
  const lines = unticked();
  drawNow(lines[0], at);
  drawNext(lines, at);
  timers.draw(at);
  drawLook(at);
  part("forgets").hidden = keep.lasting;
  chime(lines, at);
}

function due(line, at) {
  if (at < line.at) return { how: "soon", said: `In ${clock.length(clock.until(line.at, at))}` };
  const late = clock.since(line.at, at);
  return late < LATE ? { how: "due", said: "Now" } : { how: "late", said: `Now, ${clock.length(late)} late` };
}

function drawNow(line, at) {
  const card = document.querySelector(".now"), text = part("now-line");
  const state = line ? due(line, at) : { how: "over", said: "All done" };
  part("late").hidden = state.how !== "late";
  if (state.how === "late") part("late").textContent = `${clock.length(clock.since(line.at, at))} late`;
  card.dataset.due = state.how;
  if (part("now-head").textContent !== state.said) part("now-head").textContent = state.said;
  part("done").hidden = !line;
  const key = line ? `${line.mark}/${state.how}` : "over";
  if (key === shown) return;
  shown = key;
  for (const row of document.querySelectorAll(".first")) row.classList.remove("first");
  if (line) {
    text.replaceChildren(copyOf(line));
    rowOf(line.mark).classList.add("first");
    part("done").setAttribute("aria-label", `Done: ${line.said}`);
    if (state.how !== "soon") part("said").textContent = `${state.how === "late" ? "Late" : "Now"}: ${line.said}`;
  } else {
    text.textContent = sheet.lines.length ? "Every line is ticked off." : "Nothing is placed yet.";
    part("done").setAttribute("aria-label", "Done");
  }
}

function copyOf(line) {
  const text = rowOf(line.mark).querySelector(".text").cloneNode(true);
  for (const note of text.querySelectorAll(".done-at")) note.remove();
  return text;
}

function drawNext(lines, at) {
  const rest = lines.slice(1);
  const alsoDue = rest.filter((line) => line.at <= at).length;
  const found = rest.slice(0, Math.min(MOST_SHOWN, Math.max(SHOWN, alsoDue + 1)));
  const list = part("next"), shape = found.map((line) => line.mark).join(" ");
  part("no-next").hidden = found.length > 0;
  if (list.dataset.shape !== shape) {
    const focus = document.activeElement && document.activeElement.dataset.next;
    list.replaceChildren(...found.map(nextItem));
    list.dataset.shape = shape;
    if (focus) (list.querySelector(`[data-next="${CSS.escape(focus)}"]`) || part("done")).focus();
  }
  found.forEach((line, index) => {
    list.children[index].querySelector(".next-in").textContent = due(line, at).said.toLowerCase();
  });
}

function nextItem(line) {
  const row = document.createElement("li"), label = document.createElement("label");
  const box = document.createElement("input"), text = copyOf(line), left = document.createElement("span");
  row.className = "line";
  box.type = "checkbox";
  box.autocomplete = "off";
  box.dataset.next = line.mark;
  left.className = "next-in";
  const first = text.querySelector(".detail");
  if (first) first.classList.add("keep");
  text.querySelector(".when").append(" ", left);
  label.append(box, text);
  row.append(label);
  return row;
}

function drawLook(at) {
  const hour = clock.hour(at), night = hour >= 21 || hour < 6;
  const wished = matchMedia("(prefers-color-scheme: dark)").matches;
  document.documentElement.dataset.look = keep.held.look || (night || wished ? "dark" : "light");
}

// One soft note when a line's time comes while the page is open, whatever timers say.
function chime(lines, at) {
  const come = lines.find((line) => line.at > chimed && line.at <= at);
  chimed = Math.max(chimed, at);
  if (come && !timers.ringing(at)) sound.chime(come.tone);
}

// ---- what is done

let wakeLock = null;

async function stayAwake() {
  if (wakeLock || !navigator.wakeLock || document.visibilityState !== "visible") return;
  try {
    wakeLock = await navigator.wakeLock.request("screen");
    wakeLock.addEventListener("release", () => { wakeLock = null; });
  } catch (refused) {
    wakeLock = null;
  }
}

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
      const minutes = Number(button.dataset.start);
      timers.begin(`own-${at}`, `Timer of ${minutes} min`, "", minutes, 0, at);
    } else {
      return;
    }
    changed(at);
  });
  part("done").addEventListener("click", () => { const [line] = unticked(); if (line) tick(line.mark, clock.now()); });
  part("undo").addEventListener("click", undo);
  part("silence").addEventListener("click", () => { timers.silence(clock.now()); changed(clock.now()); });
  part("longer").addEventListener("click", () => { timers.longer(clock.now()); changed(clock.now()); });
  part("try").addEventListener("click", () => { sound.wake(); setTimeout(() => sound.ring(1), 60); });
  part("who").addEventListener("change", () => { keep.held.who = part("who").value; changed(clock.now()); });
  part("look").addEventListener("change", () => { keep.held.look = part("look").value; changed(clock.now()); });
  part("forget").addEventListener("click", forget);
  document.addEventListener("keydown", keys);
  for (const kind of ["pointerdown", "keydown"]) {
    document.addEventListener(kind, () => { sound.wake(); stayAwake(); }, { passive: true });
  }
  document.addEventListener("visibilitychange", () => { draw(clock.now()); if (wakeLock === null) stayAwake(); });
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
  const cooks = part("who").options.length - 1;
  part("cooks").hidden = cooks < 2;
  if (![...part("who").options].some((each) => each.value === keep.held.who)) keep.held.who = "";
  part("who").value = keep.held.who;
  part("look").value = keep.held.look;
  if (clock.apart() !== 0) {
    part("zone").hidden = false;
    part("zone").textContent = `Times are those of ${sheet.zone}. When it is ${clock.wall(sheet.plating)} there, ` +
      `this phone's own clock shows ${clock.own(sheet.plating)}.`;
  }
  acts();
  drawRows();
  draw(clock.now());
  setInterval(() => draw(clock.now()), 500);
}

begin();

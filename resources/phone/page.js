// The page: what is due now, what comes next, the whole list. Words of the plan are only ever set as text.

const part = (name) => document.getElementById(name);
const rowOf = (mark) => part(`l-${mark}`);
const SHOWN = 2;    // lines under Next, and all that are due besides
const MOST_SHOWN = 8;
let shown = "";     // the line that the card shows
let chimed = clock.now();

function changed(at) {
  keep.save();
  drawRows();
  draw(at);
}

function tick(mark, at) { ticks.tick(mark, at); changed(at); }
function untick(mark) { ticks.untick(mark); changed(clock.now()); }
function undo() { ticks.undo(); changed(clock.now()); }

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
      note.textContent = at ? `done ${clock.wall(at)}` : "done";
    }
  }
  const last = ticks.last();
  const said = last.length > 1 ? `${last.length} lines` : last.length ? byMark.get(last[0]).said : "";
  part("undo").disabled = !said;
  part("undo").setAttribute("aria-label", said ? `Undo: ${said}` : "Undo");
  document.querySelectorAll(".day").forEach(drawDay);
  drawWhose();
}

// A day that is over folds itself up, once; what the cook opens stays open.
function drawDay(day) {
  const rows = [...day.querySelectorAll(".line:not([hidden])")];
  const done = rows.filter((row) => row.classList.contains("ticked")).length;
  const over = rows.length > 0 && done === rows.length;
  day.hidden = rows.length === 0;
  day.querySelector(".count").textContent = `${done} of ${rows.length} done`;
  if (over !== (day.dataset.over === "yes")) {
    day.dataset.over = over ? "yes" : "no";
    day.querySelector("details").open = !over;
  }
}

function drawWhose() {
  const { who } = keep.held;
  part("whose").hidden = !who && !sheet.cook;
  part("whose-said").textContent = who ? `Lines of ${who}` : "Everybody's lines";
  part("whose-other").textContent = who ? "Show all" : `Only ${sheet.cook}'s`;
  part("who").value = who;
}

function draw(at) {
  part("clock").textContent = clock.wall(at);
  part("left").textContent = at < sheet.plating
    ? `serve ${clock.wall(sheet.plating)}, in ${clock.length(clock.until(sheet.plating, at))}`
    : `served ${clock.wall(sheet.plating)}, ${clock.length(clock.since(sheet.plating, at))} ago`;
  const lines = ticks.open();
  drawNow(lines[0], at);
  drawBehind(lines, at);
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
  const state = line ? due(line, at) : { how: "over", said: sheet.lines.length ? "All done" : "Nothing yet" };
  part("late").hidden = state.how !== "late";
  if (state.how === "late") part("late").textContent = `${clock.length(clock.since(line.at, at))} late`;
  card.dataset.due = state.how;
  card.dataset.serves = line && line.serves ? "yes" : "no";
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

function drawBehind(lines, at) {
  const late = ticks.behind(lines, at);
  part("behind").hidden = late.length === 0;
  if (late.length) part("behind-said").textContent = `${late.length} lines up to ${clock.wall(at)} are not ticked off.`;
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
  part("next-part").hidden = lines.length === 0;
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
  if (first && !line.serves) first.classList.add("keep");
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

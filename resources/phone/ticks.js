// Ticks: what is done, what it begins and ends, and how it is taken back. What a tick ended comes back with it.

const byMark = new Map(sheet.lines.map((line) => [line.mark, line]));
const LATE = 2;      // minutes after which a line is late
const BEHIND = 30;   // minutes after which all that is late may be ticked off at once
const FEW = 3;

const isMine = (line) => !keep.held.who || line.who.length === 0
  || line.who.includes(keep.held.who) || line.who.includes(sheet.nobody);

const ticks = {
  open: () => sheet.lines.filter((line) => isMine(line) && !(line.mark in keep.held.ticks)),

  last() {
    const { order } = keep.held;
    return order.length ? order[order.length - 1] : [];
  },

  tick(mark, at) {
    set(byMark.get(mark), at, at);
    keep.held.order.push([mark]);
  },

  // The lines that are late, where they are many and the first is long past: somebody has cooked on without the page.
  behind(lines, at) {
    const late = lines.filter((line) => clock.since(line.at, at) >= LATE);
    return late.length >= FEW && clock.since(late[0].at, at) >= BEHIND ? late : [];
  },

  // When they were done is not known: they bear no time, and what still cooks ends as planned.
  catchUp(at) {
    const lines = ticks.behind(ticks.open(), at);
    for (const line of lines) set(line, 0, line.at);
    if (lines.length) keep.held.order.push(lines.map((line) => line.mark));
  },

  untick(mark) {
    unset(mark);
    keep.held.order = keep.held.order.map((marks) => marks.filter((each) => each !== mark)).filter((marks) => marks.length);
  },

  undo() {
    for (const mark of (keep.held.order.pop() || []).reverse()) unset(mark);
  },
};

function set(line, told, begun) {
  keep.held.ticks[line.mark] = told;
  const ended = line.ends.reduce((found, each) => found.concat(timers.stop(each)), []);
  if (ended.length) keep.held.ended[line.mark] = ended;
  // what is ticked off after its planned end is only written down: it does not begin now
  const planned = line.at + line.runs * MINUTE;
  if (line.runs && Math.max(begun, clock.now()) < planned) timers.begin(line.mark, line, begun + line.runs * MINUTE, planned);
}

function unset(mark) {
  delete keep.held.ticks[mark];
  timers.stop(mark);
  timers.restore((keep.held.ended[mark] || []).filter((each) => each.mark in keep.held.ticks));
  delete keep.held.ended[mark];
}

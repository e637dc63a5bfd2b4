"""Scripts that a test puts before the page's own: a clock that can be set, and an ear for what sounds."""

CLOCK = """(() => {
  const real = Date.now.bind(Date);
  let shift = 0;
  Date.now = () => real() + shift;
  window.setNow = (at) => { shift = at - real(); };
  window.pass = (seconds) => { shift += seconds * 1000; };
})()"""
"""`setNow(ms since 1970)` sets what the page takes for now; it goes on from there until the page is left."""

LISTENS = """(() => {
  window.tones = [];
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (at) {
    window.tones.push([Math.round(this.frequency.value), this.context.state]);
    return start.call(this, at);
  };
})()"""
"""Every tone that is begun is written down in `tones`: its pitch, and whether the device was running."""

// Keeps what was ticked, and shows how far the build has come.
(() => {
  "use strict";
  const boxes = [...document.querySelectorAll(".tick-box[data-tick]")];
  const counts = [...document.querySelectorAll(".tick-count")];

  function show() {
    const ticks = shed.ticks();
    for (const box of boxes) box.checked = Object.hasOwn(ticks, box.dataset.tick);
    const done = boxes.filter((box) => box.checked).length;
    for (const count of counts) count.textContent = `${done} of ${boxes.length} done`;
  }

  /** Read again before writing: another page of the guide may have been ticked meanwhile. */
  function keep(box) {
    const ticks = { ...shed.ticks() };
    if (box.checked) ticks[box.dataset.tick] = Date.now();
    else delete ticks[box.dataset.tick];
    if (!shed.keep("ticks", ticks)) document.documentElement.classList.add("forgetful");
  }

  for (const box of boxes) box.addEventListener("change", () => keep(box));
  shed.heed("ticks", show);
  addEventListener("pageshow", show); // browsers put their own old ticks back, and pages come out of the cache
  show();
})();

// The front page's "How far you are": boxes ticked, what is next, what waits for glue.
(() => {
  "use strict";
  const place = document.querySelector('[data-shed="progress"]');
  const data = shed.block("guide-boxes");
  if (!place || !data) return;
  const { make } = shed;
  const LONG_OVER = 3 * 24 * 3600000; // what was over days ago waits no more
  const stages = data.stages;
  const titles = new Map(stages.map((stage) => [stage.slug, stage.title]));
  const all = stages.flatMap((stage) => stage.boxes.map(([id]) => id));

  const bar = make("progress", { class: "how-far__bar", max: all.length, "aria-label": "Boxes ticked" });
  const line = make("p", { class: "how-far__line" });
  const next = make("p", { class: "how-far__next" });
  const differs = make("p", { class: "how-far__differs" });
  const waits = make("ul", { class: "how-far__waits" });
  const list = make("ul", { class: "how-far__stages" });
  place.append(
    make("h2", { class: "how-far__title" }, "How far you are"),
    bar, line, next, waits, differs,
    make("details", { class: "how-far__each" }, make("summary", {}, "Stage by stage"), list),
  );

  const ids = (stage) => stage.boxes.map(([id]) => id);

  /** The stage that comes next: the first with a box left, or the file's own where nothing is ticked yet. */
  function coming() {
    if (shed.ticked(all) === 0) return stages.find((stage) => stage.slug === place.dataset.here) ?? stages[0];
    return shed.coming(stages);
  }

  function showNext(stage) {
    if (!stage) return next.replaceChildren("Every box is ticked. Enjoy the water.");
    const ticks = shed.ticks();
    const [id, title] = stage.boxes.find(([box]) => !Object.hasOwn(ticks, box));
    const link = make("a", { href: `${stage.file}#${id}` }, title);
    return next.replaceChildren(make("strong", {}, "Next box: "), link, ` (${stage.title})`);
  }

  /** What the maker's file says and what is ticked may differ: said calmly, and what to do about it. */
  function showDiffers(stage) {
    const here = place.dataset.here;
    const order = stages.map((one) => one.slug);
    const ahead = stage ? order.indexOf(stage.slug) - order.indexOf(here) : order.length;
    let text = "";
    if (shed.ticked(all) > 0 && ahead > 0) {
      const at = stage ? stage.title : "all done";
      text = `Your file says ${titles.get(here)}, your ticks say ${at}. Tell ${place.dataset.maker}, and the dates move with you.`;
    } else if (shed.ticked(all) > 0 && ahead < 0) {
      text = `Your file says ${titles.get(here)}, your ticks say ${stage.title}. Tick what is done, or tell ${place.dataset.maker}.`;
    }
    differs.textContent = text;
  }

  function showStages(stage) {
    list.replaceChildren(
      ...stages.map((one) => {
        const done = shed.ticked(ids(one));
        const state = done === one.boxes.length || (one.done && done === 0) ? "is-done" : one === stage ? "is-next" : "";
        const link = make("a", { href: one.file }, one.title);
        const count = one.done && done === 0 ? "done by your file" : `${done} of ${one.boxes.length}`;
        return make("li", { class: state }, link, make("span", {}, count));
      }),
    );
  }

  const clock = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });
  const day = new Intl.DateTimeFormat("en-GB", { weekday: "short", day: "numeric", month: "long" });

  /** "today at 19:30", "tomorrow at 07:10" or "Sat 5 December at 19:30". */
  function moment(ms) {
    const when = new Date(ms);
    const days = Math.round((new Date(ms).setHours(0, 0, 0, 0) - new Date().setHours(0, 0, 0, 0)) / 86400000);
    const said = { "-1": "yesterday", 0: "today", 1: "tomorrow" }[days] ?? day.format(when);
    return `${said} at ${clock.format(when)}`;
  }

  /** One clock: until when, or since when it is over; a time with two ends has both. */
  function waiting(one) {
    const { ends, latest } = one;
    const label = one.page ? make("a", { href: one.page }, one.label) : one.label;
    const passed = Date.now() >= latest;
    let text = `: until ${moment(ends)}`;
    if (passed) text = `: over since ${moment(latest)}`;
    else if (Date.now() >= ends) text = `: over since ${moment(ends)}, or lasts up to ${moment(latest)}`;
    else if (latest > ends) text += `, or up to ${moment(latest)}`;
    return make("li", { class: passed ? "is-over" : "" }, label, text);
  }

  function showWaits() {
    const told = shed.clocks().filter(
      ({ stopped, latest }) => !Number.isFinite(stopped) && latest > Date.now() - LONG_OVER,
    );
    waits.replaceChildren(...told.map(waiting));
  }

  function show() {
    const done = shed.ticked(all);
    const stage = coming();
    bar.value = done;
    line.textContent =
      done === 0
        ? `None of the ${all.length} boxes is ticked yet. Tick them as you go: this phone remembers.`
        : `${done} of ${all.length} boxes ${done === 1 ? "is" : "are"} ticked.`;
    showNext(stage);
    showDiffers(stage);
    showStages(stage);
    showWaits();
  }

  shed.heed("ticks", show);
  shed.heed("clocks", showWaits);
  setInterval(showWaits, 20000);
  show();
})();

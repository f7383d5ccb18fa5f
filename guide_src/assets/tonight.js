// "Tonight" shows one stage: the one chosen by hand, else the first with a box left, else the plan's next one.
(() => {
  "use strict";
  const place = document.querySelector('[data-shed="tonight"]');
  const all = document.querySelector(".tonight-stages");
  const data = shed.block("guide-boxes");
  if (!place || !all || !data) return;
  const { make } = shed;
  const stages = data.stages;
  const sections = [...all.querySelectorAll(".tonight-stage")];
  const known = (slug) => stages.find((stage) => stage.slug === slug) ?? null;

  const chooser = make(
    "select", { id: "tonight-chooser", class: "shed-field", change: choose },
    make("option", { value: "" }, "Let the guide choose"),
    ...stages.map((stage) => make("option", { value: stage.slug }, stage.title)),
  );
  const why = make("p", { class: "tonight-why", role: "status" });
  place.append(make("label", { class: "shed-label", for: "tonight-chooser" }, "For which stage?"), chooser, why);

  /** A link that leads to a stage shows it without being a choice. */
  let linked = null;
  function fromAddress() {
    const asked = location.hash.slice(1);
    linked = stages.find(({ slug }) => asked === `tonight-${slug}` || asked.startsWith(`tonight-${slug}-`)) ?? null;
  }

  function choose() {
    linked = null;
    if (chooser.value) shed.keep("stage", { slug: chooser.value, at: Date.now() });
    else shed.forget("stage");
    show();
  }

  /** The stage to show, why, and the box that comes next if that is the reason. */
  function chosen() {
    if (linked) return { stage: linked, why: "A link led you to this stage." };
    const byHand = known(shed.kept("stage")?.slug);
    if (byHand) return { stage: byHand, hand: true, why: "You chose this stage yourself." };
    const ticks = shed.ticks();
    if (stages.every(({ boxes }) => !boxes.some(([id]) => Object.hasOwn(ticks, id)))) {
      return { stage: known(place.dataset.next) ?? stages[0], why: "This stage is next." };
    }
    const stage = shed.coming(stages);
    if (!stage) return { stage: stages.at(-1), why: "Every box of the guide is ticked. This is the last stage." };
    const box = stage.boxes.find(([id]) => !Object.hasOwn(ticks, id));
    return { stage, box, why: "The next box without a tick is here: " };
  }

  function show() {
    const now = chosen();
    for (const section of sections) section.classList.toggle("chosen", section.dataset.stage === now.stage.slug);
    all.dataset.chosen = now.stage.slug;
    chooser.value = now.hand ? now.stage.slug : "";
    const link = now.box && make("a", { href: `${now.stage.file}#${now.box[0]}` }, now.box[1]);
    const plan = all.querySelector(".chosen .tonight-when")?.textContent ?? "";
    why.replaceChildren(now.why, link ?? "", link ? ". " : " ", plan);
  }

  addEventListener("hashchange", () => {
    fromAddress();
    if (!linked) return;
    show();
    document.getElementById(location.hash.slice(1))?.scrollIntoView();
  });
  shed.heed("ticks", show);
  shed.heed("stage", show);
  fromAddress();
  show();
  if (linked) document.getElementById(location.hash.slice(1))?.scrollIntoView();
})();

// Paper: whose guide a sheet belongs to, at the foot of each, and a button that prints the page.
(() => {
  "use strict";
  // Style sheets alone can't know the title; written as JSON it is a string of CSS too.
  document.documentElement.style.setProperty("--sb-sheet-title", JSON.stringify(document.title));
  for (const button of document.querySelectorAll(".sb-print")) button.addEventListener("click", () => print());
})();

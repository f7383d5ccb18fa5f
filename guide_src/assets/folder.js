// Opened from a folder, a page may not fetch: take the search away there before the theme tries to start it.
if (location.protocol === "file:") {
  document.querySelectorAll("[data-md-component=search], label[for=__search], [data-way=search]").forEach((part) => part.remove());
}

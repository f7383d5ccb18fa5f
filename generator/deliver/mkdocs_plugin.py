"""The one place where a guide meets MkDocs: pages go in from memory, alike for preview and for building."""

from __future__ import annotations

import copy
import fnmatch
import logging
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup
from mkdocs.commands.build import get_context
from mkdocs.config import base, config_options
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page

from generator.deliver import offline, preview
from generator.deliver.policy import inline_scripts, policy
from generator.guide.pages import Guide
from generator.guide.stages import BUILD_STAGES
from generator.guide.words import safe_text
from generator.guides import make_guide
from generator.inputs.fault import BadInput
from generator.inputs.site import builder_slugs

ROOT = Path(__file__).resolve().parents[2]
UNUSED = ("*.map", "assets/javascripts/lunr/*", "assets/images/favicon.png")
NOT_SEARCHED = ("svg", 'dd class="number-how"', 'dd class="number-kind"')
"""Beginnings of elements: the words in a drawing, and how a number was got. Its name and value are searched."""

TOLD_ELSEWHERE = frozenset({"tonight.md"})
"""Pages that repeat what other pages say."""

log = logging.getLogger("mkdocs.plugins.shedbook")


class GuideConfig(base.Config):  # type: ignore[no-untyped-call]
    """The plugin's part of mkdocs.yml."""

    builder = config_options.Type(str, default="")
    folder = config_options.Type(str, default="site_data")


class GuidePlugin(BasePlugin[GuideConfig]):  # type: ignore[no-untyped-call]
    """Feeds one guide to MkDocs. `guide`, once set, is taken instead of making one from files."""

    guide: Guide | None = None
    serving = False

    def on_startup(self, *, command: str, dirty: bool) -> None:
        self.serving = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Make the guide; what goes into the config is safe for templates that do not escape."""
        self._data = Path(config.config_file_path).parent / self.config.folder
        self._now = self.guide or self._make()
        titles = {page.file: _safe(page.title) for page in self._now.pages}
        config.site_name = _safe(self._now.title)
        config.nav = [{_safe(group.title): [{titles[file]: file} for file in group.files]} for group in self._now.nav]
        return config

    def _make(self) -> Guide:
        try:
            return make_guide(self._data, self.config.builder or next(iter(builder_slugs(self._data)), ""))
        except BadInput as bad:
            if not self.serving:
                raise PluginError(str(bad)) from bad
            return preview.message_guide([str(fault) for fault in bad.faults])
        except Exception as broken:  # a preview outlives a half-edited template
            if not self.serving:
                raise
            log.exception("The guide could not be made")
            return preview.message_guide([f"{type(broken).__name__}: {broken}"])

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Put the pages in, and leave out what no guide needs."""
        for file in list(files):
            if any(fnmatch.fnmatch(file.src_uri, pattern) for pattern in UNUSED):
                files.remove(file)
        for page in self._now.pages:
            files.append(File.generated(config, page.file, content=page.markdown))
        if self.serving:
            files.append(File.generated(config, offline.WORKER, content=offline.no_worker()))
        return files

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Keep out of the search, which every page loads, what is found elsewhere or makes no sense by itself.

        The marks go again.
        """
        if page.file.src_uri in TOLD_ELSEWHERE:
            page.meta["search"] = {"exclude": True}
        for tag in NOT_SEARCHED:
            html = html.replace(f"<{tag}", f'<{tag} data-search-exclude="1"')
        return html

    def on_env(self, env: jinja2.Environment, *, config: MkDocsConfig, files: Files) -> jinja2.Environment:
        """Take the policy's hashes from the theme rendered with an empty page and no typed word in it."""
        config.theme.static_templates.clear()  # no 404 page with absolute paths, no empty sitemap
        env.globals["policy"] = ""
        env.globals["guide_key"] = self._now.key
        env.globals["preview"] = self.serving
        env.globals["build_stages"] = frozenset(stage.file for stage in BUILD_STAGES)
        env.globals["needs"] = {page.file: page.needs for page in self._now.pages}
        env.globals["here"] = next((page.file for page in self._now.pages if page.slug == self._now.here), "")
        bare = copy.copy(config)
        bare.site_name = ""
        page = Page("", File("empty.md", None, config.site_dir, config.use_directory_urls), bare)
        page.content = ""
        html = env.get_template("main.html").render(get_context(Navigation([], []), [], bare, page))
        env.globals["policy"] = policy(inline_scripts(html))
        return env

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Add what lets the finished folder open without a network; a preview is never kept."""
        if not self.serving:
            offline.add_offline(Path(config.site_dir), title=str(self._now.title), key=self._now.key)

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Any) -> LiveReloadServer:
        """Reload on an edit of the files that a guide is made from."""
        for folder in (self._data, ROOT / "guide_src"):
            if folder.is_dir():
                server.watch(str(folder))
        preview.let_reload_script_run(server)
        return server


def _safe(text: str) -> Markup:
    """`text` for MkDocs' templates, which escape nothing; what is marked as safe already stays as it is."""
    return text if isinstance(text, Markup) else safe_text(text)

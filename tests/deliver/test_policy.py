"""The policy lets the theme's own scripts run and nothing else."""

from generator.deliver.policy import inline_scripts, policy, script_hash

ALERT = "alert('Hello, world.');"


def test_the_hash_is_the_one_of_the_standard():
    # Content Security Policy Level 2 (W3C), example of hash usage for this very script (from memory).
    assert script_hash(ALERT) == "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"


def test_only_scripts_that_run_and_stand_in_the_page_are_found():
    html = (
        f"<script>{ALERT}</script><script src='a.js'></script>"
        '<script type="application/json">{"a": "</b>"}</script><SCRIPT TYPE="module">let a = 1 < 2;</SCRIPT>'
    )
    assert inline_scripts(html) == (ALERT, "let a = 1 < 2;")


def test_the_policy_starts_from_nothing():
    text = policy([ALERT, ALERT])
    rules = dict(rule.split(" ", 1) for rule in text.split("; "))
    assert rules["default-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    assert rules["script-src"] == f"'self' {script_hash(ALERT)}"
    assert rules["style-src"] == "'self'"
    assert "unsafe" not in text

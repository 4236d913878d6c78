"""The demo runs the main job on two quite different recipes."""

from __future__ import annotations

import shlex

from doughwright.store import open_bench


def test_the_demo_shows_the_main_job_on_two_recipes(run, tmp_path):
    """Formula, water, days with a picture, plan and card of each; then it ends, since this is no terminal."""
    ran = run("demo")
    assert ran.code == 0
    for name in ("leek-and-rye-flat-pie", "boathouse-milk-loaf"):
        for verb in ("formula", "water", "days", "plan", "card"):
            assert f"$ doughwright {verb} {name}.toml --bench saltmarsh-kitchen" in ran.out
        assert (tmp_path / "saltmarsh-kitchen" / f"{name}.pdf").read_bytes().startswith(b"%PDF-")
    assert ran.out.count("█") > 100
    assert ran.out.count("will be ripe") == 2


def test_the_commands_it_shows_can_be_run(run):
    """What stands after the dollar sign is a command."""
    shown = [line.removeprefix("$ doughwright ") for line in run("demo").out.split("\n") if line[:2] == "$ "]
    assert len(shown) == 10
    for line in shown:
        assert run(*shlex.split(line)).code == 0, line


def test_a_second_demo_writes_nothing_over(run, tmp_path):
    """A document that was changed on the bench stays as it is."""
    run("demo")
    with open_bench(tmp_path / "saltmarsh-kitchen") as bench:
        head = bench.head("recipe", "boathouse-milk-loaf.toml")
        changed = head.text.replace('"1.2 g"', '"1.4 g"')
        bench.save("recipe", "boathouse-milk-loaf.toml", changed, expected=head.number)
    assert run("demo").code == 0
    with open_bench(tmp_path / "saltmarsh-kitchen") as bench:
        assert bench.head("recipe", "boathouse-milk-loaf.toml").text == changed

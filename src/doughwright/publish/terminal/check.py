"""A checked document as text."""

from __future__ import annotations

from doughwright.publish.checked import Checked
from doughwright.publish.terminal.columns import wrapped
from doughwright.publish.terminal.moved import moved_lines


def checked_text(checked: Checked) -> str:
    """The document read back, then what reads oddly, what is assumed and what moved."""
    lines = [line for sentence in checked.says for line in wrapped(sentence)]
    for warning in checked.warnings:
        lines += ["", *wrapped(f"Note: {warning}")]
    if checked.out_of_scope:
        lines += ["", *wrapped("Not modelled: " + "; ".join(checked.out_of_scope) + ".")]
    if checked.assumed:
        lines += ["", *wrapped(f"Assumed of the kitchen: {'; '.join(checked.assumed)}.")]
    if checked.cautions:
        lines += ["", "Cautions:"]
    for caution in checked.cautions:
        lines += wrapped(f"{caution.what} {caution.do} (Source: {caution.source})", "  ")
    if checked.moved:
        lines += ["", "What moved:", *moved_lines(checked.moved)]
    return "\n".join(lines)

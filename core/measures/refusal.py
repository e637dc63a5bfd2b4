"""The one error a cook may see: a sentence that names the thing and says the mend."""

_LONGEST_QUOTE = 40


class Refusal(ValueError):
    """Say in sentences fit to show what cannot be done and what to do instead."""

    @property
    def text(self) -> str:
        """Return the sentences."""
        return str(self)


def quoted(text: str) -> str:
    """Return what was typed in double quotes: on one line, cut short when long, after a word where there is one."""
    line = "".join(sign if sign.isprintable() else "�" for sign in " ".join(text.split()))
    if len(line) > _LONGEST_QUOTE:
        head = line[: _LONGEST_QUOTE - 1]
        whole = head.rpartition(" ")[0]
        line = (whole if 2 * len(whole) > len(head) else head).rstrip() + "…"
    return f'"{line}"'

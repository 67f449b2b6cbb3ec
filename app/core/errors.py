"""What cannot be carried out, in words for a person."""


class WorkshopError(Exception):
    """A request that cannot be carried out.

    The message is a sentence: what is wrong, where, what would work. ``input``
    names the field at fault; ``nearest`` is the closest value that would do.
    """

    def __init__(self, message: str, *, input: str = "", nearest: str = "") -> None:
        super().__init__(message)
        self.input = input
        self.nearest = nearest


class NotFound(WorkshopError):
    """What was asked for is not in this workspace."""


class StaleEdit(WorkshopError):
    """Somebody saved the same thing in between; neither version is lost.

    ``stored`` holds what is saved now, field by field as it would be typed.
    """

    def __init__(self, thing: str, stored: dict[str, str]) -> None:
        super().__init__(
            f"{thing} was changed in another window after this page was opened. "
            "Nothing was saved. What you typed is still here, with what is saved "
            "now beside it: save again to keep yours."
        )
        self.stored = stored


class WorkspaceBusy(WorkshopError):
    """Another program holds what this one needs."""
